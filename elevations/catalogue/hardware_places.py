"""Where on a sash and on its frame an item of hardware sits, from the system's file.

    - {item: BH-1, kind: hinge, …, at: {on: hinge, from_end: 150, spacing: 700}}
    - {item: ST-30, kind: stay, …, at: {on: beside, from_end: 160}}
    - {item: LK-S, kind: lock, …, at: {on: across, from_end: 150, spacing: 600, piece: frame, called: keep}}
    - {item: HN-1, kind: handle, …, at: {on: handle, piece: sash}}

`on` names the edges of the sash: `hinge`, the one it turns on (of two, the first); `across`, the one opposite, or opposite to
where a sliding sash goes; `beside`, the two next to the hinge edge; `axis`, where the axis of a pivoting sash meets its edges;
`bottom`; `handle`, the middle of the edge across, or where the job's `handle_height` says. `from_end`: from each end of the edge to
the middle of the first; on edges beside, from the hinge edge only; of a handle, the least that a job's `handle_height` keeps from
each end of its stile, left out 40 past the sash's rail. `spacing`: from one to the next, at most; left out, none between.
`piece`: which pieces are machined: sash, frame, or both. `called`: what the list says; left out, the item's kind. Lengths are mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block

ON = ("hinge", "across", "beside", "axis", "bottom", "handle")
PIECES = ("both", "sash", "frame")
USUAL_PAST_CORNER_MM = 40.0   # half a handle's base beyond the welded corner; common practice, no source
ENDED = ("hinge", "across", "beside", "bottom")
"""Edges along which places are counted from an end."""


@dataclass(frozen=True, slots=True)
class HardwarePlaces:
    """A rule for where an item sits, mm."""

    on: str
    piece: str
    called: str
    from_end_mm: float = 0.0
    spacing_mm: float | None = None


def read_places(item: Block, kind: str) -> HardwarePlaces | None:
    """The block `at` of an item; None where there is none. Problems go to the report."""
    block = Block(item.report, (*item.path, "at"), item.data.get("at"), "'at'")
    if not block.given:
        return None
    block.only(("on", "piece", "called", "from_end", "spacing"))
    on = block.choice("on", ON)
    hint = "mm from each end of that edge to the middle of the first"
    from_end = block.required("from_end", low=0, high=3000, hint=hint, above=False) if on in ENDED else block.number("from_end", low=0, high=3000)
    return HardwarePlaces(
        on, block.choice("piece", PIECES, "both"), block.text("called", kind), from_end or 0.0, block.number("spacing", low=50, high=6000),
    )
