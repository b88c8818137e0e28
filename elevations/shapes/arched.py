"""A frame under one circular arc: segmental, or semicircular where the rise is half the width."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.plane import SAME_MM, Corner
from elevations.shapes.base import LEAST_SIDE_MM, Edge, Shape, Wrong, length_words, rise_bulge, segment_radius, size
from elevations.shapes.rectangular import HEAD, LEFT, RIGHT, SILL


def wrong_springing(rise: float, height: float) -> Iterator[Wrong]:
    """A rise that leaves jambs too short, for arched and pointed heads; none at all is possible."""
    jamb = height - rise
    if jamb < -SAME_MM:
        yield Wrong(
            "rise", "rise-too-high", f"a rise of {rise:g} is more than the frame's overall height, {height:g}",
            "frame.height is the height to the highest point, rise included",
        )
    elif SAME_MM < jamb < LEAST_SIDE_MM:
        yield Wrong(
            "rise", "jamb-too-short", f"a rise of {rise:g} in a height of {height:g} leaves jambs of {jamb:g}",
            f"jambs must be at least {LEAST_SIDE_MM:g} up to the springing, or none (rise {height:g})",
        )


@dataclass(frozen=True)
class Arched(Shape):
    """An arched head: one arc from springing to springing."""

    key = "arched"
    jamb_ends = "springing"
    help = "One circular arc: segmental, or semicircular where the rise is half the width."
    example = "{rise: 200}"

    rise: float = size(5, 3000, "From the springing line up to the crown, mm; half the width makes a semicircle.", 200)

    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        if self.rise > width / 2 + SAME_MM:
            yield Wrong(
                "rise", "rise-too-high", f"a rise of {self.rise:g} is more than half the width, {width / 2:g}",
                f"half the width is a semicircle; for a higher arch write `head: {{pointed: {{rise: {self.rise:g}}}}}`",
            )
        yield from wrong_springing(self.rise, height)

    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        return (SILL, RIGHT, HEAD, LEFT) if self._springing(height) else (SILL, HEAD)

    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        up, bulge = self._springing(height), rise_bulge(width, self.rise)
        ends = Corner(0.0, 0.0), Corner(width, 0.0, 0.0 if up else bulge)
        return (*ends, Corner(width, up, bulge), Corner(0.0, up)) if up else ends

    def _springing(self, height: float) -> float:
        """Height of the springing line above the bottom; 0 where the arc stands on the sill."""
        up = height - self.rise
        return up if up > SAME_MM else 0.0

    def words(self, width: float, height: float) -> str:
        half_round = abs(self.rise - width / 2) < SAME_MM
        kind = "semicircular head" if half_round else "segmental head"
        return f"{kind}, rise {length_words(self.rise)}, radius {length_words(segment_radius(width, self.rise))}"

    def levels(self, side: str, width: float, height: float) -> tuple[float, ...]:
        up = self._springing(height)
        return (up,) if side == "left" and up else ()
