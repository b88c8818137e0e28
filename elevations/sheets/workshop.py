"""The workshop's pack: for each window its factory sheet and its glass, then the lists of the whole job and every bar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from elevations.cutting.job import BarSet, bar_sets
from elevations.cutting.stock import Stock
from elevations.drawing.entities import Sheet
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.schedules.cutting import CUTTING
from elevations.schedules.cutting_row import ENDS_WORDS, CuttingRow
from elevations.schedules.fixings import FIXINGS
from elevations.schedules.glass import GLASS
from elevations.schedules.glass_order import GLASS_ORDER
from elevations.schedules.glass_order import notes as glass_notes
from elevations.schedules.hardware import HARDWARE
from elevations.schedules.machining import MACHINING
from elevations.schedules.sundries import SUNDRIES, packs, sundry_rows
from elevations.schedules.sundries import joined as sundries_joined
from elevations.schedules.table import Schedule
from elevations.schedules.templates import shaped_panes
from elevations.schedules.windows import WINDOWS
from elevations.sheets import words
from elevations.sheets.bars import BARS, bar_pages, bar_rows
from elevations.sheets.factory import factory_sheet
from elevations.sheets.glass_order import glass_page
from elevations.sheets.joined import joined_sheet
from elevations.sheets.listing import Gathering, listing
from elevations.sheets.machining import PIECE_BY, PIECES, PLACES_NOTE, by_piece, undrained
from elevations.sheets.page import Page, numbered, sheets_of
from elevations.sheets.template import template_page
from elevations.spec.model import Job
from elevations.spec.workshop import OffCut

PARTS = ("drawings", "glass", "lists")
"""Of the pack, in its order."""


@dataclass(frozen=True, slots=True)
class JobList:
    """One list of the job: a schedule with its rows, and how pages set it."""

    schedule: Schedule[Any]
    rows: Sequence[Any]
    notes: Sequence[str] = ()
    """Below its rows."""
    reading: Sequence[str] = ()
    """How its rows are to be read: before the first of them."""
    gathered: Gathering[Any] | None = None
    on_pages: bool = True
    """Whether the pack prints it; the others are for programs."""
    on_files: bool = True
    """Whether it goes into the workbook and a CSV file; the others say the same for the eye."""


@dataclass(frozen=True, slots=True)
class Pack:
    """All that the workshop gets for a job."""

    job: Job
    windows: Sequence[Window]
    lists: tuple[JobList, ...]
    bars: tuple[BarSet, ...] = field(default=())
    joined: Sequence[Joined] = ()
    """Sets of joined windows that are in it whole."""

    @property
    def caution(self) -> str:
        """What belongs at the foot of every page."""
        return words.CONFIRM + (f" {words.DEMONSTRATION}." if any(window.system.demonstration for window in self.windows) else "")


CUT_BY: Gathering[CuttingRow] = Gathering(
    heading=lambda row: ", ".join(
        part for part in (
            f"{row.system} {row.profile}",
            f"{row.finish_outside} outside" if row.finish_outside else "",
            f"{row.finish_inside} inside" if row.finish_inside else "",
            f"weld {row.weld_each_end_mm:g} each end included" if row.weld_each_end_mm else "",
            row.remark,
        ) if part
    ),
    spared=("profile", "system", "finish_outside", "finish_inside", "weld_each_end_mm", "remark"),
)
GLASS_BY: Gathering[Any] = Gathering(heading=lambda row: row.unit, spared=("glass", "make_up", "special", "facing"))
CUTTING_NOTE = f"Lengths go over the long points and hold the weld allowance. Ends: {ENDS_WORDS}. Cut from the top down: longest first in each profile."

BENT_NOTE = "Bent pieces are listed as they are once bent; what the bender grips is added where the bars are planned."


def packed(job: Job, windows: Sequence[Window], time_limit_s: float, sets: Sequence[Joined] = ()) -> Pack:
    """The pack of these windows, and of those of the sets of joined ones whose windows are all among them.

    Bars are planned within the time limit. Raises SpecError where a piece fits no bar.
    """
    marks = {window.mark for window in windows}
    joined = [one for one in sets if marks.issuperset(window.mark for window in one.windows)]

    def rows(schedule: Schedule[Any]) -> Sequence[Any]:
        found = [row for window in windows for row in schedule.rows(window)]
        if schedule.of_joined is not None:
            found += [row for one in joined for row in schedule.of_joined(one)]
        return schedule.joined(found)

    cut, machining, seal = rows(CUTTING), rows(MACHINING), job.workshop.seal
    bars = bar_sets(cut, lambda group: stock_of(job, group), time_limit_s)
    sundries = sundries_joined(row for window in windows for row in sundry_rows(window, seal))
    sealing = packs(sundries, seal) if seal else []
    lists = (
        JobList(WINDOWS, rows(WINDOWS)),
        JobList(GLASS_ORDER, rows(GLASS_ORDER), glass_notes(job.workshop.unit_tolerance), gathered=GLASS_BY),
        JobList(GLASS, rows(GLASS), on_pages=False),
        JobList(CUTTING, cut, reading=(CUTTING_NOTE, *([BENT_NOTE] if any(row.bends for row in cut) else [])), gathered=CUT_BY),
        JobList(BARS, list(bar_rows(bars)), on_pages=False),
        JobList(PIECES, list(by_piece(machining)), undrained(windows), (PLACES_NOTE,), PIECE_BY, on_files=False),
        JobList(MACHINING, machining, undrained(windows), (PLACES_NOTE,), on_pages=False),
        JobList(FIXINGS, rows(FIXINGS), on_pages=False),
        JobList(HARDWARE, rows(HARDWARE)),
        JobList(SUNDRIES, sundries, sealing),
    )
    return Pack(job, windows, lists, bars, joined)


def stock_of(job: Job, rows: Sequence[CuttingRow]) -> Stock:
    """The bars that rows of one finish are cut from: new ones by its system, the workshop's saw, and the off-cuts of its kind."""
    saw, bending = job.workshop.saw, job.workshop.bending
    assumed = (*saw.assumed, *(["grip"] if any(row.bends for row in rows) and "grip" not in bending.model_fields_set else []))
    off_cuts: dict[float, int] = {}
    for off_cut in job.workshop.off_cuts:
        if any(is_of(off_cut, row) for row in rows):
            off_cuts[off_cut.length] = off_cuts.get(off_cut.length, 0) + off_cut.count
    return Stock(rows[0].bar_length_mm, saw.kerf, saw.end_trim, off_cuts, saw.keep_from, assumed, bending.grip)


