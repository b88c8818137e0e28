"""What is wrong with how a frame stands in its wall: fixings that meet no leaf, and a frame off the cavity's closer; with what would do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from elevations.catalogue.anchors import Bracket
from elevations.errors import Finding
from elevations.geometry.landing import (
    SPEC_SIDES,
    Landing,
    Standing,
    bracket_of,
    edge_rule,
    embedment_in,
    lintel_takes,
    screw_depth,
    too_low,
)
from elevations.geometry.leaves import cavity, frame_places, leaves, reach_needed
from elevations.plane import SAME_MM
from elevations.spec.model import Fixings
from elevations.spec.site import Wall

PRACTICE = "table of anchors; common practice, no source"
OVERLAP = "a setting: wall.cavity_overlap; 30: a timber window survey manual, read second hand, and the same in heat-loss details, from memory"


LEAST_EMBEDMENT_MM = 8.0
"""The least that a job may ask for: `fixings: {screw: {embedment: …}}`."""


class Stand(NamedTuple):
    """A frame in a wall."""

    window: Standing
    mark: str
    wall: Wall
    rules: Fixings


def wall_findings(window: Standing, mark: str, landings: Mapping[str, Landing]) -> Iterator[Finding]:
    """Of one window whose job describes the wall, by where each side's fixings land."""
    site = window.site
    if site is None or site.wall is None:
        return
    stand = Stand(window, mark, site.wall, site.fixings)
    alike: dict[tuple[str, str], list[str]] = {}
    for side, landing in landings.items():
        if landing.fails:
            alike.setdefault((landing.how, landing.fails), []).append(side)
    for (how, fails), sides in alike.items():
        if sides == ["head"] and too_low(site.wall, site.fixings):
            yield _low_lintel(stand, how)
            continue
        yield _screws(stand, fails, sides) if how == "screw" else _brackets(stand, fails, sides, landings[sides[0]].bracket)
    yield from _off_closer(stand, lined_up=site.fit.reveal.kind == "inner-leaf")


def _screws(stand: Stand, fails: str, sides: list[str]) -> Finding:
    window, wall, edge = stand.window, stand.wall, edge_rule(stand.rules)
    v, found = screw_depth(window), leaves(wall, sides[0])
    places = [_between(*place) for place in frame_places(wall, found, v, v, edge)]
    ways = [f"set the frame {' or '.join(places)} from the face"] if places else []
    bracket = bracket_of(window.system, stand.rules)
    need = reach_needed(found, window.system.depth + bracket.nearest, edge)
    if need is not None:
        keys = [f"sides: [{', '.join(SPEC_SIDES[side] for side in sides)}]"]
        keys += [f"reach: {need[1] - window.system.depth:g}"] if need[1] > window.system.depth + bracket.reach else []
        ways.append(f"hold it with brackets that reach the {need[0].name} (fixings: {{bracket: {{{', '.join(keys)}}}}})")
    through = "the middle of the frame" if window.system.frame_fixings.screw_at is None else f"the frame {v:g} from its outer face"
    return Finding(
        "fixing-in-cavity" if "cavity" in fails else "fixing-off-wall", stand.mark, ", ".join(sides),
        f"{wall.frame_at:g} from the wall's face, screws through {through} are {fails}: nothing holds them", ", or ".join(ways),
        wall.frame_at + v, rule=PRACTICE,
    )


LINTEL_WAYS = "or agree with the lintel's maker or a structural engineer what else holds the head: foam alone never does"


def _low_lintel(stand: Stand, how: str) -> Finding:
    wall, rules = stand.wall, stand.rules
    wanted, most = embedment_in(rules, wall.carried_by), lintel_takes(wall, rules)
    assert most is not None
    own = f"a fixing whose maker allows {most:g} (fixings: {{screw: {{embedment: {most:g}}}}}), " if most >= LEAST_EMBEDMENT_MM else ""
    return Finding(
        "lintel-too-low", stand.mark, "head", f"{'screws' if how == 'screw' else 'the screws of brackets'} would be {too_low(wall, rules)}",
        f"measure the lintel's height again; {own}{LINTEL_WAYS}", wanted, most, PRACTICE,
    )


