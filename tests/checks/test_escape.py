"""Means of escape. Figures: Approved Document B volume 1, 2.10, read second hand (council and trade pages)."""

import math

import pytest

from elevations.calculation import CannotTell
from elevations.checks.hanging import clear_opening, sash_depth_mm
from elevations.checks.results import State
from tests.checks.cases import by_words, case_of, check, only

TWO = """
    frame: {width: 1200, height: 1050}
    floor_to_opening: FLOOR
    drop: 2600
    storey: upper
    mullions: [600]
    lights:
      - {light: side-hung, hinge: left, escape: true EXTRA}
      - {light: fixed}
"""


def two(extra="", floor=900):
    return TWO.replace("EXTRA", extra).replace("FLOOR", str(floor))


def declared(width, height):
    return two(f", clear_opening: {{width: {width}, height: {height}}}")


def states(window, **more):
    return {r.message.split(" ")[1]: r.state for r in check("escape", window, **more) if r.message.startswith("clear")}


def test_the_clear_opening_by_hand():
    # frame 66 and mullion 38 bound 600 - 66 - 38 = 496; the escape stay takes 20 of it; height 1050 - 2 x 66
    clear = clear_opening(*lights(two()))
    assert (clear.width.value, clear.height.value) == (496 - 20, 918)
    assert clear.area.value == pytest.approx(0.476 * 0.918)
    assert clear.bottom.value == clear.lowest_mm == 66


def lights(window, **more):
    window = case_of(window, **more).window
    return window, window.lights[0]


def test_a_sash_that_opens_less_far_leaves_less():
    # turning about its outer edge: from the sash's edge at 43 to the mullion at 600 - 38, at 60 degrees, less the sash's depth
    window, light = lights(two(", opens_to: 60"))
    expected = (600 - 38 - 43) * math.sin(math.radians(60)) - sash_depth_mm(window.system)
    assert clear_opening(window, light).width.value == pytest.approx(expected)
    assert clear_opening(window, light).width.value < 450


def test_a_sash_clears_no_more_than_its_frame():
    window, light = lights(two(", opens_to: 180"))
    assert clear_opening(window, light).width.value <= 496


@pytest.mark.parametrize(("hinge", "light"), [("", "top-hung"), ("", "bottom-hung")])
def test_lights_hung_at_head_or_sill_lose_height(hinge, light):
    window, made = lights(f"frame: {{width: 900, height: 600}}\nlights: [{{light: {light}, opens_to: 10}}]")
    clear = clear_opening(window, made)
    assert clear.width.value == 900 - 132
    assert clear.height.value == pytest.approx(max(0, (600 - 66 - 43) * math.sin(math.radians(10)) - sash_depth_mm(window.system)))
    # what opens of a bottom-hung light is its top
    assert clear.bottom.value == (66 if light == "top-hung" else 534 - clear.height.value)


@pytest.mark.parametrize(("width", "height", "expected"), [
    (500, 660, (State.PASS, State.PASS, State.PASS)),       # 0.33 m2 exactly
    (500, 659, (State.FAIL, State.PASS, State.PASS)),
    (450, 734, (State.PASS, State.PASS, State.PASS)),       # 450 exactly
    (449, 800, (State.PASS, State.FAIL, State.PASS)),
    (734, 450, (State.PASS, State.PASS, State.PASS)),
    (800, 449, (State.PASS, State.PASS, State.FAIL)),
])  # fmt: skip
def test_area_width_and_height_are_held_to_their_limits(width, height, expected):
    found = states(declared(width, height))
    assert (found["area"], found["width"], found["height"]) == expected


@pytest.mark.parametrize(("floor", "state"), [(1034, State.PASS), (1035, State.FAIL)])
def test_the_opening_may_begin_1100_above_the_floor_and_no_higher(floor, state):
    # 66 from the bottom of the frame to its inmost edge: 1034 + 66 = 1100
    result = by_words(check("escape", two(floor=floor)), "bottom of the clear opening")
    assert result.state is state
    assert result.value.value == floor + 66
    assert any("taken as the bottom of the frame" in text for text in result.assumed)


def test_a_surveyed_opening_tells_where_the_frame_stands():
    # what is known to lift the frame off the opening: sill 30, packers 5, clearance 5
    window = two().replace("frame: {width: 1200, height: 1050}", "opening: {width: 1210, height: 1100}\n    sill: {projection: 150, height: 30, packers: 5}\n    fit: {clearance: 10}")
    result = by_words(check("escape", window), "bottom of the clear opening")
    assert result.value.value == pytest.approx(900 + 30 + 5 + 5 + 66)
    assert result.assumed == ()


def test_a_sill_lifts_the_frame_where_no_opening_was_surveyed():
    window = two().replace("    mullions", "    sill: {projection: 150, height: 30, packers: 5}\n    mullions")
    result = by_words(check("escape", window), "bottom of the clear opening")
    assert result.value.value == 900 + 35 + 66
    assert any("stands on its sill" in text for text in result.assumed)


def test_without_the_floor_the_height_cannot_be_told():
    result = by_words(check("escape", two().replace("floor_to_opening: 900", "location: Bedroom")), "bottom of the clear opening")
    assert result.state is State.CANNOT_TELL
    assert "floor_to_opening" in result.needs[0]


