"""Two sashes side by side in two planes, of which one or both slide behind or in front of the other."""

from __future__ import annotations

from elevations.openings.base import ALONG, Leaf, Line, Opening, all_square, arrow
from elevations.plane import Box


class Sliding(Opening):
    """Horizontally sliding light."""

    key = "sliding"
    help = "Two sashes side by side that slide past each other; 'leads' names the only one that slides, seen from outside."
    swings = ()
    leads = ("left", "right")
    needs = "sliding"
    meeting_axis = 0

    def leaves(self, hinge: str | None, lead: str | None) -> tuple[Leaf, ...]:
        """A sash that stands still is in the outer plane, one that slides past it in the inner one; of two that slide the left is outside."""
        left = Leaf(plane=1 if lead == "left" else 0, fixed=lead == "right", slides="" if lead == "right" else "right")
        right = Leaf(plane=0 if lead == "left" else 1, fixed=lead == "left", slides="" if lead == "left" else "left")
        return left, right

    def misfit(self, straight: frozenset[str], hinge: str | None) -> str | None:
        return all_square(straight)

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        return f"sliding, {lead} sash slides inside the other" if lead else "sliding, both sashes slide, left outside"

    def plain_words(self, swing: str, lead: str | None) -> str:
        if lead is None:
            return "slides sideways: either half can be pushed past the other"
        return f"slides sideways: the {lead} half can be pushed past the other, which stands still, as you look at it from outside"

    def symbol(self, leaf: Leaf, sash: Box, swing: str, apex_at_hinge: bool) -> tuple[Line, ...]:
        return (Line(arrow(sash, leaf.slides), ALONG),) if leaf.slides else ()
