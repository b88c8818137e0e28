"""Whether somebody could fall out: low openings and low glass above a drop."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.hanging import clear_opening
from elevations.checks.results import SAME, Limit, Result, State, shown
from elevations.checks.rule import DROP, WORK, Case, Rule, level

KEY = "guarding"
GUARD = "guard (height of a guard across the window above the floor, 0 where there is none)"
HINT = "a guard that children can't climb and a 100 mm ball can't pass, a higher sill, or a light that doesn't open"


def check(case: Case) -> Iterator[Result]:
    """Every light that opens, and every fixed pane that would have to hold somebody back."""
    about, least_drop = case.about(KEY), case.rules.limit("guard-drop")
    if case.spec.drop is None:
        yield about.cannot_tell("whether one can fall out", DROP)
    elif least_drop is None or case.spec.drop <= least_drop.value + SAME:
        yield about.not_applicable(f"the drop outside is {shown(case.spec.drop, 'mm')}")
    else:
        opening = {light.number for light in case.opening_lights}
        for light in case.opening_lights:
            bottom = clear_opening(case.window, light).lowest_mm
            yield _of(case, f"light {light.number}", bottom, "its opening")
        for pane in case.window.panes:
            if pane.light not in opening:
                yield _of_fixed(case, pane.tag, level(pane))


def _asked(case: Case, height: Calculation) -> Limit | CannotTell | None:
    """How high an opening must begin, or be guarded.

    It is higher in a new dwelling; which it is need not be known where both come out the same.
    """
    usual, new = case.rules.limit("guard-height"), case.rules.limit("guard-height-new-dwelling")
    if usual is None or new is None or case.building.work == "replacement":
        return usual
    if case.building.work == "new-dwelling" or height.value >= new.value - SAME:
        return new
    return usual if height.value < usual.value - SAME else CannotTell((WORK,))


def _of(case: Case, subject: str, bottom_mm: float, what: str) -> Result:
    about = case.about(KEY, subject)
    begins = case.above_floor(bottom_mm, what)
    if isinstance(begins, CannotTell):
        return about.cannot_tell(f"how high {what} begins", *begins.needs)
    highest = _highest(case, begins)
    limit = _asked(case, highest)
    if isinstance(limit, CannotTell):
        return about.cannot_tell("how high a guard must be", *limit.needs)
    if limit is None:
        return about.not_applicable("these rules give no height of guards")
    if highest.value < limit.value - SAME and case.spec.guard is None:
        return about.result(
            State.CANNOT_TELL, f"{what} begins {shown(begins.value, 'mm', limit.value)} above the floor, over a drop; whether it is guarded: needs {GUARD}",
            value=begins, limit=limit, sense="at least", needs=(GUARD,), hint=HINT,
        )
    return about.at_least(f"height of {what}, or of the guard across it, above the floor", highest, limit, hint=HINT)


def _highest(case: Case, begins: Calculation) -> Calculation:
    """What holds a person back: the wall and frame below the opening, or a guard across it."""
    guard = case.spec.guard
    if guard is None or guard <= begins.value:
        return begins
    return Calculation(guard, "mm", (*begins.steps, Step("guard across the window", guard, "mm", "job: guard")), begins.assumed)


def _of_fixed(case: Case, tag: str, bottom_mm: float) -> Result:
    """Fixed glass below the height of a guard has to hold somebody who falls against it: no figure here can show that."""
    about, limit = case.about(KEY, tag), case.rules.limit("guard-height")
    begins = case.above_floor(bottom_mm, "the visible glass")
    if isinstance(begins, CannotTell):
        return about.cannot_tell("how high its glass begins", *begins.needs)
    if limit is None:
        return about.not_applicable("these rules give no height of guards")
    if _highest(case, begins).value >= limit.value - SAME:
        return about.at_least("height of its glass, or of the guard across it, above the floor", _highest(case, begins), limit)
    needs = "the supplier's word that glass and its fixing hold a person who falls against them, or a guard (guard: …)"
    return about.result(
        State.CANNOT_TELL, f"its glass begins {shown(begins.value, 'mm', limit.value)} above the floor, over a drop: needs {needs}",
        value=begins, limit=limit, needs=(needs,),
    )


RULE = Rule(
    KEY, "Guarding", "Can somebody fall out?", check,
    {"guard-drop": "mm", "guard-height": "mm", "guard-height-new-dwelling": "mm"},
)
