"""Lengths of profile: frame members, bars and sash members, with mitres and joints."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.catalogue.system import System
from elevations.errors import Path
from elevations.geometry.along import Crossing, chord, distance_along
from elevations.geometry.bar_end import SQUARE_END, BarEnd
from elevations.geometry.region import Region
from elevations.geometry.stations import figure
from elevations.geometry.window import Bar, Member
from elevations.plane import (
    SAME_MM,
    Corner,
    OffsetError,
    Outline,
    Point,
    arc_centre,
    arc_radius,
    clip,
    offset,
    rectangle,
)
from elevations.working import Source, Term, Working

WELD = "weld allowance, each end"
EXACT = Source("rule", "exact outline")


def mitred(
    system: System, outer: Region, inner: Region, profile: str, names: Sequence[str], path: Path
) -> tuple[Member, ...]:
    """One member along each edge of `outer`, cut on the line from its corner to the same corner of `inner`."""
    made = []
    count = len(outer.sides)
    for i, name in enumerate(names):
        j = (i + 1) % count
        a, b = outer.outline.corners[i], outer.outline.corners[j]
        c, d = inner.outline.corners[j], inner.outline.corners[i]
        face = Outline((a, Corner(b.x, b.y), Corner(c.x, c.y, -inner.outline.corners[i].bulge), Corner(d.x, d.y)))
        made.append(Member(name, profile, (a.point, b.point), face, _mitred_length(system, outer, i), path))
    return tuple(made)


def _mitred_length(system: System, region: Region, edge: int) -> Working:
    """Along the outer edge, with the weld allowance at both ends."""
    along = edge_length(region, edge)
    if not system.weld_allowance:
        return along
    weld = Term(system.weld_allowance, WELD, Source("system", "weld_allowance"))
    return along.plus(weld, weld)


def edge_length(region: Region, edge: int) -> Working:
    """Length of one edge, mm: the region's width or height where the edge spans it, else measured along the outline."""
    a, b = region.outline.corners[edge], region.outline.corners[(edge + 1) % len(region.sides)]
    if not a.bulge and (a.x == b.x or a.y == b.y):
        whole, length = (region.width, abs(a.x - b.x)) if a.y == b.y else (region.height, abs(a.y - b.y))
        if abs(whole.value - length) < SAME_MM:
            return whole
    return Working((Term(region.outline.length(edge), "along the outer edge", EXACT),))


@dataclass(frozen=True, slots=True)
class Line:
    """Where a bar runs across what it divides."""

    upright: bool
    ends: tuple[Point, Point]
    """Of its centre line on the datum outline, lower coordinate first."""
    meets: tuple[int, int]
    """Numbers of the edges there."""


def bar(system: System, parent: Region, line: Line, centre: Working, tag: str, path: Path) -> Bar:
    """A mullion or transom across `parent`, butted against the rebates of what it meets, and `joint` further.

    It is cut to what it meets: square, on a slope, to a point, or scribed to an arc. Raises OffsetError where a corner of
    the outline leaves no room for it.
    """
    make = _square_bar if parent.outline.is_box else _shaped_bar
    return make(system, parent, line, centre, tag, path)


def _square_bar(system: System, parent: Region, line: Line, centre: Working, tag: str, path: Path) -> Bar:
    """Between two parallel members."""
    profile = "mullion" if line.upright else "transom"
    half = figure(system, profile, "rebate")
    sides = [parent.sides[edge] for edge in line.meets]
    stations = [figure(system, side.profile, "rebate") for side in sides]
    low, high = line.ends
    first, last = (0, 1) if line.upright else (1, 0)   # of a mullion the bottom, further from the top; of a transom the right
    ends = sides[first].at, sides[last].at
    assert ends[0] is not None
    assert ends[1] is not None
    if line.upright:
        along = low.y + stations[0], high.y - stations[1]
        face = rectangle(low.x - half, along[0], low.x + half, along[1])
    else:
        along = low.x + stations[0], high.x - stations[1]
        face = rectangle(along[0], low.y - half, along[1], low.y + half)
    joint = Term(system.profiles[profile].joint, "joint: past the rebate, each end", Source("system", f"members.{profile}.joint"))
    length = ends[0].minus(ends[1]).plus(
        *(Term(-d, f"{s.profile}: to the rebate at {s.tag}", Source("system", f"members.{s.profile}.rebate"))
          for d, s in zip(stations, sides, strict=True)),
        joint, joint,
    )
    return Bar(
        tag, profile, line.ends, face, length, path, centre, line.upright, (sides[0].tag, sides[1].tag), parent,
        (SQUARE_END, SQUARE_END), (along[0] - joint.amount, along[1] + joint.amount), (length.value, length.value),
    )