def through_lintel(stand: Stand, length: float, deepest: float, needed: float) -> Iterator[Finding]:
    """Of screws that the lintel takes by the depth they need, whether it takes those that are bought where the gap is narrowest.

    `length` of the screw, `deepest` what of it is in the lintel there, `needed` the least length that the widest gap asks for; mm.
    """
    most = lintel_takes(stand.wall, stand.rules)
    if most is None or deepest <= most + SAME_MM:
        return
    longest = length - (deepest - most)
    upper = f" to {longest:g}" if longest > needed + SAME_MM else ""
    way = f"order screws of {needed:g}{upper}" if longest > needed - SAME_MM else f"shorter screws where the gap is narrow: at most {longest:g} there"
    yield Finding(
        "fixing-through-lintel", stand.mark, "head", f"screws of {length:g} go up to {deepest:.1f} into a {stand.wall.carried_by} lintel "
        f"{stand.wall.lintel.height:g} high, which takes {most:g}", f"{way}, {LINTEL_WAYS}", deepest, most, PRACTICE,
    )


def _brackets(stand: Stand, fails: str, sides: list[str], bracket: Bracket | None) -> Finding:
    assert bracket is not None
    wall, depth, edge = stand.wall, stand.window.system.depth, edge_rule(stand.rules)
    found = leaves(wall, sides[0])
    if not found:
        hint = "agree with the lintel's maker where it takes a screw, or with the system's supplier what else holds that side: foam alone never does"
        return Finding("bracket-holds-nothing", stand.mark, ", ".join(sides), f"brackets hold nowhere: {fails}", hint, rule=PRACTICE)
    need = reach_needed(found, depth + bracket.nearest, edge)
    ways = []
    if need is not None:
        ways.append(f"order straps that reach {need[1] - depth:g}, into the {need[0].name} (fixings: {{bracket: {{reach: {need[1] - depth:g}}}}})")
    places = [_between(*place) for place in frame_places(wall, found, depth + bracket.nearest, depth + bracket.reach, edge)]
    ways += [f"set the frame {' or '.join(places)} from the face"] if places else []
    return Finding(
        "bracket-holds-nothing", stand.mark, ", ".join(sides), f"brackets hold nowhere: {fails}",
        ", or ".join(ways) or "agree with the system's supplier how that side is held: foam alone never does",
        bracket.reach, None if need is None else need[1] - depth, PRACTICE,
    )


def _between(least: float, most: float) -> str:
    return f"at most {most:g}" if least <= 0 else f"{least:g} to {most:g}"


def _off_closer(stand: Stand, *, lined_up: bool) -> Iterator[Finding]:
    """Whether the frame stands far enough across the cavity, whose closer keeps cold and wet off the frame's edge.

    A frame set in line with the inner leaf is past the cavity by choice: there the figure, which is for the frame's inner
    face, is kept.
    """
    wall, gap, depth = stand.wall, cavity(stand.wall), stand.window.system.depth
    if gap is None or not wall.cavity_overlap:
        return
    wanted = min(wall.cavity_overlap, wall.cavity, depth)
    across = depth - gap[0] if lined_up else min(depth, gap[1]) - max(0.0, gap[0])
    if across >= wanted:
        return
    said = f"{across:g} across the cavity" if across > 0 else "not across the cavity at all"
    at = [wall.frame_at + gap[0] + wanted - depth, wall.frame_at + gap[1] - wanted]
    yield Finding(
        "frame-off-closer", stand.mark, "frame", f"{wall.frame_at:g} from the wall's face, the frame stands {said}, less than {wanted:g}: "
        "cold and wet get past the closer", f"set the frame {_between(*at)} from the face, and look again at what its fixings then meet",
        max(0.0, across), wanted, OVERLAP,
    )
