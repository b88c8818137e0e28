"""Text in columns: tables, paragraphs and headings, as blocks that a page stacks. Paper mm, y up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Entity, Label, Stroke
from elevations.drawing.layers import FINE, Layer
from elevations.drawing.lettering import fit, text_width, wrap
from elevations.drawing.moving import moved
from elevations.plane import Corner, Point

TEXT = 2.5
"""Height of running text, mm on paper; SMALL where a column is short of room."""
SMALL = 2.0
HEADING = 2.5
LEADING = 1.75
"""From one baseline to the next, as a share of the text's height."""
GUTTER = 3.0
"""Between two columns of a table, mm."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something to put on a page: its top left corner is its origin, so its y run from 0 downwards."""

    items: tuple[Entity, ...]
    width: float
    height: float

    def at(self, left: float, top: float) -> tuple[Entity, ...]:
        """Its entities with the top left corner there."""
        return tuple(moved(item, left, top) for item in self.items)


def line(x1: float, y1: float, x2: float, y2: float, weight: float = FINE, layer: Layer = Layer.SHEET) -> Stroke:
    """A straight line on the paper."""
    return Stroke((Corner(x1, y1), Corner(x2, y2)), layer, weight=weight)


def heading(text: str, width: float) -> Block:
    """A heading over a fine rule."""
    label = Label(fit(text, width, HEADING, bold=True), Point(0, 0), HEADING, level="top", bold=True)
    foot = -HEADING - 1.3
    return Block((label, line(0, foot, width, foot)), width, -foot + 1.6)


def paragraph(text: str, width: float, *, height: float = TEXT, bold: bool = False, lines: int | None = None) -> Block:
    """Text wrapped to a width; at most `lines` lines, the last one then with an ellipsis."""
    rows = wrap(text, width, height, bold=bold)
    if lines is not None and len(rows) > lines:
        rows = [*rows[: lines - 1], fit(" ".join(rows[lines - 1 :]), width, height, bold=bold)]
    step = height * LEADING
    labels = tuple(
        Label(row, Point(0, -i * step), height, level="top", bold=bold) for i, row in enumerate(rows) if row
    )
    return Block(labels, width, len(rows) * step)


def stack(blocks: Sequence[Block], gap: float = 0.0) -> Block:
    """Blocks one under the other."""
    items: list[Entity] = []
    top = 0.0
    for block in blocks:
        items += block.at(0, top)
        top -= block.height + gap
    return Block(tuple(items), max((block.width for block in blocks), default=0.0), max(0.0, -top - gap))


def table(
    headers: Sequence[str], rows: Sequence[Sequence[str]], width: float, *, height: float = TEXT, wide: int = 0
) -> Block:
    """A table with its headers over the rows and no lines between them.

    Columns are as wide as their widest text; column `wide` takes what is left of `width`, and wraps.
    """
    widths = [
        max([text_width(headers[i], height, bold=True)] + [text_width(row[i], height) for row in rows])
        for i in range(len(headers))
    ]
    others = sum(w for i, w in enumerate(widths) if i != wide) + GUTTER * (len(headers) - 1)
    widths[wide] = max(width - others, width * 0.2)
    step, top = height * LEADING, 0.0
    items: list[Entity] = []
    for number, row in enumerate([headers, *rows]):
        cells = [wrap(text, widths[i], height) if i == wide else [fit(text, width, height)] for i, text in enumerate(row)]
        left = 0.0
        for i, cell in enumerate(cells):
            items += [
                Label(text, Point(left, top - k * step), height, level="top", bold=number == 0)
                for k, text in enumerate(cell) if text
            ]
            left += widths[i] + GUTTER
        top -= max(len(cell) for cell in cells) * step
    return Block(tuple(items), width, -top)
