"""A frame under a two-centred pointed arch."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from elevations.plane import SAME_MM, Corner
from elevations.shapes.arched import wrong_springing
from elevations.shapes.base import Edge, Shape, Wrong, length_words, size
from elevations.shapes.rectangular import LEFT, RIGHT, SILL

HEADS = Edge("right head", "head"), Edge("left head", "head")


@dataclass(frozen=True)
class Pointed(Shape):
    """A pointed head: two equal arcs about centres on the springing line."""

    key = "pointed"
    jamb_ends = "springing"
    help = "Two equal arcs about centres on the springing line; equilateral where the rise is 0.866 of the width."
    example = "{rise: 800}"

    rise: float = size(105, 3500, "From the springing line up to the point, mm; more than half the width.", 800)

    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        if self.rise <= width / 2 + SAME_MM:
            yield Wrong(
                "rise", "rise-too-low", f"a rise of {self.rise:g} is not more than half the width, {width / 2:g}: it makes no point",
                f"write `head: {{arched: {{rise: {self.rise:g}}}}}`, or give a larger rise",
            )
        yield from wrong_springing(self.rise, height)

    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        return (SILL, RIGHT, *HEADS, LEFT) if self._springing(height) else (SILL, *HEADS)

    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        up = self._springing(height)
        # An arc's bulge is the tangent of a quarter of its sweep, and the sweep's sine is the rise over the radius.
        bulge = math.tan(math.asin(self.rise / self.radius(width)) / 4)
        arcs = Corner(width, up, bulge), Corner(width / 2, up + self.rise, bulge)
        if up:
            return Corner(0.0, 0.0), Corner(width, 0.0), *arcs, Corner(0.0, up)
        return Corner(0.0, 0.0), *arcs

    def radius(self, width: float) -> float:
        """Of both arcs, by Pythagoras on half the width and the rise: (width squared by four + rise squared) by width."""
        return (width * width / 4 + self.rise * self.rise) / width

    def _springing(self, height: float) -> float:
        up = height - self.rise
        return up if up > SAME_MM else 0.0

    def words(self, width: float, height: float) -> str:
        return f"pointed head, rise {length_words(self.rise)}, radius {length_words(self.radius(width))}"

    def levels(self, side: str, width: float, height: float) -> tuple[float, ...]:
        up = self._springing(height)
        return (up,) if side == "left" and up else ()

    def places(self, width: float, height: float) -> tuple[float, ...]:
        return (width / 2,)
