"""From a divided spec to lights: bars placed, sashes hung, glass sized, in reading order."""

from __future__ import annotations

import math

from elevations.catalogue.system import System
from elevations.errors import Path, Problem
from elevations.geometry.build import Bound, Build, bounds
from elevations.geometry.glaze import barred, glaze
from elevations.geometry.members import Line
from elevations.geometry.members import bar as make_bar
from elevations.geometry.region import Region, Side
from elevations.geometry.room import (
    LEAST_SIGHT_MM,
    can_hang,
    can_turn,
    handle_fits,
    is_offered,
    no_room,
    room_for_glass,
)
from elevations.geometry.spacing import bar_centres
from elevations.geometry.window import Bar, Light
from elevations.openings import OPENINGS
from elevations.plane import SAME_MM, Corner, OffsetError, Outline, arc_centre, arc_radius, clip
from elevations.spec.model import Division
from elevations.spec.model import Light as LightSpec
from elevations.working import Term, Working

SHORTEST_ARC_MM = 150.0
"""A part of a ring shorter than this counts to its neighbour in the light that it bounds."""


def divide(build: Build, entry: LightSpec | Division, region: Region, path: Path) -> None:
    """Fill `build` with the lights and bars of one entry of the spec, depth first."""
    if isinstance(entry, LightSpec):
        _light(build, entry, region, path)
    elif entry.mullions is None and entry.transoms is None:
        divide(build, entry.lights[0], region, (*path, "lights", 0))
    else:
        _divided(build, entry, region, path)


def _divided(build: Build, entry: Division, region: Region, path: Path) -> None:
    upright = entry.mullions is not None
    key, axis, letter = ("mullions", 0, "M") if upright else ("transoms", 1, "T")
    low, high = bounds(build, region, axis)
    if not (low.straight and high.straight) and getattr(entry, key) in NEED_STRAIGHT:
        build.problems.append(_not_straight(getattr(entry, key), key, (low, high), (*path, key)))
        return
    centres, problems = bar_centres(build.system, entry, (low.side.profile, low.at), (high.side.profile, high.at), path)
    build.problems += problems
    profile = "mullion" if upright else "transom"
    tags = [build.tag(letter) for _ in centres]
    parts: list[Region] = []
    rest = region
    for term, tag in zip(centres, tags, strict=True):
        centre = Working((term._replace(label=f"centre line of {profile} {tag}"),))
        cut_at = centre.value if upright else build.spec.frame.height - centre.value
        side = Side(profile, tag, centre)
        try:
            first, after = (_part(rest, axis, cut_at, side, high=not upright), _part(rest, axis, cut_at, side, high=upright))
        except OffsetError:
            build.problems.append(_outside(entry, key, term, low.at, high.at, path, len(parts)))
            return
        where = (*path, key, len(parts))
        try:
            build.bars.append(_bar_between(build.system, rest, after, centre, tag, where, upright=upright))
        except OffsetError:
            build.problems.append(_in_a_corner(profile, tag, term, where))
            return
        parts.append(first)
        rest = after
    if centres:
        parts.append(rest)
    for i, (part, child) in enumerate(zip(parts, entry.lights, strict=False)):
        divide(build, child, part, (*path, "lights", i))


NEED_STRAIGHT = ("equal-sight", "equal-glass")
"""Spacings that weigh the profiles at both ends, which a slope or an arc has no one figure for."""


def _not_straight(spacing: str, key: str, bounds: tuple[Bound, Bound], path: Path) -> Problem:
    crooked = " and ".join(dict.fromkeys(bound.side.tag for bound in bounds if not bound.straight))
    return Problem(
        "spacing-shaped", f"'{spacing}' can't space {key} up to the {crooked}, which is no straight edge along them",
        f"give the {key} as numbers, or write equal-centres, which divides the outermost size", path,
    )


def _in_a_corner(profile: str, tag: str, term: Term, path: Path) -> Problem:
    return Problem(
        "bar-in-corner", f"{profile} {tag} at {term.amount:g} runs into a corner of the frame's shape, where its profile doesn't fit",
        "move it away from that corner", path,
    )


def _part(region: Region, axis: int, at: float, cut_side: Side, *, high: bool) -> Region:
    outline, origins = clip(region.outline, axis, at, high=high)
    return _without_stubs(Region(outline, tuple(cut_side if o is None else region.sides[o] for o in origins)))


