"""Moving a region's edges by the figures of the profile system, each edge keeping its working."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from elevations.catalogue.system import System
from elevations.geometry.region import Region, Side
from elevations.plane import SAME_MM, Corner, offset
from elevations.working import Source, Term

DATUM_WORDS = {"frame": "outer edge", "sash": "outer edge", "mullion": "centre line", "transom": "centre line"}
STATION_WORDS = {"sash": "sash edge", "rebate": "rebate", "sight": "sight line", "bead": "edge of the bead"}
EDGE_CLEARANCE = "edge clearance of the glass"


def figure(system: System, profile: str, station: str) -> float:
    """One station of one member, mm from its datum towards the glass."""
    value = getattr(system.profiles[profile], station)
    if value is None:
        raise ValueError(f"{system.name} gives no {station} for {profile}")
    return float(value)


def to_station(system: System, region: Region, station: str) -> Region:
    """The region inside each bounding member's `station`: sash, rebate, sight or bead."""
    return _inset(region, [_station_steps(side.profile, station, figure(system, side.profile, station)) for side in region.sides])


def inside_glass_edge(system: System, tight: Region) -> Region:
    """Cut size from tight size: the edge clearance off all round."""
    return _inset(tight, [_clearance_steps(system.edge_clearance)] * len(tight.sides))


def bounded_by_sash(region: Region, tag: str) -> Region:
    """The same region as seen from inside it: every edge is now the outer edge of that sash."""
    return Region(region.outline, tuple(Side("sash", tag, side.at) for side in region.sides))


Steps = tuple[Term, Term]
"""Inwards by one figure, as it adds to the distance from the left or the top and as it takes off it; made once for all windows."""


def _steps(amount: float, label: str, key: str) -> Steps:
    source = Source("system", key)
    return Term(amount, label, source), Term(-amount, label, source)


@lru_cache(maxsize=1024)
def _station_steps(profile: str, station: str, amount: float) -> Steps:
    return _steps(amount, f"{profile}: {DATUM_WORDS[profile]} to {STATION_WORDS[station]}", f"members.{profile}.{station}")


@lru_cache(maxsize=64)
def _clearance_steps(amount: float) -> Steps:
    return _steps(amount, EDGE_CLEARANCE, "glazing.edge_clearance")


def _inset(region: Region, steps: Sequence[Steps]) -> Region:
    """Every edge moved inwards by its step, which its working then holds."""
    outline = offset(region.outline, [step[0].amount for step in steps])
    corners = region.outline.corners
    sides = []
    for number, (side, step) in enumerate(zip(region.sides, steps, strict=True)):
        at = side.at
        if at is not None:
            at = at.plus(step[_takes_off(corners[number], corners[number + 1 - len(corners)])])
        sides.append(Side(side.profile, side.tag, at))
    return Region(outline, tuple(sides))


def _takes_off(a: Corner, b: Corner) -> bool:
    """Whether moving a level or upright edge inwards makes its distance from the left or the top smaller."""
    return b.y >= a.y if abs(a.x - b.x) < SAME_MM else b.x >= a.x
