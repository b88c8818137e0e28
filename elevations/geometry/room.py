"""Whether a light leaves room for its glass and can hang as asked, and what to say where not."""

from __future__ import annotations

import math

from elevations.catalogue.load import builtin_names, find_system
from elevations.catalogue.system import BARS, System
from elevations.errors import Path, Problem
from elevations.geometry.along import chord, straight_sides
from elevations.geometry.build import Build, bounds
from elevations.geometry.hardware_places import UPRIGHT, edges_of, handle_from_end, straight_span
from elevations.geometry.meeting import meeting_figures
from elevations.geometry.region import Region, Side
from elevations.geometry.stations import figure
from elevations.geometry.window import Sash
from elevations.openings import OPENINGS
from elevations.openings.base import Opening
from elevations.plane import SAME_MM, OffsetError
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
    """Check that a handle asked for at a height is on its stile and clear of the corners; else say from where to where it can be."""
    height = spec.handle_height
    if height is None or sash.leaf.follows:
        return True
    said = f"the handle of light {build.counts['light']} at {height:g}"
    where = (*path, "handle_height")
    upright = [edge for edge in edges_of("handle", sash) if edge in UPRIGHT]
    if not upright:
        return _no_stile(build, spec, sash, where)
    box = sash.outer.outline.bounds
    low, high = straight_span(sash, upright[0]) or (box.bottom, box.top)
    low, high = low - box.bottom, high - box.bottom
    if not low < height < high:
        stile = f"is {high:g} high" if high > box.height - SAME_MM else f"is {box.height:g} high and straight there from {low:.0f} to {high:.0f}"
        build.problems.append(Problem(
            "handle-off-sash", f"{said} is not on its sash, which {stile}", "handle_height is measured from the bottom of the sash, not from the floor", where,
        ))
        return False
    rail = figure(build.system, "sash", "sight")
    clear = handle_from_end(build.system, spec.light, rail)
    if low + clear - SAME_MM <= height <= high - clear + SAME_MM:
        return True
    end, away = ("bottom", height - low) if height < (low + high) / 2 else ("top", high - height)
    room = f"give {math.ceil(low + clear - SAME_MM)} to {math.floor(high - clear + SAME_MM)}, or leave it out for the middle" if high - low >= 2 * clear else "leave it out: so short a stile has its handle in the middle"
    build.problems.append(Problem(
        "handle-in-corner", f"{said} is {round(away, 1):g} from the {end} of its stile, in the corner: the rail there is {rail:g} wide, and its middle is at least "
        f"{clear:g} from the end", room, where,
    ))
    return False


def _no_stile(build: Build, spec: LightSpec, sash: Sash, where: Path) -> bool:
    """Of a sash whose handle is on no stile: that its height is not the job's to say."""
    edges = edges_of("handle", sash)
    if not edges and not sash.leaf.half_in:
        return True   # of two that slide, the one that stays
    why = f"has its handle in the middle of its {edges[0]} rail" if edges else "has its handle where its hardware has it"
    build.problems.append(Problem("not-wanted", f"a {spec.light} light {why}, so 'handle_height' means nothing on it", "leave it out", where))
    return False
