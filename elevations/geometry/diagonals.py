"""The diagonals that a frame is taped by, from the jambs' upper ends to the far corners below."""

from __future__ import annotations

import math

from elevations.geometry.window import Window
from elevations.plane import Corner


def jamb_diagonals(window: Window) -> tuple[float, float] | None:
    """From the left jamb's upper end to the bottom right corner, and from the right jamb's to the bottom left, mm.

    They differ under a slope. None of a frame without two jambs: a circle, an arch that stands on its sill.
    """
    ends: dict[str, tuple[Corner, Corner]] = {}
    for (a, b), side in zip(window.frame.outline.edges(), window.frame.sides, strict=True):
        if side.tag in ("left jamb", "right jamb") and not a.bulge:
            ends[side.tag] = (a, b) if a.y < b.y else (b, a)
    if len(ends) < 2:
        return None
    (low_left, high_left), (low_right, high_right) = ends["left jamb"], ends["right jamb"]
    return (
        math.hypot(low_right.x - high_left.x, high_left.y - low_right.y),
        math.hypot(high_right.x - low_left.x, high_right.y - low_left.y),
    )
