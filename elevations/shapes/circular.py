"""A round frame."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.plane import Corner
from elevations.shapes.base import Edge, Shape, Wrong, length_words, size


@dataclass(frozen=True)
class Circular(Shape):
    """A circle of two half rings, joined left and right at mid height."""

    key = "circular"
    help = "A round frame; replaces `frame`."
    example = "{diameter: 600}"
    replaces_frame = True

    diameter: float = size(300, 4000, "Overall diameter of the frame, mm.", 600)

    def own_height(self) -> tuple[float, str]:
        return self.diameter, "diameter"

    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        return iter(())

    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        return Edge("ring lower", "sill"), Edge("ring upper", "head")

    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        middle = self.diameter / 2
        return Corner(0.0, middle, 1.0), Corner(self.diameter, middle, 1.0)

    def words(self, width: float, height: float) -> str:
        return f"circular frame, diameter {length_words(self.diameter)}"
