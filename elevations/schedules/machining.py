"""What is drilled and notched into cut pieces, each dimensioned from one end of the piece as it comes off the saw."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.drainage import InTheWay
from elevations.geometry.fit_fixing import through_frame
from elevations.geometry.hardware_places import hardware_places
from elevations.geometry.place import Place
from elevations.geometry.region import Region
from elevations.geometry.sill import cut_length, weeps
from elevations.geometry.window import FixingPoint, Member, Window
from elevations.plane import Point
from elevations.schedules.cut_steel import STEEL
from elevations.schedules.cut_strips import SUB_SILL
from elevations.schedules.machining_steel import SCREW, screw_places
from elevations.schedules.pieces import along_cut, first_end, members_of
from elevations.schedules.table import Column, Schedule, tidy


@dataclass(frozen=True, slots=True)
class MachiningRow:
    """One place on one piece, to 0.1 mm, from the end of the cut piece, weld allowance included."""

    piece: str
    """'W1-left jamb'."""
    mark: str
    profile: str
    length_mm: float
    """Of the cut piece."""
    along_mm: float
    measured_from: str
    """left or top: the end of the piece, seen from outside as it stands in the window."""
    kind: str
    """bar joint (the centre line of a mullion or transom that joins here), fixing hole, drainage slot (in the rebate below
    a pane or a sash) and drainage outlet (through the outer face), pressure hole (in the rebate above it), weep (in the sill
    under the frame), steel screw, or what the system calls its hardware: stay, hinge, keep, handle … (its middle)."""
    what: str
    """Tag of the bar, the fixing, the pane or the sash that it is for."""
    size: str = ""
    """Of a slot or hole, as the system gives it: '30 x 5'."""


def machining_rows(window: Window) -> Iterator[MachiningRow]:
    """Every place on every piece, piece by piece, from its first end on."""
    members = members_of(window)
    drilled = through_frame(window)
    places = [place for member in members for place in _places(window, member, drilled)]
    by_tag = {member.tag: member for member in members}
    places += [Place(by_tag[drain.member], drain.at, drain.kind, drain.what, drain.size) for drain in window.drains]
    places += hardware_places(window)
    order = {member.tag: number for number, member in enumerate(members)}
    rows = [(order[place.member.tag], _row(window, place)) for place in places]
    rows += [(order[tag], row) for tag, row in _screws(window, members, [row for _, row in rows])]
    yield from [row for _, row in sorted(rows, key=lambda item: (item[0], item[1].along_mm, item[1].kind, item[1].what))]
    yield from _weeps(window)


def _weeps(window: Window) -> Iterator[MachiningRow]:
    """Where the sill under the frame is slotted, from its left end."""
    if window.site is None or window.site.sill is None:
        return
    length = cut_length(window)
    for at in weeps(length, window.system.weeps):
        yield MachiningRow(
            f"{window.mark}-{SUB_SILL}", window.mark, f"sill {window.site.sill.projection:g}", tidy(length, 1), tidy(at, 1), "left", "weep", SUB_SILL,
        )


def _screws(window: Window, members: Sequence[Member], rows: Sequence[MachiningRow]) -> Iterator[tuple[str, MachiningRow]]:
    """The screws of the reinforcement of each member, with its tag: clear of what else is machined there."""
    by_piece: dict[str, list[InTheWay]] = {}
    for row in rows:
        by_piece.setdefault(row.piece, []).append(InTheWay(row.along_mm, 0.0, row.kind))
    for member in members:
        piece = f"{window.mark}-{member.tag}"
        for along, near in screw_places(window, member, by_piece.get(piece, [])):
            what = f"{STEEL}: {near}" if near else STEEL
            yield member.tag, MachiningRow(
                piece, window.mark, member.profile, tidy(member.length.value, 1), tidy(along, 1), first_end(member), SCREW, what,
            )


def _row(window: Window, place: Place) -> MachiningRow:
    member = place.member
    return MachiningRow(
        piece=f"{window.mark}-{member.tag}",
        mark=window.mark,
        profile=member.profile,
        length_mm=tidy(member.length.value, 1),
        along_mm=tidy(along_cut(member, place.at, window.system), 1),
        measured_from=first_end(member),
        kind=place.kind,
        what=place.what,
        size=place.size,
    )


def _places(window: Window, member: Member, drilled: Sequence[FixingPoint]) -> Iterator[Place]:
    """Where bars join a member and fixings go through it."""
    for bar in window.bars:
        for end, met, cut in zip(bar.outer, bar.meets, bar.ends, strict=True):
            if met == member.tag:
                yield Place(member, end, "bar joint", bar.tag)
            elif cut.cuts > 1 and member.tag in (joins := _round_corner(bar.within, end)):
                yield Place(member, joins[member.tag], "bar joint", bar.tag)
    for fixing in drilled:
        if fixing.side == member.tag:
            yield Place(member, fixing.at, "fixing hole", fixing.tag)


def _round_corner(parent: Region, end: Point) -> dict[str, Point]:
    """The two members at the corner nearest to a bar's end, with that corner: a bar cut to a point is let into both, at their mitre."""
    corners = parent.outline.corners
    number = min(range(len(corners)), key=lambda at: math.dist(corners[at].point, end))
    return {parent.sides[at].tag: corners[number].point for at in (number - 1, number)}


def totals(rows: Sequence[MachiningRow]) -> list[str]:
    """How many there are of each kind."""
    kinds = sorted({row.kind for row in rows})
    return ["; ".join(f"{sum(row.kind == kind for row in rows)} x {kind}" for kind in kinds)] if rows else []


MACHINING = Schedule(
    key="machining",
    title="Machining",
    columns=(
        Column("piece", "piece", text=True),
        Column("mark", text=True),
        Column("profile", "profile", text=True),
        Column("length_mm", "cut length mm", decimals=1),
        Column("along_mm", "along mm", decimals=1),
        Column("measured_from", "from", text=True),
        Column("kind", "kind", text=True),
        Column("what", "for", text=True),
        Column("size", "size", text=True),
    ),
    rows=machining_rows,
    totals=totals,
)
