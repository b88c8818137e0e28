"""From a surveyed opening to the frame that fits it, and from a frame to the gaps it leaves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from elevations.catalogue.system import System
from elevations.errors import Path, Problem, SpecError
from elevations.geometry.fit_deductions import Kept, kept_of
from elevations.geometry.fit_rectangle import HELD, best_place, largest_rectangle
from elevations.geometry.fit_shaped import (
    best_shaped_place,
    gaps_at,
    head_gaps,
    jamb_tops,
    largest_shaped,
    over_the_middle,
)
from elevations.geometry.fit_working import nothing_left, rise_working, size_working
from elevations.geometry.hole import Hole, Inward, constraints, hole_of, off_side
from elevations.plane import Box
from elevations.shapes import Raked, Shape
from elevations.spec.model import FRAME_HEIGHT_MM, FRAME_WIDTH_MM, Fixings, Frame
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import AddOns, Fit, Opening, Sill, Wall
from elevations.working import Working

JAMB, LEVEL = ("top", "middle", "bottom"), ("left", "middle", "right")
CROWN = "crown"
ARCH = ("left springing", "left quarter", CROWN, "right quarter", "right springing")
"""Along an arch, by a quarter of the frame's width each."""


@dataclass(frozen=True, slots=True)
class Gap:
    """The gap between a frame, with its add-ons and sill, and the wall at one place, mm; negative where it runs behind the wall.

    What a tape in the gap reads: over the frame the head allowance is part of it.
    """

    side: str
    """left jamb, right jamb, head or sill."""
    place: str
    """top, middle or bottom of a jamb (under a slope the middle of the lower jamb, where the middle width is taped); left, middle or right of a sill or a straight head; along an arch one of `ARCH`."""
    at: float
    """How far up the frame it is at a jamb, how far from the frame's left at sill and head, mm."""
    mm: float
    """Along the level at jambs, plumb at the sill and a level head, square to a slope or an arch."""


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
    over_middle: float | None = None
    """From the middle of a shaped frame's head up to the opening's, plumb, as the middle height is taped, mm; None under a level one."""
    head: tuple[tuple[str, Working], ...] = ()
    """Sizes of a shaped head that were worked out, with their names: rise, left jamb, right jamb."""

    @property
    def largest(self) -> float:
        """Largest of the gaps that are gaps, mm."""
        return max(gap.mm for gap in self.gaps)

    def along(self, side: str, at: float) -> float:
        """The gap of a side so far up or from the left, mm: straight from one measured place to the next, as the surveyed shape runs."""
        gaps = sorted((gap.at, gap.mm) for gap in self.gaps if gap.side == side)
        at = min(max(at, gaps[0][0]), gaps[-1][0])
        (a, low), (b, high) = next(pair for pair in pairwise(gaps) if at <= pair[1][0])
        return low + (high - low) * (at - a) / (b - a)

    def mean(self, side: str) -> float:
        """The mean gap along a side, straight from one measured place to the next, mm."""
        gaps = sorted((gap.at, gap.mm) for gap in self.gaps if gap.side == side)
        return sum((b - a) * (low + high) / 2 for (a, low), (b, high) in pairwise(gaps)) / (gaps[-1][0] - gaps[0][0])

    def in_the_middle(self, side: str) -> float:
        """The gap at the middle of a side, or at the crown, mm."""
        return next(gap.mm for gap in self.gaps if gap.side == side and gap.place in ("middle", CROWN))


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
    shape: Shape
    fitted: Fitted | None = None


def sizes_of(spec: WindowSpec, system: System, path: Path, shape: Shape, as_given: tuple[Working, Working]) -> Sizes:
    """The frame's size and shape: as given by the job, or the largest that its opening takes. Raises SpecError.

    The largest is by area, among level and plumb rectangles that keep their clearance off every side, or among frames of
    the opening's own shape; sizes are then rounded down.
    """
    given = spec.frame.width > 0
    made = Sizes(*as_given, shape)
    if spec.opening is None:
        return made
    hole = hole_of(spec.opening, (*path, "opening"))
    kept = kept_of(spec, system, path)
    head: tuple[tuple[str, Working], ...] = ()
    if not given and hole.kind == "level":
        made = _worked_out(spec, hole.straightened(), kept, shape, path)
    elif not given:
        made, head = _worked_out_shaped(spec, hole.straightened(), kept, path)
    fitted = _placed(spec, hole, kept, made, head, given=given)
    if given:
        _goes_in(spec, fitted, path)
    return replace(made, fitted=fitted)


