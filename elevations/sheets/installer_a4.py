"""The installer's sheets: front and back on A3, or the same on A4 pages that go into a folder."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Group, Placed, Sheet, View
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.sheets import installer_words as said
from elevations.sheets.arrange import on_paper
from elevations.sheets.drawing_programs import for_drawing_programs
from elevations.sheets.installer import ALL, COLUMN_GAP, SETTLE_COLUMNS, SETTLE_GAP, a3_sheets, front_words, planned
from elevations.sheets.installer_setting import in_columns, setting_words, settle_blocks
from elevations.sheets.installer_views import READABLE, placed_sections, walled
from elevations.sheets.key import marking_key
from elevations.sheets.page import BODY, Page, sheets_of
from elevations.spec.model import Job
from elevations.views.cuts import choose_cuts
from elevations.views.marking_out import marking_out
from elevations.views.table import TEXT, Block, stack

COLUMN, GAP = 88.0, 6.0
LEFT = BODY.width - COLUMN - GAP
SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)
AREA = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)
GLASS_ROWS = (ALL, 20, 10, 6, 4)
A4_PAGES = 3
"""Marking out, setting true, checklist; one more where the job describes the wall, and more where there is much to be settled."""


def page_count(window: Window, job: Job) -> int:
    """How many sheets a window takes."""
    if job.drawing.sheet != "A4":
        return planned(window, job).pages
    return A4_PAGES + walled(window) + _spread(window, job) - (-len(_settling(window)) // SETTLE_COLUMNS)


def installer_sheets(window: Window, job: Job, style: str = "paper") -> list[Sheet]:
    """On A3 front and back; on A4 marking out and glass, sections with the wall where it is described, setting true, checklist."""
    if job.drawing.sheet != "A4":
        return a3_sheets(window, job, style)
    place = f", {window.location}" if window.location else ""
    title, apex = f"Fitting window {window.mark}{place}", job.drawing.symbol_apex == "hinge"
    cuts = choose_cuts(window) if walled(window) else None
    drawn = [marking_out(window, scale, apex_at_hinge=apex, cuts=cuts) for scale in SCALES]
    front, spread = _front(drawn)
    words, rest = _divided(window)
    group = Group("installer-words", words.at(BODY.right - COLUMN, BODY.top - 2.0), "in words")
    description = f"{title}: marking out, in mm, seen from outside."
    pages = [Page(title, description, () if spread else (group,), front, front[0].scale)]
    if spread:
        pages.append(Page(f"{title}: glass, fixing", f"{title}: glass, ways of opening, fixing.", (group,)))
    if walled(window):
        placed = placed_sections(window, BODY, SCALES)
        pages.append(Page(f"{title}: in the wall", f"{title}: sections with the wall, in mm.", (), placed, placed[0].scale))
    settling = _settling(window)
    settle_on = len(pages) + 2 if settling else None
    pages.append(_setting(f"{title}: setting true", window, rest, settle_on, apex_at_hinge=apex))
    pages += [_to_settle(f"{title}: to be settled", settling[first : first + SETTLE_COLUMNS]) for first in range(0, len(settling), SETTLE_COLUMNS)]
    pages.append(_last(f"{title}: checklist"))
    if style == "model":
        pages = [Page(p.title, p.description, p.groups, tuple(for_drawing_programs(place) for place in p.placed), p.scale) for p in pages]
    return sheets_of(pages, job.job, demonstration=window.system.demonstration)


def _divided(window: Window) -> tuple[Block, list[Block]]:
    """The words beside the marking-out, and those that it has no room for: how lights open goes first, then the list of glass."""
    room = BODY.height - 2.0
    held, opens = said.holding(window, COLUMN), said.opening_list(window, COLUMN, ALL)
    whole = front_words(window, COLUMN, room)
    if whole.height <= room:
        return whole, []
    for most in GLASS_ROWS:
        glass = said.glass_table(window, COLUMN, most)
        both = stack([glass, held], COLUMN_GAP)
        if both.height <= room:
            return both, [opens]
    return held, [glass, opens]


def _front(views: Sequence[View]) -> tuple[tuple[Placed, ...], bool]:
    """The marking-out beside its words, or over the whole page where it is then readable; and whether it takes the whole page."""
    beside, over = (next((i for i, view in enumerate(views) if _fits(view, SCALES[i], area)), len(views) - 1) for area in (AREA, BODY))
    spread = SCALES[beside] > READABLE and over < beside
    number, area = (over, BODY) if spread else (beside, AREA)
    view, scale = views[number], SCALES[number]
    box = on_paper(view, scale)
    return (Placed(view, scale, Point(area.centre.x - box.centre.x, area.centre.y - box.centre.y)),), spread


def _fits(view: View, scale: float, area: Box) -> bool:
    box = on_paper(view, scale)
    return box.width <= area.width and box.height <= area.height


def _spread(window: Window, job: Job) -> bool:
    """Whether the marking-out takes a page of its own."""
    cuts = choose_cuts(window) if walled(window) else None
    apex = job.drawing.symbol_apex == "hinge"
    return _front([marking_out(window, scale, apex_at_hinge=apex, cuts=cuts) for scale in SCALES])[1]


def _settling(window: Window) -> list[Block]:
    """Columns of what is to be settled where the page of setting true has no room for it."""
    if setting_words(window, LEFT, TEXT, settle_on=None).height <= BODY.height - 2.0:
        return []
    return in_columns(settle_blocks(window, LEFT / 2 + COLUMN / 2), BODY.height - 2.0, SETTLE_GAP)


def _setting(title: str, window: Window, rest: Sequence[Block], settle_on: int | None, *, apex_at_hinge: bool) -> Page:
    """How it is set true, what is to be settled, cautions; the key to the marking-out."""
    left = setting_words(window, LEFT, TEXT, settle_on=settle_on)
    key = stack([*rest, marking_key(window, COLUMN, TEXT, apex_at_hinge=apex_at_hinge)], 5.0)
    items = (*left.at(BODY.left, BODY.top - 2.0), *key.at(BODY.right - COLUMN, BODY.top - 2.0))
    return Page(title, f"{title}, what is to be settled, cautions, key.", (Group("installer-words", items, "setting true"),))


def _to_settle(title: str, columns: Sequence[Block]) -> Page:
    """What is to be settled, whole."""
    items = tuple(
        item for number, block in enumerate(columns) for item in block.at(BODY.left + number * (LEFT / 2 + COLUMN / 2 + GAP), BODY.top - 2.0)
    )
    return Page(title, f"{title}; circles as on the marking-out.", (Group("installer-words", items, "what is to be settled"),))


def _last(title: str) -> Page:
    """Checklist, boxes for sizes, signatures."""
    right = stack([said.blanks("As fitted, mm", said.AS_FITTED, COLUMN, 3, high=15.0), said.blanks("Signed", said.SIGNED, COLUMN, 2, high=15.0)], 5.0)
    items = (*said.checklist(LEFT, 2).at(BODY.left, BODY.top - 2.0), *right.at(BODY.right - COLUMN, BODY.top - 2.0))
    return Page(title, f"{title}, boxes for sizes as fitted and for signatures.", (Group("installer-words", items, "checklist"),))
