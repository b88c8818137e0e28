"""How a frame's size follows from its opening, as a sum of named terms; and what is said where nothing is left of it."""

from __future__ import annotations

import math

from elevations.errors import Path, Problem
from elevations.geometry.fit_rectangle import HELD
from elevations.spec.model import Window as WindowSpec
from elevations.working import Source, Term, Working

UNSHOWN_MM = 5e-4
"""Steps are shown to a thousandth."""
FORGIVEN_MM = 0.05
"""A size this little short of a whole step is not rounded down to the one before: no tape reads it, and a length taped along
a sill 2 out of level is shorter on the level by a few thousandths."""


def size_working(
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


def nothing_left(
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
