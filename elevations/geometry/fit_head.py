"""The shaped head of a surveyed hole: the arcs and slopes that end it, and how far a frame's head stays off them, exactly.

A hole under an arch or a slope is what lies inside all of its pieces: each an arch with all below it, half of the plane, or what two slopes
leave that bow inwards. What keeps a distance from the hole's edge keeps it from every piece, so the least of the distances is the gap.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from elevations.geometry.hole import Hole
from elevations.plane import Corner, Point, arc_centre, arc_radius
from elevations.shapes import Shape

FULL_TURN = 1e-9


class Disc(NamedTuple):
    """The inside of a circle and what lies straight below it, for an arch ends at its springing and jambs go on; mm."""

    centre: Point
    radius: float

    def off(self, point: Point) -> float:
        """How far inside a point is, mm; negative outside."""
        return self.radius - math.hypot(point.x - self.centre.x, max(0.0, point.y - self.centre.y))

    def outward(self, near: Point) -> Point:
        """The direction from its middle through a place."""
        return _unit(near.x - self.centre.x, near.y - self.centre.y)


class Below(NamedTuple):
    """What lies below a slope: a place on it, and the direction of length 1 square to it and upwards."""

    through: Point
    up: Point

    def off(self, point: Point) -> float:
        """How far below a point is, mm; negative above."""
        return -((point.x - self.through.x) * self.up.x + (point.y - self.through.y) * self.up.y)

    def outward(self, near: Point) -> Point:  # noqa: ARG002 (the same everywhere)
        """Upwards, square to the slope."""
        return self.up


class Bent(NamedTuple):
    """What lies below two slopes that meet in a bow inwards: left end, middle and right end, in that order."""

    left: Point
    bow: Point
    right: Point

    def off(self, point: Point) -> float:
        """How far below a point is from the nearer slope or their meeting, mm; negative above."""
        slopes = _below(self.left, self.bow), _below(self.bow, self.right)
        nearest = max(slope.off(point) for slope in slopes)
        dx, dy = point.x - self.bow.x, point.y - self.bow.y
        beside = [-slope.up.y * dx + slope.up.x * dy for slope in slopes]   # against the way along each slope
        return math.hypot(dx, dy) if nearest > 0 and beside[0] < 0 < beside[1] else nearest

    def outward(self, near: Point) -> Point:
        """Upwards, square to the line between the ends."""
        return self.parallel().outward(near)

    def parallel(self) -> Below:
        """What lies below the line through the bow that is parallel to the one between the ends."""
        return Below(self.bow, _below(self.left, self.right).up)


def _below(a: Point, b: Point) -> Below:
    return Below(a, _unit(a.y - b.y, b.x - a.x))


Piece = Disc | Below | Bent
Edges = Sequence[tuple[Corner, Corner]]


def pieces_of(hole: Hole) -> tuple[Piece, ...]:
    """The pieces that end a hole under a raked, arched or pointed head."""
    left, right = hole.head[0], hole.head[-1]
    if hole.crown is None:
        chord, middle = _below(left, right), hole.head[1]
        if len(hole.head) > 2 and chord.off(middle) > 0:
            return (Bent(left, middle, right),)
        return tuple(_below(a, b) for a, b in pairwise(hole.head))
    if hole.kind == "arched":
        return (circle_through(left, hole.crown, right),)
    along = _unit(right.x - left.x, right.y - left.y)
    return _from_springing(left, along, hole.crown), _from_springing(right, Point(-along.x, -along.y), hole.crown)


def circle_through(a: Point, b: Point, c: Point) -> Disc:
    """The circle through three points, mm."""
    bx, by, cx, cy = b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y
    twice = 2 * (bx * cy - by * cx)
    x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / twice
    y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / twice
    return Disc(Point(a.x + x, a.y + y), math.hypot(x, y))


def _from_springing(end: Point, along: Point, crown: Point) -> Disc:
    """The circle through an end of the springing line and the crown, its centre on that line."""
    dx, dy = crown.x - end.x, crown.y - end.y
    radius = (dx * dx + dy * dy) / (2 * (dx * along.x + dy * along.y))
    return Disc(Point(end.x + along.x * radius, end.y + along.y * radius), radius)


def _unit(dx: float, dy: float) -> Point:
    length = math.hypot(dx, dy) or 1.0
    return Point(dx / length, dy / length)


def head_edges(shape: Shape, width: float, height: float, left: float, bottom: float) -> tuple[tuple[Corner, Corner], ...]:
    """The edges of a frame's head, its bounding box at `left`, `bottom` of the opening."""
    outline = shape.outline(width, height).moved(left, bottom)
    return tuple(edge for edge, named in zip(outline.edges(), shape.edges(width, height), strict=True) if named.side == "head")


