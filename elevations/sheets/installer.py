"""The installer's sheet on A3, front and back: marking out and the wall on one side, setting, checks and signatures on the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from elevations.drawing.entities import Dimension, Group, Placed, Sheet, Stroke, View
from elevations.drawing.explode import explode_dimension
from elevations.drawing.layers import CUT, Layer
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Point
from elevations.sheets import installer_words as said
from elevations.sheets.arrange import on_paper
from elevations.sheets.column import banner
from elevations.sheets.factory import BINDING, INSIDE, MARGIN, PAPERS
from elevations.sheets.fit import without_tones
from elevations.sheets.key import marking_key
from elevations.sheets.title_block import HEIGHT, WIDTH, Title, titled_block
from elevations.sheets.words import DEMONSTRATION
from elevations.spec.model import Job
from elevations.views.cuts import choose_cuts
from elevations.views.marking_out import marking_out
from elevations.views.section import tight
from elevations.views.table import TEXT, Block, line, stack
from elevations.views.wall_section import material_key, wall_section

GAP, COLUMN_GAP = 5.0, 3.0
SCALES = ((5.0, 5.0), (10.0, 5.0), (10.0, 10.0), (20.0, 5.0), (20.0, 10.0), (20.0, 20.0), (50.0, 10.0), (50.0, 20.0), (50.0, 50.0))
"""Of the elevation and of the sections, in the order of preference; the last is placed, fit or not."""
ONE_SCALE = tuple((s, s) for s in (5.0, 10.0, 20.0, 50.0))
MOST_FINDINGS, ALL = 4, 10_000
PAPER = "A3"
PAGES = 2
LARGE = 3.5
"""Height of the back's text, mm on paper: it is read with a tape in one hand."""
COLUMN, ROOM = WIDTH - 2 * INSIDE, PAPERS[PAPER][1] - 2 * MARGIN - HEIGHT - 2 * INSIDE
"""Width of the column of words, and its height over the title block, mm."""
LESS = ((ALL, ALL), (ALL, 6), (20, 6), (10, 4), (6, 3), (4, 2))
"""Units of glass and ways of opening that are listed, fewer where there is no room."""


@dataclass(frozen=True, slots=True)
class Arranged:
    """The views in their places, and their scales."""

    placed: tuple[Placed, ...]
    scale: float
    section_scale: float
    fits: bool


def a3_sheets(window: Window, job: Job, style: str = "paper") -> list[Sheet]:
    """Front and back of one window's sheet, on A3 whatever the job's paper. style 'model': one scale, no tones."""
    return [_front(window, job, style), _back(window, job)]


def _title(window: Window, page: int) -> Title:
    return Title(f"Window {window.mark}", with_page(window.location, page), int(window.path[1]) + 1)


def with_page(location: str, page: int) -> str:
    """A place, and which page of the sheet it is: the mark stands alone, for programs find the window by it."""
    return " · ".join(part for part in (location, f"page {page} of {PAGES}") if part)


def _border() -> Box:
    width, height = PAPERS[PAPER]
    return Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)


def _front(window: Window, job: Job, style: str) -> Sheet:
    """Marking out; sections with the wall where the job describes it; glass, fixing and the key in the column."""
    border, apex = _border(), job.drawing.symbol_apex == "hinge"
    left = border.right - WIDTH
    area = Box(border.left, border.bottom, left, border.top).grown(-INSIDE)
    views = _arranged(window, area, SCALES if style == "paper" else ONE_SCALE, apex_at_hinge=apex)
    placed = views.placed if style == "paper" else tuple(for_drawing_programs(place) for place in views.placed)
    scales = f"1:{views.scale:g}" + (f", sections 1:{views.section_scale:g}" if views.section_scale != views.scale and len(placed) > 1 else "")
    top = border.top - INSIDE
    more = [marking_key(window, COLUMN, TEXT, apex_at_hinge=apex)] if _key_in_front(window, apex_at_hinge=apex) else []
    more += [banner(DEMONSTRATION, COLUMN)] if window.system.demonstration else []
    words = front_words(window, COLUMN, ROOM, more)
    groups = (
        border_lines(border, left), Group("installer-words", words.at(left + INSIDE, top), "glass, ways of opening, fixing, key"),
        titled_block(_title(window, 1), job.job, scales, PAPER, border.right, border.bottom),
    )
    place = f", {window.location}" if window.location else ""
    description = (
        f"Installer's sheet of window {window.mark}{place}, front: frame {window.width.value:g} by {window.height.value:g} mm, {len(window.fixings)} fixings "
        "with their distances from the corners and the order to tighten them, how each light opens, glass with its blocks and masses."
    )
    return Sheet(f"Fitting window {window.mark}{place}", description, *PAPERS[PAPER], placed, groups, views.scale)


