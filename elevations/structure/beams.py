"""Simply supported beams under line loads and point loads: reactions, bending, deflection. N, mm, N/mm2.

Every load is written as singularity terms, coef·<x − at>^n, where <…> is 0 left of `at` (Macaulay 1919; the method is
in any strength-of-materials handbook, from memory). Integrals of such terms are exact, so uniform, triangular and
trapezoidal loads, several side by side, and point loads need no formula of their own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from elevations.calculation import ImpossibleInputError

BISECTIONS = 48   # halves a span of metres to 1e-11 mm


@dataclass(frozen=True, slots=True)
class LineLoad:
    """A symmetrical load along part of a beam: rises over `rise_mm`, runs level at `peak_n_mm`, falls the same way.

    rise 0 is uniform, half the length is a triangle, anything between a trapezoid.
    """

    start_mm: float
    length_mm: float
    rise_mm: float
    peak_n_mm: float

    @property
    def total_n(self) -> float:
        return self.peak_n_mm * (self.length_mm - self.rise_mm)


@dataclass(frozen=True, slots=True)
class PointLoad:
    """A force at a place on the beam."""

    at_mm: float
    force_n: float


@dataclass(frozen=True, slots=True)
class Beam:
    """A beam on two supports that turn freely, `span_mm` apart; all loads press the same way.

    Raises ImpossibleInputError for a load that leaves the beam, pulls, or rises over more than half its length.
    """

    span_mm: float
    line_loads: tuple[LineLoad, ...] = ()
    point_loads: tuple[PointLoad, ...] = ()

    def __post_init__(self) -> None:
        if not (math.isfinite(self.span_mm) and self.span_mm > 0):
            raise ImpossibleInputError(f"a span of {self.span_mm:g} mm: it is more than 0")
        slack = 1e-6
        for line in self.line_loads:
            if line.start_mm < -slack or line.length_mm <= 0 or line.start_mm + line.length_mm > self.span_mm + slack:
                raise ImpossibleInputError(f"a load from {line.start_mm:g} over {line.length_mm:g} mm leaves a {self.span_mm:g} mm beam")
            if not 0 <= line.rise_mm <= line.length_mm / 2 + slack:
                raise ImpossibleInputError(f"a load {line.length_mm:g} mm long can't rise over {line.rise_mm:g} mm at both ends")
        if any(not 0 <= p.at_mm <= self.span_mm for p in self.point_loads):
            raise ImpossibleInputError("a point load lies beside the beam")
        if any(not v >= 0 for v in (*(p.force_n for p in self.point_loads), *(w.peak_n_mm for w in self.line_loads))):
            raise ImpossibleInputError("all loads of a beam press the same way: none is negative")


FACTORIALS = (1, 1, 2, 6, 24, 120)


class Peak(NamedTuple):
    """The greatest value along a beam, and where."""

    at_mm: float
    value: float


class _Term(NamedTuple):
    """A share of a load: its bending moment is −coef·<x − at>^power / power!."""

    coef: float
    at: float
    power: int
    """1 for a force, 2 for a load that begins at full size, 3 for one that grows at coef N/mm per mm."""

    def value(self, x: float, integrals: int) -> float:
        """Its moment, integrated `integrals` times (−1: its shear)."""
        if x <= self.at:
            return 0.0
        n = self.power + integrals
        return self.coef * (x - self.at) ** n / FACTORIALS[n]


def _terms(beam: Beam) -> Iterator[_Term]:
    for point in beam.point_loads:
        yield _Term(point.force_n, point.at_mm, 1)
    for line in beam.line_loads:
        start, end, rise = line.start_mm, line.start_mm + line.length_mm, line.rise_mm
        if rise > 0:
            slope = line.peak_n_mm / rise
            for sign, at in ((1, start), (-1, start + rise), (-1, end - rise), (1, end)):
                yield _Term(sign * slope, at, 3)
        else:
            yield _Term(line.peak_n_mm, start, 2)
            yield _Term(-line.peak_n_mm, end, 2)


def reactions(beam: Beam) -> tuple[float, float]:
    """Forces on the supports at the start and the end, N."""
    total = sum(p.force_n for p in beam.point_loads) + sum(w.total_n for w in beam.line_loads)
    middles = [(p.at_mm, p.force_n) for p in beam.point_loads]
    middles += [(w.start_mm + w.length_mm / 2, w.total_n) for w in beam.line_loads]
    end = sum(at * force for at, force in middles) / beam.span_mm
    return total - end, end


def moment(beam: Beam, x_mm: float) -> float:
    """Bending moment at x from the start, N mm."""
    return reactions(beam)[0] * x_mm - sum(term.value(x_mm, 0) for term in _terms(beam))


def deflection_ei(beam: Beam, x_mm: float) -> float:
    """Deflection at x times the beam's EI, N mm3: divide by EI in N mm2 for mm."""
    return _deflection_curve(beam)(x_mm)


def peak_moment(beam: Beam) -> Peak:
    """The greatest bending moment, N mm: where the shear changes sign."""
    start, terms = reactions(beam)[0], list(_terms(beam))
    at = _where_it_turns_negative(lambda x: start - sum(term.value(x, -1) for term in terms), beam.span_mm)
    return Peak(at, moment(beam, at))


def peak_deflection(beam: Beam, ei_n_mm2: float) -> Peak:
    """The greatest deflection, mm, of a beam of the given stiffness: where its slope changes sign."""
    if not ei_n_mm2 > 0:
        raise ImpossibleInputError(f"a stiffness EI of {ei_n_mm2:g} N mm2: it is more than 0")
    peak = peak_deflection_ei(beam)
    return Peak(peak.at_mm, peak.value / ei_n_mm2)


def needed_ei_n_mm2(beam: Beam, limit_mm: float) -> float:
    """The stiffness EI, N mm2, at which the greatest deflection just reaches `limit_mm`; divide by E for I."""
    if not limit_mm > 0:
        raise ImpossibleInputError(f"a deflection limit of {limit_mm:g} mm: it is more than 0")
    return peak_deflection_ei(beam).value / limit_mm


@lru_cache(maxsize=256)
def peak_deflection_ei(beam: Beam) -> Peak:
    """The greatest deflection times EI, N mm3. Kept: the deflection and the needed stiffness both ask for it."""
    start, terms = reactions(beam)[0], list(_terms(beam))
    tilt = _start_slope_ei(beam)
    at = _where_it_turns_negative(lambda x: tilt - start * x**2 / 2 + sum(term.value(x, 1) for term in terms), beam.span_mm)
    return Peak(at, deflection_ei(beam, at))


def _start_slope_ei(beam: Beam) -> float:
    """EI times the slope at the start, from no deflection at the end."""
    span = beam.span_mm
    return (reactions(beam)[0] * span**3 / 6 - sum(term.value(span, 2) for term in _terms(beam))) / span


def _deflection_curve(beam: Beam) -> Callable[[float], float]:
    start, tilt, terms = reactions(beam)[0], _start_slope_ei(beam), list(_terms(beam))
    return lambda x: tilt * x - start * x**3 / 6 + sum(term.value(x, 2) for term in terms)


def _where_it_turns_negative(falling: Callable[[float], float], span: float) -> float:
    """The place where a curve that only falls crosses zero."""
    low, high = 0.0, span
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        low, high = (middle, high) if falling(middle) > 0 else (low, middle)
    return (low + high) / 2
