"""How a drawing lies beside the window that it shows: programs move, scale and explode what they are given."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import median

from elevations.drawing.entities import Symbol
from elevations.drawing.layers import Layer
from elevations.geometry.window import Window
from elevations.plane import Point
from elevations.verify.difference import SAME_MM
from elevations.verify.measured import Measured
from elevations.views.elevation import elevation
from elevations.views.visible import bar_face

STEP_MM = 0.05
"""Shifts of things are counted in steps of this to find how the drawing lies."""
NEARLY_MM = 5.0
"""Sizes that differ by less are of one thing, changed, where nothing else tells how the drawing lies."""
LEAST_SHARE = 0.5
"""Of the window's panes, bars, sashes and fixings: so many must lie alike before anything is compared one by one."""


def lying(window: Window, found: Measured, unit_mm: float) -> tuple[Measured, float] | None:
    """The drawing moved to where the window lies, and the unit it was taken in; None where it does not lie like it."""
    in_mm = found.placed(0.0, 0.0, unit_mm)
    shift = _shift(window, in_mm)
    return None if shift is None else (in_mm.placed(-shift.x, -shift.y), unit_mm)


def fixing_signs(window: Window) -> list[tuple[str, Point]]:
    """Where the job's drawing has its fixing signs."""
    return [
        (item.tag, item.at) for group in elevation(window, 10.0).groups for item in group.items
        if isinstance(item, Symbol) and item.layer is Layer.FIXING
    ]


def _shift(window: Window, found: Measured) -> Point | None:
    """How the drawing lies: the shift that most of panes, bars, sashes and fixings agree on; None where too few do.

    Half of the panes, bars and sashes are enough by themselves: signs may be exploded or redrawn. Where sizes changed all
    over, things of nearly the job's sizes are looked at.
    """
    for near in (SAME_MM, NEARLY_MM):
        solid, wanted = _solid_shifts(window, found, near)
        signs = fixing_signs(window)
        all_shifts = [*solid, *(Point(place.x - at.x, place.y - at.y) for _, at in signs for place in found.fixings)]
        reach = STEP_MM if near == SAME_MM else near
        shift = _agreed(all_shifts, max(1, math.floor(LEAST_SHARE * (wanted + len(signs)))), reach)
        shift = shift or _agreed(solid, max(1, math.ceil(LEAST_SHARE * wanted)), reach)
        if shift:
            return shift
    return None


def _solid_shifts(window: Window, found: Measured, near: float) -> tuple[list[Point], int]:
    """From every pane, bar and sash to every outline on its layer of its size, up to `near`; and how many there are to find."""
    shifts, wanted = [], 0
    for expected, there in (
        ([pane.cut.outline for pane in window.panes], found.outlines[Layer.GLASS]),
        ([bar_face(window, bar) for bar in window.bars], found.outlines[Layer.BARS]),
        ([sash.outer.outline for sash in window.sashes], found.outlines[Layer.SASH]),
    ):
        wanted += len(expected)
        shifts += [
            Point(b.left - a.left, b.bottom - a.bottom)
            for a in (outline.bounds for outline in expected) for b in (outline.bounds for outline in there)
            if abs(a.width - b.width) < near and abs(a.height - b.height) < near
        ]
    return shifts, wanted


def _agreed(shifts: Sequence[Point], least: int, reach: float) -> Point | None:
    """The middle of the closest crowd of shifts, up to `reach` apart; None where fewer than `least` are together."""
    crowds: dict[tuple[int, int], list[Point]] = {}
    for shift in shifts:
        crowds.setdefault((round(shift.x / reach), round(shift.y / reach)), []).append(shift)
    best: list[Point] = []
    for x, y in sorted(crowds):
        crowd = [shift for i in (-1, 0, 1) for j in (-1, 0, 1) for shift in crowds.get((x + i, y + j), ())]
        best = max(best, crowd, key=len)
    if len(best) < least:
        return None
    return Point(median(shift.x for shift in best), median(shift.y for shift in best))
