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
from elevations.geometry.window import Light, Sash
from elevations.plane import Box
from elevations.structure.dead_load import light_kg

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


def carriers(system: System, light: Light) -> list[HardwareItem]:
    """The items that can carry a sash of this way of opening, in the system's order: those with a greatest mass."""
    wanted = {""} | ({"escape"} if light.spec.escape else set()) | ({"restrictor"} if light.spec.restrictor else set())
    items = [item for item in system.hardware if light.opening in item.openings and item.mass_kg is not None and item.only in wanted]
    return sorted(items, key=lambda item: item.only == "")   # what the light asks for by name comes first


def carries(item: HardwareItem, width_mm: float, height_mm: float, mass_kg: float) -> bool:
    """Whether the item takes a sash of this size and mass, limits included."""
    return (
        item.width_mm[0] <= width_mm <= item.width_mm[1]
        and item.height_mm[0] <= height_mm <= item.height_mm[1]
        and (item.mass_kg is None or mass_kg <= item.mass_kg)
    )


def carrier(system: System, light: Light) -> HardwareItem | None:
    """The first item that carries the light's sash; None where none does."""
    box, mass = light.sashes[0].outer.outline.bounds, light_kg(system, light)
    return next((item for item in carriers(system, light) if carries(item, box.width, box.height, mass)), None)


def angle(system: System, light: Light) -> Calculation | CannotTell:
    """How far the light opens, degrees."""
    if light.spec.opens_to is not None:
        return Calculation(light.spec.opens_to, "degrees", (Step("opens to", light.spec.opens_to, "degrees", "job: opens_to"),))
    item = carrier(system, light)
    if item is not None and item.opens_degrees is not None:
        source = f"{system.name}: hardware {item.item}, {item.title}"
        return Calculation(item.opens_degrees, "degrees", (Step("opens to", item.opens_degrees, "degrees", source),))
    return CannotTell((f"opens_to of light {light.number} (how far it opens, degrees), or `opens` of its hardware in {system.name}",))


def clear_opening(system: System, light: Light) -> ClearOpening:
    """The free opening of a light with one sash, a rectangle hung at one of its edges; of others it can't be told."""
    box = to_station(system, light.region, "sight").outline.bounds
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
    free = _turned(system, light, sash, box, edges[0])
    whole = _whole("height" if turned == "width" else "width", box)
    bottom = box.top - free.value if edges[0] == "bottom" and isinstance(free, Calculation) else box.bottom
    return ClearOpening(free, whole, bottom) if turned == "width" else ClearOpening(whole, free, bottom)


def _whole(name: str, box: Box) -> Calculation:
    mm = box.width if name == "width" else box.height
    return Calculation(mm, "mm", (Step(f"clear {name}", mm, "mm", "between the inmost edges of what the sash hangs in"),))


def _turned(system: System, light: Light, sash: Sash, box: Box, edge: str) -> Calculation | CannotTell:
    """The free way across the axis that the sash turns on."""
    name = "width" if edge in ("left", "right") else "height"
    start = _whole(name, box)
    item, asked = carrier(system, light), light.spec.opens_to
    as_far = item is not None and (asked is None or (item.opens_degrees is not None and asked >= item.opens_degrees))
    if item is not None and item.takes_mm is not None and as_far:
        taken = Step("taken off by the open sash", -item.takes_mm, "mm", f"{system.name}: hardware {item.item}, {item.title}")
        free = max(0.0, start.value - item.takes_mm)
        return Calculation(free, "mm", (*start.steps, taken, Step(f"clear {name}, open", free, "mm", "sum")))
    opened = angle(system, light)
    if isinstance(opened, CannotTell):
        return opened
    outer = sash.outer.outline.bounds
    reach = {"left": box.right - outer.left, "right": outer.right - box.left, "top": outer.top - box.bottom, "bottom": box.top - outer.bottom}[edge]
    deep = sash_depth_mm(system)
    free = max(0.0, min(start.value, reach * math.sin(math.radians(min(opened.value, RIGHT_ANGLE))) - deep))
    steps = (
        *start.steps, *opened.steps, Step("hinge edge of the sash to the far edge of the opening", reach, "mm", "resolved window"),
        Step("depth of the sash", deep, "mm", f"{system.name}: section of the sash, or its depth"),
        Step(f"clear {name}, open = the smaller of the frame's and reach x sin(angle) - depth", free, "mm", "turning about its outer edge"),
    )
    return Calculation(free, "mm", steps, ("the sash turns about the outer edge of its hinge side, as on butt hinges",))


def sash_depth_mm(system: System) -> float:
    """How thick a sash is, across the window; the system's depth where it gives no outline."""
    section = system.profiles["sash"].section
    boxes = [part.outline.bounds for part in section.body if part.kind is PartKind.PROFILE] if section else []
    return max(b.top for b in boxes) - min(b.bottom for b in boxes) if boxes else system.depth
