"""What lights and sashes weigh, kg: glass, profiles, their reinforcement as it is cut, beads and glazing bars; gaskets and hardware are left out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from elevations.catalogue.system import PartKind, System
from elevations.geometry.region import Region
from elevations.geometry.stations import to_station
from elevations.geometry.steel import steel_of
from elevations.geometry.window import Light, Member, Pane, Window

STEEL_KG_M3 = 7850.0   # from memory
BEAD_KG_M3: Mapping[str, float] = {"pvc-u": 1400.0, "aluminium": 2700.0}
"""Of beads whose mass the system doesn't give. From memory; timber's depends on its species: it has none here."""


def kg_per_m(system: System, profile: str) -> float:
    """A member with reinforcement all along, kg/m: never less than it weighs. A profile whose mass the system doesn't give counts as nothing."""
    figures = system.profiles[profile]
    steel = sum(part.outline.area for part in figures.section.body if part.kind is PartKind.STEEL) if figures.section else 0.0
    return (figures.kg_per_m or 0.0) + steel * 1e-6 * STEEL_KG_M3


def profile_kg(window: Window, member: Member) -> float:
    """A member without its steel; one whose mass the system doesn't give counts as nothing."""
    return (window.system.profile(member.profile).kg_per_m or 0.0) * member.length.value / 1000


def steel_kg(window: Window, member: Member) -> float:
    """The reinforcement that is cut for a member; 0 where it gets none."""
    return sum(steel.part.outline.area * 1e-6 * steel.length / 1000 * STEEL_KG_M3 for steel in steel_of(window, member))


def sash_members(light: Light) -> Iterator[Member]:
    """Every length of profile of a light's sashes."""
    for sash in light.sashes:
        yield from sash.members
        if sash.stile is not None:
            yield sash.stile


def light_kg(window: Window, light: Light) -> float:
    """Mass of a light's glass with its beads and the glazing bars on its faces, and, where it has one, its sash."""
    sash = sum(profile_kg(window, member) + steel_kg(window, member) for member in sash_members(light))
    return sum(pane.mass_kg for pane in light.panes) + sash + beads_kg(window, light) + glazing_bars_kg(window, light)


def beads_kg(window: Window, light: Light) -> float:
    """The beads of a light's panes; those whose mass is not known count as nothing."""
    total = 0.0
    for pane, bounds in held(light):
        seat, _ = bead_seat(window.system, bounds, pane)
        total += (bead_kg_per_m(window.system, pane.holder) or 0.0) * sum(map(seat.outline.length, range(len(seat.sides)))) / 1000
    return total


def glazing_bars_kg(window: Window, light: Light) -> float:
    """The glazing bars on both faces of a light's panes; where the system doesn't give their mass they count as nothing."""
    figures = window.system.glazing_bars.get("on-face")
    metres = sum(bar.length.value for pane in light.panes for bar in pane.bars if bar.kind == "on-face") / 1000
    return 2 * metres * ((figures.kg_per_m or 0.0) if figures else 0.0)


def held(light: Light) -> Iterator[tuple[Pane, Region]]:
    """Each pane of a light with the outer edge of what holds it: its sash, or where the frame and bars bound the light."""
    for number, pane in enumerate(light.panes):
        yield pane, light.sashes[number].outer if pane.holder == "sash" else light.region


def bead_seat(system: System, bounds: Region, pane: Pane) -> tuple[Region, str]:
    """Where the beads' outer edges lie: at the system's bead stations, else at the rebate, which the remark then says."""
    if all(system.profiles[side.profile].bead is not None for side in bounds.sides):
        return to_station(system, bounds, "bead"), ""
    return pane.tight, "cut to the rebate: the system gives no bead edge"


def bead_kg_per_m(system: System, holder: str) -> float | None:
    """Of the bead in a frame or a sash: as the system says, else from its outline and what its material usually weighs."""
    if system.bead_kg_per_m is not None:
        return system.bead_kg_per_m
    section, density = system.profiles[holder].section, BEAD_KG_M3.get(system.material)
    areas = [part.outline.area for part in section.glazed if part.kind is PartKind.BEAD] if section else []
    return sum(areas) * 1e-6 * density if areas and density else None
