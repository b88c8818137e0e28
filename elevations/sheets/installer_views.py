"""The installer's drawings in their places: marking out and, where the job describes the wall, sections with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Placed, View
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.sheets.arrange import on_paper
from elevations.views.cuts import choose_cuts
from elevations.views.marking_out import marking_out
from elevations.views.wall_section import material_key, wall_section

GAP = 5.0
SCALES = ((5.0, 5.0), (10.0, 5.0), (10.0, 10.0), (20.0, 5.0), (20.0, 10.0), (20.0, 20.0), (50.0, 10.0), (50.0, 20.0), (50.0, 50.0))
"""Of the elevation and of the sections, in the order of preference; the last is placed, fit or not."""
ONE_SCALE = tuple((s, s) for s in (5.0, 10.0, 20.0, 50.0, 100.0))
READABLE = 10.0
"""A marking-out smaller than 1:10 gives way: its sections go on a page of their own where it is then larger."""
KEY_WIDE = 78.0


@dataclass(frozen=True, slots=True)
class Arranged:
    """The views in their places, and their scales."""

    placed: tuple[Placed, ...]
    scale: float
    section_scale: float
    fits: bool


def walled(window: Window) -> bool:
    """Whether the job describes the wall, so that there are sections of it."""
    return window.site is not None and window.site.wall is not None


def together(window: Window, area: Box, style: str, *, apex_at_hinge: bool) -> Arranged:
    """The marking-out with the sections beside or under it; style 'model': all at one scale."""
    return _first(SCALES if style == "paper" else ONE_SCALE, lambda scale, own: _views(window, scale, own, apex_at_hinge=apex_at_hinge), area)


def alone(window: Window, area: Box, *, apex_at_hinge: bool) -> Arranged:
    """The marking-out as large as the area takes it, in its middle; the sections' lines are marked on it all the same."""
    cuts = choose_cuts(window) if walled(window) else None
    return _first(ONE_SCALE, lambda scale, _: [(marking_out(window, scale, apex_at_hinge=apex_at_hinge, cuts=cuts), scale)], area)


def larger_alone(window: Window, area: Box, *, apex_at_hinge: bool) -> bool:
    """Whether the sections have to go on a page of their own for the marking-out to be readable."""
    if not walled(window):
        return False
    both = together(window, area, "paper", apex_at_hinge=apex_at_hinge)
    return both.scale > READABLE and alone(window, area, apex_at_hinge=apex_at_hinge).scale < both.scale


def placed_sections(window: Window, area: Box, scales: Sequence[float], foot: float = 0.0) -> tuple[Placed, ...]:
    """A-A on the left, B-B with the key under it on the right and clear of the lowest `foot` mm, at the first scale at which all fit."""
    placed: tuple[Placed, ...] = ()
    for scale in scales:
        upright, level, key = _sections(window, scale)
        tall, low, swatches = (on_paper(view, scale) for view in (upright, level, key))
        at = Point(area.left - tall.left, area.top - tall.top)
        left = at.x + tall.right + GAP
        low_at = Point(left - low.left, area.top - low.top)
        key_at = Point(left, low_at.y + low.bottom - GAP)
        placed = (Placed(upright, scale, at), Placed(level, scale, low_at), Placed(key, scale, key_at))
        clear = at.y + tall.bottom >= area.bottom and key_at.y + swatches.bottom >= area.bottom + foot
        if clear and left + max(low.width, swatches.width) <= area.right:
            break
    return placed


def _first(scales: Sequence[tuple[float, float]], drawn: Callable[[float, float], list[tuple[View, float]]], area: Box) -> Arranged:
    found = None
    for scale, section_scale in scales:
        views = drawn(scale, section_scale)
        for columns in (([0, 2], [1, 3]), ([0, 3], [1, 2]), ()) if len(views) > 1 else (([0], []),):
            found = _placed(views, area, (scale, section_scale), columns) if columns else _under(views, area, (scale, section_scale))
            if found.fits:
                return found
    assert found is not None
    return found


def _sections(window: Window, scale: float) -> tuple[View, View, View]:
    """A-A, B-B and the key to their materials."""
    upright, level = (wall_section(window, axis, scale) for axis in (0, 1))
    materials = tuple(dict.fromkeys((*upright.materials, *level.materials)))
    return upright.view, level.view, material_key(materials, 2, KEY_WIDE, scale)


def _views(window: Window, scale: float, section_scale: float, *, apex_at_hinge: bool) -> list[tuple[View, float]]:
    """The elevation; with a described wall also A-A, B-B and the key to their materials."""
    if not walled(window):
        return [(marking_out(window, scale, apex_at_hinge=apex_at_hinge), scale)]
    front = marking_out(window, scale, apex_at_hinge=apex_at_hinge, cuts=choose_cuts(window)), scale
    return [front, *((view, section_scale) for view in _sections(window, section_scale))]


def _placed(views: Sequence[tuple[View, float]], area: Box, scales: tuple[float, float], columns: Sequence[Sequence[int]]) -> Arranged:
    """Two columns of views, by their numbers, each from the top; one view alone in the middle."""
    boxes = [on_paper(view, s) for view, s in views]
    places: dict[int, Point] = {}
    left, lowest = area.left, area.top
    for number, column in enumerate(columns):
        wide = max((boxes[i].width for i in column), default=0.0)
        if number == 1 or len(views) == 1:
            left += max(0.0, area.right - left - wide) / 2   # in the middle of what there is
        top = area.top if len(views) > 1 else area.top - max(0.0, area.height - boxes[0].height) / 2
        for i in column:
            places[i] = Point(left - boxes[i].left, top - boxes[i].top)
            top -= boxes[i].height + GAP
        lowest = min(lowest, top + GAP)
        left += wide + GAP
    fits = left - GAP <= area.right + 1e-6 and lowest >= area.bottom
    return Arranged(tuple(Placed(view, s, places[i]) for i, (view, s) in enumerate(views)), *scales, fits)


def _under(views: Sequence[tuple[View, float]], area: Box, scales: tuple[float, float]) -> Arranged:
    """The elevation on top; under it A-A, and beside that B-B over the key: for what is wide."""
    front, upright, level, key = (on_paper(view, s) for view, s in views)
    top = area.top - front.height - GAP
    beside = area.left + upright.width + GAP
    corners = [(area.left, area.top), (area.left, top), (beside, top), (beside, top - level.height - GAP)]
    places = [Point(x - box.left, y - box.top) for (x, y), box in zip(corners, (front, upright, level, key), strict=True)]
    lowest = top - max(upright.height, level.height + GAP + key.height)
    right = max(area.left + front.width, beside + max(level.width, key.width))
    placed = tuple(Placed(view, s, at) for (view, s), at in zip(views, places, strict=True))
    return Arranged(placed, *scales, right <= area.right and lowest >= area.bottom)
