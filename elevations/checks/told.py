"""Which finding of a window says the same as a rule's result, so that nothing is said twice."""

from __future__ import annotations

from collections.abc import Iterable

from elevations.checks.results import SAME, Result, State
from elevations.errors import Finding

LOUD = (State.FAIL, State.WARN)
"""What is said line by line; facts that are missing are gathered, and the rest is said on demand."""
Shared = tuple[Finding, list[str]]
"""A finding, and the parts of its window that share its words."""


def same_finding(result: Result, groups: Iterable[Shared]) -> Shared | None:
    """The finding that says what a result of `repeats` says of the same part, with the same value where both have one."""
    if result.state not in LOUD or not result.repeats:
        return None
    for finding, subjects in groups:
        if (finding.mark, finding.code) == (result.mark, result.repeats) and result.subject in subjects:
            measured = finding.value_mm if result.value and result.value.unit == "mm" else None
            if measured is None or (result.value and abs(measured - result.value.value) < SAME):
                return finding, subjects
    return None