def _without_stubs(region: Region) -> Region:
    """The region with a short end of one arc joined to the next arc of the same circle.

    A ring is jointed somewhere; a bar beside the joint must not leave a stub there that is too short for the profiles.
    """
    if region.outline.is_box:
        return region
    corners, sides = list(region.outline.corners), list(region.sides)
    for i in range(len(corners) - 1, -1, -1):
        j, k = (i + 1) % len(corners), (i + 2) % len(corners)
        a, b, c = corners[i], corners[j], corners[k]
        if len(corners) < 3 or not a.bulge or not b.bulge or math.dist(arc_centre(a, b), arc_centre(b, c)) > SAME_MM:
            continue
        lengths = region.outline.length(i), Outline((b, Corner(c.x, c.y))).length(0)
        if abs(arc_radius(a, b) - arc_radius(b, c)) < SAME_MM and min(lengths) < SHORTEST_ARC_MM:
            corners[i] = Corner(a.x, a.y, math.tan(math.atan(a.bulge) + math.atan(b.bulge)))
            sides[i] = sides[i] if lengths[0] >= lengths[1] else sides[j]
            del corners[j], sides[j]
    return Region(Outline(tuple(corners)), tuple(sides))


def _bar_between(system: System, parent: Region, after: Region, centre: Working, tag: str, path: Path, *, upright: bool) -> Bar:
    """The bar on the edge that `after` got from the cut; what it meets are that edge's neighbours."""
    count = len(after.sides)
    edge = next(i for i, side in enumerate(after.sides) if side.tag == tag)
    start, end = after.outline.corners[edge].point, after.outline.corners[(edge + 1) % count].point
    neighbours = [after.sides[edge - 1], after.sides[(edge + 1) % count]]
    ends = sorted(zip((start, end), neighbours, strict=True), key=lambda item: item[0][1 if upright else 0])
    meets = tuple(next(i for i, s in enumerate(parent.sides) if s is side) for _, side in ends)
    return make_bar(system, parent, Line(upright, (ends[0][0], ends[1][0]), (meets[0], meets[1])), centre, tag, path)


def _outside(entry: Division, key: str, term: Term, low: Working, high: Working, path: Path, index: int) -> Problem:
    bar = key.removesuffix("s")
    where = (*path, key) if isinstance(getattr(entry, key), str) else (*path, key, index)
    return Problem(
        "bar-outside", f"a {bar} at {term.amount:g} lies outside what it divides, {low.value:g} to {high.value:g}",
        f"{key} are measured from the {'left' if bar == 'mullion' else 'top'} outer edge of the frame, to the centre line",
        where,
    )


def _light(build: Build, spec: LightSpec, region: Region, path: Path) -> None:
    number = build.counts["light"] = build.counts.get("light", 0) + 1
    opening, dummy = OPENINGS[spec.light], spec.sash == "dummy"
    has_sash = opening.has_sash(dummy)
    if not (is_offered(build, spec, path) and room_for_glass(build, spec, region, path, has_sash=has_sash) and can_hang(build, spec, region, path)):
        return
    swing = spec.swing or _default_swing(build.system, opening.swings)
    lead = spec.leads
    try:
        sashes, panes = glaze(build, spec, region, path, number)
    except OffsetError as error:
        build.problems.append(no_room(number, region, error, path))
        return
    if min(min(box.width, box.height) for box in (pane.sight.outline.bounds for pane in panes)) < LEAST_SIGHT_MM:
        build.problems.append(no_room(number, region, OffsetError("no useful glass is left"), path))
        return
    if not all(can_turn(build, spec, sash, path) and handle_fits(build, spec, sash, path) for sash in sashes):
        return
    panes = barred(build, spec, panes, path)
    at_head = any(side.tag in build.heads for side in region.sides)
    box = region.outline.bounds
    # Common practice, no source: what stands higher than all below it is the main light, and no fanlight.
    fanlight = at_head and box.height <= box.bottom and any(s.profile == "transom" for s in _level_bottom(region))
    build.lights.append(Light(
        number, path, spec, region, spec.light, spec.hinge, swing, fanlight, opening.words(spec.hinge, swing, lead, dummy), sashes, panes,
    ))


def _level_bottom(region: Region) -> list[Side]:
    bottom = region.outline.bounds.bottom
    return [
        side for (a, b), side in zip(region.outline.edges(), region.sides, strict=True)
        if abs(a.y - bottom) < SAME_MM and abs(b.y - bottom) < SAME_MM
    ]


def _default_swing(system: System, possible: tuple[str, ...]) -> str:
    return system.swing if not possible or system.swing in possible else possible[0]



