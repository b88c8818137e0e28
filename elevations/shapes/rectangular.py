"""The plain frame: two jambs, a head and a sill."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.plane import Corner
from elevations.shapes.base import Edge, Shape, Wrong

SILL, RIGHT, HEAD, LEFT = Edge("sill", "sill"), Edge("right jamb", "right"), Edge("head", "head"), Edge("left jamb", "left")


@dataclass(frozen=True)
class Rectangular(Shape):
    """A rectangular frame: what a window without a `head` is."""

    key = "rectangular"
    help = "A plain rectangular frame."
    example = "{}"

    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        return iter(())

    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        return SILL, RIGHT, HEAD, LEFT

    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        return Corner(0.0, 0.0), Corner(width, 0.0), Corner(width, height), Corner(0.0, height)
