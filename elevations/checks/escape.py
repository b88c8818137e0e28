"""Whether a window serves as a way of escape: its free opening, its height above the floor, what holds it shut."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import CannotTell
from elevations.checks.hanging import clear_opening
from elevations.checks.results import Limit, Result, State
from elevations.checks.rule import DROP, Case, Rule
from elevations.geometry.window import Light

KEY = "escape"
WAY_OUT = "room: {exit: …} (hall, protected-stair or through-room)"


def check(case: Case) -> Iterator[Result]:
    """Every light that is meant as a way of escape; else whether the room asks for one."""
    lights = [light for light in case.window.lights if light.spec.escape]
    for light in lights:
        yield from _of_light(case, light)
    if lights:
        yield from _storey(case)
    else:
        yield _wanted(case)


def _of_light(case: Case, light: Light) -> Iterator[Result]:
    about, limit = case.about(KEY, f"light {light.number}"), case.rules.limit
    clear = clear_opening(case.window, light)
    yield about.at_least("clear area", clear.area, limit("escape-area"), hint="a wider or higher sash, or hinges that take less of the opening")
    yield about.at_least("clear width", clear.width, limit("escape-width"), hint="a wider sash, or hinges that take less of the opening")
    yield about.at_least("clear height", clear.height, limit("escape-height"), hint="a higher sash")
    bottom = clear.bottom if isinstance(clear.bottom, CannotTell) else case.above_floor(clear.bottom.value, "the bottom of the clear opening")
    yield about.at_most("bottom of the clear opening above the floor", bottom, limit("escape-bottom"))
    if light.spec.restrictor:
        yield _restrictor(case, light, limit("escape-restrictor-releases"))


def _restrictor(case: Case, light: Light, limit: Limit | None) -> Result:
    about, releases = case.about(KEY, f"light {light.number}"), light.spec.restrictor_releases
    if releases is None:
        return about.cannot_tell("its restrictor on an escape window", f"restrictor_releases of light {light.number} (true or false)")
    if releases:
        return about.result(State.PASS, "its restrictor can be released by hand", limit=limit)
    state = State.FAIL if limit and limit.hard else State.WARN
    return about.result(state, "its restrictor cannot be released by hand, and would hold the way out shut", limit=limit, hint="fit one that releases")


def _storey(case: Case) -> Iterator[Result]:
    """How high above the ground the floor may be for escape through a window."""
    limit, about = case.rules.limit("escape-storey"), case.about(KEY)
    if case.spec.storey == "ground":
        yield about.result(State.PASS, "a ground storey: escape leads to the ground")
    elif case.spec.drop is None:
        yield about.cannot_tell("height of the floor above the ground", DROP)
    else:
        yield about.at_most("height of the floor above the ground", case.given_drop(), limit)


def _wanted(case: Case) -> Result:
    """Whether the room asks for a way of escape, where no light of the window is meant as one."""
    about, kind = case.about(KEY), case.room_kind
    if kind is None:
        return about.cannot_tell("whether the room needs an escape window", case.room_need)
    if kind != "habitable":
        return about.not_applicable(f"no escape window is asked for in a room for '{case.room_use}'")
    if case.spec.storey is None:
        return about.cannot_tell("whether the room needs an escape window", "storey (ground or upper)")
    way_out = case.spec.room.exit if case.spec.room else None
    if way_out is None:
        return about.cannot_tell("whether the room needs an escape window", WAY_OUT)
    if way_out == "protected-stair" or (way_out == "hall" and case.spec.storey == "ground"):
        where = "a hall that leads to the outside" if way_out == "hall" else "a protected stair"
        return about.not_applicable(f"the room has its way out by {where}")
    return about.cannot_tell(
        "the room needs a way of escape", "which of its windows is the escape window (escape: true on a light of that window)"
    )


RULE = Rule(
    KEY, "Way of escape", "Can somebody get out through it in a fire, where the room needs that?", check,
    {
        "escape-area": "m2", "escape-width": "mm", "escape-height": "mm", "escape-bottom": "mm", "escape-storey": "mm",
        "escape-restrictor-releases": "",
    },
)
