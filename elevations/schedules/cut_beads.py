"""Glazing beads as they are cut: four mitred ones a pane, or one for each edge of another shape."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.geometry.along import edge_words, mitre_angles
from elevations.geometry.mass import bead_kg_per_m, bead_seat, held
from elevations.geometry.window import Light, Window
from elevations.plane import Corner
from elevations.schedules.cutting_row import BENT_ENDS, TO_BEND, CuttingRow, coloured
from elevations.schedules.pieces import in_order
from elevations.schedules.table import tidy


def bead_rows(window: Window, light: Light) -> Iterator[CuttingRow]:
    """The beads of one light."""
    per_m = {holder: bead_kg_per_m(window.system, holder) for holder in ("sash", "frame")}
    for pane, bounds in held(light):
        seat, remark = bead_seat(window.system, bounds, pane)
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
