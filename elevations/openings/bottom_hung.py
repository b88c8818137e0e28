"""A light hung at its bottom."""

from __future__ import annotations

from elevations.openings.base import Opening


class BottomHung(Opening):
    """Bottom-hung light, or hopper."""

    key = "bottom-hung"
    help = "Hung at the bottom; the top swings."

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        return ("bottom",)
