"""A job in, its windows out: the geometry stage as a whole."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from elevations.catalogue.system import System
from elevations.errors import Finding, Path, Problem, SpecError
from elevations.geometry.fixings import BarAt, Spot, place_on_side
from elevations.geometry.lights import Build, divide
from elevations.geometry.members import mitred
from elevations.geometry.stations import to_station
from elevations.geometry.window import Bar, FixingPoint, Region, Side, Window
from elevations.plane import Point
from elevations.shapes import RECTANGULAR
from elevations.spec.model import Fixings, Job
from elevations.spec.model import Window as WindowSpec
from elevations.working import Source, Term, Working

FindSystem = Callable[[str], System]


def resolve_job(job: Job, find_system: FindSystem) -> list[Window]:
    """Every window of the job, in its order. Raises SpecError with the problems of all windows together."""
    return list(each_window(job, find_system))


def each_window(job: Job, find_system: FindSystem) -> Iterator[Window]:
    """Every window of the job, one at a time, so that a long job need not be held whole.

    Raises SpecError with the problems of all windows together, after the last one.
    """
    problems: list[Problem] = []
    for number, spec in enumerate(job.windows):
        try:
            yield resolve_window(job, spec, ("windows", number), find_system)
        except SpecError as error:
            problems += [p for p in error.problems if p not in problems]
    if problems:
        raise SpecError(problems)


def resolve_window(job: Job, spec: WindowSpec, path: Path, find_system: FindSystem) -> Window:
    """One window, or a SpecError with everything that stops it being made."""
    system = _system(spec, path, find_system)
    width = Working((Term(spec.frame.width, "overall frame width", Source("spec", (*path, "frame", "width"))),))
    height = Working((Term(spec.frame.height, "overall frame height", Source("spec", (*path, "frame", "height"))),))
    ends = {"left jamb": Working(()), "right jamb": width, "head": Working(()), "sill": height}
    shape = spec.circular or spec.head or RECTANGULAR
    edges = [edge.tag for edge in shape.edges(width.value, height.value)]
    frame = Region(
        shape.outline(width.value, height.value),
        tuple(Side("frame", name, ends[name]) for name in edges),
    )
    build = Build(spec, system, job.glass)
    divide(build, spec, frame, path)
    build.problems += [*_unit_problems(build), *_swing_problems(build)]
    if build.problems:
        raise SpecError(build.problems)
    members = mitred(system, frame, to_station(system, frame, "rebate"), "frame", edges, (*path, "frame"))
    fixings, findings = fix_frame(spec, frame, build.bars, path)
    return Window(
        spec.mark, path, spec.location, system, any(light.swing != system.swing for light in build.lights if light.sashes),
        spec.finish, width, height, frame, tuple(sorted(members, key=lambda m: FIXING_ORDER.index(m.tag))),
        tuple(build.bars), tuple(build.lights), tuple(fixings), tuple(findings), spec.floor_to_opening,
    )


def _system(spec: WindowSpec, path: Path, find_system: FindSystem) -> System:
    """The window's profile system; problems with its name point at the window's own line or the default's."""
    try:
        return find_system(spec.system)
    except SpecError as error:
        raise SpecError([
            p if p.place else Problem(p.code, p.message, p.hint, (*path, "system")) for p in error.problems
        ]) from error


def _unit_problems(build: Build) -> Iterator[Problem]:
    """Units that the system's rebate can't hold."""
    for light in build.lights:
        for pane in light.panes:
            thickness = pane.make_up.thickness
            if all(abs(thickness - t) > 0.05 for t in build.system.thickness):
                takes = ", ".join(f"{t:g}" for t in build.system.thickness)
                own = (*light.path, "glass") if light.spec.glass else ("windows", light.path[1], "glass")
                yield Problem(
                    "unit-thickness", f"glass '{pane.glass}' ({pane.make_up.make_up}) is {thickness:g} mm thick, but "
                    f"{build.system.name} holds {takes} mm", "choose a make-up of that thickness, or a system that holds this one", own,
                )


def _swing_problems(build: Build) -> Iterator[Problem]:
    """One frame is built one way round: its lights can't swing both ways."""
    swinging = [light for light in build.lights if light.sashes and not light.sashes[0].dummy]
    ways = {light.swing for light in swinging}
    if len(ways) > 1:
        odd = next(light for light in swinging if light.swing != swinging[0].swing)
        yield Problem(
            "swings-both-ways", f"light {swinging[0].number} ({swinging[0].words}) and light {odd.number} ({odd.words}) are in one "
            "frame, and its profiles can be built one way round only",
            f"give them the same swing ('swing: {odd.swing}' on light {swinging[0].number}, or the other way), or make two windows",
            odd.path,
        )


FIXING_ORDER = ("left jamb", "head", "right jamb", "sill")
_SIDE_KEYS = {"left jamb": "left", "head": "head", "right jamb": "right", "sill": "sill"}


def fix_frame(
    spec: WindowSpec, frame: Region, bars: list[Bar], path: Path
) -> tuple[list[FixingPoint], list[Finding]]:
    """Fixing points round the frame: jambs from the top, head and sill from the left, tagged F1, F2 and so on."""
    points: list[FixingPoint] = []
    findings: list[Finding] = []
    box = frame.outline.bounds
    for side in FIXING_ORDER:
        if _SIDE_KEYS[side] not in spec.fixings.sides:
            continue
        on_jamb = side.endswith("jamb")
        overall = frame.height if on_jamb else frame.width
        meeting = [BarAt(bar.tag, bar.centre.value) for bar in bars if side in bar.meets]
        spots, found = place_on_side(spec.mark, side, overall.value, meeting, spec.fixings)
        findings += found
        for spot in spots:
            along = _along(spot, overall, spec.fixings, path)
            at = Point(
                box.left if side == "left jamb" else box.right if side == "right jamb" else box.left + spot.along,
                box.top if side == "head" else box.bottom if side == "sill" else box.top - spot.along,
            )
            points.append(FixingPoint(f"F{len(points) + 1}", side, at, along, spot.kind))
    return points, findings


def _along(spot: Spot, overall: Working, rules: Fixings, path: Path) -> Working:
    """How far along its side a fixing is, as a working."""
    source = Source("spec", (*path, "fixings", "corner"))
    if spot.kind == "corner" and spot.along == rules.corner:
        return Working((Term(spot.along, "first fixing from the corner", source),))
    if spot.kind == "corner" and spot.along == overall.value - rules.corner:
        return overall.plus(Term(-rules.corner, "last fixing from the corner", source))
    rule = Source("rule", "fewest fixings, evenly spaced" if spot.kind == "intermediate" else "kept clear of a bar")
    return Working((Term(spot.along, f"{spot.kind} fixing", rule, (spot.detail,)),))
