"""How a frame's size follows from its opening, as a sum of named terms; and what is said where nothing is left of it."""

from __future__ import annotations

import math

from elevations.errors import Path, Problem
from elevations.geometry.fit_rectangle import HELD
from elevations.geometry.fit_shaped import FORGIVEN_MM, LEFT_FOR_A_SEMICIRCLE, ShapedFrame
from elevations.shapes import Raked
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import Opening
from elevations.working import Source, Term, Working

UNSHOWN_MM = 5e-4
"""Steps are shown to a thousandth."""


def size_working(
    measured: tuple[float, float, float], key: str, places: tuple[str, str, str], exact: float, off: tuple[Term, ...],
    spec: WindowSpec, path: Path, detail: tuple[str, ...], made: float | None = None,
) -> Working:
    """Smallest measured size, what out of square takes of it, the deductions, and the rounding: the sum is the size.

    `made`: the size as it is made, where it is not `exact` rounded down by itself: under a shaped head, whose places are then all one.
    """
    least = min(measured)
    where = places[measured.index(least)]
    name = f"opening {key}" + (f", {where}" if len(set(places)) == 1 else "" if len(set(measured)) == 1 else f", smallest, {where}")
    steps = [Term(least, name, Source("spec", (*path, "opening", key)))]
    lost = exact - least - sum(term.amount for term in off)
    if abs(lost) > UNSHOWN_MM:   # the rounding takes up what is less
        rule = "corners from the sides and the first diagonal" if spec.opening and spec.opening.diagonals else "as square as the sides allow"
        shaped = "" if made is None else ", and gaps square to the head"
        steps.append(Term(lost, f"out of level, plumb and straight{shaped}", Source("rule", rule), detail))
    steps += off
    to = spec.fit.round_to
    size = math.floor((exact + FORGIVEN_MM) / to) * to if made is None else made
    before = Working(tuple(steps))
    if abs(before.value - size) > HELD:
        said = f"rounded down to {to:g} mm" if before.value > size else _up_words(to, forgiven=made is None)
        steps.append(Term(size - before.value, said, Source("spec", (*path, "fit", "round_to"))))
    return Working(tuple(steps))


def _up_words(to: float, *, forgiven: bool) -> str:
    if forgiven:
        return "rounded up: no tape reads what is missing"
    return f"rounded to {to:g} mm together with the rise"


def rise_working(opening: Opening, found: ShapedFrame, inset: float, path: Path) -> Working:
    """The rise of a frame's arch: what the opening's is, what the distance from it takes or adds, and the rounding."""
    assert not isinstance(found.shape, Raked)
    assert not isinstance(found.exact_shape, Raked)
    left, crown, right = opening.height
    measured = crown - (left + right) / 2
    exact, rise = found.exact_shape.rise, found.shape.rise
    steps = [
        Term(measured, "rise of the opening: height to the crown less that to the springings", Source("spec", (*path, "opening", "height"))),
        Term(exact - measured, f"the arch {inset:g} further in, over a frame {found.exact[0]:.1f} wide", Source("rule", "the same distance off the arch all along")),
    ]
    if abs(rise - exact) > HELD:
        half = abs(rise - found.width / 2) < HELD
        said, why = (
            ("to half the frame's width, a semicircle", f"made where that leaves at least {LEFT_FOR_A_SEMICIRCLE:.1%} of the largest frame") if half else
            ("to whole mm, up or down, whichever leaves the larger frame", "whole mm for whoever bends it")
        )
        steps.append(Term(rise - exact, said, Source("rule", why)))
    return Working(tuple(steps))


def nothing_left(
    key: str, size: float, limits: tuple[float, float], off: tuple[Term, ...], opening: float, path: Path
) -> Problem:
    """What is said of an opening whose frame would be smaller or larger than any; `off`: what comes off it, `path`: the window's."""
    taken = -sum(term.amount for term in off)
    where = (*path, "opening", key)
    if size < limits[0]:
        return Problem(
            "opening-too-small", f"the opening's {key} {opening:g} less {taken:g} for clearance, add-ons and sill leaves a frame of "
            f"{max(0.0, size):.0f}, and none is smaller than {limits[0]:g}", "check the opening, and what comes off it", where,
        )
    return Problem("opening-too-large", f"the frame would be {size:.0f} in {key}; none is larger than {limits[1]:g}", "make it two windows", where)
