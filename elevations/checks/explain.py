"""`explain JOB W1 check u-value`: the working of every value that a rule looked at in one window."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from elevations.calculation import CannotTell
from elevations.checks import RULES
from elevations.checks.results import CAUTION, Result, shown
from elevations.checks.rule import Case
from elevations.checks.said import explained, result_data
from elevations.checks.u_value import KEY as HEAT
from elevations.checks.u_value import declared
from elevations.schedules.explain import UnknownNameError
from elevations.spelling import did_you_mean
from elevations.thermal import Alternative, alternatives


def results_of(case: Case, rule: str) -> tuple[Result, ...]:
    """Every result of one rule. Raises UnknownNameError for a rule that there is not."""
    if rule not in RULES:
        raise UnknownNameError(
            f"there is no check '{rule[:60]}'", did_you_mean(rule, RULES) or f"there are {', '.join(RULES)}"
        )
    return tuple(RULES[rule].check(case))


def as_text(case: Case, rule: str) -> str:
    """For people: the question, each result with its working, and for heat what another glass or spacer would give."""
    lines = [f"{case.window.mark} {rule}: {RULES[rule].asks if rule in RULES else ''}", ""]
    lines += explained(results_of(case, rule))
    if rule == HEAT:
        lines += _alternative_lines(case)
    return "\n".join([*lines, CAUTION]) + "\n"


def as_data(case: Case, rule: str) -> dict[str, Any]:
    """The same in plain data."""
    results = [
        {**result_data(result), "steps": [step._asdict() for step in (*(result.value.steps if result.value else ()), *result.working)]}
        for result in results_of(case, rule)
    ]
    more = {"alternatives": [_alternative_data(row) for row in _alternatives(case)]} if rule == HEAT else {}
    return {"mark": case.window.mark, "rule": rule, "asks": RULES[rule].asks, "results": results, **more, "caution": CAUTION}


def _alternatives(case: Case) -> tuple[Alternative, ...]:
    found = alternatives(case.window, declared(case))
    return () if isinstance(found, CannotTell) else found


def _alternative_lines(case: Case) -> Iterator[str]:
    rows = _alternatives(case)
    if rows:
        yield "With one thing changed, all else worked out and nothing declared for glass or its edges:"
    for row in rows:
        sign = "+" if row.change_w_m2k > 0 else "−" if row.change_w_m2k < 0 else ""
        yield f"      {row.change:<44}  {shown(row.u_w_m2k, 'W/m2K'):>16}  {sign}{abs(row.change_w_m2k):.2f}"
    if rows:
        yield ""


def _alternative_data(row: Alternative) -> dict[str, Any]:
    return {"change": row.change, "u_w_m2k": round(row.u_w_m2k, 4), "change_w_m2k": round(row.change_w_m2k, 4)}
