"""Background and purge ventilation. Figures: Approved Document F volume 1, 2021 edition, read second hand."""

import math

import pytest

from elevations.checks.results import State
from tests.checks.cases import by_words, check, only

BUILDING = "work: replacement, ventilation: natural"


def window(vent="vent: 8000", room="bedroom", more="old_vent: 0"):
    light = f"{{light: top-hung, {vent}}}" if vent else "{light: top-hung}"
    return f"frame: {{width: 900, height: 900}}\nfloor_to_opening: 900\nroom: {{use: {room}}}\nlights: [{light}]\n{more}\n"


def area(text, building=BUILDING):
    return check("vents", text, building)[0]


@pytest.mark.parametrize(("room", "vent", "state"), [
    ("bedroom", 8000, State.PASS), ("bedroom", 7999, State.FAIL), ("Kitchen", 8000, State.PASS), ("kitchen", 7999, State.FAIL),
    ("bathroom", 4000, State.PASS), ("bathroom", 3999, State.FAIL), ("bedroom", 0, State.FAIL),
    ("wc", 2000, State.NOTE), ("utility room", 2000, State.NOTE), ("landing", 8000, State.NOT_APPLICABLE),
])  # fmt: skip
def test_each_room_has_its_least_area(room, vent, state):
    assert area(window(f"vent: {vent}", room)).state is state


@pytest.mark.parametrize(("vent", "state"), [(5000, State.PASS), (4999, State.FAIL)])
def test_where_the_old_window_had_ventilators_the_new_are_no_smaller(vent, state):
    assert area(window(f"vent: {vent}", more="old_vent: 5000")).state is state


def test_ventilators_of_all_lights_add_up():
    text = "frame: {width: 1400, height: 900}\nroom: {use: study}\nold_vent: 0\nmullions: [700]\nlights: [{light: fixed, vent: 4000}, {light: top-hung, vent: 4000}]\n"
    assert area(text).value.value == 8000


@pytest.mark.parametrize(("text", "building", "need"), [
    (window(more=""), BUILDING, "old_vent"), (window(""), BUILDING, "vent of its lights"), (window(room=""), BUILDING, "room"),
    (window(), "work: replacement", "building"), (window(), "ventilation: natural", "building"),
])  # fmt: skip
def test_every_missing_fact_is_named(text, building, need):
    result = area(text.replace("use: }", "floor_area: 9}"), building)
    assert result.state is State.CANNOT_TELL
    assert result.needs[0].startswith(need)


def test_it_is_not_asked_where_a_machine_ventilates_or_the_dwelling_is_new():
    assert area(window("vent: 0"), "work: replacement, ventilation: mechanical").state is State.NOT_APPLICABLE
    assert area(window("vent: 0"), "work: new-dwelling, ventilation: natural").state is State.NOT_APPLICABLE


@pytest.mark.parametrize(("floor", "state"), [(800, State.PASS), (799, State.FAIL)])
def test_a_ventilator_is_1700_above_the_floor(floor, state):
    text = window().replace("floor_to_opening: 900", f"floor_to_opening: {floor}")
    result = by_words(check("vents", text, BUILDING), "height of its ventilator")
    assert (result.state, result.value.value) == (state, floor + 900)
    assert "the ventilator is at the top of its light" in result.assumed


def airing(opens_to, floor, light="side-hung, hinge: left", more=""):
    # 768 x 868 between the inmost edges of the frame: 0.666624 m2
    return f"frame: {{width: 900, height: 1000}}\nroom: {{use: bedroom, floor_area: {floor}}}\nlights: [{{light: {light}, opens_to: {opens_to}{more}}}]"


FREE = 0.768 * 0.868


@pytest.mark.parametrize(("angle", "floor", "state"), [
    (30, FREE * 20, State.PASS), (30, FREE * 20 + 0.01, State.WARN),    # a twentieth, from 30 degrees
    (29, FREE * 10, State.PASS), (29, FREE * 10 + 0.01, State.WARN),    # a tenth, below
    (15, FREE * 10, State.PASS), (14.9, 1.0, State.WARN),               # nothing below 15
])  # fmt: skip
def test_how_far_it_opens_decides_how_much_counts(angle, floor, state):
    assert only("purge", airing(angle, round(floor, 9))).state is state


def test_too_little_of_one_window_is_only_warned_of():
    result = only("purge", airing(90, 100))
    assert (result.state, result.limit.hard) == (State.WARN, True)
    assert "other windows of the room" in result.hint


@pytest.mark.parametrize(("more", "state"), [
    (", restrictor: true, restrictor_releases: true", State.PASS),
    (", restrictor: true, restrictor_releases: false", State.WARN),
    (", restrictor: true", State.CANNOT_TELL),
])  # fmt: skip
def test_a_restrictor_holds_unless_it_can_be_released(more, state):
    assert only("purge", airing(90, 10, more=more)).state is state


def test_a_restrictor_of_100_mm_on_a_low_light_still_opens_it_far_enough():
    # chord 100 over a top-hung sash of 300 - 2 x 43 = 214: 2 asin(50 / 214) = 27 degrees
    text = "frame: {width: 900, height: 300}\nroom: {use: bedroom, floor_area: 1}\nlights: [{light: top-hung, opens_to: 60, restrictor: true, restrictor_releases: false}]"
    result = only("purge", text)
    degrees = next(step.value for step in result.value.steps if step.symbol == "opens to")
    assert degrees == pytest.approx(math.degrees(2 * math.asin(50 / 214)))
    assert result.state is State.PASS
    assert result.value.value == pytest.approx(0.768 * 0.168 / 2)


def test_a_window_of_fixed_lights_airs_nothing():
    result = only("purge", "frame: {width: 900, height: 900}\nroom: {use: bedroom, floor_area: 9}\nlights: [{light: fixed}]")
    assert (result.state, result.value.value) == (State.WARN, 0)


@pytest.mark.parametrize(("room", "state"), [
    ("{floor_area: 9}", State.CANNOT_TELL), ("{use: bedroom}", State.CANNOT_TELL), ("{use: hall, floor_area: 9}", State.NOT_APPLICABLE),
])  # fmt: skip
def test_purge_facts(room, state):
    assert only("purge", f"frame: {{width: 900, height: 900}}\nroom: {room}\nlights: [{{light: top-hung}}]").state is state


@pytest.mark.parametrize(("light", "state"), [
    ("horizontal-pivot, opens_to: 60", State.PASS), ("horizontal-pivot", State.CANNOT_TELL), ("vertical-pivot, opens_to: 10", State.WARN),
])  # fmt: skip
def test_a_pivot_light_counts_by_how_far_it_turns(light, state):
    text = f"frame: {{width: 900, height: 1000}}\nroom: {{use: bedroom, floor_area: 9}}\nlights: [{{light: {light}}}]"
    assert only("purge", text, system="pivot-68").state is state


def test_a_pair_counts_as_one_opening():
    text = "frame: {width: 1300, height: 1000}\nroom: {use: bedroom, floor_area: 9}\nlights: [{light: side-hung-pair, opens_to: 90}]"
    result = only("purge", text)
    assert result.value.value == pytest.approx((1.3 - 0.132) * 0.868)
