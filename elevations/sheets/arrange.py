"""The views of a factory sheet at the largest standard scales that fit, none over another."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from elevations.drawing.entities import Placed, View
from elevations.plane import Box, Point

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
"""ISO 5455's reductions that a window needs (from memory)."""
GAP = 6.0
"""Between two views, mm on paper."""

Draw = Callable[[float], View]


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Views in their places."""

    placed: tuple[Placed, ...]
    scale: float
    """Of the elevation."""


def on_paper(view: View, scale: float) -> Box:
    """A view's bounds in paper mm about its origin."""
    box = view.bounds
    return Box(box.left / scale, box.bottom / scale, box.right / scale, box.top / scale)


def alone(draw: Draw, size: tuple[float, float], area: Box) -> Arrangement:
    """One view in the middle of the area."""
    for scale in SCALES:
        if size[0] / scale > area.width or size[1] / scale > area.height:
            continue
        view = draw(scale)
        box = on_paper(view, scale)
        if box.width <= area.width and box.height <= area.height:
            break
    middle = area.centre
    at = Point(middle.x - box.centre.x, middle.y - box.centre.y)
    return Arrangement((Placed(view, scale, at),), scale)
