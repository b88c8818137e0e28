"""Fixing positions: the trade's rules, the clashes between them, and the best spread judged by brute force.

Rules: NHBC Standards 6.7.11 as read in the reference notes: 150 to 250 from the corner, at most 600 apart, at least 150 from a
mullion's or transom's centre line. Two fixings a side on a small frame, 150 from top and bottom: common practice, no source.
"""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.geometry.fixings import BarAt, place_on_side
from elevations.spec.model import Fixings

RULES = Fixings()


def along(length, bars=(), rules=RULES):
    spots, findings = place_on_side("W1", "head", length, [BarAt(f"M{i + 1}", b) for i, b in enumerate(bars)], rules)
    return [s.along for s in spots], [f.code for f in findings]


@pytest.mark.parametrize(("length", "expected"), [
    (600, [150, 450]),                                # small frame: two a side, 150 from top and bottom
    (900, [150, 750]),                                # 750 - 150 = 600: still two
    (901, [150, 450.5, 751]),                         # one over: three
    (1050, [150, 150 + 750 / 2, 900]),
    (1500, [150, 750, 1350]),
    (1501, [150, 150 + 1201 / 3, 150 + 2 * 1201 / 3, 1351]),
    (2100, [150, 750, 1350, 1950]),
])
def test_a_clear_side_has_the_fewest_evenly_spaced(length, expected):
    # count n = max(2, ceil((L - 2c) / 600) + 1): reference notes, section 1, computed from NHBC 6.7.11
    assert along(length) == (pytest.approx(expected), [])


def test_a_bar_in_the_middle_pushes_the_fixing_to_its_clear_distance():
    # 1200 wide, mullion at 600: none between 450 and 750; one fixing is enough, at 450: gaps 300 and 600
    assert along(1200, [600]) == ([150, 450, 1050], [])


def test_two_mullions_of_a_wide_window():
    # none in 450..750 or 1050..1350; 150 + 600 = 750, 750 + 600 = 1350, then 1660
    assert along(1810, [600, 1200]) == ([150, 750, 1350, 1660], [])


@pytest.mark.parametrize("at", [101, 150, 200, 250, 299])
def test_a_transom_100_to_300_from_the_corner_clashes_and_is_reported(at):
    places, codes = along(1200, [at])
    assert codes[0] == "fixing-near-bar"
    assert places[0] == 150
    assert all(abs(p - at) >= 150 for p in places[1:])


def test_a_transom_at_300_just_leaves_the_corner_distance():
    assert along(1200, [300])[1] == []


@pytest.mark.parametrize("at", [60, 100])
def test_a_bar_close_to_the_corner_moves_the_fixing_within_250_and_says_so(at):
    places, codes = along(1200, [at])
    assert codes == ["fixing-moved"]
    assert places[0] == at + 150 <= 250


def test_the_far_corner_mirrors_the_near_one():
    near, near_codes = along(1300, [80])
    far, far_codes = along(1300, [1300 - 80])
    assert far_codes == near_codes == ["fixing-moved"]
    assert [1300 - p for p in reversed(far)] == pytest.approx(near)


def test_bars_so_close_that_no_fixing_fits_between_are_reported():
    # zones 250..550 and 500..800 and 750..1050 join to 250..1050: 800 without a fixing
    places, codes = along(1500, [400, 650, 900])
    assert "fixing-spacing" in codes
    assert {250, 1050} <= set(places)


def test_a_gap_one_millimetre_too_long_is_reported():
    # bars at 400, 550 and 700: no fixing from 250 to 850, which is 600: fine; the last at 701 makes it 601
    assert along(1500, [400, 550, 700]) == ([150, 250, 850, 1350], [])
    assert along(1500, [400, 550, 701]) == ([150, 250, 851, 1350], ["fixing-spacing"])


def test_a_side_too_short_for_two_gets_one_and_says_so():
    assert along(280) == ([140], ["fixing-side-short"])
    assert along(349)[1] == ["fixing-side-short"]
    assert along(350) == ([150, 200], [])


def test_own_rules_replace_the_usual_ones():
    rules = Fixings(corner=200, spacing=400, clear_of_bars=100)
    assert along(1000, [], rules) == (pytest.approx([200, 500, 800]), [])
    # 200 to 1000 asks for one between, but 600 is the bar and 500 or 700 leave a gap of 500: so two, 800 / 3 apart
    assert along(1200, [600], rules) == (pytest.approx([200, 200 + 800 / 3, 200 + 1600 / 3, 1000]), [])


def brute(start, end, zones, spacing, step):
    """Fewest interior places on a grid, then the least sum of squared gaps; None where six don't do."""
    free = [p for p in range(start + step, end, step) if all(not low < p < high for low, high in zones)]
    for count in range(6):
        best = None
        for places in itertools.combinations(free, count):
            stops = [start, *places, end]
            gaps = [b - a for a, b in itertools.pairwise(stops)]
            if max(gaps) <= spacing:
                squares = sum(g * g for g in gaps)
                best = squares if best is None else min(best, squares)
        if best is not None:
            return count, best
    return None


@settings(max_examples=60, deadline=None)
@given(st.integers(9, 32), st.lists(st.integers(6, 26), max_size=2, unique=True))
def test_no_other_arrangement_has_fewer_fixings_or_is_more_even(length, bars):
    step = 50
    length, bars = length * step, sorted(b * step for b in bars if 6 * step <= b * step <= (length - 6) * step)
    places, codes = along(length, bars)
    zones = [(b - 150, b + 150) for b in bars]
    found = brute(150, length - 150, zones, 600, step)
    if found is None:
        assert "fixing-spacing" in codes
        return
    assert codes == []
    gaps = [b - a for a, b in itertools.pairwise(places)]
    assert all(abs(p - b) >= 150 - 1e-6 for p in places for b in bars)
    assert max(gaps) <= 600 + 1e-6
    assert len(places) - 2 <= found[0]
    if len(places) - 2 == found[0]:
        assert sum(g * g for g in gaps) <= found[1] + 1e-3
