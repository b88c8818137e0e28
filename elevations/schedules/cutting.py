"""The cutting list: every length of profile, bead and reinforcement, equal pieces in one row."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from elevations.geometry.cut_length import is_bent, weld_each_end_mm
from elevations.geometry.joined import Joined
from elevations.geometry.steel import steel_parts
from elevations.geometry.window import Member, Window
from elevations.schedules.cut_beads import bead_rows
from elevations.schedules.cut_steel import steel_rows
from elevations.schedules.cut_strips import extension_rows, glazing_bar_rows, sill_rows
from elevations.schedules.cutting_row import BENT_ENDS, TO_BEND, CuttingRow, coloured, sum_kg
from elevations.schedules.pieces import cut_notes, end_cuts, end_notes, members_of
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted

NOT_FOR_LOAD = "for no load: one that carries is specified by a licensed practice"

ORDER = ("frame", "mullion", "transom", "sash", "floating-stile", "coupler", "bay post", "frame bead", "sash bead", "frame extension", "sill",
         "glazing bar on the face")
"""Of the rows, by how their profile begins; reinforcement comes last."""


def cutting_rows(window: Window) -> Iterator[CuttingRow]:
    """The rows of one window."""
    members = members_of(window)
    rows = [_profile_row(window, member) for member in members]
    rows += [row for light in window.lights for row in bead_rows(window, light)]
    rows += [row for member in members for row in steel_rows(window, member)]
    rows += [*extension_rows(window), *sill_rows(window), *glazing_bar_rows(window)]
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
            mass_kg=sum_kg(row.mass_kg for row in group),
            pieces=tuple(piece for row in group for piece in row.pieces),
        )
        for group in groups.values()
    ]
    return sorted(made, key=_place)


def _place(row: CuttingRow) -> tuple[int, str, str, str, str, str, float, str]:
    plain = row.profile.partition(" for ")[0].rstrip("0123456789. x")
    at = ORDER.index(plain) if plain in ORDER else len(ORDER)
    return at, row.profile, row.system, row.finish_outside, row.finish_inside, row.remark, -row.length_mm, row.ends


def _bent(window: Window, member: Member) -> str:
    """What to say of a bent member: straight steel does not go into it, so none is listed."""
    without = "; its reinforcement is not listed" if steel_parts(window.system, member.profile) else ""
    return f"bent: length along the outer edge, {BENT_ENDS}{without}"


def _profile_row(window: Window, member: Member) -> CuttingRow:
    system = window.system
    per_m = system.profile(member.profile).kg_per_m
    stock, cut_from = system.cut_from(member.profile)
    return CuttingRow(
        profile=member.profile,
        system=system.name,
        **coloured(window),
        length_mm=tidy(member.length.value, 1),
        ends=end_cuts(member).words,
        weld_each_end_mm=tidy(weld_each_end_mm(member, system), 1),
        quantity=1,
        mass_kg=None if per_m is None else per_m * member.length.value / 1000,
        pieces=(f"{window.mark}-{member.tag}",),
        remark=_bent(window, member) if is_bent(member) else "; ".join(cut_notes(member)),
        bar_length_mm=system.bar_length,
        stock="" if stock == member.profile else stock,
        cut_from=cut_from if len(cut_from) > 1 else (),
        form=TO_BEND if is_bent(member) else "; ".join(end_notes(member, short=True)),
    )


def totals(rows: Sequence[CuttingRow]) -> list[str]:
    """Pieces, metres and mass of each profile."""
    groups: dict[tuple[str, str], list[CuttingRow]] = {}
    for row in rows:
        groups.setdefault((row.system, row.profile), []).append(row)
    lines = []
    for (system, profile), group in groups.items():
        pieces, length = sum(row.quantity for row in group), sum(row.quantity * row.length_mm for row in group)
        mass = sum_kg(row.mass_kg for row in group)
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
        Column("first_end_degrees"),
        Column("last_end_degrees"),
        Column("bar_length_mm"),
        Column("bars", text=True),
    ),
    rows=cutting_rows,
    totals=totals,
    joined=merged,
    of_joined=joint_rows,
)
