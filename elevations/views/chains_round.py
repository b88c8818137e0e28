"""The dimension chains round an elevation: bars, overall sizes and fixings, each row outside the one before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from elevations.drawing.chains import chain, next_line
from elevations.drawing.entities import Dimension
from elevations.drawing.explode import dimension_box
from elevations.errors import Path
from elevations.geometry.along import chord
from elevations.geometry.window import Window
from elevations.plane import Box, Outline
from elevations.views.cuts import Cuts

FIRST = {"above": 10.8, "left": 10.8, "below": 14.5, "right": 14.5}
"""From the frame to the first chain, mm on paper: room for the ends of the cutting lines, and for the chain's own text
where that stands on the frame's side of its line."""


MARK_OFF, LETTER_OFF = 5.8, 3.2
"""From the frame to the middle of a cutting line's end, and from that line to the middle of its letter, mm on paper."""
LETTER_HALF, LETTER_REACH = 2.4, 8.0
"""Half of what a letter takes along the frame, and how far from the frame it reaches, mm on paper."""
INSIDE_MM = 0.001
"""A shape's outermost point, where it may be no more than a point, is looked for this far inside its bounds."""
CLEAR_OF_TEXT = 0.4
"""An extension line stays this far from the sides of a text, mm on paper."""


@dataclass(frozen=True, slots=True)
class Chains:
    """Dimensions by what they measure, and what needs no chain of its own, in words."""

    bars: tuple[Dimension, ...]
    overall: tuple[Dimension, ...]
    fixings: tuple[Dimension, ...]
    same: tuple[str, ...]
    """'sill as head', 'left jamb as right jamb': sides whose fixings repeat another's, or that have no chain."""


def chains_round(window: Window, scale: float, cuts: Cuts | None = None) -> Chains:
    """Below: mullions, overall width. Left: transoms, overall height. Above and right: fixings of head and jamb.

    Bars of the whole width or height come first, deeper divisions where they differ in rows outside them. Fixings of
    the sill and the left jamb get a chain, nearest the frame, only where they differ from the opposite side's.
    Extension lines keep clear of the letters of `cuts`. Fixings along a slope or an arc get no chain, which could not measure
    along it: `same` says so. Springing, eaves and apex stand with the bars.
    """
    box = window.frame.outline.bounds
    sides = {side: _fixings(window, side) for side in ("left jamb", "head", "right jamb", "sill")}
    size = box.width, box.height
    levels = {side: window.shape.levels(side, *size) for side in ("left", "right")}
    edges = {"above": box.top, "left": box.left, "below": box.bottom, "right": box.right}
    rows = {place: _Row(place, edge, scale, cuts, window.frame.outline) for place, edge in edges.items()}
    same, fixings = [], []
    for side, other, place, upright in (("sill", "head", "below", False), ("left jamb", "right jamb", "left", True)):
        if sides[side] and sides[side] == sides[other]:
            same.append(f"{side} as {other}")
        elif sides[side]:
            fixings += rows[place].add([sides[side]], upright=upright)
    for side, place, upright in (("head", "above", False), ("right jamb", "right", True)):
        if sides[side]:
            fixings += rows[place].add([sides[side]], upright=upright)
    bars: list[Dimension] = []
    for place, upright, extra in (("below", False, window.shape.places(*size)), ("left", True, levels["left"])):
        ends = (box.left, box.right) if place == "below" else (box.bottom, box.top)
        own = [(ends[0], *extra, ends[1])] if extra else []
        for row in division_rows(window, own, mullions=not upright):
            bars += rows[place].add(row, upright=upright)
    if levels["right"]:
        bars += rows["right"].add([(box.bottom, *levels["right"])], upright=True)
    sizes = rows["below"].add([(box.left, box.right)], upright=False)
    sizes += rows["left"].add([(box.bottom, box.top)], upright=True)
    bent = dict.fromkeys(p.side for p in window.fixings if not sides.get(p.side))
    if bent:
        same.append(f"{' and '.join(bent)} as listed, along the outer edge")
    return Chains(tuple(bars), tuple(sizes), tuple(fixings), tuple(same))


