"""From a divided spec to lights: bars placed, sashes hung, glass sized, in reading order."""

from __future__ import annotations

from dataclasses import dataclass, field

from elevations.catalogue.system import System
from elevations.errors import Path, Problem
from elevations.geometry.members import bar as make_bar
from elevations.geometry.members import mitred, sash_member_names
from elevations.geometry.spacing import bar_centres
from elevations.geometry.stations import bounded_by_sash, figure, inside_glass_edge, to_station
from elevations.geometry.window import Bar, Light, Pane, Region, Sash, Side
from elevations.openings import OPENINGS
from elevations.plane import SAME_MM, OffsetError, clip
from elevations.spec.model import Division, Glass
from elevations.spec.model import Light as LightSpec
from elevations.spec.model import Window as WindowSpec
from elevations.working import Term, Working

LEAST_SIGHT_MM = 20   # less glass than this between the sight lines is a slip of the pen; our own limit


@dataclass(slots=True)
class Build:
    """What is gathered while a window is divided; becomes the frozen window."""

    spec: WindowSpec
    system: System
    glass: dict[str, Glass]
    lights: list[Light] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    counts: dict[str, int] = field(default_factory=dict)

    def tag(self, letter: str) -> str:
        """The next tag of a kind: M1, then M2; T1, S1, G1."""
        self.counts[letter] = self.counts.get(letter, 0) + 1
        return f"{letter}{self.counts[letter]}"


def divide(build: Build, entry: LightSpec | Division, region: Region, path: Path) -> None:
    """Fill `build` with the lights and bars of one entry of the spec, depth first."""
    if isinstance(entry, LightSpec):
        _light(build, entry, region, path)
    elif entry.mullions is None and entry.transoms is None:
        divide(build, entry.lights[0], region, (*path, "lights", 0))
    else:
        _divided(build, entry, region, path)


def _divided(build: Build, entry: Division, region: Region, path: Path) -> None:
    upright = entry.mullions is not None
    key, axis, letter = ("mullions", 0, "M") if upright else ("transoms", 1, "T")
    low, high = _bounds(region, axis)
    if low.at is None or high.at is None:
        raise ValueError("this frame shape must say where its outermost bounds are")
    centres, problems = bar_centres(build.system, entry, (low.profile, low.at), (high.profile, high.at), path)
    build.problems += problems
    profile = "mullion" if upright else "transom"
    tags = [build.tag(letter) for _ in centres]
    parts: list[Region] = []
    rest = region
    for term, tag in zip(centres, tags, strict=True):
        centre = Working((term._replace(label=f"centre line of {profile} {tag}"),))
        cut_at = centre.value if upright else build.spec.frame.height - centre.value
        side = Side(profile, tag, centre)
        try:
            first, after = (_part(rest, axis, cut_at, side, high=not upright), _part(rest, axis, cut_at, side, high=upright))
        except OffsetError:
            build.problems.append(_outside(entry, key, term, low.at, high.at, path, len(parts)))
            return
        build.bars.append(_bar_between(build.system, rest, after, centre, tag, (*path, key, len(parts)), upright=upright))
        parts.append(first)
        rest = after
    if centres:
        parts.append(rest)
    for i, (part, child) in enumerate(zip(parts, entry.lights, strict=False)):
        divide(build, child, part, (*path, "lights", i))


def _bounds(region: Region, axis: int) -> tuple[Side, Side]:
    """The outermost sides across an axis: left and right, or top and bottom."""
    box = region.outline.bounds
    limits = (box.left, box.right) if axis == 0 else (box.top, box.bottom)
    found = []
    for limit in limits:
        for (a, b), side in zip(region.outline.edges(), region.sides, strict=True):
            if abs(a[axis] - limit) < SAME_MM and abs(b[axis] - limit) < SAME_MM:
                found.append(side)
                break
        else:
            found.append(Side("frame", "head", None))
    return found[0], found[1]


def _part(region: Region, axis: int, at: float, cut_side: Side, *, high: bool) -> Region:
    outline, origins = clip(region.outline, axis, at, high=high)
    return Region(outline, tuple(cut_side if o is None else region.sides[o] for o in origins))


def _bar_between(system: System, parent: Region, after: Region, centre: Working, tag: str, path: Path, *, upright: bool) -> Bar:
    """The bar on the edge that `after` got from the cut; what it meets are that edge's neighbours."""
    count = len(after.sides)
    edge = next(i for i, side in enumerate(after.sides) if side.tag == tag)
    start, end = after.outline.corners[edge].point, after.outline.corners[(edge + 1) % count].point
    neighbours = [after.sides[edge - 1], after.sides[(edge + 1) % count]]
    ends = sorted(zip((start, end), neighbours, strict=True), key=lambda item: item[0][1 if upright else 0])
    meets = tuple(next(i for i, s in enumerate(parent.sides) if s is side) for _, side in ends)
    return make_bar(
        system, parent, (ends[0][0], ends[1][0]), (meets[0], meets[1]), centre, tag, path, upright=upright
    )


