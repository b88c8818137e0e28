"""Places on the edges of an outline: where a line crosses it, how far along an edge a point lies, how an end is cut."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from elevations.plane import SAME_MM, Corner, Outline, Point, arc_centre, arc_radius

STRAIGHT_ON = math.cos(math.radians(1.0))
"""Cosine of the turn, 1 degree, below which an outline counts as running straight on through a corner."""


class Crossing(NamedTuple):
    """Where a level or upright line crosses an outline."""

    at: float
    """On the line: y of an upright one, x of a level one, mm."""
    edge: int
    out_of_square: float
    """Degrees between the edge and the square to the line: 0 where the line meets it squarely."""


def chord(outline: Outline, axis: int, at: float) -> tuple[Crossing, Crossing] | None:
    """The first and the last crossing of the line x = at (axis 0) or y = at (axis 1), for outlines without hollows; None outside.

    Through a corner the edge that is nearest to square counts.
    """
    found = [
        Crossing(place, number, angle) for number, (a, b) in enumerate(outline.edges()) for place, angle in _crossings(a, b, axis, at)
    ]
    if not found:
        return None
    low, high = min(c.at for c in found), max(c.at for c in found)
    if high - low <= SAME_MM:
        return None
    first = min((c for c in found if c.at - low <= SAME_MM), key=lambda c: c.out_of_square)
    last = min((c for c in found if high - c.at <= SAME_MM), key=lambda c: c.out_of_square)
    return first, last


def spans(outline: Outline, axis: int, at: float) -> list[tuple[float, float]]:
    """The parts of the line x = at (axis 0) or y = at (axis 1) that lie inside an outline, hollows or not, from the low end."""
    found = sorted(place for a, b in outline.edges() for place, _ in _crossings(a, b, axis, at))
    places = [place for i, place in enumerate(found) if not i or place - found[i - 1] > SAME_MM]
    return list(zip(places[::2], places[1::2], strict=False))


def _crossings(a: Corner, b: Corner, axis: int, at: float) -> Iterator[tuple[float, float]]:
    """Places on the line where one edge meets it, and how far the edge is out of square to it, degrees."""
    across, along = axis, 1 - axis
    if not a.bulge:
        run = b[across] - a[across]
        if abs(run) <= SAME_MM:
            return
        share = (at - a[across]) / run
        if -SAME_MM <= share * abs(run) <= abs(run) + SAME_MM:
            climb = b[along] - a[along]
            yield a[along] + share * climb, math.degrees(math.atan2(abs(climb), abs(run)))
        return
    centre, radius = arc_centre(a, b), arc_radius(a, b)
    off = at - centre[across]
    if abs(off) > radius:
        return
    for reach in (math.sqrt(radius * radius - off * off), -math.sqrt(radius * radius - off * off)):
        place = [at, at]
        place[along] = centre[along] + reach
        if _turned(a, b, centre, Point(*place)) is not None:
            yield place[along], math.degrees(math.asin(min(1.0, abs(off) / radius)))


def _turned(a: Corner, b: Corner, centre: Point, point: Point) -> float | None:
    """Angle along an arc from its start to a point on its circle, radians; None where the arc does not reach there."""
    sweep = 4 * math.atan(a.bulge)
    turn = math.copysign(1.0, sweep)
    angle = turn * (math.atan2(point.y - centre.y, point.x - centre.x) - math.atan2(a.y - centre.y, a.x - centre.x)) % math.tau
    near = SAME_MM / max(arc_radius(a, b), 1.0)
    if angle > math.tau - near:
        angle = 0.0
    return min(angle, abs(sweep)) if angle <= abs(sweep) + near else None


def distance_along(outline: Outline, edge: int, point: Point) -> float | None:
    """How far a point of an edge lies from the edge's start, along it, mm; None where it is not on the edge."""
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    if not a.bulge:
        length = math.dist(a[:2], b[:2])
        ux, uy = (b.x - a.x) / length, (b.y - a.y) / length
        dx, dy = point.x - a.x, point.y - a.y
        along = dx * ux + dy * uy
        on_it = abs(dx * uy - dy * ux) <= 2 * SAME_MM and -SAME_MM <= along <= length + SAME_MM
        return along if on_it else None
    centre, radius = arc_centre(a, b), arc_radius(a, b)
    if abs(math.dist(centre, point) - radius) > 2 * SAME_MM:
        return None
    turned = _turned(a, b, centre, point)
    return None if turned is None else turned * radius


