"""The surveyed hole as a shape: corners from its sides and a diagonal, sides bowed in or out by what the middles say.

A side runs straight from each corner to its middle.

Seen from outside, mm, origin at the bottom left corner, x right, y up and level.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

from elevations.errors import Path, Problem, SpecError
from elevations.geometry.fit_plane import Constraint
from elevations.plane import Point
from elevations.spec.site import ARCHES, Opening

LEAN_STEPS = 12
"""A jamb's lean changes the height of its top by a hundredth of itself: this many steps are exact to float noise."""
MOST_LEAN = 0.05
"""A jamb further out of plumb, or a head further out of level than the sill, is no survey; our own limit."""
MOST_CLOSING_SHARE = 0.02
"""A closing error beyond this share of the diagonal is a slip of the tape; our own limit."""


class Inward(NamedTuple):
    """What is kept free inside each side of the hole, mm; negative where the frame runs behind the wall."""

    left: float = 0.0
    right: float = 0.0
    sill: float = 0.0
    head: float = 0.0


@dataclass(frozen=True, slots=True)
class Hole:
    """Sides as two points, or three where they bow: left and right from the bottom, sill and head from the left."""

    left: tuple[Point, ...]
    right: tuple[Point, ...]
    sill: tuple[Point, ...]
    head: tuple[Point, ...]
    closing: float | None
    """The second diagonal as measured less the same from the sides and the first; None where it was not measured."""
    squared: bool
    """True where no diagonal was measured and the hole is taken as square as its sides allow."""
    kind: str = "level"
    """Of its head: level, raked, arched or pointed."""
    crown: Point | None = None
    """The arch half way between its springings, which are the ends of `head`; None of a level or raked head."""

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Bottom left, bottom right, top right, top left."""
        return self.left[0], self.right[0], self.right[-1], self.left[-1]

    def lowered(self, by: float) -> Hole:
        """The same hole with its head lower by so many mm: what a frame may fill of it where that much is kept free over it."""
        crown = self.crown and Point(self.crown.x, self.crown.y - by)
        return replace(self, head=tuple(Point(p.x, p.y - by) for p in self.head), crown=crown)

    def straightened(self) -> Hole:
        """The same hole, sides that bow outwards taken as straight: what a frame is sized and stood by, for its corners hold it there."""
        return replace(
            self, left=_not_outwards(self.left, 1.0, upright=True), right=_not_outwards(self.right, -1.0, upright=True),
            sill=_not_outwards(self.sill, 1.0, upright=False), head=_not_outwards(self.head, -1.0, upright=False),
        )

    def outward(self, side: str) -> float:
        """How far the middle of a side (left jamb, right jamb, sill, head) lies beyond the straight line between its corners, mm; 0 where it does not."""
        line, sign, upright = {
            "left jamb": (self.left, 1.0, True), "right jamb": (self.right, -1.0, True), "sill": (self.sill, 1.0, False), "head": (self.head, -1.0, False),
        }[side]
        return max(0.0, -_bowed_in(line, sign, upright=upright))

    def words(self) -> str:
        """Where its corners are, and its crown."""
        corners = ", ".join(f"({p.x:.1f}, {p.y:.1f})" for p in self.corners)
        crown = f"; crown ({self.crown.x:.1f}, {self.crown.y:.1f})" if self.crown else ""
        return f"corners from the bottom left, anticlockwise: {corners}{crown}"


def hole_of(opening: Opening, path: Path) -> Hole:
    """The shape of a surveyed opening. Raises SpecError where its lengths make none; `path` is the opening's own."""
    bottom = opening.width[2]
    bl = Point(0.0, 0.0)
    if abs(opening.out_of_level) >= bottom * MOST_LEAN:
        raise SpecError([Problem(
            "no-such-opening", f"a sill {abs(opening.out_of_level):g} out of level over {bottom:g} mm is steeper than any frame is set on",
            "measure it again with a level", (*path, "out_of_level"),
        )])
    br = Point(math.sqrt(bottom**2 - opening.out_of_level**2), opening.out_of_level)
    first = _squarest_diagonal(opening) if opening.diagonals is None else opening.diagonals[0]
    tops = _tops(opening, bl, br, first)
    if tops is None:
        raise _impossible(opening, first, path)
    tl, tr = tops
    second = math.dist(tr, bl)
    closing = opening.diagonals[1] - second if opening.diagonals and len(opening.diagonals) > 1 else None
    _believable(opening, (bl, br, tr, tl), closing, path)
    across = _bow(_across(opening, bl, br, tr, tl), opening.width[1])
    half = min(tl.y, tr.y) / 2 if opening.head == "raked" else None
    arch = opening.head in ARCHES
    up = 0.0 if arch else _bow(math.dist(_middle(bl, br), _middle(tl, tr)), opening.height[1])
    crown = Point((tl.x + tr.x) / 2, (bl.y + br.y) / 2 + opening.height[1]) if arch else None
    return Hole(
        _jamb(bl, tl, across, half), _jamb(br, tr, -across, half), _side(bl, br, up), _side(tl, tr, -up),
        closing, opening.diagonals is None, opening.head, crown,
    )


