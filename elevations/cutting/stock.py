"""What bars there are and what a cutting plan says. Lengths in mm to 0.1; worked in whole tenths, so sums are exact."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

TENTHS = 10
"""Steps in a millimetre: a saw's stop is read to 0.1 mm."""


def tenths(length_mm: float) -> int:
    """A length in whole tenths of a mm, to the nearest."""
    return round(length_mm * TENTHS)


@dataclass(frozen=True, slots=True)
class Stock:
    """The bars that pieces are cut from, and what the workshop's saw takes from them."""

    bar_length_mm: float = 6000.0
    kerf_mm: float = 0.0
    """What the blade takes between two pieces, and between the last piece and the rest."""
    end_trim_mm: float = 0.0
    """Cut off each end of every bar and off-cut first, its own saw cut included."""
    off_cuts: Mapping[float, int] = field(default_factory=dict)
    """Length in mm → how many lie there. They are cut before a new bar is."""
    least_usable_off_cut_mm: float | None = None
    """A rest at least this long goes back into stock; None keeps nothing."""
    assumed: tuple[str, ...] = ()
    """Of 'saw cut', 'end trim' and 'grip' what nobody gave: whoever cuts must hear of it."""
    grip_mm: float = 0.0
    """Added at each end of a piece that is to be bent, for the bender to hold."""

    @property
    def saw_words(self) -> str:
        """'saw cut 6 mm, end trim 15 mm each end', and what is assumed of it or not counted."""
        said = f"saw cut {self.kerf_mm:g} mm, end trim {self.end_trim_mm:g} mm each end"
        of_saw = [words for words in self.assumed if words != "grip"]
        if of_saw:
            said += f"; {' and '.join(of_saw)} assumed: give your own (workshop: saw) before you cut"
        return said if self.kerf_mm else f"{said}; no saw cut is counted: the last piece of a full bar comes out short by them"

    @property
    def bend_words(self) -> str:
        """How pieces to bend come off the saw, and whether their grip is assumed."""
        longer = f" and {self.grip_mm:g} mm longer at each end for the grip" if self.grip_mm else ", with nothing to grip them by"
        said = f"pieces to bend are cut square{longer}; their ends are cut after bending"
        return said + ("; grip assumed: ask whoever bends them (workshop: bending)" if "grip" in self.assumed else "")


@dataclass(frozen=True, slots=True)
class CutBar:
    """One bar or off-cut and what is cut from it: trim, pieces in this order with a kerf after each, rest, trim."""

    stock_mm: float
    off_cut: bool
    """True where it comes from the off-cuts."""
    pieces_mm: tuple[float, ...]
    kerf_mm: float
    """Of all its saw cuts. The last one is shorter where less than a kerf was left after the last piece."""
    trims_mm: float
    """Both ends; one where the rest is kept, whose far end is not cut."""
    rest_mm: float
    """After the last piece and its saw cut."""
    kept: bool
    """True where the rest is long enough to go back into stock."""


@dataclass(frozen=True)
class Plan:
    """A way to cut all pieces. For every bar pieces + kerf + trims + rest = stock length, exactly in tenths."""

    stock: Stock
    bars: tuple[CutBar, ...]
    """Off-cuts first, shortest first; then new bars, those with the longest pieces first."""
    fewest_possible: int
    """No plan needs fewer new bars than this."""
    first_fit_bars: int
    """New bars of plain first-fit decreasing, for comparison."""
    proven: bool
    """True where `new_bars` is the fewest possible."""
    hit_time_limit: bool
    """True where the search was stopped by the clock: another run may then find another plan."""
    method: str
    """How it was found and what is known about it, for people."""

    @cached_property
    def new_bars(self) -> int:
        """How many whole bars are taken."""
        return len([bar for bar in self.bars if not bar.off_cut])

    @cached_property
    def stock_mm(self) -> float:
        """Length of all bars and off-cuts that are taken."""
        return _total(bar.stock_mm for bar in self.bars)

    @cached_property
    def pieces_mm(self) -> float:
        """Length of all pieces."""
        return _total(piece for bar in self.bars for piece in bar.pieces_mm)

    @cached_property
    def kept_mm(self) -> float:
        """Length of the rests that go back into stock."""
        return _total(bar.rest_mm for bar in self.bars if bar.kept)

    @cached_property
    def waste_mm(self) -> float:
        """Kerf, trims and the rests that are not kept."""
        return _total((self.stock_mm, -self.pieces_mm, -self.kept_mm))

    @property
    def waste_percent(self) -> float:
        """Waste as a share of the stock taken; 0 where nothing is cut."""
        return 100 * self.waste_mm / self.stock_mm if self.bars else 0.0


def _total(lengths: Iterable[float]) -> float:
    """The exact sum of lengths that are whole tenths."""
    return sum([tenths(length) for length in lengths]) / TENTHS
