"""The table of perimeter clearances: what comes off an opening for a frame of some material, finish and size."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from elevations.yaml_source import read_document

TABLE = "clearances.yaml"
WHITES = ("9003", "9010", "9016")
"""RAL codes that count as white; every other finish, and none given, as coloured: it moves more, and the gap is larger."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """One row of the table; lengths in mm."""

    material: str
    finish: str
    """white, coloured or any."""
    up_to: float
    off: float
    """Both sides together."""
    basis: str


@lru_cache(maxsize=1)
def clearances() -> tuple[Clearance, ...]:
    """The rows of the table, in its order."""
    text = (Path(__file__).parent / TABLE).read_text("utf-8")
    rows = read_document(text, TABLE).data
    return tuple(Clearance(r["material"], r["finish"], float(r["up_to"]), float(r["off"]), r["basis"]) for r in rows)


def finish_kind(outside: str) -> str:
    """White or coloured, by the finish outside."""
    found = re.search(r"[0-9]{4}", outside)
    return "white" if outside.strip().casefold() == "white" or (found and found.group() in WHITES) else "coloured"


def clearance_for(material: str, outside: str, size: float) -> Clearance:
    """The row for a frame `size` mm long in the direction looked at; the last of its kind for longer ones."""
    kind = finish_kind(outside)
    rows = [row for row in clearances() if row.material == material and row.finish in (kind, "any")]
    return next((row for row in rows if size <= row.up_to), rows[-1])
