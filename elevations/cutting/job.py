"""Cutting rows in, bars out: one plan for each kind of bar and finish, and which piece of which window comes out of which bar."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from elevations.cutting.load import check
from elevations.cutting.plan import DEFAULT_TIME_LIMIT_S, plan
from elevations.cutting.stock import CutBar, Plan, Stock, tenths
from elevations.errors import Problem, SpecError
from elevations.schedules.cutting_row import TO_BEND, CuttingRow


@dataclass(frozen=True)
class BarSet:
    """The bars of one finish that one profile, or several alike, are cut from."""

    profile: str
    """What the bars are called: 'frame', 'mullion and transom'."""
    system: str
    finish_outside: str
    finish_inside: str
    plan: Plan
    pieces: tuple[tuple[str, ...], ...]
    """For each bar of the plan what its pieces are for, in their order: 'W1-head'."""
    ends: tuple[tuple[str, ...], ...] = ()
    """How these are cut: '45/45'; see `CuttingRow`."""
    forms: tuple[tuple[str, ...], ...] = ()
    """What else each piece is: 'to bend', 'top end two cuts'; empty for a length with two straight cuts."""

    @cached_property
    def usual_ends(self) -> str:
        """How the ends of most of its straight pieces are cut; empty where nothing says."""
        kinds = Counter(
            ends for number, bar in enumerate(self.ends) for ends, form in zip(bar, self.forms_of(number), strict=True) if form != TO_BEND
        )
        return max(kinds, key=lambda ends: (kinds[ends], ends), default="")

    @property
    def ends_words(self) -> str:
        """'ends 45/45', or 'ends 45/45 unless said' where some pieces are cut otherwise."""
        if not self.usual_ends:
            return ""   # nothing says, or all are to be bent and each says its own
        return f"ends {self.usual_ends}" + ("" if all(ends == self.usual_ends for bar in self.ends for ends in bar) else " unless said")

    def named(self, bar: int) -> tuple[str, ...]:
        """What the pieces of a bar (from 0) are for, each with what it is beside a length, and its ends where these are not the usual ones: 'W1-M1 52/90'."""
        if not self.ends:
            return self.pieces[bar]
        return tuple(
            " ".join(filter(None, (name, form, "" if ends == self.usual_ends else ends)))
            for name, ends, form in zip(self.pieces[bar], self.ends[bar], self.forms_of(bar), strict=True)
        )

    def forms_of(self, bar: int) -> tuple[str, ...]:
        """What else the pieces of a bar (from 0) are."""
        return self.forms[bar] if self.forms else ("",) * len(self.pieces[bar])

    @property
    def bends(self) -> bool:
        """Whether any of its pieces is to be bent."""
        return any(form == TO_BEND for bar in self.forms for form in bar)

    @property
    def title(self) -> str:
        """'flush-70 frame, RAL 7038 outside, RAL 9016 inside'."""
        finishes = [f"{code} {face}" for code, face in ((self.finish_outside, "outside"), (self.finish_inside, "inside")) if code]
        return ", ".join([f"{self.system} {self.profile}", *finishes])


def own_stock(rows: Sequence[CuttingRow]) -> Stock:
    """Whole bars of the system's length, and no more known of them: no kerf, no trim, no off-cuts."""
    return Stock(rows[0].bar_length_mm)


def bar_sets(
    rows: Sequence[CuttingRow],
    stock_of: Callable[[Sequence[CuttingRow]], Stock] = own_stock,
    time_limit_s: float = DEFAULT_TIME_LIMIT_S,
) -> tuple[BarSet, ...]:
    """A plan for each kind of bar and finish, in the order of the rows; `time_limit_s` is for all of them together.

    `stock_of` is asked once for each, with its rows. Raises SpecError with every piece that
    is too long for its bars.
    """
    groups: dict[tuple[str, ...], list[CuttingRow]] = {}
    for row in rows:
        groups.setdefault((row.bars, row.system, row.finish_outside, row.finish_inside, f"{row.bar_length_mm:g}"), []).append(row)
    stocks = [stock_of(group) for group in groups.values()]
    groups = {key: [blank(row, stock) for row in group] for (key, group), stock in zip(groups.items(), stocks, strict=True)}
    problems = [
        problem for stock, group in zip(stocks, groups.values(), strict=True) for problem in _problems(group, stock)
    ]
    if problems:
        raise SpecError(problems)
    deadline = time.monotonic() + time_limit_s
    made = []
    for number, (stock, group) in enumerate(zip(stocks, groups.values(), strict=True)):
        share = max(0.0, deadline - time.monotonic()) / (len(groups) - number)
        made.append(_bar_set(group, stock, share))
    return tuple(made)


def blank(row: CuttingRow, stock: Stock) -> CuttingRow:
    """A row as it comes off the saw: what is to be bent is cut square and longer by the grip, its own ends when it is bent."""
    return replace(row, length_mm=row.length_mm + 2 * stock.grip_mm, ends="90/90") if row.bends else row


def _problems(group: Sequence[CuttingRow], stock: Stock) -> list[Problem]:
    """What can't be cut, each with what it is for; what is wrong with the stock itself only once."""
    try:
        check({}, stock)
    except SpecError as error:
        return [replace(p, message=f"{group[0].system} {group[0].bars}: {p.message}") for p in error.problems]
    found = []
    for row in group:
        try:
            check({row.length_mm: row.quantity}, stock)
        except SpecError as error:
            listed = ", ".join(row.pieces[:4]) + (", …" if len(row.pieces) > 4 else "")
            grip = f", to bend, {stock.grip_mm:g} mm longer at each end for the grip" if row.bends and stock.grip_mm else ""
            found += [replace(p, message=f"{row.profile} for {listed}{grip}: {p.message}") for p in error.problems]
    return found


def _bar_set(group: Sequence[CuttingRow], stock: Stock, time_limit_s: float) -> BarSet:
    counts: dict[float, int] = {}
    waiting: dict[int, list[tuple[str, str, str]]] = {}
    for row in group:
        counts[row.length_mm] = counts.get(row.length_mm, 0) + row.quantity
        waiting.setdefault(tenths(row.length_mm), []).extend((piece, row.ends, row.form) for piece in row.pieces)
    made = plan(counts, stock, time_limit_s)
    first, given = group[0], [_given(bar, waiting) for bar in made.bars]
    return BarSet(
        first.bars, first.system, first.finish_outside, first.finish_inside, made,
        *(tuple(tuple(piece[fact] for piece in bar) for bar in given) for fact in range(3)),
    )


def _given(bar: CutBar, waiting: dict[int, list[tuple[str, str, str]]]) -> tuple[tuple[str, str, str], ...]:
    """What each piece of a bar is for, how its ends are cut and what else it is, first come, first served among equal lengths."""
    return tuple(waiting[tenths(piece)].pop(0) for piece in bar.pieces_mm)
