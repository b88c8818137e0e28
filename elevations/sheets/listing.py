"""Any schedule as pages: its columns, a line under each row, the head repeated on each page, the totals at the end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from elevations.drawing.entities import Entity, Group, Label
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import fit, text_width, wrap
from elevations.plane import Point
from elevations.schedules.table import Column, Schedule, shown
from elevations.sheets.page import BODY, Page
from elevations.views.table import Block, line, paragraph, stack

Row = TypeVar("Row")

HEIGHTS = (3.5, 2.5, 2.0, 1.8)
"""Text heights tried, largest first: a list is read at arm's length, with dirty hands."""
LEADING = 1.6
PAD, GUTTER = 1.0, 3.0
"""Above and below a row's text; between two columns, mm."""
LEAST_TEXT = 14.0
"""Down to this width, in text heights, a column of text may wrap before smaller text is tried."""


@dataclass(frozen=True, slots=True)
class Gathering(Generic[Row]):
    """Rows gathered under headings: what a heading says, and the columns that it spares."""

    heading: Callable[[Row], str]
    """Rows in a run that give the same text stand under it together."""
    spared: tuple[str, ...]


def listing(
    schedule: Schedule[Row], rows: Sequence[Row], notes: Sequence[str] = (), gathered: Gathering[Row] | None = None
) -> list[Page]:
    """The pages of a schedule, all at one text height: the largest at which its columns fit. `notes` follow the totals.

    Text wraps; a number never does.
    """
    spared = gathered.spared if gathered else ()
    columns = [column for column in schedule.columns if column.heading and column.key not in spared]
    cells = [[shown(getattr(row, column.key), column) for column in columns] for row in rows]
    grid = _grid(columns, cells)
    lines = _lines(grid, cells, [gathered.heading(row) if gathered else "" for row in rows])
    lines = lines or [paragraph("Nothing in this job.", BODY.width, height=grid.height)]
    tail = [paragraph(text, BODY.width, height=max(grid.height, 2.5), bold=True) for text in schedule.totals(rows)] if rows else []
    tail += [paragraph(text, BODY.width, height=2.5) for text in notes]
    stacks = _stacked(grid.head(), lines, tail)
    made = []
    for number, items in enumerate(stacks, 1):
        part = f" ({number} of {len(stacks)})" if len(stacks) > 1 else ""
        group = Group(f"{schedule.key}-{number}", tuple(items), f"{schedule.title}{part}")
        made.append(Page(f"{schedule.title}{part}", f"{schedule.title} of the job{part}: {len(rows)} rows.", (group,)))
    return made


def _lines(grid: _Grid, cells: Sequence[Sequence[str]], headings: Sequence[str]) -> list[Block]:
    """Each row; the first under a heading carries it, so that no page ends in a heading alone."""
    made, last = [], ""
    for row, heading in zip(cells, headings, strict=True):
        block = grid.row(row)
        if heading != last:
            over = paragraph(heading, BODY.width, height=grid.height, bold=True)
            block = stack([Block((), BODY.width, grid.height * 0.8), over, block])
        made.append(block)
        last = heading
    return made


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where the columns are and how large their text is."""

    columns: list[Column]
    widths: list[float]
    height: float

    def head(self) -> Block:
        """The headings over a line."""
        return self._cells([column.heading for column in self.columns], bold=True, weight=THIN)

    def row(self, cells: Sequence[str]) -> Block:
        """One row over a fine line."""
        return self._cells(cells, bold=False, weight=FINE)

    def _cells(self, cells: Sequence[str], *, bold: bool, weight: float) -> Block:
        height, left, deepest = self.height, 0.0, 1
        items: list[Entity] = []
        for text, column, width in zip(cells, self.columns, self.widths, strict=True):
            lines = wrap(text, width, height, bold=bold) if column.text else [text if not bold else fit(text, width, height, bold=True)]
            deepest = max(deepest, len(lines))
            for number, part in enumerate(lines):
                at = Point(left if column.text else left + width, -PAD - number * height * LEADING)
                if part:
                    items.append(Label(part, at, height, align="left" if column.text else "right", level="top", bold=bold))
            left += width + GUTTER
        depth = 2 * PAD + height * (1.0 + (deepest - 1) * LEADING) + 0.25 * height
        rule = line(0, -depth, BODY.width, -depth, weight, Layer.SHEET if bold else Layer.HATCH)
        return Block((*items, rule), BODY.width, depth)


def _grid(columns: list[Column], cells: Sequence[Sequence[str]]) -> _Grid:
    for height in HEIGHTS:
        widths = [_natural(i, column, cells, height) for i, column in enumerate(columns)]
        room = BODY.width - GUTTER * (len(columns) - 1)
        if sum(widths) > room:
            widths = _narrowed(columns, widths, room, LEAST_TEXT * height)
        if sum(widths) <= room + 1e-6:
            return _Grid(columns, widths, height)
    return _Grid(columns, widths, HEIGHTS[-1])


def _natural(index: int, column: Column, cells: Sequence[Sequence[str]], height: float) -> float:
    return max([text_width(column.heading, height, bold=True), *(text_width(row[index], height) for row in cells)])


def _narrowed(columns: Sequence[Column], widths: Sequence[float], room: float, least: float) -> list[float]:
    """The widest columns of text made narrower together until all fit, none below `least`."""
    low, high = 0.0, max(widths)
    numbers = [not column.text for column in columns]

    def cut(limit: float) -> list[float]:
        return [w if number else min(w, max(limit, least)) for w, number in zip(widths, numbers, strict=True)]

    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if sum(cut(middle)) <= room else (low, middle)
    return cut(low)


def _stacked(head: Block, lines: Sequence[Block], tail: Sequence[Block]) -> list[list[Any]]:
    """Blocks one under the other from the top of each page; the tail keeps together where it can."""
    pages: list[list[Any]] = [[]]
    top = BODY.top
    pages[-1] += head.at(BODY.left, top)
    top -= head.height
    tail_height = sum(block.height for block in tail) + 3.0 * bool(tail)
    blocks = [(block, block.height, block.height) for block in lines]
    blocks += [(block, block.height, tail_height if number == 0 else block.height) for number, block in enumerate(tail)]
    for number, (block, height, wanted) in enumerate(blocks):
        first_of_tail = number == len(lines)
        top -= 3.0 * first_of_tail
        if top - min(wanted, BODY.height - head.height) < BODY.bottom:
            pages.append([*head.at(BODY.left, BODY.top)] if not first_of_tail and number < len(lines) else [])
            top = BODY.top - (head.height if pages[-1] else 0.0)
        pages[-1] += block.at(BODY.left, top)
        top -= height
    return pages
