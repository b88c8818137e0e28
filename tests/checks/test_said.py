"""What readers are told: the factory, the customer, and whoever asks for the working."""

import pytest

from elevations.calculation import Calculation
from elevations.checks import RULES
from elevations.checks.explain import as_data, as_text, results_of
from elevations.checks.results import CAUTION, State, shown
from elevations.checks.run import checked
from elevations.checks.said import customer_words, factory_words, result_lines
from elevations.schedules.explain import UnknownNameError
from tests.checks.cases import case_of

WINDOW = """
frame: {width: 1500, height: 1400}
floor_to_opening: 400
drop: 3000
near: []
mullions: [600]
lights: [{light: side-hung, hinge: left}, {light: fixed}]
"""


def test_the_factory_reads_what_fails_how_bars_stand_and_what_is_missing():
    lines = factory_words(checked(case_of(WINDOW, "work: replacement, wind: C2")))
    assert any(line.startswith("fail: G1, its glass begins") for line in lines)
    assert any(line.startswith("pass: M1, deflection under wind") and "class C" in line for line in lines)
    assert lines[-1] == "can't tell, for want of facts: glass thickness"


def test_the_factory_is_not_told_what_it_cannot_change():
    lines = factory_words(checked(case_of(WINDOW.replace("left}", "left, escape: true}") + "room: {use: bedroom, floor_area: 60}", "work: replacement")))
    assert not [line for line in lines if "escape" in line or "openable" in line or "U-value" in line]


def test_the_customer_reads_no_terms():
    lines = customer_words(checked(case_of(WINDOW, "work: replacement, wind: C2")))
    assert lines[0].startswith("Warmth: U-value 1.")
    assert lines[1] == "To be settled with you: as drawn, the window does not meet the usual figures for safety glass and warmth."
    text = " ".join(lines)
    assert not [word for word in ("transom", "mullion", "psi", "ψ", "Uw", "EN ", "Approved") if word in text]


def test_the_customer_is_told_no_value_that_cannot_be_told():
    lines = customer_words(checked(case_of(WINDOW, glass="clear: {make_up: 4/20/4}")))
    assert not [line for line in lines if line.startswith("Warmth")]


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_explains_itself(rule):
    case = case_of(WINDOW, "work: replacement, ventilation: natural, wind: C2")
    text, data = as_text(case, rule), as_data(case, rule)
    assert RULES[rule].asks in text
    assert CAUTION in text
    assert len(data["results"]) == len(results_of(case, rule))
    for result in results_of(case, rule):
        if result.value and result.value.steps:
            assert result.value.steps[-1].value == pytest.approx(result.value.value, abs=1e-6) or rule in ("fixings", "glass-thickness", "wind", "glass-weight")


@pytest.mark.parametrize("rule", RULES)
def test_every_result_says_what_it_needs_or_what_it_found(rule):
    for building in ("", "work: replacement, ventilation: natural, wind: C2"):
        for result in RULES[rule].check(case_of(WINDOW, building)):
            assert (result.state is State.CANNOT_TELL) == bool(result.needs), result
            if result.state in {State.FAIL, State.WARN}:
                assert result.limit is not None
                assert isinstance(result.value, Calculation)
            if result.state is State.FAIL:
                assert result.limit.hard
            assert next(result_lines(result)).startswith(f"{result.state}: W1")


def test_an_unknown_check_is_told():
    with pytest.raises(UnknownNameError, match="escpae") as caught:
        results_of(case_of(WINDOW), "escpae")
    assert "escape" in caught.value.hint


@pytest.mark.parametrize(("value", "unit", "against", "text"), [
    (1.4, "W/m2K", None, "1.40 W/m²K"), (1.404, "W/m2K", 1.4, "1.404 W/m²K"), (799.7, "mm", 800, "799.7 mm"), (800.0, "mm", 800, "800 mm"),
    (8000, "mm2", None, "8000 mm²"), (26829.6, "mm4", None, "26,830 mm⁴"), (30, "degrees", None, "30°"), (2, "", None, "2"), (0.33, "m2", 0.33, "0.33 m²"),
    (100, "mm", None, "100 mm"),
])  # fmt: skip
def test_values_are_shown_so_that_their_side_of_the_limit_is_seen(value, unit, against, text):
    assert shown(value, unit, against) == text


def test_the_factory_is_not_told_again_what_its_sheet_says_as_a_finding():
    # a transom 250 from the top: 100 from the fixing 150 from the corner, where 150 is asked (NHBC 6.7.11)
    window = checked(case_of("frame: {width: 900, height: 1300}\ntransoms: [250]\nlights: [{light: fixed}, {light: fixed}]"))
    assert {finding.code for finding in window.case.window.findings} == {"fixing-near-bar"}
    assert [r.state for r in window.results if r.repeats == "fixing-near-bar"] == [State.FAIL]
    assert not [line for line in factory_words(window) if "centre line of a bar" in line]
