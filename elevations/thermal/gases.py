"""Gases between panes: their properties at the mean temperature of a design gap, and mixtures of them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from elevations.calculation import ImpossibleInputError


@dataclass(frozen=True, slots=True)
class Gas:
    """Properties at 10 degC (283 K) and 100 kPa."""

    density_kg_m3: float
    viscosity_pa_s: float
    conductivity_w_mk: float
    heat_capacity_j_kgk: float


GASES: Mapping[str, Gas] = {
    "air": Gas(1.232, 1.761e-5, 2.496e-2, 1008.0),
    "argon": Gas(1.699, 2.164e-5, 1.684e-2, 519.0),
    "krypton": Gas(3.560, 2.400e-5, 0.900e-2, 245.0),
}
"""EN 673:2011, table 1, 10 degC: read in a third party's copy, not in the standard; tested against CoolProp."""
GASES_SOURCE = "EN 673:2011 table 1 at 10 degC (read in a copy, not in the standard)"

FILL_SHARE = 0.9
"""Volume share of the named gas in a unit whose filling degree nobody declared: the usual declared value (from memory)."""


def filled(gas: str, share: float = FILL_SHARE) -> tuple[tuple[str, float], ...]:
    """Shares by volume of a gap filled with `gas` to `share`, the rest air: (("argon", 0.9), ("air", 0.1)).

    `share` counts from 0 to 1 and is ignored for air. Raises ImpossibleInputError for a gas without figures.
    """
    if gas not in GASES:
        raise ImpossibleInputError(f"there are no figures for a gas called '{gas}'; there are for {', '.join(GASES)}")
    return (("air", 1.0),) if gas == "air" else ((gas, share), ("air", 1.0 - share))


def mixture(shares: tuple[tuple[str, float], ...]) -> Gas:
    """Properties of a mixture, each weighed by volume share (EN 673, from memory).

    Another rule for viscosity and conductivity of mixtures (Wilke's) is said by one reader of EN 673 to be its own;
    for 90 % argon the two differ by at most 0.008 W/m2K in U, for 90 % krypton by 0.065 (computed).
    Raises ImpossibleInputError where a share is outside 0 to 1 or they don't add up to 1.
    """
    for name, share in shares:
        filled(name)
        if not 0.0 <= share <= 1.0:
            raise ImpossibleInputError(f"a gas share of {share:g} for {name}: it counts from 0 to 1")
    total = math.fsum(share for _, share in shares)
    if abs(total - 1.0) > 1e-6:
        raise ImpossibleInputError(f"the gas shares add up to {total:g}, and must add up to 1")
    parts = [(GASES[name], share) for name, share in shares]
    return Gas(
        math.fsum(gas.density_kg_m3 * share for gas, share in parts),
        math.fsum(gas.viscosity_pa_s * share for gas, share in parts),
        math.fsum(gas.conductivity_w_mk * share for gas, share in parts),
        math.fsum(gas.heat_capacity_j_kgk * share for gas, share in parts),
    )
