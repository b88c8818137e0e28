"""Fixings in the way of hardware, and where one that is could go."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from elevations.errors import Finding
from elevations.geometry.fit_obstacles import FrameEdge, Zone, frame_edges, zones
from elevations.geometry.fixings import CLOSEST_MM, FURTHEST_CORNER_MM, NEAREST_CORNER_MM
from elevations.geometry.window import FixingPoint, Window
from elevations.plane import SAME_MM
from elevations.spec.model import Fixings

ALL_SIDES = (("left", "left jamb"), ("right", "right jamb"), ("head", "head"), ("sill", "sill"))


def clashes(window: Window, rules: Fixings) -> Iterator[Finding]:
    """Fixings nearer to hardware than the window's system allows, each with a place to go."""
    if not window.system.frame_fixings.keep_clear:
        return
    edges = {edge.tag: edge for edge in frame_edges(window)}
    barred = {tag: zones(edge) for tag, edge in edges.items()}
    for point in window.fixings:
        along = point.along.value
        hit = next((zone for zone in barred[point.side] if zone.low + SAME_MM < along < zone.high - SAME_MM), None)
        if hit is None:
            continue
        better = _move(edges[point.side], rules, point, barred[point.side])
        hint = f"move it to {better:g} from the {point.measured_from}" if better is not None else "no place near it is free: agree it with the system's supplier"
        yield Finding(
            "fixing-clash", window.mark, point.side, f"{point.tag}, {round(along, 1):g} from the {point.measured_from}, is less than {hit.distance:g} from {hit.what}",
            hint, round(along, 1), hit.distance, f"{window.system.name}: frame_fixings.keep_clear",
        )


def _move(edge: FrameEdge, rules: Fixings, point: FixingPoint, barred: Sequence[Zone]) -> float | None:
    """The nearest place that is clear of zones, bars and neighbours and keeps the distance from the corner; None without one."""
    length, along = point.side_length, point.along.value
    others = sorted(p.along.value for p in edge.window.fixings if p.side == point.side and p.tag != point.tag)
    barred = [*barred, *(Zone(at - rules.clear_of_bars, at + rules.clear_of_bars, "", 0.0) for at in edge.bars())]

    def good(at: float) -> bool:
        if any(zone.low + SAME_MM < at < zone.high - SAME_MM for zone in barred):
            return False
        if min(at, length - at) < NEAREST_CORNER_MM - SAME_MM:   # whatever the job asks for: no hint breaks the rule beside it
            return False
        row = sorted([*others, at])
        most = max(rules.corner, FURTHEST_CORNER_MM) + SAME_MM
        outer = row[0], length - row[-1]
        gaps = [high - low for low, high in pairwise(row)]
        return all(end <= most for end in outer) and all(CLOSEST_MM <= gap <= rules.spacing + SAME_MM for gap in gaps)

    ends = (NEAREST_CORNER_MM, length - NEAREST_CORNER_MM)
    places = sorted((*ends, *(end for zone in barred for end in (_down(zone.low), -_down(-zone.high)))), key=lambda at: abs(at - along))
    return next((at for at in places if good(at)), None)


def _down(at: float) -> float:
    """Down to 0.1 mm, so that no end of a zone is rounded into it; forgives float noise."""
    return math.floor(at * 10 + SAME_MM) / 10
