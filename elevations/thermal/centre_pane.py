"""Heat through the middle of a pane of glass, away from its edges: U by EN 673, for vertical glazing.

The formulas are from memory; what they give agrees with 119 of 120 remembered cells of EN ISO 10077-1:2006
table C.2 (tests/validation/test_centre_pane.py). Units: mm for thicknesses, W/m2K for U and h, K for temperatures.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from elevations.calculation import Calculation, ImpossibleInputError, Step
from elevations.spec.glass import CAVITY_MM
from elevations.thermal.gases import GASES_SOURCE, mixture

EN_673 = "EN 673:2011 (from memory)"

H_EXTERIOR_W_M2K = 25.0    # he, EN 673 (from memory)
H_INTERIOR_W_M2K = 7.7     # hi, EN 673, uncoated glass towards the room (from memory)
GLASS_RESISTIVITY_MK_W = 1.0   # r of soda-lime glass, EN 673 (from memory)
STEFAN_BOLTZMANN = 5.67e-8     # W/m2K4, as EN 673 rounds it (from memory); CODATA 2018 gives 5.670374e-8
MEAN_TEMPERATURE_K = 283.0     # Tm, EN 673 (from memory)
TEMPERATURE_DROP_K = 15.0      # between the outer glass faces that bound the gaps, EN 673 (from memory)
GRAVITY_M_S2 = 9.81
NUSSELT_A, NUSSELT_N = 0.035, 0.38   # vertical glazing, EN 673 (from memory)
UNCOATED_EMISSIVITY = 0.837    # corrected emissivity of plain soda-lime glass, EN 673 (from memory)

CORRECTION = (
    (0.02, 1.22), (0.05, 1.18), (0.1, 1.14), (0.2, 1.10), (0.3, 1.06), (0.4, 1.03), (0.5, 1.00), (0.6, 0.98),
    (0.7, 0.96), (0.8, 0.95), (0.89, 0.94),
)  # fmt: skip
"""Normal emissivity and the ratio of corrected to normal, linear between (EN 12898, from memory).

