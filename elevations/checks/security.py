"""Whether the window can easily be reached from outside, and its glass taken out there: for choosing locks and beads, not a check of them."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import SAME, Result, State, shown
from elevations.checks.rule import WORK, Case, Rule
from elevations.geometry.beads import outer_beaded

KEY = "security"


def check(case: Case) -> Iterator[Result]:
    """Height of the frame's bottom above the ground outside; then the glass whose beads are on the outer face."""
    yield _reach(case)
    yield from _beads(case)


def _reach(case: Case) -> Result:
    about, reach, work = case.about(KEY), case.rules.limit("reach-from-outside"), case.building.work
    if reach is None:
        return about.not_applicable("these rules give no figure")
    if work == "replacement":
        return about.not_applicable("asked for in new dwellings; worth choosing for a replaced window too")
    if work is None:
        return about.cannot_tell("whether resistance to break-in is asked for", WORK)
    height = _above_ground(case)
    if isinstance(height, CannotTell):
        return about.cannot_tell("whether it is easily accessible", *height.needs)
    if height.value <= reach.value + SAME:
        return about.note(
            f"easily accessible, {shown(height.value, 'mm')} above the ground: resistance to break-in by PAS 24 or equivalent is asked for", height, reach)
    return about.note(
        f"{shown(height.value, 'mm')} above the ground; a flat roof or the like within {shown(reach.value, 'mm')} would make it accessible",
        height, reach)


def _beads(case: Case) -> Iterator[Result]:
    """Glass that comes out from outside, however old the building is: doubtful within reach, worth knowing above it."""
    panes, reach = outer_beaded(case.window), case.rules.limit("reach-from-outside")
    if not panes or reach is None:
        return
    about, height = case.about(KEY, ", ".join(pane.tag for pane in panes)), _above_ground(case)
    why = "profiles built inside out" if case.window.reversed else f"{case.window.system.name}: glazing"
    if isinstance(height, CannotTell):
        yield about.cannot_tell(f"whether glass with its beads on the outer face ({why}) can be reached", *height.needs)
    elif height.value <= reach.value + SAME:
        yield about.result(
            State.WARN, f"beads on the outer face ({why}), {shown(height.value, 'mm')} above the ground: the glass can be taken out from outside",
            value=height, limit=reach, sense="more than", hint="beads inside, or the supplier's word how the outer ones and the glass are held",
        )
    else:
        yield about.note(f"beads on the outer face ({why}), {shown(height.value, 'mm')} above the ground: glass is changed from outside", height, reach)


def _above_ground(case: Case) -> Calculation | CannotTell:
    floor, drop = case.above_floor(0.0, "itself"), case.given_drop()
    if isinstance(floor, CannotTell) or isinstance(drop, CannotTell):
        return CannotTell(tuple(n for found in (floor, drop) if isinstance(found, CannotTell) for n in found.needs))
    total = floor.value + drop.value
    return Calculation(total, "mm", (*floor.steps, *drop.steps, Step("bottom of the frame above the ground", total, "mm", "sum")), floor.assumed)


RULE = Rule(KEY, "Security", "Is the window easily reached from outside, and its glass with it?", check, {"reach-from-outside": "mm"})
