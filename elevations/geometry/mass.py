"""What lights and sashes weigh, kg: glass, profiles and their reinforcement; beads, gaskets and hardware are left out."""

from __future__ import annotations

from elevations.catalogue.system import PartKind, System
from elevations.geometry.window import Light

STEEL_KG_M3 = 7850.0   # from memory


def kg_per_m(system: System, profile: str) -> float:
    """A member with its reinforcement, kg/m; a profile whose mass the system doesn't give counts as nothing."""
    figures = system.profiles[profile]
    steel = sum(part.outline.area for part in figures.section.body if part.kind is PartKind.STEEL) if figures.section else 0.0
    return (figures.kg_per_m or 0.0) + steel * 1e-6 * STEEL_KG_M3


def light_kg(system: System, light: Light) -> float:
    """Mass of a light's glass and, where it has one, its sash."""
    members = [member for sash in light.sashes for member in sash.members]
    sash = sum(kg_per_m(system, member.profile) * member.length.value / 1000 for member in members)
    stiles = [sash.stile for sash in light.sashes if sash.stile is not None]
    between = sum((system.profile(stile.profile).kg_per_m or 0.0) * stile.length.value / 1000 for stile in stiles)
    return sum(pane.mass_kg for pane in light.panes) + sash + between
