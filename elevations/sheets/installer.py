"""The installer's sheet on A3, front and back: marking out and the wall on one side, setting, checks and signatures on the other.

Further pages where these two have no room: the sections where the marking-out would be too small beside them, what is to be settled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Group, Sheet, Stroke
from elevations.drawing.layers import CUT, Layer
from elevations.geometry.window import Window
from elevations.plane import Box, Corner
from elevations.sheets import installer_words as said
from elevations.sheets.column import banner
from elevations.sheets.drawing_programs import for_drawing_programs
from elevations.sheets.factory import BINDING, INSIDE, MARGIN, PAPERS
from elevations.sheets.installer_setting import in_columns, setting_words, settle_blocks
from elevations.sheets.installer_views import alone, larger_alone, placed_sections, together
from elevations.sheets.key import marking_key
from elevations.sheets.title_block import HEIGHT, WIDTH, Title, titled_block
from elevations.sheets.words import DEMONSTRATION
from elevations.spec.model import Job
from elevations.views.table import TEXT, Block, heading, line, stack

COLUMN_GAP = 3.0
ALL = 10_000
PAPER = "A3"
LARGE = 3.5
"""Height of the back's text, mm on paper: it is read with a tape in one hand."""
COLUMN, ROOM = WIDTH - 2 * INSIDE, PAPERS[PAPER][1] - 2 * MARGIN - HEIGHT - 2 * INSIDE
"""Width of the column of words, and its height over the title block, mm."""
WIDE = (PAPERS[PAPER][0] - BINDING - MARGIN - WIDTH) / 2 - 2 * INSIDE
"""Width of the back's other two columns, mm."""
BACK_ROOM = PAPERS[PAPER][1] - 2 * MARGIN - 2 * INSIDE
LESS = ((ALL, ALL), (ALL, 6), (20, 6), (10, 4), (6, 3), (4, 2))
"""Units of glass and ways of opening that are listed, fewer where there is no room."""
SECTION_SCALES = (5.0, 10.0, 20.0, 50.0)
FRONT_AND_BACK, SETTLE_COLUMNS, SETTLE_GAP = 2, 2, 3.0


@dataclass(frozen=True, slots=True)
class Plan:
    """Which pages a window's sheet has."""

    apart: bool
    """The sections have a page of their own."""
    settling: tuple[Block, ...]
    """Columns of what is to be settled that have no room on the back."""

    @property
    def settle_on(self) -> int | None:
        """The first page of them; None where they are on the back."""
        return FRONT_AND_BACK + self.apart + 1 if self.settling else None

    @property
    def pages(self) -> int:
        """How many."""
        return FRONT_AND_BACK + self.apart - (-len(self.settling) // SETTLE_COLUMNS)


def planned(window: Window, job: Job) -> Plan:
    """What goes on which page; the same in every style."""
    apex = job.drawing.symbol_apex == "hinge"
    apart = larger_alone(window, _drawing_area(), apex_at_hinge=apex)
    if _setting(window, apex_at_hinge=apex, settle_on=None).height <= BACK_ROOM:
        return Plan(apart, ())
    blocks = settle_blocks(window, WIDE, LARGE)
    return Plan(apart, tuple(in_columns(blocks, BACK_ROOM - 8.0, SETTLE_GAP)))


def a3_sheets(window: Window, job: Job, style: str = "paper") -> list[Sheet]:
    """Front, back and what more there is of one window's sheet, on A3 whatever the job's paper. style 'model': one scale, no tones."""
    plan = planned(window, job)
    sheets = [_front(window, job, style, plan), _back(window, job, plan)]
    sheets += [_apart(window, job, style, plan)] if plan.apart else []
    for first in range(0, len(plan.settling), SETTLE_COLUMNS):
        sheets.append(_to_settle(window, job, plan, len(sheets) + 1, plan.settling[first : first + SETTLE_COLUMNS]))
    return sheets


def _title(window: Window, page: int, plan: Plan) -> Title:
    return Title(f"Window {window.mark}", with_page(window.location, page, plan.pages), int(window.path[1]) + 1)


def with_page(location: str, page: int, pages: int = FRONT_AND_BACK) -> str:
    """A place, and which page of the sheet it is: the mark stands alone, for programs find the window by it."""
    return " · ".join(part for part in (location, f"page {page} of {pages}") if part)


def _border() -> Box:
    width, height = PAPERS[PAPER]
    return Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)


def _drawing_area() -> Box:
    border = _border()
    return Box(border.left, border.bottom, border.right - WIDTH, border.top).grown(-INSIDE)


def _place(window: Window) -> str:
    return f", {window.location}" if window.location else ""


