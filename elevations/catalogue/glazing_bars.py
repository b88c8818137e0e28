"""The glazing bars that a system offers, from its file.

    glazing_bar:
      on-face: {width: 24, depth: 12, kg_per_m: 0.12}     # a bar stuck on each face of the glass; how far it stands out
      in-unit: {width: 18, depth: 10}     # a bar between the panes; how thick it is from pane to pane

A kind that is not there is not offered.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block

GLAZING_BAR_KINDS = ("on-face", "in-unit")
WIDEST_MM, DEEPEST_MM = 150.0, 60.0
"""More is a slip of the decimal point; our own limits."""


@dataclass(frozen=True, slots=True)
class GlazingBarFigures:
    """One kind of glazing bar, mm."""

    width: float
    """As it is seen from outside."""
    depth: float
    """On a face: how far it stands out from the glass. In the unit: its thickness between the panes."""
    kg_per_m: float | None = None


def read_glazing_bars(top: Block) -> dict[str, GlazingBarFigures]:
    """Figures by kind, as far as the file gives them. Problems go to the report."""
    block = Block(top.report, ("glazing_bar",), top.data.get("glazing_bar"), "'glazing_bar'")
    block.only(GLAZING_BAR_KINDS)
    found = {}
    for kind in GLAZING_BAR_KINDS:
        if block.data.get(kind) is None:
            continue
        inner = Block(block.report, (*block.path, kind), block.data[kind], f"'{kind}'")
        if not inner.given:
            continue
        inner.only(("width", "depth", "kg_per_m"))
        width = inner.required("width", low=0, high=WIDEST_MM, hint="mm, as seen from outside: {width: 24, depth: 12}")
        depth = inner.required("depth", low=0, high=DEEPEST_MM, hint="mm, out from the glass or between the panes")
        if width is not None and depth is not None:
            found[kind] = GlazingBarFigures(width, depth, inner.number("kg_per_m", low=0, high=10, above=True))
    return found
