"""Slots that drain the rebates of a window and holes that let air into them, by the system's rules, clear of what is in their way.

A rebate is drained at its bottom: the sill of the frame, the upper side of a transom, the bottom rail of a sash; where glass
stands in it, and where a sash closes against it. Fixings and hardware come first, by their own rules: a slot moves along, or
a finding says that it can't. Fewest slots, then the most even.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from elevations.catalogue.drainage import GLAZED, HUNG, USUAL_MOVE_MM, Slots
from elevations.errors import Finding
from elevations.geometry.along import distance_along, edge_words, place_on
from elevations.geometry.drain import Drain
from elevations.geometry.evenly import Zones, even_between, is_free
from elevations.geometry.fit_fixing import through_frame
from elevations.geometry.hardware_places import places_of_light
from elevations.geometry.place import Place, foot_on
from elevations.geometry.stations import to_station
from elevations.geometry.window import Bar, FixingPoint, Light, Member, Window
from elevations.plane import SAME_MM, Outline, Point, arc_centre, arc_radius


class Kind(NamedTuple):
    """Slots or holes: where they stand and in which rebates unless the system says so."""

    name: str
    outlet: str
    edge: str
    """The edges of a rebate that have them: bottom or top."""
    usual: tuple[str, ...]


DRAINAGE = Kind("drainage slot", "drainage outlet", "bottom", (GLAZED, HUNG))
PRESSURE = Kind("pressure hole", "pressure outlet", "top", (GLAZED,))
"""A rebate that a sash closes against is open to the air all round outside its gasket (common practice, no source)."""


class Rebate(NamedTuple):
    """One rebate: its platform's outline and the member along each edge of it."""

    outline: Outline
    members: tuple[Member, ...]
    holds: str
    """glazed or hung."""
    what: str
    """Tag of what stands in it: G1, 'S1, S2'."""


class InTheWay(NamedTuple):
    """Something on a member, mm along an edge of a rebate."""

    along: float
    clear: float
    """Least distance of a slot's middle from it."""
    what: str


@dataclass(frozen=True, slots=True)
class Trouble:
    """A place that keeps no clear distance, or a gap that is too long."""

    at: float
    message: str
    hint: str
    value: float
    limit: float
    of: str = ""
    """What it is a trouble of; empty for the slot or hole itself."""


def drained(window: Window) -> tuple[tuple[Drain, ...], tuple[Finding, ...]]:
    """Every slot and hole of a window, rebate by rebate, and each that finds no clear place; nothing where the system has no rule."""
    drains: list[Drain] = []
    findings: list[Finding] = []
    rules = ((DRAINAGE, window.system.drainage), (PRESSURE, window.system.pressure_holes))
    if not any(rule for _, rule in rules):
        return (), ()
    known = {member.tag: member for member in (*window.members, *window.bars)}
    drilled = through_frame(window)
    for light in window.lights:
        hardware = tuple(places_of_light(window, light))
        for rebate in _rebates(window, light, known):
            for kind, rule in rules:
                if rule is None or rebate.holds not in (rule.rebates or kind.usual):
                    continue
                for edge, word in enumerate(edge_words(rebate.outline)):
                    if word.startswith(kind.edge):
                        found = list(_in_the_way(window, rebate, edge, rule, drilled, hardware))
                        made, troubles = _along_edge(rebate, edge, kind, rule, found)
                        drains += made
                        findings += [_finding(window, rebate, edge, kind, trouble) for trouble in troubles]
    return tuple(drains), tuple(findings)


def _rebates(window: Window, light: Light, known: dict[str, Member]) -> Iterator[Rebate]:
    """Those that hold its panes, and the one that its sashes close against."""
    for number, pane in enumerate(light.panes):
        outline = pane.tight.outline
        members = light.sashes[number].members if pane.holder == "sash" else tuple(known[side.tag] for side in pane.tight.sides)
        yield Rebate(outline, members, GLAZED, pane.tag)
    if light.sashes:
        seat = to_station(window.system, light.region, "rebate")
        yield Rebate(seat.outline, tuple(known[side.tag] for side in seat.sides), HUNG, ", ".join(sash.tag for sash in light.sashes))


