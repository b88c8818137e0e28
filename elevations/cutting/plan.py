"""Pieces in, cutting plan out: rules of thumb first, then HiGHS where it is installed; the best that was found."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping, Sequence
from importlib.util import find_spec
from random import Random

from elevations.cutting.bounds import simple_bound
from elevations.cutting.columns import Search, improve
from elevations.cutting.filling import best_fit, fill, first_fit
from elevations.cutting.load import Packing, check, load_of, new_bars, stock_lengths
from elevations.cutting.stock import TENTHS, CutBar, Plan, Stock, tenths

SHUFFLES = 24
"""Further fillings that are tried, each from its own fixed seed."""

DEFAULT_TIME_LIMIT_S = 5.0


def plan(pieces: Mapping[float, int], stock: Stock, time_limit_s: float = DEFAULT_TIME_LIMIT_S) -> Plan:
    """A plan that takes as few new bars as could be found; never more than first-fit decreasing.

    `pieces` is length in mm (to the nearest 0.1) → count. The same input gives the same plan unless the time limit is
    hit, which the plan then says; the quick rules run to their end whatever the limit. Raises SpecError with every piece
    that no bar can give and every impossible figure.
    """
    check(pieces, stock)
    by_length: dict[int, int] = {}
    for length_mm, count in pieces.items():
        by_length[tenths(length_mm)] = by_length.get(tenths(length_mm), 0) + count
    load = load_of(by_length, stock)
    plain = first_fit(load)
    deadline = time.monotonic() + time_limit_s
    search = Search(load, plain, simple_bound(load), lambda: deadline - time.monotonic())
    for packing in _rules_of_thumb(search):
        search.offer(packing)
    solver = find_spec("highspy") is not None
    if solver and not search.done:
        improve(search, (plain, search.packing))
    return _plan(search, stock, by_length, new_bars(load, plain), solver=solver)


def _rules_of_thumb(search: Search) -> Iterator[Packing]:
    """Packings found without a solver; the shuffled ones only for as long as nothing is proven."""
    load = search.load
    yield best_fit(load)
    yield fill(load)
    for seed in range(SHUFFLES):
        if search.done:
            return
        yield fill(load, Random(seed))  # noqa: S311 - not a secret: the same packings every time


def _plan(search: Search, stock: Stock, pieces: Mapping[int, int], first: int, *, solver: bool) -> Plan:
    """The search's packing as bars, and what is known about it."""
    load, used = search.load, new_bars(search.load, search.packing)
    lengths = sorted((length for length, count in pieces.items() if count), reverse=True)
    kinds = [length for length, _ in stock_lengths(pieces, stock)]
    bars = [
        _bar(kinds[packed.kind], packed.kind != load.bar,
             [length for length, count in zip(lengths, packed.counts, strict=True) for _ in range(count)], stock)
        for packed in sorted(search.packing, key=lambda packed: (packed.kind, [-count for count in packed.counts]))
    ]
    proven = used <= search.bound
    return Plan(
        stock=stock, bars=tuple(bars), fewest_possible=search.bound, first_fit_bars=first, proven=proven,
        hit_time_limit=search.stopped,
        method=_method(search, used, first, proven=proven, solver=solver),
    )


def _bar(length: int, off_cut: bool, pieces: Sequence[int], stock: Stock) -> CutBar:  # noqa: FBT001 - a fact, not a switch
    """One bar's account; lengths in tenths of a mm."""
    kerf, trim = tenths(stock.kerf_mm), tenths(stock.end_trim_mm)
    left = length - 2 * trim - sum(pieces) - (len(pieces) - 1) * kerf
    last = min(kerf, left)
    least = stock.least_usable_off_cut_mm
    kept = least is not None and left > last and left - last + trim >= tenths(least)
    return CutBar(
        stock_mm=length / TENTHS,
        off_cut=off_cut,
        pieces_mm=tuple(piece / TENTHS for piece in pieces),
        kerf_mm=((len(pieces) - 1) * kerf + last) / TENTHS,
        trims_mm=(trim if kept else 2 * trim) / TENTHS,
        rest_mm=(left - last + (trim if kept else 0)) / TENTHS,
        kept=kept,
    )


def _method(search: Search, used: int, first: int, *, proven: bool, solver: bool) -> str:
    """How good the plan is known to be, in words."""
    bars = "1 new bar" if used == 1 else f"{used} new bars"
    said = [f"{bars}; first-fit decreasing takes {first}"]
    if proven:
        said.append("no plan takes fewer")
    else:
        said.append(f"not proven: {search.bound} may be possible")
        if not solver:
            said.append("the optional package highspy, which looks further, is not installed")
    if search.stopped:
        said.append("the time limit ended the search, so another run may find another plan")
    return "; ".join(said)
