"""Strength and stiffness of bars and panes: estimates for design, no certificate.

Whether a window is strong enough for its place is for the local code and a licensed engineer; nothing here replaces
a supplier's tables or a test.
"""

from elevations.structure.beams import (
    Beam,
    LineLoad,
    PointLoad,
    needed_ei_n_mm2,
    peak_deflection,
    peak_moment,
    reactions,
)
from elevations.structure.dead_load import TransomUnderGlass, transoms_under_glass
from elevations.structure.glass import PaneEstimate, pane_estimate
from elevations.structure.sections import Stiffness, member_stiffness, section_figures
from elevations.structure.wind import BarUnderWind, WindClass, bars_under_wind, wind_class

__all__ = [
    "BarUnderWind", "Beam", "LineLoad", "PaneEstimate", "PointLoad", "Stiffness", "TransomUnderGlass", "WindClass",
    "bars_under_wind", "member_stiffness", "needed_ei_n_mm2", "pane_estimate", "peak_deflection", "peak_moment", "reactions",
    "section_figures", "transoms_under_glass", "wind_class",
]
