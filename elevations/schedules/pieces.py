"""How a member lies on the saw and on the bench: which end comes first, how its ends are cut, where a point of it is."""

from __future__ import annotations

from typing import NamedTuple

from elevations.catalogue.system import System
from elevations.geometry.along import distance_along, is_upright
from elevations.geometry.window import Bar, Member, Window
from elevations.plane import Corner, Point

LEAST_DIFFERENCE_MM = 0.05
"""A difference in length that no saw can be set to."""


class Cuts(NamedTuple):
    """The end cuts of a piece: degrees between its length and each cut, 90 is square."""

    first: float
    """At its top or left end, seen from outside."""
    last: float

    @property
    def words(self) -> str:
        """'45/45', the top or left end first."""
        return f"{self.first:g}/{self.last:g}"


def first_end(member: Member) -> str:
    """The end that positions are measured from: 'top' of an upright piece, 'left' of any other, seen from outside."""
    return "top" if is_upright(*member.outer) else "left"


def runs_backwards(start: Point | Corner, end: Point | Corner) -> bool:
    """True where an edge starts at what is its last end here: its right or its bottom."""
    return start.y < end.y if is_upright(start, end) else start.x > end.x


def in_order(start: Point | Corner, end: Point | Corner, angles: tuple[float, float]) -> Cuts:
    """The cuts at the start and end of an edge, the top or left one first."""
    return Cuts(angles[1], angles[0]) if runs_backwards(start, end) else Cuts(*angles)


def end_cuts(member: Member) -> Cuts:
    """The end cuts of a member."""
    return in_order(*member.outer, member.end_angles)


def cut_notes(member: Member) -> list[str]:
    """What length and angles don't say: 'left edge 940.4, right edge 968.9', 'top end scribed to radius 704.0'."""
    if not isinstance(member, Bar):
        return []
    notes = end_notes(member)
    if max(member.length.value - edge for edge in member.edge_lengths) > LEAST_DIFFERENCE_MM:
        sides = ("left", "right") if member.upright else ("bottom", "top")
        notes.insert(0, ", ".join(f"{side} edge {edge:.1f}" for side, edge in zip(sides, member.edge_lengths, strict=True)))
    return notes


def end_notes(member: Member, *, short: bool = False) -> list[str]:
    """What an angle doesn't say of a bar's ends: 'top end two cuts, 48.8 and 48.8, …'; short: 'top end two cuts'."""
    if not isinstance(member, Bar):
        return []
    names = ("bottom", "top") if member.upright else ("left", "right")
    return [
        f"{name} end {end.note.partition(',')[0] if short else end.note}" for name, end in zip(names, member.ends, strict=True) if end.note
    ]


def along_cut(member: Member, point: Point, system: System) -> float:
    """How far a point of the outer edge (a bar's centre line) lies from the first end of the cut piece, mm, along that edge.

    A welded member is longer than its outline by the weld allowance at each end; a bar ends at its longest point, joint
    included. Raises ValueError for a point that is not on the edge.
    """
    if isinstance(member, Bar):
        return member.reach[1] - point.y if member.upright else point.x - member.reach[0]
    along = distance_along(member.face, 0, point)
    if along is None:
        raise ValueError(f"{point} is not on the outer edge of {member.tag}")
    if runs_backwards(*member.outer):
        along = member.face.length(0) - along
    return system.weld_allowance + along


def members_of(window: Window) -> tuple[Member, ...]:
    """Every length of profile: frame, bars, sashes."""
    stiles = [sash.stile for sash in window.sashes if sash.stile is not None]
    return (*window.members, *window.bars, *(member for sash in window.sashes for member in sash.members), *stiles)
