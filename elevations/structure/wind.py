"""Wind on mullions and transoms: the load by 45-degree lines, bending, deflection, and the stiffness they need.

Wind pressure is the user's: a figure in Pa, or a class of EN 12210 whose first test pressure P1 it is. What pressure
a place needs is for the local code and a licensed engineer, and is not worked out here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError, Step, keeps
from elevations.geometry.window import Bar, Light, Window
from elevations.spec.wind import EN_12210, read_class
from elevations.structure.beams import (
    Beam,
    LineLoad,
    PointLoad,
    needed_ei_n_mm2,
    peak_deflection,
    peak_moment,
    reactions,
)
from elevations.structure.materials import E_N_MM2
from elevations.structure.sections import NO_STEEL, bar_stiffness

P2_SHARE, P3_SHARE = 0.5, 1.5   # of P1, same source
SPAN_SHARE: Mapping[str, float] = {"A": 150.0, "B": 200.0, "C": 300.0}
"""Greatest deflection is the span divided by this, at P1. EN 12210:2016 (read, second hand)."""
N_MM2_PER_PA = 1e-6


@dataclass(frozen=True, slots=True)
class WindClass:
    """A class of resistance to wind load: test pressures in Pa and the deflection limit."""

    name: str
    p1_pa: float
    p2_pa: float
    p3_pa: float
    limit: str
    """A, B or C."""


@dataclass(frozen=True, slots=True)
class BarUnderWind:
    """One mullion or transom under a wind pressure."""

    tag: str
    profile: str
    beam: Beam
    """From bottom to top of a mullion, from left to right of a transom, between the datum lines of what it meets."""
    pressure_pa: float
    limit: str
    moment: Calculation
    """The greatest bending moment, N mm. Whether the member's strength bears it can't be told here."""
    limit_mm: float
    needed_ei_n_mm2: float
    deflection: Calculation | CannotTell
    """The greatest deflection of the member as it is drawn, mm."""

    @property
    def passes(self) -> bool | None:
        """Whether the deflection keeps the limit; None where it can't be told."""
        return keeps(self.deflection, self.limit_mm)

    def needed_i_mm4(self, material: str) -> float:
        """Second moment of area that a bar of one material alone would need, mm4."""
        return self.needed_ei_n_mm2 / E_N_MM2[material]


def wind_class(name: str) -> WindClass:
    """A class by its name, deflection limit first: 'C3', 'BE2400'. Raises ImpossibleInputError for no class."""
    found = read_class(name)
    if found is None:
        raise ImpossibleInputError(
            f"'{name}' is no class of EN 12210: write A, B or C and 1 to 5 (C3), or E and a pressure above 2000 Pa (CE2400)"
        )
    return WindClass(found.given, found.pressure_pa, P2_SHARE * found.pressure_pa, P3_SHARE * found.pressure_pa, found.limit)


def bars_under_wind(window: Window, pressure_pa: float, limit: str = "B") -> tuple[BarUnderWind, ...]:
    """Every mullion and transom of a window under a pressure, in the order of its tags' bars.

    Bars are simply supported on what they meet; a bar that another carries presses on it with its reaction. `limit`
    is a deflection class of EN 12210: A, B or C. Raises ImpossibleInputError for another, or a pressure not above 0.
    """
    if limit not in SPAN_SHARE:
        raise ImpossibleInputError(f"'{limit}' is no deflection class: it is A, B or C")
    if not pressure_pa > 0:
        raise ImpossibleInputError(f"a wind pressure of {pressure_pa:g} Pa: it is more than 0")
    beams = wind_beams(window, pressure_pa)
    return tuple(_judged(window, bar, beams[bar.tag], pressure_pa, limit) for bar in window.bars)


def wind_beams(window: Window, pressure_pa: float) -> dict[str, Beam]:
    """Each bar's beam by its tag, with the loads of the lights beside it and of the bars that it carries.

    A carried bar always comes later in the window's bars than the one that carries it, so they are met last to first.
    """
    beams: dict[str, Beam] = {}
    for bar in reversed(window.bars):
        lines = tuple(load for light in window.lights for load in light_loads(light, bar, pressure_pa))
        points = tuple(_carried(window, bar, beams))
        beams[bar.tag] = Beam(span_mm(bar), lines, points)
    return beams


