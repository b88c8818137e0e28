"""The sashes of one light and its panes, with their glazing bars."""

from __future__ import annotations

from elevations.catalogue.opening_figures import PairFigures
from elevations.catalogue.system import System
from elevations.errors import Path, Problem
from elevations.geometry.build import Build, bounds
from elevations.geometry.glazing_bars import Asked, Ends, figures_of, lay, outside
from elevations.geometry.meeting import floating_stile, meeting_figures, parted
from elevations.geometry.members import mitred, sash_member_names
from elevations.geometry.region import Region
from elevations.geometry.stations import bounded_by_sash, in_whole_mm, inside_glass_edge, to_station
from elevations.geometry.window import Member, Pane, Sash
from elevations.later import Later
from elevations.openings import OPENINGS
from elevations.spec.model import Light as LightSpec


def glaze(build: Build, spec: LightSpec, region: Region, path: Path, number: int) -> tuple[tuple[Sash, ...], tuple[Pane, ...]]:
    """The sashes, if any, and the panes of one light. Raises OffsetError where the profiles don't fit."""
    opening, dummy = OPENINGS[spec.light], spec.sash == "dummy"
    if not opening.has_sash(dummy):
        return (), (_pane(build, spec, region, number, "frame"),)
    outer = to_station(build.system, region, "sash")
    leaves = opening.leaves(spec.hinge, spec.leads)
    tags = tuple(build.tag("S") for _ in leaves)
    parts = (outer,) if len(tags) == 1 else parted(build, outer, opening, (tags[0], tags[1]))
    sashes, panes = [], []
    for leaf, tag, part in zip(leaves, tags, parts, strict=True):
        own = bounded_by_sash(part, tag)
        panes.append(_pane(build, spec, own, number, "sash"))
        rails = Later(_rails, build.system, own, panes[-1].tight, part if len(tags) > 1 else region, tag, path)
        paired = leaf.follows and isinstance(meeting_figures(build.system, opening), PairFigures)
        stile = floating_stile(build.system, region, outer, tag, path) if paired else None
        edges = () if dummy else leaf.hinge_edges
        sashes.append(Sash(tag, number, own, panes[-1].sight, rails, dummy or leaf.fixed, edges, leaf, stile))
    return tuple(sashes), tuple(panes)


def _pane(build: Build, spec: LightSpec, bounding: Region, number: int, holder: str) -> Pane:
    system, name = build.system, spec.glass or build.spec.glass or next(iter(build.glass))
    tight, sight = to_station(system, bounding, "rebate"), to_station(system, bounding, "sight")
    return Pane(build.tag("G"), number, build.glass[name], name, in_whole_mm(inside_glass_edge(system, tight)), sight, tight, holder)


def _rails(system: System, outer: Region, tight: Region, light: Region, tag: str, path: Path) -> tuple[Member, ...]:
    return mitred(system, outer, tight, "sash", sash_member_names(outer, light, tag), path)


def barred(build: Build, spec: LightSpec, panes: tuple[Pane, ...], path: Path) -> tuple[Pane, ...]:
    """The panes with the glazing bars that the light asks for; as they are, and a problem noted, where these can't be."""
    if spec.bars is None:
        return panes
    where = (*path, "bars")
    figures = figures_of(build.system, spec.bars, panes, where)
    if isinstance(figures, Problem):
        build.problems.append(figures)
        return panes
    asked = Asked(spec.bars, figures, where, build.spec.frame.height, build.tag)
    ends = []
    for pane in panes:
        across, down = bounds(build, pane.sight, 0), bounds(build, pane.sight, 1)
        ends.append(Ends((across[0].at, across[1].at), (down[0].at, down[1].at)))
    made = [outside(asked, ends), *(lay(asked, pane, own) for pane, own in zip(panes, ends, strict=True))]
    problems = [item for item in made if isinstance(item, Problem)]
    build.problems += problems
    return panes if problems else tuple(item for item in made if isinstance(item, Pane))
