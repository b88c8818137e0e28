"""Machining as it is read at the bench: a row a piece, its places in order, each with its distance from one end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Window
from elevations.schedules.machining import MachiningRow, machining_rows
from elevations.schedules.table import Column, Schedule

JOINT, FIXING = "bar joint", "fixing hole"
"""Kinds with a column of their own."""


@dataclass(frozen=True, slots=True)
class PieceRow:
    """One piece and all that is done to it; '603:M1' is 603 mm from its end, for M1."""

    piece: str
    profile: str
    length_mm: float
    measured_from: str
    joints: tuple[str, ...]
    fixings: tuple[str, ...]
    others: tuple[str, ...]
    """Slots, holes, hardware: 'drainage slot 30 x 5: 129, 600, 1071'."""


def piece_rows(window: Window) -> Iterator[PieceRow]:
    """One row for each piece that is machined, in the order of the machining list."""
    pieces: dict[str, list[MachiningRow]] = {}
    for row in machining_rows(window):
        pieces.setdefault(row.piece, []).append(row)
    for piece, rows in pieces.items():
        first = rows[0]
        yield PieceRow(
            piece=piece,
            profile=first.profile,
            length_mm=first.length_mm,
            measured_from=first.measured_from,
            joints=tuple(f"{row.along_mm:g}:{row.what}" for row in rows if row.kind == JOINT),
            fixings=tuple(f"{row.along_mm:g}:{row.what}" for row in rows if row.kind == FIXING),
            others=tuple(_others(rows)),
        )


def _others(rows: Sequence[MachiningRow]) -> Iterator[str]:
    """Each kind and size once, with its distances: 'drainage slot 30 x 5: 129, 600, 1071'."""
    places: dict[str, list[str]] = {}
    for row in rows:
        if row.kind not in {JOINT, FIXING}:
            places.setdefault(f"{row.kind} {row.size}".strip(), []).append(f"{row.along_mm:g}")
    yield from (f"{kind}: {', '.join(along)}" for kind, along in places.items())


def totals(rows: Sequence[PieceRow]) -> list[str]:
    """How many pieces there are."""
    return [f"{len(rows)} pieces; distances in mm along the piece from the end named, 603:M1 is 603 mm, for M1"]


PIECES = Schedule(
    key="machining-by-piece",
    title="Machining",
    columns=(
        Column("piece", "piece", text=True),
        Column("profile", text=True),
        Column("length_mm", "cut length mm"),
        Column("measured_from", "from", text=True),
        Column("joints", "bar joints", text=True),
        Column("fixings", "fixing holes", text=True),
        Column("others", "slots, holes, hardware", text=True),
    ),
    rows=piece_rows,
    totals=totals,
)
