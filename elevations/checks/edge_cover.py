"""Whether the edges of sealed units are covered far enough, and stand clear of the rebate."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.calculation import Calculation, Step
from elevations.checks.results import Result
from elevations.checks.rule import Case, Rule
from elevations.geometry.window import Pane
from elevations.schedules.glass_order import edge_cover_mm

KEY = "glass-edges"


def check(case: Case) -> Iterator[Result]:
    """The pane that is covered least, and the pane with the longest side."""
    window, limit = case.window, case.rules.limit
    least = min(window.panes, key=lambda pane: edge_cover_mm(window, pane))
    cover = edge_cover_mm(window, least)
    source = f"{window.system.name}: sight less rebate less edge clearance"
    yield case.about(KEY, least.tag).at_least("edge cover of its unit", Calculation(cover, "mm", (Step("edge cover", cover, "mm", source),)), limit("edge-cover"))
    longest = max(window.panes, key=_longest)
    size = limit("edge-clearance-long-from")
    key = "edge-clearance-long" if size and _longest(longest) > size.value else "edge-clearance"
    clear = window.system.edge_clearance
    found = Calculation(clear, "mm", (Step("edge clearance", clear, "mm", f"{window.system.name}: glazing.edge_clearance"),))
    yield case.about(KEY, longest.tag).at_least("clearance round its unit", found, limit(key))


def _longest(pane: Pane) -> float:
    return max(pane.width.value, pane.height.value)


RULE = Rule(
    KEY, "Glass edges", "Is each unit covered and clear at its edges?", check,
    {"edge-cover": "mm", "edge-clearance": "mm", "edge-clearance-long": "mm", "edge-clearance-long-from": "mm"},
)
