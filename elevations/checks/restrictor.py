"""What an opening restrictor has to do; how far it lets a light open is its maker's figure, not known here."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.checks.results import Result, shown
from elevations.checks.rule import Case, Rule

KEY = "restrictor"


def check(case: Case) -> Iterator[Result]:
    """A note for each light that has one."""
    lights, limit = [light for light in case.window.lights if light.spec.restrictor], case.rules.limit("restrictor-opening")
    if not lights:
        yield case.about(KEY).not_applicable("no light has a restrictor")
    for light in lights:
        about = case.about(KEY, f"light {light.number}")
        if limit is None:
            yield about.not_applicable("these rules give no figure for restrictors")
        else:
            yield about.note(f"its restrictor must hold it to an opening of at most {shown(limit.value, 'mm')}: check it on the window", limit=limit)


RULE = Rule(KEY, "Restrictors", "How far may a restricted light open?", check, {"restrictor-opening": "mm"})
