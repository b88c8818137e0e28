"""Moving a region's edges by the figures of the profile system, each edge keeping its working."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from elevations.catalogue.system import System
from elevations.geometry.region import Region, Side
from elevations.geometry.window import WHOLE_MM, whole_mm
from elevations.plane import SAME_MM, Corner, OffsetError, Outline, offset
from elevations.working import Source, Term

DATUM_WORDS = {"frame": "outer edge", "sash": "outer edge", "mullion": "centre line", "transom": "centre line"}
STATION_WORDS = {"sash": "sash edge", "rebate": "rebate", "sight": "sight line", "bead": "edge of the bead"}
EDGE_CLEARANCE = "edge clearance of the glass"
ROUNDED_DOWN = "rounded down to whole mm"


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


def in_whole_mm(region: Region) -> Region:
    """Cut glass in whole millimetres: what is over comes off the upright sides in equal parts, and off a level top or else bottom.

    The pane that is cut is the one that is ordered: its outline, area and mass belong to the printed size, and it stands on
    its blocks as before. An outline without such edges loses the rest all round, which makes a circle whole. Where that does
    not do either (a quarter of a circle, a pointed arch's half) the outline stays exact: such a pane is cut to its template.
    """
    whole = region
    for axis in (0, 1):
        rest = _over_whole(whole, axis)
        if rest:
            edges = _straight_limits(whole.outline, axis)
            edges = edges if axis == 0 else edges[-1:]
            shares = [rest / (len(edges) or 2) if number in edges or not edges else 0.0 for number in range(len(region.sides))]
            try:
                whole = _inset(whole, [_rounding_steps(share) if share else None for share in shares])
            except OffsetError:
                return region
    return region if _over_whole(whole, 0) or _over_whole(whole, 1) else whole


def _straight_limits(outline: Outline, axis: int) -> list[int]:
    """The upright edges (axis 0) that bound an outline left and right, or the level ones (1) that do below and above, in this order."""
    box, corners = outline.bounds, outline.corners
    return [
        number for limit in ((box.left, box.right) if axis == 0 else (box.bottom, box.top))
        for number, a in enumerate(corners)
        if not a.bulge and abs(a[axis] - limit) < SAME_MM and abs(corners[number + 1 - len(corners)][axis] - limit) < SAME_MM
    ]


def _over_whole(region: Region, axis: int) -> float:
    """What a width (0) or height (1) has over a whole millimetre; 0 where that is float noise."""
    size = (region.height if axis else region.width).value
    rest = size - whole_mm(size)
    return rest if rest > WHOLE_MM else 0.0


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


def _rounding_steps(amount: float) -> Steps:
    source = Source("rule", "glass is cut in whole mm")
    return Term(amount, ROUNDED_DOWN, source), Term(-amount, ROUNDED_DOWN, source)


def _inset(region: Region, steps: Sequence[Steps | None]) -> Region:
    """Every edge moved inwards by its step, which its working then holds; an edge without a step stays."""
    outline = offset(region.outline, [step[0].amount if step else 0.0 for step in steps])
    corners = region.outline.corners
    sides = []
    for number, (side, step) in enumerate(zip(region.sides, steps, strict=True)):
        at = side.at
        if at is not None and step is not None:
            at = at.plus(step[_takes_off(corners[number], corners[number + 1 - len(corners)])])
        sides.append(Side(side.profile, side.tag, at))
    return Region(outline, tuple(sides))


def _takes_off(a: Corner, b: Corner) -> bool:
    """Whether moving a level or upright edge inwards makes its distance from the left or the top smaller."""
    return b.y >= a.y if abs(a.x - b.x) < SAME_MM else b.x >= a.x
