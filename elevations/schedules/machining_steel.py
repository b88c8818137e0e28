"""Where reinforcement is screwed to its profile: by the system's rule along the steel, clear of what else is machined there."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from elevations.geometry.cut_length import is_bent, weld_each_end_mm
from elevations.geometry.drainage import InTheWay, spread
from elevations.geometry.steel import is_reinforced, steel_length, steel_parts
from elevations.geometry.window import Bar, Member, Window
from elevations.schedules.pieces import LEAST_DIFFERENCE_MM, end_cuts

SCREW = "steel screw"
OF_KIND = {
    "drainage slot": "slot", "pressure hole": "slot", "fixing hole": "fixing", "bar joint": "bar", "drainage outlet": "", "pressure outlet": "",
}
"""What a rule calls what is machined: all that is not here is hardware; outlets go through the outer face, where no steel is."""


class Screw(NamedTuple):
    """One screw of the reinforcement."""

    along: float
    """Its middle, mm from the first end of the cut piece."""
    near: str
    """What it could not be kept clear of: '12 from the keep, less than 35'; empty where it is clear of all."""


def screw_places(window: Window, member: Member, there: Sequence[InTheWay]) -> list[Screw]:
    """The screws from the first end of the cut piece on; `there`: what else is machined in it, by its kind.

    None where the system has no rule, for a bent member, and for a bar whose ends are cut to a slope or a curve: where its
    steel begins is set at the bench.
    """
    rule = window.system.reinforcement.screws if window.system.reinforcement else None
    parts = steel_parts(window.system, member.profile)
    if rule is None or not parts or is_bent(member) or not is_reinforced(window, member) or _is_skew(member):
        return []
    length, _ = steel_length(window.system, member, parts[0])
    if length <= 0:
        return []
    start = _start(window, member, parts[0].outline.bounds.right)
    found = [
        InTheWay(item.along - start, clear, item.what) for item in there
        if (clear := rule.clear_of_mm(OF_KIND.get(item.what, "hardware"))) and -clear < item.along - start < length + clear
    ]
    places, _ = spread(length, rule, found)
    return [Screw(start + at, _near(at, found)) for at in places]


def _near(at: float, found: Sequence[InTheWay]) -> str:
    """What is nearer to a place than the rule asks, the nearest first; empty where nothing is."""
    near = sorted((abs(item.along - at), item) for item in found if abs(item.along - at) < item.clear - LEAST_DIFFERENCE_MM)
    return ", ".join(f"{distance:.0f} from the {item.what}, less than {item.clear:g}" for distance, item in near[:1])


def _is_skew(member: Member) -> bool:
    return isinstance(member, Bar) and max(member.length.value - edge for edge in member.edge_lengths) > LEAST_DIFFERENCE_MM


def _start(window: Window, member: Member, depth: float) -> float:
    """Where the steel begins, mm from the first end of the cut piece: past the weld, the mitre at its inner edge, and the set-back."""
    rule = window.system.reinforcement
    set_back = rule.set_back_mm if rule else 0.0
    if isinstance(member, Bar):
        return set_back
    return weld_each_end_mm(member, window.system) + depth / math.tan(math.radians(end_cuts(member).first)) + set_back
