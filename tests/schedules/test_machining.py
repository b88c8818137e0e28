"""The machining list: every place measured from the end of the cut piece, sums by hand.

flush-70, mm from each datum: frame rebate 46; mullion rebate 18, joint 12; sash rebate 56; weld allowance 3 at each end.
"""

import math
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.plane import Point
from elevations.schedules.machining import machining_rows
from elevations.schedules.pieces import along_cut
from elevations.schedules.sundries import sundry_rows
from elevations.sheets.words import fixings_words
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


def test_every_rebate_is_drained_at_its_bottom_and_lets_air_in_at_its_top():
    # flush-70: slots 60 from the rebate's ends, at most 600 apart, 40 clear of fixings; outlets 60 on; holes 80 from its ends.
    # Fixings in the sill at 150, 450 and 1050. Cut pieces: sill from -3, T1 from 618 - 12, rails from 43 - 3.
    # G3's rebate runs from 618 to 1154, S1 closes against 46 to 582, S2 against T1 from 618 to 1154: 678 and 1094, 106 and 522
    # are at least 44 from fixings and 78 from M1.
    window = window_of(TWO_LIGHTS)
    assert along(window, "drainage slot") == {
        ("W1-sill", "G3"): [618 + 60 + 3, 1154 - 60 + 3],
        ("W1-sill", "S1"): [46 + 60 + 3, 582 - 60 + 3],
        ("W1-T1", "S2"): [618 + 60 - 606, 1154 - 60 - 606],
        ("W1-S1 bottom rail", "G1"): [56 + 60 + 3, 542 - 56 - 60 + 3],
        ("W1-S2 bottom rail", "G2"): [56 + 60 + 3, 542 - 56 - 60 + 3],
    }
    # outlets: 738 is free; 1034 and 166 are 16 from fixings and move to 40 from them; 462 is 12 from one and moves on to 410
    assert along(window, "drainage outlet")["W1-sill", "G3"] == [678 + 60 + 3, 1050 - 40 + 3]
    assert along(window, "drainage outlet")["W1-sill", "S1"] == [150 + 40 + 3, 450 - 40 + 3]
    holes = along(window, "pressure hole")
    assert holes["W1-T1", "G3"] == [618 + 80 - (618 - 12), 1154 - 80 - (618 - 12)]
    assert holes["W1-S1 top rail", "G1"] == [139, 409]
    assert len(holes) == 3
    assert {r.size for r in machining_rows(window) if r.kind == "drainage slot"} == {"30 x 5"}
    assert not [f for f in window.findings if f.code == "drainage-in-the-way"]


def test_slots_keep_clear_of_fixings_and_no_further_apart_than_the_rule():
    # 2000 wide: fixings at 150, 716.7, 1283.3, 1850. Rebate 46 to 1954, slots 106 and 1894: thirds of the 1788 between them, 702
    # and 1298, are nearer than 40 to fixings, and moving them 40 clear would leave 650 somewhere: so quarters, 447 each
    window = window_of("frame: {width: 2000, height: 800}\nlights: [{light: fixed}]")
    assert along(window, "drainage slot")["W1-sill", "G1"] == [109, 556, 1003, 1450, 1897]


def test_a_slot_where_a_fixing_is_moves_clear_of_it():
    # the job's fixings 130 from the corner: 24 from the first slot, at 46 + 60, which moves to 130 + 40
    window = window_of("frame: {width: 900, height: 800}\nfixings: {corner: 130}\nlights: [{light: fixed}]")
    assert along(window, "drainage slot")["W1-sill", "G1"] == [173, 900 - 170 + 3]


def test_without_a_rule_nothing_is_drained():
    window = with_system(window_of(TWO_LIGHTS), drainage=None, pressure_holes=None, hardware=(), reinforcement=None)
    assert {r.kind for r in machining_rows(window)} == {"bar joint", "fixing hole"}


def test_holes_under_a_slope_lie_square_across_from_its_rebate():
    window = window_of("""
        frame: {width: 1200, height: 1400}
        head: {raked: {left: 1100, right: 1400}}
        lights: [{light: fixed}]
    """)
    holes = along(window, "pressure hole")["W1-head", "G1"]
    # the rebate starts 46 / tan(52 degrees) after the outer edge does, and ends 46 / tan(38) before it; the head's fixings are
    # 150 from its corners: the last hole, 14 from one, moves to 30 from it
    length = math.hypot(1200, 300)
    half = math.degrees(math.atan(0.25)) / 2
    first, last = 46 / math.tan(math.radians(45 + half)) + 80 + 3, length - 150 - 30 + 3
    assert holes == [pytest.approx(first, abs=0.05), pytest.approx(last, abs=0.05)]


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


@pytest.mark.parametrize(("mark", "drilled"), [
    ("W1", set()),                                               # straps all round
    ("W2", {"W2-left jamb", "W2-right jamb"}),                   # a sill, and a lintel that may not be drilled
    ("W3", {"W3-left jamb", "W3-head", "W3-right jamb"}),        # a sill
    ("W4", {"W4-left jamb", "W4-head", "W4-right jamb", "W4-sill"}),
])
def test_no_hole_is_drilled_where_a_bracket_holds_the_frame(mark, drilled):
    loaded = pipeline.read(str(ROOT / "specs/fit-walls.yaml"))
    (window,) = pipeline.windows(loaded, [mark])
    assert {r.piece for r in machining_rows(window) if r.kind == "fixing hole"} == drilled
    assert {f.side for f in window.fixings} == {"left jamb", "head", "right jamb", "sill"}


def test_no_hole_is_drilled_where_nothing_holds():
    """The demo's screws end in the cavity on three sides and its sill has brackets: no hole, and no screw to order there."""
    loaded = pipeline.read(str(ROOT / "specs/fit-clash.yaml"))
    held, unheld = pipeline.windows(loaded)
    assert {f.subject for f in unheld.findings if f.code == "fixing-in-cavity"} == {"left jamb, head, right jamb"}
    assert [r for r in machining_rows(unheld) if r.kind == "fixing hole"] == []
    assert {r.piece for r in machining_rows(held) if r.kind == "fixing hole"} == {"W1-left jamb", "W1-right jamb"}
    fixings = [row for row in sundry_rows(unheld) if row.what == "frame fixing"]
    assert [(row.quantity, "not to be ordered or drilled yet" in row.remark) for row in fixings] == [(6, True)]
    assert sum("not drilled before it is settled" in line for line in fixings_words(unheld)) == 2   # the jambs, alike, and the head


def test_a_mullion_under_an_apex_is_let_into_both_heads():
    """By hand: each head is hypot(800, 700) = 1063.0 long, with 3 of weld at each end the apex lies 1066 from its left, or 3."""
    window = window_of(
        "frame: {width: 1600, height: 1800}\nhead: {gable: {apex: 800, eaves: 1100}}\nmullions: [800]\nlights: [{light: fixed}, {light: fixed}]\n"
    )
    joints = {row.piece: row.along_mm for row in machining_rows(window) if row.kind == "bar joint"}
    assert joints == {"W1-left head": pytest.approx(1066, abs=0.05), "W1-right head": pytest.approx(3, abs=0.05), "W1-sill": 803}
    beside = window_of(
        "frame: {width: 1600, height: 1800}\nhead: {gable: {apex: 800, eaves: 1100}}\nmullions: [400]\nlights: [{light: fixed}, {light: fixed}]\n"
    )
    assert {row.piece for row in machining_rows(beside) if row.kind == "bar joint"} == {"W1-left head", "W1-sill"}