def _outside(entry: Division, key: str, term: Term, low: Working, high: Working, path: Path, index: int) -> Problem:
    bar = key.removesuffix("s")
    where = (*path, key) if isinstance(getattr(entry, key), str) else (*path, key, index)
    return Problem(
        "bar-outside", f"a {bar} at {term.amount:g} lies outside what it divides, {low.value:g} to {high.value:g}",
        f"{key} are measured from the {'left' if bar == 'mullion' else 'top'} outer edge of the frame, to the centre line",
        where,
    )


def _light(build: Build, spec: LightSpec, region: Region, path: Path) -> None:
    number = build.counts["light"] = build.counts.get("light", 0) + 1
    opening, dummy = OPENINGS[spec.light], spec.sash == "dummy"
    has_sash = opening.has_sash(dummy)
    if not _room_for_glass(build, spec, region, path, has_sash=has_sash):
        return
    swing = spec.swing or _default_swing(build.system, opening.swings)
    try:
        sashes, panes = _glaze(build, spec, region, path, number, dummy=dummy, has_sash=has_sash)
    except OffsetError as error:
        build.problems.append(Problem("no-room", f"the profiles don't fit into light {number}: {error}", "make it larger", path))
        return
    tags = {side.tag: side for side in region.sides}
    fanlight = "head" in tags and any(s.profile == "transom" for s in _level_bottom(region))
    build.lights.append(Light(
        number, path, spec, region, spec.light, spec.hinge, swing, fanlight, opening.words(spec.hinge, swing, dummy), sashes, panes,
    ))


def _level_bottom(region: Region) -> list[Side]:
    bottom = region.outline.bounds.bottom
    return [
        side for (a, b), side in zip(region.outline.edges(), region.sides, strict=True)
        if abs(a.y - bottom) < SAME_MM and abs(b.y - bottom) < SAME_MM
    ]


def _default_swing(system: System, possible: tuple[str, ...]) -> str:
    return system.swing if not possible or system.swing in possible else possible[0]


def _glaze(
    build: Build, spec: LightSpec, region: Region, path: Path, number: int, *, dummy: bool, has_sash: bool
) -> tuple[tuple[Sash, ...], tuple[Pane, ...]]:
    """The sash, if any, and the pane of one light."""
    system, holder, bounds = build.system, "frame", region
    sashes: tuple[Sash, ...] = ()
    if has_sash:
        tag = build.tag("S")
        outer = to_station(system, region, "sash")
        bounds, holder = bounded_by_sash(outer, tag), "sash"
    tight, sight = to_station(system, bounds, "rebate"), to_station(system, bounds, "sight")
    if has_sash:
        members = mitred(system, bounds, tight, "sash", sash_member_names(bounds.outline, tag), path)
        edges = () if dummy else OPENINGS[spec.light].hinge_edges(spec.hinge)
        sashes = (Sash(tag, number, bounds, sight, members, dummy, edges),)
    name = spec.glass or build.spec.glass or next(iter(build.glass))
    return sashes, (Pane(build.tag("G"), number, build.glass[name], name, inside_glass_edge(system, tight), sight, tight, holder),)


def _room_for_glass(build: Build, spec: LightSpec, region: Region, path: Path, *, has_sash: bool) -> bool:
    """Check that glass is left between the profiles, across and up; else say what they need and which bar to move."""
    system, enough = build.system, True
    box = region.outline.bounds
    for axis, extent in ((0, box.width), (1, box.height)):
        low, high = _bounds(region, axis)
        needs = [
            figure(system, s.profile, "sash") + figure(system, "sash", "sight") if has_sash else figure(system, s.profile, "sight")
            for s in (low, high)
        ]
        if extent - sum(needs) >= LEAST_SIGHT_MM:
            continue
        enough = False
        word, sash = ("wide", "high")[axis], " and sash" if has_sash else ""
        build.problems.append(Problem(
            "too-close",
            f"light {build.counts['light']} ({spec.light}) is {extent:g} {word} between {low.tag} and {high.tag}, but the profiles{sash} take "
            f"{needs[0]:g} + {needs[1]:g} = {sum(needs):g} of it, which leaves no useful glass",
            f"it needs at least {sum(needs) + LEAST_SIGHT_MM:g}: move {' or '.join(s.tag for s in (low, high) if s.profile != 'frame') or 'the frame apart'}",
            _blame(build, (low, high), path, axis),
        ))
    return enough


def _blame(build: Build, sides: tuple[Side, Side], path: Path, axis: int) -> Path:
    """The spec entry of a bar beside the light, else the frame's size."""
    for side in sides:
        for bar in build.bars:
            if bar.tag == side.tag:
                return bar.path
    return ("windows", path[1], "frame", ("width", "height")[axis])