class _Row:
    """Where the next chain on one side of the frame runs."""

    def __init__(self, place: str, edge: float, scale: float, cuts: Cuts | None, outline: Outline) -> None:
        self.edge, self.scale, self.outline, self.place = edge, scale, outline, place
        self.out = 1.0 if place in ("above", "right") else -1.0
        self.first = edge + FIRST[place] * scale * self.out
        self.texts: list[tuple[float, float, float]] = []
        if cuts:
            letter = (cuts.upright_x if place in ("above", "below") else cuts.level_y) + LETTER_OFF * scale
            half, far = LETTER_HALF * scale, edge + LETTER_REACH * scale * self.out
            self.texts.append((letter - half, letter + half, far))
        self.last: list[Dimension] = []

    def add(self, runs: Sequence[Sequence[float]], *, upright: bool) -> list[Dimension]:
        """Chains that don't overlap, on the next line; one whose texts need the room of another goes on a line of its own."""
        line_at = next_line(self.last, self.scale) if self.last else self.first
        made: list[Dimension] = []
        boxes: list[Box] = []
        later = []
        for run in runs:
            feet = [self._foot(place) for place in run]
            dims = chain(run, line_at=line_at, upright=upright, scale=self.scale, thing_at=feet)
            own = [dimension_box(dim, self.scale) for dim in dims]
            if any(box.overlaps(other) for box in own for other in boxes):
                later.append(run)
            else:
                made += dims
                boxes += own
        across = 1 if upright else 0
        self.texts += [(box[across], box[across + 2], box[1 - across] if self.out < 0 else box[3 - across]) for box in boxes]
        self.last = made or self.last
        return made + (self.add(later, upright=upright) if later else [])

    def _foot(self, place: float) -> float:
        """Where the extension line at a place starts: at the frame, or outside the texts that it would run through."""
        near = CLEAR_OF_TEXT * self.scale
        feet = [far for low, high, far in self.texts if low - near < place < high + near]
        return self._thing(place) if not feet else max(feet) if self.out > 0 else min(feet)

    def _thing(self, place: float) -> float:
        """Where the frame is at a place: its bounds, or within them where its shape falls back."""
        if self.outline.is_box:
            return self.edge
        axis = 1 if self.place in ("left", "right") else 0
        box = self.outline.bounds
        found = chord(self.outline, axis, min(max(place, box[axis] + INSIDE_MM), box[axis + 2] - INSIDE_MM))
        return self.edge if found is None else found[1 if self.out > 0 else 0].at


def _fixings(window: Window, side: str) -> tuple[float, ...]:
    """Ends of a straight side and its fixings, in order along x or y; nothing where it has none, or slopes, or is bent."""
    axis = 1 if side.endswith("jamb") else 0
    places = [round(point.at[axis], 3) for point in window.fixings if point.side == side]
    for (a, b), edge in zip(window.frame.outline.edges(), window.frame.sides, strict=True):
        if places and edge.tag == side and edge.at is not None:
            return tuple(sorted({a[axis], b[axis], *places}))
    return ()


def division_rows(
    window: Window, own: Sequence[tuple[float, ...]] = (), *, mullions: bool
) -> list[list[tuple[float, ...]]]:
    """Chains of bar centre lines by row, the widest division first; chains of one row don't overlap.

    Each chain is a division's bounds and its bars, x of mullions or y of transoms; `own` are further ones, of the frame's
    shape. A chain whose every position an earlier one already gives is left out.
    """
    key, axis = ("mullions", 0) if mullions else ("transoms", 1)
    found: dict[Path, list[float]] = {}
    for bar in window.bars:
        if bar.upright == mullions:
            owner = bar.path[: bar.path.index(key, _depth(bar.path, key))]
            found.setdefault(owner, []).append(bar.outer[0][axis])
    chains = list(own)
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

