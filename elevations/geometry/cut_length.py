"""Lengths of profile as they come off the saw: bent or straight, with their weld and without."""

from __future__ import annotations

from elevations.catalogue.opening_figures import FLOATING_STILE
from elevations.catalogue.system import System
from elevations.geometry.window import Bar, Member


def is_bent(member: Member) -> bool:
    """True for a length of profile along an arc."""
    return not isinstance(member, Bar) and bool(member.face.corners[0].bulge)


def weld_each_end_mm(member: Member, system: System) -> float:
    """What the cut length holds at each end for the weld."""
    return 0.0 if isinstance(member, Bar) or member.profile == FLOATING_STILE else system.weld_allowance


def finished_mm(member: Member, system: System) -> float:
    """Length over the longest points as it stands in the window, the weld burnt off, mm."""
    return member.length.value - 2 * weld_each_end_mm(member, system)
