"""The cutting list: every length of profile, bead and reinforcement, equal pieces in one row."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from elevations.catalogue.clearances import finish_kind
from elevations.catalogue.system import Part, PartKind, System
from elevations.geometry.along import edge_words, mitre_angles
from elevations.geometry.joined import Joined
from elevations.geometry.region import Region
from elevations.geometry.stations import to_station
from elevations.geometry.window import Bar, Light, Member, Pane, Window
from elevations.plane import Corner
from elevations.schedules.pieces import (
    cut_notes,
    end_cuts,
    in_order,
    is_bent,
    members_of,
    weld_each_end_mm,
)
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted

NOT_FOR_LOAD = "for no load: one that carries is specified by a licensed practice"
STEEL_KG_PER_M3 = 7850   # density of steel, from memory

ORDER = ("frame", "mullion", "transom", "sash", "coupler", "bay post", "frame bead", "sash bead")
"""Of the rows, by how their profile begins; reinforcement comes last."""


@dataclass(frozen=True, slots=True)
class CuttingRow:
    """Equal pieces. The cut length goes over the long points, to the nearest 0.1 mm, weld allowance included."""

    profile: str
    """frame, mullion, transom, sash; 'bay post for 135 degrees'; 'sash bead for 28 mm glass'; 'frame reinforcement' …"""
    system: str
    finish_outside: str
    finish_inside: str
    """Both empty for reinforcement, which doesn't show."""
    length_mm: float
    ends: str
    """'45/45': degrees between the long edge and the cut, top or left end first; 90 is square."""
    weld_each_end_mm: float
    """How much of the length is burnt off at each end."""
    quantity: int
    mass_kg: float | None
    """Of all its pieces, to 0.01; None where the system gives no mass for it."""
    pieces: tuple[str, ...]
    """What they are for: 'W1-head', 'W1-S1 left stile', 'W1-G2 top'."""
    remark: str = ""
    bar_length_mm: float = 6000.0
    """Of the stock that it is cut from."""


def cutting_rows(window: Window) -> Iterator[CuttingRow]:
    """The rows of one window."""
    members = members_of(window)
    rows = [_profile_row(window, member) for member in members]
    rows += [row for light in window.lights for row in _bead_rows(window, light)]
    rows += [row for member in members for row in _steel_rows(window, member)]
    yield from merged(rows)


def joint_rows(joined: Joined) -> Iterator[CuttingRow]:
    """The couplers and bay posts of a set of joined windows."""
    for joint in joined.joints:
        yield CuttingRow(
            profile=joint.profile,
            system=joint.system.name,
            finish_outside=joint.finish.outside,
            finish_inside=joint.finish.inside,
            length_mm=tidy(joint.length.value, 1),
            ends="90/90",
            weld_each_end_mm=0,
            quantity=1,
            mass_kg=None if joint.kg_per_m is None else joint.kg_per_m * joint.length.value / 1000,
            pieces=(f"{joined.mark}-{joint.tag}",),
            remark="" if joint.kind == "coupler" else NOT_FOR_LOAD,
            bar_length_mm=joint.system.bar_length,
        )


def merged(rows: Iterable[CuttingRow]) -> list[CuttingRow]:
    """Rows that differ only in what they are for made one, by profile and then the longest first: for a whole job."""
    groups: dict[CuttingRow, list[CuttingRow]] = {}
    for row in rows:
        groups.setdefault(replace(row, quantity=0, mass_kg=None, pieces=()), []).append(row)
    made = [
        replace(
            group[0],
            quantity=sum(row.quantity for row in group),
            mass_kg=_sum_kg(group),
            pieces=tuple(piece for row in group for piece in row.pieces),
        )
        for group in groups.values()
    ]
    return sorted(made, key=_place)


def _place(row: CuttingRow) -> tuple[int, str, str, str, str, float, str, str]:
    plain = row.profile.partition(" for ")[0]
    at = ORDER.index(plain) if plain in ORDER else len(ORDER)
    return at, row.profile, row.system, row.finish_outside, row.finish_inside, -row.length_mm, row.ends, row.remark


def _sum_kg(rows: Sequence[CuttingRow]) -> float | None:
    masses = [row.mass_kg for row in rows if row.mass_kg is not None]
    return tidy(sum(masses), 2) if len(masses) == len(rows) else None


def _profile_row(window: Window, member: Member) -> CuttingRow:
    system = window.system
    per_m = system.profile(member.profile).kg_per_m
    return CuttingRow(
        profile=member.profile,
        system=system.name,
        finish_outside=window.finish.outside,
        finish_inside=window.finish.inside,
        length_mm=tidy(member.length.value, 1),
        ends=end_cuts(member).words,
        weld_each_end_mm=tidy(weld_each_end_mm(member, system), 1),
        quantity=1,
        mass_kg=None if per_m is None else per_m * member.length.value / 1000,
        pieces=(f"{window.mark}-{member.tag}",),
        remark=_bent(window, member) if is_bent(member) else "; ".join(cut_notes(member)),
        bar_length_mm=system.bar_length,
    )


def _bent(window: Window, member: Member) -> str:
    """What to say of a bent member: straight steel does not go into it, so none is listed."""
    without = "; its reinforcement is not listed" if _steel_parts(window.system, member) else ""
    return f"bent: length along the outer edge{without}"


