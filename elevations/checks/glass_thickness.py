"""Whether panes are thick enough for the wind: only by their supplier's word, for no sourced formula is at hand."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import Limit, Result
from elevations.checks.rule import Case, Rule
from elevations.checks.wind import WIND, wind_of
from elevations.geometry.window import Pane
from elevations.spec.model import Glass
from elevations.structure import pane_estimate

KEY = "glass-thickness"


def check(case: Case) -> Iterator[Result]:
    """Each make-up by the pressure that its supplier declares it for."""
    wind, makes = wind_of(case), {pane.glass: pane.make_up for pane in case.window.panes}
    for name, glass in makes.items():
        about = case.about(KEY, f"glass '{name}'")
        needs = [*([] if wind else [WIND]), *([] if glass.wind_load else [f"wind_load of glass '{name}' (Pa, declared by its supplier for these sizes)"])]
        if wind is None or glass.wind_load is None:
            yield about.cannot_tell("whether its panes are thick enough", *needs)
            continue
        limit = Limit(wind.pressure_pa, "Pa", f"wind given as {wind.given}", "", "declared", "job: wind")
        yield about.at_least("declared wind load", _declared(glass, _largest(case, name), wind.pressure_pa), limit, hint="thicker panes")


def _largest(case: Case, name: str) -> Pane:
    return max((pane for pane in case.window.panes if pane.glass == name), key=lambda pane: pane.area_m2)


def _declared(glass: Glass, largest: Pane, pressure_pa: float) -> Calculation:
    """The declared load; beside it what the largest pane would do, as an estimate that decides nothing."""
    load = glass.wind_load or 0.0
    steps = [Step("declared for", load, "Pa", "job: wind_load")]
    estimate = pane_estimate(largest, pressure_pa)
    if not isinstance(estimate, CannotTell):
        for number, layer in enumerate(estimate.layers, 1):
            steps.append(Step(f"estimate only: deflection of pane {number} of {largest.tag}", layer.deflection_mm, "mm", "small-deflection plate theory"))
    return Calculation(load, "Pa", tuple(steps))


RULE = Rule(KEY, "Glass thickness", "Are the panes thick enough for the wind?", check, {})
