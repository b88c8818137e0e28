"""Small signs at paper size, mm about their origin; an insert's angle turns them counter-clockwise.

They take the colour of the layer they are put on; the layers and tones below only fill the fields.
"""

from __future__ import annotations

from elevations.drawing.entities import Fill, Stroke
from elevations.drawing.explode import dot_at
from elevations.drawing.layers import CUT, Layer
from elevations.plane import Corner, Outline, Point


def _line(*points: tuple[float, float], layer: Layer, weight: float | None = None) -> Stroke:
    return Stroke(tuple(Corner(x, y) for x, y in points), layer, line="solid", weight=weight)


FIXING = (
    Stroke(dot_at(Point(0, 0), 0.8).corners, Layer.FIXING, closed=True, weight=0.18),
    _line((-1.2, 0), (1.2, 0), layer=Layer.FIXING, weight=0.18),
    _line((0, -1.2), (0, 1.2), layer=Layer.FIXING, weight=0.18),
)
"""A screw seen along its axis: its head and the cross of its centre lines, 2.4 mm."""

BRACKET = (
    Stroke((Corner(-1.3, -0.9), Corner(1.3, -0.9), Corner(1.3, 0.9), Corner(-1.3, 0.9)), Layer.FIXING, closed=True, line="solid", weight=0.18),
    _line((-1.3, -0.9), (1.3, 0.9), layer=Layer.FIXING, weight=0.18),
    _line((-1.3, 0.9), (1.3, -0.9), layer=Layer.FIXING, weight=0.18),
)
"""A bracket on the frame, seen from its face: 2.6 by 1.8 mm, long along x."""

CUT_ARROW = (
    _line((0, -4), (0, 4), layer=Layer.CENTRE, weight=CUT),
    _line((0, 0), (3, 0), layer=Layer.CENTRE, weight=0.25),
    Fill(Outline((Corner(6, 0), Corner(3, 0.8), Corner(3, -0.8))), Layer.CENTRE, "#1b1f24"),
)
"""The end of a cutting line: a thick stroke, and an arrow along +x, the way the section looks (ISO 128-3, from memory)."""

SYMBOLS: dict[str, tuple[Stroke | Fill, ...]] = {"fixing": FIXING, "bracket": BRACKET, "cut-arrow": CUT_ARROW}
