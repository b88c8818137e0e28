"""The wall's edge round a frame with its gaps enlarged, and where along it each gap's figure stands."""

from __future__ import annotations

import math

from elevations.geometry.fit import ARCH, Fitted
from elevations.geometry.fit_head import Disc, Edges, circle_through, point_at
from elevations.plane import Corner, Outline, Point, arc_centre

SHARES = dict(zip(ARCH, (0.0, 0.25, 0.5, 0.75, 1.0), strict=True))
"""How far along an arch each place is, as a share of the width from the left."""


def _up_at(circle: Disc, x: float) -> float:
    """Its upper half above a place; beyond its ends as high as its middle."""
    return circle.centre.y + math.sqrt(max(0.0, circle.radius**2 - (x - circle.centre.x) ** 2))


def wall_edge(fitted: Fitted, made: Outline, head: Edges, times: int) -> Outline:
    """The wall's edge with each gap `times` as wide: from the bottom left anticlockwise, a corner at the middle of each straight side.

    `made`: the frame with what stands round it, `head` the edges of its head.
    """
    gap = {(g.side, g.place): g.mm * times for g in fitted.gaps}
    box = made.bounds
    half = (box.bottom + min(head[-1][1].y, head[0][0].y)) / 2
    low = [box.bottom - gap["sill", place] for place in ("left", "middle", "right")]
    left = {place: box.left - gap["left jamb", place] for place in ("top", "middle", "bottom")}
    right = {place: box.right + gap["right jamb", place] for place in ("top", "middle", "bottom")}
    return Outline((
        Corner(left["bottom"], low[0]), Corner(box.centre.x, low[1]), Corner(right["bottom"], low[2]),
        Corner(right["middle"], half), *_head_corners(fitted, head, gap, left["top"], right["top"]),
        Corner(left["middle"], half),
    ))


def _head_corners(fitted: Fitted, head: Edges, gap: dict[tuple[str, str], float], left: float, right: float) -> list[Corner]:
    """Along the head, from the top of the right jamb to that of the left."""
    if fitted.hole.crown is None:
        a, middle, b = (_moved(along(head, share), gap["head", place]) for place, share in (("right", 1.0), ("middle", 0.5), ("left", 0.0)))
        return [Corner(right, _line_at(middle, a, right)), Corner(*middle), Corner(left, _line_at(middle, b, left))]
    moved = {place: _moved(along(head, share), gap["head", place]) for place, share in SHARES.items()}
    first, quarter, crown, third, last = (moved[place] for place in ARCH)
    if len(head) == 1:
        arch = circle_through(quarter, crown, third)
        ends_ = Point(right, _up_at(arch, right)), Point(left, _up_at(arch, left))
        return [Corner(*ends_[0], _bulge(arch, *ends_)), Corner(*ends_[1])]
    tips = [_moved(_out_of(edge, at), gap["head", "crown"]) for edge, at in zip(head, (head[0][1], head[1][0]), strict=True)]
    arcs = circle_through(last, third, tips[0]), circle_through(first, quarter, tips[1])
    apex = _meeting(*arcs)
    start, end = Point(right, _up_at(arcs[0], right)), Point(left, _up_at(arcs[1], left))
    return [Corner(*start, _bulge(arcs[0], start, apex)), Corner(*apex, _bulge(arcs[1], apex, end)), Corner(*end)]


def along(head: Edges, share: float) -> tuple[Point, Point]:
    """A place on a frame's head, by a share of its width from the left, and the direction of length 1 out of the frame there."""
    left, right = head[-1][1].x, head[0][0].x
    at = point_at(head, left + (right - left) * share)
    edge = next((edge for edge in head if edge[1].x - 1e-6 <= at.x <= edge[0].x + 1e-6), head[0])
    return _out_of(edge, at)


def _out_of(edge: tuple[Corner, Corner], at: Point | Corner) -> tuple[Point, Point]:
    start, end = edge
    if start.bulge:
        centre = arc_centre(start, end)
        dx, dy = at.x - centre.x, at.y - centre.y
    else:
        dx, dy = end.y - start.y, start.x - end.x
    length = math.hypot(dx, dy)
    return Point(at.x, at.y), Point(dx / length, dy / length)


def _moved(place: tuple[Point, Point], by: float) -> Point:
    (x, y), out = place
    return Point(x + out.x * by, y + out.y * by)


def _line_at(a: Point, b: Point, x: float) -> float:
    """How high the line through two points is there."""
    return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)


def _meeting(right: Disc, left: Disc) -> Point:
    """The upper of the places where two circles meet."""
    dx, dy = left.centre.x - right.centre.x, left.centre.y - right.centre.y
    apart = math.hypot(dx, dy)
    share = (right.radius**2 - left.radius**2 + apart**2) / (2 * apart)
    high = math.sqrt(max(0.0, right.radius**2 - share**2))
    x, y = right.centre.x + dx * share / apart, right.centre.y + dy * share / apart
    return max((Point(x - dy * high / apart, y + dx * high / apart), Point(x + dy * high / apart, y - dx * high / apart)), key=lambda p: p.y)


def _bulge(circle: Disc, start: Point, end: Point) -> float:
    """Of the arc from start to end, anticlockwise."""
    angles = [math.atan2(p.y - circle.centre.y, p.x - circle.centre.x) for p in (start, end)]
    return math.tan(((angles[1] - angles[0]) % math.tau) / 4)