def span_mm(bar: Bar) -> float:
    """From datum to datum of the members it meets: outer edge of the frame, centre line of a bar. Errs on the safe side."""
    return _place(bar, bar.outer[1]) - _place(bar, bar.outer[0])


def light_loads(light: Light, bar: Bar, pressure_pa: float) -> Iterator[LineLoad]:
    """What a light beside a bar brings to it: by 45-degree lines from its corners, a trapezoid or a triangle."""
    for (a, b), side in zip(light.region.outline.edges(), light.region.sides, strict=True):
        if side.tag == bar.tag:
            low, high = sorted((_place(bar, a), _place(bar, b)))
            box = light.region.outline.bounds
            depth = box.width if bar.upright else box.height
            yield strip_load(low - _place(bar, bar.outer[0]), high - low, depth, pressure_pa)


def strip_load(start_mm: float, length_mm: float, depth_mm: float, pressure_pa: float) -> LineLoad:
    """A pressed light `depth_mm` deep beside a stretch of a bar: peak p·min(B/2, L/2), rising over min(B/2, L/2).

    Sharing by 45-degree lines (common practice, no source).
    """
    rise = min(depth_mm, length_mm) / 2
    return LineLoad(start_mm, length_mm, rise, pressure_pa * N_MM2_PER_PA * rise)


def _carried(window: Window, bar: Bar, beams: Mapping[str, Beam]) -> Iterator[PointLoad]:
    for other in window.bars:
        for end, tag in enumerate(other.meets):
            if tag == bar.tag:
                at = _place(bar, other.outer[end]) - _place(bar, bar.outer[0])
                yield PointLoad(at, reactions(beams[other.tag])[end])


def _place(bar: Bar, point: tuple[float, ...]) -> float:
    return point[1] if bar.upright else point[0]


def _judged(window: Window, bar: Bar, beam: Beam, pressure_pa: float, limit: str) -> BarUnderWind:
    limit_mm = beam.span_mm / SPAN_SHARE[limit]
    stiffness, steps = bar_stiffness(window, bar), tuple(_load_steps(beam, pressure_pa))
    peak = peak_moment(beam)
    moment = Calculation(peak.value, "N mm", (*steps, Step(f"M, {peak.at_mm:.0f} mm along", peak.value, "N mm", "simple beam")))
    deflection: Calculation | CannotTell
    if isinstance(stiffness, CannotTell):
        deflection = stiffness
    else:
        most = peak_deflection(beam, stiffness.wind.value)
        deflection = Calculation(most.value, "mm", (
            *steps, *stiffness.wind.steps, Step(f"f, {most.at_mm:.0f} mm along", most.value, "mm", "simple beam"),
            Step(f"limit = L/{SPAN_SHARE[limit]:g}, class {limit}", limit_mm, "mm", EN_12210),
        ), ("the reinforcement runs the whole length of the member and is fixed to it" if stiffness.steel_area_mm2 else NO_STEEL,))
    return BarUnderWind(
        bar.tag, bar.profile, beam, pressure_pa, limit, moment, limit_mm, needed_ei_n_mm2(beam, limit_mm), deflection
    )


def _load_steps(beam: Beam, pressure_pa: float) -> Iterator[Step]:
    yield Step("p", pressure_pa, "Pa", "given")
    yield Step("L", beam.span_mm, "mm", "between the members it meets, datum to datum")
    for line in beam.line_loads:
        yield Step(f"w from {line.start_mm:.0f} over {line.length_mm:.0f} mm, rising over {line.rise_mm:.0f}", line.peak_n_mm, "N/mm",
                   "45-degree lines (common practice, no source)")
    for point in beam.point_loads:
        yield Step(f"F at {point.at_mm:.0f} mm", point.force_n, "N", "reaction of a bar that it carries")
