"""From a glass make-up of the job to its centre-pane U-value, or to the facts that are missing for it."""

from __future__ import annotations

import re

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError, Step
from elevations.spec.model import Glass
from elevations.thermal.centre_pane import Gap, centre_pane_u
from elevations.thermal.gases import FILL_SHARE, GASES, filled

_GAS_TEXT = re.compile(r"(?P<name>[a-z]+)(?: (?P<percent>[0-9]{1,3}(?:\.[0-9]+)?) ?%?)?")


def gas_shares(text: str) -> tuple[tuple[str, float], ...] | None:
    """What fills a cavity, by volume, from the spec's word: 'argon' (90 % of it), 'argon 85 %', 'air'.

    None where the text is no gas that there are figures for.
    """
    found = _GAS_TEXT.fullmatch(text.strip().lower())
    if not found or found["name"] not in GASES:
        return None
    share = float(found["percent"]) / 100 if found["percent"] else FILL_SHARE
    return filled(found["name"], share) if share <= 1.0 else None


def make_up_u(glass: Glass, declared_w_m2k: float | None = None) -> Calculation | CannotTell:
    """Ug of a make-up, W/m2K: the maker's declared value where there is one, else EN 673 (from memory).

    Panes are taken as plain soda-lime glass; the film of laminated glass and patterns are left out, which changes
    U by less than 0.05 W/m2K in a sealed unit. Says which facts are missing: gas, or the coating's emissivity.
    """
    if declared_w_m2k is not None:
        if declared_w_m2k <= 0:
            raise ImpossibleInputError(f"a declared Ug of {declared_w_m2k:g}: it is more than 0")
        return Calculation(declared_w_m2k, "W/m2K", (Step("Ug", declared_w_m2k, "W/m2K", "declared"),))
    panes, cavities = glass.layers[::2], glass.layers[1::2]
    needs, shares = _missing(glass), gas_shares(glass.gas)
    if needs:
        return CannotTell(tuple(needs))
    coatings = {coating.face: coating.emissivity for coating in glass.coatings if coating.emissivity}
    worked = centre_pane_u(panes, tuple(Gap(width, shares or ()) for width in cavities), coatings).calculation
    return Calculation(worked.value, worked.unit, worked.steps, tuple(_assumed(glass)))


def _missing(glass: Glass) -> list[str]:
    """Facts without which EN 673 gives nothing for this make-up."""
    needs, faces = [], 2 * len(glass.layers[::2])
    if len(glass.layers) > 1 and not glass.gas:
        needs.append(f"the gas in the cavity of {glass.make_up} (gas: air, argon or krypton)")
    elif len(glass.layers) > 1 and gas_shares(glass.gas) is None:
        needs.append(f"figures for the gas '{glass.gas}' (there are some for {', '.join(GASES)})")
    for coating in glass.coatings:
        if coating.face in {1, faces}:
            needs.append(f"a declared Ug (u_value): the coating on face {coating.face} of {glass.make_up} faces no cavity")
        elif coating.emissivity is None:
            needs.append(f"the normal emissivity of the coating on {glass.make_up} (low_e: {{face: {coating.face}, emissivity: …}})")
    return needs


def _assumed(glass: Glass) -> list[str]:
    assumed = []
    if len(glass.layers) > 1:
        if not glass.coatings:
            assumed.append(f"{glass.make_up}: no coating")
        if glass.gas.strip().lower() in set(GASES) - {"air"}:
            assumed.append(f"{glass.make_up}: {FILL_SHARE:.0%} {glass.gas.strip().lower()}, the rest air")
    return assumed
