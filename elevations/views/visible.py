"""Which edges of the profiles are seen from outside: it depends on the sash, the beads and the way round."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from elevations.catalogue.system import System
from elevations.geometry.beads import beads_outside
from elevations.geometry.region import Region
from elevations.geometry.window import Bar, Light, Window
from elevations.plane import Outline, clip, offset, rectangle


def edge_station(window: Window, light: Light, profile: str) -> float:
    """From a bounding member's datum to where the light hides it or the member ends, as seen from outside, mm.

    Built as drawn: the outer edge of a sash, the visible edge of an outer bead, else the sight line. Built inside
    out, the frame covers the edge of the sash and shows up to its own sight line.
    """
    figures = window.system.profiles[profile]
    if window.reversed or in_tracks(light):
        return figures.sight
    if light.sashes:
        return figures.sash if figures.sash is not None else figures.rebate
    if beads_outside(window, sash=False):
        return figures.rebate if figures.bead is None else figures.bead
    return figures.sight


def in_tracks(light: Light) -> bool:
    """Whether its sashes slide in tracks, whose walls cover their edges on both sides."""
    return any(sash.leaf.plane is not None for sash in light.sashes)


def light_edge(window: Window, light: Light) -> Outline:
    """The outline inside which the light is seen, and outside which its frame and bars are."""
    return inset(light.region, lambda profile: edge_station(window, light, profile))


def sash_bead_edge(system: System, outer: Region) -> Outline:
    """The visible edge of beads in a sash."""
    figures = system.profiles["sash"]
    station = figures.rebate if figures.bead is None else figures.bead
    return offset(outer.outline, [station] * len(outer.sides))


def inset(region: Region, station: Callable[[str], float]) -> Outline:
    """The region's outline moved in by `station(profile)` at each side."""
    return offset(region.outline, [station(side.profile) for side in region.sides])


def bar_face(window: Window, bar: Bar) -> Outline:
    """What is seen of a bar: between the lights' edges, up to what it meets, along a slope or an arc where it meets one."""
    beside = [light for light in window.lights if any(side.tag == bar.tag for side in light.region.sides)]
    low, high = _bar_sides(window, bar, beside)
    if bar.within.outline.is_box:
        ends = _bar_ends(window, bar, beside)
        return rectangle(low, ends[0], high, ends[1]) if bar.upright else rectangle(ends[0], low, ends[1], high)
    # One figure for all sides of a profile: jamb and arc, where they run into each other, must stay together.
    profiles = {side.profile for side in bar.within.sides}
    reach = {profile: min(edge_station(window, light, profile) for light in beside) for profile in profiles}
    stations = [reach[side.profile] for side in bar.within.sides]
    axis = 0 if bar.upright else 1
    whole = offset(bar.within.outline, stations)
    return clip(clip(whole, axis, low, high=True)[0], axis, high, high=False)[0]


def _bar_sides(window: Window, bar: Bar, beside: Sequence[Light]) -> tuple[float, float]:
    """Where a bar's long edges are, x of a mullion, y of a transom."""
    across = 0 if bar.upright else 1
    centre = bar.outer[0][across]
    reach = []
    for sign in (-1, 1):
        near = [light for light in beside if (light.region.outline.bounds.centre[across] - centre) * sign > 0]
        reach.append(centre + sign * min(edge_station(window, light, bar.profile) for light in near))
    return reach[0], reach[1]


def _bar_ends(window: Window, bar: Bar, beside: Sequence[Light]) -> tuple[float, float]:
    """Where the ends of a bar between parallel members are, y of a mullion, x of a transom."""
    along, ends = 1 if bar.upright else 0, []
    for end, tag, sign in ((bar.outer[0], bar.meets[0], 1), (bar.outer[1], bar.meets[1], -1)):
        met = [(light, side.profile) for light in beside for side in light.region.sides if side.tag == tag]
        ends.append(end[along] + sign * min(edge_station(window, light, profile) for light, profile in met))
    return ends[0], ends[1]
