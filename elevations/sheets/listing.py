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
AFTER = 3.0
"""Before the totals, mm."""
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
    headings = [gathered.heading(row) if gathered else "" for row in rows]
    lines = [_Line(grid.row(row), grid.over(heading), grid.over(heading, again=True)) for row, heading in zip(cells, headings, strict=True)]
    lines = lines or [_Line(paragraph("Nothing in this job.", BODY.width, height=grid.height))]
    tail = [paragraph(text, BODY.width, height=max(grid.height, 2.5), bold=True) for text in schedule.totals(rows)] if rows else []
    tail += [paragraph(text, BODY.width, height=2.5) for text in notes]
    stacks = _stacked(grid.head(), lines, tail)
    made = []
    for number, items in enumerate(stacks, 1):
        part = f" ({number} of {len(stacks)})" if len(stacks) > 1 else ""
        group = Group(f"{schedule.key}-{number}", tuple(items), f"{schedule.title}{part}")
        made.append(Page(f"{schedule.title}{part}", f"{schedule.title} of the job{part}: {len(rows)} rows.", (group,)))
    return made


@dataclass(frozen=True, slots=True)
class _Line:
    """A row, and what stands over it where it is the first under its heading or the first on a page."""

    row: Block
    heading: Block | None = None
    again: Block | None = None


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

    def over(self, heading: str, *, again: bool = False) -> Block | None:
        """A heading over its rows; `again` where they go on on a new page."""
        if not heading:
            return None
        said = f"{heading} (continued)" if again else heading
        space = Block((), BODY.width, self.height * 0.8)
        return stack([space, paragraph(said, BODY.width, height=self.height, bold=True)])

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


def _stacked(head: Block, lines: Sequence[_Line], tail: Sequence[Block]) -> list[list[Any]]:
    """Lines one under the other from the top of each page, below the head; the tail keeps together where it can."""
    paper = _Paper(head)
    last: Block | None = None
    for line_ in lines:
        same = line_.heading is not None and last is not None and line_.heading.items == last.items
        first = [] if same else [line_.heading]
        if not paper.takes([*first, line_.row]):
            paper.turn()
            first = [line_.again if same else line_.heading]
        paper.put([*first, line_.row])
        last = line_.heading
    if tail:
        paper.top -= AFTER
        if not paper.takes(tail):
            paper.turn(headed=False)
        for block in tail:
            if not paper.takes([block]):
                paper.turn(headed=False)
            paper.put([block])
    return paper.pages


class _Paper:
    """Pages as they fill, from the top down."""

    def __init__(self, head: Block) -> None:
        self.head, self.top = head, BODY.top
        self.pages: list[list[Any]] = []
        self.turn()

    def takes(self, blocks: Sequence[Block | None]) -> bool:
        """Whether blocks go on this page; an empty one takes anything, for no other has more room."""
        return self.fresh or self.top - sum(block.height for block in blocks if block) >= BODY.bottom

    def put(self, blocks: Sequence[Block | None]) -> None:
        """Set blocks below what is there."""
        for block in blocks:
            if block:
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