def _in_the_way(
    window: Window, rebate: Rebate, edge: int, rule: Slots, drilled: Sequence[FixingPoint], hardware: Sequence[Place]
) -> Iterator[InTheWay]:
    """Fixing holes, hardware of the light, bars that join and corners of the member along an edge, as far as the rule keeps clear of them."""
    member = rebate.members[edge]
    fixing, bar_clear, corner, clear = (rule.clear_of_mm(name) for name in ("fixing", "bar", "corner", "hardware"))
    for place in hardware if clear else ():
        if place.member.tag == member.tag:
            yield InTheWay(along_edge(rebate.outline, edge, place.at), clear, f"the {place.kind} of {place.what}")
    if fixing:
        for point in drilled:
            if point.side == member.tag:
                yield InTheWay(along_edge(rebate.outline, edge, point.at), fixing, point.tag)
    if bar_clear:
        for bar in window.bars:
            for end, met in zip(bar.outer, bar.meets, strict=True):
                if met == member.tag:
                    yield InTheWay(along_edge(rebate.outline, edge, end), bar_clear, f"the centre line of {bar.tag}")
    if corner and not isinstance(member, Bar):
        for end in member.outer:
            yield InTheWay(along_edge(rebate.outline, edge, end), corner, "the corner")


def along_edge(outline: Outline, edge: int, point: Point) -> float:
    """How far along an edge the foot of a point beside it lies, mm from the edge's start; may lie beyond its ends."""
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    if not a.bulge:
        length = math.dist(a[:2], b[:2])
        return ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length
    centre = arc_centre(a, b)
    turn = math.atan2(point.y - centre.y, point.x - centre.x) - math.atan2(a.y - centre.y, a.x - centre.x)
    turn *= math.copysign(1.0, a.bulge)
    sweep = abs(4 * math.atan(a.bulge))
    around = (turn - sweep / 2 + math.pi) % math.tau - math.pi + sweep / 2   # the turn nearest to the middle of the arc
    return around * arc_radius(a, b)


def _along_edge(
    rebate: Rebate, edge: int, kind: Kind, rule: Slots, found: Sequence[InTheWay]
) -> tuple[list[Drain], list[Trouble]]:
    outline, member = rebate.outline, rebate.members[edge]
    length = outline.length(edge)
    aim = _extreme(outline, edge, kind.edge)
    places, troubles = spread(length, rule, found) if aim is None else one_place(min(max(aim, 0.0), length), length, rule, found)
    made = []
    for along in places:
        made.append(_drain(rebate, edge, along, kind.name, rule, member))
        if rule.offset_mm is not None:
            outlet, trouble = outlet_place(along, length, rule, rule.offset_mm, found)
            made.append(_drain(rebate, edge, outlet, kind.outlet, rule, member))
            troubles += [replace(trouble, of=kind.outlet)] if trouble else []
    return made, troubles


def outlet_place(along: float, length: float, rule: Slots, offset: float, found: Sequence[InTheWay]) -> tuple[float, Trouble | None]:
    """The outlet of a slot, mm along its rebate: the offset on towards the middle, or as near to that as something in its way lets it."""
    towards = 1.0 if along < length / 2 + SAME_MM else -1.0
    aim = min(max(along + towards * offset, 0.0), length)
    zones, move = _zones(found), USUAL_MOVE_MM if rule.move_mm is None else rule.move_mm
    choices = [aim, *(end for zone in zones for end in zone if abs(end - along) >= abs(offset) - SAME_MM)]
    free = [at for at in choices if is_free(at, zones) and 0.0 <= at <= length and abs(at - aim) <= move + SAME_MM]
    return (min(free, key=lambda at: abs(at - aim)), None) if free else (aim, _blocked(aim, rule, found))


def _extreme(outline: Outline, edge: int, way: str) -> float | None:
    """Of a bent edge, where its lowest or highest point is along it: water runs there; None of a straight one."""
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    if not a.bulge:
        return None
    centre, sign = arc_centre(a, b), -1.0 if way == "bottom" else 1.0
    crown = distance_along(outline, edge, Point(centre.x, centre.y + sign * arc_radius(a, b)))
    if crown is not None:
        return crown
    return 0.0 if sign * (a.y - b.y) > 0 else outline.length(edge)


def _drain(rebate: Rebate, edge: int, along: float, kind: str, rule: Slots, member: Member) -> Drain:
    """One slot or hole; its foot is where the square across from it meets the member's outer edge or centre line."""
    at, _ = place_on(rebate.outline, edge, along)
    return Drain(member.tag, foot_on(member, at), kind, rebate.what, rule.slot)


