"""Where the two sections are cut, so that they show an opening and a fixed light where the window has both."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from elevations.geometry.along import chord, is_kink
from elevations.geometry.window import Bar, Light, Window
from elevations.plane import Box, Outline

SHARES = (0.5, 0.4, 0.6, 0.25, 0.75)
"""Where in a light a cut may run, the middle first."""
OFF_FIXING_MM = 40.0
"""A cut keeps this far from fixings where it can, so that its mark does not lie on their dimension lines."""
SQUARE_DEGREES = 0.5
"""A member cut within this of the square to its length shows its own section."""
CLEAR_MM = 5.0
"""A cut keeps at least this far inside the visible glass of every light that it passes through."""


@dataclass(frozen=True, slots=True)
class Cuts:
    """The two cutting lines, mm from the window's origin."""

    upright_x: float
    """A-A, the vertical section."""
    level_y: float
    """B-B, the horizontal section."""


def choose_cuts(window: Window) -> Cuts:
    """Lines through lights' middles that cross both kinds of light where one line can, and the most lights."""
    return Cuts(_best(window, 0), _best(window, 1))


def lights_cut(window: Window, axis: int, at: float) -> list[Light]:
    """The lights that a line crosses, from the left or the bottom. axis 0 cuts at x = at, axis 1 at y = at."""
    found = []
    for light in window.lights:
        box = light.region.outline.bounds
        if not _low(box, axis) < at < _high(box, axis):
            continue
        crossed = None if light.region.outline.is_box else chord(light.region.outline, axis, at)
        if light.region.outline.is_box or crossed:
            found.append((crossed[0].at if crossed else _low(box, 1 - axis), light))
    return [light for _, light in sorted(found, key=lambda item: item[0])]


def opens(light: Light) -> bool:
    """True where it has a sash that is no dummy."""
    return any(not sash.dummy for sash in light.sashes)


def _best(window: Window, axis: int) -> float:
    """The best line across an axis; ties go to the middle of the earliest light."""
    found = []
    for light, pane in [(found_in, pane) for found_in in window.lights for pane in found_in.panes]:
        for order, share in enumerate(SHARES):
            box = pane.sight.outline.bounds
            at = _low(box, axis) + share * (_high(box, axis) - _low(box, axis))
            cut = lights_cut(window, axis, at)
            kinds = len({opens(crossed) for crossed in cut})
            free = all(abs(point.at[axis] - at) >= OFF_FIXING_MM for point in window.fixings)
            clear, beside = _clear(cut, axis, at), _beside_bars(cut, axis, at)
            found.append((clear, kinds, beside, _square(cut, axis, at), len(cut), free, -order, -light.number, at))
    return max(found)[-1]


def _clear(cut: Iterable[Light], axis: int, at: float) -> bool:
    """Whether the line runs through visible glass in every light it meets, along no bar or stile and through no corner."""
    return all(_through_glass(light, axis, at) for light in cut)


def _through_glass(light: Light, axis: int, at: float) -> bool:
    """The same of one light: of each of its sashes that the line meets, where it has several."""
    panes = list(light.panes)
    if len(panes) > 1:
        boxes = [sash.outer.outline.bounds for sash in light.sashes]
        panes = [pane for pane, box in zip(panes, boxes, strict=True) if _low(box, axis) < at < _high(box, axis)]
    for outline in (pane.sight.outline for pane in panes):
        if not _low(outline.bounds, axis) + CLEAR_MM <= at <= _high(outline.bounds, axis) - CLEAR_MM:
            return False
        if outline.is_box:
            continue
        at_corner = any(abs(corner[axis] - at) < CLEAR_MM and is_kink(outline, i) for i, corner in enumerate(outline.corners))
        if at_corner or not all(_long_enough(outline, axis, at + off) for off in (-CLEAR_MM, CLEAR_MM)):
            return False
    return bool(panes)


def _beside_bars(cut: Iterable[Light], axis: int, at: float) -> bool:
    """Whether the line keeps off glazing bars that run along it."""
    for bar in (bar for crossed in cut for pane in crossed.panes for bar in pane.bars if bar.upright == (axis == 0)):
        if _low(bar.face.bounds, axis) - CLEAR_MM < at < _high(bar.face.bounds, axis) + CLEAR_MM:
            return False
    return True


def _long_enough(outline: Outline, axis: int, at: float) -> bool:
    found = chord(outline, axis, at)
    return found is not None and found[1].at - found[0].at >= CLEAR_MM


def _square(cut: Iterable[Light], axis: int, at: float) -> bool:
    """Whether every member of a shaped head is cut square to its length, as at an arch's crown, and none at a corner."""
    for outline in (light.region.outline for light in cut if not light.region.outline.is_box):
        found = chord(outline, axis, at)
        if found is None or any(crossing.out_of_square > SQUARE_DEGREES for crossing in found):
            return False
    return True


def bars_between(window: Window, lights: list[Light], axis: int) -> list[Bar]:
    """The bar between each light and the next along a cut (see `lights_cut`)."""
    by_tag = {bar.tag: bar for bar in window.bars}
    between = []
    for first, second in pairwise(lights):
        shared = {side.tag for side in first.region.sides} & {side.tag for side in second.region.sides}
        between.append(next(by_tag[tag] for tag in sorted(shared) if tag in by_tag and by_tag[tag].upright == (axis == 1)))
    return between


def _low(box: Box, axis: int) -> float:
    return box[axis]


def _high(box: Box, axis: int) -> float:
    return box[axis + 2]