def _tops(opening: Opening, bl: Point, br: Point, first: float) -> tuple[Point, Point] | None:
    """Top left and top right corner, or springing, with that first diagonal; None where no hole has these lengths.

    Under a raked head the top width is a level one, at the top of the lower jamb, and not the length of the slope.
    """
    top, (left, _, right) = opening.width[0], opening.height
    tl = _third(br, bl, first, left)
    if tl is None or opening.head != "raked":
        tr = _third(br, tl, right, top) if tl else None
        return (tl, tr) if tl and tr else None
    if left <= right:
        dx, dy = tl.x + top - br.x, tl.y - br.y
        share = right / math.hypot(dx, dy)
        return tl, Point(br.x + dx * share, br.y + dy * share)
    tr = Point(br.x, br.y + right)
    for _ in range(LEAN_STEPS):
        x = bl.x + (tl.x - bl.x) * tr.y / tl.y + top
        if abs(x - br.x) >= right:
            return None
        tr = Point(x, br.y + math.sqrt(right**2 - (x - br.x) ** 2))
    return tl, tr


def _across(opening: Opening, bl: Point, br: Point, tr: Point, tl: Point) -> float:
    """The width in the middle that the corners make: between the middles of jambs, under a raked head at half the lower one."""
    if opening.head != "raked":
        return math.dist(_middle(bl, tl), _middle(br, tr))
    y = min(tl.y, tr.y) / 2
    return off_side((br, tr), y, upright=True) - off_side((bl, tl), y, upright=True)


def _middle(a: Point, b: Point) -> Point:
    return Point((a.x + b.x) / 2, (a.y + b.y) / 2)


def _bow(between: float, measured: float) -> float:
    """How far each of two facing sides bows inwards: half of what their middles are too close; negative where they bow outwards.

    Which of the two bows the tape does not say. Half each is what counts for a frame that can be moved sideways
    within its gaps.
    """
    return (between - measured) / 2


def _side(start: Point, end: Point, up: float) -> tuple[Point, ...]:
    middle = _middle(start, end)
    return (start, Point(middle.x, middle.y + up), end) if up else (start, end)


def _jamb(start: Point, end: Point, across: float, at: float | None) -> tuple[Point, ...]:
    """A jamb with its bow where the middle width was taped: at that height, or in its own middle."""
    y = _middle(start, end).y if at is None else at
    return (start, Point(off_side((start, end), y, upright=True) + across, y), end) if across else (start, end)


