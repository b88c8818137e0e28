"""What a system says of the ways of opening that need figures of their own; and which ways it is made for.

    openings: [sliding, vertical-sliding]       # only these; left out, all for which it gives what they need
    pivot: {gap: 3, thickness: 44, cover: 9}    # horizontal and vertical pivot
    pair:                                       # two side-hung sashes with a floating stile between them
      {gap: 6, sight: 28, end_gap: 2, kg_per_m: 0.9, section: [{part: profile, points: [[-28, 55], …]}, …]}
    sliding: {lap: 70, step: 52, section: [{part: gasket, points: …}]}     # sliding and vertical-sliding

A block that is not there means that the system does not make such lights.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from elevations.catalogue.blocks import Block, shown
from elevations.openings import OPENINGS
from elevations.spelling import did_you_mean
from elevations.working import Source, Term

if TYPE_CHECKING:
    from elevations.catalogue.system import Part

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


FLOATING_STILE = "floating-stile"


@dataclass(frozen=True, slots=True)
class PairFigures:
    """Two side-hung sashes that meet at a floating stile, which one of them carries, mm."""

    gap: float
    """From sash to sash, outer edge to outer edge."""
    sight: float
    """From the meeting line to the edge of the floating stile, as it covers the sashes."""
    end_gap: float = 0.0
    """What the floating stile stays clear of the frame's sight line, each end."""
    kg_per_m: float | None = None
    section: tuple[Part, ...] = ()
    """Its outline, u from the meeting line, v from the frame's outer face; empty: sections show a plain box."""

    @property
    def between(self) -> Term:
        """What parts the outer edges of the two sashes."""
        return Term(self.gap, "half of the gap between the sashes", Source("system", "pair.gap"))


@dataclass(frozen=True, slots=True)
class SlidingFigures:
    """Two sashes that slide past each other in two planes, mm."""

    lap: float
    """How far one sash passes behind the other when they are shut, outer edge to outer edge."""
    step: float
    """From the plane of the outer sash, for which the sash's outline is drawn, to that of the inner one, inwards."""
    section: tuple[Part, ...] = ()
    """What seals the meeting of the sashes, u from the meeting line, v from the frame's outer face."""

    @property
    def between(self) -> Term:
        """What parts the outer edges of the two sashes: less than nothing, for they lap."""
        return Term(-self.lap, "half of the lap of the sashes", Source("system", "sliding.lap"))


@dataclass(frozen=True, slots=True)
class OpeningFigures:
    """The blocks of one system; None where it does not give one."""

    openings: tuple[str, ...] = ()
    """Keys of `elevations.openings.OPENINGS`: the only ways it is made for; empty where it does not say."""
    pivot: PivotFigures | None = None
    pair: PairFigures | None = None
    sliding: SlidingFigures | None = None


def read_opening_figures(top: Block) -> OpeningFigures:
    """The blocks as far as the file gives them. Problems go to the report."""
    return OpeningFigures(_openings(top), _pivot(top), _pair(top), _sliding(top))


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


def _given(top: Block, key: str) -> Block | None:
    if top.data.get(key) is None:
        return None
    block = Block(top.report, (*top.path, key), top.data[key], f"'{key}'")
    return block if block.given else None


def _required(block: Block | None, figures: dict[str, str], *others: str) -> dict[str, float] | None:
    """Every figure of a block, all of them required; None where the block or one of them is missing or wrong."""
    if block is None:
        return None
    block.only((*figures, *others))
    found = {name: block.required(name, low=0, high=LARGEST_MM, hint=hint) for name, hint in figures.items()}
    good = {name: value for name, value in found.items() if value is not None}
    return good if len(good) == len(figures) else None


def _pivot(top: Block) -> PivotFigures | None:
    found = _required(_given(top, "pivot"), {
        "gap": "mm of free play between the sash's edge and the frame",
        "thickness": "mm of the sash, face to face",
        "cover": "mm that the stop laps over the edge of the sash",
    })
    return PivotFigures(**found) if found else None


def _pair(top: Block) -> PairFigures | None:
    block = _given(top, "pair")
    found = _required(block, {
        "gap": "mm from sash to sash, outer edge to outer edge",
        "sight": "mm from the meeting line to the edge of the floating stile",
    }, "end_gap", "kg_per_m", "section")
    if block is None or found is None:
        return None
    from elevations.catalogue.outlines import read_parts  # which needs `system`, which holds these figures

    return PairFigures(
        **found,
        end_gap=block.number("end_gap", low=0, high=100, hint="mm from the frame's sight line to the stile's end") or 0.0,
        kg_per_m=block.number("kg_per_m", low=0, high=100, above=True, hint="kg for each metre"),
        section=read_parts(block, "section"),
    )


def _sliding(top: Block) -> SlidingFigures | None:
    block = _given(top, "sliding")
    found = _required(block, {
        "lap": "mm that one sash stands behind the other when both are shut",
        "step": "mm from the plane of the outer sash to that of the inner one",
    }, "section")
    if block is None or found is None:
        return None
    members = top.data.get("members")
    sash = members.get("sash") if isinstance(members, dict) else None
    sight = sash.get("sight") if isinstance(sash, dict) else None
    if isinstance(sight, int | float) and found["lap"] > sight:
        block.say(
            "lap", "lap-past-sight", f"the sashes lap by {found['lap']:g}, but their glass begins {sight:g} from their edge",
            "a sash may cover the stile of the other, not its glass",
        )  # fmt: skip
    from elevations.catalogue.outlines import read_parts  # which needs `system`, which holds these figures

    return SlidingFigures(**found, section=read_parts(block, "section"))