def _front(window: Window, job: Job, style: str, plan: Plan) -> Sheet:
    """Marking out; sections with the wall where the job describes it; glass, fixing and the key in the column."""
    border, apex, area = _border(), job.drawing.symbol_apex == "hinge", _drawing_area()
    left = border.right - WIDTH
    views = alone(window, area, apex_at_hinge=apex) if plan.apart else together(window, area, style, apex_at_hinge=apex)
    placed = views.placed if style == "paper" else tuple(for_drawing_programs(place) for place in views.placed)
    scales = f"1:{views.scale:g}" + (f", sections 1:{views.section_scale:g}" if views.section_scale != views.scale and len(placed) > 1 else "")
    more = [marking_key(window, COLUMN, TEXT, apex_at_hinge=apex)] if _key_in_front(window, apex_at_hinge=apex) else []
    more += [banner(DEMONSTRATION, COLUMN)] if window.system.demonstration else []
    words = front_words(window, COLUMN, ROOM, more)
    groups = (
        border_lines(border, left), Group("installer-words", words.at(left + INSIDE, border.top - INSIDE), "glass, ways of opening, fixing, key"),
        titled_block(_title(window, 1, plan), job.job, scales, PAPER, border.right, border.bottom),
    )
    description = (
        f"Installer's sheet of window {window.mark}{_place(window)}, front: frame {window.width.value:g} by {window.height.value:g} mm, {len(window.fixings)} "
        "fixings with their distances from the corners and the order to tighten them, how each light opens, glass with its blocks and masses."
    )
    return Sheet(f"Fitting window {window.mark}{_place(window)}", description, *PAPERS[PAPER], placed, groups, views.scale)


def _back(window: Window, job: Job, plan: Plan) -> Sheet:
    """Three columns: how it is set true, what to tick off, boxes to write in."""
    border, apex = _border(), job.drawing.symbol_apex == "hinge"
    top = border.top - INSIDE
    lefts = [border.left + INSIDE, border.left + WIDE + 3 * INSIDE, border.right - WIDTH + INSIDE]
    columns = [
        _setting(window, apex_at_hinge=apex, settle_on=plan.settle_on),
        said.checklist(WIDE, 1, LARGE),
        stack([said.blanks("As fitted, mm", said.AS_FITTED, COLUMN, 3, high=15.0), said.blanks("Signed", said.SIGNED, COLUMN, 2, high=15.0),
               said.blanks("Notes, changes agreed", ("",), COLUMN, 1, high=60.0)], 5.0),
    ]
    groups = (
        border_lines(border, lefts[1] - INSIDE, lefts[2] - INSIDE),
        *(Group(name, block.at(left, top), name) for name, block, left in zip(("setting", "checklist", "boxes"), columns, lefts, strict=True)),
        titled_block(_title(window, 2, plan), job.job, "", PAPER, border.right, border.bottom),
    )
    description = f"Installer's sheet of window {window.mark}{_place(window)}, back: setting true, checklist, boxes for sizes as fitted and signatures, cautions."
    return Sheet(f"Fitting window {window.mark}{_place(window)}: checklist", description, *PAPERS[PAPER], (), groups, 1.0)


def _apart(window: Window, job: Job, style: str, plan: Plan) -> Sheet:
    """The sections with the wall on their own page."""
    border = _border()
    placed = placed_sections(window, border.grown(-INSIDE), SECTION_SCALES, HEIGHT)
    placed = placed if style == "paper" else tuple(for_drawing_programs(place) for place in placed)
    scale = placed[0].scale
    groups = (border_lines(border), titled_block(_title(window, FRONT_AND_BACK + 1, plan), job.job, f"1:{scale:g}", PAPER, border.right, border.bottom))
    description = f"Installer's sheet of window {window.mark}{_place(window)}: sections with the wall, cut where the marking-out shows A-A and B-B, in mm."
    return Sheet(f"Fitting window {window.mark}{_place(window)}: in the wall", description, *PAPERS[PAPER], placed, groups, scale)


def _to_settle(window: Window, job: Job, plan: Plan, page: int, columns: Sequence[Block]) -> Sheet:
    """What is to be settled, whole, in large text."""
    border = _border()
    top = border.top - INSIDE
    lefts = [border.left + INSIDE + number * (WIDE + 2 * INSIDE) for number in range(len(columns))]
    head = heading("To be settled before the frame goes in; circles as on the marking-out", 2 * WIDE + 2 * INSIDE)
    items = (*head.at(lefts[0], top), *(item for block, left in zip(columns, lefts, strict=True) for item in block.at(left, top - 8.0)))
    groups = (
        border_lines(border), Group("to-settle", items, "what is to be settled"),
        titled_block(_title(window, page, plan), job.job, "", PAPER, border.right, border.bottom),
    )
    description = f"Installer's sheet of window {window.mark}{_place(window)}: what is to be settled before the frame goes in."
    return Sheet(f"Fitting window {window.mark}{_place(window)}: to be settled", description, *PAPERS[PAPER], (), groups, 1.0)


def border_lines(border: Box, *upright: float) -> Group:
    """The line round a sheet, and uprights from its foot to its head."""
    corners = (Corner(border.left, border.bottom), Corner(border.right, border.bottom), Corner(border.right, border.top), Corner(border.left, border.top))
    return Group("border", (
        Stroke(corners, Layer.SHEET, closed=True, weight=CUT), *(line(x, border.bottom, x, border.top) for x in upright),
    ))


def _setting(window: Window, *, apex_at_hinge: bool, settle_on: int | None) -> Block:
    """The left column of the back, in the largest text that fits; the key where the front has no room for it."""
    more = [] if _key_in_front(window, apex_at_hinge=apex_at_hinge) else [marking_key(window, WIDE, TEXT, apex_at_hinge=apex_at_hinge)]
    more += [banner(DEMONSTRATION, WIDE)] if window.system.demonstration else []
    block = stack([])
    for text in (LARGE, 3.0, TEXT):
        block = stack([setting_words(window, WIDE, text, settle_on=settle_on), *more], 5.0)
        if block.height <= BACK_ROOM:
            break
    return block


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
