"""What `check` prints: the worst first, each thing once, then the facts that are missing by where they are given."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from elevations.calculation import Calculation
from elevations.checks import RULES
from elevations.checks.results import CAUTION, Result, State, shown
from elevations.checks.rule import Rules
from elevations.checks.run import Checked, job_u, missing_facts
from elevations.checks.said import count_words, result_lines
from elevations.checks.told import LOUD, Shared, same_finding
from elevations.errors import Finding, shared_findings
from elevations.spelling import counted

MOST_NAMED = 8
PLACES = {
    "once for the job, under `building:`": ("building:", "wind ("),
    "at each window": ("floor_to_opening", "room:", "storey", "near", "drop", "guard", "old_vent", "which of its windows"),
    "at its lights": ("vent of", "opens_to of", "clear_opening", "restrictor_releases", "how far its restrictor"),
    "at the glass, or from its maker": (
        "the gas", "figures for the gas", "the spacer", "a declared ψ", "a declared Ug", "the normal emissivity", "wind_load", "impact_class",
        "the supplier's word", "a declared glass thickness", "a supplier's figures",
    ),
    "in the profile system's file, from its maker": (
        "a declared Uf", "kg_per_m", "hardware for", "the section outline", "the modulus of elasticity", "the system supplier's",
    ),
}
"""Where a missing fact is given, and how the words for it begin."""
ELSEWHERE = "from whoever answers for it"


def text_lines(windows: Sequence[Checked], rules: Rules, findings: Sequence[Finding] = (), *, everything: bool) -> Iterator[str]:
    """Everything for people. A finding that a rule fails for too is said once, as that failing."""
    results = [result for window in windows for result in window.results]
    groups = list(shared_findings(findings))
    told = {id(result): group for result in results if (group := same_finding(result, groups)) is not None}
    for state in State if everything else LOUD:
        for result in results:
            if result.state is state:
                yield from result_lines(_in_its_words(result, told.get(id(result))))
        if state is State.FAIL:
            yield from _finding_lines(group for group in groups if group not in told.values())
    if not everything:
        yield from _missing_lines(results, [window.case.window.mark for window in windows])
    u_w = job_u(windows)
    if isinstance(u_w, Calculation) and len(windows) > 1:
        yield f"U-value of all {len(windows)} windows together, by area: {shown(u_w.value, u_w.unit)}"
    yield f"checks by the figures of {rules.title}: {count_words(results)}"
    yield CAUTION


def _in_its_words(result: Result, told: Shared | None) -> Result:
    """The result as the finding says it, which knows how it came about and where else it is so."""
    if told is None:
        return result
    finding, subjects = told
    others = ", ".join(subject for subject in subjects if subject != result.subject)
    also = f"; the same at its {others}" if others else ""
    return replace(result, message=f"{finding.message}{also}", hint=finding.hint or result.hint)


def _finding_lines(groups: Iterable[Shared]) -> Iterator[str]:
    """Each once, with the windows that share its words and its parts."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for finding, subjects in groups:
        alike.setdefault((", ".join(subjects), finding.message, finding.rule, finding.hint), []).append(finding.mark)
    for (subjects_said, message, rule, hint), marks in alike.items():
        yield f"finding: {_listed(marks)} {subjects_said}: {message}"
        yield from (f"    = {word}: {text}" for word, text in (("rule", rule), ("hint", hint)) if text)


def _missing_lines(results: Sequence[Result], marks: Sequence[str]) -> Iterator[str]:
    """Each missing fact once, under where it is given: first what the gravest rules wait for."""
    facts = missing_facts(results)
    if facts:
        yield f"can't tell, for want of {counted(len(facts), 'fact')}:"
    order = list(RULES)
    gravest = sorted(facts, key=lambda need: min(order.index(result.rule) for result in facts[need]))
    for place in (*PLACES, ELSEWHERE):
        here = [need for need in gravest if _place(need) == place]
        if here:
            yield f"  {place}:"
        for need in here:
            yield f"    {need}"
            yield f"      = for: {_waiting(facts[need], marks)}"


def _place(need: str) -> str:
    return next((place for place, starts in PLACES.items() if need.startswith(starts)), ELSEWHERE)


def _waiting(results: Iterable[Result], marks: Sequence[str]) -> str:
    """'vents, u-value of all 8 windows; escape of W4': rules that wait at the same windows together."""
    at: dict[str, list[str]] = {}
    for result in results:
        seen = at.setdefault(result.rule, [])
        if result.mark not in seen:
            seen.append(result.mark)
    together: dict[tuple[str, ...], list[str]] = {}
    for rule, windows in at.items():
        together.setdefault(tuple(windows), []).append(rule)
    return "; ".join(f"{', '.join(rules)} of {_named(windows, len(marks))}" for windows, rules in together.items())


def _named(windows: Sequence[str], all_of_them: int) -> str:
    if len(windows) == all_of_them > 2:
        return f"all {all_of_them} windows"
    return _listed(windows)


def _listed(windows: Sequence[str]) -> str:
    more = f" and {len(windows) - MOST_NAMED} more" if len(windows) > MOST_NAMED else ""
    return ", ".join(windows[:MOST_NAMED]) + more
