"""What the job's own sheet says today, to hold a drawing against: its words, dimensions and opening signs.

Everything is in mm from the bottom left corner of the frame, as the window has it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from elevations.drawing import explode
from elevations.drawing.entities import Dimension, Entity, Group, Label, Leader, Placed, Sheet, Stroke, View
from elevations.drawing.explode import dimension_text
from elevations.drawing.layers import Layer
from elevations.plane import Point
from elevations.sheets.title_block import CAPTION
from elevations.verify.loops import Edge
from elevations.verify.sections import SECTION_LAYERS, SaidSection, edges_of

ELEVATIONS = {"elevation": "frame", "marking-out": "frame", "template": "glass"}
"""Views by whose coordinates a sheet is measured, and what these start from: the bottom left of the frame or of the glass."""


@dataclass(frozen=True, slots=True)
class SaidText:
    """A line of words."""

    words: str
    at: Point
    """On its baseline."""
    place: str
    """Where a person finds it: 'light 1', 'title block, Revision'."""


@dataclass(frozen=True, slots=True)
class SaidDimension:
    """A length along x, or along y where `upright`."""

    low: float
    high: float
    line_at: float
    upright: bool
    view: str
    place: str
    """'elevation, bar centre lines'."""


@dataclass(frozen=True, slots=True)
class Sign:
    """A line of a light's opening sign, corner to corner."""

    points: tuple[Point, ...]
    title: str
    """'light 1: side-hung, hinges left, opens out, glass G1 420 × 1005'."""


@dataclass(frozen=True, slots=True)
class SheetSays:
    """One sheet."""

    scale: float
    texts: tuple[SaidText, ...]
    dimensions: tuple[SaidDimension, ...]
    signs: tuple[Sign, ...]
    layers: frozenset[Layer]
    """Of the lines of its view of the window: what it does not draw can't be missing. None on a page without that view."""
    closed_sash_lines: int = 0
    """Closed lines on layer SASH of that view: two for each sash where it draws their sight lines."""
    sections: tuple[SaidSection, ...] = ()

    @property
    def shows_window(self) -> bool:
        """False for a page of sections or of words alone, whose coordinates are then those of the page at its scale."""
        return bool(self.layers)


def sheet_says(sheet: Sheet) -> SheetSays:
    """The words, dimensions and signs of a sheet; by the window's coordinates where its first view has them."""
    front = next((placed for placed in sheet.placed[:1] if placed.view.id in ELEVATIONS), None)
    scale, first = sheet.scale, front.at if front else Point(0.0, 0.0)
    texts: list[SaidText] = []
    dimensions: list[SaidDimension] = []
    for placed in sheet.placed:
        dx, dy = (placed.at.x - first.x) * scale, (placed.at.y - first.y) * scale
        for group in placed.view.groups:
            place = _place(group, placed.view)
            texts += [SaidText(text, Point(at.x + dx, at.y + dy), place) for text, at in _labels(group.items, scale)]
            dimensions += [_moved(dim, dx, dy, placed.view, place) for dim in group.items if isinstance(dim, Dimension)]
    for group in sheet.groups:
        texts += [
            SaidText(text, Point((at.x - first.x) * scale, (at.y - first.y) * scale), place) for text, at, place in _on_paper(group)
        ]
    strokes = [item for group in (front.view.groups if front else ()) for item in group.items if isinstance(item, Stroke)]
    return SheetSays(
        scale, tuple(texts), tuple(dimensions), tuple(_signs(front) if front else ()), frozenset(item.layer for item in strokes),
        sum(item.closed and item.layer is Layer.SASH for item in strokes), tuple(_sections(sheet, first) if front else ()),
    )


def with_figures(says: SheetSays) -> SheetSays:
    """With the figures of its dimensions among its words: for a drawing whose dimensions are lines and words by now."""
    figures = tuple(SaidText(dimension_text(dim.high - dim.low), Point(math.inf, math.inf), dim.place) for dim in says.dimensions)
    return replace(says, texts=(*says.texts, *figures))


def _labels(items: Sequence[Entity], scale: float) -> Iterator[tuple[str, Point]]:
    for item in items:
        parts: Sequence[Entity] = explode.explode_leader(item, scale) if isinstance(item, Leader) else (item,)
        yield from ((part.text, explode.baseline(part, scale)) for part in parts if isinstance(part, Label))


def _on_paper(group: Group) -> Iterator[tuple[str, Point, str]]:
    """The words of one of the sheet's own groups; a field of the title block goes by the name over it."""
    name, place = "", group.title or "the sheet"
    for item in group.items:
        if not isinstance(item, Label):
            continue
        titled = group.id == "title-block" and item.height == CAPTION
        yield item.text, explode.baseline(item, 1.0), place if titled or not name else f"{place}, {name}"
        name = item.text if titled else ""


def _place(group: Group, view: View) -> str:
    if any(key == "light" for key, _ in group.data):
        return group.title.partition(":")[0]
    name = view.title[:1].lower() + view.title[1:] if view.id in ELEVATIONS else view.title
    return f"{name}, {group.title}" if group.title else name


def _moved(dim: Dimension, dx: float, dy: float, view: View, place: str) -> SaidDimension:
    by, across = (dy, dx) if dim.upright else (dx, dy)
    low, high = sorted((dim.start.y, dim.end.y) if dim.upright else (dim.start.x, dim.end.x))
    return SaidDimension(low + by, high + by, dim.line_at + across, dim.upright, view.id, place)


def _sections(sheet: Sheet, first: Point) -> Iterator[SaidSection]:
    """The lines of its views that are no elevations, by layer."""
    for placed in sheet.placed:
        if placed.view.id in ELEVATIONS:
            continue
        dx, dy = (placed.at.x - first.x) * sheet.scale, (placed.at.y - first.y) * sheet.scale
        edges: dict[Layer, list[Edge]] = {}
        for item in (item for group in placed.view.groups for item in group.items):
            if isinstance(item, Stroke) and item.layer in SECTION_LAYERS:
                edges.setdefault(item.layer, []).extend(edges_of(item, dx, dy))
        yield from (SaidSection(placed.view.title, layer, tuple(there)) for layer, there in edges.items())


def _signs(placed: Placed) -> Iterator[Sign]:
    for group in placed.view.groups:
        for item in group.items:
            if isinstance(item, Stroke) and item.layer is Layer.OPENING and not any(corner.bulge for corner in item.corners):
                yield Sign(tuple(corner.point for corner in item.corners), group.title)