def spread(length: float, rule: Slots, found: Sequence[InTheWay] = ()) -> tuple[list[float], list[Trouble]]:
    """Middles of the slots along a straight rebate of `length` mm, and what could not be kept.

    One at each end and as many between as the spacing asks for; one in the middle where the two at the ends would be nearer
    to each other than to their own ends. An end one in something's way moves towards the middle, as far as the rule lets it.
    """
    first, last = rule.from_end_mm, length - rule.from_end_mm
    if last - first < first:
        return one_place(length / 2, length, rule, found)
    zones = _zones(found)
    near, far = _free_from(first, 1.0, rule, zones), _free_from(last, -1.0, rule, zones)
    if near is not None and far is not None and far - near < first:
        return one_place(length / 2, length, rule, found)
    troubles = [_blocked(at, rule, found) for at, free in ((first, near), (last, far)) if free is None]
    near, far = first if near is None else near, last if far is None else far
    inner = even_between(near, far, zones, rule.spacing_mm) if rule.spacing_mm is not None else ()
    places = [near, *inner, far]
    if rule.spacing_mm is not None:
        for low, high in pairwise(places):
            if high - low > rule.spacing_mm + SAME_MM:
                troubles.append(_apart(low, high, rule.spacing_mm, found))
    return places, troubles


def one_place(aim: float, length: float, rule: Slots, found: Sequence[InTheWay]) -> tuple[list[float], list[Trouble]]:
    """The free place nearest to `aim`, as far from the rebate's ends as the rule asks where it is long enough for that."""
    end = min(rule.from_end_mm, length / 2)
    aim = min(max(aim, end), length - end)
    zones, move = _zones(found), USUAL_MOVE_MM if rule.move_mm is None else rule.move_mm
    choices = [aim, *(at for zone in zones for at in zone)]
    free = [at for at in choices if is_free(at, zones) and end - SAME_MM <= at <= length - end + SAME_MM and abs(at - aim) <= move + SAME_MM]
    if not free:
        return [aim], [_blocked(aim, rule, found)]
    return [min(free, key=lambda at: (abs(at - aim), at))], []


def _zones(found: Sequence[InTheWay]) -> Zones:
    return tuple(sorted((item.along - item.clear, item.along + item.clear) for item in found))


def _free_from(at: float, way: float, rule: Slots, zones: Zones) -> float | None:
    """The first free place from `at` towards the middle; None where none lies within the rule's move."""
    move = USUAL_MOVE_MM if rule.move_mm is None else rule.move_mm
    choices = sorted((end for zone in zones for end in zone if (end - at) * way > 0), key=lambda end: (end - at) * way)
    return next((place for place in (at, *choices) if is_free(place, zones) and abs(place - at) <= move + SAME_MM), None)


def _blocked(at: float, rule: Slots, found: Sequence[InTheWay]) -> Trouble:
    worst = max((item for item in found if abs(item.along - at) < item.clear - SAME_MM), key=lambda item: item.clear - abs(item.along - at))
    distance, move = abs(worst.along - at), USUAL_MOVE_MM if rule.move_mm is None else rule.move_mm
    return Trouble(
        at, f"{at:.0f} along its rebate, is {distance:.0f} from {worst.what}, less than {worst.clear:g}, and nothing within {move:g} is free",
        "move what is in its way, or agree the slot with the system's supplier", round(distance, 1), worst.clear,
    )


def _apart(low: float, high: float, spacing: float, found: Sequence[InTheWay]) -> Trouble:
    between = " and ".join(dict.fromkeys(item.what for item in found if low - item.clear < item.along < high + item.clear))
    return Trouble(
        low, f"{low:.0f} along its rebate, is {high - low:.0f} from the next, more than {spacing:g}: none may stand nearer to {between}",
        "move what is in its way, or agree a larger distance with the system's supplier", round(high - low, 1), spacing,
    )


def _finding(window: Window, rebate: Rebate, edge: int, kind: Kind, trouble: Trouble) -> Finding:
    key = "drainage" if kind is DRAINAGE else "pressure_holes"
    return Finding(
        "drainage-in-the-way", window.mark, rebate.members[edge].tag, f"a {trouble.of or kind.name} of {rebate.what}, {trouble.message}", trouble.hint,
        trouble.value, trouble.limit, f"{window.system.name}: {key}",
    )