def _shaped_bar(system: System, parent: Region, line: Line, centre: Working, tag: str, path: Path) -> Bar:
    """Under a sloped or curved head: its face ends at the rebates, its cut piece `joint` beyond, square to what it meets."""
    profile = "mullion" if line.upright else "transom"
    axis = 0 if line.upright else 1
    at = line.ends[0][axis]
    rebates = [figure(system, side.profile, "rebate") for side in parent.sides]
    joint = system.profiles[profile].joint
    face = _strip(offset(parent.outline, rebates), axis, at, figure(system, profile, "rebate"))
    to_joint = offset(parent.outline, [rebate - joint for rebate in rebates])
    half = figure(system, profile, "sight")
    left, right = (chord(to_joint, axis, at + sign * half) for sign in (-1.0, 1.0))
    if left is None or right is None:
        raise OffsetError("a bar is wider than what it meets")
    lengths = left[1].at - left[0].at, right[1].at - right[0].at
    run = _Run(to_joint, axis, at, half)
    reach = run.furthest(left[0], right[0], 0), run.furthest(left[1], right[1], 1)
    names = ("left", "right") if line.upright else ("bottom", "top")
    detail = (
        f"{lengths[0]:.1f} along its {names[0]} edge and {lengths[1]:.1f} along its {names[1]} one, {half:g} from the centre line",
        f"its ends run {joint:g} past the rebates, square to what it meets",
    )
    length = Working((Term(reach[1] - reach[0], "over its longest points, between what it meets, joints included", EXACT, detail),))
    sides = [parent.sides[edge] for edge in line.meets]
    ends = run.end(left[0], right[0], 0), run.end(left[1], right[1], 1)
    return Bar(
        tag, profile, line.ends, face, length, path, centre, line.upright, (sides[0].tag, sides[1].tag), parent,
        ends, reach, lengths,
    )


def _strip(outline: Outline, axis: int, at: float, half: float) -> Outline:
    """The part of an outline within `half` of the line x = at (axis 0) or y = at (axis 1)."""
    return clip(clip(outline, axis, at - half, high=True)[0], axis, at + half, high=False)[0]


@dataclass(frozen=True, slots=True)
class _Run:
    """A bar's run to the outline that its ends are cut to: `half` each side of the line x = at (axis 0) or y = at (axis 1)."""

    outline: Outline
    axis: int
    at: float
    half: float

    def _tips(self, which: int) -> list[Corner]:
        """Corners of the outline within the bar's width, at its low (0) or high (1) end."""
        along = 1 - self.axis
        middle = self.outline.bounds.centre[along]
        return [
            corner for corner in self.outline.corners
            if abs(corner[self.axis] - self.at) < self.half and (corner[along] > middle) == (which == 1)
        ]

    def furthest(self, left: Crossing, right: Crossing, which: int) -> float:
        """How far the bar's low (0) or high (1) end reaches, between its crossings along both edges: its longest point."""
        along, outward = 1 - self.axis, 1.0 if which else -1.0
        places = [left.at, right.at, *(tip[along] for tip in self._tips(which))]
        edges = list(self.outline.edges())
        for number in {left.edge, right.edge}:
            a, b = edges[number]
            centre = arc_centre(a, b) if a.bulge else None
            if centre is not None and abs(centre[self.axis] - self.at) < self.half:
                crown = [centre[self.axis], centre[self.axis]]
                crown[along] = centre[along] + outward * arc_radius(a, b)
                if distance_along(self.outline, number, Point(*crown)) is not None:   # it stands over the bar
                    places.append(crown[along])
        return max(places) if which else min(places)

    def end(self, left: Crossing, right: Crossing, which: int) -> BarEnd:
        """How the low (0) or high (1) end is cut."""
        tips = [] if left.edge == right.edge else self._tips(which)
        if not tips:
            angle = _angle(2 * self.half, right.at - left.at)
            a, b = list(self.outline.edges())[left.edge]
            scribed = a.bulge and left.edge == right.edge
            return BarEnd(angle, f"scribed to radius {arc_radius(a, b):.1f}") if scribed else BarEnd(angle)
        tip, along = tips[0], 1 - self.axis
        off, names = tip[self.axis] - self.at, ("left", "right") if self.axis == 0 else ("below", "above")
        angles = _angle(self.half + off, tip[along] - left.at), _angle(self.half - off, tip[along] - right.at)
        where = "on" if abs(off) < SAME_MM else f"{abs(off):.1f} {names[off > 0]} of"
        return BarEnd(angles[0], f"two cuts, {angles[0]:g} and {angles[1]:g}, that meet {where} the centre line", cuts=2)


def _angle(across: float, along: float) -> float:
    """Between a bar's length and a cut that gains so much, degrees to 0.1; 90 is square."""
    return round(math.degrees(math.atan2(across, abs(along))), 1)


def sash_member_names(outer: Region, region: Region, tag: str) -> tuple[str, ...]:
    """S1 bottom rail, S1 right stile …: by the way each edge runs; a sloped or bent one by what it hangs under: S1 left head."""
    names = []
    for (a, b), side in zip(outer.outline.edges(), region.sides, strict=True):
        if a.bulge or (abs(a.x - b.x) > SAME_MM and abs(a.y - b.y) > SAME_MM):
            names.append(f"{tag} {side.tag}")
        elif abs(b.x - a.x) >= abs(b.y - a.y):
            names.append(f"{tag} bottom rail" if b.x > a.x else f"{tag} top rail")
        else:
            names.append(f"{tag} right stile" if b.y > a.y else f"{tag} left stile")
    return tuple(_told_apart(names, [(a.x + b.x) / 2 for a, b in outer.outline.edges()]))


def _told_apart(names: Sequence[str], middles: Sequence[float]) -> Iterator[str]:
    """A name once: of pieces that hang under one head on both sides of a level rail, S1 head left and S1 head right."""
    for name, middle in zip(names, middles, strict=True):
        alike = sorted(at for other, at in zip(names, middles, strict=True) if other == name)
        place = alike.index(middle)
        yield name if len(alike) == 1 else f"{name} {('left', 'right')[place]}" if len(alike) == 2 else f"{name} {place + 1}"
