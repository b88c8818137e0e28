"""What is gathered while a window is divided, and what bounds the part that is being divided."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import NamedTuple

from elevations.catalogue.system import System
from elevations.errors import Problem
from elevations.geometry.members import EXACT
from elevations.geometry.region import Region, Side
from elevations.geometry.window import Bar, Light
from elevations.plane import SAME_MM, Corner, Outline
from elevations.spec.model import Glass
from elevations.spec.model import Window as WindowSpec
from elevations.working import Term, Working


@dataclass(slots=True)
class Build:
    """What is gathered while a window is divided; becomes the frozen window."""

    spec: WindowSpec
    system: System
    glass: dict[str, Glass]
    heads: frozenset[str]
    """Tags of the frame members that count as its head."""
    lights: list[Light] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    counts: dict[str, int] = field(default_factory=dict)

    def tag(self, letter: str) -> str:
        """The next tag of a kind: M1, then M2; T1, S1, G1."""
        self.counts[letter] = self.counts.get(letter, 0) + 1
        return f"{letter}{self.counts[letter]}"


class Bound(NamedTuple):
    """What bounds a region on one side."""

    side: Side
    at: Working
    """From the frame's left or top; of a slope or an arc its outermost point."""
    straight: bool
    """True where it is one upright (or level) edge."""


def bounds(build: Build, region: Region, axis: int) -> tuple[Bound, Bound]:
    """The outermost sides across an axis: left and right, or top and bottom."""
    edges = region.outline.box_edges
    if edges is not None:
        first, last = (region.sides[edges[0]], region.sides[edges[2]]) if axis == 0 else (region.sides[edges[3]], region.sides[edges[1]])
        if first.at is not None and last.at is not None:
            return Bound(first, first.at, straight=True), Bound(last, last.at, straight=True)
    box = region.outline.bounds
    corners = region.outline.corners
    found = []
    for limit in (box.left, box.right) if axis == 0 else (box.top, box.bottom):
        for i, side in enumerate(region.sides):
            a, b = corners[i], corners[i + 1 - len(corners)]
            if abs(a[axis] - limit) < SAME_MM and abs(b[axis] - limit) < SAME_MM and side.at is not None and not a.bulge:
                found.append(Bound(side, side.at, straight=True))
                break
        else:
            found.append(_outermost(build, region, axis, limit))
    return found[0], found[1]


def _outermost(build: Build, region: Region, axis: int, limit: float) -> Bound:
    """The slope or arc that reaches a region's limit."""
    side = region.sides[0]
    nearest = math.inf
    for (a, b), candidate in zip(region.outline.edges(), region.sides, strict=True):
        if candidate.at is not None:
            continue
        box = Outline((a, Corner(b.x, b.y))).bounds   # of the edge and its chord
        gap = min(abs(box[axis] - limit), abs(box[axis + 2] - limit))
        if gap < nearest:
            side, nearest = candidate, gap
    distance = limit if axis == 0 else build.spec.frame.height - limit
    return Bound(side, Working((Term(distance, f"outermost point of the {side.tag}", EXACT),)), straight=False)
