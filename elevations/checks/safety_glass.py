"""Whether glass that people may walk or fall into is safe: low down, beside doors, at baths and showers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.calculation import Calculation, CannotTell
from elevations.checks.results import SAME, About, Limit, Result, State, shown
from elevations.checks.rule import DROP, Case, Rule, level
from elevations.geometry.window import Pane
from elevations.spec.glass import PANES_NAMED

KEY = "safety-glass"
NEAR = "near ([door] where a door's edge is within 300 mm, [bath] where a bath or shower is within 800 mm, [] where neither is)"
ASSUMED_CLASS = 3
"""What toughened and laminated glass is taken to reach where no class is declared: the lowest (from memory)."""
SAFE_OTHERWISE = "or small panes, robust thickness, or a permanent screen in front, as the document allows"


@dataclass(frozen=True, slots=True)
class _Zone:
    """Why a pane must be safe, and which class its glass must be of at least."""

    why: str
    limit: Limit | None
    impact_class: int


def check(case: Case) -> Iterator[Result]:
    """Every pane by the height of its visible glass above the floor and by what is near the window."""
    for pane in case.window.panes:
        yield _of_pane(case, pane)


def _of_pane(case: Case, pane: Pane) -> Result:
    about = case.about(KEY, pane.tag)
    bottom = case.above_floor(level(pane), "the visible glass")
    value = None if isinstance(bottom, CannotTell) else bottom
    zones, needs = _zones(case, pane, bottom), _missing(case, bottom)
    if zones:
        return _held(case, pane, about, min(zones, key=lambda zone: zone.impact_class), bottom)
    if not needs:
        said = "not in a critical location"
        if case.spec.near is None:
            said += f", as no bath or shower is expected in a room for '{case.room_use}'"
        return about.result(State.NOT_APPLICABLE, said, value=value, limit=case.rules.limit("safety-low"))
    if _safe_anywhere(case, pane):
        return about.result(State.PASS, f"safety glass on both sides{_class_words(pane)}", value=value)
    return about.cannot_tell("whether the glass is in a critical location", *needs)


def _zones(case: Case, pane: Pane, bottom: Calculation | CannotTell) -> list[_Zone]:
    """The critical locations that any part of the pane's visible glass is in, as far as the job tells."""
    limit, near = case.rules.limit, case.spec.near or ()
    low, door, zones = limit("safety-low"), limit("safety-door"), []
    if isinstance(bottom, Calculation):
        above = f"its glass begins {shown(bottom.value, 'mm', low.value if low else None)} above the floor"
        if low and bottom.value < low.value - SAME:
            zones.append(_Zone(f"{above}, below {shown(low.value, 'mm')}", low, 3))
        if "door" in near and door and bottom.value < door.value - SAME:
            zones.append(_Zone("it stands beside a door", door, 2 if _wide(case, pane) else 3))
    if "bath" in near and limit("safety-bath"):
        zones.append(_Zone("a bath or shower is close", limit("safety-bath"), 3))
    return zones


def _missing(case: Case, bottom: Calculation | CannotTell) -> tuple[str, ...]:
    """Facts that may put the pane into a critical location."""
    if isinstance(bottom, CannotTell):
        return (*bottom.needs, *(() if case.spec.near is not None else (NEAR,)))
    door = case.rules.limit("safety-door")
    matters = (door is not None and bottom.value < door.value - SAME) or case.room_kind in (None, "bathroom")
    return (NEAR,) if case.spec.near is None and matters else ()


def _wide(case: Case, pane: Pane) -> bool:
    """Whether the pane is so wide that beside a door a better class is asked for."""
    most = case.rules.limit("safety-door-width")
    return most is not None and pane.sight.outline.bounds.width > most.value + SAME


def _safe_anywhere(case: Case, pane: Pane) -> bool:
    """Whether both outermost panes are safety glass of the best class that any location may ask of this pane."""
    perhaps_a_door = case.spec.near is None or "door" in case.spec.near
    worst = 2 if perhaps_a_door and _wide(case, pane) else 3
    known = worst >= ASSUMED_CLASS or pane.make_up.impact_class is not None
    return known and not _faults(pane, worst, _outermost(pane))


