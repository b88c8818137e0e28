"""What an opening type must say of itself. One file a type; nothing outside this folder asks which type it is."""

from __future__ import annotations

from abc import ABC
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from elevations.plane import Box, Corner, Point

SWING_WORDS = {"out": "opens out", "in": "opens in"}
TOWARDS, AWAY, ALONG, AXIS = "towards", "away", "along", "axis"
"""What a line of an opening symbol stands for: what opens towards the viewer outside, or away; a sash that slides; the line it turns about."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One sash of an opening, and how it moves."""

    hinge_edges: tuple[str, ...] = ()
    """Of left, right, top, bottom: the edges it turns on; empty where it turns on none."""
    half_in: str = ""
    """Of a sash that turns about its middle: which half comes in, left, right or top; the other goes out."""
    follows: bool = False
    """Whether another sash has to be opened first; it then carries the floating stile between them, and no handle."""
    fixed: bool = False
    """Whether it never moves, beside one that does."""
    plane: int | None = None
    """Of sashes that slide past each other: 0 in the outer plane, 1 in the inner one; None where there is one plane."""
    slides: str = ""
    """Which way it slides from where it is shut: left, right, up or down, seen from outside."""


STILL = Leaf()
"""A sash that does not move."""


def in_half(half: str, place: Point | Corner, middle: Point) -> bool:
    """Whether a place lies in the top, left or right half of what has its middle there."""
    return {"top": place.y > middle.y, "left": place.x < middle.x, "right": place.x > middle.x}[half]


class Line(NamedTuple):
    """One open polyline of an opening symbol, mm."""

    points: tuple[Point, ...]
    kind: str
    """TOWARDS, AWAY, ALONG or AXIS."""


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
    leads: ClassVar[tuple[str, ...]] = ()
    """What the spec may say for 'leads'; empty where the key means nothing."""
    needs: ClassVar[str] = ""
    """The block of figures that a profile system must give for it; empty where any system will do."""
    meeting_axis: ClassVar[int | None] = None
    """Of two sashes: 0 where they stand side by side, 1 where they stand one above the other; None for one sash."""

    def hinge_edges(self, hinge: str | None) -> tuple[str, ...]:
        """The edges it can turn on: of left, right, top, bottom."""
        return ()

    def leaves(self, hinge: str | None, lead: str | None) -> tuple[Leaf, ...]:
        """Its sashes, from the left or from the top. `lead`: what the spec says for 'leads', if anything."""
        return (Leaf(self.hinge_edges(hinge)),)

    def misfit(self, straight: frozenset[str], hinge: str | None) -> str | None:
        """Why a sash of another shape than a rectangle can't open so, in words that follow 'light 1 (top-hung)'; None where it can.

        `straight`: of left, right, top and bottom, the sides where the sash ends in a straight upright or level edge.
        """
        return misses(self.hinge_edges(hinge), straight)

    def has_sash(self, dummy: bool) -> bool:
        """Whether its glass sits in a sash. `dummy`: the spec asks for a sash that does not open."""
        return True

    def words(self, hinge: str | None, swing: str, lead: str | None, dummy: bool) -> str:
        """How it opens, for people: 'side-hung, hinges left, opens out'."""
        hinges = f", hinges {hinge}" if hinge else ""
        return f"{self.key}{hinges}, {SWING_WORDS[swing]}"

    def plain_words(self, swing: str, lead: str | None) -> str:
        """The same for people who know no terms; empty where the hinge edges and the swing say it all."""
        return ""

    def symbol(self, leaf: Leaf, sash: Box, swing: str, apex_at_hinge: bool) -> tuple[Line, ...]:
        """The opening symbol over one sash: a triangle for each edge it turns on.

        The point of the triangle is at the middle of the hinge edge (UK use) or, with apex_at_hinge False, of the
        opposite one. Which use is in force must be keyed on the sheet: countries disagree.
        """
        kind = TOWARDS if swing == "out" else AWAY
        return tuple(Line(triangle(sash, edge if apex_at_hinge else OPPOSITE[edge]), kind) for edge in leaf.hinge_edges)


UPRIGHT = ("left", "right")
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def misses(edges: tuple[str, ...], straight: frozenset[str]) -> str | None:
    """That a sash can't turn on the first of these edges that is not straight."""
    missing = [edge for edge in edges if edge not in straight]
    if not missing:
        return None
    return f"turns on its {missing[0]} edge, which is no straight {'upright' if missing[0] in UPRIGHT else 'level'} one here"


def triangle(box: Box, apex_edge: str) -> tuple[Point, Point, Point]:
    """From one far corner to the middle of the apex edge to the other far corner."""
    x, y = box.centre
    if apex_edge == "left":
        return Point(box.right, box.top), Point(box.left, y), Point(box.right, box.bottom)
    if apex_edge == "right":
        return Point(box.left, box.top), Point(box.right, y), Point(box.left, box.bottom)
    if apex_edge == "top":
        return Point(box.left, box.bottom), Point(x, box.top), Point(box.right, box.bottom)
    return Point(box.left, box.top), Point(x, box.bottom), Point(box.right, box.top)


def all_square(straight: frozenset[str]) -> str | None:
    """Why a sash can't slide in a light that is no rectangle."""
    return None if len(straight) == len(OPPOSITE) else "slides in straight tracks, and this is no rectangle"


ARROW_LENGTH, ARROW_AT, BARB = 0.34, 0.72, 0.07
"""Length of an arrow and where it stands in the sash, from its bottom or left, as shares of the sash; its barbs, as a share of the shorter side."""


def arrow(sash: Box, way: str) -> tuple[Point, ...]:
    """An arrow over the sash, left, right, up or down: from its tail to its point and out along both barbs."""
    along = 0 if way in UPRIGHT else 1
    length = ARROW_LENGTH * (sash.width, sash.height)[along]
    sign = 1.0 if way in ("right", "up") else -1.0
    middle, barb = sash.centre, BARB * min(sash.width, sash.height)
    across = (sash.left, sash.bottom)[1 - along] + ARROW_AT * (sash.width, sash.height)[1 - along]

    def at(forward: float, aside: float) -> Point:
        places = middle[along] + sign * forward, across + aside
        return Point(*places) if along == 0 else Point(places[1], places[0])

    tip = at(length / 2, 0.0)
    return at(-length / 2, 0.0), tip, at(length / 2 - barb, barb / 2), tip, at(length / 2 - barb, -barb / 2)
