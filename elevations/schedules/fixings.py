"""The fixings schedule: one row a fixing point, as it is drilled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.fit_fixing import holds, kind_of_side, packer_at
from elevations.geometry.window import Window
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted


@dataclass(frozen=True, slots=True)
class FixingRow:
    """One fixing point. Distances run along the outer edge of the frame, to 0.1 mm."""

    tag: str
    mark: str
    side: str
    along_mm: float
    measured_from: str
    """The end of its side that `along_mm` starts from, seen from outside: left, or of a jamb top, springing or eaves."""
    from_corner_mm: float
    """To the nearer end of its side."""
    kind: str
    """corner, moved (a corner fixing moved clear of a bar) or intermediate."""
    by: str
    """screw (through the frame), bracket (on its edge, nothing drilled) or joint (into a coupler or post)."""
    packer_mm: float | None
    """What fills the surveyed gap at its place, straight between the places measured; None where it was not surveyed, or behind a check."""


def fixing_rows(window: Window) -> Iterator[FixingRow]:
    """One row a fixing, in the order of their tags."""
    held = holds(window)
    for fixing in window.fixings:
        along = fixing.along.value
        yield FixingRow(
            tag=f"{window.mark}-{fixing.tag}",
            mark=window.mark,
            side=fixing.side,
            along_mm=tidy(along, 1),
            measured_from=fixing.measured_from,
            from_corner_mm=tidy(min(along, fixing.side_length - along), 1),
            kind=fixing.kind,
            by=held[kind_of_side(fixing.side)].how,
            packer_mm=packer_at(window, fixing),
        )


def totals(rows: Sequence[FixingRow]) -> list[str]:
    """How many fixings there are."""
    marks = len({row.mark for row in rows})
    return [f"{len(rows)} fixings in {counted(marks, 'window')}"] if rows else []


FIXINGS = Schedule(
    key="fixings",
    title="Fixings",
    columns=(
        Column("tag", "tag", text=True),
        Column("mark", text=True),
        Column("side", "side", text=True),
        Column("along_mm", "along mm", decimals=1),
        Column("measured_from", "from", text=True),
        Column("from_corner_mm", "to corner mm", decimals=1),
        Column("kind", "kind", text=True),
        Column("by", "by", text=True),
        Column("packer_mm", "packer mm", decimals=0),
    ),
    rows=fixing_rows,
    totals=totals,
)
