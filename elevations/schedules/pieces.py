"""How a member lies on the saw and on the bench: which end comes first, how its ends are cut, where a point of it is."""

from __future__ import annotations

import math
from dataclasses import dataclass

from elevations.catalogue.system import System
from elevations.geometry.along import mitre_angles
from elevations.geometry.window import Bar, Member, Window
from elevations.plane import Corner, Outline, Point, arc_centre, arc_radius


@dataclass(frozen=True, slots=True)
class Cuts:
    """The end cuts of a piece: degrees between its outer edge (a bar's centre line) and each cut, 90 is square."""

    first: float
    """At its top or left end, seen from outside."""
    last: float

    @property
    def words(self) -> str:
        """'45/45', the top or left end first."""
        return f"{self.first:g}/{self.last:g}"


def is_level(start: Point | Corner, end: Point | Corner) -> bool:
    """True where an edge runs rather across than up."""
    return abs(end.x - start.x) >= abs(end.y - start.y)


def first_end(member: Member) -> str:
    """The end that positions are measured from: 'left' or 'top', seen from outside."""
    return "left" if is_level(*member.outer) else "top"


def _runs_backwards(start: Point | Corner, end: Point | Corner) -> bool:
    """True where an edge starts at what is its last end here: its right or its bottom."""
    return start.x > end.x if is_level(start, end) else start.y < end.y


def end_cuts(member: Member) -> Cuts:
    """The end cuts of a member, to 0.1 degree."""
    start, end = member.end_angles
    if isinstance(member, Bar):
        return Cuts(end, start) if member.upright else Cuts(start, end)
    return Cuts(end, start) if _runs_backwards(*member.outer) else Cuts(start, end)


def mitres(a: Corner, b: Corner, c: Corner, d: Corner) -> Cuts:
    """The cuts of a piece with the outer edge a to b and the inner edge c to d: from a to d and from b to c."""
    start, end = mitre_angles(a, b, c, d)
    return Cuts(end, start) if _runs_backwards(a, b) else Cuts(start, end)


def along_cut(member: Member, point: Point, system: System) -> float:
    """How far a point of the outer edge (a bar's centre line) lies from the first end of the cut piece, mm.

    A welded member is longer than its outline by the weld allowance at each end, a bar than what shows of it by its joint.
    """
    if isinstance(member, Bar):
        return member.reach[1] - point.y if member.upright else point.x - member.reach[0]
    start, end = member.face.corners[:2]
    if _runs_backwards(start, end):
        start, end = Corner(end.x, end.y, -start.bulge), Corner(start.x, start.y)
    return system.weld_allowance + _along(start, end, point)


def _along(start: Corner, end: Corner, point: Point) -> float:
    """From the start of an edge along it to a point of it, mm."""
    if not start.bulge:
        return math.dist(start[:2], point)
    centre = arc_centre(start, end)
    turned = math.atan2(point.y - centre.y, point.x - centre.x) - math.atan2(start.y - centre.y, start.x - centre.x)
    return (turned * math.copysign(1.0, start.bulge)) % math.tau * arc_radius(start, end)


def weld_each_end_mm(member: Member, system: System) -> float:
    """What the cut length holds at each end for the weld."""
    return 0.0 if isinstance(member, Bar) else system.weld_allowance


def members_of(window: Window) -> tuple[Member, ...]:
    """Every length of profile: frame, bars, sashes."""
    return (*window.members, *window.bars, *(member for sash in window.sashes for member in sash.members))


def edge_word(outline: Outline, edge: int) -> str:
    """Which side of an outline an edge is: bottom, right, top or left, by the way it runs (counter-clockwise)."""
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    if is_level(a, b):
        return "bottom" if b.x > a.x else "top"
    return "right" if b.y > a.y else "left"
