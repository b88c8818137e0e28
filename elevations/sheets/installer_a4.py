"""The installer's sheets: front and back on A3, or the same on A4 pages that go into a folder."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Group, Placed, Sheet, View
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.sheets import installer_words as said
from elevations.sheets.arrange import on_paper
from elevations.sheets.installer import (
    ALL,
    COLUMN_GAP,
    MOST_FINDINGS,
    PAGES,
    a3_sheets,
    for_drawing_programs,
    front_words,
    setting_words,
)
from elevations.sheets.key import marking_key
from elevations.sheets.page import BODY, Page, sheets_of
from elevations.spec.model import Job
from elevations.spec.model import Window as WindowSpec
from elevations.views.cuts import choose_cuts
from elevations.views.marking_out import marking_out
from elevations.views.table import TEXT, Block, stack
from elevations.views.wall_section import material_key, wall_section

COLUMN, GAP = 88.0, 6.0
LEFT = BODY.width - COLUMN - GAP
SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)
AREA = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)
GLASS_ROWS = (ALL, 20, 10, 6, 4)
A4_PAGES = 3
"""Marking out, setting true, checklist; one more where the job describes the wall."""


def page_count(spec: WindowSpec, job: Job) -> int:
    """How many sheets a window takes, known before it is worked out."""
    return PAGES if job.drawing.sheet != "A4" else A4_PAGES + (spec.wall is not None)


def installer_sheets(window: Window, job: Job, style: str = "paper") -> list[Sheet]:
    """On A3 front and back; on A4 marking out and glass, sections with the wall where it is described, setting true, checklist."""
    if job.drawing.sheet != "A4":
        return a3_sheets(window, job, style)
    place = f", {window.location}" if window.location else ""
    title, apex = f"Fitting window {window.mark}{place}", job.drawing.symbol_apex == "hinge"
    walled = window.site is not None and window.site.wall is not None
    cuts = choose_cuts(window) if walled else None
    front = _drawn([marking_out(window, scale, apex_at_hinge=apex, cuts=cuts) for scale in SCALES])
    words, rest = _divided(window)
    group = Group("installer-words", words.at(BODY.right - COLUMN, BODY.top - 2.0), "in words")
    pages = [Page(title, f"{title}: marking out, in mm, seen from outside.", (group,), front, front[0].scale)]
    if walled:
        placed = _sections(window)
        pages.append(Page(f"{title}: in the wall", f"{title}: sections with the wall, in mm.", (), placed, placed[0].scale))
    pages += [_setting(f"{title}: setting true", window, rest, apex_at_hinge=apex), _last(f"{title}: checklist")]
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


def _drawn(views: Sequence[View]) -> tuple[Placed, ...]:
    """The view at the first scale at which it fits, in the middle of the area."""
    for view, scale in zip(views, SCALES, strict=True):
        box = on_paper(view, scale)
        if box.width <= AREA.width and box.height <= AREA.height:
            break
    return (Placed(view, scale, Point(AREA.centre.x - box.centre.x, AREA.centre.y - box.centre.y)),)


def _sections(window: Window) -> tuple[Placed, ...]:
    """A-A on the left, B-B with the key under it on the right, over the whole page at the first scale at which all fit."""
    placed: tuple[Placed, ...] = ()
    for scale in SCALES:
        upright, level = (wall_section(window, axis, scale) for axis in (0, 1))
        materials = tuple(dict.fromkeys((*upright.materials, *level.materials)))
        key = material_key(materials, 2, 78.0, scale)
        tall, low, swatches = (on_paper(view, scale) for view in (upright.view, level.view, key))
        at = Point(BODY.left - tall.left, BODY.top - tall.top)
        left = at.x + tall.right + GAP
        low_at = Point(left - low.left, BODY.top - low.top)
        key_at = Point(left, low_at.y + low.bottom - GAP)
        placed = (Placed(upright.view, scale, at), Placed(level.view, scale, low_at), Placed(key, scale, key_at))
        lowest = min(at.y + tall.bottom, key_at.y + swatches.bottom)
        if left + max(low.width, swatches.width) <= BODY.right and lowest >= BODY.bottom:
            break
    return placed


def _setting(title: str, window: Window, rest: Sequence[Block], *, apex_at_hinge: bool) -> Page:
    """How it is set true, what is to be settled, cautions; the key to the marking-out."""
    for findings in (MOST_FINDINGS, 2, 0):
        left = setting_words(window, LEFT, findings)
        if left.height <= BODY.height - 2.0:
            break
    key = stack([*rest, marking_key(window, COLUMN, TEXT, apex_at_hinge=apex_at_hinge)], 5.0)
    items = (*left.at(BODY.left, BODY.top - 2.0), *key.at(BODY.right - COLUMN, BODY.top - 2.0))
    return Page(title, f"{title}, what is to be settled, cautions, key.", (Group("installer-words", items, "setting true"),))


def _last(title: str) -> Page:
    """Checklist, boxes for sizes, signatures."""
    right = stack([said.blanks("As fitted, mm", said.AS_FITTED, COLUMN, 3, high=15.0), said.blanks("Signed", said.SIGNED, COLUMN, 2, high=15.0)], 5.0)
    items = (*said.checklist(LEFT, 2).at(BODY.left, BODY.top - 2.0), *right.at(BODY.right - COLUMN, BODY.top - 2.0))
    return Page(title, f"{title}, boxes for sizes as fitted and for signatures.", (Group("installer-words", items, "checklist"),))
