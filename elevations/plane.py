"""Flat geometry of lines and exact arcs: points, outlines, offsets, cuts. Millimetres, x right, y up.

An outline is closed and runs counter-clockwise. Each of its corners holds a bulge for the edge that leaves it,
as in DXF: 0 is a straight edge, otherwise the tangent of a quarter of the arc's sweep, positive where the arc
turns counter-clockwise. Nothing here approximates an arc except `flatten`, whose output never reaches a drawing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

SAME_MM = 1e-6
"""Two coordinates closer than this are the same place: far below a workshop's 0.1 mm, far above float noise."""

TANGENT = 1e-12
"""Share of the squared radius within which a line that only touches a circle counts as touching: the root of float
noise would otherwise move the place where they touch by a hundredth of a micrometre, unequally at both ends."""


class Point(NamedTuple):
    """A place in the plane, mm."""

    x: float
    y: float


class Corner(NamedTuple):
    """A corner of an outline and the bulge of the edge that leaves it."""

    x: float
    y: float
    bulge: float = 0.0

    @property
    def point(self) -> Point:
        return Point(self.x, self.y)


class Box(NamedTuple):
    """An upright rectangle, mm: the bounds of something."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        return Point((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    def joined(self, other: Box) -> Box:
        """The smallest box around both."""
        return Box(
            min(self.left, other.left), min(self.bottom, other.bottom), max(self.right, other.right), max(self.top, other.top)
        )

    def grown(self, by: float) -> Box:
        """This box, larger by `by` on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def overlaps(self, other: Box) -> bool:
        """True where the two share an area, not merely an edge."""
        return (
            self.left < other.right - SAME_MM
            and other.left < self.right - SAME_MM
            and self.bottom < other.top - SAME_MM
            and other.bottom < self.top - SAME_MM
        )


class OffsetError(ValueError):
    """An offset so large that an edge of the outline vanishes; `edge` is its number, where one edge is to blame."""

    def __init__(self, message: str, edge: int | None = None) -> None:
        super().__init__(message)
        self.edge = edge


@dataclass(frozen=True)
class Outline:
    """A closed counter-clockwise outline of straight edges and arcs; edge i leaves corner i."""

    corners: tuple[Corner, ...]

    @cached_property
    def bounds(self) -> Box:
        """The exact bounding box, arcs included."""
        if self.box_edges is not None:
            a, _, c, _ = self.corners
            return Box(min(a.x, c.x), min(a.y, c.y), max(a.x, c.x), max(a.y, c.y))
        xs = [c[0] for c in self.corners]
        ys = [c[1] for c in self.corners]
        if any(c[2] for c in self.corners):
            for start, end in self.edges():
                if start.bulge:
                    for p in _arc_extremes(start, end):
                        xs.append(p.x)
                        ys.append(p.y)
        return Box(min(xs), min(ys), max(xs), max(ys))

    @cached_property
    def area(self) -> float:
        """Exact area, mm2: shoelace of the corners plus the segment under each arc."""
        total = 0.0
        for a, b in self.edges():
            total += (a.x * b.y - b.x * a.y) / 2
            if a.bulge:
                radius, sweep = arc_radius(a, b), 4 * math.atan(a.bulge)
                total += radius * radius * (sweep - math.sin(sweep)) / 2
        return total

    @cached_property
    def box_edges(self) -> tuple[int, int, int, int] | None:
        """Numbers of the left, bottom, right and top edge of an upright rectangle, as most outlines are; None of any other."""
        if len(self.corners) != 4:
            return None
        (ax, ay, ab), (bx, by, bb), (cx, cy, cb), (dx, dy, db) = self.corners
        if ab or bb or cb or db:
            return None
        if abs(ay - by) < SAME_MM and abs(bx - cx) < SAME_MM and abs(cy - dy) < SAME_MM and abs(dx - ax) < SAME_MM:
            return (3, 0, 1, 2) if bx > ax else (1, 2, 3, 0)
        if abs(ax - bx) < SAME_MM and abs(by - cy) < SAME_MM and abs(cx - dx) < SAME_MM and abs(dy - ay) < SAME_MM:
            return (2, 3, 0, 1) if by > ay else (0, 1, 2, 3)
        return None

    @property
    def is_box(self) -> bool:
        """True for an upright rectangle: four straight edges, level and upright in turn."""
        return self.box_edges is not None

    def edges(self) -> Iterable[tuple[Corner, Corner]]:
        """Each edge as its start and end corner; the start's bulge is the edge's."""
        return zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True)

    def moved(self, dx: float, dy: float) -> Outline:
        """The same outline elsewhere."""
        return Outline(tuple(Corner(c.x + dx, c.y + dy, c.bulge) for c in self.corners))

    def mirrored(self, axis_x: float) -> Outline:
        """Reflected left to right about the upright line x = axis_x; still counter-clockwise."""
        flipped = [Corner(2 * axis_x - b.x, b.y, a.bulge) for a, b in self.edges()]
        return Outline(tuple(reversed(flipped)))

    def length(self, edge: int) -> float:
        """Length of one edge along its line or arc, mm."""
        a = self.corners[edge]
        b = self.corners[(edge + 1) % len(self.corners)]
        chord = math.dist(a[:2], b[:2])
        if not a.bulge:
            return chord
        return abs(arc_radius(a, b) * 4 * math.atan(a.bulge))


