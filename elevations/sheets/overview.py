"""All windows of a job together at one scale, so that their sight lines and proportions can be compared."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Entity, Group, Label, Placed, Sheet, View
from elevations.drawing.layers import THIN, Layer
from elevations.drawing.lettering import fit, text_width
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.sheets import customer_words as words
from elevations.sheets.customer import SCALES, Page, wall
from elevations.sheets.factory import PAPERS
from elevations.spec.model import Job
from elevations.views.customer import customer_view
from elevations.views.table import line

GAP, MARGIN, CAPTION = 14.0, 12.0, 11.0
"""Between two windows, round the rows, and under each row for the windows' names, mm on A3."""
NARROWEST = 34.0
"""Room that a window's name has at least, mm on A3."""

Row = list[Window]


def overview_sheets(windows: Sequence[Window], job: Job) -> list[Sheet]:
    """One page with every window from outside, their heads level in each row; more pages only where 1:50 is still too large."""
    if not windows:
        return []
    page = Page(*PAPERS[job.drawing.sheet])
    inner = page.inner
    area = Box(inner.left, inner.bottom, inner.right, inner.top - 21 * page.k)
    scale, pages = _pages(windows, area, page.k)
    return [_sheet(page, area, rows, job, scale, number, len(pages)) for number, rows in enumerate(pages, start=1)]


def _pages(windows: Sequence[Window], area: Box, k: float) -> tuple[float, list[list[Row]]]:
    """The largest standard scale at which all fit one page, and the rows of each page."""
    pages: list[list[Row]] = []
    scale = SCALES[-1]
    for scale in SCALES:
        rows = _rows(windows, area.width - 2 * MARGIN * k, scale, k)
        pages = _stacked(rows, area.height - 2 * MARGIN * k, scale, k)
        widest = max(window.width.value for window in windows) / scale
        if len(pages) == 1 and widest <= area.width - 2 * MARGIN * k:
            break
    return scale, pages


def _room(window: Window, scale: float, k: float) -> float:
    """The width that a window takes in its row, its name included, mm."""
    return max(window.width.value / scale, NARROWEST * k)


def _rows(windows: Sequence[Window], width: float, scale: float, k: float) -> list[Row]:
    rows: list[Row] = [[]]
    used = 0.0
    for window in windows:
        room = _room(window, scale, k)
        if rows[-1] and used + GAP * k + room > width:
            rows.append([])
            used = 0.0
        used += room + (GAP * k if rows[-1] else 0.0)
        rows[-1].append(window)
    return rows


def _row_height(row: Row, scale: float, k: float) -> float:
    return max(window.height.value for window in row) / scale + CAPTION * k


def _stacked(rows: Sequence[Row], height: float, scale: float, k: float) -> list[list[Row]]:
    pages: list[list[Row]] = [[]]
    used = 0.0
    for row in rows:
        high = _row_height(row, scale, k)
        if pages[-1] and used + GAP * k + high > height:
            pages.append([])
            used = 0.0
        used += high + (GAP * k if pages[-1] else 0.0)
        pages[-1].append(row)
    return pages


def _sheet(page: Page, area: Box, rows: list[Row], job: Job, scale: float, number: int, count: int) -> Sheet:
    k = page.k
    placed: list[Placed] = [wall(area, "outside", "overview-wall")]
    captions: list[Entity] = []
    free = area.height - sum(_row_height(row, scale, k) for row in rows)
    top = area.top - free / (len(rows) + 1)
    for row in rows:
        free_across = area.width - 2 * MARGIN * k - sum(_room(window, scale, k) for window in row)
        left = area.left + MARGIN * k
        step = free_across / len(row)
        for window in row:
            middle = left + step / 2 + _room(window, scale, k) / 2
            placed.append(_standing(window, middle, top, scale))
            captions += _caption(page, window, middle, top - window.height.value / scale - 3.5 * k, _room(window, scale, k) + step * 0.8)
            left += _room(window, scale, k) + step
        top -= _row_height(row, scale, k) + free / (len(rows) + 1)
    placed.append(Placed(View("names", "", (Group("names", tuple(captions)),), area), 1.0, Point(0.0, 0.0)))
    windows = [window for row in rows for window in row]
    said = "Every window from outside at one scale: " + "; ".join(
        f"{window.mark}, {words.name_of(window)}, {words.size_words(window)}" for window in windows
    )
    title = "All windows" if count == 1 else f"All windows, page {number} of {count}"
    return Sheet(title, said, page.width, page.height, tuple(placed), (_header(page, job, title, scale),), scale)


def _standing(window: Window, middle: float, top: float, scale: float) -> Placed:
    """A window with its head at that height, its middle there."""
    view = customer_view(window, scale)
    view = View(f"window-{window.path[-1]}", f"Window {window.mark}", view.groups, view.bounds)
    return Placed(view, scale, Point(middle - window.width.value / scale / 2, top - window.height.value / scale))


def _caption(page: Page, window: Window, middle: float, top: float, room: float) -> Iterator[Label]:
    text = page.text(2.5)
    size = f"{window.width.value:g} × {window.height.value:g}"
    under = f"{window.mark} · {size}" if text_width(f"{window.mark} · {size}", text) <= room else size
    yield Label(fit(words.name_of(window), room, text, bold=True), Point(middle, top), text, align="centre", level="top", bold=True)
    yield Label(fit(under, room, text), Point(middle, top - text * 1.7), text, align="centre", level="top")


def _header(page: Page, job: Job, title: str, scale: float) -> Group:
    k, inner, info = page.k, page.inner, job.job
    right = " · ".join(part for part in (info.reference, info.revision and f"revision {info.revision}", info.issued or info.surveyed) if part)
    items = [
        Label(fit(info.site or title, inner.width * 0.6, page.text(7.0), bold=True), Point(inner.left, inner.top), page.text(7.0), level="top", bold=True),
        Label(f"{title}, from outside, all at 1:{scale:g}; sizes in mm", Point(inner.left, inner.top - 11 * k), page.text(3.5), level="top"),
        Label(fit(info.client, inner.width * 0.36, page.text(3.5)), Point(inner.right, inner.top - 0.6 * k), page.text(3.5), align="right", level="top"),
        Label(fit(right, inner.width * 0.36, page.text(2.5)), Point(inner.right, inner.top - 11.6 * k), page.text(2.5), align="right", level="top"),
    ]
    rule = line(inner.left, inner.top - 17.5 * k, inner.right, inner.top - 17.5 * k, THIN, Layer.OPENING)
    return Group("header", (*(item for item in items if item.text), rule), "title")
