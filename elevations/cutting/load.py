"""The cutting problem bare of mm: sizes, counts and rooms as whole numbers, and what a packing of them is."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from elevations.cutting.stock import Stock, tenths
from elevations.errors import Problem, SpecError


@dataclass(frozen=True)
class Load:
    """Pieces to be packed and the rooms for them.

    A piece is as large as its length and a kerf, a room as its bar without trims and one kerf, so that the last piece
    of a bar needs no saw cut. All are divided by what the sizes have in common, which shortens every table over lengths.
    """

    sizes: tuple[int, ...]
    """Largest first, each once."""
    counts: tuple[int, ...]
    rooms: tuple[int, ...]
    """Of each kind of off-cut, smallest first; the last one is the new bar's."""
    supply: tuple[int, ...]
    """How many there are of each kind of off-cut; new bars are never short."""

    @property
    def bar(self) -> int:
        """The kind that is a new bar."""
        return len(self.rooms) - 1

    @cached_property
    def total(self) -> int:
        """Size of all pieces together."""
        return sum(size * count for size, count in zip(self.sizes, self.counts, strict=True))


@dataclass(frozen=True, slots=True)
class Packed:
    """What goes into one bar: its kind, and how many pieces of each size."""

    kind: int
    counts: tuple[int, ...]


Packing = tuple[Packed, ...]


def new_bars(load: Load, packing: Packing) -> int:
    """How many new bars a packing takes."""
    return sum(packed.kind == load.bar for packed in packing)


def longest_rest(load: Load, packing: Packing) -> int:
    """The most that is left of any new bar; 0 where none is taken."""
    room = load.rooms[load.bar]
    return max((
        room - sum(size * count for size, count in zip(load.sizes, packed.counts, strict=True))
        for packed in packing if packed.kind == load.bar
    ), default=0)


def load_of(pieces: Mapping[int, int], stock: Stock) -> Load:
    """The bare problem for pieces in tenths of a mm → count; its kinds of room are those of `stock_lengths`."""
    kerf, trims = tenths(stock.kerf_mm), 2 * tenths(stock.end_trim_mm)
    lengths = sorted((length for length, count in pieces.items() if count), reverse=True)
    sizes = [length + kerf for length in lengths]
    common = math.gcd(*sizes) or 1
    there = stock_lengths(pieces, stock)
    return Load(
        sizes=tuple(size // common for size in sizes),
        counts=tuple(pieces[length] for length in lengths),
        rooms=tuple((length - trims + kerf) // common for length, _ in there),
        supply=tuple(count for _, count in there[:-1]),
    )


def stock_lengths(pieces: Mapping[int, int], stock: Stock) -> list[tuple[int, int]]:
    """Length in tenths of a mm and count of each kind of off-cut that holds a piece, shortest first; the new bar's last."""
    shortest = min((length for length, count in pieces.items() if count), default=0)
    off_cuts: dict[int, int] = {}
    for length_mm, count in stock.off_cuts.items():
        length = tenths(length_mm)
        if count and length - 2 * tenths(stock.end_trim_mm) >= shortest:
            off_cuts[length] = off_cuts.get(length, 0) + count
    return [*sorted(off_cuts.items()), (tenths(stock.bar_length_mm), 0)]


def check(pieces: Mapping[float, int], stock: Stock) -> None:
    """Raise SpecError with everything that makes the pieces impossible to cut from the stock."""
    problems = [*_stock_problems(stock)]
    if not problems:
        usable_mm = stock.bar_length_mm - 2 * stock.end_trim_mm
        for length_mm, count in pieces.items():
            problems += _piece_problems(length_mm, count, usable_mm, stock)
    if problems:
        raise SpecError(problems)


def _stock_problems(stock: Stock) -> list[Problem]:
    figures = {"bar length": stock.bar_length_mm, "kerf": stock.kerf_mm, "end trim": stock.end_trim_mm}
    if stock.least_usable_off_cut_mm is not None:
        figures["least usable off-cut"] = stock.least_usable_off_cut_mm
    problems = [
        Problem("stock-length", f"the {name} must be 0 mm or more; this is {value:g}", "give it in mm")
        for name, value in figures.items() if not 0 <= value < math.inf
    ]
    if problems:
        return problems
    if tenths(stock.bar_length_mm) <= 2 * tenths(stock.end_trim_mm):
        return [Problem(
            "stock-length", f"a {stock.bar_length_mm:g} mm bar less {stock.end_trim_mm:g} mm end trim at each end leaves nothing",
            "give a longer bar or a smaller trim",
        )]
    for length_mm, count in stock.off_cuts.items():
        if not 0 < length_mm <= stock.bar_length_mm:
            problems.append(Problem(
                "off-cut", f"an off-cut of {length_mm:g} mm can't come from a {stock.bar_length_mm:g} mm bar",
                "off-cuts are longer than 0 and no longer than a whole bar",
            ))
        if count < 0:
            problems.append(Problem("off-cut", f"{count} off-cuts of {length_mm:g} mm can't be in stock", "count them from 0"))
    return problems


def _piece_problems(length_mm: float, count: int, usable_mm: float, stock: Stock) -> list[Problem]:
    if not 0 < length_mm < math.inf or tenths(length_mm) < 1:
        return [Problem("piece-length", f"a piece of {length_mm:g} mm can't be cut", "lengths are at least 0.1 mm")]
    if count < 0:
        return [Problem("piece-count", f"{count} pieces of {length_mm:g} mm can't be cut", "count them from 0")]
    if count and tenths(length_mm) > tenths(stock.bar_length_mm) - 2 * tenths(stock.end_trim_mm):
        trimmed = f", which leaves {usable_mm:g} mm after {stock.end_trim_mm:g} mm end trim at each end" if stock.end_trim_mm else ""
        many = f"a piece of {length_mm:g} mm is" if count == 1 else f"{count} pieces of {length_mm:g} mm are"
        assumed = trimmed and "end trim" in stock.assumed
        return [Problem(
            "piece-too-long", f"{many} longer than the {stock.bar_length_mm:g} mm bar{trimmed}{' (assumed)' if assumed else ''}",
            "make the window smaller, join the profile, or order longer bars" + ("; or give the trim of your saw (workshop: saw)" if assumed else ""),
        )]
    return []
