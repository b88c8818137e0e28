"""From a surveyed opening to the frame that fits it, and from a frame to the gaps it leaves."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.catalogue.system import System
from elevations.errors import Path, Problem, SpecError
from elevations.geometry.fit_deductions import Kept, kept_of
from elevations.geometry.fit_plane import Constraint, best_vertex, largest_product, vertices, vertices_held_by_all
from elevations.geometry.hole import Hole, Inward, constraints, hole_of, off_side
from elevations.plane import Box
from elevations.spec.model import FRAME_HEIGHT_MM, FRAME_WIDTH_MM, Fixings, Frame
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import AddOns, Fit, Opening, Sill, Wall
from elevations.working import Source, Term, Working

PLACES = {"left jamb": ("top", "middle", "bottom"), "right jamb": ("top", "middle", "bottom"),
          "head": ("left", "middle", "right"), "sill": ("left", "middle", "right")}
HELD = 1e-6
"""Float noise, mm."""
GIVEN_UP_MM = 0.1
"""No tape reads this: so much of the smallest gap is given up for a frame that stands in the middle."""
UNSHOWN_MM = 5e-4
"""Steps are shown to a thousandth."""
NOT_INSIDE_OUT: tuple[Constraint, ...] = (((1.0, -1.0, 0.0, 0.0), 0.0), ((0.0, 0.0, 1.0, -1.0), 0.0))
"""Left is at most right, and bottom at most top: without these the region of rectangles has no end."""
SLOPE_MARGIN = 2.5
"""Two slopes, and a quarter more for what their own coming in costs again."""
FORGIVEN_MM = 0.05
"""A size this little short of a whole step is not rounded down to the one before: no tape reads it, and a length taped along
a sill 2 out of level is shorter on the level by a few thousandths."""


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
    """Its place in the wall; None where the job gives neither opening nor sill nor wall nor frame extensions."""
    if sizes.fitted is None and spec.sill is None and spec.wall is None and spec.fit.add_ons == AddOns():
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
        _nothing_left(key, size, limits, sides, opening_size, path)
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
        _working(opening.width, "width", ("top", "middle", "bottom"), width, (*kept.left, *kept.right), spec, path, detail),
        _working(opening.height, "height", ("left", "centre", "right"), height, (*kept.head, *kept.sill), spec, path, detail),
    )


def _working(
    measured: tuple[float, float, float], key: str, places: tuple[str, str, str], exact: float, off: tuple[Term, ...],
    spec: WindowSpec, path: Path, detail: tuple[str, ...],
) -> Working:
    """Smallest measured size, what out of square takes of it, the deductions, and the rounding: the sum is the size."""
    least = min(measured)
    where = places[measured.index(least)]
    name = f"opening {key}" + ("" if len(set(measured)) == 1 else f", smallest, {where}")
    steps = [Term(least, name, Source("spec", (*path, "opening", key)))]
    lost = exact - least - sum(term.amount for term in off)
    if abs(lost) > UNSHOWN_MM:   # the rounding takes up what is less
        rule = "corners from the sides and the first diagonal" if spec.opening and spec.opening.diagonals else "as square as the sides allow"
        steps.append(Term(lost, "out of level, plumb and straight", Source("rule", rule), detail))
    steps += off
    to = spec.fit.round_to
    size = math.floor((exact + FORGIVEN_MM) / to) * to
    before = Working(tuple(steps))
    if abs(before.value - size) > HELD:
        steps.append(Term(size - before.value, f"rounded down to {to:g} mm", Source("spec", (*path, "fit", "round_to"))))
    return Working(tuple(steps))


def _nothing_left(
    key: str, size: float, limits: tuple[float, float], off: tuple[Term, ...], opening: float, path: Path
) -> Problem:
    taken = -sum(term.amount for term in off)
    where = (*path, "opening", key)
    if size < limits[0]:
        return Problem(
            "opening-too-small", f"the opening's {key} {opening:g} less {taken:g} for clearance, add-ons and sill leaves a frame of "
            f"{max(0.0, size):.0f}, and none is smaller than {limits[0]:g}", "check the opening, and what comes off it", where,
        )
    return Problem("opening-too-large", f"the frame would be {size:.0f} in {key}; none is larger than {limits[1]:g}", "make it two windows", where)


def largest_rectangle(hole: Hole, inward: Inward) -> Box | None:
    """The level and plumb rectangle of the largest area that stays `inward` off each side; exact. None where none does.

    The rectangles that fit are a convex region of four unknowns, and width and height are linear on it: its vertices
    give all that width and height can be, and the largest product of the two lies on that figure's edge.
    """
    rows = constraints(hole, inward)
    found = [at for at in _held_on_every_side(rows) if at[1] > at[0] and at[3] > at[2]]
    if not found or _slender(rows, found):
        found = list(vertices([*rows, *NOT_INSIDE_OUT], 4))
    best = largest_product([(at[1] - at[0], at[3] - at[2]) for at in found])
    if best is None:
        return None
    i, j, share = best
    left, right, bottom, top = (a + share * (b - a) for a, b in zip(found[i], found[j], strict=True))
    return Box(left, bottom, right, top)


def _held_on_every_side(rows: Sequence[Constraint]) -> Iterator[tuple[float, ...]]:
    """The rectangles that touch every side of the hole: the largest is among these, unless the hole is slender and leans.

    Were one side of the largest not held by its own side of the hole, it could move out by a little, d; head and sill
    would come in by at most the slope times d each. That gains area as long as the slope is less than half of the shorter
    side to the longer one.
    """
    groups = [[row for row in rows if abs(row[0][own]) == 1.0 and all(abs(row[0][i]) < 1.0 for i in range(4) if i != own)] for own in range(4)]
    return vertices_held_by_all(groups, rows)


def _slender(rows: Sequence[Constraint], found: Sequence[tuple[float, ...]]) -> bool:
    """Whether a rectangle among these is so long for the hole's slopes that the largest may not touch every side."""
    slope = max(min(abs(a[0]) + abs(a[1]), abs(a[2]) + abs(a[3])) for a, _ in rows)
    sides = [(at[1] - at[0], at[3] - at[2]) for at in found]
    return any(SLOPE_MARGIN * slope * max(w, h) >= min(w, h) for w, h in sides)


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