def rectangle(left: float, bottom: float, right: float, top: float) -> Outline:
    """The outline with edges in the order bottom, right, top, left."""
    return Outline((Corner(left, bottom), Corner(right, bottom), Corner(right, top), Corner(left, top)))


def arc_radius(start: Corner, end: Corner) -> float:
    """Radius of a bulged edge, mm, positive."""
    return math.dist(start[:2], end[:2]) * (1 + start.bulge**2) / (4 * abs(start.bulge))


def arc_centre(start: Corner, end: Corner) -> Point:
    """Centre of a bulged edge."""
    b = start.bulge
    along = (1 / b - b) / 4   # half the cotangent of half the sweep, as a share of the chord
    return Point(
        (start.x + end.x) / 2 - (end.y - start.y) * along,
        (start.y + end.y) / 2 + (end.x - start.x) * along,
    )


def _arc_extremes(start: Corner, end: Corner) -> Iterable[Point]:
    centre, radius = arc_centre(start, end), arc_radius(start, end)
    first = math.atan2(start.y - centre.y, start.x - centre.x)
    sweep = 4 * math.atan(start.bulge)
    for quarter in range(4):
        angle = quarter * math.pi / 2
        turned = (angle - first) % math.tau if sweep > 0 else (first - angle) % math.tau
        if turned < abs(sweep):
            yield Point(centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle))


def offset(outline: Outline, inward: Sequence[float]) -> Outline:
    """Move each edge inwards by its own distance and join neighbours again where they meet; exact.

    A straight edge moves along its normal, an arc changes its radius about the same centre. `inward` has one
    distance for each edge, mm. Raises OffsetError where an edge would vanish or neighbours no longer meet.
    """
    quick = _offset_rectangle(outline.corners, inward)
    if quick is not None:
        return quick
    moved = [_moved_edge(a, b, d, i) for i, ((a, b), d) in enumerate(zip(outline.edges(), inward, strict=True))]
    n = len(moved)
    joints = [_join(moved[i - 1], moved[i], outline.corners[i], inward[i - 1], inward[i]) for i in range(n)]
    corners = []
    for i, edge in enumerate(moved):
        start, end = joints[i], joints[(i + 1) % n]
        corners.append(Corner(start.x, start.y, edge.bulge(start, end, i)))
    return Outline(tuple(corners))


def _offset_rectangle(corners: tuple[Corner, ...], inward: Sequence[float]) -> Outline | None:
    """`offset` of an upright rectangle, as most outlines are, without looking for where edges meet; None for others."""
    if len(corners) != 4 or corners[0][2] or corners[1][2] or corners[2][2] or corners[3][2]:
        return None
    (ax, ay, _), (bx, by, _), (cx, cy, _), (dx, dy, _) = corners
    if ay == by and bx == cx and cy == dy and dx == ax:
        sign = 1.0 if bx > ax else -1.0
        y0, x1, y2, x3 = ay + sign * inward[0], bx - sign * inward[1], cy - sign * inward[2], dx + sign * inward[3]
        moved = (Corner(x3, y0), Corner(x1, y0), Corner(x1, y2), Corner(x3, y2))
    elif ax == bx and by == cy and cx == dx and dy == ay:
        sign = 1.0 if by > ay else -1.0
        x1, y2, x3, y0 = ax - sign * inward[0], by - sign * inward[1], cx + sign * inward[2], dy + sign * inward[3]
        moved = (Corner(x1, y0), Corner(x1, y2), Corner(x3, y2), Corner(x3, y0))
    else:
        return None
    if sign * (x1 - x3) <= SAME_MM or sign * (y2 - y0) <= SAME_MM:
        raise OffsetError("an edge vanishes")
    return Outline(moved)


