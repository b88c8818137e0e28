"""Heat through glass, frames and whole windows: estimates for design, no certificate.

A declared value measured by the supplier always comes before one worked out here, and whether a window is allowed
is for the local building code and whoever enforces it.
"""

from elevations.thermal.alternatives import Alternative, alternatives
from elevations.thermal.centre_pane import CentrePane, Gap, centre_pane_u
from elevations.thermal.make_up import make_up_u
from elevations.thermal.rating import band, rating_index, whole_window_g
from elevations.thermal.window import Declared, WindowHeat, area_weighted_u, window_u

__all__ = [
    "Alternative", "CentrePane", "Declared", "Gap", "WindowHeat", "alternatives", "area_weighted_u", "band", "centre_pane_u",
    "make_up_u", "rating_index", "whole_window_g", "window_u",
]
