"""The true plan of frames joined side by side or as a bay: where every frame and post stands, and what the whole measures.

Seen from above, mm: the origin is the left end of the outer face, the x axis runs through its right end (so along the wall
that both ends stand on), y grows towards the room. A bay stands out towards smaller y.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, takewhile
from typing import NamedTuple

from elevations.plane import SAME_MM, Corner, Outline, Point
from elevations.working import Source, Term, Working


class Bend(NamedTuple):
    """What stands between two facets."""

    turn: float
    """How much the second is turned against the first, towards the room, degrees: 0 in one plane."""
    parts: tuple[Term, ...]
    """Along the outer face: a coupler's width, or both faces of a post."""
    depth: float
    """Of a coupler, mm; a post is as deep as the frames."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan, from the left end seen from outside."""

    frames: tuple[Outline, ...]
    joints: tuple[Outline, ...]
    """Posts begin at the corner of their outer faces."""
    turns: tuple[float, ...]
    """Degrees from the x axis to each frame: negative where it runs away from the wall."""
    outer: tuple[Point, ...]
    inner: tuple[Point, ...]
    """Both faces from end to end, with a point at each change of direction."""
    width: Working
    """From end to end of the outer face, straight."""
    projection: Working
    """How far the outer face stands out from the line through its ends."""
    inner_width: Working
    """From end to end of the inner face, along the same axis."""
    inner_projection: Working
    """How far the inner face stands out from that of its ends that is further out, square to the same axis."""


class _Stretch(NamedTuple):
    """A straight piece of the outer face: a frame, a coupler or one face of a post."""

    term: Term
    heading: float
    """Degrees from the x axis, counter-clockwise."""
    start: Point
    bend: int | None
    """Which bend it is part of; None of a frame."""

    @property
    def end(self) -> Point:
        return _on(self.start, self.heading, self.term.amount)


def bay_plan(widths: Sequence[Term], bends: Sequence[Bend], depth: float) -> Plan:
    """The plan of frames of these widths and that depth, mm; bends[i] stands between frames i and i + 1."""
    way = _laid(widths, bends, 0.0)
    end = way[-1].end
    way = _laid(widths, bends, -math.degrees(math.atan2(end.y, end.x)))
    firsts = [way[0], *(b for a, b in pairwise(way) if abs(a.heading - b.heading) > SAME_MM)]
    outer = [*(stretch.start for stretch in firsts), way[-1].end]
    inner = _inner_face(outer, [stretch.heading for stretch in firsts], depth)
    width = Working(tuple(_share(stretch, "cos") for stretch in way))
    ends = [
        Term(-depth * abs(math.sin(math.radians(stretch.heading))), f"the {side} end of the inner face lies further in",
             Source("system", "depth"), (f"{depth:g} x sin {abs(stretch.heading):.2f} degrees",))
        for side, stretch in (("left", way[0]), ("right", way[-1])) if abs(stretch.heading) > SAME_MM
    ]
    return Plan(
        tuple(_box(s.start, s.heading, s.term.amount, 0.0, depth) for s in way if s.bend is None),
        tuple(_joint([s for s in way if s.bend == number], bend.depth, depth) for number, bend in enumerate(bends)),
        tuple(stretch.heading for stretch in way if stretch.bend is None),
        tuple(outer), tuple(inner), width, _projection(way, firsts), width.plus(*ends), _inner_projection(way, firsts, inner, depth),
    )


def _laid(widths: Sequence[Term], bends: Sequence[Bend], heading: float) -> list[_Stretch]:
    """Every stretch of the outer face, the first in that direction from the origin."""
    found: list[_Stretch] = []

    def lay(term: Term, bend: int | None) -> None:
        found.append(_Stretch(term, heading, found[-1].end if found else Point(0.0, 0.0), bend))

    for number, width in enumerate(widths):
        lay(width, None)
        if number < len(bends):
            lay(bends[number].parts[0], number)
            heading += bends[number].turn
            for part in bends[number].parts[1:]:
                lay(part, number)
    return found


