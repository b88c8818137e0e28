"""Whether transoms carry the glass that stands on them without sagging on to what is below."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.checks.results import Limit, Result
from elevations.checks.rule import Case, Rule
from elevations.structure import transoms_under_glass

KEY = "glass-weight"


def check(case: Case) -> Iterator[Result]:
    """Every transom; the usual limit is nobody's rule for windows, so one that sags further is only warned of."""
    transoms = transoms_under_glass(case.window)
    if not transoms:
        yield case.about(KEY).not_applicable("no transom")
    for transom in transoms:
        limit = Limit(transom.limit_mm, "mm", "span / 500, at most 3 mm", "", "common practice, no source")
        yield case.about(KEY, transom.tag).at_most(
            "sag under the weight on it", transom.deflection, limit, hint="stiffer reinforcement, or a mullion under it that stands on the sill"
        )


RULE = Rule(KEY, "Weight on transoms", "Do transoms carry the glass on them?", check, {})
