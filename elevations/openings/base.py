"""What an opening type must say of itself. One file a type; nothing outside this folder asks which type it is."""

from __future__ import annotations

from abc import ABC
from typing import ClassVar

from elevations.plane import Box, Point

SWING_WORDS = {"out": "opens out", "in": "opens in"}


class Opening(ABC):
    """One way in which a light opens, or does not."""

    key: ClassVar[str]
    """Its name in the spec, a term of EN 12519 or of the trade."""
    help: ClassVar[str]
    """One line for editors and the starter job."""
    takes_hinge: ClassVar[bool] = False
    """Whether the spec must say hinge: left or right."""
    swings: ClassVar[tuple[str, ...]] = ("out", "in")
    """The ways it can swing; empty where it does not."""

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        """The edges it can turn on: of left, right, top, bottom."""
        raise NotImplementedError

    def misfit(self, straight: frozenset[str], hinge: str | None) -> str | None:
        """Why a sash of another shape than a rectangle can't open so, in words that follow 'light 1 (top-hung)'; None where it can.

        `straight`: of left, right, top and bottom, the sides where the sash ends in a straight upright or level edge.
        """
        missing = [edge for edge in self.hinge_edges(hinge) if edge not in straight]
        if not missing:
            return None
        return f"turns on its {missing[0]} edge, which is no straight {'upright' if missing[0] in _UPRIGHT else 'level'} one here"

    def has_sash(self, dummy: bool) -> bool:
        """Whether its glass sits in a sash. `dummy`: the spec asks for a sash that does not open."""
        return True

    def words(self, hinge: str | None, swing: str, dummy: bool) -> str:
        """How it opens, for people: 'side-hung, hinges left, opens out'."""
        hinges = f", hinges {hinge}" if hinge else ""
        return f"{self.key}{hinges}, {SWING_WORDS[swing]}"

    def symbol(self, sash: Box, hinge: str | None, apex_at_hinge: bool) -> tuple[tuple[Point, ...], ...]:
        """Open polylines of the opening symbol over the sash, mm: a triangle for each edge it turns on.

        The point of the triangle is at the middle of the hinge edge (UK use) or, with apex_at_hinge False, of the
        opposite one. Which use is in force must be keyed on the sheet: countries disagree.
        """
        return tuple(_triangle(sash, edge if apex_at_hinge else _OPPOSITE[edge]) for edge in self.hinge_edges(hinge))


_UPRIGHT = ("left", "right")
_OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def _triangle(box: Box, apex_edge: str) -> tuple[Point, Point, Point]:
    """From one far corner to the middle of the apex edge to the other far corner."""
    x, y = box.centre
    if apex_edge == "left":
        return Point(box.right, box.top), Point(box.left, y), Point(box.right, box.bottom)
    if apex_edge == "right":
        return Point(box.left, box.top), Point(box.right, y), Point(box.left, box.bottom)
    if apex_edge == "top":
        return Point(box.left, box.bottom), Point(x, box.top), Point(box.right, box.bottom)
    return Point(box.left, box.top), Point(x, box.bottom), Point(box.right, box.top)
