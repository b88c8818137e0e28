"""A light that turns about an upright axis in its middle: one side comes in, the other goes out."""

from __future__ import annotations

from elevations.openings.base import AWAY, AXIS, OPPOSITE, TOWARDS, Leaf, Line, Opening, triangle
from elevations.plane import Box, Point


class VerticalPivot(Opening):
    """Vertically pivoted light."""

    key = "vertical-pivot"
    help = "Turns about an upright axis in its middle; 'leads' says which side goes out, seen from outside."
    swings = ()
    leads = ("right", "left")
    needs = "pivot"

    def leaves(self, hinge: str | None, lead: str | None) -> tuple[Leaf, ...]:
        return (Leaf(half_in=OPPOSITE[lead or self.leads[0]]),)

    def misfit(self, straight: frozenset[str], hinge: str | None) -> str | None:
        if {"top", "bottom"} <= straight:
            return None
        return "turns about pivots in its top and bottom edges, which are not both straight level ones here"

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        out = lead or self.leads[0]
        return f"vertical pivot, {out} opens out, {OPPOSITE[out]} in"

    def plain_words(self, swing: str, lead: str | None) -> str:
        out = lead or self.leads[0]
        return f"turns about its middle: the {out} side goes out while the {OPPOSITE[out]} comes in, as you look at it from outside"

    def symbol(self, leaf: Leaf, sash: Box, swing: str, apex_at_hinge: bool) -> tuple[Line, ...]:
        x = sash.centre.x
        halves = {"left": Box(sash.left, sash.bottom, x, sash.top), "right": Box(x, sash.bottom, sash.right, sash.top)}
        lines = [
            Line(triangle(half, OPPOSITE[side] if apex_at_hinge else side), AWAY if side == leaf.half_in else TOWARDS)
            for side, half in halves.items()
        ]
        return (*lines, Line((Point(x, sash.bottom), Point(x, sash.top)), AXIS))
