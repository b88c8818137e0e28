"""Heat. Limits: Approved Document L volume 1, 2021 edition, read second hand."""

from dataclasses import replace

import pytest

from elevations.calculation import Calculation
from elevations.checks import u_value
from elevations.checks.explain import as_data, as_text
from elevations.checks.results import State
from elevations.checks.run import checked, job_u
from tests.checks.cases import case_of, check, only

# Ug and ψ declared, so that the sums stay short: sight sizes 390 x 812 and 496 x 918, as in the spec format's arithmetic
DECLARED = "clear: {make_up: 4/20/4, u_value: 1.1, psi: 0.04 MORE}"
TWO = "frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]\n"
REPLACED = "work: replacement"
A_G = 0.390 * 0.812 + 0.496 * 0.918
L_G = 2 * (0.390 + 0.812) + 2 * (0.496 + 0.918)


def declared(more=""):
    return DECLARED.replace("MORE", more)


def held(u_f, work=REPLACED):
    """The result with a system whose frames have this Uf."""
    case = case_of(TWO, work, glass=declared())
    case = replace(case, window=replace(case.window, system=replace(case.window.system, u_f_w_m2k={"frame": u_f}, demonstration=False)))
    return next(iter(u_value.check(case)))


def u_f_for(u_w):
    """The Uf that makes the window's U exactly this, by EN ISO 10077-1 turned round."""
    return (u_w * 1.26 - A_G * 1.1 - L_G * 0.04) / (1.26 - A_G)


def test_the_value_by_hand():
    result = held(1.3)
    assert result.value.value == pytest.approx((A_G * 1.1 + (1.26 - A_G) * 1.3 + L_G * 0.04) / 1.26)
    assert result.value.assumed == ()


@pytest.mark.parametrize(("work", "u_w", "state"), [
    (REPLACED, 1.4, State.PASS), (REPLACED, 1.401, State.FAIL), ("work: new-dwelling", 1.6, State.PASS), ("work: new-dwelling", 1.601, State.FAIL),
])  # fmt: skip
def test_at_the_limit_it_passes_and_just_above_it_fails(work, u_w, state):
    assert held(u_f_for(u_w), work).state is state


def test_a_failing_value_is_not_rounded_to_its_limit():
    assert "U-value 1.401 W/m²K, at most 1.40 W/m²K" in held(u_f_for(1.4009)).message


def test_without_the_kind_of_work_the_value_is_told_and_its_limit_is_not():
    result = held(1.3, "")
    assert result.state is State.CANNOT_TELL
    assert result.value.value < 1.4
    assert result.needs[0].startswith("building")


def test_missing_facts_of_glass_are_named():
    result = only("u-value", TWO, REPLACED, glass="clear: {make_up: 4/20/4}")
    assert result.state is State.CANNOT_TELL
    assert any("gas" in need for need in result.needs)
    assert any("spacer" in need for need in result.needs)


def test_a_default_or_an_invented_value_for_the_frame_is_said():
    case = case_of(TWO, REPLACED)
    assert any("Uf of flush-70 is demonstration data" in text for text in next(iter(u_value.check(case))).assumed)
    bare = replace(case, window=replace(case.window, system=replace(case.window.system, u_f_w_m2k={})))
    assert any("Uf 2.2" in text for text in next(iter(u_value.check(bare))).assumed)


@pytest.mark.parametrize(("g", "state"), [(0.9, State.WARN), (0.3, State.FAIL)])
def test_a_rating_good_enough_turns_a_fail_into_a_warning(g, state):
    results = check("u-value", TWO + "air_leakage: 0.0\n", REPLACED, glass=declared(f", g_value: {g}").replace("1.1", "1.4"))
    assert results[0].state is state
    # 218.6 gw - 68.5 (Uw + L), gw = 0.9 x g x glass share (the factor from memory)
    u_w = results[0].value.value
    assert u_w > 1.4
    assert results[1].value.value == pytest.approx(218.6 * 0.9 * g * A_G / 1.26 - 68.5 * u_w)
    assert "estimate" in results[1].message


def test_without_its_facts_there_is_no_rating():
    assert len(check("u-value", TWO, REPLACED, glass=declared(", g_value: 0.6"))) == 1


def test_the_job_is_weighed_by_area():
    windows = [checked(case_of(text, REPLACED)) for text in (TWO, "frame: {width: 600, height: 900}\nlights: [{light: fixed}]")]
    whole = job_u(windows)
    assert isinstance(whole, Calculation)
    first, second = (window.heat.u_w.value for window in windows)
    assert whole.value == pytest.approx((1.26 * first + 0.54 * second) / 1.8)


def test_explaining_it_lists_every_step_and_what_else_would_give():
    text = as_text(case_of(TWO, REPLACED), "u-value")
    for words in ("Ag G1", "Uf frame+sash", "ψg G2", "Uw = (", "spacer: aluminium", "gas: krypton", "no certificate"):
        assert words in text
    data = as_data(case_of(TWO, REPLACED), "u-value")
    assert data["results"][0]["steps"][-1]["value"] == pytest.approx(data["results"][0]["value"], abs=1e-6)
    assert {row["change"] for row in data["alternatives"]} >= {"gas: air", "no coating"}