def is_of(off_cut: OffCut, row: CuttingRow) -> bool:
    """Whether a row can be cut from an off-cut: the same profile, or another from the same bars, in the same colours, capitals not counting."""
    wanted, there = (row.system, row.finish_outside, row.finish_inside), (off_cut.system, off_cut.outside, off_cut.inside)
    if [text.casefold() for text in wanted] != [text.casefold() for text in there]:
        return False
    return off_cut.profile.casefold() in {name.casefold() for name in (row.profile, row.bars, *row.cut_from)}


def unused_off_cuts(job: Job, rows: Sequence[CuttingRow]) -> list[str]:
    """Off-cuts of a profile or colour that nothing here is cut from, in words: misspelt, or for another job."""
    return [
        f"{off_cut.system} {off_cut.profile}, {off_cut.length:g} mm" + "".join(f", {finish}" for finish in (off_cut.outside, off_cut.inside) if finish)
        for off_cut in job.workshop.off_cuts if not any(is_of(off_cut, row) for row in rows)
    ]


def pages(pack: Pack) -> list[Page]:
    """The lists and bars of the whole job."""
    made: list[Page] = []
    for part in pack.lists:
        if part.on_pages:
            made += listing(part.schedule, part.rows, part.notes, part.gathered, part.reading)
        if part.schedule is CUTTING:
            made += bar_pages(pack.bars)
    return made


def sheets(pack: Pack, parts: Sequence[str] = PARTS) -> Iterator[Sheet]:
    """The pages of these parts, one at a time.

    For each window its factory sheet, its glass drawing and the templates of its shaped panes; joined ones; the lists.
    """
    lists = pages(pack) if "lists" in parts else []
    drawings, glass, joined = "drawings" in parts, "glass" in parts, pack.joined if "drawings" in parts else ()
    shaped = {window.mark: shaped_panes(window) if glass else () for window in pack.windows}
    total = len(pack.windows) * (drawings + glass) + sum(map(len, shaped.values())) + len(joined) + len(lists)
    demonstration, number = any(window.system.demonstration for window in pack.windows), 0
    for window in pack.windows:
        if drawings:
            number += 1
            yield numbered(factory_sheet(window, pack.job, "paper"), number, total)
        if glass:
            own = [glass_page(window, pack.job.workshop.unit_tolerance), *(template_page(window, pane, tones=True) for pane in shaped[window.mark])]
            yield from sheets_of(own, pack.job.job, demonstration=window.system.demonstration, first=number + 1, total=total)
            number += len(own)
    for one in joined:
        number += 1
        yield numbered(joined_sheet(one, pack.job, "paper"), number, total)
    yield from sheets_of(lists, pack.job.job, demonstration=demonstration, first=number + 1, total=total)
