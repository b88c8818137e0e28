"""Which of the system's hardware each sash gets: of each kind the first whose limits of size and mass it keeps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.catalogue.hardware import HardwareItem
from elevations.geometry.mass import light_kg
from elevations.geometry.window import Light, Sash, Window


@dataclass(frozen=True, slots=True)
class Measured:
    """A sash as hardware sees it."""

    tag: str
    width_mm: float
    height_mm: float
    mass_kg: float
    """With its glass; profiles and beads whose mass the system does not give count as nothing."""

    @property
    def words(self) -> str:
        """'542 x 964 mm, 11.9 kg'."""
        return f"{self.width_mm:g} x {self.height_mm:g} mm, {self.mass_kg:g} kg"


def measured(window: Window, light: Light, sash: Sash) -> Measured:
    """Size and mass of a sash, to 0.1 mm and 0.1 kg; the light's mass shared out where it has several sashes."""
    box = sash.outer.outline.bounds
    mass = light_kg(window, light) / len(light.sashes)
    return Measured(f"{window.mark}-{sash.tag}", round(box.width, 1), round(box.height, 1), round(mass, 1))


def opening_sashes(window: Window) -> Iterator[tuple[Light, Sash]]:
    """Every sash that is no dummy, with its light."""
    for light in window.lights:
        yield from ((light, sash) for sash in light.sashes if not sash.dummy)


def items_by_kind(window: Window, light: Light) -> dict[str, list[HardwareItem]]:
    """The system's items that a light may get, by kind; those that are for its special needs first."""
    wanted = {"", *(["restrictor"] if light.spec.restrictor else []), *(["escape"] if light.spec.escape else [])}
    found: dict[str, list[HardwareItem]] = {}
    for item in sorted(window.system.hardware, key=lambda item: not item.only):
        if light.opening in item.openings and item.only in wanted:
            found.setdefault(item.kind, []).append(item)
    return found


def fits(item: HardwareItem, sash: Measured) -> bool:
    """Whether size and mass lie within an item's limits."""
    within = item.width_mm[0] <= sash.width_mm <= item.width_mm[1] and item.height_mm[0] <= sash.height_mm <= item.height_mm[1]
    return within and (item.mass_kg is None or sash.mass_kg <= item.mass_kg)


def chosen(window: Window, light: Light, sash: Sash, seen: Measured) -> dict[str, HardwareItem | None]:
    """The item of each kind that a sash gets: the first that fits it; None where none does."""
    return {
        kind: next((item for item in items if fits(item, seen)), None) for kind, items in items_by_kind(window, light).items()
        if not (kind == "handle" and sash.leaf.follows)   # it opens once the other is open, by its own bolts
    }


def fitted(window: Window, light: Light) -> Iterator[tuple[Sash, HardwareItem]]:
    """Every item that the sashes of a light get, sash by sash."""
    for sash in light.sashes:
        items = {} if sash.dummy else chosen(window, light, sash, measured(window, light, sash))
        yield from ((sash, item) for item in items.values() if item is not None)
