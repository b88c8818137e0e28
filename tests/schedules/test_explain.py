from __future__ import annotations

from pathlib import Path

import pytest

from elevations import pipeline
from elevations.schedules import account
from elevations.schedules.explain import UnknownNameError, explain, sizes_of
from elevations.spec.load import parse_job

JOB = """\
glass: {clear: {make_up: 4/20/4}}
defaults:
  fixings: {corner: 160}
windows:
  - mark: W1
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights:
      - {light: side-hung, hinge: left}
      - {light: fixed}
  - mark: W2
    frame: {width: 1801, height: 1050}
    fixings: {corner: 200}
    mullions: equal-glass
    lights: [{light: fixed}, {light: top-hung}, {light: fixed}]
"""
LOADED = parse_job(JOB, "job.yaml")
W1, W2 = pipeline.windows(LOADED)


def told(window, *thing):
    return account.as_text(explain(window, *thing), LOADED.document, window.system)


def steps(window, thing, size):
    data = account.as_data(explain(window, *thing), LOADED.document, window.system)
    return next(made["steps"] for made in data["sizes"] if made["name"] == size)


def test_a_cut_width_is_told_step_by_step():
    made = steps(W1, ("glass", "G1"), "cut width")
    # 600 - 15 - 43 - 2 x 56 - 2 x 5 = 420, the sum of the format's description, in the order it is worked out
    assert [step["amount_mm"] for step in made] == [600, -15, -56, -5, -43, -56, -5]
    assert [step["total_mm"] for step in made] == [600, 585, 529, 524, 481, 425, 420]
    assert [step["source"]["where"] for step in made[:2]] == ["job.yaml:7", "flush-70: members.mullion.sash"]


def test_the_result_says_how_it_was_rounded():
    assert "  = 420 mm, rounded down to whole mm from 420.0\n" in told(W1, "glass", "G1")
    # 46 + 18 + 2 x 5 at each fixed light, 2 x (15 + 56 + 5) at the sash: (1801 - 74 - 152 - 74) / 3 = 500.333, and half of
    # 0.333 comes off each side
    whole = told(W2, "glass", "G1")
    assert whole.count("- 0.167  rounded down to whole mm") == 2
    assert "  = 500 mm, rounded down to whole mm from 500.0\n" in whole


def test_steps_of_every_size_add_up_to_what_is_made():
    for window in (W1, W2):
        found = sizes_of(window)
        assert len(found) > 30
        for tag, size in found:
            exact = sum(term.amount for term in size.working.terms)
            cut = "down" in size.rounding
            assert -1e-6 <= exact - size.shown < 1 if cut else abs(exact - size.shown) <= 0.05 + 1e-9, tag


def test_a_cut_length_agrees_with_the_hand_sum():
    assert explain(W1, "bar", "M1").sizes[1].shown == 1050 - 2 * 46 + 2 * 12 == 982
    assert explain(W1, "member", "head").sizes[0].shown == 1200 + 2 * 3
    assert explain(W1, "member", "S1 top rail").sizes[0].shown == 542 + 2 * 3


def test_a_figure_of_the_defaults_points_at_their_line():
    assert steps(W1, ("fixing", "F1"), "distance along the left jamb, from its top")[0]["source"]["where"] == "job.yaml:3"


def test_a_figure_of_the_window_points_at_its_own_line():
    assert steps(W2, ("fixing", "F1"), "distance along the left jamb, from its top")[0]["source"]["where"] == "job.yaml:13"


def test_a_standard_value_is_called_one():
    loaded = parse_job(JOB.replace("  fixings: {corner: 160}\n", "  finish: {inside: white}\n"), "job.yaml")
    window = next(pipeline.windows(loaded))
    made = account.as_data(explain(window, "fixing", "F1"), loaded.document, window.system)
    assert made["sizes"][0]["steps"][0]["source"]["where"] == "standard value of fixings.corner"


def test_an_equal_bar_tells_the_sum_behind_it():
    text = told(W2, "bar", "M1")
    assert "job.yaml:14" in text
    assert "glass cut size each" in text


@pytest.mark.parametrize("thing", [("glass", "G1"), ("G1",), ("g1",), ("glass", "W1-G1"), ("W1-G1",)])
def test_a_thing_may_be_named_in_short(thing):
    assert explain(W1, *thing).tag == "W1-G1"


@pytest.mark.parametrize("thing", [("head",), ("left", "jamb"), ("member", "left jamb"), ("S1", "top rail"), ("light", "2"), ("window",)])
def test_members_lights_and_the_window_can_be_asked_for(thing):
    assert explain(W1, *thing).sizes


@pytest.mark.parametrize(("thing", "message", "hint"), [
    (("glass", "G9"), "W1 has no glass 'G9'", "it has G1, G2"),
    (("glass",), "W1 has more than one glass", "it has G1, G2"),
    (("sash", "S2"), "W1 has no sash 'S2'", "it has S1"),
    (("galss", "G1"), "W1 has nothing called 'galss G1'", "did you mean 'glass'?"),
    (("member", "hed"), "W1 has no member 'hed'", "did you mean 'head'?"),
    (("2",), "W1 has nothing called '2'", "ask for glass"),
])
def test_what_is_not_there_is_answered_with_what_is(thing, message, hint):
    with pytest.raises(UnknownNameError) as caught:
        explain(W1, *thing)
    assert caught.value.message == message
    assert hint in caught.value.hint


def test_the_record_is_the_one_that_the_size_was_made_from():
    assert explain(W1, "glass", "G1").sizes[0].working == W1.panes[0].width
    assert Path(LOADED.document.file).name == "job.yaml"
