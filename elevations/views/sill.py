"""The sill: its shape when it is cut across, and from the front with horns and weeps."""

from __future__ import annotations

from elevations.spec.site import Sill

NOSE_MM = 25.0
"""How high a sill's front edge is drawn at most; its maker's drawing says how high it is."""
GROOVE_MM = 4.0
"""Width and depth of the drip groove as drawn."""
UPSTAND_MM = 5.0
"""Thickness of the upstand as drawn."""


def sill_profile(sill: Sill, depth: float, top: float) -> list[tuple[float, float]]:
    """Corners (v, t): v from the frame's outer face inwards, t up; `top` is where the frame, or its add-on, stands on it.

    A plain wedge with a nose and a drip groove: no maker's section.
    """
    front, nose = -sill.projection, min(NOSE_MM, max(8.0, sill.height))
    low, drip = top - sill.fall - nose, -sill.projection + sill.drip
    half = min(GROOVE_MM / 2, sill.drip / 2)
    back = depth + (UPSTAND_MM if sill.upstand else 0.0)
    corners = [
        (depth, top), (0.0, top), (front, top - sill.fall), (front, low), (drip - half, low), (drip - half, low + GROOVE_MM),
        (drip + half, low + GROOVE_MM), (drip + half, low), (drip + 4 * half + 4.0, low), (min(0.0, drip + 40.0), top - sill.height),
        (back, top - sill.height),
    ]
    if sill.upstand:
        corners += [(back, top + sill.upstand), (depth, top + sill.upstand)]
    return corners