def test_without_hardware_the_clear_opening_cannot_be_told(tmp_path):
    (tmp_path / "own.yaml").write_text(
        "depth: 70\nmaterial: pvc-u\nswing: out\nsash_face: flush\nmembers: {frame: {sight: 66, rebate: 46, sash: 43}, mullion: {sight: 38, rebate: 18, sash: 15}, "
        "transom: {sight: 38, rebate: 18, sash: 15}, sash: {sight: 76, rebate: 56}}\nglazing: {edge_clearance: 5, thickness: 28}\n", "utf-8")
    results = check("escape", two(), system="own.yaml", beside=str(tmp_path))
    assert by_words(results, "clear width").state is State.CANNOT_TELL
    assert any("opens_to of light 1" in need for need in by_words(results, "clear area").needs)
    # as soon as somebody says how far it opens it is worked out as on butt hinges: (600 - 38 - 43) - depth 70
    results = check("escape", two(", opens_to: 90"), system="own.yaml", beside=str(tmp_path))
    assert by_words(results, "clear width").value.value == pytest.approx(519 - 70)


def test_a_shaped_light_is_not_guessed():
    text = "frame: {width: 900, height: 1200}\nhead: {raked: {left: 900, right: 1200}}\nlights: [{light: side-hung, hinge: left, escape: true}]"
    window, light = lights(text)
    clear = clear_opening(window, light)
    assert isinstance(clear.width, CannotTell)
    assert "clear_opening of light 1" in clear.width.needs[0]


@pytest.mark.parametrize(("extra", "state"), [
    (", restrictor: true, restrictor_releases: true", State.PASS),
    (", restrictor: true, restrictor_releases: false", State.WARN),   # a page of low authority says so: warned, not failed
    (", restrictor: true", State.CANNOT_TELL),
])  # fmt: skip
def test_a_restrictor_must_let_go(extra, state):
    assert by_words(check("escape", two(extra)), "restrictor").state is state


@pytest.mark.parametrize(("drop", "state"), [(4500, State.PASS), (4501, State.FAIL)])
def test_windows_serve_for_escape_up_to_4500_above_the_ground(drop, state):
    assert by_words(check("escape", two().replace("2600", str(drop))), "above the ground").state is state


def test_the_drop_is_asked_for():
    result = by_words(check("escape", two().replace("drop: 2600", "location: Bedroom")), "above the ground")
    assert (result.state, "drop" in result.needs[0]) == (State.CANNOT_TELL, True)


NO_WAY_OUT = "frame: {width: 900, height: 900}\nlights: [{light: fixed}]\n"


@pytest.mark.parametrize(("facts", "state", "words"), [
    ("", State.CANNOT_TELL, "room: {use"),
    ("room: {use: kitchen}", State.NOT_APPLICABLE, "'kitchen'"),
    ("room: {use: kitchin}", State.CANNOT_TELL, "'kitchin' is none"), ("room: {use: Bedroom 2}", State.CANNOT_TELL, "storey"),
    ("room: {use: landing}", State.NOT_APPLICABLE, "'landing'"),
    ("room: {use: Bedroom}", State.CANNOT_TELL, "storey"),
    ("room: {use: bedroom}\nstorey: ground", State.CANNOT_TELL, "exit"),
    ("room: {use: bedroom, exit: hall}\nstorey: ground", State.NOT_APPLICABLE, "hall that leads"),
    ("room: {use: bedroom, exit: protected-stair}\nstorey: upper", State.NOT_APPLICABLE, "protected stair"),
    ("room: {use: bedroom, exit: hall}\nstorey: upper", State.CANNOT_TELL, "escape: true"),
    ("room: {use: bedroom, exit: through-room}\nstorey: ground", State.CANNOT_TELL, "escape: true"),
])  # fmt: skip
def test_whether_the_room_asks_for_one(facts, state, words):
    result = only("escape", NO_WAY_OUT + facts)
    assert result.state is state
    assert words in result.message


@pytest.mark.parametrize(("light", "system"), [("vertical-sliding", "slider-112"), ("horizontal-pivot", "pivot-68")])
def test_where_the_opening_begins_is_not_guessed(light, system):
    text = f"frame: {{width: 1200, height: 1300}}\nfloor_to_opening: 700\nlights: [{{light: {light}, escape: true, clear_opening: {{width: 1100, height: 500 MORE}}}}]"
    result = by_words(check("escape", text.replace("MORE", ""), system=system), "bottom of the clear opening")
    assert (result.state, "bottom: …" in result.needs[0]) == (State.CANNOT_TELL, True)
    result = by_words(check("escape", text.replace("MORE", ", bottom: 400"), system=system), "bottom of the clear opening")
    assert (result.state, result.value.value) == (State.PASS, 1100)


def test_a_light_that_slides_sideways_begins_at_its_bottom():
    text = "frame: {width: 1200, height: 1300}\nfloor_to_opening: 700\nlights: [{light: sliding, escape: true, clear_opening: {width: 500, height: 900}}]"
    assert by_words(check("escape", text, system="slider-112"), "bottom of the clear opening").state is State.PASS
