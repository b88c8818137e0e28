"""A light that turns about a level axis at mid-height: its top comes in, its bottom goes out."""

from __future__ import annotations

from elevations.openings.base import AWAY, AXIS, TOWARDS, UPRIGHT, Leaf, Line, Opening, triangle
from elevations.plane import Box, Point


class HorizontalPivot(Opening):
    """Horizontally pivoted light."""

    key = "horizontal-pivot"
    help = "Turns about a level axis at mid-height: the top comes in, the bottom goes out."
    swings = ()
    needs = "pivot"

    def leaves(self, hinge: str | None, lead: str | None) -> tuple[Leaf, ...]:
        return (Leaf(half_in="top"),)

    def misfit(self, straight: frozenset[str], hinge: str | None) -> str | None:
        if set(UPRIGHT) <= straight:
            return None
        return "turns about pivots in its left and right edges, which are not both straight upright ones here"

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        return "horizontal pivot, top opens in, bottom out"

    def plain_words(self, swing: str, lead: str | None) -> str:
        return "turns about its middle: the top comes in while the bottom goes out"

    def symbol(self, leaf: Leaf, sash: Box, swing: str, apex_at_hinge: bool) -> tuple[Line, ...]:
        y = sash.centre.y
        upper, lower = Box(sash.left, y, sash.right, sash.top), Box(sash.left, sash.bottom, sash.right, y)
        return (
            Line(triangle(upper, "bottom" if apex_at_hinge else "top"), AWAY),
            Line(triangle(lower, "top" if apex_at_hinge else "bottom"), TOWARDS),
            Line((Point(sash.left, y), Point(sash.right, y)), AXIS),
        )
