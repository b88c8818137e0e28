"""What may be made: a window whose approval holds, or one that somebody lets through, with a warning on its sheet."""

from __future__ import annotations

from collections.abc import Iterable

from elevations.approval.state import State
from elevations.errors import Problem, SpecError

WARNING = "NOT APPROVED: not to be made from"
OVERRIDE = "--unapproved"


def hold_back(states: Iterable[tuple[str, State]]) -> None:
    """Raise SpecError with every window, by its mark, whose approval does not hold."""
    problems = [_refused(mark, state) for mark, state in states if not state.holds]
    if problems:
        raise SpecError(problems)


def warning(state: State) -> str:
    """What stands across the top of a sheet that was let through; empty where the approval holds."""
    return "" if state.holds else f"{WARNING} ({state.words})" if state.approval else WARNING


def _refused(mark: str, state: State) -> Problem:
    what = "has changed since it was approved" if state.approval else "is not approved"
    return Problem(
        "not-approved", f"window {mark} {what}",
        f"`elevations approve` records an approval; {OVERRIDE} draws it all the same and says so on the sheet",
    )
