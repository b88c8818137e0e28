"""Where a system's sills are slotted to let water out.

sill_weeps: {from_end: 150, spacing: 600}     # from each end of the sill; from one to the next at most, mm
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block


@dataclass(frozen=True, slots=True)
class Weeps:
    """Weeps of a sill, mm; the usual figures: common practice, no source."""

    from_end_mm: float = 150.0
    spacing_mm: float = 600.0
    given: bool = False
    """Whether the system says so."""

    @property
    def source(self) -> str:
        """Where the figures come from, in words."""
        return "the system's figures" if self.given else "common practice, no source"


def read_weeps(top: Block) -> Weeps:
    """The `sill_weeps` block, what it leaves out as usual; what is wrong with it is reported."""
    block = Block(top.report, ("sill_weeps",), top.data.get("sill_weeps"), "'sill_weeps'")
    if not block.given:
        return Weeps()
    block.only(("from_end", "spacing"))
    from_end, spacing = block.number("from_end", low=20, high=1000), block.number("spacing", low=50, high=6000)
    usual = Weeps()
    return Weeps(usual.from_end_mm if from_end is None else from_end, usual.spacing_mm if spacing is None else spacing, given=True)
