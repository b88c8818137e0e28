"""What a sash hangs on, and how large its free opening is when it is open as far as that goes.

How far a sash stands off when open is the hardware's business. Where its maker gives a figure (`takes` in the system's
file, or `clear_opening` in the job) that is used. Otherwise the sash is taken to turn about the outer edge of its hinge
side, as on butt hinges, and the free way between it and the far side of the frame is worked out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from elevations.calculation import Calculation, CannotTell, Step
from elevations.catalogue.hardware import HardwareItem
from elevations.catalogue.system import PartKind, System
from elevations.geometry.stations import to_station
from elevations.geometry.window import Light, Sash, Window
from elevations.plane import Box
from elevations.schedules.hardware import fits, items_by_kind, measured

RIGHT_ANGLE = 90.0
HINGE_KEYS = ("left", "right", "top", "bottom")


@dataclass(frozen=True, slots=True)
class ClearOpening:
    """What a person can pass through with the sash as far open as it goes, mm; or the facts that are missing for it."""

    width: Calculation | CannotTell
    height: Calculation | CannotTell
    bottom_mm: float
    """Of the free opening, above the bottom of the frame; the frame's own edge where it is not known."""

    @property
    def area(self) -> Calculation | CannotTell:
        """m2."""
        if isinstance(self.width, CannotTell) or isinstance(self.height, CannotTell):
            sides = (self.width, self.height)
            return CannotTell(tuple(dict.fromkeys(n for side in sides if isinstance(side, CannotTell) for n in side.needs)))
        area = self.width.value * self.height.value / 1e6
        steps = (*self.width.steps, *self.height.steps, Step("clear width x clear height", area, "m2", "product"))
        return Calculation(area, "m2", steps, tuple(dict.fromkeys((*self.width.assumed, *self.height.assumed))))


def carriers(window: Window, light: Light) -> list[HardwareItem]:
    """The items that can carry a sash of this way of opening, the preferred first: those with a greatest mass."""
    return [item for items in items_by_kind(window, light).values() for item in items if item.mass_kg is not None]


def carrier(window: Window, light: Light, sash: Sash | None = None) -> HardwareItem | None:
    """The item that carries a sash of the light, its first one without a name, as the hardware schedule chooses it; None where none does."""
    seen = measured(window, light, sash or light.sashes[0])
    return next((item for item in carriers(window, light) if fits(item, seen)), None)


def angle(window: Window, light: Light) -> Calculation | CannotTell:
    """How far the light opens, degrees."""
    if light.spec.opens_to is not None:
        return Calculation(light.spec.opens_to, "degrees", (Step("opens to", light.spec.opens_to, "degrees", "job: opens_to"),))
    item = carrier(window, light)
    if item is not None and item.opens_degrees is not None:
        source = f"{window.system.name}: hardware {item.item}, {item.title}"
        return Calculation(item.opens_degrees, "degrees", (Step("opens to", item.opens_degrees, "degrees", source),))
    return CannotTell((f"opens_to of light {light.number} (how far it opens, degrees), or `opens` of its hardware in {window.system.name}",))


def clear_opening(window: Window, light: Light) -> ClearOpening:
    """The free opening of a light with one sash, a rectangle hung at one of its edges; of others it can't be told."""
    box = to_station(window.system, light.region, "sight").outline.bounds
    declared = light.spec.clear_opening
    if declared is not None:
        width, height = (
            Calculation(mm, "mm", (Step(f"clear {name}", mm, "mm", "job: clear_opening, declared"),))
            for name, mm in (("width", declared.width), ("height", declared.height))
        )
        return ClearOpening(width, height, box.bottom)
    (sash, *others) = light.sashes
    edges = [edge for edge in sash.hinge_edges if edge in HINGE_KEYS]
    if others or not edges or not light.region.outline.is_box:
        missing = CannotTell((f"clear_opening of light {light.number} ({light.words}), as its hardware's maker declares it",))
        return ClearOpening(missing, missing, box.bottom)
    turned = "width" if edges[0] in ("left", "right") else "height"
    free = _turned(window, light, sash, box, edges[0])
    whole = _whole("height" if turned == "width" else "width", box)
    bottom = box.top - free.value if edges[0] == "bottom" and isinstance(free, Calculation) else box.bottom
    return ClearOpening(free, whole, bottom) if turned == "width" else ClearOpening(whole, free, bottom)


def _whole(name: str, box: Box) -> Calculation:
    mm = box.width if name == "width" else box.height
    return Calculation(mm, "mm", (Step(f"clear {name}", mm, "mm", "between the inmost edges of what the sash hangs in"),))


def _turned(window: Window, light: Light, sash: Sash, box: Box, edge: str) -> Calculation | CannotTell:
    """The free way across the axis that the sash turns on."""
    name = "width" if edge in ("left", "right") else "height"
    start = _whole(name, box)
    item, asked = carrier(window, light), light.spec.opens_to
    as_far = item is not None and (asked is None or (item.opens_degrees is not None and asked >= item.opens_degrees))
    if item is not None and item.takes_mm is not None and as_far:
        taken = Step("taken off by the open sash", -item.takes_mm, "mm", f"{window.system.name}: hardware {item.item}, {item.title}")
        free = max(0.0, start.value - item.takes_mm)
        return Calculation(free, "mm", (*start.steps, taken, Step(f"clear {name}, open", free, "mm", "sum")))
    opened = angle(window, light)
    if isinstance(opened, CannotTell):
        return opened
    outer = sash.outer.outline.bounds
    reach = {"left": box.right - outer.left, "right": outer.right - box.left, "top": outer.top - box.bottom, "bottom": box.top - outer.bottom}[edge]
    deep = sash_depth_mm(window.system)
    free = max(0.0, min(start.value, reach * math.sin(math.radians(min(opened.value, RIGHT_ANGLE))) - deep))
    steps = (
        *start.steps, *opened.steps, Step("hinge edge of the sash to the far edge of the opening", reach, "mm", "resolved window"),
        Step("depth of the sash", deep, "mm", f"{window.system.name}: section of the sash, or its depth"),
        Step(f"clear {name}, open = the smaller of the frame's and reach x sin(angle) - depth", free, "mm", "turning about its outer edge"),
    )
    return Calculation(free, "mm", steps, ("the sash turns about the outer edge of its hinge side, as on butt hinges",))


def sash_depth_mm(system: System) -> float:
    """How thick a sash is, across the window; the system's depth where it gives no outline."""
    section = system.profiles["sash"].section
    boxes = [part.outline.bounds for part in section.body if part.kind is PartKind.PROFILE] if section else []
    return max(b.top for b in boxes) - min(b.bottom for b in boxes) if boxes else system.depth
