"""All windows of a job together at one scale, so that their sight lines and proportions can be compared."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import TypeVar

from elevations.drawing.entities import Entity, Group, Label, Placed, Sheet, View
from elevations.drawing.lettering import fit, text_width
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.sheets.customer import SCALES, Page, header, wall
from elevations.sheets.customer_seen import Seen, all_seen
from elevations.sheets.factory import PAPERS
from elevations.spec.model import Job

GAP, MARGIN, CAPTION = 14.0, 12.0, 11.0
"""Between two windows, round the rows, and under each row for the windows' names, mm on A3."""
NAME = 2.5
"""Height of the windows' names, mm on A3."""
CLOSE = 0.72
"""Gaps on a piece of wall, as a share of those on A3."""
NARROWEST = 34.0
"""Room that a window's name has at least, mm on A3."""

Row = list[Seen]


def overview_sheets(windows: Sequence[Window], job: Job, sets: Sequence[Joined] = ()) -> list[Sheet]:
    """One page with every window, and every set of joined ones as one, from outside, their heads level in each row; more pages only where 1:50 is still too large."""
    if not windows:
        return []
    page = Page(*PAPERS[job.drawing.sheet])
    inner = page.inner
    area = Box(inner.left, inner.bottom, inner.right, inner.top - 21 * page.k)
    scale, pages = _pages(all_seen(windows, sets), area, page.k)
    sheets = []
    for number, rows in enumerate(pages, start=1):
        title = _title(number, len(pages))
        placed = _standing_rows(area, rows, scale, page.k, page.text(NAME))
        said = _said(rows)
        said_under = f"{title}, from outside, all at 1:{scale:g}; sizes in mm"
        sheets.append(Sheet(title, said, page.width, page.height, tuple(placed), (header(page, job.job.site or title, said_under, job.job, job.job.client),), scale))
    return sheets


def on_wall(windows: Sequence[Window], width: float, height: float, text: float, sets: Sequence[Joined] = ()) -> list[Sheet]:
    """The same without a page round it: pieces of wall of that width, no higher than needed and at most `height`, mm.

    `text`: height of the windows' names, mm.
    """
    k = CLOSE
    scale, pages = _pages(all_seen(windows, sets), Box(0.0, 0.0, width, height), k) if windows else (SCALES[0], [])
    sheets = []
    for number, rows in enumerate(pages, start=1):
        high = sum(_row_height(row, scale, k) for row in rows) + (len(rows) + 1) * GAP * k
        box = Box(0.0, 0.0, width, min(high, height))
        placed = _standing_rows(box, rows, scale, k, text)
        sheets.append(Sheet(_title(number, len(pages)), _said(rows), width, box.height, tuple(placed), (), scale))
    return sheets


def _title(number: int, count: int) -> str:
    return "All windows" if count == 1 else f"All windows, page {number} of {count}"


def _said(rows: Sequence[Row]) -> str:
    return "Every window from outside at one scale: " + "; ".join(f"{one.mark}, {one.name}, {one.size_words}" for row in rows for one in row)


def _pages(windows: Sequence[Seen], area: Box, k: float) -> tuple[float, list[list[Row]]]:
    """The largest standard scale at which all fit one page, and the rows of each page; at the smallest as many pages as it takes."""
    width, height = area.width - 2 * MARGIN * k, area.height - 2 * MARGIN * k
    pages: list[list[Row]] = []
    scale = SCALES[-1]
    for scale in SCALES:
        rows = _filled(windows, partial(_room, scale=scale, k=k), width, GAP * k)
        pages = _filled(rows, partial(_row_height, scale=scale, k=k), height, GAP * k)
        widest = max(_room(window, scale, k) for window in windows)
        tallest = max(_row_height(row, scale, k) for row in rows)
        if len(pages) == 1 and widest <= width and tallest <= height:
            break
    return scale, pages


def _room(window: Seen, scale: float, k: float) -> float:
    """The width that a window takes in its row, its name included, mm."""
    return max(window.bounds.width / scale, NARROWEST * k)


Item = TypeVar("Item")


def _filled(items: Iterable[Item], size: Callable[[Item], float], room: float, gap: float) -> list[list[Item]]:
    """The items one after another in as few runs as their sizes and the gaps between them need; one too large stands alone."""
    runs: list[list[Item]] = [[]]
    used = 0.0
    for item in items:
        own = size(item)
        if runs[-1] and used + gap + own > room:
            runs.append([])
            used = 0.0
        used += own + (gap if runs[-1] else 0.0)
        runs[-1].append(item)
    return runs


def _row_height(row: Row, scale: float, k: float) -> float:
    return max(window.bounds.height for window in row) / scale + CAPTION * k


def _standing_rows(area: Box, rows: list[Row], scale: float, k: float, text: float) -> list[Placed]:
    """The wall, the windows on it with their heads level in each row, and their names of that height."""
    placed: list[Placed] = [wall(area, "outside", "overview-wall")]
    captions: list[Entity] = []
    free = area.height - sum(_row_height(row, scale, k) for row in rows)
    top = area.top - free / (len(rows) + 1)
    for row in rows:
        free_across = area.width - 2 * MARGIN * k - sum(_room(window, scale, k) for window in row)
        left, step = area.left + MARGIN * k, free_across / len(row)
        for window in row:
            room = _room(window, scale, k)
            middle = left + step / 2 + room / 2
            placed.append(_standing(window, middle, top, scale))
            captions += _caption(window, middle, top - window.bounds.height / scale - 3.5 * k, room + step * 0.8, text)
            left += room + step
        top -= _row_height(row, scale, k) + free / (len(rows) + 1)
    placed.append(Placed(View("names", "", (Group("names", tuple(captions)),), area), 1.0, Point(0.0, 0.0)))
    return placed


def _standing(window: Seen, middle: float, top: float, scale: float) -> Placed:
    """A window with its head at that height, its middle there."""
    view = window.view(scale)
    view = View(window.id, f"Window {window.mark}", view.groups, view.bounds)
    return Placed(view, scale, Point(middle - window.frame.centre.x / scale, top - window.frame.top / scale))


def _caption(window: Seen, middle: float, top: float, room: float, text: float) -> Iterator[Label]:
    under = f"{window.mark} · {window.size}" if text_width(f"{window.mark} · {window.size}", text) <= room else window.size
    yield Label(fit(window.name, room, text, bold=True), Point(middle, top), text, align="centre", level="top", bold=True)
    yield Label(fit(under, room, text), Point(middle, top - text * 1.7), text, align="centre", level="top")
