"""Cutting plans against instances of known optimum, against brute force, and against their own account."""

import sys
from collections import Counter
from functools import cache
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.cutting import plan as planning
from elevations.cutting.bounds import simple_bound
from elevations.cutting.filling import best_fit, fill, first_fit
from elevations.cutting.load import load_of, new_bars
from elevations.cutting.plan import plan
from elevations.cutting.stock import Stock, tenths
from elevations.errors import SpecError

ROLLS = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
}

# Optima: 73 read in an encyclopaedia's article on the cutting stock problem; all of them computed with SciPy 1.17.1 milp
# over every maximal pattern (status optimal). First-fit decreasing computed too. Piece lists: 'small' from Chvatal, Linear
# Programming (1983) by way of the NEOS guide; 'paper mill' from GLPK's examples/cut-fix-size.mod; 'wide' from a stored
# AMPL example; 'reels' from an exercise whose own aim differs.
KNOWN = [
    ("rolls", Stock(5600), ROLLS, 73, 82),
    ("rolls, kerf 4", Stock(5600, kerf_mm=4), ROLLS, 74, 82),
    ("small", Stock(100), {14: 211, 31: 395, 36: 610, 45: 97}, 453, 485),
    ("paper mill", Stock(110), {20: 48, 45: 35, 50: 24, 55: 10, 75: 8}, 47, 47),
    ("wide", Stock(6450), {677: 10, 756: 40, 1746: 33, 1876: 10}, 18, 19),
    ("reels", Stock(100), {60: 30, 48: 50, 36: 25, 24: 90}, 77, 77),
]


@pytest.mark.parametrize(("name", "stock", "pieces", "optimum", "first_fit_takes"), KNOWN, ids=[k[0] for k in KNOWN])
def test_instances_of_known_optimum_are_solved_and_proven(name, stock, pieces, optimum, first_fit_takes):
    pytest.importorskip("highspy")
    made = plan(pieces, stock, 60)
    assert (optimum, optimum, first_fit_takes) == (made.new_bars, made.fewest_possible, made.first_fit_bars)
    assert made.proven
    assert not made.hit_time_limit


@pytest.mark.parametrize("kerf", [2, 3, 5])
def test_any_usual_kerf_costs_the_rolls_one_bar(kerf):
    pytest.importorskip("highspy")
    assert plan(ROLLS, Stock(5600, kerf_mm=kerf), 60).new_bars == 74


def test_without_the_solver_a_plan_is_made_and_says_that_it_is_not_proven(monkeypatch):
    monkeypatch.setattr(planning, "find_spec", lambda _: None)
    made = plan(ROLLS, Stock(5600))
    assert made.new_bars < 82
    assert made.fewest_possible == 73
    assert not made.proven
    assert "not proven: 73 may be possible" in made.method
    assert "highspy" in made.method


def test_without_the_solver_a_plan_that_meets_the_bound_is_proven(monkeypatch):
    monkeypatch.setattr(planning, "find_spec", lambda _: None)
    made = plan({2000: 6}, Stock(6000))
    assert made.proven
    assert made.new_bars == 2


def test_the_solver_is_loaded_only_when_it_is_needed(monkeypatch):
    monkeypatch.setitem(sys.modules, "highspy", None)   # an import of it would now fail
    assert plan({2000: 6}, Stock(6000)).new_bars == 2


def test_no_kerf_is_wasted_after_the_last_piece():
    bar, = plan({1996: 2, 2000: 1}, Stock(6000, kerf_mm=4)).bars
    assert 1996 + 4 + 1996 + 4 + 2000 == 6000
    assert (bar.kerf_mm, bar.rest_mm) == (8, 0)


def test_a_rest_shorter_than_the_kerf_is_sawn_away():
    bar, = plan({1996: 2, 1999: 1}, Stock(6000, kerf_mm=4)).bars
    assert (bar.kerf_mm, bar.rest_mm) == (4 + 4 + 1, 0)


def test_a_kept_rest_keeps_its_untrimmed_end():
    made = plan({4000: 1}, Stock(6000, kerf_mm=4, end_trim_mm=10, least_usable_off_cut_mm=1500))
    bar, = made.bars
    assert 6000 - 10 - 4000 - 4 == 1986 == bar.rest_mm
    assert bar.kept
    assert bar.trims_mm == 10
    assert (made.kept_mm, made.waste_mm) == (1986, 10 + 4)


def test_off_cuts_are_used_before_new_bars():
    made = plan({1000: 4, 5900: 1}, Stock(6000, off_cuts={2100.0: 1, 2050.0: 1, 700: 3}))
    assert [(bar.stock_mm, bar.off_cut) for bar in made.bars] == [(2050, True), (2100, True), (6000, False)]
    assert made.proven
    assert made.new_bars == 1


