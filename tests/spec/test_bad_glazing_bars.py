"""What may be wrong with the glazing bars of a light. One row a mistake; the geometry's own refusals are tested with it."""

import pytest
from spec_jobs import assert_told, of_lights, rows

from elevations.spec.load import parse_job


def bars(value):
    return of_lights(f"[{{light: fixed, bars: {value}}}]")


WRONG = [
    ("nothing said", bars("{kind: in-unit}"), "bars-without-pattern", ["where the glazing bars go", "columns: 2"], "10:35"),
    ("an empty block", bars("{}"), "bars-without-pattern", ["where the glazing bars go"], "10:35"),
    ("one by one", bars("{columns: 1, rows: 1}"), "bars-without-pattern", ["need no glazing bars"], "10:35"),
    ("one column", bars("{columns: 1}"), "bars-without-pattern", ["need no glazing bars"], "10:35"),
    ("two patterns", bars("{margin: 100, border: 60}"), "two-patterns", ["'margin' and 'border'", "keep one"], "10:57"),
    ("grid and margin", bars("{columns: 2, margin: 60}"), "two-patterns", ["'columns' and 'margin'"], "10:56"),
    ("places without any", bars("{at: {upright: []}}"), "bars-without-pattern", ["no centre line"], "10:40"),
    ("too many", bars("{columns: 40}"), "out-of-range", ["whole number from 1 to 12"], "10:45"),
    ("half a column", bars("{columns: 2.5}"), "out-of-range", ["'2.5'"], "10:45"),
    ("another kind", bars("{rows: 2, kind: glued}"), "unknown-choice", ["on-face, in-unit"], "10:51"),
    ("misspelt", bars("{colums: 2}"), "unknown-key", ["did you mean 'columns'"], "10:36"),
    ("a number alone", bars("3"), "not-a-block", ["'bars' must be a block", "columns: 2"], "10:35"),
    ("a margin of metres", bars("{margin: 9000}"), "out-of-range", ["'margin'"], "10:44"),
    ("places as a list", bars("{at: [300]}"), "not-a-block", ["'at' must be a block"], "10:40"),
    ("beside the mark", of_lights("[{light: fixed}]", "bars: {columns: 2}"), "unknown-key", ["'bars'"], "9:5"),
]


@pytest.mark.parametrize(("text", "code", "words", "place"), rows(WRONG))
def test_each_mistake_with_glazing_bars_is_told_in_its_own_words(text, code, words, place):
    assert_told(text, code, words, place)


@pytest.mark.parametrize("good", [
    "{columns: 2}", "{rows: 3}", "{columns: 2, rows: 3, kind: in-unit}", "{at: {level: [400]}}", "{margin: 100}", "{border: 60}",
])
def test_each_pattern_alone_is_read(good):
    assert parse_job(bars(good), "job.yaml").job.windows[0].lights[0].bars is not None
