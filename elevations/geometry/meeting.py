"""Two sashes in one light: where they meet, in the middle of what they close, and the floating stile between a pair."""

from __future__ import annotations

from elevations.catalogue.opening_figures import FLOATING_STILE, PairFigures, SlidingFigures
from elevations.catalogue.system import System
from elevations.errors import Path
from elevations.geometry.along import chord
from elevations.geometry.build import Build, bounds
from elevations.geometry.members import EXACT
from elevations.geometry.region import Region, Side
from elevations.geometry.stations import to_station
from elevations.geometry.window import Member
from elevations.openings.base import Opening
from elevations.plane import Point, clip, rectangle
from elevations.working import Source, Term, Working

MIDDLE = Source("rule", "two sashes meet in the middle of what they close")


def meeting_figures(system: System, opening: Opening) -> PairFigures | SlidingFigures:
    """The system's figures for where two sashes of this way of opening meet."""
    figures: PairFigures | SlidingFigures = getattr(system.ways, opening.needs)
    return figures


def parted(build: Build, outer: Region, opening: Opening, tags: tuple[str, str]) -> tuple[Region, Region]:
    """What two sashes close, parted into the outer edges of each: left and right, or top and bottom."""
    axis = opening.meeting_axis
    assert axis is not None
    low, high = (bound.at for bound in bounds(build, outer, axis))   # from the left or the top
    between = meeting_figures(build.system, opening).between
    half = Term(high.minus(low).value / 2, "half of what the two sashes close", MIDDLE)
    off = Term(between.amount / 2, between.label, between.source)
    ends = low.plus(half, off._replace(amount=-off.amount)), low.plus(half, off)
    found = []
    for number, (at, tag) in enumerate(zip(ends, tags, strict=True)):
        place = at.value if axis == 0 else build.spec.frame.height - at.value
        outline, origins = clip(outer.outline, axis, place, high=(number == 1) == (axis == 0))
        sides = (Side("sash", tag, at) if origin is None else outer.sides[origin] for origin in origins)
        found.append(Region(outline, tuple(sides)))
    return found[0], found[1]


def floating_stile(system: System, light: Region, outer: Region, tag: str, path: Path) -> Member:
    """The stile between a pair of side-hung sashes, on their meeting line, clear of the frame's sight line at both ends."""
    figures = system.ways.pair
    assert figures is not None
    clear = to_station(system, light, "sight")
    x = outer.outline.bounds.centre.x
    found = chord(clear.outline, 0, x)
    assert found is not None
    low, high = found[0].at + figures.end_gap, found[1].at - figures.end_gap
    gap = Term(-figures.end_gap, "clear of the frame's sight line, each end", Source("system", "pair.end_gap"))
    square = clear.outline.is_box
    length = clear.height.plus(gap, gap) if square else Working((Term(high - low, "on the meeting line, between sight lines", EXACT),))
    face = rectangle(x - figures.sight, low, x + figures.sight, high).corners
    # The edge along its length comes first, as of every member.
    turned = type(clear.outline)((face[3], face[0], face[1], face[2]))
    return Member(f"{tag} floating stile", FLOATING_STILE, (Point(x, high), Point(x, low)), turned, length, path)
