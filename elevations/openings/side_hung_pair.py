"""Two sashes hung at the outer sides that meet without a mullion: one of them carries a floating stile."""

from __future__ import annotations

from elevations.openings.base import SWING_WORDS, Leaf, Opening


class SideHungPair(Opening):
    """A pair of casements."""

    key = "side-hung-pair"
    help = "Two sashes hung left and right that meet without a mullion; 'leads' says which opens first, seen from outside."
    leads = ("right", "left")
    needs = "pair"
    meeting_axis = 0

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        return ("left", "right")

    def leaves(self, hinge: str | None, lead: str | None) -> tuple[Leaf, ...]:
        first = lead or self.leads[0]
        return tuple(Leaf((side,), follows=side != first) for side in ("left", "right"))

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        return f"pair of side-hung sashes, {lead or self.leads[0]} opens first, {SWING_WORDS[swing]}"

    def plain_words(self, swing: str, lead: str | None) -> str:
        first = lead or self.leads[0]
        return f"opens {swing}wards like a pair of doors, hinged at both sides, the {first} half first as you look at it from outside"