def for_drawing_programs(placed: Placed) -> Placed:
    """Without tones; sizes of a wall that have no room in their spans as lines and text, for LibreCAD sets them anew, one on the other (seen)."""
    bare = without_tones(placed)
    if not bare.view.id.startswith("wall-"):
        return bare
    groups = tuple(
        replace(group, items=tuple(
            part for item in group.items
            for part in (explode_dimension(item, placed.scale) if isinstance(item, Dimension) and tight(item, placed.scale) else (item,))
        )) for group in bare.view.groups
    )
    return replace(bare, view=replace(bare.view, groups=groups))


def _back(window: Window, job: Job) -> Sheet:
    """Three columns: how it is set true, what to tick off, boxes to write in."""
    border, apex = _border(), job.drawing.symbol_apex == "hinge"
    wide = (border.width - WIDTH) / 2 - 2 * INSIDE
    top = border.top - INSIDE
    lefts = [border.left + INSIDE, border.left + wide + 3 * INSIDE, border.right - WIDTH + INSIDE]
    columns = [
        _setting(window, wide, apex_at_hinge=apex),
        said.checklist(wide, 1, LARGE),
        stack([said.blanks("As fitted, mm", said.AS_FITTED, COLUMN, 3, high=15.0), said.blanks("Signed", said.SIGNED, COLUMN, 2, high=15.0),
               said.blanks("Notes, changes agreed", ("",), COLUMN, 1, high=60.0)], 5.0),
    ]
    groups = (
        border_lines(border, lefts[1] - INSIDE, lefts[2] - INSIDE),
        *(Group(name, block.at(left, top), name) for name, block, left in zip(("setting", "checklist", "boxes"), columns, lefts, strict=True)),
        titled_block(_title(window, 2), job.job, "", PAPER, border.right, border.bottom),
    )
    place = f", {window.location}" if window.location else ""
    description = f"Installer's sheet of window {window.mark}{place}, back: setting true, checklist, boxes for sizes as fitted and signatures, cautions."
    return Sheet(f"Fitting window {window.mark}{place}: checklist", description, *PAPERS[PAPER], (), groups, 1.0)


def border_lines(border: Box, *upright: float) -> Group:
    """The line round a sheet, and uprights from its foot to its head."""
    corners = (Corner(border.left, border.bottom), Corner(border.right, border.bottom), Corner(border.right, border.top), Corner(border.left, border.top))
    return Group("border", (
        Stroke(corners, Layer.SHEET, closed=True, weight=CUT), *(line(x, border.bottom, x, border.top) for x in upright),
    ))


def _setting(window: Window, width: float, *, apex_at_hinge: bool) -> Block:
    """The left column of the back, in the largest text that fits; the key where the front has no room for it."""
    more = [] if _key_in_front(window, apex_at_hinge=apex_at_hinge) else [marking_key(window, width, TEXT, apex_at_hinge=apex_at_hinge)]
    more += [banner(DEMONSTRATION, width)] if window.system.demonstration else []
    room = PAPERS[PAPER][1] - 2 * MARGIN - 2 * INSIDE
    for text, findings in ((LARGE, MOST_FINDINGS), (TEXT, MOST_FINDINGS), (TEXT, 2), (TEXT, 0)):
        block = stack([setting_words(window, width, findings, text), *more], 5.0)
        if block.height <= room:
            break
    return block


def setting_words(window: Window, width: float, findings: int, text: float = TEXT) -> Block:
    """How it is set true, its sill, what is to be settled, cautions."""
    blocks = [said.setting_true(window, width, text), said.sill_words(window, width, text), said.findings_block(window, width, findings, text),
              said.cautions(width, text)]
    return stack([block for block in blocks if block is not None], 5.0)


