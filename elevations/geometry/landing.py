"""Where in the wall each side's screws and brackets land: in which leaf, or why nothing holds there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

from elevations.catalogue.anchors import Bracket, anchors
from elevations.catalogue.system import System
from elevations.geometry.fit import Site
from elevations.geometry.leaves import Edge, Leaf, cavity, first_hold, leaf_at, leaves, reach_needed
from elevations.plane import SAME_MM
from elevations.spec.model import Fixings
from elevations.spec.site import Wall

STEEL = "steel"
SPEC_SIDES = {"left jamb": "left", "right jamb": "right", "head": "head", "sill": "sill"}
"""Sides as a job names them."""


class Standing(Protocol):
    """What of a window says how it stands in its wall."""

    @property
    def system(self) -> System:
        """Its profiles."""

    @property
    def site(self) -> Site | None:
        """Its place in the wall."""

    @property
    def reversed(self) -> bool:
        """Whether its profiles are built inside out."""


@dataclass(frozen=True, slots=True)
class Landing:
    """Where the fixings of one side meet the wall; lengths in mm."""

    how: str
    """screw or bracket."""
    leaf: Leaf | None
    """What they hold in; None where the job says nothing of the wall, or where nothing holds."""
    at: float | None
    """Depth of their screws in the wall, from the frame's outer face inwards; None with no leaf."""
    bracket: Bracket | None
    """Of brackets, their sizes."""
    reach: float | None
    """Of brackets, from the frame's inner face in to their screws in the wall; None where nothing holds or the wall is not known."""
    fails: str
    """Why nothing holds, in words; empty where something does or the wall is not known."""


def land(window: Standing, side: str) -> Landing:
    """Where the fixings at a left jamb, right jamb, head or sill land."""
    site = window.site
    rules = site.fixings if site else Fixings()
    wall = site.wall if site else None
    how = "bracket" if _bracketed(site, side) else "screw"
    bracket = bracket_of(window.system, rules) if how == "bracket" else None
    if wall is None:
        return Landing(how, None, None, bracket, None, "")
    low = too_low(wall, rules) if side == "head" else ""
    if low:
        return Landing(how, None, None, bracket, None, low if bracket is None else f"their screws would be {low}")
    found, edge = leaves(wall, side), edge_rule(rules)
    if bracket is None:
        v = screw_depth(window)
        leaf = leaf_at(found, v, edge)
        return Landing(how, leaf, v if leaf else None, None, None, "" if leaf else _screw_fails(wall, found, v, edge))
    depth = window.system.depth
    held = first_hold(found, depth + bracket.nearest, depth + bracket.reach, edge)
    if held is None:
        return Landing(how, None, None, bracket, None, _bracket_fails(wall, found, depth, bracket, edge))
    return Landing(how, held[0], held[1], bracket, held[1] - depth, "")


def _bracketed(site: Site | None, side: str) -> bool:
    """Brackets as asked for, under a lintel that may not be drilled, and on a frame over a sill: a screw would leak there."""
    if site is None:
        return False
    barred = side == "head" and site.wall is not None and not site.wall.lintel.drilling
    return SPEC_SIDES[side] in site.fixings.bracket.sides or barred or (side == "sill" and site.sill is not None)


def edge_rule(rules: Fixings) -> Edge:
    """Least distance from the edge of a material: as the job says, else by the table of anchors."""
    own, rows = rules.screw.edge, anchors().rows
    return lambda material: rows[material].edge if own is None else own


def embedment_in(rules: Fixings, material: str) -> float | None:
    """How deep a screw goes into a material at least, mm: as the job says, else by the table of anchors; None of one that it does not know."""
    row = anchors().rows.get(material)
    return rules.screw.embedment if rules.screw.embedment is not None else row.embedment if row else None


def lintel_takes(wall: Wall, rules: Fixings) -> float | None:
    """How deep a screw may go up into the lintel, mm: to the least distance of an edge below its top; None of steel.

    A self-drilling screw goes through the plate of a steel lintel, as it is made to. That the edge's distance holds for the
    far side too is common practice, no source: nearer to it the lintel spalls.
    """
    return None if wall.carried_by == STEEL else wall.lintel.height - edge_rule(rules)(wall.carried_by)


def too_low(wall: Wall, rules: Fixings) -> str:
    """Why a lintel's height takes no screw, in words; empty where it does, and where it may not be drilled at all."""
    most, wanted = lintel_takes(wall, rules), embedment_in(rules, wall.carried_by)
    if not wall.lintel.drilling or most is None or wanted is None or wanted <= most + SAME_MM:
        return ""
    taken = "" if wall.lintel.kind else " (taken so: not given)"
    edge = wall.lintel.height - most
    return f"{wanted:g} deep in a {wall.carried_by} lintel{taken} {wall.lintel.height:g} high, which needs {edge:g} left above them"


def screw_depth(window: Standing) -> float:
    """From the frame's outer face to the screws through it: as the system says, else the middle of its depth, mm."""
    at, depth = window.system.frame_fixings.screw_at, window.system.depth
    if at is None:
        return depth / 2
    return depth - at if window.reversed else at


def bracket_of(system: System, rules: Fixings) -> Bracket:
    """The bracket: the system's, else the table's, with the reach that the job gives."""
    bracket, reach = system.frame_fixings.bracket or anchors().bracket, rules.bracket.reach
    return bracket if reach is None else replace(bracket, reach=reach, nearest=min(bracket.nearest, reach))


def _screw_fails(wall: Wall, found: tuple[Leaf, ...], v: float, edge: Edge) -> str:
    gap = cavity(wall)
    leaf = next((leaf for leaf in found if leaf.out <= v <= leaf.inner), None)
    if leaf is None:
        return "in the cavity" if gap and gap[0] < v < gap[1] else "outside the wall"
    near = leaf.inner if leaf.inner - v <= v - leaf.out else leaf.out
    return f"less than {edge(leaf.material):g} from the {'cavity' if gap and near in gap else f'edge of the {leaf.name}'}"


def _bracket_fails(wall: Wall, found: tuple[Leaf, ...], depth: float, bracket: Bracket, edge: Edge) -> str:
    if not found:
        barred = f" ({wall.lintel.barred_by})" if wall.lintel.barred_by else ""
        return f"the lintel may not be drilled{barred}"
    need = reach_needed(found, depth + bracket.nearest, edge)
    if need is None:
        return f"further in than {bracket.nearest:g} from the frame's inner face there is no wall"
    return f"they reach {bracket.reach:g} in from the frame's inner face, and the {need[0].name} holds only from {need[1] - depth:g} on"
