"""What is read as a length, and by which factor."""

import re
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations.spec.block import Block
from elevations.spec.fields import Reads
from elevations.spec.lengths import LENGTH_PATTERN, NotALength, range_fault, read_length, unit_doubt
from elevations.spec.model import Job

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


@pytest.mark.parametrize(("typed", "high", "meant"), [
    (1.04, 5000, "1.04 m"), (1, 5000, "1 m"), (2.4, 3000, "2.4 m"), (0.15, 500, "0.15 m"), (0.04, 300, "0.04 m"), (3, 200_000, "3 m"),
])
def test_a_plain_number_that_only_metres_make_sense_of_is_doubted(typed, high, meant):
    """1.04 m is a usual height of an opening above the floor; nobody surveys 1.04 mm. Common practice, no source."""
    doubt = unit_doubt(typed, read_length(typed), high)
    assert f'did you mean "{meant}"?' in doubt.hint


@pytest.mark.parametrize(("typed", "high"), [
    (0, 5000), (40, 5000), (10, 5000), ("1.04 mm", 5000), ("1.04 m", 5000),
    (2.5, 60),       # a drip or a joint
    (6.2, 20),       # a drill
    (3, 60),         # packers
    (12.5, 60), (5, 300), (8, 200), (0.5, 20), (0.005, 5000), (150, 200_000),
])
def test_real_small_lengths_are_left_alone(typed, high):
    assert unit_doubt(typed, read_length(typed), high) is None


def test_no_default_of_a_job_is_doubted():
    """Every length of the examples and defaults in the schema, read by its own key."""
    pending, seen = [Job], set()
    while pending:
        block = pending.pop()
        seen.add(block)
        for field in block.model_fields.values():
            for reads in (each for each in field.metadata if isinstance(each, Reads)):
                if isinstance(field.default, int | float) and not isinstance(field.default, bool):
                    assert reads.read(field.default) == field.default
            pending += [kind for kind in walk(field.annotation) if isinstance(kind, type) and issubclass(kind, Block) and kind not in seen]
    assert len(seen) > 15


def walk(kind):
    yield kind
    for part in get_args(kind):
        yield from walk(part)
