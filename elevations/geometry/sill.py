"""The sill under a frame: cut length, drip, weep positions."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.catalogue.weeps import Weeps
from elevations.errors import Finding
from elevations.geometry.fit import Site

DRIP_RULE = "a setting: sill.drip_clear; 25: a timber window survey manual, read second hand"
"""That manual says it of the sill's front edge; taken for the drip, which is behind it, so on the safe side."""


def cut_length(site: Site, frame_width: float) -> float:
    """The sill with its horns, and wide enough for the frame's add-ons, mm."""
    assert site.sill is not None
    return frame_width + site.fit.add_ons.left + site.fit.add_ons.right + 2 * site.sill.horns


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
    if sill is not None and sill.horns == 0 and not sill.end_caps:
        yield Finding(
            "sill-ends", mark, "sill", "no horns and no end caps: water runs off the sill's ends into the wall", "give it end caps, or horns with caps",
            rule="common practice, no source",
        )
