"""Whether the hardware of the profile system carries each sash, by its size and mass."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, Step
from elevations.catalogue.hardware import HardwareItem
from elevations.checks.hanging import carrier, carriers
from elevations.checks.results import Limit, Result, State, shown
from elevations.checks.rule import Case, Rule
from elevations.geometry.mass import (
    bead_kg_per_m,
    beads_kg,
    glazing_bars_kg,
    light_kg,
    profile_kg,
    sash_members,
    steel_kg,
)
from elevations.geometry.window import Light, Sash
from elevations.schedules.hardware import NONE_CARRIES, limits_words

KEY = "sash-limits"


def check(case: Case) -> Iterator[Result]:
    """Every sash that opens."""
    if not case.opening_lights:
        yield case.about(KEY).not_applicable("no light opens")
    for light in case.opening_lights:
        for sash in light.sashes:
            if not (sash.dummy or sash.leaf.fixed):
                yield _of_sash(case, light, sash)


def _of_sash(case: Case, light: Light, sash: Sash) -> Result:
    system, about = case.window.system, case.about(KEY, sash.tag)
    items = carriers(case.window, light)
    if not items:
        return about.cannot_tell("whether its hardware carries it", f"hardware for {light.opening} with sizes and mass in {system.name}")
    if system.profiles["sash"].kg_per_m is None:
        return about.cannot_tell("its mass", f"kg_per_m of the sash in {system.name}")
    box, mass = sash.outer.outline.bounds, mass_of(case, light)
    size = f"{shown(box.width, 'mm').removesuffix(' mm')} × {shown(box.height, 'mm')}"
    found = carrier(case.window, light, sash)
    if found is not None:
        return about.result(
            State.PASS, f"{size}, {shown(mass.value, 'kg')}: {found.item}, {found.title}, carries {limits_words(found)}",
            value=mass, limit=_limit(case, found), sense="at most",
        )
    nearest = max(items, key=lambda item: (item.width_mm[0] <= box.width <= item.width_mm[1], item.height_mm[0] <= box.height <= item.height_mm[1], item.mass_kg or 0))
    limit = _limit(case, nearest)
    return about.result(
        State.FAIL if limit.hard else State.WARN, f"{size}, {shown(mass.value, 'kg')}: nothing in {system.name} carries it; the nearest, {nearest.item}, takes {limits_words(nearest)}",
        value=mass, limit=limit, sense="at most", hint="a smaller sash, lighter glass, or hardware for it in the system's file", repeats=NONE_CARRIES,
    )


def mass_of(case: Case, light: Light) -> Calculation:
    """Sash profiles with the reinforcement that is cut for them, beads and glass, kg: of each sash, where a light has two alike."""
    window, count, members = case.window, len(light.sashes), list(sash_members(light))
    steps = [Step(f"glass {pane.tag}", pane.mass_kg, "kg", "2,500 kg/m3 (EN 572-1, from memory)") for pane in light.panes]
    profiles, steel = sum(profile_kg(window, member) for member in members), sum(steel_kg(window, member) for member in members)
    steps += [
        Step("sash profiles", sum(member.length.value for member in members) / 1000, "m", "cut lengths"),
        Step("they weigh", profiles, "kg", f"{window.system.name}: kg_per_m of its members"),
        Step("their reinforcement", steel, "kg", "as in the cutting list; 7,850 kg/m3 (from memory)" if steel else "none is cut for them"),
        Step("glazing beads", beads_kg(window, light), "kg", "as in the cutting list" if bead_kg_per_m(window.system, "sash") else "not known: left out"),
    ]
    if any(pane.bars for pane in light.panes):
        steps.append(Step("glazing bars on the glass", glazing_bars_kg(window, light), "kg", "as in the cutting list"))
    total = light_kg(window, light) / count
    steps.append(Step("mass of the sash" if count == 1 else f"mass of each of {count} sashes, shared out evenly", total, "kg", "sum"))
    return Calculation(total, "kg", tuple(steps), ("gaskets and hardware are left out",))


def _limit(case: Case, item: HardwareItem) -> Limit:
    system = case.window.system
    sure = "demonstration data" if system.demonstration else "declared"
    return Limit(item.mass_kg or 0.0, "kg", f"{system.name}: hardware {item.item}", "", sure)


RULE = Rule(KEY, "Sash sizes", "Does the hardware carry each sash?", check, {})