def test_off_cuts_alone_may_do():
    made = plan({800: 1}, Stock(6000, off_cuts={900: 2}))
    assert (made.new_bars, len(made.bars)) == (0, 1)
    assert made.proven


def test_of_plans_with_equal_bars_the_one_with_the_longest_rest_is_kept():
    # first-fit leaves 500 of 3000 + 2500 and 800 of 2200 + 2000 + 1000; 3000 + 2000 + 1000 fills a bar and leaves 1300 of the other
    made = plan({3000: 1, 2500: 1, 2200: 1, 2000: 1, 1000: 1}, Stock(6000))
    assert made.new_bars == 2
    assert max(bar.rest_mm for bar in made.bars) == 2 * 6000 - (3000 + 2500 + 2200 + 2000 + 1000) == 1300


def test_nothing_to_cut_takes_no_bar():
    made = plan({}, Stock())
    assert (made.bars, made.new_bars, made.waste_mm, made.waste_percent) == ((), 0, 0, 0)


def test_pieces_that_differ_below_a_tenth_of_a_mm_are_one_size():
    made = plan({1000.02: 1, 1000.04: 2}, Stock())
    assert made.bars[0].pieces_mm == (1000.0, 1000.0, 1000.0)


def test_every_impossible_piece_is_named_at_once():
    with pytest.raises(SpecError) as caught:
        plan({6000: 1, 5981: 3, 5980: 1, 0: 2, 700: -1, float("nan"): 1}, Stock(6000, end_trim_mm=10))
    texts = [problem.message for problem in caught.value.problems]
    assert texts[0] == "a piece of 6000 mm is longer than the 6000 mm bar, which leaves 5980 mm after 10 mm end trim at each end"
    assert texts[1].startswith("3 pieces of 5981 mm are longer")
    assert [problem.code for problem in caught.value.problems] == [
        "piece-too-long", "piece-too-long", "piece-length", "piece-count", "piece-length",
    ]


@pytest.mark.parametrize(("stock", "says"), [
    (Stock(6000, kerf_mm=-1), "kerf must be 0 mm or more"),
    (Stock(20, end_trim_mm=10), "leaves nothing"),
    (Stock(6000, off_cuts={6001: 1}), "can't come from a 6000 mm bar"),
    (Stock(6000, off_cuts={600: -1}), "can't be in stock"),
    (Stock(float("inf")), "bar length must be"),
])
def test_impossible_stock_is_said_in_words(stock, says):
    with pytest.raises(SpecError, match=says):
        plan({1000: 1}, stock)


def test_the_clock_is_named_when_it_ends_the_search():
    made = plan(ROLLS, Stock(5600), 0)
    assert made.hit_time_limit
    assert not made.proven
    assert "time limit" in made.method
    assert made.new_bars <= 82


stocks = st.builds(
    Stock,
    bar_length_mm=st.integers(9000, 12000).map(lambda n: n / 10),
    kerf_mm=st.integers(0, 60).map(lambda n: n / 10),
    end_trim_mm=st.integers(0, 200).map(lambda n: n / 10),
    off_cuts=st.dictionaries(st.integers(100, 900).map(float), st.integers(0, 2), max_size=3),
    least_usable_off_cut_mm=st.none() | st.integers(0, 600).map(float),
)
some_pieces = st.dictionaries(st.integers(500, 8500).map(lambda n: n / 10), st.integers(0, 6), max_size=12)


@given(some_pieces, stocks)
@settings(max_examples=150, deadline=None)
def test_every_bar_adds_up_and_every_piece_is_cut(pieces, stock):
    made = plan(pieces, stock, 30)
    cut = Counter(piece for bar in made.bars for piece in bar.pieces_mm)
    assert cut == Counter({length: count for length, count in pieces.items() if count})
    for bar in made.bars:
        assert tenths(bar.stock_mm) == sum(map(tenths, (*bar.pieces_mm, bar.kerf_mm, bar.trims_mm, bar.rest_mm)))
        assert min(bar.kerf_mm, bar.rest_mm, bar.trims_mm) >= 0
        assert bar.kerf_mm <= len(bar.pieces_mm) * stock.kerf_mm + 1e-9
        # the machine's own view: trim, then pieces with a kerf between them, must end before the far trim
        ends = stock.end_trim_mm + sum(bar.pieces_mm) + stock.kerf_mm * (len(bar.pieces_mm) - 1)
        assert ends <= bar.stock_mm - stock.end_trim_mm + 1e-6
        assert bar.kept == (
            stock.least_usable_off_cut_mm is not None and bar.rest_mm > stock.end_trim_mm * bar.kept
            and bar.rest_mm + stock.end_trim_mm * (not bar.kept) >= stock.least_usable_off_cut_mm
        )
    from_stock = Counter(bar.stock_mm for bar in made.bars if bar.off_cut)
    assert all(count <= stock.off_cuts[length] for length, count in from_stock.items())
    assert all(bar.stock_mm == stock.bar_length_mm for bar in made.bars if not bar.off_cut)
    assert tenths(made.stock_mm) == tenths(made.pieces_mm) + tenths(made.waste_mm) + tenths(made.kept_mm)


