"""Air when the window is shut: background ventilators of a replaced window."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import Limit, Result
from elevations.checks.rule import WORK, Case, Rule

KEY = "vents"
VENTILATION = "building: {ventilation: …} (natural or mechanical)"
OLD = "old_vent (mm2 of the replaced window's ventilators, 0 where it had none)"


def check(case: Case) -> Iterator[Result]:
    """The equivalent area that the window's ventilators have, and how high they are."""
    about, kind = case.about(KEY), case.room_kind
    if case.building.ventilation == "mechanical":
        yield about.not_applicable("the dwelling has continuous mechanical supply and extract")
        return
    if case.building.work == "new-dwelling":
        yield about.not_applicable("in a new dwelling ventilators are counted over the whole dwelling, not by window")
        return
    what = "equivalent area of its ventilators"
    if kind == "other":
        yield about.not_applicable(f"these rules ask for no ventilator in a room for '{case.room_use}'")
        return
    needs = [
        *([] if case.building.work else [WORK]), *([] if case.building.ventilation else [VENTILATION]), *([] if kind else [case.room_need]),
        *([] if case.spec.old_vent is not None else [OLD]),
    ]
    found = given_area(case)
    if isinstance(found, CannotTell):
        needs += found.needs
    if needs or isinstance(found, CannotTell) or kind is None:
        yield about.cannot_tell(what, *needs)
        return
    least = _least(case, kind)
    if least is None:
        yield about.note("no least area is set for this room: fit the largest ventilator that goes in", found)
    else:
        yield about.at_least(what, found, least, hint="larger or more ventilators (vent: … on the lights)")
    yield from _heights(case)


def given_area(case: Case) -> Calculation | CannotTell:
    """Equivalent area of all ventilators of the window, mm2; a light without the key has none, where another has it."""
    given = [(light.number, light.spec.vent) for light in case.window.lights if light.spec.vent is not None]
    if not given:
        return CannotTell(("vent of its lights (mm2 of equivalent area, 0 where there is none)",))
    total = sum(area for _, area in given)
    steps = [Step(f"vent of light {number}", area, "mm2", "job: vent") for number, area in given]
    return Calculation(total, "mm2", (*steps, Step("all ventilators of the window", total, "mm2", "sum")))


def _least(case: Case, kind: str) -> Limit | None:
    """The area that the room asks for; the old window's own where it had ventilators."""
    old, same = case.spec.old_vent, case.rules.limit("vent-as-old")
    if old and same:
        return Limit(old * same.value, "mm2", same.clause, same.edition, same.sure, same.source)
    return case.rules.limit(f"vent-{kind}")


def _heights(case: Case) -> Iterator[Result]:
    """Ventilators are taken to be at the top of their light: the highest place they can have."""
    for light in case.window.lights:
        if light.spec.vent:
            top = case.above_floor(light.region.outline.bounds.top, "the top of the light")
            if isinstance(top, Calculation):
                top = Calculation(top.value, top.unit, top.steps, (*top.assumed, "the ventilator is at the top of its light"))
            about = case.about(KEY, f"light {light.number}")
            yield about.at_least("height of its ventilator above the floor", top, case.rules.limit("vent-height"))


RULE = Rule(
    KEY, "Background ventilation", "Does fresh air come in while the window is shut?", check,
    {
        "vent-as-old": "", "vent-habitable": "mm2", "vent-kitchen": "mm2", "vent-bathroom": "mm2", "vent-sanitary": "mm2",
        "vent-utility": "mm2", "vent-height": "mm",
    },
)
