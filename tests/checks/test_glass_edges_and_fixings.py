"""Edges of units, and fixings. Fixings: NHBC Standards 6.7.11, read. Edge cover: a glass supplier's page, read second hand."""

from dataclasses import replace

import pytest

from elevations.checks import edge_cover, fixings
from elevations.checks.results import State
from tests.checks.cases import by_words, case_of, check

ONE = "frame: {width: 900, height: 1200}\nlights: [{light: fixed}]\n"


def with_system(case, **changes):
    return replace(case, window=replace(case.window, system=replace(case.window.system, **changes)))


@pytest.mark.parametrize(("clearance", "state"), [(8, State.PASS), (8.5, State.FAIL)])
def test_a_unit_is_covered_by_12(clearance, state):
    # flush-70: sight 66 less rebate 46 less the clearance
    results = list(edge_cover.check(with_system(case_of(ONE), edge_clearance=clearance)))
    assert by_words(results, "edge cover").state is state
    assert by_words(results, "edge cover").value.value == 20 - clearance


@pytest.mark.parametrize(("height", "clearance", "state"), [
    (1200, 3, State.PASS), (1200, 2.5, State.WARN), (2300, 5, State.PASS), (2300, 4.5, State.WARN), (2098, 4, State.PASS),
])  # fmt: skip
def test_a_clearance_from_doubtful_memory_only_warns(height, clearance, state):
    results = list(edge_cover.check(with_system(case_of(ONE.replace("1200", str(height))), edge_clearance=clearance)))
    assert by_words(results, "clearance round its unit").state is state


def corner(rules):
    return [r for r in check("fixings", ONE + f"fixings: {{{rules}}}") if r.message.startswith("first fixing")]


@pytest.mark.parametrize(("at", "states"), [
    (150, (State.PASS, State.PASS)), (149, (State.FAIL, State.PASS)), (250, (State.PASS, State.PASS)), (251, (State.PASS, State.FAIL)),
])  # fmt: skip
def test_the_first_fixing_is_150_to_250_from_the_corner(at, states):
    assert tuple(r.state for r in corner(f"corner: {at}")) == states


@pytest.mark.parametrize(("spacing", "state"), [(600, State.PASS), (900, State.FAIL)])
def test_fixings_are_at_most_600_apart(spacing, state):
    # 1200 - 2 x 150 = 900 between the first ones of a jamb
    result = by_words(check("fixings", ONE + f"fixings: {{spacing: {spacing}}}"), "fixings apart")
    assert result.state is state
    if state is State.FAIL:
        assert (result.subject, result.value.value) == ("left jamb", 900)


@pytest.mark.parametrize(("at", "clear"), [(280, 100), (260, 150)])
def test_fixings_nearer_than_150_to_a_bars_centre_line_fail(at, clear):
    # 280: the job allows 100; 260: neither 150 from the corner nor 250 is 150 clear of the bar, so no place keeps both rules
    text = f"frame: {{width: 900, height: 1200}}\ntransoms: [{at}]\nlights: [{{light: fixed}}, {{light: fixed}}]\nfixings: {{clear_of_bars: {clear}}}"
    result = by_words(check("fixings", text), "centre line of a bar")
    assert result.state is State.FAIL
    assert result.value.value < 150


def test_exactly_150_from_a_bar_is_enough():
    text = "frame: {width: 900, height: 1200}\ntransoms: [300]\nlights: [{light: fixed}, {light: fixed}]\n"
    result = by_words(check("fixings", text), "centre line of a bar")
    assert (result.state, result.value.value) == (State.PASS, 150)


def test_jambs_and_sill_have_two_each():
    assert by_words(check("fixings", ONE), "number of fixings").state is State.PASS
    result = by_words(check("fixings", ONE + "fixings: {sides: [left, right, head]}"), "number of fixings")
    assert (result.subject, result.state, result.value.value) == ("sill", State.FAIL, 0)


def test_the_points_are_measured_and_not_the_rules_that_placed_them():
    case = case_of(ONE)
    moved = tuple(replace(p, at=p.at._replace(y=p.at.y - 60)) if p.tag == "F1" else p for p in case.window.fixings)
    result = by_words(list(fixings.check(replace(case, window=replace(case.window, fixed=lambda: (moved, ()))))), "first fixing from the corner 150")
    assert result.limit.value == 150
    assert any(r.value.value == 210 for r in fixings.check(replace(case, window=replace(case.window, fixed=lambda: (moved, ())))) if r.value)


def test_a_frame_without_straight_sides_is_not_judged():
    results = check("fixings", "circular: {diameter: 900}\nlights: [{light: fixed}]")
    assert {r.state for r in results} == {State.NOT_APPLICABLE}