def front_words(window: Window, width: float, height: float, more: Sequence[Block] = ()) -> Block:
    """Glass, how it opens, fixing and what else is asked for: as many units and ways of opening as there is room for."""
    for most in LESS:
        block = _listed(window, width, most, more)
        if block.height <= height:
            break
    return block


def _key_in_front(window: Window, *, apex_at_hinge: bool) -> bool:
    """Whether the key fits the front beside everything else; else it is on the back."""
    more = [marking_key(window, COLUMN, TEXT, apex_at_hinge=apex_at_hinge)] + ([banner(DEMONSTRATION, COLUMN)] if window.system.demonstration else [])
    return _listed(window, COLUMN, LESS[0], more).height <= ROOM


def _listed(window: Window, width: float, most: tuple[int, int], more: Sequence[Block]) -> Block:
    panes, ways = most
    return stack([said.glass_table(window, width, panes), said.opening_list(window, width, ways), said.holding(window, width), *more], COLUMN_GAP)


def _arranged(window: Window, area: Box, scales: Sequence[tuple[float, float]], *, apex_at_hinge: bool) -> Arranged:
    found = None
    for scale, section_scale in scales:
        views = _views(window, scale, section_scale, apex_at_hinge=apex_at_hinge)
        for columns in (([0, 2], [1, 3]), ([0, 3], [1, 2]), ()) if len(views) > 1 else (([0], []),):
            found = _placed(views, area, (scale, section_scale), columns) if columns else _under(views, area, (scale, section_scale))
            if found.fits:
                return found
    assert found is not None
    return found


def _views(window: Window, scale: float, section_scale: float, *, apex_at_hinge: bool) -> list[tuple[View, float]]:
    """The elevation; with a described wall also A-A, B-B and the key to their materials."""
    if window.site is None or window.site.wall is None:
        return [(marking_out(window, scale, apex_at_hinge=apex_at_hinge), scale)]
    front = marking_out(window, scale, apex_at_hinge=apex_at_hinge, cuts=choose_cuts(window)), scale
    upright, level = (wall_section(window, axis, section_scale) for axis in (0, 1))
    materials = tuple(dict.fromkeys((*upright.materials, *level.materials)))
    key = material_key(materials, 2, 78.0, section_scale)
    return [front, (upright.view, section_scale), (level.view, section_scale), (key, section_scale)]


def _placed(views: Sequence[tuple[View, float]], area: Box, scales: tuple[float, float], columns: Sequence[Sequence[int]]) -> Arranged:
    """Two columns of views, by their numbers, each from the top; one view alone in the middle."""
    boxes = [on_paper(view, s) for view, s in views]
    places: dict[int, Point] = {}
    left, lowest = area.left, area.top
    for number, column in enumerate(columns):
        wide = max((boxes[i].width for i in column), default=0.0)
        if number == 1 or len(views) == 1:
            left += max(0.0, area.right - left - wide) / 2   # in the middle of what there is
        top = area.top if len(views) > 1 else area.top - max(0.0, area.height - boxes[0].height) / 2
        for i in column:
            places[i] = Point(left - boxes[i].left, top - boxes[i].top)
            top -= boxes[i].height + GAP
        lowest = min(lowest, top + GAP)
        left += wide + GAP
    fits = left - GAP <= area.right + 1e-6 and lowest >= area.bottom
    return Arranged(tuple(Placed(view, s, places[i]) for i, (view, s) in enumerate(views)), *scales, fits)


def _under(views: Sequence[tuple[View, float]], area: Box, scales: tuple[float, float]) -> Arranged:
    """The elevation on top; under it A-A, and beside that B-B over the key: for what is wide."""
    front, upright, level, key = (on_paper(view, s) for view, s in views)
    top = area.top - front.height - GAP
    beside = area.left + upright.width + GAP
    corners = [(area.left, area.top), (area.left, top), (beside, top), (beside, top - level.height - GAP)]
    places = [Point(x - box.left, y - box.top) for (x, y), box in zip(corners, (front, upright, level, key), strict=True)]
    lowest = top - max(upright.height, level.height + GAP + key.height)
    right = max(area.left + front.width, beside + max(level.width, key.width))
    placed = tuple(Placed(view, s, at) for (view, s), at in zip(views, places, strict=True))
    return Arranged(placed, *scales, right <= area.right and lowest >= area.bottom)
