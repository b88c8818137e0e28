"""What a system says of its hardware, and its reinforcement: all of it optional.

    hardware:                     # in the order of preference: of each kind a sash gets the first that fits
      - {item: ST-30, kind: stay, title: friction stay 300, for: [side-hung], sash_width: [280, 500],
         sash_height: [300, 1300], mass: 20, quantity: 2, takes: 45, opens: 75}
      - {item: RS-1, kind: restrictor, for: [side-hung, top-hung], only: restrictor}
    reinforcement: {set_back: 10, white_from: 900, screws: {from_end: 50, spacing: 300, clear_of: {slot: 25, fixing: 25, hardware: 35, bar: 40}}}

`at`, where an item sits, is described in `elevations.catalogue.hardware_places`. Lengths are mm, `mass` is kg: the heaviest sash with its glass.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block, shown
from elevations.catalogue.drainage import Slots, read_clear_of
from elevations.catalogue.hardware_places import HardwarePlaces, read_places
from elevations.openings import OPENINGS
from elevations.spelling import did_you_mean

LARGEST_SASH_MM, HEAVIEST_SASH_KG = 6000.0, 1000.0
AROUND_SCREWS = ("slot", "fixing", "hardware", "bar")
ONLY = ("", "restrictor", "escape")
"""What a light must ask for before an item marked so is taken."""


@dataclass(frozen=True, slots=True)
class HardwareItem:
    """One item and the sashes that it is for."""

    item: str
    """The name that it is ordered by."""
    kind: str
    """stay, hinge, handle, lock …: a sash gets one item of each kind."""
    title: str
    openings: tuple[str, ...]
    """Keys of `elevations.openings.OPENINGS`."""
    width_mm: tuple[float, float]
    """Least and greatest width of the sash."""
    height_mm: tuple[float, float]
    mass_kg: float | None
    """Of the heaviest sash that it carries, glass included; None where mass does not matter."""
    quantity: int
    """For one sash."""
    takes_mm: float | None
    """What it takes off the clear opening with the sash open as far as it goes; None where the system does not say."""
    only: str
    """restrictor or escape: only for a light that asks for it; empty for all."""
    opens_degrees: float | None = None
    """How far it lets the sash open; None where the system does not say."""
    places: HardwarePlaces | None = None
    """Where on sash and frame it sits; None where the system does not say."""


@dataclass(frozen=True, slots=True)
class Reinforcement:
    """When a profile gets its steel, and how long it is."""

    set_back_mm: float
    """What it ends short of the finished profile, each end."""
    white_from_mm: float
    """A white profile gets it from this finished length on, the weld not counted; a coloured one always (common practice, no source)."""
    screws: Slots | None = None
    """Where it is screwed to its profile, along the steel; None: no screws are listed."""


def read_hardware(top: Block) -> tuple[HardwareItem, ...]:
    """The `hardware` list of a system file; what is wrong with it is reported."""
    given = top.data.get("hardware")
    if given is None:
        return ()
    if not isinstance(given, list):
        top.say("hardware", "not-a-list", f"'hardware' must be a list of items, not {shown(given)}", "start each item with '- {item: …}'")
        return ()
    found: list[HardwareItem] = []
    for number, data in enumerate(given):
        block = Block(top.report, ("hardware", number), data, "an item of 'hardware'")
        if block.given:
            found.append(_item(block))
        elif data is None:
            top.report.say(("hardware", number), "not-a-block", "an item of 'hardware' is empty", "write '{item: …, kind: …, for: […]}'")
    return tuple(found)


def _item(block: Block) -> HardwareItem:
    block.only(("item", "kind", "title", "for", "sash_width", "sash_height", "mass", "quantity", "takes", "only", "opens", "at"))
    for key in ("item", "kind"):
        if block.data.get(key) is None:
            block.missing(key, "its order name" if key == "item" else "stay, hinge, handle, lock …")
    quantity = block.number("quantity", low=1, high=100)
    if quantity is not None and quantity != int(quantity):
        block.say("quantity", "not-whole", f"'quantity' is {quantity:g}; it is a whole number", "how many a sash gets")
    item = block.text("item", "?")
    return HardwareItem(
        item=item,
        kind=block.text("kind", "?"),
        title=block.text("title", item),
        openings=_openings(block),
        width_mm=_range(block, "sash_width"),
        height_mm=_range(block, "sash_height"),
        mass_kg=block.number("mass", low=0, high=HEAVIEST_SASH_KG, above=True, hint="kg of the heaviest sash, glass included"),
        quantity=int(quantity or 1),
        takes_mm=block.number("takes", low=0, high=500, hint="mm off the clear opening"),
        only=block.choice("only", ONLY, ""),
        opens_degrees=block.number("opens", low=0, high=180, above=True, hint="degrees, open as far as it goes"),
        places=read_places(block, block.text("kind", "?")),
    )


def _openings(block: Block) -> tuple[str, ...]:
    value = block.data.get("for")
    known = tuple(key for key, opening in OPENINGS.items() if opening.has_sash(dummy=False))
    if value is None:
        block.missing("for", f"the openings that it serves: {', '.join(known)}")
        return ()
    items = value if isinstance(value, list) else [value]
    for item in items:
        if item not in known:
            near = did_you_mean(item, known) if isinstance(item, str) else ""
            block.say("for", "unknown-word", f"'for' names {shown(item)}, which is no way of opening", near or f"one of {', '.join(known)}")
    return tuple(str(item) for item in items if item in known)


def _range(block: Block, key: str) -> tuple[float, float]:
    """[least, greatest]; all sizes where it is not given."""
    value = block.data.get(key)
    if value is None:
        return 0.0, LARGEST_SASH_MM
    if not isinstance(value, list) or len(value) != 2:
        block.say(key, "not-a-range", f"'{key}' is {shown(value)}; it is two lengths", "for example [300, 900]: least and greatest, mm")
        return 0.0, LARGEST_SASH_MM
    low, high = (block.as_number((*block.path, key, i), item, key) for i, item in enumerate(value))
    if low is None or high is None:
        return 0.0, LARGEST_SASH_MM
    if not 0 <= low <= high <= LARGEST_SASH_MM:
        block.say(key, "out-of-range", f"'{key}' runs from {low:g} to {high:g}", f"the least first, both 0 to {LARGEST_SASH_MM:g} mm")
    return low, high


def read_reinforcement(top: Block) -> Reinforcement | None:
    """The `reinforcement` block; None where there is none."""
    block = Block(top.report, ("reinforcement",), top.data.get("reinforcement"), "'reinforcement'")
    if not block.given:
        return None
    block.only(("set_back", "white_from", "screws"))
    set_back = block.required("set_back", low=0, high=200, above=False, hint="mm short of the finished profile, each end")
    white_from = block.number("white_from", low=0, high=LARGEST_SASH_MM)
    return Reinforcement(set_back or 0.0, white_from or 0.0, _screws(block))


def _screws(reinforcement: Block) -> Slots | None:
    """From the steel's ends and from each other; they give way to what is machined there."""
    block = Block(reinforcement.report, (*reinforcement.path, "screws"), reinforcement.data.get("screws"), "'screws'")
    if not block.given:
        return None
    block.only(("from_end", "spacing", "clear_of"))
    from_end = block.required("from_end", low=0, high=1000, hint="mm from each end of the steel to its first screw")
    spacing = block.required("spacing", low=50, high=LARGEST_SASH_MM, hint="mm from one screw to the next, at most")
    return None if from_end is None or spacing is None else Slots("", from_end, spacing, spacing / 2, clear_of=read_clear_of(block, AROUND_SCREWS))
