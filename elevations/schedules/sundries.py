"""What else a job takes: gaskets, beads, packers, fixings, sealant and foam. Net figures, no allowance for waste."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from elevations.catalogue.system import PartKind, Section
from elevations.geometry.fit_fixing import Hold, holds, kind_of_side, through_frame
from elevations.geometry.neighbours import joined_sides
from elevations.geometry.sill import sill_ends
from elevations.geometry.window import Window
from elevations.plane import Outline
from elevations.schedules.cut_beads import bead_rows
from elevations.schedules.joint_volume import fillings
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spec.model import Job
from elevations.spec.workshop import Seal
from elevations.spelling import counted

SETTING_BLOCKS = 2
"""Under each pane, at quarter points or by the hinge: EN 12488 (from memory)."""
LOCATION_BLOCKS = 6
"""Two on each other edge of a pane; common practice, no source. A shape may need more."""
BLOCK_MM_PER_M2, SHORTEST_BLOCK_MM = 27.0, 50.0
"""Least length of a setting block: a block maker's figure (read), and a shortest length from memory."""


@dataclass(frozen=True, slots=True)
class SundryRow:
    """One thing, how much of it, and how it was counted."""

    what: str
    system: str
    quantity: float | None
    """None where it can't be counted; the remark says why."""
    unit: str
    """m, piece, litre."""
    remark: str = ""


def sundry_rows(window: Window, seal: Seal | None = None) -> Iterator[SundryRow]:
    """What one window takes; `seal`: its joint to the wall, without which sealant and foam are said not to be counted."""
    rows = [*_gaskets(window), *_beads(window), *_blocks(window), *_fixings(window), *_end_caps(window), *_joint(window, seal)]
    yield from joined(rows)


def _gaskets(window: Window) -> Iterator[SundryRow]:
    """Lengths round the rebate of each pane and round each sash, for as many gaskets as the outlines show."""
    name = window.system.name
    for light in window.lights:
        for pane in light.panes:
            yield _lengths("glazing gasket", name, pane.tight.outline, _count(window.system.profiles[pane.holder].section, "glazed"))
        for sash in light.sashes:
            yield _lengths("closing gasket", name, sash.outer.outline, _count(window.system.profiles["frame"].section, "hung"))


def _count(section: Section | None, group: str) -> int | None:
    """Gaskets in a part of a section; None where the system gives no outline."""
    return None if section is None else sum(part.kind is PartKind.GASKET for part in getattr(section, group))


def _lengths(what: str, system: str, outline: Outline, count: int | None) -> SundryRow:
    if count is None:
        return SundryRow(what, system, None, "m", "not counted: the system gives no outlines")
    return SundryRow(what, system, count * perimeter_mm(outline) / 1000, "m")


def perimeter_mm(outline: Outline) -> float:
    """The length all round, arcs included."""
    return sum(outline.length(edge) for edge in range(len(outline.corners)))


def _beads(window: Window) -> Iterator[SundryRow]:
    for light in window.lights:
        for row in bead_rows(window, light):
            yield SundryRow(row.profile, row.system, row.quantity * row.length_mm / 1000, "m", "as in the cutting list")


def _blocks(window: Window) -> Iterator[SundryRow]:
    """Setting and location blocks of every pane."""
    for pane in window.panes:
        least = max(SHORTEST_BLOCK_MM, BLOCK_MM_PER_M2 * pane.area_m2)
        wide = f"for {pane.make_up.thickness:g} mm units, at least {10 * -(-least // 10):g} long"
        yield SundryRow("setting block", "", SETTING_BLOCKS, "piece", wide)
        yield SundryRow("location block", "", LOCATION_BLOCKS, "piece", f"for {pane.make_up.thickness:g} mm units; two on each other edge")


def _fixings(window: Window) -> Iterator[SundryRow]:
    walled = sum(point.side not in joined_sides(window.neighbours) for point in window.fixings)
    held, between = holds(window), {one.side: one.connector.kind for one in window.neighbours}
    for point in through_frame(window):
        side = kind_of_side(point.side)
        what, remark = _screw(held[side], between.get(side, ""))
        yield SundryRow(what, window.system.name, 1, "piece", remark)
    for side, hold in held.items():
        count = sum(kind_of_side(point.side) == side for point in window.fixings)
        if hold.how == "screw" and hold.fails:
            yield SundryRow("frame fixing", window.system.name, count, "piece", "not to be ordered or drilled yet: nothing holds there (run the check)")
        if hold.how == "bracket":
            yield SundryRow("frame bracket", window.system.name, count, "piece", _bracket_words(hold))
    if walled:
        yield SundryRow("frame packer", "", walled, "piece", "one at each fixing (common practice, no source)")


