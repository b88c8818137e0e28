"""The largest level and plumb rectangle in a surveyed hole, and the best place of a given one, against brute force.

shapely judges what lies inside; a grid that closes in, random rectangles and every vertex of the linear program are the oracles.
"""

from __future__ import annotations

import math
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from elevations.errors import SpecError
from elevations.geometry.fit_plane import largest_product, vertices
from elevations.geometry.fit_rectangle import NOT_INSIDE_OUT, best_place, largest_rectangle
from elevations.geometry.hole import Hole, Inward, constraints, hole_of
from elevations.plane import Point
from elevations.spec.site import Opening
from tests.jobs import window_of


def opening_of(width, height, lean=0.0, slope=0.0, bow=0.0, level=0.0):
    """An opening of nearly those sizes, jambs `lean` out of plumb, head `slope` out of level, bowed by `bow`, its sill `level` up at the right."""
    bl, br, tr, tl = (0, 0), (width, level), (width + lean, height + slope), (lean / 2, height)
    side = math.dist
    middle = side(((bl[0] + tl[0]) / 2, (bl[1] + tl[1]) / 2), ((br[0] + tr[0]) / 2, (br[1] + tr[1]) / 2))
    up = side(((bl[0] + br[0]) / 2, level / 2), ((tl[0] + tr[0]) / 2, (tl[1] + tr[1]) / 2))
    return Opening.model_construct(
        width=(side(tl, tr), middle - bow, side(bl, br)), height=(side(bl, tl), up - bow / 2, side(br, tr)),
        diagonals=(side(tl, br), side(tr, bl)), out_of_level=level,
    )


def polygon(hole):
    right, head, left = list(hole.right), list(reversed(hole.head)), list(reversed(hole.left))
    return Polygon([*hole.sill, *right[1:], *head[1:], *left[1:-1]])


def searched(hole):
    """The largest rectangle by a grid that closes in on it; shapely judges what is inside."""
    shape = polygon(hole).buffer(1e-7)
    spans = [[p[axis] for p in side] for side, axis in ((hole.left, 0), (hole.right, 0), (hole.sill, 1), (hole.head, 1))]
    centre = [(min(span) + max(span)) / 2 for span in spans]
    step = max(max(span) - min(span) for span in spans) / 2 + 2.0
    best = (0.0, centre)
    while step > 0.002:
        around = best[1]
        for shift in product((-1, -0.5, 0, 0.5, 1), repeat=4):
            left, right, bottom, top = (c + s * step for c, s in zip(around, shift, strict=True))
            area = (right - left) * (top - bottom)
            if area > best[0] and shape.contains(box(left, bottom, right, top)):
                best = (area, [left, right, bottom, top])
        step *= 0.7
    return best


@pytest.mark.parametrize("numbers", [
    (1200, 1000, 0, 0, 0), (1200, 1000, 15, 0, 0), (1200, 1000, 0, 12, 0), (900, 1400, 20, -14, 4), (2400, 600, -18, 9, 6),
    (1200, 1000, 8, 3, 5, 14), (1000, 1300, -10, -6, 0, -20),
])
def test_no_grid_finds_a_larger_rectangle(numbers):
    hole = hole_of(opening_of(*numbers), ())
    found = largest_rectangle(hole, Inward())
    area, sides = searched(hole)
    assert polygon(hole).buffer(1e-6).contains(box(found.left, found.bottom, found.right, found.top))
    assert found.width * found.height >= area - 1e-3
    # The grid comes close to it too: a 0.01 mm error in either side would show.
    assert area >= found.width * found.height - 0.05 * (found.width + found.height)
    assert sides[1] - sides[0] == pytest.approx(found.width, abs=5)


@settings(max_examples=60, deadline=None)
@given(
    st.floats(400, 3000), st.floats(400, 2500), st.floats(-15, 15), st.floats(-15, 15), st.floats(0, 8),
    st.lists(st.tuples(*[st.floats(0, 1)] * 4), min_size=30, max_size=30),
)
def test_no_random_rectangle_is_larger(width, height, lean, slope, bow, shares):
    """Random left, right and bottom; the highest top by the polygon itself."""
    hole = hole_of(opening_of(width, height, lean, slope, bow), ())
    found = largest_rectangle(hole, Inward())
    shape = polygon(hole).buffer(1e-7)
    assert shape.contains(box(found.left + 1e-6, found.bottom + 1e-6, found.right - 1e-6, found.top - 1e-6))
    for a, b, c, d in shares:
        rect = box(found.left + 30 * (a - 0.5), found.bottom + 30 * (b - 0.5), found.right + 30 * (c - 0.5), found.top + 30 * (d - 0.5))
        if shape.contains(rect):
            assert rect.area <= found.width * found.height + 1e-3


