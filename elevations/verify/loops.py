"""Closed outlines out of corners and loose edges: of exploded polylines, and of those that mitre lines run into."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.plane import Corner, Outline, Point

MEETS_MM = 0.01
"""Two ends nearer than this are one point."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge or an arc; bulge as in an outline."""

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def turned(self) -> Edge:
        """The same edge from its end to its start."""
        return Edge(self.end, self.start, -self.bulge)

    @property
    def heading(self) -> float:
        """Its direction where it starts, radians: along the tangent of an arc."""
        return math.atan2(self.end.y - self.start.y, self.end.x - self.start.x) - 2 * math.atan(self.bulge)


def closed_outline(corners: Sequence[Corner], *, closed: bool) -> Outline | None:
    """The outline that the corners close to, counter-clockwise and without corners that are none; None where they don't close."""
    points = list(corners)
    if len(points) > 2 and _near(points[0], points[-1]):
        points, closed = points[:-1], True
    if not closed or len(points) < 2:
        return None
    kept = [p for i, p in enumerate(points) if not _near(p, points[(i + 1) % len(points)])]
    kept = [p for i, p in enumerate(kept) if not _straight_on(kept[i - 1], p, kept[(i + 1) % len(kept)])]
    if len(kept) < 2:
        return None
    outline = Outline(tuple(kept))
    return outline if outline.area > 0 else _reversed(outline)


def joined(edges: Sequence[Edge]) -> tuple[list[Outline], list[Edge]]:
    """Loose edges joined end to end: the loops that they close, and the edges of no loop or of a fork.

    Where edges fork, as a sash's do at its mitres, every part that they enclose is a loop, and so is the line round them all.
    """
    loops: list[Outline] = []
    rest: list[Edge] = []
    names = _named(edges)
    for together in _connected(edges, names):
        forked = any(len(out) > 2 for out in together.values())
        made = [outline for walk in _walks(_without_ends(together, names)) if (outline := _outline_of(walk))]
        made = made if forked else made[:1]   # a lone loop is walked from inside and from outside
        loops += made
        if forked or not made:
            rest += [edge for out in together.values() for edge, forward in out if forward]
    return loops, rest


Node = tuple[int, int]
Names = dict[Point, Node]
"""The node that each end lies at: ends nearer than `MEETS_MM` share one."""
Web = dict[Node, list[tuple[Edge, bool]]]
"""Edges that leave each node, and whether they run as drawn."""


def _named(edges: Sequence[Edge]) -> Names:
    names: Names = {}
    known: set[Node] = set()
    for at in dict.fromkeys(point for edge in edges for point in (edge.start, edge.end)):
        x, y = round(at.x / MEETS_MM), round(at.y / MEETS_MM)
        names[at] = next((near for i in (0, -1, 1) for j in (0, -1, 1) if (near := (x + i, y + j)) in known), (x, y))
        known.add(names[at])
    return names


def _connected(edges: Sequence[Edge], names: Names) -> list[Web]:
    """The edges by which of them hang together."""
    web: Web = {}
    for edge in edges:
        if names[edge.start] != names[edge.end]:
            web.setdefault(names[edge.start], []).append((edge, True))
            web.setdefault(names[edge.end], []).append((edge.turned, False))
    parts: list[Web] = []
    while web:
        part: Web = {}
        reached = [next(iter(web))]
        while reached:
            node = reached.pop()
            if node in web:
                part[node] = web.pop(node)
                reached += [names[edge.end] for edge, _ in part[node]]
        parts.append(part)
    return parts


def _without_ends(web: Web, names: Names) -> Web:
    """Without edges that lead nowhere."""
    kept = {node: list(out) for node, out in web.items()}
    ends = [node for node, out in kept.items() if len(out) == 1]
    while ends:
        node = ends.pop()
        for edge, _ in kept.pop(node, []):
            other = names[edge.end]
            kept[other] = [(back, forward) for back, forward in kept[other] if back != edge.turned]
            ends += [other] if len(kept[other]) <= 1 else []
    return kept


def _walks(web: Web) -> Iterator[list[Edge]]:
    """Round every part that the edges enclose, keeping it to the left, and round them all from outside."""
    after: dict[Edge, Edge] = {}
    for out in web.values():
        round_it = sorted({edge for edge, _ in out}, key=lambda edge: (edge.heading % math.tau, edge.end))
        after.update({edge: round_it[i - 1] for i, edge in enumerate(round_it)})
    left = {edge: None for out in web.values() for edge, _ in out}
    while left:
        walk = [next(iter(left))]
        while walk[-1] in left:
            del left[walk[-1]]
            walk.append(after[walk[-1].turned])
        yield walk[:-1]


def _outline_of(walk: Sequence[Edge]) -> Outline | None:
    return closed_outline([Corner(edge.start.x, edge.start.y, edge.bulge) for edge in walk], closed=True)


def _reversed(outline: Outline) -> Outline:
    corners = outline.corners
    return Outline(tuple(Corner(c.x, c.y, -corners[i - 1].bulge) for i, c in reversed(list(enumerate(corners)))))


def _straight_on(before: Corner, at: Corner, after: Corner) -> bool:
    """Whether a corner lies on the straight line between its neighbours."""
    if before.bulge or at.bulge:
        return False
    run = math.dist(before.point, after.point)
    cross = (at.x - before.x) * (after.y - before.y) - (at.y - before.y) * (after.x - before.x)
    return run > MEETS_MM and abs(cross) / run < MEETS_MM / 10


def _near(a: Sequence[float], b: Sequence[float]) -> bool:
    return math.hypot(a[0] - b[0], a[1] - b[1]) < MEETS_MM
