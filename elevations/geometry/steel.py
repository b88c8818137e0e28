"""Reinforcement: which members get it, and how long it is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from elevations.catalogue.clearances import finish_kind
from elevations.catalogue.system import Part, PartKind, System
from elevations.geometry.cut_length import finished_mm, is_bent
from elevations.geometry.window import Bar, Member, Window
from elevations.plane import SAME_MM

SHORTEST_MM = 0.05
"""What rounds to nothing on a saw that is set to 0.1 mm."""


class Steel(NamedTuple):
    """One length of reinforcement with square ends."""

    part: Part
    length: float
    """mm."""
    remark: str


def steel_of(window: Window, member: Member) -> Iterator[Steel]:
    """What is put into a member: where its section has a place for it and it is long enough for any; none into bent ones."""
    if is_bent(member) or not is_reinforced(window, member):
        return
    for part in steel_parts(window.system, member.profile):
        length, remark = steel_length(window.system, member, part)
        if length >= SHORTEST_MM:
            yield Steel(part, length, remark)


def is_reinforced(window: Window, member: Member) -> bool:
    """Whether a member gets its steel. Coloured profiles always, since the sun heats them more; white ones from the system's length on, else always.

    What counts is the finished length, as a tape measures it, not the cut length with its weld. Common practice, no source. Wind and weight may ask for steel in shorter ones: the structural checks speak of that.
    """
    rule = window.system.reinforcement
    white = all(finish_kind(code) == "white" for code in (window.finish.outside, window.finish.inside))
    return rule is None or not white or finished_mm(member, window.system) >= rule.white_from_mm - SAME_MM


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
        fits = finished_mm(member, system) - sum(depth / math.tan(math.radians(cut)) for cut in member.end_angles)
    if system.reinforcement is None:
        return fits, "longest that fits between the end cuts: set-back not given"
    return fits - 2 * system.reinforcement.set_back_mm, ""
