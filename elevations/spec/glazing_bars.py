"""Glazing bars in a light: how they divide its glass, and whether what is asked for makes one pattern."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import Field

from elevations.errors import Path, Problem
from elevations.spec.block import Block
from elevations.spec.fields import count, length
from elevations.spelling import nearest

MOST_PANES_ACROSS = 12
PATTERNS = ("columns", "rows", "at", "margin", "border")
EXAMPLE = "for example `bars: {columns: 2, rows: 3}`"
BarCentre = Annotated[float, length(20, 6000)]


class BarCentres(Block):
    """Centre lines of glazing bars, where they are not spread evenly."""

    upright: tuple[BarCentre, ...] = Field(
        (), description="Centre lines of upright bars, mm from the frame's left outer edge, seen from outside.", examples=["[300, 500]"]
    )
    level: tuple[BarCentre, ...] = Field(
        (), description="Centre lines of level bars, mm from the frame's top outer edge down.", examples=["[400]"]
    )


class GlazingBars(Block):
    """Glazing bars: one pattern, and whether they sit on the glass or inside the unit."""

    columns: Annotated[int, count(1, MOST_PANES_ACROSS)] | None = Field(
        None, description="Small panes side by side, all of one sight size.", examples=[2]
    )
    rows: Annotated[int, count(1, MOST_PANES_ACROSS)] | None = Field(
        None, description="Small panes one above the other, all of one sight size.", examples=[3]
    )
    at: BarCentres | None = Field(
        None, description="Bars at given centre lines instead of even ones.", examples=["{upright: [300, 500], level: [400]}"]
    )
    margin: Annotated[float, length(20, 1000)] | None = Field(
        None, description="Margin lights: bars that run right through, this much visible glass in from each edge, mm.", examples=[100]
    )
    border: Annotated[float, length(20, 1000)] | None = Field(
        None, description="A single border: one rectangle of bars, this much visible glass in from each edge, mm.", examples=[90]
    )
    kind: Literal["on-face", "in-unit"] = Field(
        "on-face", description="on-face: a bar on each face of the glass. in-unit: a bar between the panes.", examples=["in-unit"]
    )


def problems_of_glazing_bars(light: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong with a light's glazing bars as read, that no single key shows."""
    bars = light.get("bars")
    if not isinstance(bars, dict):
        return
    where = (*path, "bars")
    given = [key for key in PATTERNS if bars.get(key) is not None]
    patterns = [key for key in given if key not in ("columns", "rows")]
    misspelt = any(nearest(str(key), PATTERNS) for key in bars.keys() - set(given))   # told as unknown keys
    if not given:
        if misspelt:
            return
        yield Problem("bars-without-pattern", "'bars' does not say where the glazing bars go", EXAMPLE, where)
    elif len(patterns) > 1 or (patterns and len(given) > 1):
        named = " and ".join(f"'{key}'" for key in given)
        message = f"{named} are different patterns of glazing bars"
        yield Problem("two-patterns", message, "keep one of them", (*where, given[-1]))
    elif not patterns and all(bars.get(key) in (None, 1) for key in ("columns", "rows")):
        yield Problem("bars-without-pattern", "one column and one row need no glazing bars", f"leave 'bars' out, or more: {EXAMPLE}", where)
    elif isinstance(bars.get("at"), dict) and not any(bars["at"].get(key) for key in BarCentres.model_fields):
        hint = "for example `at: {upright: [300, 500]}`"
        yield Problem("bars-without-pattern", "'at' gives no centre line", hint, (*where, "at"))
