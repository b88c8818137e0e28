"""What a frame is screwed to, and a system's own figures for where its frames are fixed.

A system file may say:

    frame_fixings:
      corner: 150                 # these three take the place of the standard ones where the job gives none
      spacing: 600
      clear_of_bars: 150
      hinges_from_end: 120        # a hinge's middle from each end of the sash's hinge edge
      keep_clear: {hinge: 80, keep: 60, hardware: 30, vent: 30, corner: 100}

      vent_length: 0.1            # of a slot vent, mm for each mm2 of its equivalent area
      keeps: [150, 900]           # keeps besides the one at the handle's height: from the top of the sash's lock stile
      screw_at: 35                # from the frame's outer face to its screws; left out, the middle of its depth
      screw_lengths: [72, 92, 112]    # those in stock; left out, the table's series
      bracket: {nearest: 25, reach: 60, leg: 35, past: 15, thickness: 3}   # what is left out as in the table

`keep_clear` is the least distance, mm, of a fixing from the middle of a hinge, of a keep, of all other `hardware`
that has places (stay, gear …), from the end of a vent in the frame's head, and from the frame's corner where its reinforcement
is joined. Hardware is where the `at` of its items says, as in machining; where no item says it, hinges stand at
`hinges_from_end` and one keep is taken across from the handle. Without it no such clash can be told.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from elevations.catalogue.blocks import Block
from elevations.yaml_source import read_document

TABLE = "anchors.yaml"
OBSTACLES = ("hinge", "keep", "hardware", "vent", "corner")
VENT_MM_PER_MM2 = 0.1
"""A slot vent of 4000 mm2 in about 400 mm; common practice, no source. `frame_fixings.vent_length` goes before it."""
MOST_SCREWS = 50


@dataclass(frozen=True, slots=True)
class Anchor:
    """How a screw holds in one material; lengths in mm."""

    into: str
    screw: str
    embedment: float
    wall_drill: float
    """0 where none is drilled before."""
    edge: float
    """Least distance from the edge of what it goes into."""


@dataclass(frozen=True, slots=True)
class Bracket:
    """A bracket or strap on the frame's edge; lengths in mm, `nearest` and `reach` from the frame's inner face."""

    nearest: float
    """To the first hole that takes a screw into the wall."""
    reach: float
    """To the last."""
    leg: float
    """What of it lies on the frame."""
    past: float
    """From its screw to its end."""
    thickness: float


class Anchors(NamedTuple):
    """The table."""

    rows: dict[str, Anchor]
    """By what they go into."""
    lengths: tuple[float, ...]
    """Of screws, shortest first, mm."""
    bracket: Bracket


@dataclass(frozen=True, slots=True)
class FrameFixings:
    """A system's own figures, mm; None or missing where it does not say."""

    corner: float | None = None
    spacing: float | None = None
    clear_of_bars: float | None = None
    hinges_from_end: float | None = None
    keep_clear: tuple[tuple[str, float], ...] = ()
    """Pairs of obstacle and distance."""
    vent_length: float = VENT_MM_PER_MM2
    """Of a slot vent, mm for each mm2 of its equivalent area."""
    keeps: tuple[float, ...] = ()
    """From the top of the sash's lock stile, besides the one at the handle's height."""
    screw_at: float | None = None
    """From the frame's outer face to its screws; None: the middle of its depth."""
    screw_lengths: tuple[float, ...] = ()
    """In stock, shortest first; empty: the table's."""
    bracket: Bracket | None = None
    """None: the table's."""

    def clear_of(self, obstacle: str) -> float | None:
        """Least distance of a fixing from an obstacle, mm; None where the system does not say."""
        return dict(self.keep_clear).get(obstacle)


@lru_cache(maxsize=1)
def anchors() -> Anchors:
    """Anchors by what they go into, the lengths of screws, and the usual bracket."""
    data = read_document((Path(__file__).parent / TABLE).read_text("utf-8"), TABLE).data
    rows = {
        row["into"]: Anchor(row["into"], row["screw"], float(row["embedment"]), float(row["wall_drill"]), float(row["edge"]))
        for row in data["anchors"]
    }
    return Anchors(rows, tuple(sorted(float(length) for length in data["lengths"])), Bracket(**{key: float(mm) for key, mm in data["bracket"].items()}))


def read_frame_fixings(top: Block, depth: float | None) -> FrameFixings:
    """The `frame_fixings` block of a system file; what is wrong with it is reported."""
    block = Block(top.report, ("frame_fixings",), top.data.get("frame_fixings"), "'frame_fixings'")
    if not block.given:
        return FrameFixings()
    block.only(("corner", "spacing", "clear_of_bars", "hinges_from_end", "keep_clear", "vent_length", "keeps", "screw_at", "screw_lengths", "bracket"))
    clear = Block(top.report, ("frame_fixings", "keep_clear"), block.data.get("keep_clear"), "'keep_clear'")
    clear.only(OBSTACLES)
    distances = [(key, clear.number(key, low=0, high=500)) for key in OBSTACLES]
    vent = block.number("vent_length", low=0.01, high=1, hint="mm of vent for each mm2 of its equivalent area, about 0.1")
    return FrameFixings(
        block.number("corner", low=50, high=500), block.number("spacing", low=100, high=1500),
        block.number("clear_of_bars", low=0, high=500), block.number("hinges_from_end", low=0, high=600),
        tuple((key, distance) for key, distance in distances if distance is not None),
        VENT_MM_PER_MM2 if vent is None else vent, _lengths(block, "keeps", 0, 4000),
        block.number("screw_at", low=0, high=depth or 500.0, above=True, hint="mm from the frame's outer face, less than its depth"),
        _lengths(block, "screw_lengths", 20, 600), _bracket(block),
    )


def _lengths(block: Block, key: str, low: float, high: float) -> tuple[float, ...]:
    """A list of lengths from low to high mm, shortest first; empty where it is not given."""
    value = block.data.get(key)
    if value is None:
        return ()
    if not isinstance(value, list) or not 0 < len(value) <= MOST_SCREWS:
        block.say(key, "not-a-list", f"'{key}' must be a list of 1 to {MOST_SCREWS} lengths in mm", "for example [72, 92, 112]")
        return ()
    found = [block.as_number((*block.path, key, i), item, key) for i, item in enumerate(value)]
    known = sorted({length for length in found if length is not None})
    if any(not low <= length <= high for length in known):
        block.say(key, "out-of-range", f"each of '{key}' is {low:g} to {high:g}", "in mm")
        return ()
    return tuple(known)


def _bracket(block: Block) -> Bracket | None:
    """The system's own bracket, what it does not say taken from the table; None where it says nothing."""
    own = Block(block.report, (*block.path, "bracket"), block.data.get("bracket"), "'bracket'")
    if not own.given:
        return None
    usual = anchors().bracket
    limits = {"nearest": (0, 500), "reach": (10, 600), "leg": (10, 200), "past": (5, 100), "thickness": (0.5, 12)}
    own.only(limits)
    found = {key: own.number(key, low=low, high=high) for key, (low, high) in limits.items()}
    made = replace(usual, **{key: mm for key, mm in found.items() if mm is not None})
    if made.nearest > made.reach:
        own.say("reach", "bracket-short", f"the bracket reaches {made.reach:g}, but its first hole is at {made.nearest:g}", "'reach' is to its last hole")
    return made
