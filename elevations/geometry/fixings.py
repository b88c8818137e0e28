"""Where the frame is fixed to the wall.

Corner distance 150 to 250 mm, spacing at most 600 mm and 150 mm clear of a mullion or transom centre line:
NHBC Standards 6.7.11 (read: nhbc-standards.co.uk; see the reference notes). All three can be set in the job.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from elevations.errors import Finding
from elevations.geometry.evenly import even_between
from elevations.plane import SAME_MM
from elevations.spec.model import Fixings

NEAREST_CORNER_MM = 150    # the same rule's other end, and the default of `corner`
FURTHEST_CORNER_MM = 250   # NHBC Standards 6.7.11: 150 to 250 from the frame's outer corner
CLOSEST_MM = 50            # two fixings nearer than this split the wall between them; common practice, no source
RULE = "NHBC Standards 6.7.11"


@dataclass(frozen=True, slots=True)
class Spot:
    """A fixing on one side: distance from the side's start, mm, and how it came there."""

    along: float
    kind: str
    """corner, moved or intermediate."""
    detail: str


@dataclass(frozen=True, slots=True)
class BarAt:
    """A bar that meets the side, and the distance of its centre line from the side's start, mm."""

    tag: str
    along: float


def place_on_side(
    mark: str, side: str, length: float, bars: Sequence[BarAt], rules: Fixings
) -> tuple[list[Spot], list[Finding]]:
    """Fixings along one straight side of `length` mm, and each rule that could not be kept, with why.

    The fewest that keep the rules; among those the most even (least sum of squared gaps).
    """
    if length - 2 * rules.corner < CLOSEST_MM:
        return _one_only(mark, side, length, bars, rules)
    findings: list[Finding] = []
    near = _corner(mark, side, bars, rules, length, findings, far=False)
    far = _corner(mark, side, bars, rules, length, findings, far=True)
    if far.along - near.along < CLOSEST_MM:
        near, far = Spot(rules.corner, "corner", "as set"), Spot(length - rules.corner, "corner", "as set")
    zones = tuple((bar.along - rules.clear_of_bars, bar.along + rules.clear_of_bars) for bar in bars)
    inner = even_between(near.along, far.along, zones, rules.spacing)
    gaps = _gaps([near.along, *inner, far.along])
    for start, end in gaps:
        if end - start > rules.spacing + SAME_MM:
            findings.append(_too_far(mark, side, start, end, bars, rules))
    what = f"fewest at most {rules.spacing:g} apart, as even as the bars allow"
    return [near, *(Spot(at, "intermediate", what) for at in inner), far], findings


def _corner(
    mark: str, side: str, bars: Sequence[BarAt], rules: Fixings, length: float, findings: list[Finding], *, far: bool
) -> Spot:
    """The fixing at one corner: at the set distance, else moved clear of a bar as far as the rule lets it."""
    at = rules.corner
    close = [bar for bar in bars if abs(_from_end(bar.along, length, far=far) - at) < rules.clear_of_bars - SAME_MM]
    if not close:
        return Spot(length - at if far else at, "corner", "as set")
    clear = at
    for along in sorted(_from_end(bar.along, length, far=far) for bar in bars):
        if abs(along - clear) < rules.clear_of_bars - SAME_MM:
            clear = along + rules.clear_of_bars
    bar = close[0]
    distance = _from_end(bar.along, length, far=far)
    if clear <= max(FURTHEST_CORNER_MM, at) and clear <= length - at:
        findings.append(Finding(
            "fixing-moved", mark, side,
            f"the fixing {at:g} from the corner would be {abs(distance - at):g} from the centre line of {bar.tag}; "
            f"it is moved to {clear:g} from the corner",
            f"agree it, or move {bar.tag}", clear, at, RULE,
        ))
        return Spot(length - clear if far else clear, "moved", f"moved from {at:g}, clear of {bar.tag}")
    findings.append(Finding(
        "fixing-near-bar", mark, side,
        f"the fixing {at:g} from the corner is {abs(distance - at):g} from the centre line of {bar.tag}, less than "
        f"{rules.clear_of_bars:g}: no place within {FURTHEST_CORNER_MM:g} of the corner keeps both distances",
        f"move {bar.tag} to at least {at + rules.clear_of_bars:g} from the corner, or agree the fixing with the system's supplier",
        abs(distance - at), rules.clear_of_bars, RULE,
    ))
    return Spot(length - at if far else at, "corner", "as set")


def _from_end(along: float, length: float, *, far: bool) -> float:
    return length - along if far else along


def _one_only(
    mark: str, side: str, length: float, bars: Sequence[BarAt], rules: Fixings
) -> tuple[list[Spot], list[Finding]]:
    """A side too short for two fixings at the corner distance gets one, in the middle, and says so."""
    middle = length / 2
    findings = [Finding(
        "fixing-side-short", mark, side,
        f"{length:g} long: two fixings {rules.corner:g} from the corners don't fit, so one is set in the middle",
        "agree the fixing with the system's supplier, or set a smaller corner distance", length, 2 * rules.corner + CLOSEST_MM,
        "at least two a side " + RULE,
    )]
    findings += [
        Finding("fixing-near-bar", mark, side,
                f"the one fixing is {abs(bar.along - middle):g} from the centre line of {bar.tag}, less than {rules.clear_of_bars:g}",
                f"move {bar.tag}, or agree the fixing with the system's supplier", abs(bar.along - middle), rules.clear_of_bars, RULE)
        for bar in bars if abs(bar.along - middle) < rules.clear_of_bars - SAME_MM
    ]
    return [Spot(middle, "corner", "one only, in the middle")], findings


def _gaps(places: Sequence[float]) -> list[tuple[float, float]]:
    return list(pairwise(places))


def _too_far(mark: str, side: str, start: float, end: float, bars: Sequence[BarAt], rules: Fixings) -> Finding:
    between = " and ".join(bar.tag for bar in bars if start - rules.clear_of_bars < bar.along < end + rules.clear_of_bars)
    return Finding(
        "fixing-spacing", mark, side,
        f"fixings {start:g} and {end:g} along it are {end - start:g} apart, more than {rules.spacing:g}: "
        f"none may stand within {rules.clear_of_bars:g} of the centre lines of {between} between them",
        "agree a smaller distance from the bars, or a bracket, with the system's supplier", end - start, rules.spacing, RULE,
    )
