"""What a frame is screwed to, and a system's own figures for where its frames are fixed.

A system file may say:

    frame_fixings:
      corner: 150                 # these three take the place of the standard ones where the job gives none
      spacing: 600
      clear_of_bars: 150
      hinges_from_end: 120        # a hinge's middle from each end of the sash's hinge edge
      keep_clear: {hinge: 80, keep: 60, vent: 30, corner: 100}

`keep_clear` is the least distance, mm, of a fixing from the middle of a hinge, from the middle of a keep (taken at the
handle's height), from the end of a vent in the frame's head, and from the frame's corner where its reinforcement is
joined. Without it no such clash can be told.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from elevations.catalogue.blocks import Block
from elevations.yaml_source import read_document

TABLE = "anchors.yaml"
OBSTACLES = ("hinge", "keep", "vent", "corner")


@dataclass(frozen=True, slots=True)
class Anchor:
    """How a screw holds in one material; lengths in mm."""

    into: str
    screw: str
    embedment: float
    wall_drill: float
    """0 where none is drilled before."""


@dataclass(frozen=True, slots=True)
class FrameFixings:
    """A system's own figures, mm; None or missing where it does not say."""

    corner: float | None = None
    spacing: float | None = None
    clear_of_bars: float | None = None
    hinges_from_end: float | None = None
    keep_clear: tuple[tuple[str, float], ...] = ()
    """Pairs of obstacle and distance."""

    def clear_of(self, obstacle: str) -> float | None:
        """Least distance of a fixing from an obstacle, mm; None where the system does not say."""
        return dict(self.keep_clear).get(obstacle)


@lru_cache(maxsize=1)
def anchors() -> tuple[dict[str, Anchor], tuple[float, ...]]:
    """Anchors by what they go into, and the lengths of screws, shortest first, mm."""
    data = read_document((Path(__file__).parent / TABLE).read_text("utf-8"), TABLE).data
    rows = {row["into"]: Anchor(row["into"], row["screw"], float(row["embedment"]), float(row["wall_drill"])) for row in data["anchors"]}
    return rows, tuple(sorted(float(length) for length in data["lengths"]))


def read_frame_fixings(top: Block) -> FrameFixings:
    """The `frame_fixings` block of a system file; what is wrong with it is reported."""
    block = Block(top.report, ("frame_fixings",), top.data.get("frame_fixings"), "'frame_fixings'")
    if not block.given:
        return FrameFixings()
    block.only(("corner", "spacing", "clear_of_bars", "hinges_from_end", "keep_clear"))
    clear = Block(top.report, ("frame_fixings", "keep_clear"), block.data.get("keep_clear"), "'keep_clear'")
    clear.only(OBSTACLES)
    distances = [(key, clear.number(key, low=0, high=500)) for key in OBSTACLES]
    return FrameFixings(
        block.number("corner", low=50, high=500), block.number("spacing", low=100, high=1500),
        block.number("clear_of_bars", low=0, high=500), block.number("hinges_from_end", low=0, high=600),
        tuple((key, distance) for key, distance in distances if distance is not None),
    )
