"""Area, centroid and second moments of a section's outlines, and the bending stiffness of a member. mm, N.

Green's theorem turns each integral over an area into one along its outline: for polygons these are the usual shoelace
sums, for arcs integrals of powers of the cosine. Both are exact.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from elevations.calculation import Calculation, CannotTell, Step
from elevations.catalogue.system import Part, PartKind, Section, System
from elevations.geometry.steel import steel_of
from elevations.geometry.window import Bar, Window
from elevations.plane import Corner, Outline, arc_centre, arc_radius
from elevations.structure.materials import E_N_MM2


@dataclass(frozen=True, slots=True)
class SectionFigures:
    """Of one solid shape, axes u and v as the system draws them."""

    area_mm2: float
    centroid_u_mm: float
    centroid_v_mm: float
    i_wind_mm4: float
    """∫(v − v̄)² dA: against bending out of the window's plane."""
    i_weight_mm4: float
    """∫(u − ū)² dA: against bending in the window's plane, across the member."""


@dataclass(frozen=True, slots=True)
class Stiffness:
    """EI of a member's pieces, each bending about its own centroid: nothing is counted on to bond them."""

    wind: Calculation
    """Out of the window's plane, N mm2."""
    weight: Calculation
    """In the window's plane, N mm2."""
    steel_area_mm2: float


def section_figures(solid: Outline, holes: tuple[Outline, ...] = ()) -> SectionFigures:
    """Exact figures of an outline less its holes; raises ZeroDivisionError for an outline without area."""
    figures = [(1.0, _raw(solid)), *((-1.0, _raw(hole)) for hole in holes)]
    area, s_u, s_v, i_u, i_v = (math.fsum(sign * raw[k] for sign, raw in figures) for k in range(5))
    u, v = s_u / area, s_v / area
    return SectionFigures(area, u, v, i_v - area * v * v, i_u - area * u * u)


NO_STEEL = "no reinforcement is cut for it, so its profile bends alone"


def bar_stiffness(window: Window, bar: Bar) -> Stiffness | CannotTell:
    """EI of a bar as it is made: with steel only where the cutting list cuts some for it."""
    return member_stiffness(window.system, bar.profile, steel=any(steel_of(window, bar)))


def member_stiffness(system: System, profile: str, *, steel: bool = True) -> Stiffness | CannotTell:
    """EI of a member of the system: its profile and its reinforcement, where it has its `steel`, side by side, without composite action.

    Beads, gaskets and a sash beside it are not counted on. Says what is missing where the system gives no outline,
    or where its material has no modulus of elasticity here.
    """
    section, e = system.profiles[profile].section, system.modulus_n_mm2 or E_N_MM2.get(system.material)
    needs = []
    if section is None:
        needs.append(f"the section outline of the {profile} in {system.name}")
    if e is None:
        needs.append(f"the modulus of elasticity of the {system.material} of {system.name} (modulus: … in its file)")
    if section is None or e is None:
        return CannotTell(tuple(needs))
    wind: list[Step] = []
    weight: list[Step] = []
    steel_area = 0.0
    for kind, figures in solid_pieces(section):
        if kind is PartKind.STEEL and not steel:
            continue
        name = "steel" if kind is PartKind.STEEL else system.material
        modulus = E_N_MM2["steel"] if kind is PartKind.STEEL else e
        steel_area += figures.area_mm2 if kind is PartKind.STEEL else 0.0
        for steps, i in ((wind, figures.i_wind_mm4), (weight, figures.i_weight_mm4)):
            steps += [
                Step(f"I {name}", i, "mm4", f"{system.name}: section of the {profile}"),
                Step(f"E {name}", modulus, "N/mm2", f"{system.name}: modulus" if kind is not PartKind.STEEL and system.modulus_n_mm2 else "from memory"),
            ]
    return Stiffness(_ei(wind), _ei(weight), steel_area)


def _ei(steps: list[Step]) -> Calculation:
    total = math.fsum(i.value * e.value for i, e in zip(steps[::2], steps[1::2], strict=True))
    return Calculation(total, "N mm2", (*steps, Step("EI = ΣE·I, no composite action", total, "N mm2", "sum of the pieces")))


@lru_cache(maxsize=64)
def solid_pieces(section: Section) -> tuple[tuple[PartKind, SectionFigures], ...]:
    """Each profile of the section's body less its chambers, and each reinforcement. Kept: a job asks often."""
    return tuple(_pieces(section))


def _pieces(section: Section) -> Iterator[tuple[PartKind, SectionFigures]]:
    chambers = [part.outline for part in section.body if part.kind is PartKind.CHAMBER]
    for part in section.body:
        if part.kind is PartKind.PROFILE:
            yield part.kind, section_figures(part.outline, tuple(c for c in chambers if _around(part, c)))
        elif part.kind is PartKind.STEEL:
            yield part.kind, section_figures(part.outline)


def _around(part: Part, inner: Outline) -> bool:
    return part.outline.bounds.joined(inner.bounds) == part.outline.bounds


def _raw(outline: Outline) -> tuple[float, float, float, float, float]:
    """Area, ∫u dA, ∫v dA, ∫u² dA, ∫v² dA about the origin.

    ∫u^n dA is the integral of u^(n+1)/(n+1) dv along the outline. For v the outline is turned a quarter to the right, which puts
    v where u was and keeps it counter-clockwise.
    """
    turned = [(Corner(a.y, -a.x, a.bulge), Corner(b.y, -b.x, b.bulge)) for a, b in outline.edges()]
    straight = list(outline.edges())
    along = [[math.fsum(_along(a, b, n) for a, b in edges) / n for n in (1, 2, 3)] for edges in (straight, turned)]
    return along[0][0], along[0][1], along[1][1], along[0][2], along[1][2]


def _along(a: Corner, b: Corner, n: int) -> float:
    """∫ x^n dy along an edge, n from 1 to 3."""
    if not a.bulge:
        return (b.y - a.y) * math.fsum(a.x ** (n - k) * b.x**k for k in range(n + 1)) / (n + 1)
    centre, radius = arc_centre(a, b), arc_radius(a, b)
    first = math.atan2(a.y - centre.y, a.x - centre.x)
    last = first + 4 * math.atan(a.bulge)
    cosines = [_cosine_power(last, k) - _cosine_power(first, k) for k in range(1, n + 2)]
    # (c + r cos t)^n · r cos t, multiplied out
    return radius * math.fsum(math.comb(n, k) * centre.x ** (n - k) * radius**k * cosines[k] for k in range(n + 1))


def _cosine_power(angle: float, power: int) -> float:
    """An antiderivative of cos^power, power from 1 to 4."""
    sine = math.sin(angle)
    return (
        sine,
        angle / 2 + math.sin(2 * angle) / 4,
        sine - sine**3 / 3,
        3 * angle / 8 + math.sin(2 * angle) / 4 + math.sin(4 * angle) / 32,
    )[power - 1]
