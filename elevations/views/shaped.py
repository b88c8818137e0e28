"""What a shaped head changes in an elevation: symbols that follow it, and its radii and slopes in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from elevations.drawing.entities import Dimension, Entity, Label, Leader
from elevations.drawing.explode import explode_dimension, explode_leader, label_box
from elevations.drawing.extent import bounds_of
from elevations.geometry.along import chord, place_on
from elevations.geometry.window import Window
from elevations.plane import SAME_MM, Box, Corner, Outline, Point, arc_radius

NOTE_HEIGHT, CLEAR = 2.5, 0.6
"""Of the words about a head; and what they keep off other things, mm on paper."""
REACHES, LEAST_UP = (5.0, 8.0, 11.0), 0.3
"""From a head's edge to the words about it, mm on paper; and how far downwards they may be led, as a slope."""
STEPS = 20
"""Levels at which a rectangle inside an outline may begin and end."""
PLACES = (0.3, 0.2, 0.4, 0.12, 0.5, 0.6, 0.7, 0.8)
"""Where along an edge, as shares from its right end, the words may be led from, in order of preference."""


def holds(outline: Outline, point: Point) -> bool:
    """Whether an outline without hollows has a point inside it or on its edge."""
    found = chord(outline, 0, point.x)
    return found is not None and found[0].at - SAME_MM <= point.y <= found[1].at + SAME_MM


def holds_box(outline: Outline, box: Box) -> bool:
    """Whether an outline without hollows has a whole box inside it."""
    return all(holds(outline, Point(x, y)) for x in (box.left, box.right) for y in (box.bottom, box.top))


def largest_box(outline: Outline) -> Box:
    """An upright rectangle inside an outline without hollows, about the largest: room for words. The bounds of a rectangle."""
    box = outline.bounds
    if outline.is_box:
        return box
    levels = [box.bottom + box.height * (i + 0.5) / STEPS for i in range(STEPS)]
    found = [(y, across[0].at, across[1].at) for y in levels for across in (chord(outline, 1, y),) if across]
    best = Box(*box.centre, *box.centre)
    for (low, left_low, right_low), (high, left_high, right_high) in combinations(found, 2):
        inside = Box(max(left_low, left_high), low, min(right_low, right_high), high)
        if inside.width > 0 and inside.width * inside.height > best.width * best.height:
            best = inside
    return best


def on_shape(strokes: Sequence[Sequence[Point]], outline: Outline) -> list[tuple[Point, ...]]:
    """The lines of an opening symbol made for the outline's bounds, brought onto the outline itself.

    Ends on an upright or level edge of the bounds slide along that edge of the outline; what then still lies outside is cut
    off at the outline.
    """
    if outline.is_box:
        return [tuple(stroke) for stroke in strokes]
    box = outline.bounds
    return [
        tuple(_clipped(points, outline)) for stroke in strokes for points in [[_slid(point, box, outline) for point in stroke]]
    ]


def _slid(point: Point, box: Box, outline: Outline) -> Point:
    """A point on the bounds, at the same share of the outline's own straight edge on that side, where there is one."""
    for axis, limit in ((0, box.left), (0, box.right), (1, box.bottom), (1, box.top)):
        if abs(point[axis] - limit) > SAME_MM:
            continue
        along = 1 - axis
        for a, b in outline.edges():
            if not a.bulge and abs(a[axis] - limit) < SAME_MM and abs(b[axis] - limit) < SAME_MM:
                low, high = sorted((a[along], b[along]))
                share = (point[along] - box[along]) / (box[along + 2] - box[along])
                place = [limit, limit]
                place[along] = low + share * (high - low)
                return Point(*place)
    return point


def _clipped(points: Sequence[Point], outline: Outline) -> Iterator[Point]:
    """A polyline whose ends stop at the outline; its inner points stay where they are, or come onto the outline."""
    inside = [holds(outline, point) for point in points]
    for i, point in enumerate(points):
        if inside[i]:
            yield point
            continue
        near = [points[j] for j in (i - 1, i + 1) if 0 <= j < len(points) and inside[j]]
        yield _towards(point, near[0] if near else outline.bounds.centre, outline)


def _towards(point: Point, inner: Point, outline: Outline) -> Point:
    """Where the line from a point outside to one inside enters the outline, by halving: drawn lines need no more."""
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = (low + high) / 2
        here = Point(point.x + (inner.x - point.x) * middle, point.y + (inner.y - point.y) * middle)
        low, high = (low, middle) if holds(outline, here) else (middle, high)
    return Point(point.x + (inner.x - point.x) * high, point.y + (inner.y - point.y) * high)


def head_notes(window: Window, scale: float, around: Sequence[Entity]) -> tuple[Leader, ...]:
    """Radius of each arc and slope of each sloping edge of the frame, led out of it clear of what else stands around it."""
    outline, made = window.frame.outline, []
    said: set[str] = set()
    blocked = [box.grown(CLEAR * scale) for box in _boxes(around, scale)]
    for number, (a, b) in enumerate(outline.edges()):
        text = edge_words(a, b)
        leader = _leader(outline, number, text, scale, blocked) if text and text not in said else None
        if leader:
            made.append(leader)
            blocked.append(_text_box(leader, scale))
            said.add(text)
    return tuple(made)


def _boxes(around: Sequence[Entity], scale: float) -> Iterator[Box]:
    """What dimensions, line by line, and other entities take."""
    for item in around:
        parts = explode_dimension(item, scale) if isinstance(item, Dimension) else (item,)
        yield from (bounds_of(part, scale) for part in parts)


def edge_words(a: Corner, b: Corner) -> str:
    """'R 966' of an arc, 'slope 14°' of a sloping edge; empty for a level or upright one."""
    if a.bulge:
        return f"R {_tenth(arc_radius(a, b))}"
    if abs(a.x - b.x) < SAME_MM or abs(a.y - b.y) < SAME_MM:
        return ""
    return f"slope {_tenth(math.degrees(math.atan2(abs(b.y - a.y), abs(b.x - a.x))))}°"


def _tenth(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _leader(outline: Outline, number: int, text: str, scale: float, blocked: Sequence[Box]) -> Leader | None:
    """From the edge outwards, the words on the side that the edge falls away to; nothing where every place is taken."""
    length = outline.length(number)
    for reach in REACHES:
        for share in PLACES:
            at, inward = place_on(outline, number, share * length)
            if inward.y > LEAST_UP:   # the lower half of a ring: what is below it belongs to the chains
                continue
            leader = Leader((at, Point(at.x - inward.x * reach * scale, at.y - inward.y * reach * scale)), text, NOTE_HEIGHT)
            if not any(_text_box(leader, scale).overlaps(box) for box in blocked):
                return leader
    return None


def _text_box(leader: Leader, scale: float) -> Box:
    return next(label_box(part, scale) for part in explode_leader(leader, scale) if isinstance(part, Label))
