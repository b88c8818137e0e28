"""Whether a light leaves room for its glass and can hang as asked, and what to say where not."""

from __future__ import annotations

import math

from elevations.catalogue.load import builtin_names, find_system
from elevations.catalogue.system import BARS, System
from elevations.errors import Path, Problem
from elevations.geometry.along import chord, straight_sides
from elevations.geometry.build import Build, bounds
from elevations.geometry.meeting import meeting_figures
from elevations.geometry.region import Region, Side
from elevations.geometry.stations import figure
from elevations.geometry.window import Sash
from elevations.openings import OPENINGS
from elevations.openings.base import Opening
from elevations.plane import OffsetError
from elevations.spec.model import Light as LightSpec

SQUARE_DEGREES = 0.01
LEAST_SIGHT_MM = 20   # less glass than this between the sight lines is a slip of the pen; our own limit
HANG_HINT = "a sash hangs on a straight edge: choose another way to open, or put a transom or mullion where it can hang"


def is_offered(build: Build, spec: LightSpec, path: Path) -> bool:
    """Check that the system is made for this way of opening and gives the figures that it needs."""
    system, opening = build.system, OPENINGS[spec.light]
    if _offers(system, opening):
        return True
    others = [name for name in builtin_names() if _offers(find_system(name), opening)]
    hint = f"choose another system ({', '.join(others)} {'is' if len(others) == 1 else 'are'} built in)"
    if opening.needs:
        hint += f", or put its figures into the system's file as a block '{opening.needs}'"
    build.problems.append(Problem(
        "opening-not-offered", f"{system.name} makes no {spec.light} lights" + (f": its file has no '{opening.needs}'" if opening.needs else ""),
        hint, (*path, "light"),
    ))
    return False


def _offers(system: System, opening: Opening) -> bool:
    made_for = system.ways.openings
    return (not made_for or opening.key in made_for) and (not opening.needs or getattr(system.ways, opening.needs) is not None)


def room_for_glass(build: Build, spec: LightSpec, region: Region, path: Path, *, has_sash: bool) -> bool:
    """Check that glass is left between the profiles, across and up; else say what they need and which bar to move."""
    system, enough = build.system, True
    box = region.outline.bounds
    for axis, extent in ((0, box.width), (1, box.height)):
        low, high = [bound.side for bound in bounds(build, region, axis)]
        needs = [
            figure(system, s.profile, "sash") + figure(system, "sash", "sight") if has_sash else figure(system, s.profile, "sight")
            for s in (low, high)
        ]
        between, said = _where_they_meet(system, OPENINGS[spec.light], axis)
        taken, least = sum(needs) + between, LEAST_SIGHT_MM * (2 if between else 1)
        if extent - taken >= least:
            continue
        enough = False
        word, sash = ("wide", "high")[axis], " and sash" if has_sash else ""
        build.problems.append(Problem(
            "too-close",
            f"light {build.counts['light']} ({spec.light}) is {extent:g} {word} between {low.tag} and {high.tag}, but the profiles{sash} take "
            f"{needs[0]:g} + {needs[1]:g}{said} = {taken:g} of it, which leaves no useful glass",
            f"it needs at least {taken + least:g}: move {' or '.join(s.tag for s in (low, high) if s.profile != 'frame') or 'the frame apart'}",
            blame(build, (low, high), path, axis),
        ))
    return enough


def _where_they_meet(system: System, opening: Opening, axis: int) -> tuple[float, str]:
    """What the meeting members of two sashes take across an axis, and how the sum goes on in words; nothing for one sash."""
    if opening.meeting_axis != axis:
        return 0.0, ""
    middle = 2 * figure(system, "sash", "sight") + meeting_figures(system, opening).between.amount
    return middle, f" + {middle:g} where the sashes meet"


def no_room(number: int, region: Region, error: OffsetError, path: Path) -> Problem:
    """Profiles that meet over an edge too short for them, or leave no glass in a corner of a shape."""
    if error.edge is None or region.outline.is_box:
        said = f"the profiles don't fit into light {number}: {error}"
        return Problem("no-room", said, "make it larger", path)
    side, length = region.sides[error.edge], region.outline.length(error.edge)
    bars = " or ".join(dict.fromkeys(s.tag for s in region.sides if s.profile in BARS))
    return Problem(
        "no-room", f"light {number} is {length:.0f} long along the {side.tag}, too short for the profiles that meet there",
        f"move {bars}, so that this edge is gone or longer" if bars else "change the shape or the size of the frame", path,
    )


def can_hang(build: Build, spec: LightSpec, region: Region, path: Path) -> bool:
    """Check that a sash of the region's shape can open as asked; else say which edge stops it."""
    if region.outline.is_box:
        return True
    opening = OPENINGS[spec.light]
    why = opening.misfit(straight_sides(region.outline), spec.hinge)
    if why is not None and spec.sash != "dummy":
        build.problems.append(Problem("shape-cannot-open", f"light {build.counts['light']} ({spec.light}) {why}", HANG_HINT, (*path, "light")))
        return False
    return True


def can_turn(build: Build, spec: LightSpec, sash: Sash, path: Path) -> bool:
    """Check that a sash which turns about its middle clears the frame: its corner swings further out than its edge stands."""
    figures, half = build.system.ways.pivot, sash.leaf.half_in
    if figures is None or not half:
        return True
    outline, axis = sash.outer.outline, 1 if half == "top" else 0
    box = outline.bounds
    ends = chord(outline, axis, box.centre[axis])
    if ends is None or max(end.out_of_square for end in ends) > SQUARE_DEGREES:
        build.problems.append(Problem(
            "shape-cannot-open", f"light {build.counts['light']} ({spec.light}) has its pivots in the middle of its {('sides', 'top and bottom')[axis == 0]}, "
            "where the edge is no straight upright or level one", HANG_HINT, (*path, "light"),
        ))
        return False
    reach = (box.height if half == "top" else box.width) / 2
    needed = math.hypot(reach, figures.thickness / 2) - reach   # Pythagoras: from the axis to the corner, less to the edge
    if needed <= figures.gap:
        return True
    least = ((figures.thickness / 2) ** 2 - figures.gap**2) / figures.gap
    word = ("wide", "high")[half == "top"]
    build.problems.append(Problem(
        "sash-cannot-turn", f"the sash of light {build.counts['light']} ({spec.light}) is {2 * reach:g} {word} and {figures.thickness:g} thick: "
        f"to turn about its middle it needs {needed:.1f} beside it, and the system leaves {figures.gap:g}",
        f"a sash at least {math.ceil(least)} {word} turns", (*path, "light"),
    ))
    return False


def blame(build: Build, sides: tuple[Side, Side], path: Path, axis: int) -> Path:
    """The spec entry of a bar beside the light, else the frame's size."""
    for side in sides:
        for bar in build.bars:
            if bar.tag == side.tag:
                return bar.path
    size = ("circular", "diameter") if build.spec.circular else ("frame", ("width", "height")[axis])
    return ("windows", path[1], *size)


def handle_fits(build: Build, spec: LightSpec, sash: Sash, path: Path) -> bool:
    """Check that a handle asked for at a height is on the sash; else say how high that is."""
    height = sash.outer.outline.bounds.height
    if spec.handle_height is None or spec.handle_height < height:
        return True
    build.problems.append(Problem(
        "handle-off-sash", f"the handle of light {build.counts['light']} at {spec.handle_height:g} is not on its sash, which is {height:g} high",
        "handle_height is measured from the bottom of the sash, not from the floor", (*path, "handle_height"),
    ))
    return False
