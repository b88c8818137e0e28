"""Whether the frame's fixings stand where they should: measured on the points themselves, not on the rules that placed them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from elevations.calculation import Calculation, Step
from elevations.checks.results import Result, State
from elevations.checks.rule import Case, Rule
from elevations.geometry.window import Window

KEY = "fixings"
SIDES = ("left jamb", "right jamb", "head", "sill")
COUNTED = ("left jamb", "right jamb", "sill")


@dataclass(frozen=True, slots=True)
class _Side:
    """One straight side of the frame: its length, its fixings and the bars that meet it, as distances along it, mm."""

    name: str
    length_mm: float
    fixings: tuple[float, ...]
    bars: tuple[tuple[str, float], ...]


def check(case: Case) -> Iterator[Result]:
    """Of each measure the side that keeps it least: from the corners, apart, clear of bars; and how many there are."""
    sides = [side for name in SIDES if (side := _side(case.window, name)) is not None]
    yield from _counts(case, sides)
    fixed = [side for side in sides if side.fixings]
    if not fixed:
        return
    limit = case.rules.limit
    corner = {side.name: (side.fixings[0], side.length_mm - side.fixings[-1]) for side in fixed}
    nearest = min(fixed, key=lambda side: min(corner[side.name]))
    furthest = max(fixed, key=lambda side: max(corner[side.name]))
    yield case.about(KEY, nearest.name).at_least("first fixing from the corner", _mm(min(corner[nearest.name]), nearest), limit("fixing-corner-least"))
    yield case.about(KEY, furthest.name).at_most("first fixing from the corner", _mm(max(corner[furthest.name]), furthest), limit("fixing-corner-most"))
    widest = max(fixed, key=_gap)
    apart = case.about(KEY, widest.name).at_most("fixings apart", _mm(_gap(widest), widest), limit("fixing-spacing"))
    yield replace(apart, repeats="fixing-spacing")
    barred = [side for side in fixed if side.bars]
    if barred:
        tight = min(barred, key=_to_bar)
        clear = case.about(KEY, tight.name).at_least("fixing from the centre line of a bar", _mm(_to_bar(tight), tight), limit("fixing-bar"))
        yield replace(clear, repeats="fixing-near-bar")


def _counts(case: Case, sides: list[_Side]) -> Iterator[Result]:
    least, shaped = case.rules.limit("fixing-count"), set(COUNTED) - {side.name for side in sides}
    counted = [side for side in sides if side.name in COUNTED]
    if counted:
        fewest = min(counted, key=lambda side: len(side.fixings))
        count = float(len(fewest.fixings))
        steps = tuple(Step(side.name, float(len(side.fixings)), "", "resolved window") for side in counted)
        yield replace(case.about(KEY, fewest.name).at_least("number of fixings", Calculation(count, "", steps), least), repeats="fixing-side-short")
    if shaped:
        yield case.about(KEY).result(State.NOT_APPLICABLE, f"no straight {', '.join(sorted(shaped))}: fixings there are to be agreed")


def _side(window: Window, name: str) -> _Side | None:
    """A straight side by its name; None where the frame has none of that name, or it is curved or sloped."""
    member = next((m for m in window.members if m.tag == name), None)
    if member is None:
        return None
    upright, (a, b) = name.endswith("jamb"), member.outer
    if abs(a.x - b.x if upright else a.y - b.y) > 0.5 or any(corner.bulge for corner in member.face.corners):
        return None
    length = abs(a.y - b.y) if upright else abs(a.x - b.x)
    low, high = (min(a.y, b.y), max(a.y, b.y)) if upright else (min(a.x, b.x), max(a.x, b.x))
    places = sorted(high - p.at.y if upright else p.at.x - low for p in window.fixings if p.side == name)
    bars = tuple(
        (bar.tag, high - point.y if upright else point.x - low)
        for bar in window.bars for end, point in enumerate(bar.outer) if bar.meets[end] == name
    )
    return _Side(name, length, tuple(places), bars)


def _gap(side: _Side) -> float:
    return max((high - low for low, high in pairwise(side.fixings)), default=0.0)


def _to_bar(side: _Side) -> float:
    return min(abs(at - bar) for at in side.fixings for _, bar in side.bars)


def _mm(value: float, side: _Side) -> Calculation:
    steps = [Step(f"fixing {number} of the {side.name}", at, "mm", "resolved window") for number, at in enumerate(side.fixings, 1)]
    steps += [Step(f"centre line of {tag} on the {side.name}", at, "mm", "resolved window") for tag, at in side.bars]
    return Calculation(value, "mm", tuple(steps))


RULE = Rule(
    KEY, "Fixings", "Is the frame fixed often enough and in the right places?", check,
    {"fixing-corner-least": "mm", "fixing-corner-most": "mm", "fixing-spacing": "mm", "fixing-bar": "mm", "fixing-count": ""},
)