def clip(outline: Outline, axis: int, at: float, *, high: bool) -> tuple[Outline, tuple[int | None, ...]]:
    """The part of an outline below or above an axis-parallel line.

    axis 0 cuts at x = at, axis 1 at y = at; `high` keeps the larger coordinates. Also returns, for each edge of the
    result, the number of the edge it came from, None for the cut itself. Raises OffsetError unless the line
    crosses the outline exactly twice.
    """
    sign = 1.0 if high else -1.0
    quick = _clip_rectangle(outline, axis, at, sign)
    if quick is not None:
        return quick
    pieces = [
        (start, end, number)
        for number, (a, b) in enumerate(outline.edges())
        for start, end in _pieces(a, b, axis, at)
    ]
    keep = [sign * (_halfway(start, end)[axis] - at) > SAME_MM for start, end, _ in pieces]
    firsts = [i for i in range(len(pieces)) if keep[i] and not keep[i - 1]]
    if len(firsts) != 1:
        raise OffsetError("the line must cut the outline in two, and only once")
    corners: list[Corner] = []
    origins: list[int | None] = []
    at_piece = firsts[0]
    while keep[at_piece % len(pieces)]:
        start, end, number = pieces[at_piece % len(pieces)]
        corners.append(start)
        origins.append(number)
        at_piece += 1
    corners.append(Corner(end.x, end.y))
    origins.append(None)
    return Outline(tuple(corners)), tuple(origins)


def _clip_rectangle(outline: Outline, axis: int, at: float, sign: float) -> tuple[Outline, tuple[int | None, ...]] | None:
    """`clip` of an upright rectangle through two of its edges, as most cuts are; None for others."""
    if not outline.is_box:
        return None
    corners = outline.corners
    sides = [sign * (corner[axis] - at) for corner in corners]
    inside = [side > SAME_MM for side in sides]
    if sum(inside) != 2 or min(abs(side) for side in sides) <= SAME_MM:
        return None
    entry = next(i for i in range(4) if inside[i + 1 - 4] and not inside[i])   # the edge on which it goes in
    b, c = (entry + 1) % 4, (entry + 2) % 4
    before, after = corners[entry], corners[c]
    start, end = (Corner(at, before.y), Corner(at, after.y)) if axis == 0 else (Corner(before.x, at), Corner(after.x, at))
    return Outline((start, corners[b], after, end)), (entry, b, c, None)


def flatten(outline: Outline, sagitta: float = 0.01) -> list[Point]:
    """Corner points with each arc as chords that stray at most `sagitta` mm: for shapely's answers, never for a drawing."""
    points: list[Point] = []
    for a, b in outline.edges():
        points.append(a.point)
        if a.bulge:
            centre, radius, sweep = arc_centre(a, b), arc_radius(a, b), 4 * math.atan(a.bulge)
            count = max(1, math.ceil(abs(sweep) / (2 * math.acos(max(0.0, 1 - sagitta / radius)))))
            first = math.atan2(a.y - centre.y, a.x - centre.x)
            for i in range(1, count):
                angle = first + sweep * i / count
                points.append(Point(centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle)))
    return points


@dataclass(frozen=True, slots=True)
class _Edge:
    """A moved edge, endless: a line through `through` along `along`, or a circle where `radius` is given."""

    through: Point
    along: Point
    centre: Point | None = None
    radius: float = 0.0
    sweep: float = 0.0
    """Of the arc before it was moved, radians, positive where it turns counter-clockwise."""

    def bulge(self, start: Point, end: Point, number: int) -> float:
        """Bulge of the part from start to end; 0 on a line. Raises OffsetError where the edge, `number`, has vanished."""
        if self.centre is None:
            if (end.x - start.x) * self.along.x + (end.y - start.y) * self.along.y <= SAME_MM:
                raise OffsetError("an edge vanishes", number)
            return 0.0
        first = math.atan2(start.y - self.centre.y, start.x - self.centre.x)
        last = math.atan2(end.y - self.centre.y, end.x - self.centre.x)
        turns = math.copysign(1.0, self.sweep)
        # The whole turn nearest to what the arc swept before: an arc that its neighbours have eaten comes out negative.
        sweep = turns * (last - first)
        sweep += math.tau * round((abs(self.sweep) - sweep) / math.tau)
        if sweep * self.radius <= SAME_MM or sweep > math.tau - SAME_MM:
            raise OffsetError("an arc vanishes", number)
        return turns * math.tan(sweep / 4)


def _moved_edge(a: Corner, b: Corner, inward: float, number: int) -> _Edge:
    if not a.bulge:
        dx, dy = b.x - a.x, b.y - a.y
        length = math.hypot(dx, dy)
        ux, uy = dx / length, dy / length
        return _Edge(Point(a.x - uy * inward, a.y + ux * inward), Point(ux, uy))
    turns = math.copysign(1.0, a.bulge)
    radius = arc_radius(a, b) - turns * inward
    if radius <= SAME_MM:
        raise OffsetError("the offset is larger than an arc's radius", number)
    return _Edge(a.point, Point(0.0, 0.0), arc_centre(a, b), radius, 4 * math.atan(a.bulge))


