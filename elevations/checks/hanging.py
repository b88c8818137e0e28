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
from elevations.geometry.hardware import fits, items_by_kind, measured
from elevations.geometry.stations import to_station
from elevations.geometry.window import Light, Sash, Window
from elevations.plane import Box

RIGHT_ANGLE = 90.0
UPRIGHT = ("left", "right")
HINGE_KEYS = (*UPRIGHT, "top", "bottom")


@dataclass(frozen=True, slots=True)
class ClearOpening:
    """What a person can pass through with the sash as far open as it goes, mm; or the facts that are missing for it."""

    width: Calculation | CannotTell
    height: Calculation | CannotTell
    bottom: Calculation | CannotTell
    """Of the free opening, above the bottom of the frame."""
    lowest_mm: float
    """The lowest that it can begin, above the bottom of the frame."""

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
    """The free opening of a light: declared, or worked out for one rectangular sash hung at an edge; of others it can't be told."""
    box, declared = to_station(window.system, light.region, "sight").outline.bounds, light.spec.clear_opening
    edges = [edge for sash in light.sashes for edge in sash.hinge_edges if edge in HINGE_KEYS]
    width: Calculation | CannotTell
    height: Calculation | CannotTell
    if declared is not None:
        width, height = _declared("width", declared.width), _declared("height", declared.height)
    elif len(light.sashes) > 1 or not edges or not light.region.outline.is_box:
        width = height = CannotTell((f"clear_opening of light {light.number} ({light.words}), as its hardware's maker declares it",))
    else:
        turned = _turned(window, light, light.sashes[0], box, edges[0])
        width, height = (turned, _whole("height", box)) if edges[0] in UPRIGHT else (_whole("width", box), turned)
    return ClearOpening(width, height, _bottom(light, box, height), box.bottom)


def _declared(name: str, mm: float) -> Calculation:
    return Calculation(mm, "mm", (Step(f"clear {name}", mm, "mm", "job: clear_opening, declared"),))


def _bottom(light: Light, box: Box, height: Calculation | CannotTell) -> Calculation | CannotTell:
    """Where the free opening begins: at the light's bottom, unless the sash is in the way there."""
    declared = light.spec.clear_opening
    if declared is not None and declared.bottom is not None:
        return _declared("opening, its bottom", declared.bottom)
    moves = {edge for sash in light.sashes for edge in (*sash.hinge_edges[:1], sash.leaf.half_in, sash.leaf.slides) if edge}
    if moves and moves <= {"left", "right", "top"} and "top" not in {sash.leaf.half_in for sash in light.sashes}:
        return Calculation(box.bottom, "mm", (Step("bottom of the clear opening", box.bottom, "mm", "inmost edge of what the sash hangs in"),))
    if moves != {"bottom"}:
        return CannotTell((f"clear_opening: {{…, bottom: …}} of light {light.number} ({light.words}), where it begins above the frame's bottom",))
    if isinstance(height, CannotTell):
        return height
    bottom = box.top - height.value
    return Calculation(bottom, "mm", (*height.steps, Step("bottom of the clear opening", bottom, "mm", "top of the opening less its clear height")))


def _whole(name: str, box: Box) -> Calculation:
    mm = box.width if name == "width" else box.height
    return Calculation(mm, "mm", (Step(f"clear {name}", mm, "mm", "between the inmost edges of what the sash hangs in"),))


def _turned(window: Window, light: Light, sash: Sash, box: Box, edge: str) -> Calculation | CannotTell:
    """The free way across the axis that the sash turns on."""
    name = "width" if edge in UPRIGHT else "height"
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
