"""Machining as it is read at the bench: a piece at a time, what is done to it, each with its distances from one end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Window
from elevations.schedules.machining import MachiningRow, machining_rows
from elevations.schedules.table import Column, Schedule
from elevations.sheets.listing import Gathering

NAMED = ("bar joint", "fixing hole")
"""Kinds whose places say what they are for, since each is another."""


@dataclass(frozen=True, slots=True)
class PieceRow:
    """One kind of work on one piece."""

    piece: str
    """'W1-sill, frame, 1206 long, from its left end'."""
    kind: str
    size: str
    number: int
    along_mm: tuple[str, ...]
    """'109', '603 M1': from the end named."""


def piece_rows(window: Window) -> Iterator[PieceRow]:
    """One row for each kind of work on each piece, in the order in which it comes first along the piece."""
    groups: dict[tuple[str, str, str], list[MachiningRow]] = {}
    for row in machining_rows(window):
        heading = f"{row.piece}, {row.profile}, {row.length_mm:g} long, from its {row.measured_from} end"
        groups.setdefault((heading, row.kind, row.size), []).append(row)
    for (heading, kind, size), rows in groups.items():
        yield PieceRow(heading, kind, size, len(rows), tuple(_at(row) for row in rows))


def _at(row: MachiningRow) -> str:
    return f"{row.along_mm:g} {row.what}" if row.kind in NAMED else f"{row.along_mm:g}"


def undrained(windows: Sequence[Window]) -> tuple[str, ...]:
    """What the list must say of systems that give no rule for drainage."""
    names = dict.fromkeys(window.system.name for window in windows if window.system.drainage is None)
    return tuple(f"{name} gives no rule for drainage (`drainage` in its file): no slots are listed for it." for name in names)


def totals(rows: Sequence[PieceRow]) -> list[str]:
    """How many pieces there are."""
    pieces = len({row.piece for row in rows})
    return [f"{pieces} pieces; distances in mm along the piece as cut, from the end named, to the middle; seen from outside"]


PIECE_BY: Gathering[PieceRow] = Gathering(heading=lambda row: row.piece, spared=("piece",))
PIECES = Schedule(
    key="machining-by-piece",
    title="Machining",
    columns=(
        Column("piece", "piece", text=True),
        Column("kind", "what", text=True),
        Column("size", "size", text=True),
        Column("number", "number"),
        Column("along_mm", "mm from that end", text=True),
    ),
    rows=piece_rows,
    totals=totals,
)