def _on(point: Point, heading: float, along: float, inwards: float = 0.0) -> Point:
    """A point further along a direction, and to its left: towards the room."""
    cos, sin = math.cos(math.radians(heading)), math.sin(math.radians(heading))
    return Point(point.x + along * cos - inwards * sin, point.y + along * sin + inwards * cos)


def _box(start: Point, heading: float, length: float, near: float, far: float) -> Outline:
    corners = [_on(start, heading, along, inwards) for along, inwards in ((0.0, near), (length, near), (length, far), (0.0, far))]
    return Outline(tuple(Corner(*point) for point in corners))


def _joint(stretches: Sequence[_Stretch], own_depth: float, depth: float) -> Outline:
    """A coupler in the middle of the frames' depth; a post from face to face, mitred to the corner of the inner faces."""
    first, last = stretches[0], stretches[-1]
    if len(stretches) == 1:
        return _box(first.start, first.heading, first.term.amount, (depth - own_depth) / 2, (depth + own_depth) / 2)
    back = _corner_behind(last.start, first.heading, last.heading, depth)
    points = (
        last.start, last.end, _on(last.end, last.heading, 0.0, depth), back, _on(first.start, first.heading, 0.0, depth), first.start,
    )
    return Outline(tuple(Corner(*point) for point in points))


def _corner_behind(corner: Point, first: float, second: float, depth: float) -> Point:
    """Where the inner faces of two facets meet: on the bisector of their directions' squares."""
    return _on(corner, (first + second) / 2, 0.0, depth / math.cos(math.radians(second - first) / 2))


def _inner_face(outer: Sequence[Point], headings: Sequence[float], depth: float) -> list[Point]:
    """The face `depth` further in: square to the end facets at its ends, on the bisector at each corner."""
    corners = zip(outer[1:-1], pairwise(headings), strict=True)
    return [
        _on(outer[0], headings[0], 0.0, depth),
        *(_corner_behind(corner, first, second, depth) for corner, (first, second) in corners),
        _on(outer[-1], headings[-1], 0.0, depth),
    ]


def _share(stretch: _Stretch, name: str) -> Term:
    """What a stretch adds along the x axis ('cos') or outwards, against the y axis ('sin')."""
    angle = math.radians(stretch.heading)
    amount = stretch.term.amount * (math.cos(angle) if name == "cos" else -math.sin(angle))
    if name == "cos" and abs(stretch.heading) <= SAME_MM:
        return stretch.term
    return stretch.term._replace(amount=amount, detail=(f"{stretch.term.amount:g} x {name} {abs(stretch.heading):.2f} degrees",))


def _outwards(way: Sequence[_Stretch], corner: Point) -> Working:
    """How far a corner of the outer face stands out: the sum of all stretches before it."""
    before = takewhile(lambda stretch: stretch.start != corner, way)
    return Working(tuple(_share(stretch, "sin") for stretch in before if abs(stretch.heading) > SAME_MM))


def _projection(way: Sequence[_Stretch], firsts: Sequence[_Stretch]) -> Working:
    furthest = min((stretch.start for stretch in firsts), key=lambda point: point.y)
    return _outwards(way, furthest)


def _inner_projection(way: Sequence[_Stretch], firsts: Sequence[_Stretch], inner: Sequence[Point], depth: float) -> Working:
    """From the corner of the outer face in front of the inner face's furthest one, in to it, and out from the end."""
    number = min(range(len(inner)), key=lambda i: inner[i].y)
    if number in (0, len(inner) - 1):
        return Working(())
    first, second = firsts[number - 1].heading, firsts[number].heading
    end = min((inner[0], way[0].heading), (inner[-1], way[-1].heading), key=lambda item: item[0].y)[1]
    behind = depth * math.cos(math.radians(first + second) / 2) / math.cos(math.radians(second - first) / 2)
    source = Source("system", "depth")
    return _outwards(way, firsts[number].start).plus(
        Term(depth * math.cos(math.radians(end)), "the end of the inner face lies further in", source,
             (f"{depth:g} x cos {abs(end):.2f} degrees",)),
        Term(-behind, "its corner lies behind that of the outer face", source,
             (f"{depth:g} x cos {abs(first + second) / 2:.2f} / cos {(second - first) / 2:.2f} degrees",)),
    )
