"""A place where a window is drained or aired."""

from __future__ import annotations

from dataclasses import dataclass

from elevations.plane import Point


@dataclass(frozen=True, slots=True)
class Drain:
    """A slot that drains a rebate, its outlet, or a hole that lets air into one."""

    member: str
    """Tag of the member that it is in."""
    at: Point
    """On the outer edge of the member, or on the centre line of a bar."""
    kind: str
    """drainage slot, drainage outlet, pressure hole or pressure outlet."""
    what: str
    """Tag of what stands in the rebate: G1, 'S1, S2'."""
    size: str
    """In words, as the system gives it: '30 x 5'."""
