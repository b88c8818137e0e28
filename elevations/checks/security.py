"""Whether the window can easily be reached from outside: information for choosing locks, not a check of them."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import SAME, Result, shown
from elevations.checks.rule import WORK, Case, Rule

KEY = "security"


def check(case: Case) -> Iterator[Result]:
    """Height of the frame's bottom above the ground outside."""
    about, reach, work = case.about(KEY), case.rules.limit("reach-from-outside"), case.building.work
    if reach is None:
        yield about.not_applicable("these rules give no figure")
    elif work == "replacement":
        yield about.not_applicable("asked for in new dwellings; worth choosing for a replaced window too")
    elif work is None:
        yield about.cannot_tell("whether resistance to break-in is asked for", WORK)
    else:
        height = _above_ground(case)
        if isinstance(height, CannotTell):
            yield about.cannot_tell("whether it is easily accessible", *height.needs)
        elif height.value <= reach.value + SAME:
            yield about.note(
                f"easily accessible, {shown(height.value, 'mm')} above the ground: resistance to break-in by PAS 24 or equivalent is asked for", height, reach)
        else:
            yield about.note(
                f"{shown(height.value, 'mm')} above the ground; a flat roof or the like within {shown(reach.value, 'mm')} would make it accessible",
                height, reach)


def _above_ground(case: Case) -> Calculation | CannotTell:
    floor, drop = case.above_floor(0.0, "itself"), case.given_drop()
    if isinstance(floor, CannotTell) or isinstance(drop, CannotTell):
        return CannotTell(tuple(n for found in (floor, drop) if isinstance(found, CannotTell) for n in found.needs))
    total = floor.value + drop.value
    return Calculation(total, "mm", (*floor.steps, *drop.steps, Step("bottom of the frame above the ground", total, "mm", "sum")), floor.assumed)


RULE = Rule(KEY, "Security", "Is the window easily reached from outside?", check, {"reach-from-outside": "mm"})
