"""The machining list: every place measured from the end of the cut piece, sums by hand.

flush-70, mm from each datum: frame rebate 46; mullion rebate 18, joint 12; sash rebate 56; weld allowance 3 at each end.
"""

import math
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.catalogue.hardware import Slots
from elevations.plane import Point
from elevations.schedules.machining import machining_rows, spread
from elevations.schedules.pieces import along_cut
from tests.jobs import window_of
from tests.schedules.cut_windows import TWO_LIGHTS, with_system

ROOT = Path(__file__).resolve().parents[2]


def test_positions_are_measured_from_the_end_of_the_cut_piece():
    places = {(r.piece, r.what): (r.along_mm, r.measured_from) for r in machining_rows(window_of(TWO_LIGHTS))}
    assert places["W1-head", "M1"] == (600 + 3, "left")
    assert places["W1-sill", "M1"] == (600 + 3, "left")
    assert places["W1-right jamb", "T1"] == (350 + 3, "top")
    assert places["W1-M1", "T1"] == (350 - 46 + 12, "top")
    assert places["W1-left jamb", "F1"] == (150 + 3, "top")
    assert places["W1-head", "F4"] == (150 + 3, "left")


def along(window, kind):
    found = {}
    for r in machining_rows(window):
        if r.kind == kind:
            found.setdefault((r.piece, r.what), []).append(r.along_mm)
    return found


def test_slots_drain_every_rebate_and_holes_stand_above_it():
    # flush-70: slots 80 from the rebate's ends, at most 600 apart; holes 80 from its ends. Cut pieces: sill from -3,
    # T1 from 618 - 12, S1's rails from 43 - 3; rebates: G3 from 618 to 1154, G1 from 43 + 56 to 585 - 56
    window = window_of(TWO_LIGHTS)
    assert along(window, "drainage slot") == {
        ("W1-sill", "G3"): [618 + 80 + 3, 1154 - 80 + 3],
        ("W1-S1 bottom rail", "G1"): [56 + 80 + 3, 542 - 56 - 80 + 3],
        ("W1-S2 bottom rail", "G2"): [56 + 80 + 3, 542 - 56 - 80 + 3],
    }
    holes = along(window, "pressure hole")
    assert holes["W1-T1", "G3"] == [618 + 80 - (618 - 12), 1154 - 80 - (618 - 12)]
    assert holes["W1-S1 top rail", "G1"] == [139, 409]
    assert len(holes) == 3
    assert {r.size for r in machining_rows(window) if r.kind == "drainage slot"} == {"30 x 5"}


def test_long_rebates_get_slots_no_further_apart_than_the_rule():
    # 2000 wide: rebate 46 to 1954, slots from 126 to 1874: 1748 in three gaps of 582.7
    window = window_of("frame: {width: 2000, height: 800}\nlights: [{light: fixed}]")
    slots = along(window, "drainage slot")["W1-sill", "G1"]
    assert slots == [129, pytest.approx(129 + 1748 / 3, abs=0.05), pytest.approx(129 + 2 * 1748 / 3, abs=0.05), 1877]


def test_slots_of_a_short_rebate_become_one_in_its_middle():
    assert spread(150, Slots("", 80, 600)) == [75]
    assert spread(2000, Slots("", 80, None)) == [80, 1920]
    assert spread(1360, Slots("", 80, 600)) == [80, 680, 1280]


def test_without_a_rule_nothing_is_drained():
    window = with_system(window_of(TWO_LIGHTS), drainage=None, pressure_holes=None)
    assert {r.kind for r in machining_rows(window)} == {"bar joint", "fixing hole"}


def test_holes_under_a_slope_lie_square_across_from_its_rebate():
    window = window_of("""
        frame: {width: 1200, height: 1400}
        head: {raked: {left: 1100, right: 1400}}
        lights: [{light: fixed}]
    """)
    holes = along(window, "pressure hole")["W1-head", "G1"]
    # the rebate starts 46 / tan(52 degrees) after the outer edge does, and ends 46 / tan(38) before it
    length = math.hypot(1200, 300)
    half = math.degrees(math.atan(0.25)) / 2
    first, last = 46 / math.tan(math.radians(45 + half)) + 80 + 3, length - 46 / math.tan(math.radians(45 - half)) - 80 + 3
    assert holes == [pytest.approx(first, abs=0.05), pytest.approx(last, abs=0.05)]


def test_a_handle_stands_across_from_the_hinges_at_its_height():
    window = window_of("""
        frame: {width: 1200, height: 1050}
        mullions: [600]
        lights: [{light: side-hung, hinge: left, handle_height: 400}, {light: side-hung, hinge: right}]
    """)
    # sash 964 high, so 964 - 400 down from its top, and the weld allowance
    assert along(window, "handle") == {("W1-S1 right stile", "S1"): [964 - 400 + 3]}


def test_a_mullion_below_a_transom_is_measured_from_the_transoms_left_end():
    text = """
        frame: {width: 1800, height: 1200}
        transoms: [400]
        lights: [{light: fixed}, {mullions: [700], lights: [{light: fixed}, {light: fixed}]}]
    """
    places = {(r.piece, r.what): r.along_mm for r in machining_rows(window_of(text))}
    assert places["W1-T1", "M1"] == 700 - 46 + 12
    assert places["W1-sill", "M1"] == 700 + 3


def test_a_transom_on_a_scribed_mullion_is_measured_from_the_mullions_longest_point():
    window = window_of("""
        circular: {diameter: 900}
        mullions: [450]
        lights: [{light: fixed}, {transoms: [450], lights: [{light: fixed}, {light: fixed}]}]
    """)
    places = {(r.piece, r.what): r.along_mm for r in machining_rows(window)}
    assert places["W1-M1", "T1"] == pytest.approx(450 - (46 - 12), abs=0.05)   # the crown less the rebate, plus the joint


def test_a_point_off_its_member_is_a_fault():
    window = window_of(TWO_LIGHTS)
    with pytest.raises(ValueError, match="not on the outer edge"):
        along_cut(window.members[0], Point(-50, 20), window.system)


def test_no_hole_is_drilled_where_a_bracket_holds_the_frame():
    # fit-walls W1: its sill is held by brackets on the frame's edge, its jambs by screws through the frame
    loaded = pipeline.read(str(ROOT / "specs/fit-walls.yaml"))
    (window,) = pipeline.windows(loaded, ["W1"])
    holes = {r.piece for r in machining_rows(window) if r.kind == "fixing hole"}
    assert holes == {"W1-left jamb", "W1-head", "W1-right jamb"}
    assert {f.side for f in window.fixings} == {"left jamb", "head", "right jamb", "sill"}
