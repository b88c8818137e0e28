"""The display list: stroke, fill, label, dimension, leader, symbol, in groups, views and sheets.

Coordinates inside a view are true mm of the window, x right, y up. Sizes of annotation (text heights, ticks, gaps,
line widths) are mm on paper; a writer multiplies them by the view's scale.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.drawing.layers import Layer
from elevations.plane import Box, Corner, Outline, Point


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line: corners and bulges as in an outline, open unless `closed`."""

    corners: tuple[Corner, ...]
    layer: Layer
    closed: bool = False
    line: str | None = None
    """solid, dashed or chain where it differs from the layer's."""
    weight: float | None = None
    """Line width on paper, mm, where it differs from the layer's."""


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled area with holes, without an outline of its own."""

    outline: Outline
    layer: Layer
    tone: str
    """#rrggbb"""
    holes: tuple[Outline, ...] = ()


@dataclass(frozen=True, slots=True)
class Label:
    """A line of text."""

    text: str
    at: Point
    height: float
    """Of capitals, on paper, mm: a step of ISO 3098."""
    layer: Layer = Layer.NOTE
    align: str = "left"
    """left, centre or right of `at`."""
    level: str = "base"
    """base, middle or top: which part of the text is level with `at`."""
    angle: float = 0.0
    """Degrees, counter-clockwise: 0 or 90, so that it reads from the bottom or the right."""
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Dimension:
    """A linear dimension between two points, measured along x or y; its text is what it measures."""

    start: Point
    end: Point
    line_at: float
    """Where the dimension line runs: y of a level one, x of an upright one, mm in the view."""
    upright: bool
    shift: int = 0
    """Where the text sits when it does not fit between its ticks: 0 above the line in the middle, 1, 2 … further
    out from the measured thing, one text height each."""
    slide: float = 0.0
    """How far the text stands from the middle along the line, mm on paper."""


@dataclass(frozen=True, slots=True)
class Leader:
    """A thin line from a point of the drawing to its text."""

    points: tuple[Point, ...]
    """From the thing to the text."""
    text: str
    height: float
    layer: Layer = Layer.NOTE


@dataclass(frozen=True, slots=True)
class Symbol:
    """A small sign drawn at paper size, such as a fixing point; a block insert in DXF."""

    name: str
    """A key of `symbols.SYMBOLS`."""
    at: Point
    layer: Layer
    angle: float = 0.0
    tag: str = ""
    """Carried as a block attribute or data field."""


Entity = Stroke | Fill | Label | Dimension | Leader | Symbol


@dataclass(frozen=True, slots=True)
class Group:
    """Entities that are one thing, such as a member or a light, with its identity."""

    id: str
    """Unique on the sheet; letters, digits and hyphens."""
    items: tuple[Entity, ...]
    title: str = ""
    """What it is in words, for a screen reader or a pointer resting on it."""
    data: tuple[tuple[str, str], ...] = ()
    """Facts about it: ('mark', 'W1'), ('light', '2'), ('tag', 'G2')."""


@dataclass(frozen=True, slots=True)
class View:
    """One picture of the window."""

    id: str
    title: str
    groups: tuple[Group, ...]
    bounds: Box
    """Everything in it, annotation included, for the scale it was made for."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A view on a sheet."""

    view: View
    scale: float
    """10 for 1:10."""
    at: Point
    """Where the view's origin lies on the paper, mm from its bottom left corner."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page: placed views and what is drawn on the paper itself."""

    title: str
    description: str
    """One or two sentences that say what is on it, for somebody who can't see it."""
    width: float
    height: float
    placed: tuple[Placed, ...]
    groups: tuple[Group, ...]
    """In paper mm, x right, y up from the bottom left corner: frame, title block, tables, notes."""
    scale: float
    """The main scale, named in the title block: 10 for 1:10."""