def best_place(hole: Hole, stack: Inward, width: float, height: float, enough: float = math.inf) -> Box:
    """Where a rectangle of that size leaves the largest smallest gap, which may be below 0, and is in the middle besides.

    For equal gaps on facing sides it gives up `GIVEN_UP_MM` of the smallest gap, as long as that stays `enough`, mm.
    """
    moved = [
        ((a[0] + a[1], a[2] + a[3], 1.0), b - a[1] * width - a[3] * height)
        for a, b in constraints(hole, stack)
    ]
    best = best_vertex(moved, 3, lambda at: at[2])
    assert best is not None   # a gap small enough always leaves a place
    least = best[2] - GIVEN_UP_MM if best[2] < enough else max(best[2] - GIVEN_UP_MM, enough)
    for first in (0, 1):
        at = [best[0], best[1]]
        for axis in (first, 1 - first):
            at[axis] += _off_middle(moved, at, axis)
        if min(b - a[0] * at[0] - a[1] * at[1] for a, b in moved) >= least - HELD:
            return Box(at[0], at[1], at[0] + width, at[1] + height)
    return Box(best[0], best[1], best[0] + width, best[1] + height)


def _off_middle(rows: Sequence[tuple[tuple[float, float, float], float]], at: Sequence[float], axis: int) -> float:
    """How far to move along an axis (0 level, 1 up) so that the smallest gaps at both ends are equal."""
    low, high = (
        min(b - a[0] * at[0] - a[1] * at[1] for a, b in rows if round(a[axis]) == sign and round(a[1 - axis]) == 0) for sign in (-1, 1)
    )
    return (high - low) / 2


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
