"""Lengths of profile: frame members, bars and sash members, with mitres and joints."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.catalogue.system import System
from elevations.errors import Path
from elevations.geometry.stations import figure
from elevations.geometry.window import Bar, Member, Region
from elevations.plane import Corner, Outline, Point
from elevations.working import Source, Term, Working

WELD = "weld allowance, each end"


def mitred(
    system: System, outer: Region, inner: Region, profile: str, names: Sequence[str], path: Path
) -> tuple[Member, ...]:
    """One member along each edge of `outer`, cut on the line from its corner to the same corner of `inner`."""
    made = []
    count = len(outer.sides)
    for i, name in enumerate(names):
        j = (i + 1) % count
        a, b = outer.outline.corners[i], outer.outline.corners[j]
        c, d = inner.outline.corners[j], inner.outline.corners[i]
        face = Outline((a, Corner(b.x, b.y), Corner(c.x, c.y, -inner.outline.corners[i].bulge), Corner(d.x, d.y)))
        made.append(Member(name, profile, (a.point, b.point), face, _mitred_length(system, outer, i), path))
    return tuple(made)


def _mitred_length(system: System, region: Region, edge: int) -> Working:
    """Along the outer edge, with the weld allowance at both ends."""
    a, b = region.outline.corners[edge], region.outline.corners[(edge + 1) % len(region.sides)]
    if a.bulge or (a.x != b.x and a.y != b.y):
        along = Working((Term(region.outline.length(edge), "along the outer edge", Source("rule", "exact outline")),))
    else:
        along = region.width if a.y == b.y else region.height
    if not system.weld_allowance:
        return along
    weld = Term(system.weld_allowance, WELD, Source("system", "weld_allowance"))
    return along.plus(weld, weld)


def bar(
    system: System, parent: Region, cut: tuple[Point, Point], meets: tuple[int, int], centre: Working, tag: str, path: Path,
    *, upright: bool,
) -> Bar:
    """A mullion or transom across `parent`, butted against the rebates of what it meets, and `joint` further.

    `cut` are the ends of its centre line on the parent's datum outline, lower coordinate first; `meets` the numbers of
    the parent's edges there.
    """
    profile = "mullion" if upright else "transom"
    half = figure(system, profile, "rebate")
    sides = [parent.sides[edge] for edge in meets]
    stations = [figure(system, side.profile, "rebate") for side in sides]
    low, high = cut
    if upright:
        span = sides[0].at.minus(sides[1].at) if sides[0].at and sides[1].at else _measured(high.y - low.y)
        face = _upright_box(low.x - half, low.y + stations[0], low.x + half, high.y - stations[1])
    else:
        span = sides[1].at.minus(sides[0].at) if sides[0].at and sides[1].at else _measured(high.x - low.x)
        face = _upright_box(low.x + stations[0], low.y - half, high.x - stations[1], low.y + half)
    joint = Term(system.profiles[profile].joint, "joint: past the rebate, each end", Source("system", f"members.{profile}.joint"))
    length = span.plus(
        *(Term(-d, f"{s.profile}: to the rebate at {s.tag}", Source("system", f"members.{s.profile}.rebate"))
          for d, s in zip(stations, sides, strict=True)),
        joint, joint,
    )
    return Bar(tag, profile, cut, face, length, path, centre, upright, (sides[0].tag, sides[1].tag))


def _measured(length: float) -> Working:
    return Working((Term(length, "between the outlines it meets", Source("rule", "exact outline")),))


def _upright_box(left: float, bottom: float, right: float, top: float) -> Outline:
    return Outline((Corner(left, bottom), Corner(right, bottom), Corner(right, top), Corner(left, top)))



def sash_member_names(outline: Outline, tag: str) -> tuple[str, ...]:
    """S1 bottom rail, S1 right stile, S1 top rail, S1 left stile: by the way each edge runs."""
    names = []
    for a, b in outline.edges():
        if abs(b.x - a.x) >= abs(b.y - a.y):
            names.append(f"{tag} bottom rail" if b.x > a.x else f"{tag} top rail")
        else:
            names.append(f"{tag} right stile" if b.y > a.y else f"{tag} left stile")
    return tuple(names)
