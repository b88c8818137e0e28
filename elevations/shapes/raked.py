"""A frame whose head slopes from one jamb to the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.plane import SAME_MM, Corner
from elevations.shapes.base import LEAST_SIDE_MM, Edge, Shape, Wrong, degrees_words, length_words, size, slope_degrees
from elevations.shapes.rectangular import HEAD, LEFT, RIGHT, SILL


@dataclass(frozen=True)
class Raked(Shape):
    """A raked head: one straight slope."""

    key = "raked"
    help = "One straight slope from jamb to jamb. The overall height is the larger of both; frame.height may be left out."
    example = "{left: 900, right: 1200}"

    left: float = size(LEAST_SIDE_MM, 4000, "Height of the left jamb, seen from outside, mm.", 900)
    right: float = size(LEAST_SIDE_MM, 4000, "Height of the right jamb, seen from outside, mm.", 1200)

    def own_height(self) -> tuple[float, str]:
        return max((self.left, "left"), (self.right, "right"))

    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        larger, key = self.own_height()
        if abs(self.left - self.right) < SAME_MM:
            yield Wrong("right", "head-not-raked", f"both jambs are {self.left:g} high: that is a level head", "leave 'head' out")
        if abs(larger - height) > SAME_MM:
            yield Wrong(
                "frame.height", "height-disagrees", f"frame.height is {height:g}, but the higher jamb ({key}) is {larger:g}",
                "leave frame.height out here: the higher jamb gives it",
            )

    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        return SILL, RIGHT, HEAD, LEFT

    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        return Corner(0.0, 0.0), Corner(width, 0.0), Corner(width, self.right), Corner(0.0, self.left)

    def words(self, width: float, height: float) -> str:
        slope = degrees_words(slope_degrees(width, self.right - self.left))
        return f"raked head, left {length_words(self.left)}, right {length_words(self.right)}, slope {slope}"

    def levels(self, side: str, width: float, height: float) -> tuple[float, ...]:
        lower = "left" if self.left < self.right else "right"
        return (min(self.left, self.right),) if side == lower else ()
