"""The installer's sheet on A4: the same as the A3 one, over two or three pages that go into a folder."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Group, Placed, Sheet, View
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.sheets import installer_words as said
from elevations.sheets.arrange import on_paper
from elevations.sheets.fit import without_tones
from elevations.sheets.installer import MOST_FINDINGS, installer_sheet
from elevations.sheets.page import BODY, Page, sheets_of
from elevations.spec.model import Job
from elevations.views.marking_out import marking_out
from elevations.views.table import Block, stack
from elevations.views.wall_section import material_key, wall_section

COLUMN, GAP = 88.0, 6.0
LEFT = BODY.width - COLUMN - GAP
SCALES = (5.0, 10.0, 20.0, 50.0)
AREA = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)


def installer_sheets(window: Window, job: Job, style: str = "paper") -> list[Sheet]:
    """One A3 sheet, or A4 pages where the job's paper is A4: marking out and glass; sections with the wall; checklist."""
    if job.drawing.sheet != "A4":
        return [installer_sheet(window, job, style)]
    place = f", {window.location}" if window.location else ""
    title = f"Fitting window {window.mark}{place}"
    walled = window.site is not None and window.site.wall is not None
    words = [said.setting_true(window, LEFT), said.sill_words(window, LEFT), said.findings_block(window, LEFT, MOST_FINDINGS)]
    setting = [block for block in words if block is not None]
    front = _drawn([marking_out(window, scale) for scale in SCALES])
    pages = [_page(title, "marking out", front, _front_words(window))]
    if walled:
        placed = _sections(window)
        pages.append(Page(f"{title}: in the wall", f"{title}: sections with the wall, in mm.", (), placed, placed[0].scale))
    pages.append(_last(f"{title}: checklist", setting))
    if style == "model":
        pages = [Page(p.title, p.description, p.groups, tuple(without_tones(place) for place in p.placed), p.scale) for p in pages]
    return sheets_of(pages, job.job, demonstration=window.system.demonstration)


def _front_words(window: Window) -> list[Block]:
    """Glass and fixing, as many units as there is room for."""
    held = said.holding(window, COLUMN)
    for most in (len(window.panes), 20, 10, 4):
        glass = said.glass_table(window, COLUMN, most)
        if glass.height + held.height + 6.0 <= BODY.height:
            break
    return [glass, held]


def _page(title: str, what: str, placed: tuple[Placed, ...], words: Sequence[Block]) -> Page:
    group = Group("installer-words", tuple(stack(words, 3.0).at(BODY.right - COLUMN, BODY.top - 2.0)), "in words")
    return Page(title, f"{title}: {what}, in mm, seen from outside.", (group,), placed, placed[0].scale)


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


def _last(title: str, words: Sequence[Block]) -> Page:
    """Checklist, boxes for sizes, signatures and cautions."""
    left = stack([*words, said.checklist(LEFT, 2), said.cautions(LEFT)], 4.0)
    right = stack([said.blanks("As fitted, mm", said.AS_FITTED, COLUMN, 4, high=10.0), said.blanks("Signed", said.SIGNED, COLUMN, 2, high=12.0)], 5.0)
    items: list[Entity] = [*left.at(BODY.left, BODY.top - 2.0), *right.at(BODY.right - COLUMN, BODY.top - 2.0)]
    return Page(title, f"{title}, boxes for sizes as fitted and for signatures.", (Group("installer-words", tuple(items), "checklist"),))
