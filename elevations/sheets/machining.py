"""Machining as it is read at the bench: a piece at a time, what is done to it, each with its distances from one end; pieces alike together."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from elevations.geometry.window import Window
from elevations.schedules.machining import MachiningRow, machining_rows
from elevations.schedules.table import Column, Schedule
from elevations.sheets.listing import Gathering
from elevations.spelling import counted

NAMED = ("bar joint",)
"""Kinds whose places say what they are for: which bar goes there."""


@dataclass(frozen=True, slots=True)
class PieceRow:
    """One kind of work on one piece, or on several that are all alike."""

    pieces: tuple[str, ...]
    place: str
    """Which side of its frame or sash it is: 'left jamb', 'S right stile'. A left one is a right one's mirror image."""
    profile: str
    length_mm: float
    measured_from: str
    kind: str
    size: str
    number: int
    """On each piece."""
    along_mm: tuple[str, ...]
    """'109', '603 M1': from the end named."""

    @property
    def heading(self) -> str:
        """'W1-sill, frame, 1206 long, from its left end'; '2 pieces alike, W1-left jamb, W1-right jamb: frame, …'."""
        many = len(self.pieces)
        names = f"{many} pieces alike, {', '.join(self.pieces)}:" if many > 1 else f"{self.pieces[0]},"
        return f"{names} {self.profile}, {self.length_mm:g} long, from {'their' if many > 1 else 'its'} {self.measured_from} end"


def piece_rows(window: Window) -> Iterator[PieceRow]:
    """The rows of one window."""
    return by_piece(machining_rows(window))


def by_piece(places: Iterable[MachiningRow]) -> Iterator[PieceRow]:
    """The same places, gathered by piece and kind of work; pieces alike together."""
    groups: dict[tuple[str, str, str], list[MachiningRow]] = {}
    for row in places:
        groups.setdefault((row.piece, row.kind, row.size), []).append(row)
    yield from alike(
        PieceRow((piece,), _place(rows[0]), rows[0].profile, rows[0].length_mm, rows[0].measured_from, kind, size, len(rows), tuple(_at(row) for row in rows))
        for (piece, kind, size), rows in groups.items()
    )


def _place(row: MachiningRow) -> str:
    return re.sub(r"\d+", "", row.piece.removeprefix(f"{row.mark}-"))


def _at(row: MachiningRow) -> str:
    return f"{row.along_mm:g} {row.what}" if row.kind in NAMED else f"{row.along_mm:g}"


def alike(rows: Iterable[PieceRow]) -> list[PieceRow]:
    """Pieces of one length for one place that the same is done to, set together under one heading, where the first of them comes."""
    by_pieces: dict[tuple[str, ...], list[PieceRow]] = {}
    for row in rows:
        by_pieces.setdefault(row.pieces, []).append(row)
    groups: dict[tuple[PieceRow, ...], list[str]] = {}
    for pieces, own in by_pieces.items():
        groups.setdefault(tuple(replace(row, pieces=()) for row in own), []).extend(pieces)
    return [replace(row, pieces=tuple(pieces)) for own, pieces in groups.items() for row in own]


def undrained(windows: Sequence[Window]) -> tuple[str, ...]:
    """What the list must say of systems that give no rule for drainage."""
    names = dict.fromkeys(window.system.name for window in windows if window.system.drainage is None)
    return tuple(f"{name} gives no rule for drainage (`drainage` in its file): no slots are listed for it." for name in names)


def totals(rows: Sequence[PieceRow]) -> list[str]:
    """How many pieces there are."""
    return [counted(sum(map(len, {row.pieces for row in rows})), "piece")]


PLACES_NOTE = "Distances in mm along the piece as cut, weld included, from the end named, to the middle of each place; left and right seen from outside."
PIECE_BY: Gathering[PieceRow] = Gathering(heading=lambda row: row.heading, spared=("heading",))
PIECES = Schedule(
    key="machining-by-piece",
    title="Machining",
    columns=(
        Column("heading", "piece", text=True),
        Column("kind", "what", text=True),
        Column("size", "size", text=True),
        Column("number", "each"),
        Column("along_mm", "mm from that end", text=True),
    ),
    rows=piece_rows,
    totals=totals,
    joined=alike,
)
