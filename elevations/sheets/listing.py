"""Any schedule as pages: its columns, a line under each row, the head repeated on each page, the totals at the end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from elevations.drawing.entities import Entity, Group, Label
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import text_width, wrap
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
WITH_TAIL = 3
"""Rows that stand on the page of the totals, so that these are never alone on one."""
AFTER = 3.0
"""Before the totals, mm."""
ROUNDING = 1e-6
"""So that a text fits a column as wide as itself, mm."""
LEAST_TEXT = 14.0
"""Down to this width, in text heights, a column of text may wrap before smaller text is tried."""


@dataclass(frozen=True, slots=True)
class Gathering(Generic[Row]):
    """Rows gathered under headings: what a heading says, and the columns that it spares."""

    heading: Callable[[Row], str]
    """Rows in a run that give the same text stand under it together."""
    spared: tuple[str, ...]


def listing(
    schedule: Schedule[Row], rows: Sequence[Row], notes: Sequence[str] = (), gathered: Gathering[Row] | None = None, reading: Sequence[str] = ()
) -> list[Page]:
    """The pages of a schedule, all at one text height: the largest at which its columns fit.

    `reading`, how the rows are to be read, stands before the first of them; `notes` follow the totals.

    Text wraps; a number never does.
    """
    spared = gathered.spared if gathered else ()
    columns = [column for column in schedule.columns if column.heading and column.key not in spared]
    cells = [[shown(getattr(row, column.key), column) for column in columns] for row in rows]
    grid = _grid(columns, cells)
    headings = [gathered.heading(row) if gathered else "" for row in rows]
    lines = [(heading, block) for heading, row in zip(headings, cells, strict=True) for block in grid.row(row)]
    lines = lines or [("", paragraph("Nothing in this job.", BODY.width, height=grid.height))]
    tail = [paragraph(text, BODY.width, height=max(grid.height, 2.5), bold=True) for text in schedule.totals(rows)] if rows else []
    tail += [paragraph(text, BODY.width, height=2.5) for text in notes]
    before = [*(paragraph(text, BODY.width, height=2.5) for text in reading), Block((), BODY.width, AFTER / 2)] if rows and reading else []
    stacks = _stacked(grid, lines, tail, before)
    made = []
    for number, items in enumerate(stacks, 1):
        part = f" ({number} of {len(stacks)})" if len(stacks) > 1 else ""
        group = Group(f"{schedule.key}-{number}", tuple(items), f"{schedule.title}{part}")
        made.append(Page(f"{schedule.title}{part}", f"{schedule.title} of the job{part}: {len(rows)} rows.", (group,)))
    return made


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where the columns are and how large their text is."""

    columns: list[Column]
    widths: list[float]
    height: float

    def head(self) -> Block:
        """The headings over a line."""
        return self._cells([wrap(c.heading, w, self.height, bold=True) for c, w in zip(self.columns, self.widths, strict=True)], head=True)

    def row(self, cells: Sequence[str]) -> list[Block]:
        """One row over a fine line; several where its text would fill more than half a page, all but the first with what is left."""
        lines = [
            wrap(text, width, self.height) if column.text else [text]
            for text, column, width in zip(cells, self.columns, self.widths, strict=True)
        ]
        most = max(1, int(BODY.height / 2 / (self.height * LEADING)))
        deepest = max(len(column) for column in lines)
        return [self._cells([column[i : i + most] for column in lines], head=False) for i in range(0, deepest, most)]

    def over(self, heading: str) -> Block:
        """A heading over its rows."""
        return stack([Block((), BODY.width, self.height * 0.8), paragraph(heading, BODY.width, height=self.height, bold=True)])

    def _cells(self, lines: Sequence[Sequence[str]], *, head: bool) -> Block:
        """Lines of text side by side in their columns, numbers to the right, over a line."""
        height, left = self.height, 0.0
        items: list[Entity] = []
        for cell, column, width in zip(lines, self.columns, self.widths, strict=True):
            x, align = (left, "left") if column.text else (left + width, "right")
            items += [
                Label(text, Point(x, -PAD - number * height * LEADING), height, align=align, level="top", bold=head)
                for number, text in enumerate(cell) if text
            ]
            left += width + GUTTER
        deepest = max(len(cell) for cell in lines)
        depth = 2 * PAD + height * (1.25 + (deepest - 1) * LEADING)
        items.append(line(0, -depth, BODY.width, -depth, *((THIN, Layer.SHEET) if head else (FINE, Layer.HATCH))))
        return Block(tuple(items), BODY.width, depth)


