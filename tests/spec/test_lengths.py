"""What is read as a length, and by which factor."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations.spec.lengths import LENGTH_PATTERN, NotALength, range_fault, read_length

READ = [
    (600, 600), (12.5, 12.5), ("600", 600), ("600 mm", 600), ("600mm", 600), (" 600  mm ", 600), ("45 cm", 450),
    ("1.2 m", 1200), ("1.2m", 1200),
    # 1 in = 25.4 mm, 1 ft = 304.8 mm exactly: international yard and pound agreement, 1959 (from memory)
    ("3/8 in", 3 * 25.4 / 8), ("47 1/4 in", 47.25 * 25.4), ("47-1/4 in", 47.25 * 25.4), ("1 in", 25.4), ("4 ft", 4 * 304.8),
]  # fmt: skip


@pytest.mark.parametrize(("written", "mm"), READ)
def test_a_length_with_or_without_a_unit_is_read_as_millimetres(written, mm):
    assert read_length(written) == pytest.approx(mm, abs=1e-9)


def test_decimal_metres_are_whole_millimetres_without_float_noise():
    assert [read_length(f"{mm / 1000} m") for mm in range(1, 6000)] == list(range(1, 6000))


@pytest.mark.parametrize(
    "written", ["1,200", "1.2.3", "12:30", "3/0 in", "m", "", "1/2/3", "1200 px", "1e3 m", "٣", None, [], {}]
)
def test_what_is_no_length_is_refused_with_words(written):
    assert isinstance(read_length(written), NotALength)


@given(st.text(alphabet="0123456789/ -.mcinft,", max_size=12))
def test_editors_are_told_of_exactly_the_texts_that_are_read(text):
    # the schema's pattern is what an editor accepts; the reader also forgives spaces around and between
    if re.search(LENGTH_PATTERN, text) and not text.endswith("\n"):
        assert isinstance(read_length(text), float)
    elif " ".join(text.split()) == text:
        assert isinstance(read_length(text), NotALength)


def test_the_ends_of_a_range_belong_to_it():
    assert range_fault(200, 200, 200, 6000) is None
    assert range_fault(6000, 6000, 200, 6000) is None
    assert range_fault(199.9, 199.9, 200, 6000) is not None


def test_a_hint_names_the_unit_that_would_fit():
    assert '"1.2 m"' in range_fault(1.2, 1.2, 200, 6000).hint
    assert '"90 cm"' in range_fault(90, 90, 200, 6000).hint
    assert range_fault("90 mm", 90, 200, 6000).hint == ""