def test_the_best_place_leaves_no_other_with_a_larger_smallest_gap():
    hole = hole_of(opening_of(1200, 1000, 12, -8, 3), ())
    placed = best_place(hole, Inward(), 1170, 980)
    shape = polygon(hole)

    def smallest(left, bottom):
        # Level and plumb gaps at the corners and along the polygon's own corners, from the outline itself.
        low, high = -50.0, 50.0
        for _ in range(40):
            middle = (low + high) / 2
            inside = shape.contains(box(left - middle, bottom, left + 1170 + middle, bottom + 980)) and shape.contains(
                box(left, bottom - middle, left + 1170, bottom + 980 + middle))
            low, high = (middle, high) if inside else (low, middle)
        return low

    best = smallest(placed.left, placed.bottom)
    for dx, dy in product((-2, -0.5, -0.1, 0.1, 0.5, 2), repeat=2):
        assert smallest(placed.left + dx, placed.bottom + dy) <= best + 0.02


@pytest.mark.parametrize("lean", [0, 6, 14])
def test_a_given_frame_stands_in_the_middle_both_ways(lean):
    """Jambs that lean differently pull the exact best place to one end for a hundredth of a mm; a fitter wants the middle."""
    hole = hole_of(opening_of(900, 1360, lean, 5, 0), ())
    box_ = best_place(hole, Inward(), 870, 1340)
    gaps = [
        min(box_.left - p.x for p in hole.left), min(p.x - box_.right for p in hole.right),
        min(box_.bottom - p.y for p in hole.sill), min(p.y - box_.top for p in hole.head),
    ]
    assert gaps[2] == pytest.approx(gaps[3], abs=0.15)
    assert gaps[0] == pytest.approx(gaps[1], abs=0.3)
    assert sum(gaps[2:]) == pytest.approx(1360 - 1340, abs=0.1)


def test_the_second_diagonal_is_what_the_sides_and_the_first_make():
    hole = hole_of(opening_of(1300, 900, 9, 7, 0), ())
    assert hole.closing == pytest.approx(0, abs=1e-9)


@settings(max_examples=150, deadline=None)
@given(st.floats(300, 6000), st.floats(300, 4000), st.floats(-0.024, 0.024), st.floats(-0.024, 0.024), st.floats(0, 12))
def test_the_short_way_finds_what_trying_every_vertex_finds(width, height, lean, slope, bow):
    """Rectangles that touch every side are tried first; the whole figure of widths and heights is the oracle."""
    hole = hole_of(opening_of(width, height, lean * height, slope * width, bow), ())
    found = largest_rectangle(hole, Inward(5, 5, 35, 5))
    every = list(vertices([*constraints(hole, Inward(5, 5, 35, 5)), *NOT_INSIDE_OUT], 4))
    i, j, share = largest_product([(at[1] - at[0], at[3] - at[2]) for at in every])
    left, right, bottom, top = (a + share * (b - a) for a, b in zip(every[i], every[j], strict=True))
    assert found.width * found.height == pytest.approx((right - left) * (top - bottom), rel=1e-9)


def tried(text):
    """The window, or what is wrong with it."""
    try:
        return window_of(text + "lights: [{light: fixed}]"), ()
    except SpecError as error:
        return None, error.problems


@settings(max_examples=60, deadline=None)
@given(st.integers(600, 2000), st.integers(600, 2000), st.integers(-9, 9), st.integers(-9, 9), st.integers(-9, 9), st.integers(-9, 9), st.integers(-12, 12))
def test_nearly_square_surveys_give_frames_nearly_as_large_as_they_measure(width, height, a, b, c, d, level):
    first = math.hypot(width, height)
    text = (
        f"opening: {{width: [{width + a}, {width}, {width + b}], height: [{height + c}, {height}, {height + d}], "
        f"diagonals: [{first + (b + d) / 2:.0f}, {first:.0f}], out_of_level: {level}}}\nfit: {{clearance: 10}}\n"
    )
    window, problems = tried(text)
    assert {problem.code for problem in problems} <= {"no-such-opening"}
    if problems:
        return
    fitted = window.site.fitted
    assert window.width.value <= min(width, width + a, width + b) - 10 + 0.1
    assert polygon(fitted.hole).buffer(0.1).contains(box(*fitted.frame))
    assert fitted.smallest >= 5 - 0.05


def test_the_largest_rectangle_of_a_long_sloping_hole_touches_only_two_corners():
    """Head and sill parallel, 45 in 1000, 300 apart: w wide it is 300 - 0.045 w high, so w = 300 / 0.09 and half of 300 high."""
    def side(x, y):
        return Point(0.0, x), Point(6000.0, y)

    sill, head = side(0.0, 270.0), side(300.0, 570.0)
    hole = Hole((sill[0], head[0]), (sill[1], head[1]), sill, head, None, squared=False)
    found = largest_rectangle(hole, Inward())
    assert (found.width, found.height) == pytest.approx((300 / 0.09, 150))
