"""Linear programs of a few unknowns by their vertices: exact, and small enough to try every one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations, pairwise, product

Constraint = tuple[tuple[float, ...], float]
"""Coefficients a and bound b of a·v <= b."""

SINGULAR = 1e-9
WITHIN_MM = 1e-7
"""How far a vertex may break a constraint for float noise."""


def vertices(constraints: Sequence[Constraint], count: int) -> Iterator[tuple[float, ...]]:
    """Every vertex of the region that the constraints leave, `count` unknowns each."""
    for chosen in combinations(constraints, count):
        at = _meeting([list(a) for a, _ in chosen], [b for _, b in chosen])
        if at is not None and all(_along(a, at) <= b + WITHIN_MM for a, b in constraints):
            yield at


def vertices_held_by_all(groups: Sequence[Sequence[Constraint]], constraints: Sequence[Constraint]) -> Iterator[tuple[float, ...]]:
    """The vertices at which one constraint of each group is tight: as many unknowns as groups, far fewer than all vertices."""
    for chosen in product(*groups):
        at = _meeting([list(a) for a, _ in chosen], [b for _, b in chosen])
        if at is not None and all(_along(a, at) <= b + WITHIN_MM for a, b in constraints):
            yield at


def best_vertex(
    constraints: Sequence[Constraint], count: int, worth: Callable[[tuple[float, ...]], float]
) -> tuple[float, ...] | None:
    """The vertex of greatest worth, a linear function; None where the constraints leave nothing."""
    return max(vertices(constraints, count), key=worth, default=None)


def largest_product(
    points: Sequence[tuple[float, float]]
) -> tuple[int, int, float] | None:
    """Where x·y is greatest over the hull of points: numbers i and j of two of them and a share s, for i + s (j - i).

    Over a convex region the product is greatest on its upper right edge, and along each straight piece of that it is
    a quadratic whose greatest value is known in closed form. None where no point has both coordinates positive.
    """
    upper = _upper_right(points)
    found: list[tuple[float, int, int, float]] = [(points[i][0] * points[i][1], i, i, 0.0) for i in upper]
    for i, j in pairwise(upper):
        (x, y), (dx, dy) = points[i], (points[j][0] - points[i][0], points[j][1] - points[i][1])
        if dx * dy < 0:
            share = min(1.0, max(0.0, -(x * dy + y * dx) / (2 * dx * dy)))
            found.append(((x + share * dx) * (y + share * dy), i, j, share))
    if not found:
        return None
    product, i, j, share = max(found)
    return (i, j, share) if product > 0 else None


def _upper_right(points: Sequence[tuple[float, float]]) -> list[int]:
    """Numbers of the points on the hull from its rightmost corner up to its highest, among those with x, y >= 0."""
    order = sorted((i for i, (x, y) in enumerate(points) if x >= -WITHIN_MM and y >= -WITHIN_MM), key=lambda i: (-points[i][0], -points[i][1]))
    hull: list[int] = []
    for i in order:
        if hull and points[i][1] <= points[hull[-1]][1]:
            continue
        while len(hull) > 1 and _turn(points[hull[-2]], points[hull[-1]], points[i]) <= 0:
            hull.pop()
        hull.append(i)
    return hull


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _along(a: Sequence[float], at: Sequence[float]) -> float:
    return sum(x * y for x, y in zip(a, at, strict=True))


def _meeting(rows: list[list[float]], right: list[float]) -> tuple[float, ...] | None:
    """Where the planes meet, by elimination with the largest pivot; None where they are parallel."""
    count = len(rows)
    for column in range(count):
        pivot = max(range(column, count), key=lambda i: abs(rows[i][column]))
        if abs(rows[pivot][column]) < SINGULAR:
            return None
        rows[column], rows[pivot] = rows[pivot], rows[column]
        right[column], right[pivot] = right[pivot], right[column]
        for i in range(column + 1, count):
            share = rows[i][column] / rows[column][column]
            if share:
                rows[i] = [a - share * b for a, b in zip(rows[i], rows[column], strict=True)]
                right[i] -= share * right[column]
    at = [0.0] * count
    for i in reversed(range(count)):
        at[i] = (right[i] - sum(rows[i][j] * at[j] for j in range(i + 1, count))) / rows[i][i]
    return tuple(at)