def _screw(hold: Hold, connector: str) -> tuple[str, str]:
    """What goes through a hole of the frame, and which kind of it: into the wall, or into what joins two frames."""
    if connector:
        return f"screw into the {connector}", f"{hold.length:g} long, by the system" if hold.length else "length as the system's supplier says"
    if hold.needed is None:
        return "frame fixing", "as drawn; type and length by the wall"
    return "frame fixing", f"{hold.screw} {f'{hold.length:g}' if hold.length else f'of at least {hold.needed:g}, more than the usual length,'} into {hold.where()}"


def _bracket_words(hold: Hold) -> str:
    """How long a bracket has to be."""
    if hold.landing is None or (hold.landing.reach is None and not hold.landing.fails):
        return "on the frame's edge; length by the wall"
    if hold.landing.reach is None:
        return "not to be ordered yet: nothing within its reach holds (run the check)"
    return f"on the frame's edge, its screw {hold.landing.reach:g} in from the frame's inner face"


def _end_caps(window: Window) -> Iterator[SundryRow]:
    if window.site is not None and window.site.sill is not None and window.site.sill.end_caps:
        caps = sum(end.free for end in sill_ends(window))
        if caps:
            yield SundryRow("sill end cap", window.system.name, caps, "piece", f"for the sill {window.site.sill.projection:g}")


def _joint(window: Window, seal: Seal | None) -> Iterator[SundryRow]:
    """Volumes of the joint to the wall: of a surveyed window by its own gaps, in a row of its own with the sum."""
    if seal is None:
        yield from (SundryRow(what, "", None, "litre", NO_JOINT) for what in ("sealant", "foam"))
        return
    for filling in fillings(window, seal):
        yield SundryRow(filling.what, "", filling.litres, "litre", filling.sum_words)


def joined(rows: Iterable[SundryRow]) -> list[SundryRow]:
    """Like things added up, in the order in which they first come; nothing is left of what can't be counted but why."""
    groups: dict[SundryRow, list[SundryRow]] = {}
    for row in rows:
        groups.setdefault(replace(row, quantity=None), []).append(row)
    made = []
    for key, group in groups.items():
        counted = [row.quantity for row in group if row.quantity is not None]
        made.append(replace(key, quantity=tidy(sum(counted), 3) if counted else None))
    order = list(dict.fromkeys(row.what for row in made))
    return sorted(made, key=lambda row: order.index(row.what))


NO_JOINT = "not counted: the job does not give its joint to the wall (workshop: seal)"


def packs(rows: Sequence[SundryRow], seal: Seal) -> list[str]:
    """How many cartridges and cans that is, rounded up."""
    litres = {what: sum(row.quantity or 0.0 for row in rows if row.what == what) for what in ("sealant", "foam")}
    said = []
    if litres["sealant"]:
        count = _up(litres["sealant"] * 1000 / seal.cartridge)
        said.append(f"sealant: {counted(count, 'cartridge')} of {seal.cartridge:g} ml, nothing allowed for waste")
    if litres["foam"]:
        count = _up(litres["foam"] / seal.foam_yield) if seal.foam_yield else 0
        cans = f"{counted(count, 'can')} of {seal.foam_yield:g} litres set" if seal.foam_yield else "cans not counted: their yield is not given"
        said.append(f"foam: {cans}")
    return said


def _up(number: float) -> int:
    return int(-(-(number - 1e-9) // 1))


def totals(rows: Sequence[SundryRow]) -> list[str]:
    """Nothing: different things don't add up."""
    del rows
    return []


def of_job(job: Job) -> Schedule[SundryRow]:
    """The schedule with the joint to the wall that the job gives, and below it how many cartridges and cans that is."""
    seal = job.workshop.seal
    return replace(SUNDRIES, rows=partial(sundry_rows, seal=seal), totals=lambda rows: packs(rows, seal) if seal else [])


SUNDRIES = Schedule(
    key="sundries",
    title="Sundries",
    columns=(
        Column("what", "what", text=True),
        Column("system", "system", text=True),
        Column("quantity", "quantity"),
        Column("unit", "unit", text=True),
        Column("remark", "remark", text=True),
    ),
    rows=sundry_rows,
    totals=totals,
    joined=joined,
    for_job=of_job,
)
