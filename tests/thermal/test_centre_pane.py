import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError
from elevations.spec.model import Glass
from elevations.thermal.centre_pane import Gap, centre_pane_u
from elevations.thermal.gases import filled, mixture
from elevations.thermal.make_up import gas_shares, make_up_u

widths = st.floats(4, 30)
gases = st.sampled_from(["air", "argon", "krypton"])
emissivities = st.floats(0.01, 0.88)


@given(widths, widths, gases, gases, emissivities)
def test_a_unit_turned_round_loses_the_same_heat(first, second, one, other, emissivity):
    gaps = (Gap(first, filled(one)), Gap(second, filled(other)))
    there = centre_pane_u((4, 6, 4), gaps, {3: emissivity}).u_w_m2k
    back = centre_pane_u((4, 6, 4), gaps[::-1], {4: emissivity}).u_w_m2k
    assert there == pytest.approx(back, rel=1e-9)


@given(widths, gases, emissivities, st.floats(0.01, 0.1))
def test_a_better_coating_never_loses_more_heat(width, gas, emissivity, better):
    gap = (Gap(width, filled(gas)),)
    worse = centre_pane_u((4, 4), gap, {3: emissivity}).u_w_m2k
    assert centre_pane_u((4, 4), gap, {3: emissivity * (1 - better)}).u_w_m2k <= worse + 1e-12


@given(widths, widths, gases)
def test_a_further_pane_never_loses_more_heat(first, second, gas):
    one, two = Gap(first, filled(gas)), Gap(second, filled(gas))
    assert centre_pane_u((4, 4, 4), (one, two)).u_w_m2k < centre_pane_u((4, 4), (one,)).u_w_m2k


@given(widths, widths, gases, gases)
def test_the_drops_of_the_gaps_add_up_and_follow_their_resistances(first, second, one, other):
    heats = centre_pane_u((4, 4, 4), (Gap(first, filled(one)), Gap(second, filled(other)))).gaps
    assert sum(heat.temperature_drop_k for heat in heats) == pytest.approx(15)
    flows = [heat.h_w_m2k * heat.temperature_drop_k for heat in heats]
    assert flows[0] == pytest.approx(flows[1], rel=1e-9)   # the same heat goes through both


def test_the_record_ends_with_its_value_and_each_step_has_a_source():
    worked = centre_pane_u((4, 4), (Gap(20, filled("argon")),), {3: 0.03}).calculation
    assert worked.steps[-1].value == worked.value
    assert all(step.source for step in worked.steps)


@pytest.mark.parametrize(("panes", "gaps", "coatings", "words"), [
    ((4, 4), (Gap(2),), {}, "a gap of 2 mm"),
    ((4, 4), (Gap(float("nan")),), {}, "a gap of nan"),
    ((4, -4), (Gap(16),), {}, "a pane -4 mm thick"),
    ((4, 4), (), {}, "2 panes have 1 gaps"),
    ((4, 4), (Gap(16),), {3: -0.1}, "an emissivity of -0.1"),
    ((4, 4), (Gap(16),), {3: 1.0}, "an emissivity of 1"),
    ((4, 4), (Gap(16),), {4: 0.1}, "a coating on face 4"),
    ((4,), (), {2: 0.1}, "a coating on face 2"),
    ((4, 4), (Gap(16, (("argon", 0.8),)),), {}, "add up to 0.8"),
    ((4, 4), (Gap(16, (("argon", 1.5), ("air", -0.5))),), {}, "a gas share of 1.5"),
    ((4, 4), (Gap(16, (("helium", 1.0),)),), {}, "a gas called 'helium'"),
])
def test_what_cannot_be_is_refused_in_words(panes, gaps, coatings, words):
    with pytest.raises(ImpossibleInputError, match=words):
        centre_pane_u(panes, gaps, coatings)


@pytest.mark.parametrize(("text", "shares"), [
    ("argon", (("argon", 0.9), ("air", 0.1))), ("Argon", (("argon", 0.9), ("air", 0.1))), ("air", (("air", 1.0),)),
    ("krypton 95 %", (("krypton", 0.95), ("air", 0.05))), ("argon 100%", (("argon", 1.0), ("air", 0.0))),
    ("argon 120", None), ("xenon", None), ("", None), ("90 argon", None),
])
def test_gas_words_of_the_spec(text, shares):
    found = gas_shares(text)
    assert found == shares if shares is None else dict(found) == pytest.approx(dict(shares))
    if shares:
        mixture(found)


def test_a_make_up_without_gas_or_emissivity_says_so():
    answer = make_up_u(Glass(make_up="4/20/4", low_e={"face": 3}))
    assert isinstance(answer, CannotTell)
    assert [need.split()[1] for need in answer.needs] == ["gas", "normal"]


def test_a_coating_towards_the_room_needs_a_declared_value():
    glass = Glass(make_up="4/20/4", gas="air", low_e={"face": 4, "emissivity": 0.1})
    assert "declared Ug" in str(make_up_u(glass))
    assert make_up_u(glass, 1.0).value == 1.0


def test_a_single_pane_needs_no_gas():
    assert make_up_u(Glass(make_up="6")).value == pytest.approx(5.686, abs=0.001)


def test_what_was_assumed_is_said():
    worked = make_up_u(Glass(make_up="4/20/4", gas="argon"))
    assert isinstance(worked, Calculation)
    assert worked.assumed == ("4/20/4: no coating", "4/20/4: 90% argon, the rest air")
    assert make_up_u(Glass(make_up="4/20/4", gas="argon 85 %", low_e={"face": 3, "emissivity": 0.03})).assumed == ()


def test_both_coatings_of_a_triple_unit_count():
    # 4-12-4-12-4, argon 90 %, ε 0.05 twice: 0.7626 (computed, another program; formula of EN 673 from memory)
    twice = [{"face": 2, "emissivity": 0.05}, {"face": 5, "emissivity": 0.05}]
    assert make_up_u(Glass(make_up="4/12/4/12/4", gas="argon", low_e=twice)).value == pytest.approx(0.7626, abs=1e-4)
    once = make_up_u(Glass(make_up="4/12/4/12/4", gas="argon", low_e=twice[0])).value
    assert once > 0.95
