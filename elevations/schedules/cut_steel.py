"""Reinforcement as it is cut."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypedDict

from elevations.catalogue.system import System
from elevations.geometry.mass import STEEL_KG_M3
from elevations.geometry.steel import steel_of, steel_parts
from elevations.geometry.window import Member, Window
from elevations.schedules.cutting_row import CuttingRow
from elevations.schedules.table import tidy

STEEL = "reinforcement"


class Shared(TypedDict, total=False):
    """The fields of a row that say what else is cut from its bars."""

    stock: str
    cut_from: tuple[str, ...]


def steel_rows(window: Window, member: Member) -> Iterator[CuttingRow]:
    """One length of reinforcement with square ends, where the section has one and the member is long enough for any."""
    for part, length, remark in steel_of(window, member):
        yield CuttingRow(
            profile=f"{member.profile} reinforcement",
            system=window.system.name,
            finish_outside="",
            finish_inside="",
            length_mm=tidy(length, 1),
            ends="90/90",
            weld_each_end_mm=0,
            quantity=1,
            mass_kg=part.outline.area / 1e6 * length / 1000 * STEEL_KG_M3,
            pieces=(f"{window.mark}-{member.tag}",),
            remark=remark,
            bar_length_mm=window.system.bar_length,
            **shared_steel(window.system, member.profile),
        )


def shared_steel(system: System, profile: str) -> Shared:
    """The steel of a mullion and of a transom of one profile comes out of the same bars."""
    own = [part.outline for part in steel_parts(system, profile)]
    alike = [name for name in system.cut_from(profile)[1] if [part.outline for part in steel_parts(system, name)] == own]
    return {"stock": f"{' and '.join(alike)} {STEEL}", "cut_from": tuple(f"{name} {STEEL}" for name in alike)} if len(alike) > 1 else {}
