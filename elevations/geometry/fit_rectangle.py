"""The largest level and plumb rectangle in a surveyed hole, and the best place of one as given."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from elevations.geometry.fit_plane import Constraint, best_vertex, largest_product, vertices, vertices_held_by_all
from elevations.geometry.hole import Hole, Inward, constraints
from elevations.plane import Box

HELD = 1e-6
"""Float noise, mm."""
GIVEN_UP_MM = 0.1
"""No tape reads this: so much of the smallest gap is given up for a frame that stands in the middle."""
NOT_INSIDE_OUT: tuple[Constraint, ...] = (((1.0, -1.0, 0.0, 0.0), 0.0), ((0.0, 0.0, 1.0, -1.0), 0.0))
"""Left is at most right, and bottom at most top: without these the region of rectangles has no end."""
SLOPE_MARGIN = 2.5
"""Two slopes, and a quarter more for what their own coming in costs again."""


def largest_rectangle(hole: Hole, inward: Inward) -> Box | None:
    """The level and plumb rectangle of the largest area that stays `inward` off each side; exact. None where none does.

    The rectangles that fit are a convex region of four unknowns, and width and height are linear on it: its vertices
    give all that width and height can be, and the largest product of the two lies on that figure's edge.
    """
    rows = constraints(hole, inward)
    found = [at for at in _held_on_every_side(rows) if at[1] > at[0] and at[3] > at[2]]
    if not found or _slender(rows, found):
        found = list(vertices([*rows, *NOT_INSIDE_OUT], 4))
    best = largest_product([(at[1] - at[0], at[3] - at[2]) for at in found])
    if best is None:
        return None
    i, j, share = best
    left, right, bottom, top = (a + share * (b - a) for a, b in zip(found[i], found[j], strict=True))
    return Box(left, bottom, right, top)


def _held_on_every_side(rows: Sequence[Constraint]) -> Iterator[tuple[float, ...]]:
    """The rectangles that touch every side of the hole: the largest is among these, unless the hole is slender and leans.

    Were one side of the largest not held by its own side of the hole, it could move out by a little, d; head and sill
    would come in by at most the slope times d each. That gains area as long as the slope is less than half of the shorter
    side to the longer one.
    """
    groups = [[row for row in rows if abs(row[0][own]) == 1.0 and all(abs(row[0][i]) < 1.0 for i in range(4) if i != own)] for own in range(4)]
    return vertices_held_by_all(groups, rows)


def _slender(rows: Sequence[Constraint], found: Sequence[tuple[float, ...]]) -> bool:
    """Whether a rectangle among these is so long for the hole's slopes that the largest may not touch every side."""
    slope = max(min(abs(a[0]) + abs(a[1]), abs(a[2]) + abs(a[3])) for a, _ in rows)
    sides = [(at[1] - at[0], at[3] - at[2]) for at in found]
    return any(SLOPE_MARGIN * slope * max(w, h) >= min(w, h) for w, h in sides)


def best_place(hole: Hole, stack: Inward, width: float, height: float, enough: float = math.inf) -> Box:
    """Where a rectangle of that size leaves the largest smallest gap, which may be below 0, and is in the middle besides.

    For equal gaps on facing sides it gives up `GIVEN_UP_MM` of the smallest gap, as long as that stays `enough`, mm.
    """
    moved = [
        ((a[0] + a[1], a[2] + a[3], 1.0), b - a[1] * width - a[3] * height)
        for a, b in constraints(hole, stack)
    ]
    best = best_vertex(moved, 3, lambda at: at[2])
    assert best is not None   # a gap small enough always leaves a place
    least = best[2] - GIVEN_UP_MM if best[2] < enough else max(best[2] - GIVEN_UP_MM, enough)
    for first in (0, 1):
        at = [best[0], best[1]]
        for axis in (first, 1 - first):
            at[axis] += _off_middle(moved, at, axis)
        if min(b - a[0] * at[0] - a[1] * at[1] for a, b in moved) >= least - HELD:
            return Box(at[0], at[1], at[0] + width, at[1] + height)
    return Box(best[0], best[1], best[0] + width, best[1] + height)


def _off_middle(rows: Sequence[tuple[tuple[float, float, float], float]], at: Sequence[float], axis: int) -> float:
    """How far to move along an axis (0 level, 1 up) so that the smallest gaps at both ends are equal."""
    low, high = (
        min(b - a[0] * at[0] - a[1] * at[1] for a, b in rows if round(a[axis]) == sign and round(a[1 - axis]) == 0) for sign in (-1, 1)
    )
    return (high - low) / 2
