"""A page of the workshop's pack that is about the whole job: a head that says which job and what, a foot with cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from elevations.drawing.entities import Entity, Group, Label, Placed, Sheet
from elevations.drawing.layers import FINE, VISIBLE
from elevations.drawing.lettering import fit, text_width, wrap
from elevations.plane import Box, Point
from elevations.sheets import words
from elevations.spec.model import JobInfo
from elevations.views.table import line

WIDTH, HEIGHT = 297.0, 210.0
"""A4, landscape: it lies on a bench and goes into a folder."""
BINDING, MARGIN = 20.0, 10.0
HEAD, FOOT = 15.0, 9.0
TITLES, TEXT, SMALL = (5.0, 3.5), 2.5, 2.0
BODY = Box(BINDING, MARGIN + FOOT, WIDTH - MARGIN, HEIGHT - MARGIN - HEAD)
"""What a page leaves to its contents, mm on paper."""


@dataclass(frozen=True, slots=True)
class Page:
    """A page's contents, before it knows which page of how many it is."""

    title: str
    description: str
    groups: tuple[Group, ...]
    """In paper mm, within BODY."""
    placed: tuple[Placed, ...] = ()
    scale: float = 1.0


def sheets_of(pages: Sequence[Page], info: JobInfo, *, demonstration: bool, first: int = 1, total: int | None = None) -> list[Sheet]:
    """The pages with head and foot, counted from `first` of `total` (of these alone without one)."""
    count = len(pages) if total is None else total
    made = []
    for number, page in enumerate(pages, first):
        head = Group("head", tuple(_head(page.title, info)), "which job and what")
        foot = Group("foot", tuple(_foot(info, f"Page {number} of {count}", demonstration=demonstration)), "cautions and page")
        made.append(Sheet(page.title, page.description, WIDTH, HEIGHT, page.placed, (head, *page.groups, foot), page.scale))
    return made


def numbered(sheet: Sheet, number: int, total: int) -> Sheet:
    """A sheet with a border of its own, and below that its page of how many."""
    at = Point(sheet.width - MARGIN, MARGIN / 2)
    label = Label(f"Page {number} of {total}", at, TEXT, align="right", level="middle")
    return replace(sheet, groups=(*sheet.groups, Group("page-number", (label,), label.text)))


def _head(title: str, info: JobInfo) -> list[Entity]:
    """What the page is, large, on the left; the job on the right, over a line."""
    top, base = HEIGHT - MARGIN, BODY.top + 3.0
    job = [text for text in (" · ".join(part for part in (info.reference, info.site) if part), info.client) if text]
    room = max((text_width(text, TEXT, bold=number == 0) for number, text in enumerate(job)), default=0.0)
    room = min(room, (BODY.width) * 0.45)
    items: list[Entity] = [*_title(title, BODY.width - room - 6.0, top - 1.0)]
    items += [
        Label(fit(text, room, TEXT, bold=row == 0), Point(BODY.right, top - 1.0 - row * 5.0), TEXT, align="right", level="top", bold=row == 0)
        for row, text in enumerate(job)
    ]
    return [*items, line(BODY.left, base, BODY.right, base, VISIBLE)]


def _title(title: str, room: float, top: float) -> list[Label]:
    """On one line as large as it fits, else on two, the second then with an ellipsis where even that is too short."""
    height = next((h for h in TITLES if text_width(title, h, bold=True) <= room), TITLES[-1])
    lines = wrap(title, room, height, bold=True)
    if len(lines) > 2:
        lines = [lines[0], fit(" ".join(lines[1:]), room, height, bold=True)]
    return [Label(text, Point(BODY.left, top - row * height * 1.6), height, level="top", bold=True) for row, text in enumerate(lines)]


def _foot(info: JobInfo, page: str, *, demonstration: bool) -> list[Entity]:
    """Cautions on the left; revision, date and page on the right."""
    top = BODY.bottom - 2.0
    about = [f"Revision {info.revision}" if info.revision else "", info.issued or info.surveyed, page]
    right = " · ".join(text for text in about if text)
    said = words.CONFIRM + (f" {words.DEMONSTRATION}." if demonstration else "")
    room = BODY.width - text_width(right, TEXT) - 6.0
    height = TEXT if text_width(said, TEXT, bold=True) <= room else SMALL
    return [
        line(BODY.left, top, BODY.right, top, FINE),
        Label(fit(said, room, height, bold=True), Point(BODY.left, top - 1.8), height, level="top", bold=True),
        Label(right, Point(BODY.right, top - 1.8), TEXT, align="right", level="top"),
    ]
