"""Whether a light leaves room for its glass and can hang as asked, and what to say where not."""

from __future__ import annotations

from elevations.catalogue.system import BARS
from elevations.errors import Path, Problem
from elevations.geometry.along import straight_sides
from elevations.geometry.build import Build, bounds
from elevations.geometry.stations import figure
from elevations.geometry.window import Region, Side
from elevations.openings import OPENINGS
from elevations.plane import OffsetError
from elevations.spec.model import Light as LightSpec

LEAST_SIGHT_MM = 20   # less glass than this between the sight lines is a slip of the pen; our own limit
HANG_HINT = "a sash hangs on a straight edge: choose another way to open, or put a transom or mullion where it can hang"


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
        if extent - sum(needs) >= LEAST_SIGHT_MM:
            continue
        enough = False
        word, sash = ("wide", "high")[axis], " and sash" if has_sash else ""
        build.problems.append(Problem(
            "too-close",
            f"light {build.counts['light']} ({spec.light}) is {extent:g} {word} between {low.tag} and {high.tag}, but the profiles{sash} take "
            f"{needs[0]:g} + {needs[1]:g} = {sum(needs):g} of it, which leaves no useful glass",
            f"it needs at least {sum(needs) + LEAST_SIGHT_MM:g}: move {' or '.join(s.tag for s in (low, high) if s.profile != 'frame') or 'the frame apart'}",
            blame(build, (low, high), path, axis),
        ))
    return enough


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


def blame(build: Build, sides: tuple[Side, Side], path: Path, axis: int) -> Path:
    """The spec entry of a bar beside the light, else the frame's size."""
    for side in sides:
        for bar in build.bars:
            if bar.tag == side.tag:
                return bar.path
    size = ("circular", "diameter") if build.spec.circular else ("frame", ("width", "height")[axis])
    return ("windows", path[1], *size)
