"""The sill under a frame: where it ends, its notches at the reveal, drip, weep positions."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from elevations.catalogue.weeps import Weeps
from elevations.errors import Finding
from elevations.geometry.fit import Site
from elevations.geometry.neighbours import COUPLER
from elevations.geometry.window import Window

DRIP_RULE = "a setting: sill.drip_clear; 25: a timber window survey manual, read second hand"
"""That manual says it of the sill's front edge; taken for the drip, which is behind it, so on the safe side."""


STRAIGHT, LEAST_NOTCH_MM = 180.0, 0.05


class SillEnd(NamedTuple):
    """One end of a sill."""

    beyond: float
    """From the frame's edge to the end, along the longer edge where it is mitred, mm."""
    horn: float
    """Of that, what runs past the frame and its add-on, mm; 0 where it meets another window's sill."""
    joins: str = ""
    """The coupler or post over the joint with the next window's sill."""
    mitre: float = 0.0
    """How far out of square it is cut, degrees: half of what a bay turns there."""

    @property
    def free(self) -> bool:
        """Whether it ends beside a wall, and takes an end cap."""
        return not self.joins

    def words(self, *, caps: bool) -> str:
        """'horn 30, end cap', 'to the middle of C1, square', 'to the corner at P1, mitred 22.5°'."""
        if self.free:
            return f"{f'horn {self.horn:g}' if self.horn else 'no horn'}, {'end cap' if caps else 'no end cap'}"
        return f"to the corner at {self.joins}, mitred {self.mitre:g}°" if self.mitre else f"to the middle of {self.joins}, square"


def sill_ends(window: Window) -> tuple[SillEnd, SillEnd]:
    """The left and the right end of the sill, seen from outside; only of a window with one.

    Under a coupler two sills meet in its middle; at a bay post they are mitred, each at half of the turn, so that with its
    projection p the front edge runs p x tan(turn / 2) further than the post's face (common practice, no source).
    """
    site = window.site
    assert site is not None
    assert site.sill is not None
    sill, ends = site.sill, []
    for side, add_on in (("left jamb", site.fit.add_ons.left), ("right jamb", site.fit.add_ons.right)):
        joint = next((one for one in window.neighbours if one.side == side), None)
        if joint is None:
            ends.append(SillEnd(add_on + sill.horns, sill.horns))
        elif joint.connector.kind == COUPLER:
            ends.append(SillEnd(joint.width / 2, 0.0, joint.connector.tag))
        else:
            half = (STRAIGHT - joint.connector.angle) / 2
            ends.append(SillEnd(joint.width + sill.projection * math.tan(math.radians(half)), 0.0, joint.connector.tag, half))
    return ends[0], ends[1]


def cut_length(window: Window) -> float:
    """The sill from end to end, its longest edge where an end is mitred, mm."""
    left, right = sill_ends(window)
    return left.beyond + window.width.value + right.beyond


class Notch(NamedTuple):
    """What is cut off each back corner of a sill, so that it goes between the reveals while its horns pass before the wall; mm."""

    length: float
    """Along the sill, from each end."""
    depth: float
    """From the frame's inner face out to the wall's finished face: all but what stands before the wall."""
    through: float
    """What is left between the notches."""


def sill_notch(window: Window) -> Notch | None:
    """The notches of a sill with horns in a reveal; None where the job says nothing of the wall, or the sill goes between the reveals whole.

    Between the reveals it is as wide as the frame with its add-ons; behind a check as wide as the surveyed opening at the bottom
    less the clearance each side, or, where nothing was surveyed, as the frame less the lap and a joint each side.
    """
    site = window.site
    if site is None or site.sill is None or site.wall is None or any(not end.free for end in sill_ends(window)):
        return None
    before = front(site)
    if before is None or before <= 0 or site.wall.frame_at <= 0:
        return None   # nothing stands before the wall, or nothing in it
    whole, add_ons = cut_length(window), site.fit.add_ons
    through = window.width.value + add_ons.left + add_ons.right
    if site.fit.reveal.kind == "check":
        fitted = site.fitted
        through = (
            fitted.opening.width[2] - 2 * fitted.wanted if fitted is not None
            else through - 2 * ((site.fit.reveal.lap or 0.0) + site.fit.joint.least)
        )
    length = (whole - through) / 2
    return Notch(length, window.system.depth + site.wall.frame_at, through) if length > LEAST_NOTCH_MM else None


def front(site: Site) -> float | None:
    """From the wall's finished face out to the sill's front edge, mm; None where the job says nothing of the wall."""
    if site.sill is None or site.wall is None:
        return None
    return site.sill.projection - site.wall.frame_at


def drip_clear(site: Site) -> float | None:
    """From the wall's finished face out to the drip, mm; negative where it is behind the face."""
    edge = front(site)
    return None if edge is None or site.sill is None else edge - site.sill.drip


def weeps(length: float, rule: Weeps) -> tuple[float, ...]:
    """Where the sill is slotted, mm from its left end: at a set distance from both ends, the others evenly between."""
    if length <= 2 * rule.from_end_mm:
        return (length / 2,)
    span = length - 2 * rule.from_end_mm
    parts = max(1, -int(-span // rule.spacing_mm))
    return tuple(rule.from_end_mm + span * i / parts for i in range(parts + 1))


def sill_findings(mark: str, site: Site) -> Iterator[Finding]:
    """What the sill does not meet."""
    clear, sill = drip_clear(site), site.sill
    if clear is not None and sill is not None and site.wall is not None and clear < sill.drip_clear:
        least = sill.drip_clear
        needed = site.wall.frame_at + least + sill.drip
        where = f"{clear:g} clear of the wall's face" if clear > 0 else f"{-clear:g} behind the wall's face" if clear < 0 else "at the wall's face"
        yield Finding(
            "drip-close", mark, "sill", f"the drip is {where}, less than {least:g}: water runs down the wall",
            f"give the sill a projection of at least {needed:g}", clear, least, DRIP_RULE,
        )
    edge = front(site)
    if sill is not None and sill.horns and edge is not None and edge <= 0:
        yield Finding(
            "horns-in-wall", mark, "sill", f"its front edge is {f'{-edge:g} behind' if edge < 0 else 'at'} the wall's face: horns of {sill.horns:g} have no place to run past the frame",
            f"leave the horns out, or give it a projection of more than {site.wall.frame_at if site.wall else 0:g}", edge, 0.0, "geometry: horns pass before the wall",
        )
    if sill is not None and sill.horns == 0 and not sill.end_caps:
        yield Finding(
            "sill-ends", mark, "sill", "no horns and no end caps: water runs off the sill's ends into the wall", "give it end caps, or horns with caps",
            rule="common practice, no source",
        )
