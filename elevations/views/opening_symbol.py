"""The lines that say how a light opens, on the outlines of its sashes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from elevations.drawing.entities import Stroke
from elevations.drawing.layers import Layer
from elevations.geometry.window import Light
from elevations.openings import OPENINGS
from elevations.openings.base import AWAY, AXIS
from elevations.plane import Corner, Point
from elevations.views.shaped import on_shape


class SymbolLine(NamedTuple):
    """One line of a light's opening symbol, mm."""

    points: Sequence[Point]
    kind: str
    """See `openings.base.Line`."""

    @property
    def stroke(self) -> Stroke:
        """As it is drawn: dashed where the light opens away from the viewer, a chain where it is an axis."""
        corners = tuple(Corner(point[0], point[1]) for point in self.points)
        return Stroke(corners, Layer.CENTRE if self.kind == AXIS else Layer.OPENING, line="dashed" if self.kind == AWAY else None)


def symbol_lines(light: Light, *, apex_at_hinge: bool = True) -> list[SymbolLine]:
    """Every line of every sash that opens; none of a fixed light."""
    found: list[SymbolLine] = []
    for sash in light.sashes:
        outline = sash.outer.outline
        lines = () if sash.dummy else OPENINGS[light.opening].symbol(sash.leaf, outline.bounds, light.swing, apex_at_hinge)
        shaped = on_shape([line.points for line in lines], outline)
        found += [SymbolLine(points, line.kind) for points, line in zip(shaped, lines, strict=True)]
    return found
