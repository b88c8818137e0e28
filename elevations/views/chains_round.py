"""The dimension chains round an elevation: bars, overall sizes and fixings, each row outside the one before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from elevations.drawing.chains import chain, next_line, overall
from elevations.drawing.entities import Dimension
from elevations.errors import Path
from elevations.geometry.window import Window

FIRST = {"above": 10.8, "left": 10.8, "below": 14.5, "right": 14.5}
"""From the frame to the first chain, mm on paper: room for the ends of the cutting lines, and for the chain's own text
where that stands on the frame's side of its line."""


@dataclass(frozen=True, slots=True)
class Chains:
    """Dimensions by what they measure, and what needs no chain of its own, in words."""

    bars: tuple[Dimension, ...]
    overall: tuple[Dimension, ...]
    fixings: tuple[Dimension, ...]
    same: tuple[str, ...]
    """'sill as head', 'left jamb as right jamb': sides whose fixings repeat another's."""


def chains_round(window: Window, scale: float) -> Chains:
    """Below: mullions, overall width. Left: transoms, overall height. Above and right: fixings of head and jamb.

    Bars of the whole width or height come first, deeper divisions where they differ in rows outside them. Fixings of
    the sill and the left jamb get a chain, nearest the frame, only where they differ from the opposite side's.
    """
    box = window.frame.outline.bounds
    sides = {side: _fixings(window, side) for side in ("left jamb", "head", "right jamb", "sill")}
    same, fixings, rows = [], [], {"below": _Row("below", box.bottom, scale), "left": _Row("left", box.left, scale)}
    for side, other, place, upright in (("sill", "head", "below", False), ("left jamb", "right jamb", "left", True)):
        if sides[side] and sides[side] == sides[other]:
            same.append(f"{side} as {other}")
        elif sides[side]:
            fixings += rows[place].add([sides[side]], upright=upright)
    for side, edge, upright in (("head", box.top, False), ("right jamb", box.right, True)):
        if sides[side]:
            fixings += _Row("right" if upright else "above", edge, scale).add([sides[side]], upright=upright)
    bars: list[Dimension] = []
    for place, upright in (("below", False), ("left", True)):
        for row in division_rows(window, mullions=not upright):
            bars += rows[place].add(row, upright=upright)
    sizes = rows["below"].add([(box.left, box.right)], upright=False, whole=True)
    sizes += rows["left"].add([(box.bottom, box.top)], upright=True, whole=True)
    return Chains(tuple(bars), tuple(sizes), tuple(fixings), tuple(same))


class _Row:
    """Where the next chain on one side of the frame runs."""

    def __init__(self, place: str, edge: float, scale: float) -> None:
        self.edge, self.scale = edge, scale
        self.first = edge + FIRST[place] * scale * (1.0 if place in ("above", "right") else -1.0)
        self.last: list[Dimension] = []

    def add(self, runs: Sequence[Sequence[float]], *, upright: bool, whole: bool = False) -> list[Dimension]:
        """Chains that don't overlap, all on the next line."""
        line_at = next_line(self.last, self.scale) if self.last else self.first
        make = overall if whole else chain
        made = [
            dim for run in runs
            for dim in make(run, line_at=line_at, upright=upright, scale=self.scale, thing_at=self.edge)
        ]
        self.last = made or self.last
        return made


def _fixings(window: Window, side: str) -> tuple[float, ...]:
    """Ends of a side and its fixings, in order along x or y; nothing where the side has none."""
    axis = 1 if side.endswith("jamb") else 0
    places = [round(point.at[axis], 3) for point in window.fixings if point.side == side]
    box = window.frame.outline.bounds
    return tuple(sorted({box[axis], box[axis + 2], *places})) if places else ()


def division_rows(window: Window, *, mullions: bool) -> list[list[tuple[float, ...]]]:
    """Chains of bar centre lines by row, the widest division first; chains of one row don't overlap.

    Each chain is a division's bounds and its bars, x of mullions or y of transoms. A chain whose every position an
    earlier one already gives is left out.
    """
    key, axis = ("mullions", 0) if mullions else ("transoms", 1)
    found: dict[Path, list[float]] = {}
    for bar in window.bars:
        if bar.upright == mullions:
            owner = bar.path[: bar.path.index(key, _depth(bar.path, key))]
            found.setdefault(owner, []).append(bar.outer[0][axis])
    chains = []
    for owner, centres in found.items():
        boxes = [light.region.outline.bounds for light in window.lights if light.path[: len(owner)] == owner]
        ends = min(box[axis] for box in boxes), max(box[axis + 2] for box in boxes)
        chains.append(tuple(sorted({round(place, 3) for place in (*ends, *centres)})))
    chains.sort(key=lambda places: places[0] - places[-1])
    rows: list[list[tuple[float, ...]]] = []
    given: set[tuple[float, float]] = set()
    for places in chains:
        spans = set(pairwise(places))
        if spans <= given:
            continue
        given |= spans
        for row in rows:
            if all(places[0] >= other[-1] or places[-1] <= other[0] for other in row):
                row.append(places)
                break
        else:
            rows.append([places])
    return rows


def _depth(path: Path, key: str) -> int:
    """Where the last `key` stands in a path."""
    return max(i for i, step in enumerate(path) if step == key)