def site_of(spec: WindowSpec, sizes: Sizes) -> Site | None:
    """Its place in the wall; None where the job gives neither opening nor sill nor wall nor frame extensions, and not what holds it."""
    held = {"screw", "bracket"} & spec.fixings.model_fields_set
    if sizes.fitted is None and spec.sill is None and spec.wall is None and spec.fit.add_ons == AddOns() and not held:
        return None
    return Site(spec.fit, sizes.fitted, spec.sill, spec.wall, spec.fixings)


def with_sizes(spec: WindowSpec, sizes: Sizes) -> WindowSpec:
    """The window's spec with its frame's size and shape filled in."""
    if spec.frame.width > 0:
        return spec
    frame = Frame.model_construct(width=sizes.width.value, height=sizes.height.value)
    shaped = {"head": sizes.shape} if spec.opening and spec.opening.head != "level" else {}
    return spec.model_copy(update={"frame": frame, **shaped})


def _worked_out(spec: WindowSpec, hole: Hole, kept: Kept, shape: Shape, path: Path) -> Sizes:
    opening = spec.opening
    assert opening is not None
    largest = largest_rectangle(hole, kept.inward())
    width, height = (largest.width, largest.height) if largest else (0.0, 0.0)
    _something_left(opening, kept, width, height, path)
    detail = (hole.words(), "the largest area among level and plumb rectangles inside")
    return Sizes(
        size_working(opening.width, "width", JAMB, width, (*kept.left, *kept.right), spec, path, detail),
        size_working(opening.height, "height", ("left", "centre", "right"), height, (*kept.head, *kept.sill), spec, path, detail), shape,
    )


def _worked_out_shaped(spec: WindowSpec, hole: Hole, kept: Kept, path: Path) -> tuple[Sizes, tuple[tuple[str, Working], ...]]:
    """The frame under a slope or an arch; and the sizes of its head, with their workings."""
    opening = spec.opening
    assert opening is not None
    found = largest_shaped(*_beside(hole, kept.inward(), kept.allowance), spec.fit.round_to)
    _something_left(opening, kept, found.width if found else 0.0, found.height if found else 0.0, path)
    assert found is not None
    wrong = [
        Problem(each.code, f"the frame for this opening can't be made: {each.message}", each.hint, (*path, "opening", "height"))
        for each in found.shape.wrong(found.width, found.height)
    ]
    if wrong:
        raise SpecError(wrong)
    up = (*kept.head, *kept.sill)
    inset = kept.inward().head - kept.allowance
    under = f", after {kept.allowance:g} of head allowance" if kept.allowance else ""
    detail = (hole.words(), f"the largest frame with such a head that stays {inset:g} off it, square to it, all along{under}")
    width = size_working(opening.width, "width", JAMB, found.exact[0], (*kept.left, *kept.right), spec, path, detail)

    def upright(number: int, name: str, exact: float, made: float) -> Working:
        return size_working((opening.height[number],) * 3, "height", (name,) * 3, exact, up, spec, path, detail, made=made)

    if isinstance(found.shape, Raked) and isinstance(found.exact_shape, Raked):
        left = upright(0, "left", found.exact_shape.left, found.shape.left)
        right = upright(2, "right", found.exact_shape.right, found.shape.right)
        return Sizes(width, max(left, right, key=lambda each: each.value), found.shape), (("left jamb", left), ("right jamb", right))
    rise = rise_working(opening, found, inset, path)
    return Sizes(width, upright(1, "to the crown", found.exact[1], found.height), found.shape), (("rise", rise),)


def _something_left(opening: Opening, kept: Kept, width: float, height: float, path: Path) -> None:
    problems = [
        nothing_left(key, size, limits, sides, opening_size, path)
        for key, size, limits, sides, opening_size in (
            ("width", width, FRAME_WIDTH_MM, (*kept.left, *kept.right), min(opening.width)),
            ("height", height, FRAME_HEIGHT_MM, (*kept.head, *kept.sill), min(opening.height) if opening.head == "level" else max(opening.height)),
        ) if not limits[0] <= size <= limits[1]
    ]
    if problems:
        raise SpecError(problems)


