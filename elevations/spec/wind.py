"""Wind on a window as a job gives it: a pressure, or a class of EN 12210."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from elevations.spec.fields import Reads, refuse, short
from elevations.yaml_source import raw_text

EN_12210 = "EN 12210:2016 (read in a test institute's table, not in the standard)"
P1_PA: Mapping[int, float] = {1: 400.0, 2: 800.0, 3: 1200.0, 4: 1600.0, 5: 2000.0}
"""First test pressure by class; Exxxx is a class by its own pressure. EN 12210:2016 (read, second hand)."""
PRESSURE_PA = (100.0, 10_000.0)
USUAL_LIMIT = "B"
"""Deflection class where the job gives a pressure alone (common practice, no source)."""
_CLASS = re.compile(r"(?P<limit>[ABC])(?:(?P<load>[1-5])|E(?P<pressure>[0-9]{4}))")
_PRESSURE = re.compile(r"(?P<pressure>[0-9]{1,6}(?:\.[0-9]{1,3})?) ?(?:PA)?(?:,? ?(?:CLASS )?(?P<limit>[ABC]))?")
_EXAMPLE = "write a class (C3), a pressure in Pa (1200 Pa), or a pressure and a deflection class (1200 Pa, C)"
PATTERN = r"^ *([ABCabc]([1-5]|[Ee][0-9]{4})|[0-9]+(\.[0-9]+)?( ?[Pp][Aa])?(,? ?(class )?[ABCabc])?) *$"


@dataclass(frozen=True, slots=True)
class WindLoad:
    """The pressure that bars are to bear, and how far they may bend under it."""

    pressure_pa: float
    limit: str
    """Deflection class A, B or C."""
    given: str
    """What the job says: 'C3', '1200 Pa'."""
    limit_given: bool
    """False where the deflection class is `USUAL_LIMIT` for want of a word in the job."""


def read_class(text: str) -> WindLoad | None:
    """A class of EN 12210, deflection limit first: 'C3', 'BE2400'; None for anything else."""
    name = text.strip().upper()
    found = _CLASS.fullmatch(name)
    if not found:
        return None
    if found["load"]:
        return WindLoad(P1_PA[int(found["load"])], found["limit"], name, limit_given=True)
    pressure = float(found["pressure"])
    return WindLoad(pressure, found["limit"], name, limit_given=True) if pressure > P1_PA[5] else None


def _read(value: Any) -> WindLoad:
    if isinstance(value, WindLoad):
        return value
    text = "" if isinstance(value, bool) else raw_text(value) or ""
    by_class = read_class(text)
    if by_class is not None:
        return by_class
    found = _PRESSURE.fullmatch(" ".join(text.split()).upper())
    if not found:
        refuse("not-a-wind-load", f"'{short(value)}' is neither a wind pressure nor a class of EN 12210", _EXAMPLE)
    pressure, (low, high) = float(found["pressure"]), PRESSURE_PA
    if not low <= pressure <= high:
        refuse("out-of-range", f"{{key}} must be {low:g} to {high:g} Pa; this is {pressure:g} Pa", _EXAMPLE)
    return WindLoad(pressure, found["limit"] or USUAL_LIMIT, f"{pressure:g} Pa", limit_given=bool(found["limit"]))


WIND = Reads(_read, {"type": ["number", "string"], "minimum": PRESSURE_PA[0], "maximum": PRESSURE_PA[1], "pattern": PATTERN})
"""Goes into Annotated beside `WindLoad`."""
