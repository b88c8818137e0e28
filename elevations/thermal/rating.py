"""An energy rating index of a window as an estimate: heat gained less heat lost over a heating season."""

from __future__ import annotations

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError, Step

GAIN_KWH_M2, LOSS_KWH_K_M2 = 218.6, 68.5
SOURCE = "218.6 gw − 68.5 (Uw + L), UK domestic rating (read: a trade journal's article of 2004 on window energy ratings)"
BANDS = (("A++", 20.0), ("A+", 10.0), ("A", 0.0), ("B", -10.0), ("C", -20.0))
"""Least index of each band, kWh/m2 a year (read: two trade pages that agree); below C two pages disagree, so: 'below C'."""

GLASS_SHARE_FACTOR = 0.9   # gw = 0.9 · g · glass share (from memory: no readable source found)


def whole_window_g(g_glass: float, glass_share: float) -> float:
    """Solar gain gw of the whole window from g of the glass and the glass's share of its area, all 0 to 1 (from memory)."""
    for name, value in (("g", g_glass), ("glass share", glass_share)):
        if not 0.0 <= value <= 1.0:
            raise ImpossibleInputError(f"a {name} of {value:g}: it lies between 0 and 1")
    return GLASS_SHARE_FACTOR * g_glass * glass_share


def rating_index(g_w: float | None, u_w_m2k: float | None, leakage_w_m2k: float | None) -> Calculation | CannotTell:
    """Rating index, kWh/m2 a year: an estimate only, a rating itself is declared under a scheme.

    `g_w` solar gain of the whole window, frame included (0 to 1); `u_w_m2k` its U-value; `leakage_w_m2k` its declared
    heat loss by air leakage (L). Says which of the three is missing.
    """
    words = ("the solar gain gw of the whole window", "the window's U-value", "the declared heat loss by air leakage L, in W/m2K")
    needs = tuple(word for word, value in zip(words, (g_w, u_w_m2k, leakage_w_m2k), strict=True) if value is None)
    if g_w is None or u_w_m2k is None or leakage_w_m2k is None:
        return CannotTell(needs)
    if not 0.0 <= g_w <= 1.0 or u_w_m2k <= 0 or leakage_w_m2k < 0:
        raise ImpossibleInputError("gw lies between 0 and 1, U is more than 0 and L is not negative")
    index = GAIN_KWH_M2 * g_w - LOSS_KWH_K_M2 * (u_w_m2k + leakage_w_m2k)
    steps = (
        Step("gw", g_w, "", "given"), Step("Uw", u_w_m2k, "W/m2K", "given"), Step("L", leakage_w_m2k, "W/m2K", "given"),
        Step("index", index, "kWh/m2a", SOURCE),
    )
    return Calculation(index, "kWh/m2a", steps, ("an estimate: a rating is declared under a scheme",))


def band(index: float) -> str:
    """The band of an index: 'A++' to 'C', or 'below C'."""
    return next((name for name, least in BANDS if index >= least), "below C")
