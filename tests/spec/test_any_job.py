"""Whatever stands in a job: it loads, or every problem has words and a place; never an exception of Python's own."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from spec_jobs import GOOD, HEAD

from elevations.errors import SpecError
from elevations.spec.diagnostics import render
from elevations.spec.load import parse_job
from elevations.spec.model import Division, Drawing, Fixings, Frame, Glass, Job, JobInfo, Light, LowE, Room, Window
from elevations.yaml_source import read_document

KEYS = sorted({key for block in (Division, Drawing, Fixings, Frame, Glass, Job, JobInfo, Light, LowE, Room, Window)
               for key in block.model_fields} | {"opening", "bars", "widht", "clear", "safe", "200", ""})  # fmt: skip
WORDS = [
    "fixed",
    "side-hung",
    "left",
    "out",
    "dummy",
    "equal-glass",
    "equal",
    "clear",
    "4/20/4",
    "1.2 m",
    "W1",
    "{key}",
    "yes",
]
PLAIN = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-5, 7000),
    st.floats(allow_nan=False),
    st.sampled_from(WORDS),
    st.text(max_size=8),
)
JUNK = st.recursive(
    PLAIN,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.sampled_from(KEYS), inner, max_size=4)),
    max_leaves=12,
)
GOOD_DATA = read_document(GOOD, "f").data


def paths(value, at=()):
    yield at
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in pairs:
        yield from paths(inner, (*at, step))


ALL_PATHS = list(paths(GOOD_DATA))


def with_junk(value, path, junk):
    """A copy of the data with something else at one path."""
    if not path:
        return junk
    copy = dict(value) if isinstance(value, dict) else list(value)
    copy[path[0]] = with_junk(copy[path[0]], path[1:], junk)
    return copy


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(ALL_PATHS), JUNK)
def test_junk_anywhere_is_read_or_refused_in_words_with_a_place(path, junk):
    assert_told(json.dumps(with_junk(GOOD_DATA, path, junk), ensure_ascii=False, indent=1))


@settings(max_examples=100, deadline=None)
@given(st.lists(JUNK, min_size=1, max_size=3))
def test_windows_of_junk_are_refused_in_words_with_places(windows):
    assert_told(json.dumps({**GOOD_DATA, "windows": windows}, ensure_ascii=False, indent=1))


def assert_told(text):
    problems = ()
    try:
        parse_job(text, "f")
    except SpecError as error:
        problems = error.problems or (None,)
    for problem in problems:
        assert problem.place is not None
        assert problem.code
        assert problem.message
        assert "{key}" not in problem.message.replace("'{key}'", "")
        assert len(render(problem)) < 1200


def test_more_problems_than_anybody_reads_are_cut_and_said_to_be():
    for bad in (
        "  - {mark: W%d, frme: 3}\n",
        "  - {mark: W%d, frame: {width: 1}, lights: [{light: x}, {light: y}]}\n",
        "  -\n",
    ):
        windows = "".join(bad % number if "%" in bad else bad for number in range(2000))
        with pytest.raises(SpecError) as caught:
            parse_job(HEAD + windows, "f")
        problems = caught.value.problems
        assert len(problems) <= 500
        assert problems[-1].code == "more-problems"
