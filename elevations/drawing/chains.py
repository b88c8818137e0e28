"""Chains of dimensions whose parts add up and whose texts never meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from elevations.drawing.entities import Dimension
from elevations.drawing.explode import TEXT_HEIGHT, dimension_box, dimension_text, measured
from elevations.drawing.lettering import text_width
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


def next_line(dims: Sequence[Dimension], scale: float) -> float:
    """Where the line of the next chain outside this one can run: clear of this one's texts, at least PITCH away."""
    first = dims[0]
    across = 0 if first.upright else 1
    out = 1.0 if first.line_at >= first.start[across] else -1.0
    reach = PITCH * scale
    # The next chain's own text stands above its line: towards this chain where that lies above or to the left.
    own = dimension_box(replace(first, shift=0, slide=0.0), scale)
    text_up = (own.bottom if across else own.right) - first.line_at
    inwards = text_up * out < 0
    own_depth = max(abs(own[across] - first.line_at), abs(own[across + 2] - first.line_at)) if inwards else 0.0
    for dim in dims:
        if dim.shift:
            box = dimension_box(dim, scale)
            far = box[across + 2] if out > 0 else box[across]
            reach = max(reach, (far - dim.line_at) * out + own_depth + BESIDE * scale)
    return first.line_at + out * reach


def _spread(dims: list[Dimension], scale: float) -> list[Dimension]:
    """The dimensions with texts that fit their spans left alone and the others in a row outside, clear of each other."""
    widths = [text_width(dimension_text(measured(d)), TEXT_HEIGHT) for d in dims]
    narrow = [i for i, d in enumerate(dims) if widths[i] + 2 * BESIDE > measured(d) / scale]
    middles = [_middle(dims[i]) / scale for i in narrow]
    slots = [widths[i] + 2 * BESIDE for i in narrow]
    result = list(dims)
    for i, middle, place in zip(narrow, middles, _placed_apart(middles, slots), strict=True):
        result[i] = replace(dims[i], shift=1, slide=place - middle)
    return result


def _middle(dim: Dimension) -> float:
    return (dim.start.y + dim.end.y) / 2 if dim.upright else (dim.start.x + dim.end.x) / 2


def _placed_apart(middles: list[float], widths: list[float]) -> list[float]:
    """Middles moved as little as it takes (least squares) for neighbours of these widths not to overlap, order kept.

    Neighbours that would overlap join into one block, which rests at the mean of where its members would rest.
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
    starts = [mean for mean, count in blocks for _ in range(count)]
    return [start + shift for start, shift in zip(starts, offsets, strict=True)]

