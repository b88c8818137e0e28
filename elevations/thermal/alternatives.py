"""What another spacer, gas or coating would make of a window's U-value."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from elevations.calculation import Calculation, CannotTell
from elevations.geometry.window import Window
from elevations.spec.coating import LowE
from elevations.spec.model import Glass
from elevations.thermal.edge import spacer_kind
from elevations.thermal.gases import GASES
from elevations.thermal.make_up import gas_shares
from elevations.thermal.window import NOTHING_DECLARED, Declared, window_u

OTHER_EMISSIVITY = 0.03   # of a usual coating today (common practice, no source)


@dataclass(frozen=True, slots=True)
class Alternative:
    """The same window with one thing changed in every make-up of it."""

    change: str
    u_w_m2k: float
    change_w_m2k: float
    """Against the window as it is; negative is warmer."""


def alternatives(window: Window, declared: Declared = NOTHING_DECLARED) -> tuple[Alternative, ...] | CannotTell:
    """Uw with another spacer, another gas, or a coating, one change at a time; the warmest first.

    Declared Ug and ψ are left out of the comparison where they would hide the change, on both sides of it.
    Says what is missing where the window as it is can't be told.
    """
    worked = replace(declared, u_g_w_m2k={}, psi_w_mk={})
    now = window_u(window, worked).u_w
    if isinstance(now, CannotTell):
        return now
    rows = []
    for change, panes_changed in _changes(window):
        u_w = window_u(panes_changed, worked).u_w
        if isinstance(u_w, Calculation):
            rows.append(Alternative(change, u_w.value, u_w.value - now.value))
    return tuple(sorted(rows, key=lambda row: (row.u_w_m2k, row.change)))


def _changes(window: Window) -> Iterator[tuple[str, Window]]:
    sealed = [pane.make_up for pane in window.panes if len(pane.make_up.layers) > 1]
    for kind, word in (("improved", "warm-edge"), ("metal", "aluminium")):
        if any(spacer_kind(glass.spacer) != kind for glass in sealed):
            yield f"spacer: {word}", _with_glass(window, {"spacer": word})
    for gas in GASES:
        if any(gas_shares(glass.gas) != gas_shares(gas) for glass in sealed):
            yield f"gas: {gas}", _with_glass(window, {"gas": gas})
    if any(not glass.coatings for glass in sealed):
        yield f"coatings towards the room in every cavity, emissivity {OTHER_EMISSIVITY:g}", _coated(window)
    if any(glass.coatings for glass in sealed):
        yield "no coating", _with_glass(window, {"low_e": None})


def _coated(window: Window) -> Window:
    """The window with a coating on the face of each cavity that is nearer the room: 3, and 5 in a triple unit."""
    def coatings(glass: Glass) -> dict[str, object]:
        cavities = len(glass.layers) // 2
        return {"low_e": tuple(LowE(face=2 * number + 1, emissivity=OTHER_EMISSIVITY) for number in range(1, cavities + 1))}

    return _changed_glass(window, coatings)


def _with_glass(window: Window, update: dict[str, object]) -> Window:
    """The window with something changed in every sealed unit."""
    return _changed_glass(window, lambda _: update)


def _changed_glass(window: Window, update: Callable[[Glass], dict[str, object]]) -> Window:
    lights = tuple(
        replace(light, panes=tuple(replace(pane, make_up=_changed(pane.make_up, update(pane.make_up))) for pane in light.panes))
        for light in window.lights
    )
    return replace(window, lights=lights)


def _changed(glass: Glass, update: dict[str, object]) -> Glass:
    return glass.model_copy(update=update) if len(glass.layers) > 1 else glass
