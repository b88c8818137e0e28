"""A problem as it is printed."""

from spec_jobs import GOOD

from elevations.errors import Place, Problem
from elevations.spec.diagnostics import render
from elevations.yaml_source import read_document


def test_place_words_source_caret_and_hint_stand_under_each_other():
    place = read_document(GOOD, "job.yaml").place(("windows", 0, "frame", "width"))
    assert render(Problem("out-of-range", "too wide", "narrower", place=place)).split("\n") == [
        "job.yaml:8:20: error: too wide",
        "  8 |     frame: {width: 1200, height: 1050}",
        "    |                    ^^^^",
        "    = hint: narrower",
    ]


def test_without_a_hint_or_a_place_those_lines_are_left_out():
    assert render(Problem("x", "no place")) == "error: no place"
    assert render(Problem("x", "no text", place=Place("f", 1, 1, 1, ""))) == "f:1:1: error: no text"


def test_a_tab_in_the_source_keeps_the_caret_under_its_character():
    _, source, caret = render(Problem("x", "m", place=Place("f", 3, 3, 5, "\ta\tbc"))).split("\n")
    assert (source, caret) == ("  3 |  a bc", "    |   ^^")


def test_a_long_line_is_shown_around_the_fault():
    text = "a" * 500 + "FAULT" + "b" * 5000
    _, source, caret = render(Problem("x", "m", place=Place("f", 3, 501, 506, text))).split("\n")
    assert len(source) < 120
    assert source[caret.index("^") : caret.rindex("^") + 1] == "FAULT"


def test_a_fault_longer_than_the_line_shown_is_cut_with_it():
    _, source, caret = render(Problem("x", "m", place=Place("f", 3, 1, 9000, "a" * 9000))).split("\n")
    assert len(caret) <= len(source)


def test_nothing_that_steers_a_terminal_is_printed():
    place = Place("f\x1b", 1, 1, 2, "a\x1b[31m\x00")
    assert render(Problem("x", "m\x1b", "h\x07", place=place)).replace("\n", "").isprintable()
