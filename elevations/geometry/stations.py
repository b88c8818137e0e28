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
    amounts = [figure(system, side.profile, station) for side in region.sides]
    labels = [(_station_label(side.profile, station), _system_source(side.profile, station)) for side in region.sides]
    return _inset(region, amounts, labels)


def inside_glass_edge(system: System, tight: Region) -> Region:
    """Cut size from tight size: the edge clearance off all round."""
    label = (EDGE_CLEARANCE, Source("system", "glazing.edge_clearance"))
    return _inset(tight, [system.edge_clearance] * len(tight.sides), [label] * len(tight.sides))


def bounded_by_sash(region: Region, tag: str) -> Region:
    """The same region as seen from inside it: every edge is now the outer edge of that sash."""
    return Region(region.outline, tuple(Side("sash", tag, side.at) for side in region.sides))


@lru_cache(maxsize=256)
def _station_label(profile: str, station: str) -> str:
    return f"{profile}: {DATUM_WORDS[profile]} to {STATION_WORDS[station]}"


@lru_cache(maxsize=256)
def _system_source(profile: str, station: str) -> Source:
    return Source("system", f"members.{profile}.{station}")


def _inset(region: Region, amounts: Sequence[float], labels: Sequence[tuple[str, Source]]) -> Region:
    outline = offset(region.outline, amounts)
    sides = []
    for (a, b), side, amount, (label, source) in zip(region.outline.edges(), region.sides, amounts, labels, strict=True):
        at = side.at
        if at is not None:
            at = at.plus(Term(amount * _inward(a, b), label, source))
        sides.append(Side(side.profile, side.tag, at))
    return Region(outline, tuple(sides))


def _inward(a: Corner, b: Corner) -> float:
    """Whether moving a level or upright edge inwards makes its distance from the left or the top larger (+1) or smaller."""
    if abs(a.x - b.x) < SAME_MM:
        return 1.0 if b.y < a.y else -1.0
    return 1.0 if b.x < a.x else -1.0
