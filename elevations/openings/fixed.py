"""A light that does not open; glazed directly, or in a dummy sash so that sight lines match its neighbours."""

from __future__ import annotations

from elevations.openings.base import Opening


class Fixed(Opening):
    """Fixed light."""

    key = "fixed"
    help = "Does not open. With 'sash: dummy' its glass sits in a sash that does not open."
    swings = ()

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        return ()

    def has_sash(self, dummy: bool) -> bool:
        return dummy

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        return "fixed, dummy sash" if dummy else "fixed"
