"""Chains of dimensions whose parts add up and whose texts never meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from elevations.drawing.entities import Dimension
from elevations.drawing.explode import TEXT_GAP, TEXT_HEIGHT, dimension_box, dimension_text, measured
from elevations.drawing.lettering import ASCENT, text_width
from elevations.plane import Point

PITCH = 8.0
"""From one chain's line to the next on paper, mm, where no text is shifted."""
BESIDE = 0.5
"""Kept free on each side of a text, mm on paper."""
SNAP_MM = 0.1
"""Positions are rounded to this before they are measured: rounded lengths alone would not add up."""


def chain(
    positions: Sequence[float], *, line_at: float, upright: bool, scale: float, thing_at: float | Sequence[float]
) -> tuple[Dimension, ...]:
    """A dimension from each position to the next, in order, along y where `upright`, else along x; mm in the view.

    `line_at` is where the dimension line runs and `thing_at` where its extension lines start, one for all or one for
    each position, both on the other axis. A text too wide for its span goes to the row outside the line and slides
    along it until it is clear of its neighbours. Fewer than two different positions make no dimension.
    """
    feet = [thing_at] * len(positions) if isinstance(thing_at, int | float) else list(thing_at)
    ends: dict[float, float] = {}
    for position, foot in sorted(zip(positions, feet, strict=True)):
        ends.setdefault(snapped(position), foot)
    places = [Point(foot, along) if upright else Point(along, foot) for along, foot in ends.items()]
    dims = [Dimension(a, b, line_at, upright) for a, b in pairwise(places)]
    return tuple(_spread(dims, scale))


def overall(
    positions: Sequence[float], *, line_at: float, upright: bool, scale: float, thing_at: float
) -> tuple[Dimension, ...]:
    """One dimension from the least of the positions to the greatest, as `chain` would make it."""
    return chain((min(positions), max(positions)), line_at=line_at, upright=upright, scale=scale, thing_at=thing_at)


def snapped(position: float) -> float:
    """A position on the 0.1 mm grid that dimensions are given in."""
    return round(position / SNAP_MM) / 10


def outside(dims: Sequence[Dimension], scale: float) -> float:
    """How far out a chain reaches with its texts: its line where none is shifted; on the axis of `line_at`, mm."""
    first = dims[0]
    across = 0 if first.upright else 1
    boxes = [dimension_box(dim, scale) for dim in dims if dim.shift]
    if _outward(first) > 0:
        return max([first.line_at, *(box[across + 2] for box in boxes)])
    return min([first.line_at, *(box[across] for box in boxes)])


def next_line(dims: Sequence[Dimension], scale: float) -> float:
    """Where the line of the next chain outside this one can run: clear of this one's texts, at least PITCH away."""
    first, out = dims[0], _outward(dims[0])
    # A text stands above its line or to the left of it: towards this chain where the next one is below or to the right.
    inwards = out > 0 if first.upright else out < 0
    own_text = TEXT_GAP + ASCENT * TEXT_HEIGHT if inwards else 0.0
    taken = abs(outside(dims, scale) - first.line_at) + (own_text + BESIDE) * scale
    return first.line_at + out * max(PITCH * scale, taken)


def _outward(dim: Dimension) -> float:
    """1 where the dimension line lies on the side of larger coordinates, otherwise -1."""
    return 1.0 if dim.line_at >= (dim.start.x if dim.upright else dim.start.y) else -1.0


def _spread(dims: list[Dimension], scale: float) -> list[Dimension]:
    """The dimensions with texts that fit their spans left alone and the others in a row outside, clear of each other."""
    widths = [text_width(dimension_text(measured(d)), TEXT_HEIGHT) for d in dims]
    narrow = [i for i, d in enumerate(dims) if widths[i] + 2 * BESIDE > measured(d) / scale]
    if not narrow:
        return dims
    middles = [_middle(dims[i]) / scale for i in narrow]
    slots = [widths[i] + 2 * BESIDE for i in narrow]
    ends = _along(dims[0], dims[0].start) / scale, _along(dims[-1], dims[-1].end) / scale
    result = list(dims)
    for i, middle, place in zip(narrow, middles, _placed_apart(middles, slots, ends), strict=True):
        result[i] = replace(dims[i], shift=1, slide=place - middle)
    return result


def _along(dim: Dimension, end: Point) -> float:
    return end.y if dim.upright else end.x


def _middle(dim: Dimension) -> float:
    return (_along(dim, dim.start) + _along(dim, dim.end)) / 2


def _placed_apart(middles: list[float], widths: list[float], ends: tuple[float, float]) -> list[float]:
    """Middles moved as little as it takes (least squares) for neighbours of these widths not to overlap, order kept.

    Neighbours that would overlap join into one block, which rests at the mean of where its members would rest. Where
    there is room the row stays between the chain's ends, for there the lines of the next chain out pass.
    """
    blocks: list[tuple[float, int]] = []   # mean of the members' wished starts, less the widths before them; count
    before = 0.0
    offsets = []
    for middle, width in zip(middles, widths, strict=True):
        offsets.append(before + width / 2)
        mean, count = middle - offsets[-1], 1
        while blocks and blocks[-1][0] >= mean:
            other_mean, other_count = blocks.pop()
            mean = (mean * count + other_mean * other_count) / (count + other_count)
            count += other_count
        blocks.append((mean, count))
        before += width
    # LibreCAD draws dimensions anew and moves a text wider than its span along by half its width: leave room for it.
    low, high = ends[0], ends[1] - before - widths[-1] / 2
    starts = [min(max(mean, low), high) if low <= high else mean for mean, count in blocks for _ in range(count)]
    return [start + offset for start, offset in zip(starts, offsets, strict=True)]
