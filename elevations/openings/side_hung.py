"""A light hung at one side."""

from __future__ import annotations

from elevations.openings.base import Opening


class SideHung(Opening):
    """Side-hung light, or casement."""

    key = "side-hung"
    help = "Hung at one side; 'hinge' says which, seen from outside."
    takes_hinge = True

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        return (hinge or "left",)