def _bead_rows(window: Window, light: Light) -> Iterator[CuttingRow]:
    """Four mitred beads a pane, or one for each edge of another shape."""
    for number, pane in enumerate(light.panes):
        bounds = light.sashes[number].outer if pane.holder == "sash" else light.region
        seat, remark = _bead_seat(window.system, bounds, pane)
        corners, inner, names = seat.outline.corners, pane.sight.outline.corners, edge_words(seat.outline)
        for edge in range(len(corners)):
            after = (edge + 1) % len(corners)
            facing = Corner(*inner[after][:2], -inner[edge].bulge)
            yield CuttingRow(
                profile=f"{pane.holder} bead for {tidy(pane.make_up.thickness, 1)} mm glass",
                system=window.system.name,
                finish_outside=window.finish.outside,
                finish_inside=window.finish.inside,
                length_mm=tidy(seat.outline.length(edge), 1),
                ends=in_order(
                    corners[edge], corners[after], mitre_angles(corners[edge], corners[after], facing, inner[edge])
                ).words,
                weld_each_end_mm=0,
                quantity=1,
                mass_kg=None,
                pieces=(f"{window.mark}-{pane.tag} {names[edge]}",),
                remark="; ".join(filter(None, ("bent: length along the outer edge" if corners[edge].bulge else "", remark))),
                bar_length_mm=window.system.bar_length,
            )


def _bead_seat(system: System, bounds: Region, pane: Pane) -> tuple[Region, str]:
    """Where the beads' outer edges lie: at the system's bead stations, else at the rebate, which the remark then says."""
    if all(system.profiles[side.profile].bead is not None for side in bounds.sides):
        return to_station(system, bounds, "bead"), ""
    return pane.tight, "cut to the rebate: the system gives no bead edge"


def _steel_rows(window: Window, member: Member) -> Iterator[CuttingRow]:
    """One length of reinforcement with square ends, where the section has one and the member is long enough for any."""
    if is_bent(member) or not _reinforced(window, member):
        return
    for part in _steel_parts(window.system, member):
        length, remark = _steel_length(window.system, member, part)
        if tidy(length, 1) > 0:
            yield CuttingRow(
                profile=f"{member.profile} reinforcement",
                system=window.system.name,
                finish_outside="",
                finish_inside="",
                length_mm=tidy(length, 1),
                ends="90/90",
                weld_each_end_mm=0,
                quantity=1,
                mass_kg=part.outline.area / 1e6 * length / 1000 * STEEL_KG_PER_M3,
                pieces=(f"{window.mark}-{member.tag}",),
                remark=remark,
                bar_length_mm=window.system.bar_length,
            )


def _reinforced(window: Window, member: Member) -> bool:
    """Coloured profiles always, since the sun heats them more; white ones from the system's length on, else always.

    Common practice, no source. Wind and weight may ask for steel in shorter ones: the structural checks speak of that.
    """
    rule = window.system.reinforcement
    white = all(finish_kind(code) == "white" for code in (window.finish.outside, window.finish.inside))
    return rule is None or not white or member.length.value >= rule.white_from_mm


def _steel_parts(system: System, member: Member) -> list[Part]:
    section = system.profile(member.profile).section
    return [part for part in section.body if part.kind is PartKind.STEEL] if section else []


def _steel_length(system: System, member: Member, part: Part) -> tuple[float, str]:
    """The longest square-ended steel that the end cuts leave room for, less the system's set-back at each end.

    A mitre runs in over the steel: its edge nearest the glass is the shortest place. Of a bar the shorter edge counts.
    """
    finished = member.length.value - 2 * weld_each_end_mm(member, system)
    if isinstance(member, Bar):
        fits = min(member.edge_lengths)
    else:
        depth = part.outline.bounds.right
        fits = finished - sum(depth / math.tan(math.radians(cut)) for cut in end_cuts(member))
    if system.reinforcement is None:
        return fits, "longest that fits between the end cuts: set-back not given"
    return fits - 2 * system.reinforcement.set_back_mm, ""


def totals(rows: Sequence[CuttingRow]) -> list[str]:
    """Pieces, metres and mass of each profile."""
    groups: dict[tuple[str, str], list[CuttingRow]] = {}
    for row in rows:
        groups.setdefault((row.system, row.profile), []).append(row)
    lines = []
    for (system, profile), group in groups.items():
        pieces, length = sum(row.quantity for row in group), sum(row.quantity * row.length_mm for row in group)
        mass = _sum_kg(group)
        kg = "" if mass is None else f", {mass:.2f} kg"
        lines.append(f"{system} {profile}: {counted(pieces, 'piece')}, {length / 1000:.2f} m{kg}")
    return lines


CUTTING = Schedule(
    key="cutting",
    title="Cutting list",
    columns=(
        Column("profile", "profile", text=True),
        Column("system", "system", text=True),
        Column("finish_outside", "outside", text=True),
        Column("finish_inside", "inside", text=True),
        Column("length_mm", "length mm", decimals=1),
        Column("ends", "ends", text=True),
        Column("weld_each_end_mm", "weld mm", decimals=1),
        Column("quantity", "number"),
        Column("mass_kg", "mass kg", decimals=2),
        Column("pieces", "for", text=True),
        Column("remark", "remark", text=True),
        Column("bar_length_mm"),
    ),
    rows=cutting_rows,
    totals=totals,
    joined=merged,
    of_joined=joint_rows,
)
