"""How an end of a mullion or transom is cut."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BarEnd:
    """How one end of a bar is cut."""

    angle: float
    """Between the bar's length and its cut, degrees to 0.1; 90 is square. Where two cuts make a point, of the left or lower one."""
    note: str = ""
    """What a plain cut at that angle does not say: 'scribed to radius 704', 'cut to a point, 62.1 and 62.1'."""
    cuts: int = 1
    """Two where it is cut to a point, under a corner of what it meets: then it joins the members on both sides of that."""


SQUARE_END = BarEnd(90.0)
