"""Glazing bars on the glass drawing: the bars where no words stand, and their centre lines from the edges of their pane."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce

from elevations.drawing.chains import chain, next_line, snapped
from elevations.drawing.entities import Dimension, Stroke
from elevations.drawing.layers import FINE, Layer
from elevations.geometry.window import GlazingBar, Pane, Window
from elevations.plane import Box, OffsetError, Outline, clip
from elevations.schedules.glazing_bars import bar_places

FIRST, FIRST_FAR = 8.0, 5.0
"""From the frame to the first chain, mm on paper: more where its text stands between the two."""
CLEAR = 1.0
"""Kept free between a bar and the words on the glass, mm on paper."""


def bars_beside(pane: Pane, words: Sequence[Box], scale: float) -> Iterator[Stroke]:
    """The outline of each bar, broken where lines of the pane's words stand."""
    grown = [box.grown(CLEAR * scale) for box in words]
    for bar in pane.bars:
        taken = [box for box in grown if box.overlaps(bar.face.bounds)]
        for outline in _broken(bar, reduce(Box.joined, taken) if taken else None):
            yield Stroke(outline.corners, Layer.GLAZING_BAR, closed=True, weight=FINE)


def _broken(bar: GlazingBar, taken: Box | None) -> Iterator[Outline]:
    """What of the bar lies before and after the words along it; all of it where it does not run straight past them."""
    if taken is None:
        yield bar.face
        return
    box, axis = bar.face.bounds, 1 if bar.upright else 0
    for at, high in ((taken[axis], False), (taken[axis + 2], True)):
        if box[axis] < at < box[axis + 2]:
            try:
                yield clip(bar.face, axis, at, high=high)[0]
            except OffsetError:   # one that bends crosses the line twice
                yield bar.face
                return


def bar_chains(window: Window, scale: float) -> tuple[Dimension, ...]:
    """Round the frame: from edge to edge of a pane's cut size by way of its bars' centre lines.

    On the side that the pane is nearer to, below and left first. Panes whose bars stand at the same places share a chain;
    others that would overlap it go on a line further out.
    """
    made: list[Dimension] = []
    frame = window.frame.outline.bounds
    for upright, far in ((False, False), (False, True), (True, False), (True, True)):
        edges = (frame.right if far else frame.left) if upright else (frame.top if far else frame.bottom)
        line_at = edges + (FIRST_FAR if far != upright else FIRST) * scale * (1 if far else -1)
        left = _runs(window, upright=upright, far=far)
        while left:
            row, left = _side_by_side(left)
            dims = [dim for places, foot in row for dim in chain(places, line_at=line_at, upright=upright, scale=scale, thing_at=foot)]
            made += dims
            line_at = next_line(dims, scale)
    return tuple(made)


Run = tuple[tuple[float, ...], float]
"""Places along a chain, and where its extension lines start."""


def _runs(window: Window, *, upright: bool, far: bool) -> list[Run]:
    """One for each set of places, the first pane's; `far`: of those that stand above or on the right."""
    runs: dict[tuple[float, ...], tuple[bool, float]] = {}
    middle = window.frame.outline.bounds.centre
    for pane in window.panes:
        box = pane.cut.outline.bounds
        places = bar_places(pane, upright=not upright)
        if places:
            ends = (box.bottom, *(box.top - place for place in places), box.top) if upright else (box.left, *(box.left + place for place in places), box.right)
            beyond = box.left >= middle.x if upright else box.bottom >= middle.y
            foot = (box.right if beyond else box.left) if upright else (box.top if beyond else box.bottom)
            runs.setdefault(tuple(snapped(end) for end in sorted(ends)), (beyond, foot))
    return sorted((places, foot) for places, (beyond, foot) in runs.items() if beyond == far)


def _side_by_side(runs: Sequence[Run]) -> tuple[list[Run], list[Run]]:
    """As many runs as lie one after the other, and what is left."""
    row: list[Run] = []
    left: list[Run] = []
    for run in runs:
        (left if row and run[0][0] < row[-1][0][-1] else row).append(run)
    return row, left
