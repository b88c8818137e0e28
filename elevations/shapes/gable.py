"""A frame whose head rises in two slopes to an apex."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.plane import SAME_MM, Corner
from elevations.shapes.base import LEAST_SIDE_MM, Edge, Shape, Wrong, degrees_words, length_words, size, slope_degrees
from elevations.shapes.rectangular import LEFT, RIGHT, SILL

HEADS = Edge("right head", "head"), Edge("left head", "head")


@dataclass(frozen=True)
class Gable(Shape):
    """A gable head: two straight slopes."""

    key = "gable"
    jamb_ends = "eaves"
    help = "Two straight slopes up to an apex. Give the jambs' height as eaves, or as left and right where they differ."
    example = "{apex: 450, eaves: 800}"

    apex: float = size(20, 5980, "From the frame's left outer edge to the apex, seen from outside, mm.", 450)
    eaves: float | None = size(LEAST_SIDE_MM, 4000, "Height of both jambs, mm.", 800, needed=False)
    left: float | None = size(LEAST_SIDE_MM, 4000, "Height of the left jamb, mm, where they differ.", 800, needed=False)
    right: float | None = size(LEAST_SIDE_MM, 4000, "Height of the right jamb, mm, where they differ.", 900, needed=False)

    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        if not 0 < self.apex < width:
            yield Wrong(
                "apex", "apex-outside", f"an apex at {self.apex:g} is outside the frame, which is {width:g} wide",
                "it is measured from the frame's left outer edge; half the width is the middle",
            )
        both = self.left is not None and self.right is not None
        if (self.eaves is None) != both or (self.eaves is not None and (self.left is not None or self.right is not None)):
            yield Wrong(
                "apex", "eaves-unclear", "a gable needs the height of its jambs once",
                "write `eaves: 800` for both, or `left: 800, right: 900`",
            )
            return
        named = (("eaves", self.eaves),) if self.eaves is not None else (("left", self.left), ("right", self.right))
        for key, value in named:
            if value is not None and value >= height - SAME_MM:
                yield Wrong(
                    key, "eaves-too-high", f"{key} {value:g} is not below the apex, which is at frame.height, {height:g}",
                    "frame.height is the height to the apex",
                )

    def _jambs(self) -> tuple[float, float]:
        """Heights of the left and the right jamb."""
        return (self.left or self.eaves or 0.0), (self.right or self.eaves or 0.0)

    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        return SILL, RIGHT, *HEADS, LEFT

    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        left, right = self._jambs()
        return Corner(0.0, 0.0), Corner(width, 0.0), Corner(width, right), Corner(self.apex, height), Corner(0.0, left)

    def words(self, width: float, height: float) -> str:
        left, right = self._jambs()
        jambs = f"eaves {length_words(left)}" if left == right else f"jambs {length_words(left)} and {length_words(right)}"
        slopes = (slope_degrees(self.apex, height - left), slope_degrees(width - self.apex, height - right))
        return (
            f"gable head, apex {length_words(self.apex)} from the left, {jambs}, slopes {degrees_words(slopes[0])} "
            f"and {degrees_words(slopes[1])}"
        )

    def levels(self, side: str, width: float, height: float) -> tuple[float, ...]:
        left, right = self._jambs()
        return (left,) if side == "left" else (right,) if right != left else ()

    def places(self, width: float, height: float) -> tuple[float, ...]:
        return (self.apex,)