def _join(first: _Edge, second: _Edge, corner: Corner, first_inward: float, second_inward: float) -> Point:
    """Where two moved neighbours meet, nearest to the corner they shared."""
    if first.centre is None and second.centre is None:
        cross = first.along.x * second.along.y - first.along.y * second.along.x
        if abs(cross) < 1e-9:
            if abs(first_inward - second_inward) > SAME_MM:
                raise OffsetError("two edges in one line move by different distances")
            return second.through
        gx, gy = second.through.x - first.through.x, second.through.y - first.through.y
        t = (gx * second.along.y - gy * second.along.x) / cross
        return Point(first.through.x + t * first.along.x, first.through.y + t * first.along.y)
    if first.centre is not None and second.centre is not None:
        if math.dist(first.centre, second.centre) < SAME_MM and abs(first.radius - second.radius) < SAME_MM:
            share = first.radius / math.dist(first.centre, corner[:2])
            return Point(
                first.centre.x + share * (corner.x - first.centre.x), first.centre.y + share * (corner.y - first.centre.y)
            )
        found = _circles_meet(first.centre, first.radius, second.centre, second.radius)
    elif first.centre is None:
        assert second.centre is not None
        found = _line_meets_circle(first, second.centre, second.radius)
    else:
        found = _line_meets_circle(second, first.centre, first.radius)
    return min(found, key=lambda p: math.dist(p, corner[:2]))


def _line_meets_circle(line: _Edge, centre: Point, radius: float) -> tuple[Point, Point]:
    gx, gy = line.through.x - centre.x, line.through.y - centre.y
    half = gx * line.along.x + gy * line.along.y
    inside = half * half - (gx * gx + gy * gy - radius * radius)
    if inside < -SAME_MM * radius:
        raise OffsetError("a line and an arc no longer meet")
    root = math.sqrt(inside) if inside > TANGENT * radius * radius else 0.0
    return (
        Point(line.through.x + (root - half) * line.along.x, line.through.y + (root - half) * line.along.y),
        Point(line.through.x + (-root - half) * line.along.x, line.through.y + (-root - half) * line.along.y),
    )


def _circles_meet(c1: Point, r1: float, c2: Point, r2: float) -> tuple[Point, Point]:
    gap = math.dist(c1, c2)
    if gap < SAME_MM:
        raise OffsetError("two arcs about one centre move by different distances")
    along = (gap * gap + r1 * r1 - r2 * r2) / (2 * gap)
    inside = r1 * r1 - along * along
    if inside < -SAME_MM * r1:
        raise OffsetError("two arcs no longer meet")
    across = math.sqrt(max(0.0, inside))
    ux, uy = (c2.x - c1.x) / gap, (c2.y - c1.y) / gap
    mx, my = c1.x + along * ux, c1.y + along * uy
    return Point(mx - across * uy, my + across * ux), Point(mx + across * uy, my - across * ux)


def _pieces(a: Corner, b: Corner, axis: int, at: float) -> list[tuple[Corner, Corner]]:
    """An edge broken where it crosses the line, in order; an end that lies on the line breaks nothing."""
    if not a.bulge:
        side_a, side_b = a[axis] - at, b[axis] - at
        if min(abs(side_a), abs(side_b)) <= SAME_MM or (side_a > 0) == (side_b > 0):
            return [(a, b)]
        t = side_a / (side_a - side_b)
        p = [a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)]
        p[axis] = at
        return [(a, Corner(p[0], p[1])), (Corner(p[0], p[1]), b)]
    centre, radius, sweep = arc_centre(a, b), arc_radius(a, b), 4 * math.atan(a.bulge)
    reach = radius * radius - (at - centre[axis]) ** 2
    if reach <= SAME_MM:
        return [(a, b)]
    turn, first = math.copysign(1.0, sweep), math.atan2(a.y - centre.y, a.x - centre.x)
    breaks = []
    for across in (math.sqrt(reach), -math.sqrt(reach)):
        p = [centre.x + across, centre.y + across]
        p[axis] = at
        turned = turn * (math.atan2(p[1] - centre.y, p[0] - centre.x) - first) % math.tau
        if SAME_MM < turned * radius < abs(sweep) * radius - SAME_MM:
            breaks.append((turned, p[0], p[1]))
    breaks.sort()
    stops = [(0.0, a.x, a.y), *breaks, (abs(sweep), b.x, b.y)]
    return [
        (Corner(p[1], p[2], turn * math.tan((q[0] - p[0]) / 4)), Corner(q[1], q[2], b.bulge))
        for p, q in pairwise(stops)
    ]


def _halfway(start: Corner, end: Corner) -> Point:
    """The point half way along an edge: on the arc, where it is one."""
    return Point(
        (start.x + end.x) / 2 + start.bulge * (end.y - start.y) / 2,
        (start.y + end.y) / 2 - start.bulge * (end.x - start.x) / 2,
    )
