"""The quick way for upright rectangles gives what the general way gives, and refuses what it refuses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations import plane
from elevations.plane import Corner, OffsetError, Outline, clip, offset, rectangle

lengths = st.floats(-20, 60)


@given(st.floats(-50, 50), st.floats(-50, 50), st.floats(1, 90), st.floats(1, 90), st.integers(0, 3), st.tuples(*[lengths] * 4))
def test_a_rectangle_moves_as_any_outline_does(left, bottom, width, height, first, inward):
    corners = rectangle(left, bottom, left + width, bottom + height).corners
    outline = Outline(corners[first:] + corners[:first])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plane, "_offset_rectangle", lambda *_: None)
        try:
            general = offset(outline, inward)
        except OffsetError:
            general = None
    try:
        quick = offset(outline, inward)
    except OffsetError:
        quick = None
    assert (quick is None) == (general is None)
    if quick is not None:
        for p, q in zip(quick.corners, general.corners, strict=True):
            assert p == pytest.approx(q, abs=1e-9)


def test_the_quick_way_leaves_other_outlines_alone():
    raked = Outline((Corner(0, 0), Corner(10, 0), Corner(10, 9), Corner(0, 6)))
    arched = Outline((Corner(0, 0), Corner(10, 0), Corner(10, 6, 0.4), Corner(0, 6)))
    assert plane._offset_rectangle(raked.corners, (1, 1, 1, 1)) is None
    assert plane._offset_rectangle(arched.corners, (1, 1, 1, 1)) is None


@given(st.floats(1, 90), st.floats(1, 90), st.integers(0, 3), st.integers(0, 1), st.floats(-5, 95), st.booleans())
def test_a_rectangle_is_cut_as_any_outline_is(width, height, first, axis, at, high):
    corners = rectangle(0, 0, width, height).corners
    outline = Outline(corners[first:] + corners[:first])

    def cut():
        try:
            return clip(outline, axis, at, high=high)
        except OffsetError:
            return None

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plane, "_clip_rectangle", lambda *_: None)
        general = cut()
    quick = cut()
    assert (quick is None) == (general is None)
    if quick is not None:
        assert quick[1] == general[1]
        for p, q in zip(quick[0].corners, general[0].corners, strict=True):
            assert p == pytest.approx(q, abs=1e-9)
