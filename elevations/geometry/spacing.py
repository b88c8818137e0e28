"""Where the bars of a division go: as given, or worked out so that centres, sight sizes or glass are equal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.catalogue.system import System
from elevations.errors import Path, Problem
from elevations.geometry.stations import figure
from elevations.openings import OPENINGS
from elevations.spec.model import Division, Light
from elevations.working import Source, Term, Working

Entry = Light | Division


def bar_centres(
    system: System, division: Division, low: tuple[str, Working], high: tuple[str, Working], path: Path
) -> tuple[list[Term], list[Problem]]:
    """Centre lines of a division's bars, mm from the left or top of the frame, in order, or why they can't be had.

    `low` and `high` are the profile and position of the left and right (or top and bottom) bounds.
    """
    key = "mullions" if division.mullions is not None else "transoms"
    given = division.mullions if key == "mullions" else division.transoms
    assert given is not None
    if not isinstance(given, str):
        return [Term(at, "", Source("spec", (*path, key, i))) for i, at in enumerate(given)], []
    bar, count = key.removesuffix("s"), len(division.lights)
    profiles = [low[0], *[bar] * (count - 1), high[0]]
    problems = [*_divided_again(division, key, given, path), *_two_panes(division, given, path)] if given != "equal-centres" else []
    if problems:
        return [], problems
    taken = [
        _taken(system, entry, profiles[i], profiles[i + 1], given) for i, entry in enumerate(division.lights)
    ]
    start, between = low[1].value, high[1].minus(low[1]).value
    share = (between - sum(taken)) / count
    terms, at = [], start
    for i in range(count - 1):
        at += taken[i] + share
        terms.append(Term(at, "", Source("spec", (*path, key)), _detail(given, start, between, taken, share, i)))
    return terms, []


def _taken(system: System, entry: Entry, low: str, high: str, kind: str) -> float:
    """What profiles take between two datum lines before the measure that is made equal begins, mm."""
    if kind == "equal-centres":
        return 0.0
    if isinstance(entry, Division):   # divided the other way: it counts by its narrowest pane
        return max(_taken(system, part, low, high, kind) for part in entry.lights)
    inner = "rebate" if kind == "equal-glass" else "sight"
    clearance = system.edge_clearance if kind == "equal-glass" else 0.0
    if OPENINGS[entry.light].has_sash(entry.sash == "dummy"):
        return figure(system, low, "sash") + figure(system, high, "sash") + 2 * (figure(system, "sash", inner) + clearance)
    return figure(system, low, inner) + figure(system, high, inner) + 2 * clearance


def _divided_again(division: Division, key: str, kind: str, path: Path) -> Iterator[Problem]:
    """A part that is itself divided the same way has no one width to make equal."""
    for i, entry in enumerate(division.lights):
        here = (*path, "lights", i)
        if not isinstance(entry, Division):
            continue
        if getattr(entry, key) is not None:
            yield Problem(
                "equal-divided-again",
                f"'{kind}' can't weigh this entry, because it is divided by {key} again",
                f"give the outer {key} as numbers, or put all the {key} in one list",
                (*here, key),
            )
        else:
            yield from _divided_again(entry, key, kind, here)


def _two_panes(division: Division, kind: str, path: Path) -> Iterator[Problem]:
    """A light of two sashes has no one pane to make equal to others."""
    for i, entry in enumerate(division.lights):
        here = (*path, "lights", i)
        if isinstance(entry, Division):
            yield from _two_panes(entry, kind, here)
        elif OPENINGS[entry.light].meeting_axis is not None:
            yield Problem(
                "equal-two-panes", f"'{kind}' can't weigh a {entry.light} light, because it has two panes",
                "give the centre lines as numbers, or use equal-centres", (*here, "light"),
            )


def _detail(kind: str, start: float, between: float, taken: Sequence[float], share: float, bar: int) -> tuple[str, ...]:
    """The sum behind one centre line, in words."""
    if kind == "equal-centres":
        return (
            f"{between:g} between the bounding lines / {len(taken)} = {share:g} each",
            f"{start:g} + {bar + 1} x {share:g} = {start + (bar + 1) * share:g}",
        )
    what = "glass cut size" if kind == "equal-glass" else "sight size"
    profiles = " + ".join(f"{t:g}" for t in taken)
    steps = " + ".join(f"({t:g} + {share:g})" for t in taken[: bar + 1])
    at = start + sum(taken[: bar + 1]) + (bar + 1) * share
    rest = between - sum(taken)
    return (
        f"{between:g} between the bounding lines, less what the profiles take ({profiles}) = {rest:g}",
        f"{rest:g} / {len(taken)} = {share:g} {what} each",
        f"{start:g} + {steps} = {at:g}",
    )
