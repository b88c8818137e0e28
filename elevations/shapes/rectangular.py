"""The plain frame: two jambs, a head and a sill."""

from __future__ import annotations

from elevations.plane import Outline, rectangle


class Rectangular:
    """A rectangular frame."""

    edges = ("sill", "right jamb", "head", "left jamb")
    """Member names in the order of the outline's edges."""

    def outline(self, width: float, height: float) -> Outline:
        """Outer edge of the frame, mm, origin at its bottom left corner."""
        return rectangle(0.0, 0.0, width, height)