def _placed(spec: WindowSpec, hole: Hole, kept: Kept, made: Sizes, head: tuple[tuple[str, Working], ...], *, given: bool) -> Fitted:
    """Where a frame of that size stands best, and its gaps there; sides that bow outwards do not move it, but widen its gaps."""
    assert spec.opening is not None
    lapped = spec.fit.reveal.kind == "check"
    enough = 0.0 if lapped else kept.clearance
    straight = hole.straightened()
    # Behind a check the best place is the one nearest to the lap asked for and to the gap under the sill.
    box = _best(made, *_beside(straight, kept.inward() if lapped else kept.solid(), kept.allowance), enough)
    solid = _beside(hole, kept.solid(), kept.allowance)
    play = _tightest(made, *solid, box, lapped=lapped)
    wanted = kept.inward().sill - kept.stack.sill
    if lapped and play > wanted:   # nothing beside it holds it up: it stands on its packers
        box, play = Box(box.left, box.bottom - play + wanted, box.right, box.top - play + wanted), wanted
    if play < -HELD and kept.allowance and not lapped:   # too high to keep it: as well as it stands without
        box = _best(made, straight, kept.stack, enough)
        play = _tightest(made, *solid, box, lapped=lapped)
    return Fitted(
        spec.opening, hole, box, kept.stack, kept.allowance, tuple(_gaps(hole, made, box, kept.stack)),
        _tightest(made, hole, kept.stack, box, lapped=lapped), play, kept.clearance, worked_out=not given, head=head,
        over_middle=None if hole.kind == "level" else over_the_middle(hole, made.shape, box),
    )


def _beside(hole: Hole, inward: Inward, allowance: float) -> tuple[Hole, Inward]:
    """The hole, and what is kept free of it besides the head allowance, which under a shaped head is kept upright, not square to it."""
    if hole.kind == "level":
        return hole, inward
    return hole.lowered(allowance), inward._replace(head=inward.head - allowance)


def _best(made: Sizes, hole: Hole, inward: Inward, enough: float) -> Box:
    if hole.kind == "level":
        return best_place(hole, inward, made.width.value, made.height.value, enough)
    return best_shaped_place(hole, inward, made.shape, made.width.value, made.height.value, enough)


def _tightest(made: Sizes, hole: Hole, inward: Inward, box: Box, *, lapped: bool) -> float:
    """The least distance of a frame from what is kept free inside the hole, mm, over whole sides; of a lapped frame under its sill alone."""
    if hole.kind != "level":
        sides = gaps_at(hole, inward, made.shape, box.width, box.height)(box.left, box.bottom)
        return sides[2] if lapped else min(sides)
    at = (box.left, box.right, box.bottom, box.top)
    return min(b - sum(x * y for x, y in zip(a, at, strict=True)) for a, b in constraints(hole, inward) if not lapped or a[2] == -1.0)


def _gaps(hole: Hole, made: Sizes, box: Box, stack: Inward) -> Iterator[Gap]:
    """Jambs from the top, then head and sill from the left."""
    shaped = hole.kind != "level"
    tops = jamb_tops(made.shape, box) if shaped else (box.top, box.top)
    half = (min(tops) + box.bottom) / 2
    for side, line, edge, sign, kept, top in (
        ("left jamb", hole.left, box.left, 1.0, stack.left, tops[0]), ("right jamb", hole.right, box.right, -1.0, stack.right, tops[1]),
    ):
        for place, y in zip(JAMB, (top, half, box.bottom), strict=True):
            yield Gap(side, place, y - box.bottom, sign * (edge - off_side(line, y, upright=True)) - kept)
    across = (box.left, box.centre.x, box.right)
    if shaped:
        heads = head_gaps(hole, made.shape, box)
        places, step = (LEVEL if len(heads) == len(LEVEL) else ARCH), box.width / (len(heads) - 1)
        yield from (Gap("head", place, number * step, mm - stack.head) for number, (place, mm) in enumerate(zip(places, heads, strict=True)))
    else:
        yield from (Gap("head", place, x - box.left, off_side(hole.head, x, upright=False) - box.top - stack.head) for place, x in zip(LEVEL, across, strict=True))
    yield from (Gap("sill", place, x - box.left, box.bottom - off_side(hole.sill, x, upright=False) - stack.sill) for place, x in zip(LEVEL, across, strict=True))


def _goes_in(spec: WindowSpec, fitted: Fitted, path: Path) -> None:
    if fitted.smallest < -HELD:
        raise SpecError([Problem(
            "frame-too-large", f"a frame of {spec.frame.width:g} by {spec.frame.height:g} does not go into its opening: at the best place it would stand "
            f"{-fitted.smallest:.1f} mm in the wall", "leave 'frame' out to have it sized from the opening, or measure the opening again",
            (*path, "frame"),
        )])
