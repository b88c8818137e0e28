"""The factory sheet: one window with everything a workshop needs to make it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from elevations.checks.on_sheets import for_factory
from elevations.drawing.entities import Entity, Group, Sheet, Stroke
from elevations.drawing.layers import CUT, Layer
from elevations.geometry.window import Window
from elevations.plane import Box, Corner
from elevations.sheets.arrange import Arrangement, Drawer, arranged
from elevations.sheets.column import column
from elevations.sheets.drawing_programs import for_drawing_programs
from elevations.sheets.title_block import HEIGHT, WIDTH, title_block
from elevations.spec.model import Job
from elevations.spelling import counted
from elevations.views.table import line

PAPERS = {"A3": (420.0, 297.0), "A4": (297.0, 210.0)}
"""Landscape, ISO 216."""
LARGEST, LEGIBLE = "A3", 20.0
"""Where a window goes that does not fit smaller paper, and the smallest scale, 1:20, that smaller paper may need."""
BINDING, MARGIN = 20.0, 10.0
"""Left margin, and the others, mm: ISO 5457 (from memory)."""
INSIDE = 4.0
"""Kept free inside the border and on both sides of the column's line, mm."""


def factory_sheet(window: Window, job: Job, style: str) -> Sheet:
    """One window's sheet. style 'paper': sections shortened, at a scale of their own; 'model': all at one scale, true lengths."""
    return factory_sheets(window, job, (style,))[style]


def factory_sheets(window: Window, job: Job, styles: Sequence[str] = ("paper", "model")) -> dict[str, Sheet]:
    """The same for several styles, drawing what they share only once.

    A window that an A4 sheet can't show whole, down to 1:20, goes on A3, and the sheet says so.
    """
    drawer, checks = Drawer(window, job.drawing.symbol_apex == "hinge"), for_factory(window, job)
    asked = job.drawing.sheet
    sheets = {}
    for style in styles:
        made = _on_paper(drawer, job, asked, style, checks)
        if made is None and asked != LARGEST:
            made = _on_paper(drawer, job, LARGEST, style, checks, (f"Set on {LARGEST}: it does not fit {asked} at a legible scale.",))
        assert made is not None
        sheets[style] = made
    return sheets


def _on_paper(
    drawer: Drawer, job: Job, paper: str, style: str, checks: Sequence[str], notes: Sequence[str] = ()
) -> Sheet | None:
    """The sheet on this paper; None where it does not fit, unless it is the largest paper there is."""
    width, height = PAPERS[paper]
    border = Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)
    left, top, bottom = border.right - WIDTH + INSIDE, border.top - INSIDE, border.bottom + HEIGHT + INSIDE
    words = column(drawer.window, WIDTH - 2 * INSIDE, top - bottom, apex_at_hinge=drawer.apex_at_hinge, notes=notes, checks=checks)
    if paper != LARGEST and not words.whole:
        return None
    area = Box(border.left, border.bottom, border.right - WIDTH, border.top).grown(-INSIDE)
    views = arranged(drawer, area, style)
    if paper != LARGEST and not (views.fits and views.scale <= LEGIBLE):
        return None
    items: list[Entity] = [*words.upper.at(left, top), *words.lower.at(left, bottom + words.lower.height)]
    group = Group("column", tuple(items), "tables and notes")
    if style == "model":
        views = replace(views, placed=tuple(map(for_drawing_programs, views.placed)))
    return _sheet(drawer.window, job, border, views, group, paper)


def _sheet(
    window: Window, job: Job, border: Box, views: Arrangement, words: Group, paper: str
) -> Sheet:
    scales = f"1:{views.scale:g}"
    if views.section_scale != views.scale:
        scales += f", sections 1:{views.section_scale:g}"
    groups = [
        border_of(border),
        words,
        title_block(window, job.job, scales, paper, border.right, border.bottom),
    ]
    place = f", {window.location}" if window.location else ""
    count = len(window.lights)
    said = (
        f"Factory sheet of window {window.mark}{place}: frame {window.width.value:g} by {window.height.value:g} mm, "
        f"{counted(count, 'light')}. Elevation from outside, sections A-A and B-B, tables and notes."
    )
    return Sheet(f"Window {window.mark}{place}", said, *PAPERS[paper], views.placed, tuple(groups), views.scale)


def border_of(box: Box) -> Group:
    """The line round a sheet, and the one between its drawings and its column of words."""
    corners = (Corner(box.left, box.bottom), Corner(box.right, box.bottom), Corner(box.right, box.top), Corner(box.left, box.top))
    left = box.right - WIDTH
    return Group("border", (
        Stroke(corners, Layer.SHEET, closed=True, weight=CUT),
        line(left, box.bottom + HEIGHT, left, box.top),
    ))
