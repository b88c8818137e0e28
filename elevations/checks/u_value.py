"""How much heat the window loses, against what replaced windows and new dwellings may."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import Result, State, shown
from elevations.checks.rule import WORK, Case, Rule
from elevations.geometry.window import Pane
from elevations.thermal import Declared, WindowHeat, band, rating_index, whole_window_g, window_u

KEY = "u-value"


def check(case: Case) -> Iterator[Result]:
    """Uw against the limit for the kind of work; and the rating index, where its facts are given."""
    about, heat, work = case.about(KEY), heat_of(case), case.building.work
    index = rating(case, heat)
    if isinstance(heat.u_w, CannotTell):
        yield about.cannot_tell("U-value", *heat.u_w.needs)
    elif work is None:
        said = f"U-value {shown(heat.u_w.value, heat.u_w.unit)}; whether that is allowed: needs {WORK}"
        yield about.result(State.CANNOT_TELL, said, value=heat.u_w, needs=(WORK,))
    else:
        yield _held(case, heat.u_w, index)
    if isinstance(index, Calculation):
        yield about.note(f"rating index {shown(index.value, index.unit)}, band {band(index.value)}: an estimate, a rating is declared under a scheme", index)


def _held(case: Case, u_w: Calculation, index: Calculation | CannotTell) -> Result:
    """Where the U-value is too high, a declared rating good enough would do instead: the estimate says whether to ask for one."""
    limit = case.rules.limit(f"u-value-{case.building.work}")
    result = case.about(KEY).at_most("U-value", u_w, limit, hint="`explain … check u-value` lists what other glass or spacers would give")
    enough = case.rules.limit("rating-replacement") if case.building.work == "replacement" else None
    if result.state is State.FAIL and enough and isinstance(index, Calculation) and index.value >= enough.value:
        said = f"{result.message}; but the estimated rating index is {shown(index.value, index.unit)}, and a declared one of {enough.value:g} would do instead"
        return replace(result, state=State.WARN, message=said)
    return result


def declared(case: Case) -> Declared:
    """What the job's glass and the profile system declare."""
    glasses = {pane.glass: pane.make_up for pane in case.window.panes}
    return Declared(
        {name: glass.u_value for name, glass in glasses.items() if glass.u_value is not None},
        case.window.system.u_f_w_m2k,
        {name: glass.psi for name, glass in glasses.items() if glass.psi is not None},
    )


def heat_of(case: Case) -> WindowHeat:
    """The window's Uw with its working; what invented profiles are declared to lose is said to be invented."""
    heat, system = window_u(case.window, declared(case)), case.window.system
    if isinstance(heat.u_w, Calculation) and system.demonstration and system.u_f_w_m2k:
        assumed = (*heat.u_w.assumed, f"Uf of {system.name} is demonstration data")
        return replace(heat, u_w=replace(heat.u_w, assumed=assumed))
    return heat


def rating(case: Case, heat: WindowHeat) -> Calculation | CannotTell:
    """The rating index as an estimate; what is missing for it."""
    g_glass = _mean_g(case.window.panes)
    needs = [f"g_value of glass '{pane.glass}'" for pane in case.window.panes if pane.make_up.g_value is None]
    if case.spec.air_leakage is None:
        needs.append("air_leakage (declared heat loss by air leakage, W/m2K)")
    if isinstance(heat.u_w, CannotTell):
        needs += heat.u_w.needs
    if needs or g_glass is None or isinstance(heat.u_w, CannotTell):
        return CannotTell(tuple(dict.fromkeys(needs)))
    index = rating_index(whole_window_g(g_glass, heat.glass_share), heat.u_w.value, case.spec.air_leakage)
    if isinstance(index, CannotTell):
        return index
    first = Step("g of the glass, by visible area", g_glass, "", "job: g_value, declared")
    share = Step("glass share", heat.glass_share, "", "visible glass over the frame's area; gw = 0.9 g x share (from memory)")
    return replace(index, steps=(first, share, *index.steps), assumed=tuple(dict.fromkeys((*index.assumed, *heat.u_w.assumed))))


def _mean_g(panes: tuple[Pane, ...]) -> float | None:
    """Solar gain of the glass over the visible area; None where a make-up declares none."""
    areas = [(pane.make_up.g_value, pane.sight.outline.area) for pane in panes]
    if not areas or any(g is None for g, _ in areas):
        return None
    return sum((g or 0.0) * area for g, area in areas) / sum(area for _, area in areas)


RULE = Rule(
    KEY, "Heat", "Does the window keep the warmth in as well as it must?", check,
    {"u-value-replacement": "W/m2K", "u-value-new-dwelling": "W/m2K", "rating-replacement": "kWh/m2a"},
)
