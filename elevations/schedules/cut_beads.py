"""Glazing beads as they are cut: four mitred ones a pane, or one for each edge of another shape."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.catalogue.system import PartKind, System
from elevations.geometry.along import edge_words, mitre_angles
from elevations.geometry.region import Region
from elevations.geometry.stations import to_station
from elevations.geometry.window import Light, Pane, Window
from elevations.plane import Corner
from elevations.schedules.cutting_row import BENT_ENDS, TO_BEND, CuttingRow, coloured
from elevations.schedules.pieces import in_order
from elevations.schedules.table import tidy
from elevations.structure.materials import DENSITY_KG_M3


def bead_rows(window: Window, light: Light) -> Iterator[CuttingRow]:
    """The beads of one light."""
    per_m = {holder: bead_kg_per_m(window.system, holder) for holder in ("sash", "frame")}
    for number, pane in enumerate(light.panes):
        bounds = light.sashes[number].outer if pane.holder == "sash" else light.region
        seat, remark = _bead_seat(window.system, bounds, pane)
        corners, inner, names = seat.outline.corners, pane.sight.outline.corners, edge_words(seat.outline)
        each = per_m[pane.holder]
        for edge in range(len(corners)):
            after = (edge + 1) % len(corners)
            facing = Corner(*inner[after][:2], -inner[edge].bulge)
            yield CuttingRow(
                profile=f"{pane.holder} bead for {tidy(pane.make_up.thickness, 1)} mm glass",
                system=window.system.name,
                **coloured(window),
                length_mm=tidy(seat.outline.length(edge), 1),
                ends=in_order(
                    corners[edge], corners[after], mitre_angles(corners[edge], corners[after], facing, inner[edge])
                ).words,
                weld_each_end_mm=0,
                quantity=1,
                mass_kg=None if each is None else each * seat.outline.length(edge) / 1000,
                pieces=(f"{window.mark}-{pane.tag} {names[edge]}",),
                remark="; ".join(filter(None, (f"bent: length along the outer edge, {BENT_ENDS}" if corners[edge].bulge else "", remark))),
                form=TO_BEND if corners[edge].bulge else "",
                bar_length_mm=window.system.bar_length,
            )


def _bead_seat(system: System, bounds: Region, pane: Pane) -> tuple[Region, str]:
    """Where the beads' outer edges lie: at the system's bead stations, else at the rebate, which the remark then says."""
    if all(system.profiles[side.profile].bead is not None for side in bounds.sides):
        return to_station(system, bounds, "bead"), ""
    return pane.tight, "cut to the rebate: the system gives no bead edge"


def bead_kg_per_m(system: System, holder: str) -> float | None:
    """Of the bead in a frame or a sash: as the system says, else from its outline and what its material usually weighs."""
    if system.bead_kg_per_m is not None:
        return system.bead_kg_per_m
    section, density = system.profiles[holder].section, DENSITY_KG_M3.get(system.material)
    areas = [part.outline.area for part in section.glazed if part.kind is PartKind.BEAD] if section else []
    return sum(areas) * 1e-6 * density if areas and density else None
