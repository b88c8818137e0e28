"""What the window weighs and how many people lift it: information for planning, no assessment."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import Result, shown
from elevations.checks.rule import Case, Rule
from elevations.geometry.mass import light_kg, profile_kg, steel_kg
from elevations.schedules.lifting import people_to_lift, people_words

KEY = "handling"
LEFT_OUT = "gaskets and hardware are left out, and beads whose mass is not known"


def check(case: Case) -> Iterator[Result]:
    """The heaviest pane, and the window with and without its glass."""
    heaviest = max(case.window.panes, key=lambda pane: pane.mass_kg)
    pane = Calculation(heaviest.mass_kg, "kg", (Step(f"glass {heaviest.tag}", heaviest.mass_kg, "kg", "2,500 kg/m3 (EN 572-1, from memory)"),))
    yield case.about(KEY, heaviest.tag).note(f"heaviest pane {shown(pane.value, 'kg')}: {_people(pane.value)}", pane)
    whole = whole_kg(case)
    if isinstance(whole, CannotTell):
        yield case.about(KEY).cannot_tell("mass of the window", *whole.needs)
    else:
        bare = whole.value - sum(p.mass_kg for p in case.window.panes)
        yield case.about(KEY).note(f"whole window {shown(whole.value, 'kg')}: {_people(whole.value)}; unglazed {shown(bare, 'kg')}: {_people(bare)}", whole)


def whole_kg(case: Case) -> Calculation | CannotTell:
    """Frame, bars, sashes and glass, kg; gaskets and hardware are left out."""
    window, system = case.window, case.window.system
    members = [*window.members, *window.bars]
    used = {member.profile for member in members} | ({"sash"} if window.sashes else set())
    missing = sorted(name for name in used if system.profiles[name].kg_per_m is None)
    if missing:
        return CannotTell((f"kg_per_m of {', '.join(missing)} in {system.name}",))
    frame = sum(profile_kg(window, member) for member in members)
    steel = sum(steel_kg(window, member) for member in members)
    lights = sum(light_kg(window, light) for light in window.lights)
    steps = (Step("frame and bars", frame, "kg", f"{system.name}: kg_per_m by cut length"),
             Step("their reinforcement, as cut", steel, "kg", "7,850 kg/m3 (from memory)"),
             Step("sashes, glass and beads", lights, "kg", "sum over the lights"), Step("whole window", frame + steel + lights, "kg", "sum"))
    return Calculation(frame + steel + lights, "kg", steps, (LEFT_OUT,))


def _people(mass_kg: float) -> str:
    people = people_to_lift(mass_kg)
    return "one person" if people == 1 else f"{people_words(people)} people (UK guideline, from memory)"


RULE = Rule(KEY, "Handling", "How heavy is it?", check, {})
