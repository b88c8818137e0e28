import math

import pytest

from elevations.drawing.entities import Dimension, Fill, Label, Leader, Stroke, Symbol
from elevations.drawing.explode import (
    baseline,
    dimension_box,
    dimension_label,
    dimension_leader,
    dimension_lines,
    dimension_text,
    dimension_ticks,
    explode_dimension,
    explode_leader,
)
from elevations.drawing.extent import bounds_of, bounds_of_all, text_boxes
from elevations.drawing.layers import Layer
from elevations.drawing.lettering import ASCENT, DESCENT, text_width
from elevations.plane import Box, Corner, Point

BELOW = Dimension(Point(0, 0), Point(1200, 0), -100, upright=False)
LEFT = Dimension(Point(0, 0), Point(0, 900), -100, upright=True)


def _ends(stroke):
    return [tuple(corner[:2]) for corner in stroke.corners]


@pytest.mark.parametrize(
    ("value", "text"), [(1216, "1216"), (351.5, "351.5"), (351.04, "351"), (0.05 + 0.3, "0.3"), (1199.96, "1200"), (45.0, "45")]
)
def test_lengths_are_whole_or_have_one_decimal(value, text):
    assert dimension_text(value) == text


def test_extension_lines_start_1_mm_off_the_thing_and_run_1_5_mm_past_the_line():
    # 1:10: 10 and 15 mm in the view
    assert [_ends(line) for line in dimension_lines(BELOW, 10)] == [
        [(0, -10), (0, -115)], [(1200, -10), (1200, -115)], [(0, -100), (1200, -100)],
    ]


def test_an_upright_dimension_on_the_left_has_its_lines_level():
    assert [_ends(line) for line in dimension_lines(LEFT, 10)] == [
        [(-10, 0), (-115, 0)], [(-10, 900), (-115, 900)], [(-100, 0), (-100, 900)],
    ]


def test_ticks_are_oblique_at_45_degrees_as_read():
    for dim, degrees in ((BELOW, 45), (LEFT, 135)):
        for tick in dimension_ticks(dim, 10):
            (x1, y1), (x2, y2) = _ends(tick)
            assert math.degrees(math.atan2(y2 - y1, x2 - x1)) == pytest.approx(degrees)


def test_text_stands_above_a_level_line_and_left_of_an_upright_one():
    level, upright = dimension_label(BELOW, 10), dimension_label(LEFT, 10)
    assert (level.at, level.angle, level.text) == (Point(600, -90), 0, "1200")
    assert (upright.at, upright.angle, upright.text) == (Point(-110, 450), 90, "900")


@pytest.mark.parametrize(("line_at", "upright"), [(-100, False), (1000, False), (-100, True), (1000, True)])
def test_shifted_text_goes_away_from_the_thing_and_has_a_leader(line_at, upright):
    start, end = (Point(0, 0), Point(0, 8)) if upright else (Point(0, 0), Point(8, 0))
    plain = Dimension(start, end, line_at, upright)
    shifted = Dimension(start, end, line_at, upright, shift=1)
    assert dimension_leader(plain, 10) is None
    assert dimension_leader(shifted, 10) is not None
    across = 0 if upright else 1
    out = math.copysign(1, line_at)
    assert (dimension_box(shifted, 10).centre[across] - line_at) * out > 25
    assert not dimension_box(shifted, 10).overlaps(dimension_box(plain, 10))


def test_a_dimension_explodes_into_five_lines_and_its_text():
    parts = explode_dimension(BELOW, 10)
    assert [type(part) for part in parts] == [Stroke] * 5 + [Label]


@pytest.mark.parametrize(("level", "angle", "expected"), [
    ("base", 0, (0, 0)), ("middle", 0, (0, -12.5)), ("top", 0, (0, -25)), ("middle", 90, (12.5, 0)), ("top", 90, (25, 0)),
])
def test_the_baseline_lies_below_the_middle_and_the_top_of_capitals(level, angle, expected):
    label = Label("H", Point(0, 0), 2.5, level=level, angle=angle)
    assert tuple(baseline(label, 10)) == pytest.approx(expected)


def test_a_leader_ends_in_a_dot_on_its_thing_and_its_text_beside_its_far_end():
    line, dot, label = explode_leader(Leader((Point(0, 0), Point(50, 50), Point(90, 50)), "bead", 2.5), 10)
    assert _ends(line) == [(0, 0), (50, 50), (90, 50)]
    assert isinstance(dot, Fill)
    assert dot.outline.bounds == pytest.approx(Box(-4, -4, 4, 4))
    assert (label.at.x, label.align) == (98, "left")


def test_a_leader_that_runs_left_has_its_text_on_the_left():
    *_, label = explode_leader(Leader((Point(0, 0), Point(-50, 50)), "bead", 2.5), 10)
    assert (label.at.x, label.align) == (-58, "right")


def test_bounds_of_text_reach_from_descenders_to_accents():
    box = bounds_of(Label("Åg", Point(0, 0), 2.5), 10)
    assert box == pytest.approx(Box(0, -DESCENT * 25, text_width("Åg", 25), ASCENT * 25))


def test_bounds_of_an_open_arc_do_not_bulge_on_the_way_back():
    half_turn = Stroke((Corner(0, 0, 1.0), Corner(10, 0, 1.0)), Layer.FRAME)
    assert bounds_of(half_turn, 1) == pytest.approx(Box(0, -5, 10, 0))


def test_bounds_of_a_symbol_grow_with_the_scale():
    assert bounds_of(Symbol("fixing", Point(100, 100), Layer.FIXING), 10).width > 24 - 1e-9


def test_bounds_of_a_dimension_hold_its_text_and_lines():
    box = bounds_of(BELOW, 10)
    assert box.left <= 0
    assert box.right >= 1200
    assert box.bottom == -115
    assert bounds_of_all([BELOW, LEFT], 10).top >= 900


def test_texts_of_dimensions_and_leaders_are_found_with_their_boxes():
    leader = Leader((Point(0, 0), Point(50, 50)), "bead", 2.5)
    assert [text for text, _ in text_boxes([BELOW, leader, Label("G1", Point(0, 0), 2.5)], 10)] == ["1200", "bead", "G1"]
