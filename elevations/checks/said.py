"""What the checks found, in words: for the terminal, for the factory's sheet, for the customer's page; and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks import RULES
from elevations.checks.results import CAUTION, UNITS, Limit, Result, State, shown
from elevations.checks.rule import Rules
from elevations.checks.run import Checked, counts, job_u
from elevations.checks.told import LOUD, same_finding
from elevations.errors import shared_findings
from elevations.thermal import WindowHeat

MOST_NAMED = 6


def result_lines(result: Result) -> Iterator[str]:
    """A result: its state, what it is about, and below it where the limit comes from and what was assumed."""
    about = " ".join(part for part in (result.mark, result.subject) if part)
    yield f"{result.state}: {about}, {result.rule}: {result.message}"
    if result.limit:
        yield f"    = rule: {result.limit.words}"
    for text in result.assumed:
        yield f"    = assumed: {text}"
    if result.hint:
        yield f"    = hint: {result.hint}"


def _named(names: Iterable[str]) -> str:
    unique = list(dict.fromkeys(names))
    more = f" and {len(unique) - MOST_NAMED} more" if len(unique) > MOST_NAMED else ""
    return ", ".join(unique[:MOST_NAMED]) + more


def count_words(results: Iterable[Result]) -> str:
    """'2 fail, 1 warn, 9 can't tell, 3 for information, 30 pass'."""
    said = {State.NOTE: "for information"}
    return ", ".join(f"{count} {said.get(state, state)}" for state, count in counts(results).items()) or "none"


def result_data(result: Result) -> dict[str, Any]:
    """The result in plain data; value and limit carry their unit beside them."""
    value, limit = result.value, result.limit
    return {
        "rule": result.rule,
        "mark": result.mark,
        "subject": result.subject,
        "state": str(result.state),
        "message": result.message,
        "value": None if value is None else round(value.value, 6),
        "unit": value.unit if value else limit.unit if limit else "",
        "sense": result.sense,
        "limit": None if limit is None else limit_data(limit),
        "needs": list(result.needs),
        "assumed": list(result.assumed),
        "hint": result.hint,
        "repeats": result.repeats or None,
    }


def limit_data(limit: Limit) -> dict[str, Any]:
    """A limit with where it comes from and how sure it is."""
    return {
        "value": limit.value, "unit": limit.unit, "clause": limit.clause, "edition": limit.edition, "sure": limit.sure, "source": limit.source,
    }


def job_data(windows: Sequence[Checked], rules: Rules) -> dict[str, Any]:
    """What stands beside the results: the rules, totals, U-values, cautions."""
    u_w = job_u(windows)
    return {
        "rules": {"name": rules.name, "title": rules.title, "caution": rules.caution},
        "totals": {str(state): count for state, count in counts(r for w in windows for r in w.results).items()},
        "u_values": [{"mark": w.case.window.mark, **_u_data(w.heat)} for w in windows],
        "job_u_w_m2k": round(u_w.value, 4) if isinstance(u_w, Calculation) else None,
        "caution": CAUTION,
    }


def _u_data(heat: WindowHeat) -> dict[str, Any]:
    known = isinstance(heat.u_w, Calculation)
    return {
        "u_w_m2k": round(heat.u_w.value, 4) if isinstance(heat.u_w, Calculation) else None,
        "area_m2": round(heat.area_m2, 4), "glass_share": round(heat.glass_share, 4),
        "assumed": list(heat.u_w.assumed) if known and isinstance(heat.u_w, Calculation) else [],
        "needs": list(heat.u_w.needs) if isinstance(heat.u_w, CannotTell) else [],
    }


def factory_words(window: Checked) -> list[str]:
    """A few lines for the factory's sheet: what is not met of what it makes, the worst first, how the bars stand, what can't be told.

    What the sheet says as a finding of the window is left to it.
    """
    groups = list(shared_findings(window.case.window.findings))
    loud = [r for state in LOUD for r in window.results if r.state is state and r.rule in FOR_FACTORIES and same_finding(r, groups) is None]
    lines = [f"{r.state}: {r.subject or window.case.window.mark}, {r.message}" for r in loud]
    bars = [r for r in window.results if r.rule == "wind" and r.state is State.PASS and r.value and r.limit]
    lines += [f"{r.state}: {r.subject}, {r.message.split(' (')[0]}, {r.limit.clause}" for r in bars if r.limit]
    unknown = [r for r in window.results if r.state is State.CANNOT_TELL and r.rule in FOR_FACTORIES]
    if unknown:
        lines.append(f"can't tell, for want of facts: {_named(RULES[r.rule].title.lower() for r in unknown)}")
    return lines


def customer_words(window: Checked) -> list[str]:
    """What the customer should know, without terms: how warm the window is, and what is still to be settled."""
    u_w = window.heat.u_w
    lines = []
    if isinstance(u_w, Calculation):
        lines.append(f"Warmth: U-value {shown(u_w.value, u_w.unit)}; the lower, the warmer.")
    for state, words in {State.FAIL: "does not meet", State.WARN: "may not meet"}.items():
        about = list(dict.fromkeys(FOR_CUSTOMERS[r.rule] for r in window.results if r.state is state and r.rule in FOR_CUSTOMERS))
        if about:
            lines.append(f"To be settled with you: as drawn, the window {words} the usual figures for {' and '.join(about)}.")
    return lines


def customer_heat(window: Checked) -> str:
    """The same of heat in a few words, for a small place; empty where it can't be told."""
    u_w = window.heat.u_w
    return f"U-value {shown(u_w.value, u_w.unit)}, worked out: the lower, the warmer" if isinstance(u_w, Calculation) else ""


ESTIMATES = (
    "A U-value says about how many watts go out through each square metre for every degree that it is colder outside than inside: "
    "the lower, the warmer. It is worked out here and not measured. It and what is to be settled are estimates to help you choose: "
    "whether the window is allowed, your building authority or a licensed professional decides."
)
FOR_FACTORIES = ("wind", "glass-thickness", "glass-weight", "sash-limits", "glass-edges", "fixings", "safety-glass")
FOR_CUSTOMERS = {
    "escape": "getting out in a fire", "safety-glass": "safety glass", "guarding": "keeping people from falling out",
    "vents": "fresh air while it is shut", "purge": "airing the room quickly", "u-value": "warmth",
}
"""What customers are told of, in their words."""


def explained(results: Sequence[Result]) -> Iterator[str]:
    """The working of every value of these results, step by step."""
    for result in results:
        yield from result_lines(result)
        for step in _steps(result):
            yield f"      {step.symbol:<44}  {_figure(step):>16}  {step.source}"
        yield ""


def _steps(result: Result) -> tuple[Step, ...]:
    return (*(result.value.steps if result.value else ()), *result.working)


def _figure(step: Step) -> str:
    number = f"{step.value:,.0f}" if abs(step.value) >= 1e4 else f"{step.value:.5g}"
    return f"{number} {UNITS.get(step.unit, step.unit)}".strip()
