"""Whether somebody can reach the glass to clean it: information only."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import CannotTell
from elevations.checks.results import SAME, Result, shown
from elevations.checks.rule import Case, Rule

KEY = "cleaning"


def check(case: Case) -> Iterator[Result]:
    """Height of the top of the highest glass above the floor."""
    about, reach = case.about(KEY), case.rules.limit("cleaning-height")
    top = max((pane.sight.outline.bounds.top for pane in case.window.panes), default=0.0)
    height = case.above_floor(top, "the top of the visible glass")
    if reach is None:
        yield about.not_applicable("these rules give no figure")
    elif isinstance(height, CannotTell):
        yield about.cannot_tell("whether the glass can be reached from the floor", *height.needs)
    elif height.value <= reach.value + SAME:
        yield about.note(f"the glass ends {shown(height.value, 'mm')} above the floor, within reach of {shown(reach.value, 'mm')}", height, reach)
    else:
        yield about.note(
            f"the glass ends {shown(height.value, 'mm')} above the floor, above a reach of {shown(reach.value, 'mm')}: agree how it is cleaned", height, reach)


RULE = Rule(KEY, "Cleaning", "Can the glass be reached to clean it?", check, {"cleaning-height": "mm"})
