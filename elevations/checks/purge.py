"""Whether the window can be opened wide enough to change the air of its room quickly."""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.hanging import angle
from elevations.checks.results import SAME, Limit, Result
from elevations.checks.rule import Case, Rule
from elevations.geometry.stations import to_station
from elevations.geometry.window import Light

KEY = "purge"
AREA = "room: {floor_area: …} (m2)"


def check(case: Case) -> Iterator[Result]:
    """Openable area against the floor's, by how far the lights open; other windows of the room may add to it."""
    about, kind = case.about(KEY), case.room_kind
    wide, narrow = case.rules.limit("purge-wide-share"), case.rules.limit("purge-narrow-share")
    if kind is None:
        yield about.cannot_tell("whether the room needs purge ventilation", case.room_need)
    elif kind != "habitable" or wide is None or narrow is None:
        yield about.not_applicable(f"not asked for in a room for '{case.room_use}'")
    elif case.spec.room is None or case.spec.room.floor_area is None:
        yield about.cannot_tell("openable area", AREA)
    else:
        floor = case.spec.room.floor_area
        limit = Limit(wide.value * floor, "m2", wide.clause, wide.edition, wide.sure, wide.source)
        yield about.at_least(
            "openable area of this window", openable(case, wide.value / narrow.value if narrow.value else 0.0), limit, soft=True,
            hint="other windows of the room count too; else larger opening lights, or lights that open further",
        )


def openable(case: Case, narrow_worth: float) -> Calculation | CannotTell:
    """Height x width of what opens, m2; lights that open less far count for less, as they must be larger for the same."""
    parts = [_turning(case, light, narrow_worth) if _turns(light) else _sliding(light) for light in case.opening_lights]
    needs = tuple(need for part in parts if isinstance(part, CannotTell) for need in part.needs)
    if needs:
        return CannotTell(needs)
    known = [part for part in parts if isinstance(part, Calculation)]
    total = sum(part.value for part in known)
    steps = [step for part in known for step in part.steps]
    return Calculation(total, "m2", (*steps, Step("openable area", total, "m2", "sum over the lights that open")))


def _turns(light: Light) -> bool:
    """Whether its sashes turn, about an edge or about their middle."""
    return any(sash.hinge_edges or sash.leaf.half_in for sash in light.sashes)


def _sliding(light: Light) -> Calculation | CannotTell:
    """What is free of a light that does not turn: only its hardware's maker knows."""
    free = light.spec.clear_opening
    if free is None or (light.spec.restrictor and not light.spec.restrictor_releases):
        return CannotTell((f"clear_opening of light {light.number} ({light.words}), as its hardware's maker declares it, and no restrictor that stays",))
    area = free.width * free.height / 1e6
    return Calculation(area, "m2", (Step(f"clear opening of light {light.number}, which does not turn", area, "m2", "job: clear_opening"),))


def _turning(case: Case, light: Light, narrow_worth: float) -> Calculation | CannotTell:
    """What a light counts for by how far it opens."""
    opened = opens(case, light)
    if isinstance(opened, CannotTell):
        return opened
    least, full = case.rules.limit("purge-least-angle"), case.rules.limit("purge-wide-angle")
    worth = 1.0 if full and opened.value >= full.value - SAME else narrow_worth if least and opened.value >= least.value - SAME else 0.0
    area = to_station(case.window.system, light.region, "sight").outline.area / 1e6
    return Calculation(worth * area, "m2", (
        *opened.steps, Step(f"opening of light {light.number}", area, "m2", "between the inmost edges of what the sash hangs in"),
        Step(f"counted for {worth:g} of it, as it opens {opened.value:g} degrees", worth * area, "m2", "mixed angles: common practice, no source"),
    ))


def opens(case: Case, light: Light) -> Calculation | CannotTell:
    """How far it opens for air, degrees: a restrictor that cannot be released by hand holds it."""
    free = angle(case.window, light)
    if not light.spec.restrictor or light.spec.restrictor_releases:
        return free
    if light.spec.restrictor_releases is None:
        return CannotTell((f"restrictor_releases of light {light.number} (true or false)",))
    held = case.rules.limit("restrictor-opening")
    edges = [edge for sash in light.sashes for edge in sash.hinge_edges]
    box = light.sashes[0].outer.outline.bounds
    if held is None:
        return free
    if not edges:
        return CannotTell((f"how far its restrictor lets light {light.number} ({light.words}) open",))
    reach = box.width if edges[0] in ("left", "right") else box.height
    degrees = math.degrees(2 * math.asin(min(1.0, held.value / 2 / reach)))
    return Calculation(degrees, "degrees", (
        Step(f"restrictor of light {light.number}", held.value, "mm", held.words),
        Step("opens to", degrees, "degrees", f"a chord of {held.value:g} over a sash {reach:g} from its hinges"),
    ))


RULE = Rule(
    KEY, "Purge ventilation", "Can the room be aired quickly?", check,
    {"purge-wide-share": "", "purge-narrow-share": "", "purge-wide-angle": "degrees", "purge-least-angle": "degrees", "restrictor-opening": "mm"},
)
