"""From a surveyed opening to the frame that fits it, and from a frame to the gaps it leaves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.catalogue.system import System
from elevations.errors import Path, Problem, SpecError
from elevations.geometry.fit_deductions import Kept, kept_of
from elevations.geometry.fit_rectangle import HELD, best_place, largest_rectangle
from elevations.geometry.fit_working import nothing_left, size_working
from elevations.geometry.hole import Hole, Inward, constraints, hole_of, off_side
from elevations.plane import Box
from elevations.spec.model import FRAME_HEIGHT_MM, FRAME_WIDTH_MM, Fixings, Frame
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import AddOns, Fit, Opening, Sill, Wall
from elevations.working import Working

PLACES = {"left jamb": ("top", "middle", "bottom"), "right jamb": ("top", "middle", "bottom"),
          "head": ("left", "middle", "right"), "sill": ("left", "middle", "right")}


@dataclass(frozen=True, slots=True)
class Gap:
    """The gap between a frame, with its add-ons and sill, and the wall at one place, mm; negative where it runs behind the wall.

    What a tape in the gap reads: over the frame the head allowance is part of it.
    """

    side: str
    """left jamb, right jamb, head or sill."""
    place: str
    mm: float


@dataclass(frozen=True, slots=True)
class Fitted:
    """A frame in its surveyed opening, in the opening's coordinates (see `hole`)."""

    opening: Opening
    hole: Hole
    frame: Box
    stack: Inward
    """Between the frame's edge and the gap on each side: add-ons, lining, sill with its packers, mm."""
    allowance: float
    """Of the gap over the frame, what the job keeps free besides the clearance, mm."""
    gaps: tuple[Gap, ...]
    smallest: float
    """Smallest gap over the whole of every side but a lapped one, mm."""
    play: float
    """The same after the head allowance: what is left as clearance at the tightest place, mm; below 0 where the allowance is used up."""
    wanted: float
    """The clearance each side, mm."""
    worked_out: bool
    """False where the job gives the frame's size."""

    @property
    def largest(self) -> float:
        """Largest of the gaps that are gaps, mm."""
        return max(gap.mm for gap in self.gaps)


@dataclass(frozen=True, slots=True)
class Site:
    """What the job says of a window's place in its wall, and how the frame stands in its opening."""

    fit: Fit
    fitted: Fitted | None
    sill: Sill | None
    wall: Wall | None
    fixings: Fixings


@dataclass(frozen=True, slots=True)
class Sizes:
    """The overall size of a frame with its workings, and how it stands in its opening where that was surveyed."""

    width: Working
    height: Working
    fitted: Fitted | None = None


def sizes_of(spec: WindowSpec, system: System, path: Path, as_given: tuple[Working, Working]) -> Sizes:
    """The frame's size: `as_given` by the job, or the largest that its opening takes. Raises SpecError.

    The largest is by area, among level and plumb rectangles that keep their clearance off every side; both sizes are
    then rounded down.
    """
    given = spec.frame.width > 0
    width, height = as_given
    if spec.opening is None:
        return Sizes(width, height)
    hole = hole_of(spec.opening, (*path, "opening"))
    kept = kept_of(spec, system, path)
    if not given:
        width, height = _worked_out(spec, hole, kept, path)
    fitted = _placed(spec, hole, kept, width.value, height.value, given=given)
    if given:
        _goes_in(spec, fitted, path)
    return Sizes(width, height, fitted)


def site_of(spec: WindowSpec, sizes: Sizes) -> Site | None:
    """Its place in the wall; None where the job gives neither opening nor sill nor wall nor frame extensions, and not what holds it."""
    held = {"screw", "bracket"} & spec.fixings.model_fields_set
    if sizes.fitted is None and spec.sill is None and spec.wall is None and spec.fit.add_ons == AddOns() and not held:
        return None
    return Site(spec.fit, sizes.fitted, spec.sill, spec.wall, spec.fixings)


def with_sizes(spec: WindowSpec, sizes: Sizes) -> WindowSpec:
    """The window's spec with its frame's size filled in."""
    if spec.frame.width > 0:
        return spec
    return spec.model_copy(update={"frame": Frame.model_construct(width=sizes.width.value, height=sizes.height.value)})


