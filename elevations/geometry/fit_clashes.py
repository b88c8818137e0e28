"""Fixings in the way of hardware: where along each side none should be, and where one that is there could go."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise

from elevations.errors import Finding
from elevations.geometry.fixings import CLOSEST_MM, FURTHEST_CORNER_MM
from elevations.geometry.window import FixingPoint, Light, Window
from elevations.plane import SAME_MM, Box
from elevations.spec.model import Fixings

BESIDE_MM = 1.0
"""A sash of a pair whose edge is so near to the outermost is at the frame."""
ALL_SIDES = (("left", "left jamb"), ("right", "right jamb"), ("head", "head"), ("sill", "sill"))


@dataclass(frozen=True, slots=True)
class _Zone:
    """Where along a side no fixing should be, mm from the side's start."""

    low: float
    high: float
    what: str
    distance: float


def clashes(window: Window, rules: Fixings) -> Iterator[Finding]:
    """Fixings of a rectangular frame nearer to hardware than its system allows, each with a place to go."""
    if not window.system.frame_fixings.keep_clear or not window.frame.outline.is_box:
        return
    zones = {side: _zones(window, side) for _, side in ALL_SIDES}
    for point in window.fixings:
        along = point.along.value
        hit = next((zone for zone in zones[point.side] if zone.low + SAME_MM < along < zone.high - SAME_MM), None)
        if hit is None:
            continue
        better = _move(window, rules, point, zones[point.side])
        hint = f"move it to {better:g} from the {point.measured_from}" if better is not None else "no place near it is free: agree it with the system's supplier"
        yield Finding(
            "fixing-clash", window.mark, point.side, f"{point.tag}, {along:g} from the {point.measured_from}, is less than {hit.distance:g} from {hit.what}",
            hint, round(along, 1), hit.distance, f"{window.system.name}: frame_fixings.keep_clear",
        )


def _zones(window: Window, side: str) -> list[_Zone]:
    """What a system's `keep_clear` asks for along one side of a rectangular frame."""
    figures, box = window.system.frame_fixings, window.frame.outline.bounds
    upright = side.endswith("jamb")
    length = box.height if upright else box.width
    found = []
    corner = figures.clear_of("corner")
    if corner is not None:
        found += [_Zone(-1.0, corner, "the joint of the corner's reinforcement", corner), _Zone(length - corner, length + 1.0, "the joint of the corner's reinforcement", corner)]
    for light in window.lights:
        found += list(_of_light(window, light, side, length, upright=upright))
    return found


def _of_light(window: Window, light: Light, side: str, length: float, *, upright: bool) -> Iterator[_Zone]:
    figures = window.system.frame_fixings
    edge = {"left jamb": "left", "right jamb": "right", "head": "top", "sill": "bottom"}[side]
    if side not in {s.tag for s in light.region.sides}:
        return
    vent = figures.clear_of("vent")
    if vent is not None and side == "head" and light.spec.vent:
        middle, half = light.region.outline.bounds.centre.x, light.spec.vent * figures.vent_length / 2
        yield _Zone(middle - half - vent, middle + half + vent, f"the vent over light {light.number}", vent)
    whole = reduce(Box.joined, (sash.outer.outline.bounds for sash in light.sashes)) if light.sashes else None
    for sash in light.sashes:
        box = sash.outer.outline.bounds
        if sash.dummy or whole is None or abs(getattr(box, edge) - getattr(whole, edge)) > BESIDE_MM:
            continue   # of a pair the other sash is not beside this jamb
        low, high = (length - box.top, length - box.bottom) if upright else (box.left, box.right)
        hinge, end = figures.clear_of("hinge"), figures.hinges_from_end
        if edge in sash.hinge_edges and hinge is not None and end is not None:
            for at in (low + end, high - end):
                yield _Zone(at - hinge, at + hinge, f"a hinge of light {light.number}", hinge)
        keep = figures.clear_of("keep")
        if keep is not None and upright and edge not in sash.hinge_edges and {"left", "right"} & set(sash.hinge_edges):
            up = light.spec.handle_height if light.spec.handle_height is not None else box.height / 2
            yield _Zone(high - up - keep, high - up + keep, f"the keep of light {light.number}", keep)
            for at in (low + down for down in figures.keeps if down < box.height):
                yield _Zone(at - keep, at + keep, f"the keep of light {light.number}, {at - low:g} from the top of its sash", keep)


def _move(window: Window, rules: Fixings, point: FixingPoint, zones: list[_Zone]) -> float | None:
    """The nearest place that is clear of zones, bars and neighbours and keeps the distance from the corner; None without one."""
    length, along = point.side_length, point.along.value
    others = sorted(p.along.value for p in window.fixings if p.side == point.side and p.tag != point.tag)
    bars = [bar.centre.value for bar in window.bars if point.side in bar.meets]
    zones = [*zones, *(_Zone(at - rules.clear_of_bars, at + rules.clear_of_bars, "", 0.0) for at in bars)]

    def good(at: float) -> bool:
        if any(zone.low + SAME_MM < at < zone.high - SAME_MM for zone in zones):
            return False
        row = sorted([*others, at])
        least, most = min(rules.corner, 150.0) - SAME_MM, max(rules.corner, FURTHEST_CORNER_MM) + SAME_MM
        ends = row[0], length - row[-1]
        gaps = [high - low for low, high in pairwise(row)]
        return all(least <= end <= most for end in ends) and all(CLOSEST_MM <= gap <= rules.spacing + SAME_MM for gap in gaps)

    places = sorted((end for zone in zones for end in (zone.low, zone.high)), key=lambda at: abs(at - along))
    return next((round(at, 1) for at in places if good(at)), None)
