"""The YAML reader: values by the core schema of YAML 1.2, places by line and column."""

import pickle
import re

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from spec_jobs import GOOD

from elevations import yaml_source
from elevations.errors import SpecError
from elevations.spec.starter import STARTER
from elevations.yaml_source import RawFloat, RawInt, raw_text, read_document

# YAML 1.2.2 (https://yaml.org/spec/1.2.2/), chapter 10.3.2, less hexadecimal, octal, infinity and the capitals of
# true and null, which this reader leaves as text: none of them is a length, a mark or a switch
CORE = [
    ("null", None), ("~", None), ("", None), ("true", True), ("false", False),
    ("0", 0), ("12", 12), ("-19", -19), ("+12", 12), ("007", 7), ("0.", 0.0), ("-0.0", 0.0), (".5", 0.5),
    ("+12e03", 12000.0), ("-2E+05", -200000.0), ("1e3", 1000.0),
    ("no", "no"), ("on", "on"), ("yes", "yes"), ("Off", "Off"), ("12:30", "12:30"), ("1_200", "1_200"),
    ("0x3A", "0x3A"), ("0o7", "0o7"), (".inf", ".inf"), (".nan", ".nan"), ("2026-10-14", "2026-10-14"),
    ("1,200", "1,200"), ("4/20/4", "4/20/4"), ("'12'", "12"), ('"true"', "true"), ("1.2 m", "1.2 m"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), CORE)
def test_plain_values_mean_what_yaml_1_2_says(text, value):
    read = read_document(f"a: {text}\n", "f").data["a"]
    assert read == value
    assert isinstance(read, type(value))


def test_numbers_keep_the_text_they_were_written_as():
    data = read_document("a: 007\nb: 1.50\nc: true\nd: on\n", "f").data
    assert isinstance(data["a"], RawInt)
    assert isinstance(data["b"], RawFloat)
    assert [raw_text(value) for value in data.values()] == ["007", "1.50", "true", "on"]
    assert raw_text([1]) is None


def test_data_equal_those_of_pyyaml_where_the_two_versions_of_yaml_agree():
    # PyYAML's own loader as the outside judge, on the texts that YAML 1.1 and 1.2 read alike
    without_dates = re.sub(r"\d{4}-\d\d-\d\d", "day", STARTER)
    assert read_document(without_dates, "f").data == yaml.safe_load(without_dates)


def test_anchors_and_merges_give_what_pyyaml_gives():
    text = "a: &a {x: 1, y: 2}\nb: {<<: *a, y: 3}\nc: {<<: [*a, {z: 4}]}\nd: *a\n"
    assert read_document(text, "f").data == yaml.safe_load(text)


def test_the_slow_parser_reads_the_same_and_finds_the_same_places(monkeypatch):
    quick = read_document(STARTER, "f")
    monkeypatch.setattr(yaml_source, "CParser", None)
    plain = read_document(STARTER, "f")
    assert plain.data == quick.data
    path = ("windows", 0, "lights", 1, "transoms", 0)
    assert plain.place(path) == quick.place(path)


@pytest.mark.parametrize("text", ["[" * 5000, "a: {b: *c}", "a: 'b", "a: [1", "a: @b", "\ta: 1", "a: 1\na: 2\n---\n"])
def test_the_slow_parser_says_the_same_of_broken_text(monkeypatch, text):
    said = []
    for _ in range(2):
        with pytest.raises(SpecError) as caught:
            read_document(text, "f")
        said.append(caught.value.problems[0].code)
        monkeypatch.setattr(yaml_source, "CParser", None)
    assert said[0] == said[1]


def marked(path, key=False):
    """The text that a place covers."""
    place = read_document(GOOD, "f").place(path, key)
    return place.line, place.text[place.column - 1 : place.end_column - 1]


def test_a_place_covers_the_value_or_its_key():
    assert marked(("windows", 0, "frame", "width")) == (8, "1200")
    assert marked(("windows", 0, "frame", "width"), key=True) == (8, "width")
    assert marked(("windows", 0, "mullions", 0)) == (9, "600")
    assert marked(("windows", 0, "lights", 1)) == (12, "{light: fixed}")
    assert marked(("glass", "safe", "toughened")) == (4, "[outer, inner]")


def test_a_value_that_is_a_block_below_its_key_is_shown_at_the_key():
    assert marked(("windows",)) == (6, "windows")
    assert marked(("windows", 0, "lights")) == (10, "lights")


def test_a_place_falls_back_to_the_nearest_parent_that_is_there():
    assert marked(("windows", 0, "frame", "depth")) == (8, "frame")
    assert marked(("windows", 0, "frame", "depth"), key=True) == (8, "frame")
    assert marked(("windows", 0, "opening", "width", 3)) == (7, "mark: W1")
    assert marked(("windows", 9)) == (6, "windows")
    assert marked(("drawing",))[0] == 1


def test_a_merged_value_is_shown_where_it_is_written():
    document = read_document("a: &a {x: 1}\nb:\n  <<: *a\n  y: 2\n", "f")
    assert (document.place(("b", "x")).line, document.place(("b", "y")).line) == (1, 4)


def test_a_byte_order_mark_and_windows_line_ends_change_nothing():
    text = "\ufeff" + GOOD.replace("\n", "\r\n")
    document = read_document(text, "f")
    assert document.data == read_document(GOOD, "f").data
    place = document.place(("job", "reference"))
    assert (place.line, place.column, place.text) == (1, 18, GOOD.split("\n")[0])
    assert document.place(("windows", 0, "frame", "width")).line == 8


def test_every_duplicate_is_told_with_the_line_of_the_first():
    problems = read_document("a: 1\nb: {c: 1, c: 2}\na: 3\na: 4\n", "f").problems
    assert [(p.place.line, p.hint[:21]) for p in problems] == [
        (2, "first given on line 2"), (3, "first given on line 1"), (4, "first given on line 1")
    ]  # fmt: skip


def test_a_document_travels_to_another_process_and_still_knows_its_places():
    document = read_document(GOOD, "f")
    place = document.place(("windows", 0, "frame", "width"))
    arrived = pickle.loads(pickle.dumps(document))
    assert arrived.data == document.data
    assert raw_text(arrived.data["windows"][0]["frame"]["width"]) == "1200"
    assert arrived.place(("windows", 0, "frame", "width")) == place


LINES = st.sampled_from(GOOD.split("\n"))
BITS = st.sampled_from([*list("\t'\"[]{}:,-&*!|>%@`#?~ \n\u00a0"), "- ", ": ", "\n  ", "<<: *a", "&a ", "---\n", "a"])


@given(st.lists(st.one_of(LINES, BITS), max_size=30), st.sampled_from(["", "\n"]))
def test_no_text_ends_in_anything_but_a_document_or_a_problem_with_a_place(pieces, glue):
    text = glue.join(pieces)
    try:
        document = read_document(text, "f")
    except SpecError as error:
        places = [problem.place for problem in error.problems]
    else:
        places = [problem.place for problem in document.problems]
    lines = text.split("\n")
    for place in places:
        assert 1 <= place.line <= len(lines)
        assert 1 <= place.column < place.end_column
        assert place.text == lines[place.line - 1]
