"""All rules on a window, and what is said of a whole job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from elevations.calculation import Calculation, CannotTell
from elevations.checks import RULES
from elevations.checks.results import Result, State
from elevations.checks.rule import Case, Rules
from elevations.checks.u_value import heat_of
from elevations.geometry.window import Window
from elevations.spec.model import Job
from elevations.thermal import WindowHeat, area_weighted_u


@dataclass(frozen=True, slots=True)
class Checked:
    """One window with all its results, rule by rule."""

    case: Case
    results: tuple[Result, ...]
    heat: WindowHeat


def case_of(job: Job, window: Window, rules: Rules) -> Case | None:
    """A window with what was asked for it; None where `job` does not hold it, as a job whose windows were taken out."""
    spec = next((spec for spec in job.windows if spec.mark == window.mark), None)
    return None if spec is None else Case(window, spec, job.building, rules)


def cases(job: Job, windows: Iterable[Window], rules: Rules) -> Iterator[Case]:
    """Each window with what was asked for it; `job` is whole, with its windows."""
    for window in windows:
        case = case_of(job, window, rules)
        if case is not None:
            yield case


def checked(case: Case) -> Checked:
    """A window under every rule."""
    results = tuple(result for rule in RULES.values() for result in rule.check(case))
    return Checked(case, results, heat_of(case))


def counts(results: Iterable[Result]) -> dict[State, int]:
    """How many results there are of each state, in the order of State; states without any are left out."""
    found = [result.state for result in results]
    return {state: found.count(state) for state in State if state in found}


def job_u(windows: Sequence[Checked]) -> Calculation | CannotTell:
    """U of all the windows together, weighed by area."""
    return area_weighted_u([window.heat for window in windows])


def missing_facts(results: Iterable[Result]) -> dict[str, list[Result]]:
    """What waits for each missing fact, in the order in which facts are first missed."""
    facts: dict[str, list[Result]] = {}
    for result in results:
        for need in result.needs:
            facts.setdefault(need, []).append(result)
    return facts
