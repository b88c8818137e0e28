"""The outlines of profiles, beads, steel and glass in a drawing's sections against those of the job's sheet."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from elevations.drawing.entities import Stroke
from elevations.drawing.layers import Layer
from elevations.plane import Point
from elevations.spelling import counted
from elevations.verify.difference import SAME_MM, Difference
from elevations.verify.loops import Edge, closed_outline

SECTION_LAYERS = (Layer.FRAME, Layer.BARS, Layer.SASH, Layer.BEAD, Layer.STEEL, Layer.GLASS_CUT)
"""What carries and holds in a section. Gaskets, walls, hatches and signs are not measured."""


@dataclass(frozen=True, slots=True)
class SaidSection:
    """The edges on one layer of one view of the sheet; they lie as the window does."""

    place: str
    """The view's title."""
    layer: Layer
    edges: tuple[Edge, ...]


def edges_of(stroke: Stroke, dx: float, dy: float) -> Iterator[Edge]:
    """Its edges, moved, without corners that are none, as they are taken from a drawing too."""
    outline = closed_outline(stroke.corners, closed=stroke.closed)
    corners = outline.corners if outline else stroke.corners
    for a, b in outline.edges() if outline else pairwise(corners):
        yield Edge(Point(a.x + dx, a.y + dy), Point(b.x + dx, b.y + dy), a.bulge)


def changed_sections(said: Sequence[SaidSection], drawn: dict[Layer, list[Edge]]) -> Iterator[Difference]:
    """Views with lines that are not drawn, or drawn otherwise, each told once a layer. A view moved as a whole is the same."""
    for place in dict.fromkeys(section.place for section in said):
        own = [section for section in said if section.place == place]
        lacking = _lacking(own, drawn, Point(0.0, 0.0))
        if lacking:
            lacking = min(lacking, _lacking(own, drawn, _shift(own, drawn)), key=lambda found: sum(found.values()))
        for section in own:
            gone = lacking[section.layer]
            if gone:
                yield Difference(
                    "section", place, f"{place}: {gone} of {counted(len(section.edges), 'line')} on layer {section.layer} "
                    f"{'is' if gone == 1 else 'are'} not drawn where the job has {'it' if gone == 1 else 'them'}",
                )


def _lacking(own: Sequence[SaidSection], drawn: dict[Layer, list[Edge]], shift: Point) -> Counter[Layer]:
    found: Counter[Layer] = Counter()
    for section in own:
        for edge in section.edges:
            there = drawn[section.layer]
            found[section.layer] += not (any(_same(edge, other, shift) for other in there) or (edge.bulge and _ends_drawn(edge, there, shift)))
    return +found


def _ends_drawn(arc: Edge, there: Sequence[Edge], shift: Point) -> bool:
    """Whether lines end where the arc does: programs without arcs leave them as many short lines."""
    return all(
        any(math.dist((at.x + shift.x, at.y + shift.y), end) <= SAME_MM for other in there for end in (other.start, other.end))
        for at in (arc.start, arc.end)
    )


def _same(edge: Edge, other: Edge, shift: Point) -> bool:
    start, end = (Point(at.x + shift.x, at.y + shift.y) for at in (edge.start, edge.end))
    return any(
        math.dist(start, way.start) <= SAME_MM and math.dist(end, way.end) <= SAME_MM
        and abs(edge.bulge - way.bulge) * math.dist(start, end) / 2 <= SAME_MM   # a bulge is the rise over half the chord
        for way in (other, other.turned)
    )


def _shift(own: Sequence[SaidSection], drawn: dict[Layer, list[Edge]]) -> Point:
    """The shift that most edges of the view's lengths and directions agree on, in steps of `SAME_MM`."""
    crowds: Counter[tuple[int, int]] = Counter()
    for section in own:
        for edge in section.edges:
            for other in drawn[section.layer]:
                for way in (other, other.turned):
                    dx, dy = way.start.x - edge.start.x, way.start.y - edge.start.y
                    if math.dist((dx, dy), (way.end.x - edge.end.x, way.end.y - edge.end.y)) <= SAME_MM / 10:
                        crowds[round(dx / SAME_MM * 2), round(dy / SAME_MM * 2)] += 1
    if not crowds:
        return Point(0.0, 0.0)
    (x, y), _ = max(crowds.items(), key=lambda crowd: (crowd[1], crowd[0]))
    return Point(x * SAME_MM / 2, y * SAME_MM / 2)
