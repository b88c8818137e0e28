"""Two sashes one above the other in two planes, whose meeting rails pass each other: the upper one is outside."""

from __future__ import annotations

from elevations.openings.base import ALONG, Leaf, Line, Opening, all_square, arrow
from elevations.plane import Box


class VerticalSliding(Opening):
    """Vertically sliding light, or sash window."""

    key = "vertical-sliding"
    help = "Two sashes one above the other that slide past each other; 'leads' names the only one that slides, top or bottom."
    swings = ()
    leads = ("bottom", "top")
    needs = "sliding"
    meeting_axis = 1

    def leaves(self, hinge: str | None, lead: str | None) -> tuple[Leaf, ...]:
        """The upper sash is in the outer plane, so that rain runs off over the lower one (common practice, no source)."""
        top = Leaf(plane=0, fixed=lead == "bottom", slides="" if lead == "bottom" else "down")
        bottom = Leaf(plane=1, fixed=lead == "top", slides="" if lead == "top" else "up")
        return top, bottom

    def misfit(self, straight: frozenset[str], hinge: str | None) -> str | None:
        return all_square(straight)

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        return f"vertical sliding, {lead} sash slides" if lead else "vertical sliding, both sashes slide"

    def plain_words(self, swing: str, lead: str | None) -> str:
        if lead is None:
            return "slides up and down: the bottom half goes up, the top half comes down"
        way = "goes up" if lead == "bottom" else "comes down"
        return f"slides up and down: the {lead} half {way}, the other stands still"

    def symbol(self, leaf: Leaf, sash: Box, swing: str, apex_at_hinge: bool) -> tuple[Line, ...]:
        return (Line(arrow(sash, leaf.slides), ALONG),) if leaf.slides else ()
