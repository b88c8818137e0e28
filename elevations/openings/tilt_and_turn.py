"""A light that tilts in at the top and, with the handle the other way, turns in at its hinges."""

from __future__ import annotations

from elevations.openings.base import Opening


class TiltAndTurn(Opening):
    """Tilt-and-turn light; opens in."""

    key = "tilt-and-turn"
    help = "Tilts in at the top or turns in on the side that 'hinge' names, seen from outside."
    takes_hinge = True
    swings = ("in",)

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        return (hinge or "left", "bottom")
