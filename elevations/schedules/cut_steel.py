"""Reinforcement as it is cut: which members get it, and how long it is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TypedDict

from elevations.catalogue.clearances import finish_kind
from elevations.catalogue.system import Part, PartKind, System
from elevations.geometry.mass import STEEL_KG_M3
from elevations.geometry.window import Bar, Member, Window
from elevations.plane import SAME_MM
from elevations.schedules.cutting_row import CuttingRow
from elevations.schedules.pieces import end_cuts, is_bent, weld_each_end_mm
from elevations.schedules.table import tidy

STEEL = "reinforcement"


class Shared(TypedDict, total=False):
    """The fields of a row that say what else is cut from its bars."""

    stock: str
    cut_from: tuple[str, ...]


def steel_rows(window: Window, member: Member) -> Iterator[CuttingRow]:
    """One length of reinforcement with square ends, where the section has one and the member is long enough for any."""
    if is_bent(member) or not is_reinforced(window, member):
        return
    for part in steel_parts(window.system, member.profile):
        length, remark = steel_length(window.system, member, part)
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
                mass_kg=part.outline.area / 1e6 * length / 1000 * STEEL_KG_M3,
                pieces=(f"{window.mark}-{member.tag}",),
                remark=remark,
                bar_length_mm=window.system.bar_length,
                **shared_steel(window.system, member.profile),
            )


def is_reinforced(window: Window, member: Member) -> bool:
    """Whether a member gets its steel. Coloured profiles always, since the sun heats them more; white ones from the system's length on, else always.

    What counts is the finished length, as a tape measures it, not the cut length with its weld. Common practice, no source. Wind and weight may ask for steel in shorter ones: the structural checks speak of that.
    """
    rule = window.system.reinforcement
    white = all(finish_kind(code) == "white" for code in (window.finish.outside, window.finish.inside))
    return rule is None or not white or finished_mm(member, window.system) >= rule.white_from_mm - SAME_MM


def finished_mm(member: Member, system: System) -> float:
    """Length over the longest points as it stands in the window, the weld burnt off, mm."""
    return member.length.value - 2 * weld_each_end_mm(member, system)


def steel_parts(system: System, profile: str) -> list[Part]:
    """The reinforcement in a profile's outline."""
    section = system.profile(profile).section
    return [part for part in section.body if part.kind is PartKind.STEEL] if section else []


def steel_length(system: System, member: Member, part: Part) -> tuple[float, str]:
    """The longest square-ended steel that the end cuts leave room for, less the system's set-back at each end.

    A mitre runs in over the steel: its edge nearest the glass is the shortest place. Of a bar the shorter edge counts.
    """
    if isinstance(member, Bar):
        fits = min(member.edge_lengths)
    else:
        depth = part.outline.bounds.right
        fits = finished_mm(member, system) - sum(depth / math.tan(math.radians(cut)) for cut in end_cuts(member))
    if system.reinforcement is None:
        return fits, "longest that fits between the end cuts: set-back not given"
    return fits - 2 * system.reinforcement.set_back_mm, ""


def shared_steel(system: System, profile: str) -> Shared:
    """The steel of a mullion and of a transom of one profile comes out of the same bars."""
    own = [part.outline for part in steel_parts(system, profile)]
    alike = [name for name in system.cut_from(profile)[1] if [part.outline for part in steel_parts(system, name)] == own]
    return {"stock": f"{' and '.join(alike)} {STEEL}", "cut_from": tuple(f"{name} {STEEL}" for name in alike)} if len(alike) > 1 else {}