def _held(case: Case, pane: Pane, about: About, zone: _Zone, bottom: Calculation | CannotTell) -> Result:
    reached, declared = _reachable(case, pane, bottom), pane.make_up.impact_class
    value = None if isinstance(bottom, CannotTell) else bottom
    faults = _faults(pane, zone.impact_class, reached.sure)
    exempt = bool(faults) and _exempt(case, pane, reached.sure)
    if faults and not exempt:
        state = State.FAIL if zone.limit and zone.limit.hard else State.WARN
        return about.result(
            state, f"{zone.why}: {' and '.join(faults)}", value=value, limit=zone.limit,
            hint=f"safety glass of class {zone.impact_class} or better (EN 12600), {SAFE_OTHERWISE}",
        )
    needs = []
    if not exempt and zone.impact_class < ASSUMED_CLASS and declared is None:
        needs.append(f"impact_class of glass '{pane.glass}' (EN 12600; class {zone.impact_class} or better is asked for)")
    if not exempt and case.spec.near is None and _wide(case, pane) and (declared is None or declared > 2):
        needs.append(NEAR)
    if _faults(pane, zone.impact_class, reached.unsure) and not _exempt(case, pane, reached.unsure):
        needs.append(DROP)
    if needs:
        return about.cannot_tell(f"{zone.why}; whether its glass is safe", *needs)
    how = "small or robust panes, which are let off" if exempt else f"safety glass{_class_words(pane)}"
    return about.result(State.PASS, f"{zone.why}: {how}", value=value, limit=zone.limit)


def _class_words(pane: Pane) -> str:
    declared = pane.make_up.impact_class
    return f" of class {declared}, as declared" if declared else f", taken as class {ASSUMED_CLASS} or better (from memory): the mark on the pane decides"


@dataclass(frozen=True, slots=True)
class _Reached:
    """Panes that people can fall against for sure, and those that they may: by outer, middle, inner."""

    sure: tuple[str, ...]
    unsure: tuple[str, ...]


def _outermost(pane: Pane) -> tuple[str, ...]:
    names = PANES_NAMED[(len(pane.make_up.layers) + 1) // 2]
    return (names[0], names[-1]) if len(names) > 1 else names


def _reachable(case: Case, pane: Pane, bottom: Calculation | CannotTell) -> _Reached:
    """The inner pane always; the outer one where the ground outside is as near as the rule's zone is high."""
    names = _outermost(pane)
    if len(names) == 1:
        return _Reached(names, ())
    outer, inner = names
    low, door, near = case.rules.limit("safety-low"), case.rules.limit("safety-door"), case.spec.near
    if isinstance(bottom, CannotTell) or case.spec.drop is None:
        return _Reached((inner,), (outer,))
    height = bottom.value + case.spec.drop
    low_hit = low is not None and height < low.value - SAME
    door_hit = door is not None and height < door.value - SAME
    if low_hit or (door_hit and near and "door" in near):
        return _Reached((inner, outer), ())
    return _Reached((inner,), (outer,) if door_hit and near is None else ())


def _faults(pane: Pane, impact_class: int, reached: tuple[str, ...]) -> list[str]:
    """What is wrong with the reached panes, in words."""
    make_up = pane.make_up
    safe = {*make_up.toughened, *make_up.laminated}
    faults = [f"the {name} pane is no safety glass" for name in reached if name not in safe]
    declared = make_up.impact_class
    if not faults and reached and declared is not None and declared > impact_class:
        faults.append(f"its class {declared} is not good enough")
    return faults


def _exempt(case: Case, pane: Pane, reached: tuple[str, ...]) -> bool:
    """Whether each reached pane that is ordinary glass is small enough, or thick enough for its size."""
    limit, box = case.rules.limit, pane.sight.outline.bounds
    names = PANES_NAMED[(len(pane.make_up.layers) + 1) // 2]
    thickness = dict(zip(names, pane.make_up.layers[::2], strict=True))
    thin = min((thickness[name] for name in reached), default=0.0)
    width, area, least = limit("small-pane-width"), limit("small-pane-area"), limit("small-pane-thickness")
    if width and area and least and thin >= least.value and box.width <= width.value + SAME and pane.sight.outline.area / 1e6 <= area.value + SAME:
        return True
    for mm in (8, 10):
        robust = limit(f"robust-{mm}-mm")
        if robust and thin >= mm and max(box.width, box.height) <= robust.value + SAME:
            return True
    return False


RULE = Rule(
    KEY, "Safety glass", "Is glass that people may fall against safe to break?", check,
    {
        "safety-low": "mm", "safety-door": "mm", "safety-door-width": "mm", "safety-bath": "mm", "small-pane-width": "mm",
        "small-pane-area": "m2", "small-pane-thickness": "mm", "robust-8-mm": "mm", "robust-10-mm": "mm",
    },
)
