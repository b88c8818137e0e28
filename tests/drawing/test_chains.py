from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations.drawing.chains import PITCH, chain, next_line, outside, overall
from elevations.drawing.explode import dimension_box, dimension_lines, dimension_text, measured
from elevations.drawing.extent import bounds_of
from elevations.plane import Box

POSITIONS = st.lists(st.floats(0, 4000), min_size=2, max_size=12).filter(lambda p: max(p) - min(p) > 1)
SIDES = st.sampled_from([(upright, side) for upright in (False, True) for side in (-1, 1)])


def _chain(positions, upright=False, line_at=-100.0, scale=10.0):
    return chain(positions, line_at=line_at, upright=upright, scale=scale, thing_at=0)


def _texts(dims):
    return [dimension_text(measured(dim)) for dim in dims]


def test_each_part_goes_from_one_position_to_the_next():
    assert _texts(_chain([0, 46, 618.5, 1200])) == ["46", "572.5", "581.5"]   # 618.5-46, 1200-618.5


def test_parts_of_thirds_add_up_to_the_whole():
    # 1000/3 = 333.33… three times: rounded lengths would give 999.9; rounded positions give 333.3 + 333.4 + 333.3
    dims = _chain([0, 1000 / 3, 2000 / 3, 1000])
    assert _texts(dims) == ["333.3", "333.4", "333.3"]


@given(POSITIONS)
def test_the_printed_parts_add_up_to_the_printed_overall(positions):
    (whole,) = overall(positions, line_at=-200, upright=False, scale=10, thing_at=0)
    parts = [float(text) for text in _texts(_chain(positions))]
    assert round(sum(parts), 1) == float(dimension_text(measured(whole)))


def test_the_order_of_positions_does_not_matter_and_one_given_twice_counts_once():
    assert _chain([1200, 0, 600, 600.02, 0]) == _chain([0, 600, 1200])


def test_one_position_makes_no_dimension():
    assert _chain([600]) == ()


def test_each_position_may_have_its_own_foot():
    dims = chain([0, 600, 1200], line_at=900, upright=False, scale=10, thing_at=[700, 800, 750])
    assert [(d.start.y, d.end.y) for d in dims] == [(700, 800), (800, 750)]


def test_a_wide_span_keeps_its_text_in_its_middle():
    assert all((d.shift, d.slide) == (0, 0) for d in _chain([0, 600, 1200]))


def test_a_span_of_12_at_1_to_10_has_its_text_outside():
    # 12 mm are 1.2 mm on paper; two digits of 2.5 mm are about 4.6 mm wide
    assert [d.shift for d in _chain([0, 600, 612, 1200])] == [0, 1, 0]


@given(POSITIONS, SIDES, st.sampled_from([1.0, 5.0, 10.0, 20.0, 50.0]))
def test_no_text_of_a_chain_meets_another_or_a_line_of_the_chain(positions, side, scale):
    upright, out = side
    dims = _chain(positions, upright, line_at=out * 10 * scale, scale=scale)
    boxes = [dimension_box(dim, scale) for dim in dims]
    for i, box in enumerate(boxes):
        assert not any(box.overlaps(other) for other in boxes[i + 1 :])
        # An upright or level line has no area: give it its thickness.
        lines = [bounds_of(line, scale).grown(0.05 * scale) for dim in dims for line in dimension_lines(dim, scale)]
        assert not any(box.overlaps(line) for line in lines)


@given(POSITIONS, SIDES, st.sampled_from([5.0, 10.0, 20.0]))
def test_the_next_chain_outside_is_clear_of_this_ones_texts(positions, side, scale):
    upright, out = side
    dims = _chain(positions, upright, line_at=out * 10 * scale, scale=scale)
    further = next_line(dims, scale)
    assert abs(further - dims[0].line_at) >= PITCH * scale - 1e-9
    following = [replace(dim, line_at=further, shift=0, slide=0.0) for dim in dims]
    for new in following:
        assert not any(dimension_box(new, scale).overlaps(dimension_box(old, scale)) for old in dims if old.shift)


def test_shifted_texts_stay_between_the_ends_where_there_is_room():
    dims = _chain([0, 8, 16, 1192, 1200])
    boxes = [dimension_box(dim, 10) for dim in dims if dim.shift]
    assert len(boxes) == 3
    assert min(box.left for box in boxes) >= 0
    assert max(box.right for box in boxes) <= 1200


def test_outside_is_the_line_itself_where_no_text_is_shifted():
    assert outside(_chain([0, 600, 1200]), 10) == -100


@pytest.mark.parametrize(("upright", "line_at"), [(False, -100), (False, 100), (True, -100), (True, 100)])
def test_outside_reaches_past_shifted_texts(upright, line_at):
    dims = _chain([0, 10, 1200], upright, line_at)
    box: Box = dimension_box(dims[0], 10)
    far = outside(dims, 10)
    assert abs(far) > 100
    assert far in (box.left, box.right, box.bottom, box.top)