def _worked_out(spec: WindowSpec, hole: Hole, kept: Kept, path: Path) -> tuple[Working, Working]:
    opening = spec.opening
    assert opening is not None
    largest = largest_rectangle(hole, kept.inward())
    width, height = (largest.width, largest.height) if largest else (0.0, 0.0)
    problems = [
        nothing_left(key, size, limits, sides, opening_size, path)
        for key, size, limits, sides, opening_size in (
            ("width", width, FRAME_WIDTH_MM, (*kept.left, *kept.right), min(opening.width)),
            ("height", height, FRAME_HEIGHT_MM, (*kept.head, *kept.sill), min(opening.height)),
        ) if not limits[0] <= size <= limits[1]
    ]
    if problems:
        raise SpecError(problems)
    corners = ", ".join(f"({p.x:.1f}, {p.y:.1f})" for p in hole.corners)
    detail = (f"corners from the bottom left, anticlockwise: {corners}", "the largest area among level and plumb rectangles inside")
    return (
        size_working(opening.width, "width", ("top", "middle", "bottom"), width, (*kept.left, *kept.right), spec, path, detail),
        size_working(opening.height, "height", ("left", "centre", "right"), height, (*kept.head, *kept.sill), spec, path, detail),
    )


def _placed(spec: WindowSpec, hole: Hole, kept: Kept, width: float, height: float, *, given: bool) -> Fitted:
    """Where a frame of that size stands best, and its gaps there."""
    assert spec.opening is not None
    lapped = spec.fit.reveal.kind == "check"
    # Behind a check the best place is the one nearest to the lap asked for and to the gap under the sill.
    box = best_place(hole, kept.inward() if lapped else kept.solid(), width, height, 0.0 if lapped else kept.clearance)
    play = _tightest(hole, kept.solid(), box, lapped=lapped)
    if play < -HELD and kept.allowance:   # too high to keep it: as well as it stands without
        box = best_place(hole, kept.inward() if lapped else kept.stack, width, height, 0.0 if lapped else kept.clearance)
        play = _tightest(hole, kept.solid(), box, lapped=lapped)
    return Fitted(
        spec.opening, hole, box, kept.stack, kept.allowance, tuple(_gaps(hole, box, kept.stack)), _tightest(hole, kept.stack, box, lapped=lapped),
        play, kept.clearance, worked_out=not given,
    )


def _tightest(hole: Hole, inward: Inward, box: Box, *, lapped: bool) -> float:
    """The least distance of a frame from what is kept free inside the hole, mm, over whole sides; of a lapped frame under its sill alone."""
    at = (box.left, box.right, box.bottom, box.top)
    return min(b - sum(x * y for x, y in zip(a, at, strict=True)) for a, b in constraints(hole, inward) if not lapped or a[2] == -1.0)


def _gaps(hole: Hole, box: Box, stack: Inward) -> Iterator[Gap]:
    middle = box.centre
    for side, places in PLACES.items():
        upright = side.endswith("jamb")
        for place in places:
            at = {"top": box.top, "bottom": box.bottom, "left": box.left, "right": box.right, "middle": middle.y if upright else middle.x}[place]
            yield Gap(side, place, _gap(hole, box, stack, side, at))


def _gap(hole: Hole, box: Box, stack: Inward, side: str, at: float) -> float:
    if side == "left jamb":
        return box.left - off_side(hole.left, at, upright=True) - stack.left
    if side == "right jamb":
        return off_side(hole.right, at, upright=True) - box.right - stack.right
    if side == "head":
        return off_side(hole.head, at, upright=False) - box.top - stack.head
    return box.bottom - off_side(hole.sill, at, upright=False) - stack.sill


def _goes_in(spec: WindowSpec, fitted: Fitted, path: Path) -> None:
    if fitted.smallest < -HELD:
        raise SpecError([Problem(
            "frame-too-large", f"a frame of {spec.frame.width:g} by {spec.frame.height:g} does not go into its opening: at the best place it is "
            f"{-fitted.smallest:.1f} mm too large", "leave 'frame' out to have it sized from the opening, or measure the opening again",
            (*path, "frame"),
        )])