def off_point(pieces: Sequence[Piece], point: Point) -> float:
    """How far a place is inside the head, square to it, mm."""
    return min(piece.off(point) for piece in pieces)


def off_edges(pieces: Sequence[Piece], edges: Edges) -> float:
    """The least distance of a frame's head from that of its hole, mm; exact along whole arcs."""
    return min(_off_edge(piece, start, end) for piece in pieces for start, end in edges)


def most_up(pieces: Sequence[Piece], edges: Edges, inset: float) -> float:
    """How far up a frame's arched head may go at most, to stay `inset` off its hole's: its ends in every arch, and each arc in each.

    An arc of the smaller radius touches where the line of both centres meets it; one of the larger radius at its ends.
    """
    found = []
    for piece in pieces:
        if not isinstance(piece, Disc):
            continue
        (x, y), radius = piece.centre, piece.radius - inset
        for start, end in edges:
            found += [y + math.sqrt(max(0.0, radius**2 - (p.x - x) ** 2)) - p.y for p in (start, end)]
            centre, own = arc_centre(start, end), arc_radius(start, end)
            over = (radius - own) ** 2 - (centre.x - x) ** 2
            if own < radius and over >= 0 and _on_arc(start, centre, Point(centre.x - x, math.sqrt(over)), 4 * math.atan(start.bulge)):
                found.append(y + math.sqrt(over) - centre.y)
    return min(found)


def _on_arc(start: Corner, centre: Point, out: Point, sweep: float) -> bool:
    """Whether that direction from an arc's centre meets the arc; heads turn counter-clockwise, as outlines do."""
    return (math.atan2(out.y, out.x) - math.atan2(start.y - centre.y, start.x - centre.x)) % math.tau < sweep


def _off_edge(piece: Piece, start: Corner, end: Corner) -> float:
    ends = min(piece.off(start.point), piece.off(end.point))
    if isinstance(piece, Bent):
        return min(ends, _off_straight(piece.bow, start.point, end.point))
    if not start.bulge:
        return ends
    centre, radius = arc_centre(start, end), arc_radius(start, end)
    out = piece.outward(centre)
    if not _on_arc(start, centre, out, 4 * math.atan(start.bulge)):
        return ends
    return min(ends, piece.off(Point(centre.x + radius * out.x, centre.y + radius * out.y)))


def _off_straight(point: Point, start: Point, end: Point) -> float:
    """How far a place beside a frame's straight head is outside it, square to it, mm; heads turn counter-clockwise, as outlines do."""
    along = _unit(end.x - start.x, end.y - start.y)
    share = (point.x - start.x) * along.x + (point.y - start.y) * along.y
    if not 0 <= share <= math.dist(start, end):
        return math.inf
    return (point.x - start.x) * along.y - (point.y - start.y) * along.x


def point_at(edges: Edges, x: float) -> Point:
    """Where a frame's head is above a place along it."""
    start, end = next((edge for edge in edges if min(edge[0].x, edge[1].x) - FULL_TURN <= x <= max(edge[0].x, edge[1].x) + FULL_TURN), edges[0])
    if not start.bulge:
        return Point(x, start.y + (end.y - start.y) * (x - start.x) / (end.x - start.x))
    centre, radius = arc_centre(start, end), arc_radius(start, end)
    return Point(x, centre.y + math.sqrt(max(0.0, radius**2 - (x - centre.x) ** 2)))
