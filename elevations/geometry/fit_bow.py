"""What is said of walls that bow outwards: the gap in the middle of a side is wider there than at its corners."""

from __future__ import annotations

from elevations.geometry.hole import Hole

TOLD_BOW_MM = 0.5
"""Of each side: a tape read to the mm over both tells no less."""


def outward_words(hole: Hole) -> str:
    """Which sides bow outwards and how far; empty where none does by what a tape tells. Of two that face each other each is taken to do half."""
    found = []
    for names, first, last in (("the jambs", "left jamb", "right jamb"), ("sill and head", "sill", "head")):
        mm = max(hole.outward(first), hole.outward(last))
        found += [f"{names} bow outwards by {mm:.1f} each"] if mm >= TOLD_BOW_MM else []
    if not found:
        return ""
    return (
        f"{' and '.join(found)}, shared equally, for the tape does not say which side does: measure each gap before it is packed; "
        "the frame's size and place are by the corners"
    )


def of_which_bowed(hole: Hole, side: str, place: str) -> str:
    """How much of a gap there is the wall's bow, to follow the gap's figure; empty where it bows no way outwards."""
    mm = hole.outward(side) if place == "middle" else 0.0
    return f"; {mm:.1f} of it is the wall bowing outwards, shared equally with the side opposite" if mm >= TOLD_BOW_MM else ""
