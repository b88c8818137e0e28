"""A job in, its windows out: the geometry stage as a whole."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from elevations.catalogue.system import System
from elevations.errors import Path, Problem, SpecError
from elevations.geometry.build import Build
from elevations.geometry.drainage import drained
from elevations.geometry.fit import site_of, sizes_of, with_sizes
from elevations.geometry.fit_findings import site_findings
from elevations.geometry.fit_fixing import fixing_findings, with_system_figures
from elevations.geometry.fit_lap import lap_findings
from elevations.geometry.frame import fix_frame, frame_members, frame_region, frame_sizes, shape_of
from elevations.geometry.lights import divide
from elevations.geometry.neighbours import joined_sides, neighbours_of, notes_of
from elevations.geometry.window import Window
from elevations.later import Later
from elevations.spec.model import Job
from elevations.spec.model import Window as WindowSpec

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
    spec = with_system_figures(spec, system)
    shape = shape_of(spec)
    sizes = sizes_of(spec, system, path, shape_of(spec), frame_sizes(spec, path))
    spec, shape, width, height = with_sizes(spec, sizes), sizes.shape, sizes.width, sizes.height
    site = site_of(spec, sizes)
    frame = frame_region(shape, width, height)
    heads = frozenset(edge.tag for edge in shape.edges(width.value, height.value) if edge.side == "head")
    neighbours = neighbours_of(job, spec.mark, system)
    build = Build(spec, system, job.glass, heads)
    divide(build, spec, frame, path)
    build.problems += [*_unit_problems(build), *_swing_problems(build)]
    if build.problems:
        raise SpecError(build.problems)
    laps = lap_findings(spec, system, sizes.fitted, build.lights, joined_sides(neighbours))
    window = Window(
        spec.mark, path, spec.location, system, any(light.swing != system.swing for light in build.lights if light.sashes),
        spec.finish, width, height, frame, Later(frame_members, system, shape, frame, path), tuple(build.bars), tuple(build.lights),
        Later(fix_frame, spec, shape, frame, tuple(build.bars), path), (*site_findings(spec.mark, site), *laps), spec.floor_to_opening,
        notes=notes_of(neighbours), site=site, shape=shape, neighbours=neighbours,
    )
    if site is not None or system.frame_fixings.keep_clear:
        window = replace(window, fixing_findings=Later(fixing_findings, window, spec.fixings))
    return replace(window, drained=Later(drained, window)) if system.drainage or system.pressure_holes else window


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
