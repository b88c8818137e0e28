"""What a system says of the ways of opening that need figures of their own; and which ways it is made for.

    openings: [sliding, vertical-sliding]       # only these; left out, all for which it gives what they need
    pivot: {gap: 3, thickness: 44, cover: 9}    # horizontal and vertical pivot

A block that is not there means that the system does not make such lights.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block, shown
from elevations.openings import OPENINGS
from elevations.spelling import did_you_mean

LARGEST_MM = 500.0


@dataclass(frozen=True, slots=True)
class PivotFigures:
    """A sash that turns about its middle, mm."""

    gap: float
    """Free play between the sash's edge and the frame, all round."""
    thickness: float
    """Of the sash, face to face: what has to swing past the frame."""
    cover: float
    """How far the stop laps over the edge of the sash; it is outside on the half that comes in, inside on the other."""


@dataclass(frozen=True, slots=True)
class OpeningFigures:
    """The blocks of one system; None where it does not give one."""

    openings: tuple[str, ...] = ()
    """Keys of `elevations.openings.OPENINGS`: the only ways it is made for; empty where it does not say."""
    pivot: PivotFigures | None = None


def read_opening_figures(top: Block) -> OpeningFigures:
    """The blocks as far as the file gives them. Problems go to the report."""
    return OpeningFigures(_openings(top), _pivot(top))


def _openings(top: Block) -> tuple[str, ...]:
    value = top.data.get("openings")
    if value is None:
        return ()
    items = value if isinstance(value, list) else [value]
    for i, item in enumerate(items):
        if not isinstance(item, str) or item not in OPENINGS:
            near = did_you_mean(item, OPENINGS) if isinstance(item, str) else ""
            path = (*top.path, "openings", i) if isinstance(value, list) else (*top.path, "openings")
            top.report.say(path, "unknown-word", f"{shown(item)} is not a way to open", near or f"known: {', '.join(OPENINGS)}")
    return tuple(item for item in items if isinstance(item, str) and item in OPENINGS)


def _block(top: Block, key: str, figures: dict[str, str]) -> dict[str, float] | None:
    """Every figure of a block, all of them required; None where the block or one of them is missing or wrong."""
    if top.data.get(key) is None:
        return None
    block = Block(top.report, (*top.path, key), top.data[key], f"'{key}'")
    if not block.given:
        return None
    block.only(figures)
    found = {name: block.required(name, low=0, high=LARGEST_MM, hint=hint) for name, hint in figures.items()}
    good = {name: value for name, value in found.items() if value is not None}
    return good if len(good) == len(figures) else None


def _pivot(top: Block) -> PivotFigures | None:
    found = _block(top, "pivot", {
        "gap": "mm of free play between the sash's edge and the frame",
        "thickness": "mm of the sash, face to face",
        "cover": "mm that the stop laps over the edge of the sash",
    })
    return PivotFigures(**found) if found else None
