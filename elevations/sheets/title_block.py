"""The title block: the fields of ISO 7200 (from memory, not seen), bottom right of the sheet."""

from __future__ import annotations

from dataclasses import dataclass

from elevations.drawing.entities import Entity, Group, Label
from elevations.drawing.layers import CUT, FINE, VISIBLE
from elevations.drawing.lettering import fit, text_width, wrap
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.spec.model import JobInfo
from elevations.views.table import line

WIDTH, HEIGHT = 110.0, 55.0
CAPTION, VALUE, SMALLEST, MARK = 2.0, 2.5, 1.8, 5.0
"""Heights of a field's name, of what stands in it, of that where it is long, and of the mark."""
PAD = 1.8
ROW, ROWS = 9.0, 4
APPROVED = "Approved by"


@dataclass(frozen=True, slots=True)
class Cell:
    """A field: its name, what stands in it, and its share of the row's width."""

    caption: str
    value: str
    share: float


@dataclass(frozen=True, slots=True)
class Title:
    """What the sheet shows."""

    name: str
    """'Window W1'."""
    location: str
    sheet: int
    """Its place in the job, from 1."""


def title_block(window: Window, info: JobInfo, scales: str, paper: str, right: float, bottom: float) -> Group:
    """A window's title block with its bottom right corner there, paper mm."""
    return titled_block(Title(f"Window {window.mark}", window.location, _sheet_number(window)), info, scales, paper, right, bottom)


def titled_block(title: Title, info: JobInfo, scales: str, paper: str, right: float, bottom: float) -> Group:
    """The title block with its bottom right corner there, paper mm."""
    box = Box(right - WIDTH, bottom, right, bottom + HEIGHT)
    rows = _rows(info, scales, paper, str(title.sheet))
    items: list[Entity] = [line(box.left, box.top, box.right, box.top, CUT), line(box.left, box.bottom, box.left, box.top, CUT)]
    items += _title(title, box)
    top = box.bottom + ROW * len(rows)
    for row in rows:
        items.append(line(box.left, top, box.right, top, VISIBLE if row is rows[0] else FINE))
        left = box.left
        for cell in row:
            width = WIDTH * cell.share
            if left > box.left:
                items.append(line(left, top, left, top - ROW))
            items.append(Label(cell.caption, Point(left + PAD, top - 1.0), CAPTION, level="top"))
            room = width - 2 * PAD
            height = VALUE if text_width(cell.value, VALUE) <= room else SMALLEST
            items.append(Label(fit(cell.value, room, height), Point(left + PAD, top - ROW + 1.7), height))
            left += width
        top -= ROW
    return Group("title-block", tuple(item for item in items if not isinstance(item, Label) or item.text), "title block")


def _rows(info: JobInfo, scales: str, paper: str, sheet: str) -> tuple[tuple[Cell, ...], ...]:
    """The fields, row by row."""
    return (
        (Cell("Site", info.site, 0.62), Cell("Reference", info.reference, 0.38)),
        (Cell("Client", info.client, 0.62), Cell("Date", info.issued or info.surveyed, 0.38)),
        (Cell("Drawn by", info.drawn_by, 0.31), Cell("Checked by", info.checked_by, 0.31), Cell(APPROVED, "", 0.38)),
        (Cell("Scale", scales, 0.46), Cell("Paper", paper, 0.16), Cell("Sheet", sheet, 0.16),
         Cell("Revision", info.revision, 0.22)),
    )


def approved_field(words: str, right: float, bottom: float) -> Group:
    """What stands in the 'Approved by' field of a title block with its bottom right corner there, in up to two small lines.

    They take the place of the field's name. Words too long for it lose their middle: what stands in brackets at their end, the fingerprint, is kept.
    """
    rows = _rows(JobInfo(), "", "", "")
    number, row = next((i, row) for i, row in enumerate(rows) if any(cell.caption == APPROVED for cell in row))
    before = [cell.share for cell in row[: [cell.caption for cell in row].index(APPROVED)]]
    left, room = right - WIDTH * (1 - sum(before)) + PAD, WIDTH * row[len(before)].share - 2 * PAD
    lines = wrap(words, room, CAPTION)
    if len(lines) > 2:
        rest, bracket, tail = " ".join(lines[1:]).rpartition(" (")
        tail = bracket + tail
        lines = [lines[0], fit(rest, room - text_width(tail, CAPTION), CAPTION) + tail]
    step = CAPTION * 1.7
    foot = bottom + ROW * (len(rows) - 1 - number) + (ROW - CAPTION - step * (len(lines) - 1)) / 2
    items = tuple(Label(text, Point(left, foot + (len(lines) - 1 - i) * step), CAPTION) for i, text in enumerate(lines))
    return Group("approved", items, words)


def _title(title: Title, box: Box) -> list[Entity]:
    """Mark and location, large; a long location gets two smaller lines."""
    room, top = WIDTH - 2 * PAD, box.top - 2.6
    mark = title.name
    height = next((h for h in (MARK, 3.5) if text_width(mark, h, bold=True) <= room), VALUE)
    at = Point(box.left + PAD, top)
    items: list[Entity] = [Label(fit(mark, room, height, bold=True), at, height, level="top", bold=True)]
    location = wrap(title.location, room, 3.5)
    height = 3.5 if len(location) <= 1 else 2.5
    rows = wrap(title.location, room, height)
    if len(rows) > 2:
        rows = [rows[0], fit(" ".join(rows[1:]), room, height)]
    base = box.bottom + ROW * ROWS + 2.0
    for i, row in enumerate(reversed(rows)):
        items.append(Label(row, Point(box.left + PAD, base + i * height * 1.7), height))
    return items


def _sheet_number(window: Window) -> int:
    """The window's place in the job, from 1."""
    place = window.path[1] if len(window.path) > 1 else 0
    return int(place) + 1
