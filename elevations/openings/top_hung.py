"""A light hung at its top, as most fanlights are."""

from __future__ import annotations

from elevations.openings.base import Opening


class TopHung(Opening):
    """Top-hung light."""

    key = "top-hung"
    help = "Hung at the top; the bottom swings."

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        return ("top",)
