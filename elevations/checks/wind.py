"""Whether mullions and transoms stand the wind: their deflection against the class that is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from elevations.calculation import CannotTell, Step
from elevations.checks.results import Limit, Result, shown
from elevations.checks.rule import Case, Rule
from elevations.spec.wind import EN_12210, WindLoad
from elevations.structure import bars_under_wind
from elevations.structure.wind import SPAN_SHARE

KEY = "wind"
WIND = "wind (a pressure in Pa or a class of EN 12210, in building or at the window)"


def wind_of(case: Case) -> WindLoad | None:
    """The window's own wind, else the building's."""
    return case.spec.wind or case.building.wind


def check(case: Case) -> Iterator[Result]:
    """Deflection of every bar; the stiffness it needs is said with it."""
    wind = wind_of(case)
    meeting = [light for light in case.window.lights if len(light.sashes) > 1]
    for light in meeting:
        yield case.about(KEY, f"light {light.number}").cannot_tell(
            "how far its sashes bend in the wind where they meet", "the system supplier's greatest sizes and wind for two sashes that meet",
        )
    if not case.window.bars:
        if not meeting:
            yield case.about(KEY).not_applicable("no mullion or transom")
    elif wind is None:
        yield case.about(KEY).cannot_tell("deflection of its bars under wind", WIND)
    else:
        for bar in bars_under_wind(case.window, wind.pressure_pa, wind.limit):
            clause = f"EN 12210, class {bar.limit}: span / {SPAN_SHARE[bar.limit]:g} at {wind.pressure_pa:g} Pa"
            limit = Limit(bar.limit_mm, "mm", clause, "2016 edition", "read second hand", EN_12210)
            result = case.about(KEY, bar.tag).at_most("deflection under wind", bar.deflection, limit, hint="stiffer reinforcement, or a shorter span")
            needed = bar.needed_i_mm4("steel")
            said = f"{result.message} (steel alone would need I = {shown(needed, 'mm4')}; whether the profile is strong enough is not told here)"
            if not wind.limit_given and not isinstance(bar.deflection, CannotTell):
                value = replace(bar.deflection, assumed=(*bar.deflection.assumed, f"deflection class {wind.limit}: the job gives a pressure alone"))
                result = replace(result, value=value)
            bending = bar.moment.steps if result.value is None else bar.moment.steps[-1:]   # its loads are the deflection's own
            needs = Step("I that steel alone would need", needed, "mm4", "deflection just at the limit")
            yield replace(result, message=said, working=(*bending, needs))


RULE = Rule(KEY, "Wind on bars", "Do mullions and transoms stay stiff in the wind?", check, {})
