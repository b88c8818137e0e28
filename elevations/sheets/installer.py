"""The installer's sheet: one window to mark out, set true, fix, glaze, check and sign for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Entity, Group, Placed, Sheet, Stroke, View
from elevations.drawing.layers import CUT, Layer
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Point
from elevations.sheets import installer_words as said
from elevations.sheets.arrange import on_paper
from elevations.sheets.column import banner
from elevations.sheets.factory import BINDING, INSIDE, MARGIN, PAPERS
from elevations.sheets.fit import without_tones
from elevations.sheets.title_block import HEIGHT, WIDTH, title_block
from elevations.sheets.words import DEMONSTRATION
from elevations.spec.model import Job
from elevations.views.marking_out import marking_out
from elevations.views.table import Block, line, stack
from elevations.views.wall_section import material_key, wall_section

GAP = 5.0
FOOT = 66.0
"""Height of the strip for checklist, sizes and signatures, mm."""
SCALES = ((5.0, 5.0), (10.0, 5.0), (10.0, 10.0), (20.0, 5.0), (20.0, 10.0), (20.0, 20.0), (50.0, 10.0), (50.0, 20.0), (50.0, 50.0))
"""Of the elevation and of the sections, in the order of preference; the last is placed, fit or not."""
ONE_SCALE = tuple((s, s) for s in (5.0, 10.0, 20.0, 50.0))
MOST_FINDINGS, ALL = 4, 10_000
PAPER = "A3"


@dataclass(frozen=True, slots=True)
class Arranged:
    """The views in their places, and their scales."""

    placed: tuple[Placed, ...]
    scale: float
    section_scale: float
    fits: bool


def installer_sheet(window: Window, job: Job, style: str = "paper") -> Sheet:
    """One window's sheet, on A3 whatever the job's paper (see `installer_a4` for A4). style 'model': one scale, no tones.

    Sections with the wall are there where the job describes the wall.
    """
    width, height = PAPERS[PAPER]
    border = Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)
    column_left = border.right - WIDTH
    area = Box(border.left, border.bottom + FOOT, column_left, border.top).grown(-INSIDE)
    views = _arranged(window, area, SCALES if style == "paper" else ONE_SCALE)
    placed = views.placed if style == "paper" else tuple(without_tones(place) for place in views.placed)
    scales = f"1:{views.scale:g}" + (f", sections 1:{views.section_scale:g}" if views.section_scale != views.scale and len(placed) > 1 else "")
    groups = (
        _lines(border, column_left),
        Group("installer-words", tuple(_column(window, column_left + INSIDE, border)), "fixing, setting, glass"),
        Group("installer-foot", tuple(_foot(border, column_left)), "checklist, sizes as fitted, signatures"),
        title_block(window, job.job, scales, PAPER, border.right, border.bottom),
    )
    place = f", {window.location}" if window.location else ""
    description = (
        f"Installer's sheet of window {window.mark}{place}: frame {window.width.value:g} by {window.height.value:g} mm, {len(window.fixings)} fixings "
        "with their distances from the corners and the order to tighten them, glass with its blocks, checklist, boxes for sizes and signatures."
    )
    return Sheet(f"Fitting window {window.mark}{place}", description, width, height, placed, groups, views.scale)


def _lines(border: Box, left: float) -> Group:
    corners = (Corner(border.left, border.bottom), Corner(border.right, border.bottom), Corner(border.right, border.top), Corner(border.left, border.top))
    foot = border.bottom + FOOT
    return Group("border", (
        Stroke(corners, Layer.SHEET, closed=True, weight=CUT), line(left, border.bottom, left, border.top), line(border.left, foot, left, foot),
    ))


def _arranged(window: Window, area: Box, scales: Sequence[tuple[float, float]]) -> Arranged:
    found = None
    for scale, section_scale in scales:
        views = _views(window, scale, section_scale)
        for under in (True, False):
            found = _placed(views, area, scale, section_scale, level_under_front=under)
            if found.fits:
                return found
    assert found is not None
    return found


def _views(window: Window, scale: float, section_scale: float) -> list[tuple[View, float]]:
    """The elevation; with a described wall also A-A, B-B and the key to their materials."""
    front = marking_out(window, scale), scale
    if window.site is None or window.site.wall is None:
        return [front]
    upright, level = (wall_section(window, axis, section_scale) for axis in (0, 1))
    materials = tuple(dict.fromkeys((*upright.materials, *level.materials)))
    key = material_key(materials, 2, 78.0, section_scale)
    return [front, (upright.view, section_scale), (level.view, section_scale), (key, section_scale)]


def _placed(
    views: Sequence[tuple[View, float]], area: Box, scale: float, section_scale: float, *, level_under_front: bool
) -> Arranged:
    """Two columns: the elevation with B-B or the key under it, A-A with the other one under it."""
    boxes = [on_paper(view, s) for view, s in views]
    columns = [[0], []] if len(views) == 1 else [[0, 2], [1, 3]] if level_under_front else [[0, 3], [1, 2]]
    places: dict[int, Point] = {}
    left, lowest = area.left, area.top
    for number, column in enumerate(columns):
        wide = max((boxes[i].width for i in column), default=0.0)
        if number == 1:
            left += max(0.0, area.right - left - wide) / 2   # in the middle of what the first column leaves
        top = area.top
        for i in column:
            places[i] = Point(left - boxes[i].left, top - boxes[i].top)
            top -= boxes[i].height + GAP
        lowest = min(lowest, top + GAP)
        left += wide + GAP
    fits = left - GAP <= area.right + 1e-6 and lowest >= area.bottom
    placed = [Placed(view, s, places[i]) for i, (view, s) in enumerate(views)]
    return Arranged(tuple(placed), scale, section_scale, fits)


def _column(window: Window, left: float, border: Box) -> Iterator[Entity]:
    """Words from the top; the cautions over the title block."""
    width = WIDTH - 2 * INSIDE
    foot = [said.cautions(width)] + ([banner(DEMONSTRATION, width)] if window.system.demonstration else [])
    lower = stack(foot, 2.0)
    low = border.bottom + HEIGHT + INSIDE
    yield from lower.at(left, low + lower.height)
    room = border.top - INSIDE - low - lower.height - 3.0
    for most, panes in ((MOST_FINDINGS, ALL), (2, ALL), (0, ALL), (0, 20), (0, 10), (0, 4)):
        upper = _words(window, width, most, panes)
        if upper.height <= room:
            break
    yield from upper.at(left, border.top - INSIDE)


def _words(window: Window, width: float, findings: int, panes: int) -> Block:
    blocks = (
        said.glass_table(window, width, panes), said.holding(window, width), said.setting_true(window, width), said.sill_words(window, width),
        said.findings_block(window, width, findings),
    )
    return stack([block for block in blocks if block is not None], 3.0)


def _foot(border: Box, right: float) -> Iterator[Entity]:
    """Checklist on the left, boxes to write in on the right."""
    width, top = right - border.left - 2 * INSIDE, border.bottom + FOOT - INSIDE
    boxes = 100.0
    yield from said.checklist(width - boxes - 6.0, 2).at(border.left + INSIDE, top)
    fitted = said.blanks("As fitted, mm", said.AS_FITTED, boxes, 4)
    signed = said.blanks("Signed", said.SIGNED, boxes, 2)
    x = right - INSIDE - boxes
    yield from fitted.at(x, top)
    yield from signed.at(x, top - fitted.height - 2.5)
