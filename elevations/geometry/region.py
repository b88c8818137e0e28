"""A piece of the elevation and what bounds it, edge by edge, each edge with the working of where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from elevations.plane import SAME_MM, Outline
from elevations.working import Source, Term, Working


class Side(NamedTuple):
    """What bounds one edge of a region."""

    profile: str
    """Which figures of the system apply: frame, mullion, transom or sash."""
    tag: str
    """Which member it is: 'head', 'left jamb', 'right jamb', 'sill', 'M1', 'T2', 'S1'."""
    at: Working | None
    """Distance of the edge from the left of the frame (upright edges) or from its top (level ones); None on others."""


@dataclass(frozen=True)
class Region:
    """A piece of the elevation and what bounds it, edge by edge."""

    outline: Outline
    sides: tuple[Side, ...]
    """One for each edge of the outline, in its order."""

    @cached_property
    def width(self) -> Working:
        """Right edge less left edge; the bounding width where the edges are not upright."""
        return _extent(self, 0)

    @cached_property
    def height(self) -> Working:
        """Bottom edge less top edge, both measured from the top of the frame; else the bounding height."""
        return _extent(self, 1)


def _extent(region: Region, axis: int) -> Working:
    """Across the region: x for axis 0, y for axis 1. Level and upright outermost edges keep their workings."""
    edges = region.outline.box_edges
    if edges is not None:
        far, near = (region.sides[edges[2]].at, region.sides[edges[0]].at) if axis == 0 else (region.sides[edges[1]].at, region.sides[edges[3]].at)
        if far is not None and near is not None:
            return far.minus(near)
    corners, bounds = region.outline.corners, region.outline.bounds
    high, low = (bounds.right, bounds.left) if axis == 0 else (bounds.bottom, bounds.top)
    first = last = None
    for i, side in enumerate(region.sides):
        a, b = corners[i], corners[i + 1 - len(corners)]
        if side.at is None or a.bulge or abs(a[axis] - b[axis]) >= SAME_MM:
            continue
        if first is None and abs(a[axis] - high) < SAME_MM:
            first = side.at
        elif last is None and abs(a[axis] - low) < SAME_MM:
            last = side.at
    if first is not None and last is not None:
        return first.minus(last)
    across = bounds.width if axis == 0 else bounds.height
    return Working((Term(across, "between the outermost points of the outline", Source("rule", "exact offset of the outline")),))
