"""What is drilled and notched into cut pieces, each dimensioned from one end of the piece as it comes off the saw."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Member, Window
from elevations.plane import Point
from elevations.schedules.pieces import along_cut, first_end, members_of
from elevations.schedules.table import Column, Schedule, tidy


@dataclass(frozen=True, slots=True)
class MachiningRow:
    """One place on one piece, to 0.1 mm, from the end of the cut piece, weld allowance included."""

    piece: str
    """'W1-left jamb'."""
    mark: str
    profile: str
    length_mm: float
    """Of the cut piece."""
    along_mm: float
    measured_from: str
    """left or top: the end of the piece, seen from outside as it stands in the window."""
    kind: str
    """bar joint (the centre line of a mullion or transom that joins here) or fixing hole."""
    what: str
    """Tag of the bar or the fixing."""


def machining_rows(window: Window) -> Iterator[MachiningRow]:
    """Every place on every piece, piece by piece, from its first end on."""
    for member in members_of(window):
        places = sorted(
            (along_cut(member, point, window.system), kind, what) for point, kind, what in _places(window, member)
        )
        for along, kind, what in places:
            yield MachiningRow(
                piece=f"{window.mark}-{member.tag}",
                mark=window.mark,
                profile=member.profile,
                length_mm=tidy(member.length.value, 1),
                along_mm=tidy(along, 1),
                measured_from=first_end(member),
                kind=kind,
                what=what,
            )


def _places(window: Window, member: Member) -> Iterator[tuple[Point, str, str]]:
    """Where bars join a member and fixings go through it."""
    for bar in window.bars:
        for end, met in zip(bar.outer, bar.meets, strict=True):
            if met == member.tag:
                yield end, "bar joint", bar.tag
    for fixing in window.fixings:
        if fixing.side == member.tag:
            yield fixing.at, "fixing hole", fixing.tag


def totals(rows: Sequence[MachiningRow]) -> list[str]:
    """How many there are of each kind."""
    kinds = sorted({row.kind for row in rows})
    return ["; ".join(f"{sum(row.kind == kind for row in rows)} x {kind}" for kind in kinds)] if rows else []


MACHINING = Schedule(
    key="machining",
    title="Machining",
    columns=(
        Column("piece", "piece", text=True),
        Column("mark", text=True),
        Column("profile", "profile", text=True),
        Column("length_mm", "cut length mm", decimals=1),
        Column("along_mm", "along mm", decimals=1),
        Column("measured_from", "from", text=True),
        Column("kind", "kind", text=True),
        Column("what", "what", text=True),
    ),
    rows=machining_rows,
    totals=totals,
)
