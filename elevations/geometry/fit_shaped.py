"""The frame that fits a hole under a slope or an arch, and where a frame as given stands best in one.

The frame keeps the shape of its hole, set in by the clearance: jambs plumb, sill and springing level. Gaps are measured along
the level at jambs and plumb at the sill, as everywhere, and square to the head along it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from elevations.geometry.fit_head import (
    Bent,
    Disc,
    Edges,
    Piece,
    head_edges,
    most_up,
    off_edges,
    off_point,
    pieces_of,
    point_at,
)
from elevations.geometry.fit_rectangle import GIVEN_UP_MM, HELD
from elevations.geometry.hole import Hole, Inward, off_side
from elevations.plane import Box, Point
from elevations.shapes import Arched, Pointed, Raked, Shape

Arch = Arched | Pointed
ARCHES: dict[str, type[Arched | Pointed]] = {"arched": Arched, "pointed": Pointed}

FORGIVEN_MM = 0.05
"""A size this little short of a whole step is not rounded down to the one before: no tape reads it, and a length taped along
a sill 2 out of level is shorter on the level by a few thousandths."""
STEPS = 60
"""Of halving and of narrowing in: to a millionth of a mm from any size of window."""
ROUNDS = 12
"""Sides lean at most 1 in 20, so each round of fitting one side after the other is twenty times closer."""
GOLDEN = (math.sqrt(5) - 1) / 2
LEAST_RISE_MM = 5.0
LEFT_FOR_A_SEMICIRCLE = 0.998
"""A semicircle is made as one where that leaves so much of the largest frame: what it loses no eye sees, a broken curve it does."""


@dataclass(frozen=True, slots=True)
class ShapedFrame:
    """A frame in its shaped hole: its shape and size, before and after rounding, and where its bounding box stands."""

    shape: Raked | Arch
    width: float
    height: float
    exact: tuple[float, float]
    """Width and height before they were rounded, mm."""
    exact_shape: Raked | Arch


def largest_shaped(hole: Hole, inward: Inward, to: float) -> ShapedFrame | None:
    """The largest frame of the hole's shape that stays `inward` off each side, rounded down to a multiple of `to`; None where none does.

    Largest by area; its jambs are as far apart as the hole allows over their own height. A rise is rounded to whole mm, up
    or down, whichever leaves the larger frame: rounded alone it would not keep the arch's distance.
    """
    pieces = pieces_of(hole)
    exact = _exact(hole, inward, pieces)
    if exact is None:
        return None
    box, shape = exact
    width = _down(box.width, to)
    left = box.left + (box.width - width) / 2
    rounded: Raked | Arch | None
    if isinstance(shape, Raked):
        rounded = Raked(_down(shape.left, to), _down(shape.right, to))
        height = max(rounded.left, rounded.right)
    else:
        inset = inward.head - max(0.0, width - box.width) / 2   # what was forgiven of the width is missing at the springings
        rounded, height = _round_rise(hole.kind, pieces, inset, Box(left, box.bottom, left + width, box.top), to)
    if rounded is None or width <= 0 or height <= 0:
        return None
    return ShapedFrame(rounded, width, height, (box.width, box.height), shape)


def _down(size: float, to: float) -> float:
    return math.floor((size + FORGIVEN_MM) / to) * to


def _round_rise(kind: str, pieces: tuple[Piece, ...], inset: float, box: Box, to: float) -> tuple[Arch | None, float]:
    """The largest arch over jambs of that width with its rise in whole mm, or half the width for a semicircle; and the whole height with it.

    A semicircle set in from one as surveyed is the largest frame only where every length is exact: half a mm less of width and the
    larger arch springs some 20 higher, with corners where jambs and arch should run into each other.
    """
    half = box.width / 2
    if half <= LEAST_RISE_MM:
        return None, 0.0
    rise = _largest_arch(kind, pieces, inset, box.left, box.width, box.bottom)[0].rise
    whole = math.floor(rise)
    tried = {float(whole), whole + 1.0, *((half,) if kind == "arched" else ())}
    best: tuple[float, Arch | None, float] = (0.0, None, 0.0)
    for each in sorted(tried, key=lambda rise: (rise != half, rise)):   # a semicircle first
        if not _can_rise(kind, each, half):
            continue
        made = ARCHES[kind](each)
        up = _springing(made, pieces, inset, box.left, box.width, box.bottom)
        height = _down(up + each - box.bottom, to)
        area = made.outline(box.width, height).area if height > each else 0.0
        if area * (LEFT_FOR_A_SEMICIRCLE if best[1] and best[1].rise == half else 1.0) > best[0]:
            best = area, made, height
    return best[1], best[2]


def _can_rise(kind: str, rise: float, half: float) -> bool:
    return LEAST_RISE_MM <= rise <= half + 1e-9 if kind == "arched" else rise > half + 1e-3


def _exact(hole: Hole, inward: Inward, pieces: tuple[Piece, ...]) -> tuple[Box, Raked | Arch] | None:
    """The largest frame before rounding: one side after the other, until none moves any more."""
    ends = [hole.left[-1].y, hole.right[-1].y]   # how high the jambs reach, left and right
    left = right = 0.0
    bottom = max(p.y for p in hole.sill) + inward.sill
    shape: Raked | Arch | None = None
    for _ in range(ROUNDS):
        before = (left, right, bottom, *ends)
        left = _reach(hole.left, bottom, ends[0], upright=True, low=True) + inward.left
        right = _reach(hole.right, bottom, ends[1], upright=True, low=False) - inward.right
        left, right = _within(pieces, inward.head, left, right)
        if right - left <= 2 * LEAST_RISE_MM:
            return None
        bottom = _reach(hole.sill, left, right, upright=False, low=True) + inward.sill
        if hole.kind == "raked":
            ends = [_under(pieces, x, inward.head) for x in (left, right)]
            if min(ends) <= bottom:
                return None
            shape, top = Raked(ends[0] - bottom, ends[1] - bottom), max(ends)
        else:
            shape, up = _largest_arch(hole.kind, pieces, inward.head, left, right - left, bottom)
            ends, top = [up, up], up + shape.rise
            if up <= bottom:
                return None
        if all(abs(a - b) < HELD for a, b in zip(before, (left, right, bottom, *ends), strict=True)):
            break
    assert shape is not None
    return Box(left, bottom, right, top), shape


def _within(pieces: tuple[Piece, ...], inset: float, left: float, right: float) -> tuple[float, float]:
    """Jambs no further apart than the arch over them, where they lean away from its springings."""
    arches = [piece for piece in pieces if isinstance(piece, Disc)]
    return (
        max([left, *(arch.centre.x - arch.radius + inset for arch in arches)]), min([right, *(arch.centre.x + arch.radius - inset for arch in arches)]),
    )


def _reach(side: tuple[Point, ...], start: float, end: float, *, upright: bool, low: bool) -> float:
    """How far a side of the hole comes in between two places along it: the most of a left side or sill, the least of a right one."""
    places = [start, end, *(along for p in side[1:-1] for along in ((p.y if upright else p.x),) if start < along < end)]
    return (max if low else min)(off_side(side, at, upright=upright) for at in places)


def _under(pieces: tuple[Piece, ...], x: float, inset: float) -> float:
    """How high a place on that upright may be, to stay `inset` off a slope; under one that bows inwards, off the parallel through its bow."""
    slopes = [piece.parallel() if isinstance(piece, Bent) else piece for piece in pieces if not isinstance(piece, Disc)]
    return min(p.through.y - ((x - p.through.x) * p.up.x + inset) / p.up.y for p in slopes)


def _largest_arch(kind: str, pieces: tuple[Piece, ...], inset: float, left: float, width: float, bottom: float) -> tuple[Arch, float]:
    """The arch over jambs that far apart which leaves the largest frame, and the height of its springing; by narrowing in on its rise."""
    half = width / 2

    def tried(rise: float) -> tuple[float, Arch, float]:
        shape = ARCHES[kind](rise)
        up = _springing(shape, pieces, inset, left, width, bottom)
        return shape.outline(width, up - bottom + rise).area if up > bottom else up - bottom, shape, up

    low, high = (LEAST_RISE_MM, half) if kind == "arched" else (half + 0.01, 4 * width)
    found = _top_of(lambda rise: tried(rise)[0], low, high)
    best = max((tried(found), tried(low), tried(high)), key=lambda each: each[0])   # the top may be at an end
    return best[1], best[2]


def _springing(shape: Arch, pieces: tuple[Piece, ...], inset: float, left: float, width: float, bottom: float) -> float:
    """How high the springing of that shape may be, to stay `inset` off the head everywhere."""
    edges = head_edges(shape, width, 2 * shape.rise, left, bottom - shape.rise)   # its springing at `bottom`
    up = most_up(pieces, edges, inset)
    if up < 0 or off_edges(pieces, _lifted(edges, up)) >= inset - HELD:
        return bottom + up
    low, high = 0.0, up   # the arch leans so far out of its hole's middle that no closed form holds
    for _ in range(STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if off_edges(pieces, _lifted(edges, middle)) >= inset - HELD else (low, middle)
    return bottom + low


def _lifted(edges: Edges, up: float) -> Edges:
    return [(a._replace(y=a.y + up), b._replace(y=b.y + up)) for a, b in edges]


def best_shaped_place(hole: Hole, stack: Inward, shape: Shape, width: float, height: float, enough: float) -> Box:
    """Where a shaped frame leaves the largest smallest gap, which may be below 0, and is in the middle besides: see `best_place`.

    The least of the gaps is a concave function of the place, so narrowing in on it, up in steps along the level, finds its top.
    """
    gaps = gaps_at(hole, stack, shape, width, height)
    start = hole.left[0]
    play = max(p.x for p in hole.right) - width, hole.head[0].y - height

    def highest(x: float) -> float:
        return _top_of(lambda y: min(gaps(x, y)), start.y - height, start.y + max(play[1], 0.0) + height)

    x = _top_of(lambda at: min(gaps(at, highest(at))), start.x - width / 2, start.x + max(play[0], 0.0) + width / 2)
    best = (x, highest(x))
    most = min(gaps(*best))
    least = most - GIVEN_UP_MM if most < enough else max(most - GIVEN_UP_MM, enough)
    for first in (0, 1):
        at = [*best]
        for axis in (first, 1 - first):
            low, high = gaps(at[0], at[1])[2 * axis : 2 * axis + 2]
            at[axis] += (high - low) / 2
        if min(gaps(at[0], at[1])) >= least - HELD:
            return Box(at[0], at[1], at[0] + width, at[1] + height)
    return Box(best[0], best[1], best[0] + width, best[1] + height)


def gaps_at(hole: Hole, stack: Inward, shape: Shape, width: float, height: float) -> Callable[[float, float], tuple[float, float, float, float]]:
    """The least gap of a frame at left, right, sill and head, each over its whole length, by where its lower left corner is."""
    pieces = pieces_of(hole)
    head = head_edges(shape, width, height, 0.0, 0.0)
    right_top, left_top = head[0][0].y, head[-1][1].y

    def at(x: float, y: float) -> tuple[float, float, float, float]:
        moved = [(a._replace(x=a.x + x, y=a.y + y), b._replace(x=b.x + x, y=b.y + y)) for a, b in head]
        return (
            x - _reach(hole.left, y, y + left_top, upright=True, low=True) - stack.left,
            _reach(hole.right, y, y + right_top, upright=True, low=False) - x - width - stack.right,
            y - _reach(hole.sill, x, x + width, upright=False, low=True) - stack.sill,
            off_edges(pieces, moved) - stack.head,
        )

    return at


def over_the_middle(hole: Hole, shape: Shape, box: Box) -> float:
    """From the middle of a frame's head up to the hole's, plumb, mm."""
    x = box.centre.x
    up = hole.crown.y if hole.crown is not None else off_side(hole.head, x, upright=False)
    return up - point_at(head_edges(shape, box.width, box.height, box.left, box.bottom), x).y


def jamb_tops(shape: Shape, box: Box) -> tuple[float, float]:
    """How high the jambs of a frame reach that stands there, left and right."""
    head = head_edges(shape, box.width, box.height, box.left, box.bottom)
    return head[-1][1].y, head[0][0].y


def head_gaps(hole: Hole, shape: Shape, box: Box) -> tuple[float, ...]:
    """How far a frame's head is off the hole's, square to it: at both ends and the middle, along an arch at the quarters of its width too."""
    head, pieces = head_edges(shape, box.width, box.height, box.left, box.bottom), pieces_of(hole)
    parts = 2 if hole.kind == "raked" else 4
    return tuple(off_point(pieces, point_at(head, box.left + box.width * number / parts)) for number in range(parts + 1))


def _top_of(worth: Callable[[float], float], low: float, high: float) -> float:
    """Where a function with one top is greatest between two places, by the golden section."""
    a, b = high - (high - low) * GOLDEN, low + (high - low) * GOLDEN
    at_a, at_b = worth(a), worth(b)
    for _ in range(STEPS):
        if at_a >= at_b:
            high, b, at_b = b, a, at_a
            a = high - (high - low) * GOLDEN
            at_a = worth(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + (high - low) * GOLDEN
            at_b = worth(b)
    return (low + high) / 2
