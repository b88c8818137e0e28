"""The frame itself: its outline and sizes, its members, and where they are fixed to the wall."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.catalogue.system import System
from elevations.errors import Finding, Path, Problem, SpecError
from elevations.geometry.along import distance_along, place_on
from elevations.geometry.fixings import BarAt, Spot, place_on_side
from elevations.geometry.members import edge_length, mitred
from elevations.geometry.region import Region, Side
from elevations.geometry.stations import to_station
from elevations.geometry.window import Bar, FixingPoint, Member
from elevations.plane import SAME_MM, OffsetError
from elevations.shapes import RECTANGULAR, Edge, Shape
from elevations.spec.model import Fixings
from elevations.spec.model import Window as WindowSpec
from elevations.working import Source, Term, Working

ORIGIN = Working(())
"""The frame's left and top, which all positions are measured from."""
SIDE_ORDER = ("left", "head", "right", "sill")
"""Round the frame, as its fixings are numbered."""


def shape_of(spec: WindowSpec) -> Shape:
    """The frame's shape, rectangular where the spec names none."""
    return spec.circular or spec.head or RECTANGULAR


def frame_sizes(spec: WindowSpec, path: Path) -> tuple[Working, Working]:
    """Overall width and height, each with the key of the job that gives it."""
    shape = shape_of(spec)
    width, height = (*path, "frame", "width"), (*path, "frame", "height")
    own = shape.own_height()
    if own:
        height = (*path, shape.key, own[1]) if shape.replaces_frame else (*path, "head", shape.key, own[1])
        width = height if shape.replaces_frame else width
    return (
        Working((Term(spec.frame.width, "overall frame width", Source("spec", width)),)),
        Working((Term(spec.frame.height, "overall frame height", Source("spec", height)),)),
    )


def frame_region(shape: Shape, width: Working, height: Working) -> Region:
    """The outer edge of the frame; upright and level edges know where they stand."""
    outline = shape.outline(width.value, height.value)
    sides = []
    for (a, b), edge in zip(outline.edges(), shape.edges(width.value, height.value), strict=True):
        at = None
        if not a.bulge and abs(a.x - b.x) < SAME_MM:
            at = ORIGIN if a.x < width.value / 2 else width
        elif not a.bulge and abs(a.y - b.y) < SAME_MM:
            at = height if a.y < height.value / 2 else ORIGIN
        sides.append(Side("frame", edge.tag, at))
    return Region(outline, tuple(sides))


def _round(shape: Shape, frame: Region) -> list[tuple[int, Edge]]:
    """The frame's edges with their numbers: left, head from the left, right, sill."""
    box = frame.outline.bounds
    edges = list(enumerate(shape.edges(box.width, box.height)))
    # Heads run from right to left round the outline.
    return sorted(edges, key=lambda item: (SIDE_ORDER.index(item[1].side), -item[0]))


def frame_members(system: System, shape: Shape, frame: Region, path: Path) -> tuple[Member, ...]:
    """One member along each edge, in the order of `SIDE_ORDER`. Raises SpecError where the profile is too wide for the shape."""
    names = [side.tag for side in frame.sides]
    try:
        members = mitred(system, frame, to_station(system, frame, "rebate"), "frame", names, (*path, "frame"))
    except OffsetError as error:
        raise SpecError([Problem("no-room", f"the frame's profile does not fit round its shape: {error}", "make it larger", path)]) from None
    return tuple(members[number] for number, _ in _round(shape, frame))


def fix_frame(
    spec: WindowSpec, shape: Shape, frame: Region, bars: Sequence[Bar], path: Path
) -> tuple[tuple[FixingPoint, ...], tuple[Finding, ...]]:
    """Fixing points along the frame's edges: jambs from their upper end, the others from the left, tagged F1, F2 and so on.

    Along a slope or an arc they are set out on its outer edge, with the corner distance from both its ends.
    """
    points: list[FixingPoint] = []
    findings: list[Finding] = []
    for number, edge in _round(shape, frame):
        if edge.side not in spec.fixings.sides:
            continue
        overall = edge_length(frame, number)
        # An outline runs down its left jamb and left to right along its sill, up and to the left along the others.
        starts = edge.side in ("left", "sill")
        meeting = _meeting(frame, number, bars, overall.value, starts=starts)
        spots, found = place_on_side(spec.mark, edge.tag, overall.value, meeting, spec.fixings)
        findings += found
        for spot in spots:
            at, inward = place_on(frame.outline, number, spot.along if starts else overall.value - spot.along)
            points.append(FixingPoint(
                f"F{len(points) + 1}", edge.tag, at, _along(spot, overall, spec.fixings, path), spot.kind,
                shape.jamb_ends if edge.side in ("left", "right") else "left", overall.value, inward,
            ))
    return tuple(points), tuple(findings)


def _meeting(frame: Region, edge: int, bars: Sequence[Bar], length: float, *, starts: bool) -> list[BarAt]:
    """The bars that end on an edge, and how far along it."""
    tag = frame.sides[edge].tag
    if frame.outline.is_box:
        return [BarAt(bar.tag, bar.centre.value) for bar in bars if tag in bar.meets]
    found = []
    for bar in bars:
        for end in bar.outer:
            along = distance_along(frame.outline, edge, end)
            if along is not None:
                found.append(BarAt(bar.tag, along if starts else length - along))
    return found


def _along(spot: Spot, overall: Working, rules: Fixings, path: Path) -> Working:
    """How far along its side a fixing is, as a working."""
    own = "corner" in rules.model_fields_set or rules.corner == Fixings.model_fields["corner"].default
    source = Source("spec", (*path, "fixings", "corner")) if own else Source("system", "frame_fixings.corner")
    if spot.kind == "corner" and spot.along == rules.corner:
        return Working((Term(spot.along, "first fixing from the corner", source),))
    if spot.kind == "corner" and spot.along == overall.value - rules.corner:
        return overall.plus(Term(-rules.corner, "last fixing from the corner", source))
    rule = Source("rule", "fewest fixings, evenly spaced" if spot.kind == "intermediate" else "kept clear of a bar")
    return Working((Term(spot.along, f"{spot.kind} fixing", rule, (spot.detail,)),))