Another recollection has 1.22 at 0.03: that would raise Ug of 4-16-4 with argon and ε 0.03 by 0.0013 W/m2K.
"""

SETTLED_K = 1e-12
MOST_ROUNDS = 100


@dataclass(frozen=True, slots=True)
class Gap:
    """A space between two panes: width in mm, and what fills it, by volume share: (("argon", 0.9), ("air", 0.1))."""

    width_mm: float
    shares: tuple[tuple[str, float], ...] = (("air", 1.0),)


@dataclass(frozen=True, slots=True)
class GapHeat:
    """How one gap lets heat through."""

    gap: Gap
    emissivities: tuple[float, float]
    """Corrected, of the faces towards outside and towards the room."""
    temperature_drop_k: float
    nusselt: float
    h_gas_w_m2k: float
    h_radiation_w_m2k: float

    @property
    def h_w_m2k(self) -> float:
        """Heat through the gap: hs = hg + hr."""
        return self.h_gas_w_m2k + self.h_radiation_w_m2k


@dataclass(frozen=True, slots=True)
class CentrePane:
    """U of the middle of a pane and what made it."""

    u_w_m2k: float
    panes_mm: tuple[float, ...]
    gaps: tuple[GapHeat, ...]

    @property
    def calculation(self) -> Calculation:
        """The record that `explain` prints."""
        steps = [Step("he", H_EXTERIOR_W_M2K, "W/m2K", EN_673), Step("hi", H_INTERIOR_W_M2K, "W/m2K", EN_673)]
        for number, heat in enumerate(self.gaps, 1):
            fill = " + ".join(f"{share:.0%} {name}" for name, share in heat.gap.shares)
            steps += [
                Step(f"s{number}", heat.gap.width_mm, "mm", f"make-up; {fill}"),
                Step(f"ε{number} towards outside", heat.emissivities[0], "", "EN 12898 correction (from memory)"),
                Step(f"ε{number} towards the room", heat.emissivities[1], "", "EN 12898 correction (from memory)"),
                Step(f"ΔT{number}", heat.temperature_drop_k, "K", EN_673),
                Step(f"hr{number}", heat.h_radiation_w_m2k, "W/m2K", EN_673),
                Step(f"Nu{number}", heat.nusselt, "", f"{EN_673}; gas: {GASES_SOURCE}"),
                Step(f"hg{number}", heat.h_gas_w_m2k, "W/m2K", EN_673),
                Step(f"hs{number} = hg{number} + hr{number}", heat.h_w_m2k, "W/m2K", EN_673),
            ]
        steps.append(Step("Σd", sum(self.panes_mm), "mm", f"make-up; r = {GLASS_RESISTIVITY_MK_W:g} mK/W, {EN_673}"))
        steps.append(Step("Ug, 1/Ug = 1/he + Σ(1/hs) + Σ(d·r) + 1/hi", self.u_w_m2k, "W/m2K", EN_673))
        return Calculation(self.u_w_m2k, "W/m2K", tuple(steps))


def corrected_emissivity(normal: float) -> float:
    """Corrected (hemispherical) emissivity from a normal one, both 0 to 1 (EN 12898 by way of EN 673, from memory).

    Raises ImpossibleInputError outside 0 to 1, both excluded: no surface is a perfect mirror or more than black.
    """
    if not 0.0 < normal < 1.0:
        raise ImpossibleInputError(f"an emissivity of {normal:g}: it lies between 0 and 1")
    if normal <= CORRECTION[0][0]:
        return normal * CORRECTION[0][1]
    for (low, at_low), (high, at_high) in pairwise(CORRECTION):
        if normal <= high:
            return normal * (at_low + (at_high - at_low) * (normal - low) / (high - low))
    return normal * CORRECTION[-1][1]


def radiation_h(outer: float, inner: float) -> float:
    """Radiation between two faces: hr, W/m2K, from their corrected emissivities (EN 673, from memory)."""
    return 4 * STEFAN_BOLTZMANN * MEAN_TEMPERATURE_K**3 / (1 / outer + 1 / inner - 1)


def gas_nusselt(gap: Gap, temperature_drop_k: float) -> float:
    """Nu of a vertical gap: at least 1, where the gas only conducts (EN 673, from memory)."""
    gas, s = mixture(gap.shares), gap.width_mm / 1000
    grashof = (
        GRAVITY_M_S2 * s**3 * temperature_drop_k * gas.density_kg_m3**2 / (MEAN_TEMPERATURE_K * gas.viscosity_pa_s**2)
    )
    prandtl = gas.viscosity_pa_s * gas.heat_capacity_j_kgk / gas.conductivity_w_mk
    return float(max(1.0, NUSSELT_A * (grashof * prandtl) ** NUSSELT_N))


def centre_pane_u(
    panes_mm: tuple[float, ...], gaps: tuple[Gap, ...] = (), coatings: Mapping[int, float] | None = None
) -> CentrePane:
    """U of a vertical pane away from its edges, W/m2K, by EN 673 (from memory); single, double, triple or more.

    `panes_mm` from outside; `gaps` between them; `coatings` the normal emissivity by face number, counted from
    outside: faces 2 and 3 bound the first gap. Raises ImpossibleInputError for thicknesses, gaps or emissivities that
    cannot be, and for a coating on an outermost face, which this method does not cover.
    """
    coatings = coatings or {}
    _refuse_impossible(panes_mm, gaps, coatings)
    faces = [
        tuple(corrected_emissivity(coatings[f]) if f in coatings else UNCOATED_EMISSIVITY for f in (2 * i + 2, 2 * i + 3))
        for i in range(len(gaps))
    ]
    heats = _settled(gaps, [(outer, inner) for outer, inner in faces])
    r_glass = GLASS_RESISTIVITY_MK_W * sum(panes_mm) / 1000
    r_total = 1 / H_EXTERIOR_W_M2K + sum(1 / heat.h_w_m2k for heat in heats) + r_glass + 1 / H_INTERIOR_W_M2K
    return CentrePane(1 / r_total, tuple(panes_mm), tuple(heats))


def _settled(gaps: tuple[Gap, ...], faces: list[tuple[float, float]]) -> list[GapHeat]:
    """The gaps with the whole drop shared in proportion to their resistances; iterated until it stands still."""
    drops = [TEMPERATURE_DROP_K / len(gaps) for _ in gaps]
    heats = [_gap_heat(*each) for each in zip(gaps, faces, drops, strict=True)]
    for _ in range(MOST_ROUNDS):
        resistance = sum(1 / heat.h_w_m2k for heat in heats)
        shared = [TEMPERATURE_DROP_K / heat.h_w_m2k / resistance for heat in heats]
        moved = max((abs(new - old) for new, old in zip(shared, drops, strict=True)), default=0.0)
        if moved < SETTLED_K:
            return heats
        drops = shared
        heats = [_gap_heat(*each) for each in zip(gaps, faces, drops, strict=True)]
    raise ArithmeticError("the temperature drops of the gaps do not settle")


def _gap_heat(gap: Gap, faces: tuple[float, float], drop: float) -> GapHeat:
    nusselt = gas_nusselt(gap, drop)
    h_gas = nusselt * mixture(gap.shares).conductivity_w_mk / (gap.width_mm / 1000)
    return GapHeat(gap, faces, drop, nusselt, h_gas, radiation_h(*faces))


def _refuse_impossible(panes_mm: tuple[float, ...], gaps: tuple[Gap, ...], coatings: Mapping[int, float]) -> None:
    if len(panes_mm) != len(gaps) + 1:
        raise ImpossibleInputError(f"{len(panes_mm)} panes have {len(panes_mm) - 1} gaps between them, not {len(gaps)}")
    for pane in panes_mm:
        if not (math.isfinite(pane) and pane > 0):
            raise ImpossibleInputError(f"a pane {pane:g} mm thick: a thickness is more than 0")
    for gap in gaps:
        if not (math.isfinite(gap.width_mm) and gap.width_mm >= CAVITY_MM[0]):
            raise ImpossibleInputError(f"a gap of {gap.width_mm:g} mm: a sealed unit's is at least {CAVITY_MM[0]:g} mm")
        mixture(gap.shares)
    for face, emissivity in coatings.items():
        if not 2 <= face <= 2 * len(gaps) + 1:
            raise ImpossibleInputError(f"a coating on face {face}: only faces towards a gap can be worked out")
        corrected_emissivity(emissivity)
