"""Safety glass. Zones: Approved Document K, section 5, 2013 edition, read second hand (four pages that agree)."""

import pytest

from elevations.checks.results import State
from tests.checks.cases import GLASS, check, only

# a fixed light in flush-70: its glass begins 66 above the bottom of the frame
FIXED = "frame: {width: 1000, height: 1000}\nlights: [{light: fixed}]\n"
NARROW = "frame: {width: 382, height: 600}\nlights: [{light: fixed}]\n"   # 250 of visible glass
SAFE = "safe: {make_up: 4/20/4, toughened: [outer, inner]}"
INNER = "inner: {make_up: 4/20/4, laminated: [inner]}"
CLASS_2 = "safe: {make_up: 4/20/4, toughened: [outer, inner], impact_class: 2}"
AWAY = "near: []\ndrop: 3000\n"


def at(floor, more=AWAY, window=FIXED):
    return f"{window}floor_to_opening: {floor}\n{more}"


@pytest.mark.parametrize(("floor", "state"), [(734, State.NOT_APPLICABLE), (733, State.FAIL), (0, State.FAIL)])
def test_ordinary_glass_may_begin_800_above_the_floor(floor, state):
    result = only("safety-glass", at(floor))
    assert (result.state, result.value.value) == (state, floor + 66)
    assert result.limit.value == 800


@pytest.mark.parametrize(("glass", "more", "state"), [
    (SAFE, AWAY, State.PASS),
    (INNER, AWAY, State.PASS),                                    # outside, the ground is far below
    (INNER, "near: []\ndrop: 150\n", State.FAIL),                 # outside, the glass is low too
    (INNER, "near: []\n", State.CANNOT_TELL),                     # nobody says how far the ground is
    (INNER, "drop: 400\nnear: []\n", State.PASS),                 # 400 + 400 + 66 above the ground outside
    ("outer: {make_up: 4/20/4, toughened: [outer]}", AWAY, State.FAIL),
])  # fmt: skip
def test_the_panes_that_people_can_reach_must_be_safe(glass, more, state):
    assert only("safety-glass", at(400, more), glass=glass).state is state


def test_a_pass_says_that_its_class_is_taken_from_memory():
    assert "taken as class 3 or better (from memory)" in only("safety-glass", at(400), glass=SAFE).message
    assert "class 2, as declared" in only("safety-glass", at(400), glass=CLASS_2).message


@pytest.mark.parametrize(("floor", "glass", "state"), [
    (1434, GLASS, State.NOT_APPLICABLE),    # 1434 + 66 = 1500
    (1433, GLASS, State.FAIL),
    (1000, SAFE, State.PASS),
])  # fmt: skip
def test_beside_a_door_the_zone_is_1500_high(floor, glass, state):
    assert only("safety-glass", at(floor, "near: [door]\ndrop: 3000\n"), glass=glass).state is state


@pytest.mark.parametrize(("width", "glass", "state"), [
    (1032, SAFE, State.PASS),          # 900 of visible glass: class 3 will do
    (1033, SAFE, State.CANNOT_TELL),   # wider: class 2, which nobody declares
    (1033, CLASS_2, State.PASS),
    (1033, CLASS_2.replace("class: 2", "class: 3"), State.FAIL),
])  # fmt: skip
def test_a_wide_pane_beside_a_door_must_be_of_class_2(width, glass, state):
    window = FIXED.replace("width: 1000", f"width: {width}")
    result = only("safety-glass", at(400, "near: [door]\ndrop: 3000\n", window), glass=glass)
    assert result.state is state
    if state is State.CANNOT_TELL:
        assert "impact_class" in result.needs[0]


def test_at_a_bath_any_height_counts():
    assert only("safety-glass", at(1600, "near: [bath]\ndrop: 3000\n")).state is State.FAIL
    assert only("safety-glass", at(1600, "near: [bath]\ndrop: 3000\n"), glass=SAFE).state is State.PASS


@pytest.mark.parametrize(("floor", "more", "needs"), [
    (900, "drop: 3000\n", "near"),                                 # a door may be beside it
    (1600, "drop: 3000\n", "near"),                                # the room may be a bathroom
    (1600, "drop: 3000\nroom: {use: bathroom}\n", "near"),
])  # fmt: skip
def test_what_is_near_must_be_known(floor, more, needs):
    result = only("safety-glass", at(floor, more))
    assert result.state is State.CANNOT_TELL
    assert result.needs[0].startswith(needs)


def test_high_glass_in_another_room_needs_no_more_facts():
    assert only("safety-glass", at(1600, "drop: 3000\nroom: {use: kitchen}\n")).state is State.NOT_APPLICABLE


def test_an_unknown_height_cannot_be_told_unless_the_glass_is_safe_anywhere():
    assert "floor_to_opening" in only("safety-glass", FIXED + AWAY).needs[0]
    assert only("safety-glass", FIXED + AWAY, glass=SAFE).state is State.PASS
    assert only("safety-glass", FIXED + "drop: 3000\n", glass=SAFE).state is State.PASS          # 868 wide: class 3 at worst
    wide = FIXED.replace("1000, height", "1200, height")
    assert only("safety-glass", wide + "drop: 3000\n", glass=SAFE).state is State.CANNOT_TELL    # class 2 if a door is near
    assert only("safety-glass", wide + "drop: 3000\n", glass=CLASS_2).state is State.PASS


def test_low_wide_glass_is_no_pass_while_a_door_may_be_near():
    wide = FIXED.replace("1000, height", "1200, height")
    assert only("safety-glass", at(400, "drop: 3000\n", wide), glass=SAFE).state is State.CANNOT_TELL


@pytest.mark.parametrize(("width", "glass", "state"), [
    (382, "six: {make_up: 6/16/6}", State.PASS),      # 250 wide
    (383, "six: {make_up: 6/16/6}", State.FAIL),
    (382, "five: {make_up: 5/18/5}", State.FAIL),     # thinner than 6
])  # fmt: skip
def test_small_panes_are_let_off(width, glass, state):
    window = NARROW.replace("382", str(width))
    assert only("safety-glass", at(100, "near: []\ndrop: 100\n", window), glass=glass).state is state


@pytest.mark.parametrize(("size", "state"), [(1232, State.PASS), (1233, State.FAIL)])
def test_8_mm_glass_is_let_off_up_to_1100(size, state):
    window = f"frame: {{width: 800, height: {size}}}\nlights: [{{light: fixed}}]\n"
    assert only("safety-glass", at(100, "near: []\ndrop: 100\n", window), glass="eight: {make_up: 8/12/8}").state is state


def test_every_pane_is_looked_at():
    window = "frame: {width: 1200, height: 2000}\ntransoms: [600]\nlights: [{light: fixed}, {light: fixed}]\nfloor_to_opening: 100\n" + AWAY
    found = {r.subject: r.state for r in check("safety-glass", window)}
    assert found == {"G1": State.NOT_APPLICABLE, "G2": State.FAIL}
