"""Panes under wind as an estimate: small-deflection plate theory and load sharing through the sealed gas.

ESTIMATE ONLY. No strength of glass is known here, and the standard for glass thickness (EN 16612) was not available:
whether a pane is thick enough can't be told from these figures. A pane that bends by more than its thickness is
stiffer than this says.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from elevations.calculation import CannotTell, ImpossibleInputError
from elevations.geometry.window import Pane
from elevations.structure.materials import E_N_MM2
from elevations.structure.wind import N_MM2_PER_PA

POISSON_GLASS = 0.22   # from memory; handbook tables are for 0.3, national glass standards use 0.23
AIR_PRESSURE_N_MM2 = 0.1   # p0 of the sealed gas, 100 kPa (rounded, from memory)
SERIES_TERMS = 60   # odd terms; the bending series falls off with m^3, so the rest is below 1e-6 of it


@dataclass(frozen=True, slots=True)
class PlateFigures:
    """Of a simply supported rectangular plate under uniform load, at its middle, without units.

    Handbook form, a the short side: y = alpha·q·a⁴/(E·t³), σ = beta·q·a²/t².
    """

    alpha: float
    beta: float
    volume: float
    """B: mean deflection over the plate = volume·q·a⁴/(E·t³)."""


@dataclass(frozen=True, slots=True)
class LayerEstimate:
    """One pane of a unit: its share of the pressure, deflection and bending stress at its middle."""

    thickness_mm: float
    share: float
    deflection_mm: float
    stress_n_mm2: float


@dataclass(frozen=True, slots=True)
class PaneEstimate:
    """A whole unit, outer pane first. An estimate only: `enough` is never more than 'can't tell'."""

    tag: str
    pressure_pa: float
    layers: tuple[LayerEstimate, ...]
    enough: CannotTell


NO_STRENGTH = CannotTell((
    "a declared glass thickness or strength from the supplier, by EN 16612 or the local code",
))


def plate_figures(ratio: float, poisson: float = POISSON_GLASS) -> PlateFigures:
    """Figures of a plate whose long side is `ratio` times its short side (1 or more), simply supported all round.

    Lévy's single series for small deflections (Timoshenko and Woinowsky-Krieger, from memory; worked out again here
    for the bending moments and the mean). Raises ImpossibleInputError for a ratio below 1.
    """
    if not (math.isfinite(ratio) and ratio >= 1.0):
        raise ImpossibleInputError(f"a side ratio of {ratio:g}: the long side over the short side is at least 1")
    deflection = bend_short = bend_long = mean = 0.0
    for m in range(1, 2 * SERIES_TERMS, 2):
        half = m * math.pi * ratio / 2
        tanh, sech = math.tanh(half), 2 * math.exp(-half) / (1 + math.exp(-2 * half))
        lift = (half * tanh + 2) / 2   # times sech: what the long ends take off the middle
        sign = (-1) ** ((m - 1) // 2)
        deflection += sign / m**5 * (1 - lift * sech)
        bend_short += sign / m**3 * (1 - lift * sech)
        bend_long += sign / m**3 * (lift - 1) * sech
        mean += 2 / (m**6 * math.pi) * (1 - lift * tanh / half + (1 - tanh / half) / 2)
    rigidity = 12 * (1 - poisson**2)   # E·t³/D
    alpha = 4 / math.pi**5 * rigidity * deflection
    moment = 4 / math.pi**3 * max(bend_short + poisson * bend_long, bend_long + poisson * bend_short)
    return PlateFigures(alpha, 6 * moment, 4 / math.pi**5 * rigidity * mean)


def loaded_pane_share(short_mm: float, long_mm: float, loaded_mm: float, gap_mm: float, other_mm: float) -> float:
    """Share of a pressure on one pane of a sealed double unit that this pane keeps; the gas hands on the rest.

    From p0·V = const and small deflections (derived for this project, from no standard): K = p0·B·a⁴/(E·d³·s) for
    each pane, and the other one takes K_loaded / (1 + K_loaded + K_other). Estimate only.
    """
    figures = plate_figures(long_mm / short_mm)
    scale = AIR_PRESSURE_N_MM2 * figures.volume * short_mm**4 / (E_N_MM2["glass"] * gap_mm)
    loaded, other = scale / loaded_mm**3, scale / other_mm**3
    return 1 - loaded / (1 + loaded + other)


def pane_estimate(pane: Pane, pressure_pa: float) -> PaneEstimate | CannotTell:
    """Deflection and stress of each pane of a unit under wind from outside: an estimate, no check of its strength.

    Takes the cut size as the span, which errs on the safe side. Laminated glass counts as solid of its whole
    thickness, which does not: so it and triple units can't be told, as no sourced formula covers them.
    """
    if not pressure_pa > 0:
        raise ImpossibleInputError(f"a wind pressure of {pressure_pa:g} Pa: it is more than 0")
    panes, gaps = pane.make_up.layers[::2], pane.make_up.layers[1::2]
    if len(panes) > 2 or pane.make_up.laminated or len(pane.cut.outline.corners) != 4 or any(c.bulge for c in pane.cut.outline.corners):
        return CannotTell(("a supplier's figures: triple, laminated and shaped units are not covered here",))
    short, long = sorted((pane.width.value, pane.height.value))
    share = loaded_pane_share(short, long, panes[0], gaps[0], panes[1]) if gaps else 1.0
    figures, q = plate_figures(long / short), pressure_pa * N_MM2_PER_PA
    layers = tuple(
        LayerEstimate(
            t, part, figures.alpha * part * q * short**4 / (E_N_MM2["glass"] * t**3), figures.beta * part * q * short**2 / t**2
        )
        for t, part in zip(panes, (share, 1 - share), strict=False)
    )
    return PaneEstimate(pane.tag, pressure_pa, layers, NO_STRENGTH)