def _grid(columns: list[Column], cells: Sequence[Sequence[str]]) -> _Grid:
    wanted = [_natural(i, column, cells) for i, column in enumerate(columns)]
    room = BODY.width - GUTTER * (len(columns) - 1)
    for height in HEIGHTS:
        widths = [width * height + ROUNDING for width in wanted]
        if sum(widths) > room:
            widths = _narrowed(columns, widths, room, LEAST_TEXT * height)
        if sum(widths) <= room + 1e-6:
            return _Grid(columns, widths, height)
    return _Grid(columns, widths, HEIGHTS[-1])


def _natural(index: int, column: Column, cells: Sequence[Sequence[str]]) -> float:
    """The width of a column's widest text, for letters 1 high."""
    return max([text_width(column.heading, 1.0, bold=True), *(text_width(row[index], 1.0) for row in cells)])


def _narrowed(columns: Sequence[Column], widths: Sequence[float], room: float, least: float) -> list[float]:
    """The widest columns of text made narrower together until all fit, none below `least`.

    They share the room as the roots of their widths: a long text on a few lines costs less height than a short one on many.
    """
    low, high = 0.0, max(widths) ** 0.5
    numbers = [not column.text for column in columns]

    def cut(limit: float) -> list[float]:
        return [w if number else min(w, max(limit * w**0.5, least)) for w, number in zip(widths, numbers, strict=True)]

    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if sum(cut(middle)) <= room else (low, middle)
    return cut(low)


def _stacked(grid: _Grid, lines: Sequence[tuple[str, Block]], tail: Sequence[Block], before: Sequence[Block]) -> list[list[Any]]:
    """What comes before all, headings and rows one under the other from the top of each page; the tail keeps together where it can, and with the last rows."""
    paper, last, ends = _Paper(grid.head(), before), "", len(lines) - WITH_TAIL
    for number, (heading, row) in enumerate(lines):
        blocks = [row] if heading in {"", last} else [grid.over(heading), row]
        end = _end(grid, lines[number:], tail) if tail and number == max(ends, 0) else []
        if not (paper.takes(blocks) and paper.takes(end)):
            paper.turn()
            blocks = [grid.over(f"{heading} (continued)" if heading == last else heading), row] if heading else [row]
        paper.put(blocks)
        last = heading
    if tail:
        paper.top -= AFTER
        if not paper.takes(tail):
            paper.turn(headed=False)
        for block in tail:
            if not paper.takes([block]):
                paper.turn(headed=False)
            paper.put([block])
    return paper.pages


def _end(grid: _Grid, lines: Sequence[tuple[str, Block]], tail: Sequence[Block]) -> list[Block]:
    """The last rows with their headings and the tail: what stands on one page; only the rows where that is too much for one."""
    blocks, last = [], ""
    for heading, row in lines:
        blocks += [row] if heading in {"", last} else [grid.over(heading), row]
        last = heading
    with_tail = [*blocks, Block((), BODY.width, AFTER), *tail]
    return with_tail if sum(block.height for block in with_tail) <= BODY.height / 2 else blocks


class _Paper:
    """Pages as they fill, from the top down."""

    def __init__(self, head: Block, before: Sequence[Block] = ()) -> None:
        self.head, self.top = head, BODY.top
        self.pages: list[list[Any]] = []
        self.turn(headed=False)
        self.put([*before, head])
        self.fresh = True

    def takes(self, blocks: Sequence[Block]) -> bool:
        """Whether blocks go on this page; an empty one takes anything, for no row, and no end of a list, is taller than half of it."""
        return self.fresh or self.top - sum(block.height for block in blocks) >= BODY.bottom

    def put(self, blocks: Sequence[Block]) -> None:
        """Set blocks below what is there."""
        for block in blocks:
            self.pages[-1] += block.at(BODY.left, self.top)
            self.top -= block.height
        self.fresh = False

    def turn(self, *, headed: bool = True) -> None:
        """Begin a new page."""
        self.pages.append([])
        self.top = BODY.top
        if headed:
            self.put([self.head])
        self.fresh = True