@given(some_pieces, stocks)
@settings(max_examples=100, deadline=None)
def test_no_plan_is_worse_than_first_fit_or_better_than_the_bound(pieces, stock):
    made = plan(pieces, stock, 30)
    assert made.fewest_possible <= made.new_bars <= made.first_fit_bars
    assert made.proven == (made.new_bars == made.fewest_possible)


@given(some_pieces, stocks)
@settings(max_examples=25, deadline=None)
def test_the_same_input_gives_the_same_plan(pieces, stock):
    backwards = dict(reversed(pieces.items()))
    assert plan(pieces, stock, 60) == plan(backwards, stock, 60)


def fewest_by_trying_all(pieces, stock):
    """The fewest new bars, by putting each piece into every bar in turn; off-cuts cost nothing."""
    kerf, trims = tenths(stock.kerf_mm), 2 * tenths(stock.end_trim_mm)
    room = tenths(stock.bar_length_mm) - trims + kerf
    off_cuts = [tenths(length) - trims + kerf for length, there in stock.off_cuts.items() for _ in range(there)]
    sizes = sorted((tenths(length) + kerf for length, count in pieces.items() for _ in range(count)), reverse=True)

    @cache
    def least(at, free, bars):
        if at == len(sizes):
            return 0
        size = sizes[at]
        ways = [1 + least(at + 1, free, tuple(sorted((*bars, room - size))))]
        for held, other in ((free, False), (bars, True)):
            for i, left in enumerate(held):
                if left >= size and left not in held[:i]:
                    after = tuple(sorted((*held[:i], left - size, *held[i + 1:])))
                    ways.append(least(at + 1, free, after) if other else least(at + 1, after, bars))
        return min(ways)

    return least(0, tuple(sorted(off_cuts)), ())


tiny_pieces = st.lists(st.integers(100, 700), max_size=7).map(lambda lengths: Counter(map(float, lengths)))
tiny_stocks = st.builds(
    Stock,
    bar_length_mm=st.just(1000.0),
    kerf_mm=st.sampled_from([0, 3.5, 20]),
    end_trim_mm=st.sampled_from([0, 25]),
    off_cuts=st.dictionaries(st.integers(150, 900).map(float), st.integers(1, 1), max_size=2),
)


@given(tiny_pieces, tiny_stocks)
@settings(max_examples=200, deadline=None)
def test_tiny_jobs_get_the_fewest_bars_that_trying_everything_finds(pieces, stock):
    pytest.importorskip("highspy")
    made, fewest = plan(pieces, stock, 30), fewest_by_trying_all(pieces, stock)
    assert made.fewest_possible <= fewest <= made.new_bars
    if made.proven:
        assert made.new_bars == fewest
    load = load_of({tenths(length): count for length, count in pieces.items()}, stock)
    assert simple_bound(load) <= fewest


few_sizes = st.lists(st.integers(150, 600), min_size=2, max_size=5).flatmap(
    lambda sizes: st.lists(st.sampled_from(sizes), min_size=4, max_size=9)
).map(lambda lengths: Counter(map(float, lengths)))


@given(few_sizes, tiny_stocks)
@settings(max_examples=200, deadline=None)
def test_the_solver_makes_up_for_poor_rules_of_thumb(pieces, stock):
    pytest.importorskip("highspy")
    with mock.patch.object(planning, "_rules_of_thumb", return_value=()):
        made = plan(pieces, stock, 30)
    assert made.proven
    assert made.new_bars == fewest_by_trying_all(pieces, stock)


@given(some_pieces, stocks)
@settings(max_examples=60, deadline=None)
def test_each_rule_of_thumb_packs_every_piece_into_rooms_that_hold_it(pieces, stock):
    load = load_of({tenths(length): count for length, count in pieces.items()}, stock)
    for packing in (first_fit(load), best_fit(load), fill(load)):
        assert [sum(p.counts[n] for p in packing) for n in range(len(load.sizes))] == list(load.counts)
        for packed in packing:
            assert sum(s * c for s, c in zip(load.sizes, packed.counts, strict=True)) <= load.rooms[packed.kind]
        assert simple_bound(load) <= new_bars(load, packing)
