"""The knapsacks inside a cutting plan against trying everything."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.cutting.columns import fullest_worths
from elevations.cutting.filling import fullest


def every_choice(counts):
    chosen = [()]
    for count in counts:
        chosen = [(*c, n) for c in chosen for n in range(count + 1)]
    return chosen


small_knapsacks = st.lists(st.tuples(st.integers(1, 30), st.integers(1, 3), st.integers(0, 50)), min_size=1, max_size=5)


@given(small_knapsacks, st.integers(1, 80), st.integers(1, 80))
@settings(max_examples=150, deadline=None)
def test_the_knapsack_finds_what_trying_everything_finds(items, room, other_room):
    pytest.importorskip("numpy")
    sizes, counts, worths = zip(*items, strict=True)
    fillings, values = fullest_worths(sizes, counts, worths, (room, other_room))
    for filling, value, here in zip(fillings, values, (room, other_room), strict=True):
        fits = [c for c in every_choice(counts) if sum(map(int.__mul__, c, sizes)) <= here]
        assert filling in fits
        assert sum(map(int.__mul__, filling, worths)) == value == max(sum(map(int.__mul__, c, worths)) for c in fits)


@given(small_knapsacks, st.integers(1, 80))
@settings(max_examples=150, deadline=None)
def test_the_fullest_filling_is_the_fullest_there_is(items, room):
    by_size = {size: count for size, count, _ in items}
    sizes = sorted(by_size, reverse=True)
    counts = [by_size[size] for size in sizes]
    filled = fullest(sizes, counts, room)
    fits = [c for c in every_choice(counts) if sum(map(int.__mul__, c, sizes)) <= room]
    assert filled in fits
    assert sum(map(int.__mul__, filled, sizes)) == max(sum(map(int.__mul__, c, sizes)) for c in fits)
