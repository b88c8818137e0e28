"""What a system says of the slots that drain its rebates and the holes that let air into them, from its file.

    drainage:
      slot: 30 x 5           # size, in words
      from_end: 80           # from each end of the rebate to the middle of the first slot, at least
      spacing: 600           # from one slot to the next, at most; left out, only those at the ends
      move: 100              # how far one may stand from its place where something is in its way; 100 where not given
      offset: 60             # along the piece from a slot in the rebate to its outlet through the outer face, or as near to that as
                             # something in its way lets it; left out, no outlets are listed
      rebates: [glazed, hung]                    # which rebates: those that hold glass, those that a sash closes against
      clear_of: {fixing: 40, hardware: 40, bar: 50, corner: 60}    # least distance of a slot's middle from what else is there
    pressure_holes: {slot: 8 round, from_end: 80}

Slots stand at the bottom of a rebate, holes at its top. `clear_of`: the middle of a fixing's hole, the middle of a
stay, hinge, keep, handle … of the same light on the piece, the centre line of a mullion or transom that joins it, the outer
corner where it is joined to the next. Setting blocks of the
glass are taken to stand on bridges that let water pass (common practice, no source). Lengths are mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block, shown
from elevations.spelling import did_you_mean

USUAL_MOVE_MM = 100.0   # common practice, no source
LONGEST_MM = 6000.0
GLAZED, HUNG = "glazed", "hung"
REBATES = (GLAZED, HUNG)
OBSTACLES = ("fixing", "hardware", "bar", "corner")


@dataclass(frozen=True, slots=True)
class Slots:
    """A rule for slots or holes along a rebate, mm."""

    slot: str
    """Size in words: '30 x 5'."""
    from_end_mm: float
    """From each end of the rebate to the middle of the first slot, at least."""
    spacing_mm: float | None
    """Greatest distance from one slot to the next; None: only those at the ends."""
    move_mm: float | None = None
    """How far one may stand from its place where something is in its way; None: USUAL_MOVE_MM."""
    offset_mm: float | None = None
    """From a slot in the rebate along the piece to its outlet through the outer face; None: no outlets are listed."""
    rebates: tuple[str, ...] = ()
    """glazed, hung; empty where the system does not say: then what is usual for its kind."""
    clear_of: tuple[tuple[str, float], ...] = ()
    """Pairs of obstacle and least distance of a slot's middle from it."""

    def clear_of_mm(self, obstacle: str) -> float:
        """Least distance from an obstacle; 0 where the system asks for none."""
        return dict(self.clear_of).get(obstacle, 0.0)


def read_slots(top: Block, key: str) -> Slots | None:
    """A rule for drainage slots or pressure holes; None where there is none. Problems go to the report."""
    block = Block(top.report, (key,), top.data.get(key), f"'{key}'")
    if not block.given:
        return None
    block.only(("slot", "from_end", "spacing", "move", "offset", "rebates", "clear_of"))
    from_end = block.required("from_end", low=0, high=1000, hint="mm from the end of the rebate to the first slot")
    return Slots(
        block.text("slot", ""), from_end or 0.0, block.number("spacing", low=50, high=LONGEST_MM),
        block.number("move", low=0, high=1000, hint="mm that a slot may stand from its place"),
        block.number("offset", low=-500, high=500, hint="mm along the piece to the outlet"),
        _rebates(block), read_clear_of(block, OBSTACLES),
    )


def _rebates(block: Block) -> tuple[str, ...]:
    value = block.data.get("rebates")
    if value is None:
        return ()
    items = value if isinstance(value, list) else [value]
    for item in items:
        if item not in REBATES:
            near = did_you_mean(item, REBATES) if isinstance(item, str) else ""
            block.say("rebates", "unknown-word", f"'rebates' names {shown(item)}", near or "glazed (they hold glass) and hung (a sash closes against them)")
    return tuple(word for word in REBATES if word in items)


def read_clear_of(block: Block, obstacles: tuple[str, ...]) -> tuple[tuple[str, float], ...]:
    """The block `clear_of`: least distances from these obstacles, as far as they are given."""
    clear = Block(block.report, (*block.path, "clear_of"), block.data.get("clear_of"), "'clear_of'")
    clear.only(obstacles)
    found = [(key, clear.number(key, low=0, high=500, hint="mm, middle to middle")) for key in obstacles]
    return tuple((key, distance) for key, distance in found if distance is not None)