def place_on(outline: Outline, edge: int, along: float) -> tuple[Point, Point]:
    """The point of an edge that far from its start, mm, and the direction of length 1 that points into the outline there."""
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    if not a.bulge:
        length = math.dist(a[:2], b[:2])
        ux, uy = (b.x - a.x) / length, (b.y - a.y) / length
        return Point(a.x + along * ux, a.y + along * uy), Point(-uy, ux)
    centre, radius = arc_centre(a, b), arc_radius(a, b)
    turn = math.copysign(1.0, a.bulge)
    angle = math.atan2(a.y - centre.y, a.x - centre.x) + turn * along / radius
    out = Point(math.cos(angle), math.sin(angle))
    return Point(centre.x + radius * out.x, centre.y + radius * out.y), Point(-turn * out.x, -turn * out.y)


def is_kink(outline: Outline, corner: int) -> bool:
    """Whether an outline turns at a corner; not where an arc runs on into a jamb, or into the other half of a ring."""
    before = (corner or len(outline.corners)) - 1
    _, arriving = place_on(outline, before, outline.length(before))
    _, leaving = place_on(outline, corner, 0.0)
    return arriving.x * leaving.x + arriving.y * leaving.y < STRAIGHT_ON


def mitre_angles(a: Corner, b: Corner, c: Corner, d: Corner) -> tuple[float, float]:
    """How a piece is cut at both ends of its outer edge a to b, its inner edge being c to d; degrees, to 0.1.

    Each is the angle between the outer edge there, an arc's tangent, and the cut, from a to d and from b to c: 45 at a
    square mitre, 90 for a square end.
    """
    bend = 2 * math.atan(a.bulge)   # half the sweep: what the tangent turns from the chord at each end
    edge = math.atan2(b.y - a.y, b.x - a.x)
    return (
        acute_degrees(math.atan2(d.y - a.y, d.x - a.x) - (edge - bend)),
        acute_degrees(math.atan2(c.y - b.y, c.x - b.x) - (edge + bend)),
    )


def acute_degrees(angle: float) -> float:
    """The angle between two lines that differ by `angle` radians, 0 to 90 degrees, to 0.1."""
    turned = math.degrees(angle) % 180
    return round(min(turned, 180 - turned), 1)


def straight_sides(outline: Outline) -> frozenset[str]:
    """Of left, right, top and bottom, those where the outline ends in a straight upright or level edge."""
    box, found = outline.bounds, set()
    for a, b in outline.edges():
        if a.bulge:
            continue
        for name, axis, limit in (("left", 0, box.left), ("right", 0, box.right), ("bottom", 1, box.bottom), ("top", 1, box.top)):
            if abs(a[axis] - limit) < SAME_MM and abs(b[axis] - limit) < SAME_MM:
                found.add(name)
    return frozenset(found)


def is_upright(start: Point | Corner, end: Point | Corner) -> bool:
    """True for an upright edge; a sloped one counts as level, as fixings on it do."""
    return abs(end.x - start.x) <= SAME_MM


def edge_words(outline: Outline) -> list[str]:
    """What each edge of an outline (counter-clockwise) is called: bottom, right, top, left; 'top 1', 'top 2' where two are alike."""
    names = []
    for a, b in outline.edges():
        if is_upright(a, b):
            names.append("right" if b.y > a.y else "left")
        else:
            names.append("bottom" if b.x > a.x else "top")
    counts: dict[str, int] = {}
    words = []
    for name in names:
        counts[name] = counts.get(name, 0) + 1
        words.append(f"{name} {counts[name]}" if names.count(name) > 1 else name)
    return words
