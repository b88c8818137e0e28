"""Falling out, restrictors, reach. Heights: Approved Document K, diagram 3.1 (read); O (read); Q, appendix A (read)."""

import pytest

from elevations.checks.results import State
from tests.checks.cases import by_words, check, only

OPENS = "frame: {width: 700, height: 900}\nlights: [{light: side-hung, hinge: left}]\n"
FIXED = "frame: {width: 700, height: 900}\nlights: [{light: fixed}]\n"
WORK = "work: replacement"


@pytest.mark.parametrize(("drop", "state"), [(600, State.NOT_APPLICABLE), (601, State.CANNOT_TELL)])
def test_a_drop_of_600_needs_no_guard(drop, state):
    assert only("guarding", f"{OPENS}floor_to_opening: 500\ndrop: {drop}", WORK).state is state


@pytest.mark.parametrize(("floor", "guard", "state"), [
    (734, "", State.PASS),                     # opens 734 + 66 = 800 above the floor
    (733, "", State.CANNOT_TELL),
    (500, "guard: 800", State.PASS),
    (500, "guard: 799", State.FAIL),
    (500, "guard: 0", State.FAIL),
])  # fmt: skip
def test_a_low_opening_over_a_drop_is_guarded_to_800(floor, guard, state):
    result = only("guarding", f"{OPENS}floor_to_opening: {floor}\ndrop: 3000\n{guard}", WORK)
    assert result.state is state
    assert result.limit.value == 800


@pytest.mark.parametrize(("guard", "work", "state"), [
    (1100, "work: new-dwelling", State.PASS), (1099, "work: new-dwelling", State.FAIL),
    (1100, "", State.PASS),           # enough for either kind of work
    (799, "", State.FAIL),            # too little for either
    (900, "", State.CANNOT_TELL),
])  # fmt: skip
def test_in_a_new_dwelling_the_guard_is_higher(guard, work, state):
    assert only("guarding", f"{OPENS}floor_to_opening: 500\ndrop: 3000\nguard: {guard}", work).state is state


@pytest.mark.parametrize(("facts", "need"), [("floor_to_opening: 500", "drop"), ("drop: 3000", "floor_to_opening")])
def test_without_heights_it_cannot_be_told(facts, need):
    result = only("guarding", OPENS + facts, WORK)
    assert result.state is State.CANNOT_TELL
    assert result.needs[0].startswith(need)


@pytest.mark.parametrize(("floor", "guard", "state"), [
    (734, "", State.PASS), (733, "", State.CANNOT_TELL), (500, "guard: 800", State.PASS), (500, "guard: 700", State.CANNOT_TELL),
])  # fmt: skip
def test_low_fixed_glass_over_a_drop_is_never_passed_for_a_guard(floor, guard, state):
    assert only("guarding", f"{FIXED}floor_to_opening: {floor}\ndrop: 3000\n{guard}", WORK).state is state


def test_a_restrictor_is_noted_with_its_opening():
    note = only("restrictor", OPENS.replace("left}", "left, restrictor: true}"))
    assert (note.state, note.limit.value) == (State.NOTE, 100)
    assert only("restrictor", OPENS).state is State.NOT_APPLICABLE


@pytest.mark.parametrize(("facts", "work", "state", "words"), [
    ("floor_to_opening: 900\ndrop: 1100", "work: new-dwelling", State.NOTE, "easily accessible"),   # 2000 above the ground
    ("floor_to_opening: 900\ndrop: 1101", "work: new-dwelling", State.NOTE, "a flat roof"),
    ("floor_to_opening: 900\ndrop: 1100", "work: replacement", State.NOT_APPLICABLE, "new dwellings"),
    ("floor_to_opening: 900\ndrop: 1100", "", State.CANNOT_TELL, "building"),
    ("drop: 1100", "work: new-dwelling", State.CANNOT_TELL, "floor_to_opening"),
])  # fmt: skip
def test_whether_it_is_easily_reached_from_outside(facts, work, state, words):
    result = only("security", OPENS + facts, work)
    assert result.state is state
    assert words in result.message


BEADS = "frame: {width: 1400, height: 900}\nmullions: [700]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]\nfloor_to_opening: 900\n"


@pytest.mark.parametrize(("facts", "work", "state"), [
    ("drop: 1100", "work: replacement", State.WARN),   # 900 + 1100 = 2000 above the ground
    ("drop: 1100", "work: new-dwelling", State.WARN), ("drop: 1101", "work: replacement", State.NOTE), ("", "work: replacement", State.CANNOT_TELL),
])  # fmt: skip
def test_beads_on_the_outer_face_within_reach_are_doubtful(facts, work, state):
    # flush-70 beads its frames outside and its sashes inside: glass G2, of the fixed light, alone
    (beads,) = [result for result in check("security", BEADS + facts, work) if result.subject]
    assert (beads.subject, beads.state) == ("G2", state)
    assert "outer face (flush-70: glazing)" in beads.message


def test_profiles_built_inside_out_turn_the_beads_round():
    (beads,) = [result for result in check("security", BEADS.replace("left}", "left, swing: in}") + "drop: 1000", "work: replacement") if result.subject]
    assert beads.subject == "G1"
    assert "profiles built inside out" in beads.message


def test_beads_inside_are_not_spoken_of():
    assert not [result for result in check("security", BEADS + "drop: 1000\nsystem: lipped-70", "work: replacement") if result.subject]


@pytest.mark.parametrize(("floor", "words"), [(1166, "within reach"), (1167, "agree how it is cleaned")])
def test_glass_that_ends_within_2000_is_within_reach(floor, words):
    # 1166 + 900 - 66 = 2000
    assert words in only("cleaning", f"{FIXED}floor_to_opening: {floor}").message


def test_cleaning_without_the_floor_cannot_be_told():
    assert only("cleaning", FIXED).state is State.CANNOT_TELL


def test_each_light_and_each_low_pane_is_looked_at():
    window = "frame: {width: 1400, height: 1500}\nmullions: [700]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]\nfloor_to_opening: 500\ndrop: 3000"
    results = check("guarding", window, WORK)
    assert {r.subject for r in results} == {"light 1", "G2"}
    assert "guard (height" in by_words(results, "its opening").needs[0]
