"""What a frame shape must say of itself. One file a shape; nothing outside this folder asks which shape it is."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, ClassVar, NamedTuple

from elevations.plane import Corner, Outline

LEAST_SIDE_MM = 100.0
"""A jamb shorter than this leaves no room for two corner joints; our own limit."""


class Edge(NamedTuple):
    """One edge of a frame's outline."""

    tag: str
    """Name of the member: sill, right jamb, head, left head, ring upper …"""
    side: str
    """Which side of the frame it counts as, as the spec's fixings name them: left, right, head or sill."""


class Wrong(NamedTuple):
    """A size of the shape that can't be made; the caller knows where in the job it stands."""

    key: str
    """The shape's key, or 'frame' keys as 'frame.width' and 'frame.height'."""
    code: str
    message: str
    hint: str


def size(low: float, high: float, help_text: str, example: float, *, needed: bool = True) -> Any:
    """A key of a shape's block: a length from low to high mm."""
    metadata = {"low": low, "high": high, "help": help_text, "example": example}
    if needed:
        return field(metadata=metadata)
    return field(default=None, metadata=metadata)


@dataclass(frozen=True)
class Shape(ABC):
    """A frame's shape; its dataclass fields are its keys in the spec, mm, made with `size`.

    The outline starts at the bottom left and runs counter-clockwise, its bounding box from 0, 0 to the overall size.
    """

    key: ClassVar[str]
    """Its name under `head`, or as a key of the window where it replaces the frame's size."""
    help: ClassVar[str]
    """One line for editors."""
    example: ClassVar[str]
    replaces_frame: ClassVar[bool] = False
    """True where the shape gives the overall size itself, so that `frame` is left out."""
    jamb_ends: ClassVar[str] = "top"
    """What the upper end of a jamb is called, which its fixings are measured from: on an arch it is not the frame's top."""

    def own_height(self) -> tuple[float, str] | None:
        """The overall height and the key that gives it, where the shape says it itself."""
        return None

    @abstractmethod
    def wrong(self, width: float, height: float) -> Iterator[Wrong]:
        """What can't be made of the shape's sizes in a frame of that overall size."""

    @abstractmethod
    def edges(self, width: float, height: float) -> tuple[Edge, ...]:
        """The outline's edges in its order."""

    @abstractmethod
    def corners(self, width: float, height: float) -> tuple[Corner, ...]:
        """The outline's corners, bulges included."""

    def outline(self, width: float, height: float) -> Outline:
        """Outer edge of the frame, mm, origin at the bottom left corner of its bounding box."""
        return Outline(self.corners(width, height))

    def words(self, width: float, height: float) -> str:
        """The shape and its sizes, for people; empty for a rectangle."""
        return ""

    def levels(self, side: str, width: float, height: float) -> tuple[float, ...]:
        """Heights above the frame's bottom, besides 0 and the overall height, that a drawing gives on a side: springing, eaves.

        `side`: left or right, where they are best read.
        """
        return ()

    def places(self, width: float, height: float) -> tuple[float, ...]:
        """Distances from the frame's left, besides 0 and the overall width, that a drawing gives: an apex."""
        return ()


def rise_bulge(chord: float, rise: float) -> float:
    """Bulge of a circular arc of that rise over a chord: twice the rise to the chord."""
    return 2 * rise / chord


def segment_radius(chord: float, rise: float) -> float:
    """Radius of a circular segment: chord squared by eight rises, and half the rise (any geometry handbook)."""
    return chord * chord / (8 * rise) + rise / 2


def slope_degrees(run: float, climb: float) -> float:
    """Angle of a slope to the level, degrees."""
    return math.degrees(math.atan2(abs(climb), run))


def length_words(value: float) -> str:
    """A length to 0.1 mm without a trailing zero."""
    return f"{value:.1f}".removesuffix(".0")


def degrees_words(value: float) -> str:
    """An angle to 0.1 degree without a trailing zero."""
    return f"{value:.1f}".removesuffix(".0") + "°"