def _bowed_in(side: tuple[Point, ...], sign: float, *, upright: bool) -> float:
    """How far a side's middle lies inside the straight line between its corners, mm; negative outside. `sign`: 1 of a left side or sill, else -1."""
    middle = side[len(side) // 2]
    return sign * ((middle.x if upright else middle.y) - off_side((side[0], side[-1]), middle.y if upright else middle.x, upright=upright))


def _not_outwards(side: tuple[Point, ...], sign: float, *, upright: bool) -> tuple[Point, ...]:
    return side if _bowed_in(side, sign, upright=upright) > 0 else (side[0], side[-1])


def _third(a: Point, b: Point, from_a: float, from_b: float) -> Point | None:
    """The point at those distances from a and b, to the right of the way from a to b; None where there is none."""
    gap = math.dist(a, b)
    along = (from_a**2 - from_b**2 + gap**2) / (2 * gap)
    high = from_a**2 - along**2
    if high <= 0:
        return None
    ux, uy = (b.x - a.x) / gap, (b.y - a.y) / gap
    off = math.sqrt(high)
    return Point(a.x + along * ux + off * uy, a.y + along * uy - off * ux)


def _squarest_diagonal(opening: Opening) -> float:
    """The first diagonal of the squarest hole with these sides, by halving, to 1e-9 mm.

    Its diagonals are equal; under a raked head, where they can't be, its jambs lean equally and against each other.
    """
    bl, br = Point(0.0, 0.0), Point(opening.width[2], 0.0)
    low, high = _range_of_first(opening)
    for _ in range(80):
        first = (low + high) / 2
        tops = _tops(opening, bl, br, first)
        if tops is None:
            high = first
        elif (tops[0].x + tops[1].x > br.x) if opening.head == "raked" else (math.dist(tops[1], bl) > first):
            low = first
        else:
            high = first
    return (low + high) / 2


def _range_of_first(opening: Opening) -> tuple[float, float]:
    """Between what the first diagonal of a hole with these sides must lie: no side of a triangle is longer than the other two."""
    top, _, bottom = opening.width
    left, _, right = opening.height
    if opening.head == "raked":   # its slope was not measured, so the triangle over the diagonal bounds nothing
        return abs(bottom - left), bottom + left
    return max(abs(bottom - left), abs(top - right)), min(bottom + left, top + right)


def _impossible(opening: Opening, first: float, path: Path) -> SpecError:
    bottom, left = opening.width[2], opening.height[0]
    low, high = _range_of_first(opening)
    return SpecError([Problem(
        "no-such-opening", f"no opening with these sides has a diagonal of {first:g} from top left to bottom right: it must lie between "
        f"{low:g} and {high:g}", f"with square corners it would be about {math.hypot(bottom, left):.0f}; measure the sides and diagonals again",
        (*path, "diagonals") if opening.diagonals else path,
    )])


def _believable(opening: Opening, corners: tuple[Point, Point, Point, Point], closing: float | None, path: Path) -> None:
    """Raise where the shape leans more than any wall does, or the diagonals contradict each other by more than a tape's error."""
    bl, br, tr, tl = corners
    lean = max(abs(tl.x - bl.x) / opening.height[0], abs(tr.x - br.x) / opening.height[2])
    slope = abs((tr.y - tl.y) - (br.y - bl.y)) / opening.width[0]
    where = (*path, "diagonals") if opening.diagonals else path
    if max(lean, 0.0 if opening.head == "raked" else slope) > MOST_LEAN:
        raise SpecError([Problem(
            "no-such-opening", f"with these sides and diagonals a side would be {max(lean, slope) * 1000:.0f} mm in 1 m out of true, more than "
            f"the {MOST_LEAN * 1000:.0f} that is believed",
            f"with square corners the diagonals would be about {math.hypot(opening.width[2], opening.height[0]):.0f}; measure them again", where,
        )])
    if closing is not None and opening.diagonals and abs(closing) > MOST_CLOSING_SHARE * opening.diagonals[1]:
        raise SpecError([Problem(
            "no-such-opening", f"the diagonals {opening.diagonals[0]:g} and {opening.diagonals[1]:g} can't both be right: with these sides the "
            f"second would be {opening.diagonals[1] - closing:.1f}", "measure the sides and both diagonals again", where,
        )])


def constraints(hole: Hole, inward: Inward) -> list[Constraint]:
    """What keeps a level and plumb rectangle (left, right, bottom, top) at least `inward` off each side, everywhere.

    Distances are taken along the level and the plumb, as a tape in the gap measures them. Each end of a side is
    held by the piece of the side that it is on, a bow's point by itself.
    """
    upright = [tuple((p.x, p.y) for p in side) for side in (hole.left, hole.right)]
    level = [tuple((p.y, p.x) for p in side) for side in (hole.sill, hole.head)]
    found: list[Constraint] = []
    for side, own, ends, sign, kept in (
        (upright[0], 0, (2, 3), 1.0, inward.left), (upright[1], 1, (2, 3), -1.0, inward.right),
        (level[0], 2, (0, 1), 1.0, inward.sill), (level[1], 3, (0, 1), -1.0, inward.head),
    ):
        for (a, b), end in ((side[:2], ends[0]), (side[-2:], ends[1])):
            slope = (b[0] - a[0]) / (b[1] - a[1])
            row = [0.0] * 4
            row[own], row[end] = -sign, sign * slope
            found.append((tuple(row), -kept - sign * (a[0] - slope * a[1])))
        for across, _ in side[1:-1]:
            row = [0.0] * 4
            row[own] = -sign
            found.append((tuple(row), -kept - sign * across))
    return found


def off_side(side: tuple[Point, ...], at: float, *, upright: bool) -> float:
    """Where a side is at a height (its x) or at a place along it (its y); its end pieces run on beyond its ends."""
    points = [(p.x, p.y) if upright else (p.y, p.x) for p in side]
    a, b = (points[0], points[1]) if at <= points[1][1] else (points[-2], points[-1])
    return a[0] + (b[0] - a[0]) * (at - a[1]) / (b[1] - a[1])
