"""Where hardware sits, from one end of each piece: sums by hand. The places themselves are invented, like the items.

flush-70: frame and mullion let a sash begin 43 and 15 from their datum, weld allowance 3, mullion joint 12 past a rebate of 46.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from elevations.catalogue.load import find_system
from elevations.geometry.hardware import fitted
from elevations.geometry.resolve import resolve_job
from elevations.schedules.machining import machining_rows
from elevations.spec.load import parse_job
from tests.jobs import window_of
from tests.properties.specs import windows as any_window
from tests.schedules.cut_windows import with_system
from tests.schedules.test_cutting import as_yaml

SIDE = "frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]\n"


def places(window, kind):
    found = {}
    for r in machining_rows(window):
        if r.kind == kind:
            found.setdefault(r.piece, []).append(r.along_mm)
    return found


def test_friction_stays_are_on_both_rails_and_on_the_frame_above_and_below():
    # sash from 43, 542 wide; its stay 225 from the hinge edge: 43 + 225 along the frame, 3 of weld before both
    assert places(window_of(SIDE), "stay") == {
        "W1-head": [271], "W1-sill": [271], "W1-S1 top rail": [228], "W1-S1 bottom rail": [228],
    }


def test_hinges_on_the_right_are_measured_from_the_left_end_all_the_same():
    window = window_of(SIDE.replace("hinge: left", "hinge: right"))
    assert places(window, "stay")["W1-S1 top rail"] == [542 - 225 + 3]
    assert places(window, "stay")["W1-head"] == [43 + 542 - 225 + 3]


def test_keeps_are_on_what_the_sash_closes_against():
    # sash 964 high from 43 above the sill; keeps 150 from its ends, 664 apart; M1 reaches 1050 - 46 + 12 high
    top = 1050 - 46 + 12
    assert places(window_of(SIDE), "keep") == {"W1-M1": [top - (43 + 964 - 150), top - (43 + 150)]}


def test_long_sashes_get_keeps_between():
    # 1286 high: 986 between the outer ones, so one in the middle at 700 or less
    window = window_of("frame: {width: 700, height: 1372}\nlights: [{light: side-hung, hinge: left}]\n")
    assert places(window, "keep")["W1-right jamb"] == [43 + 150 + 3, 43 + 643 + 3, 43 + 1286 - 150 + 3]


def test_a_handle_is_at_its_height_or_else_in_the_middle():
    window = window_of("""
        frame: {width: 1200, height: 1050}
        mullions: [600]
        lights: [{light: side-hung, hinge: left, handle_height: 400}, {light: side-hung, hinge: right}]
    """)
    # sash 964 high, so 964 - 400 down from its top; the other 964 / 2
    assert places(window, "handle") == {"W1-S1 right stile": [564 + 3], "W1-S2 left stile": [482 + 3]}


def test_a_handle_that_the_job_places_is_listed_without_any_hardware():
    window = with_system(window_of(SIDE.replace("hinge: left", "hinge: left, handle_height: 400")), hardware=())
    assert places(window, "handle") == {"W1-S1 right stile": [564 + 3]}
    assert places(with_system(window_of(SIDE), hardware=()), "handle") == {}


def test_a_top_hung_sash_has_its_stays_below_the_head_and_its_handle_in_the_bottom_rail():
    window = window_of("frame: {width: 800, height: 600}\nlights: [{light: top-hung}]\n")
    # sash 714 by 514: the stay for it 270 from the hinge edge, its top
    assert places(window, "stay") == {f"W1-{piece}": [at] for piece, at in (
        ("left jamb", 43 + 270 + 3), ("right jamb", 43 + 270 + 3), ("S1 left stile", 273), ("S1 right stile", 273))}
    assert places(window, "handle") == {"W1-S1 bottom rail": [714 / 2 + 3]}


def test_pivots_are_in_the_middle_of_both_sides():
    window = window_of("frame: {width: 1000, height: 900}\nlights: [{light: horizontal-pivot}]\n", "pivot-68")
    sash = window.sashes[0].outer.outline.bounds   # no weld in aluminium
    assert places(window, "hinge") == {
        "W1-left jamb": [450], "W1-right jamb": [450], "W1-S1 left stile": [sash.height / 2], "W1-S1 right stile": [sash.height / 2],
    }


def test_a_pair_closes_on_its_own_stile_and_on_no_frame_member_there():
    window = window_of("frame: {width: 1300, height: 1100}\nlights: [{light: side-hung-pair}]\n")
    assert places(window, "keep") == {}
    assert set(places(window, "stay")) == {"W1-head", "W1-sill", *(f"W1-S{n} {rail} rail" for n in (1, 2) for rail in ("top", "bottom"))}
    assert len(places(window, "handle")) == 1     # the one that follows has bolts of its own


def test_under_an_arch_too_a_pair_closes_on_no_frame_member():
    window = window_of("frame: {width: 1300, height: 1300}\nhead: {arched: {rise: 250}}\nlights: [{light: side-hung-pair}]\n")
    assert places(window, "keep") == {}
    assert set(places(window, "stay")) == {"W1-sill", "W1-S1 bottom rail", "W1-S2 bottom rail"}     # no straight edge is above


def test_rollers_sit_in_the_bottom_rail_and_a_pull_where_the_sash_closes():
    window = window_of("frame: {width: 1600, height: 1400}\nlights: [{light: sliding}]\n", "slider-112")
    width = window.sashes[0].outer.outline.bounds.width
    assert places(window, "rollers")["W1-S1 bottom rail"] == [80, pytest.approx(width - 80, abs=0.05)]
    assert set(places(window, "handle")) == {"W1-S1 left stile", "W1-S2 right stile"}


@given(any_window())
@settings(max_examples=40, deadline=None)
def test_every_item_with_a_place_is_on_its_piece_of_any_window(block):
    window, = resolve_job(parse_job(as_yaml(block), "job.yaml").job, find_system)
    rows = list(machining_rows(window))
    for sash, item in (found for light in window.lights for found in fitted(window, light)):
        if item.places is not None and len(window.lights[sash.light - 1].sashes) == 1:
            assert [r for r in rows if r.what == f"{sash.tag} {item.item}"], item.item
    assert all(0 < r.along_mm < r.length_mm for r in rows)


def test_nothing_is_placed_that_does_not_fit():
    window = window_of("frame: {width: 1500, height: 600}\nlights: [{light: top-hung}]\n")    # 1414 wide: stays go to 1300
    assert not [r for r in machining_rows(window) if r.kind in ("stay", "keep")]
    assert places(window, "handle")


def test_steel_is_screwed_from_its_ends_on_and_clear_of_what_is_drilled():
    # flush-70: first screw 50 from the steel's ends, at most 300 apart, 40 clear of bars, 25 of fixings and slots. The head's
    # steel begins 3 of weld + 42 of mitre + 10 of set-back along and is 1096 long: 105 and 1101. Quarters of the 996 between would
    # put one on M1 at 603: so the third stands 40 before it, the others halfway. Fixings at 153, 453 and 1053 are clear of all.
    assert places(window_of(SIDE), "steel screw")["W1-head"] == [105, (105 + 563) / 2, 603 - 40, (563 + 1101) / 2, 1101]


def test_a_first_screw_where_a_fixing_is_gives_way():
    window = window_of("frame: {width: 900, height: 900}\nfixings: {corner: 100}\nlights: [{light: fixed}]\n")
    # the fixing at 103 along: the screw at 105 moves to 25 past it
    assert places(window, "steel screw")["W1-left jamb"][0] == 103 + 25


def test_a_screw_where_a_keep_is_gives_way():
    window = window_of("frame: {width: 1200, height: 1372}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]\n")
    # M1 reaches 1372 - 46 + 12 = 1338 high, its middle keep 1338 - (43 + 1286 / 2) along. Steel of 1304 - 2 x 10 from 10 on: screws 60
    # to 1244, where quarters of 296 would put the third on the keep. None of four is 35 clear and 300 at most apart, so fifths: 236.8
    assert 60 + 2 * (1244 - 60) / 4 == 652
    assert places(window, "keep")["W1-M1"][1] == 652
    assert places(window, "steel screw")["W1-M1"] == [60, 296.8, 533.6, 770.4, 1007.2, 1244]


def test_a_screw_where_a_handle_is_gives_way():
    window = window_of("frame: {width: 800, height: 600}\nlights: [{light: top-hung}]\n")
    # bottom rail of a sash 714 wide: handle 357 + 3. Its slots, 60 into a rebate 56 from the edge, are 3 + 56 + 60 = 119 along: the first
    # screw, 3 of weld + 51.7 of mitre + 10 + 50 = 114.7, stands 25 past it, the last alike; the one between 35 beside the handle
    assert places(window, "steel screw")["W1-S1 bottom rail"] == [144, 360 - 35, 720 - 144]


def test_a_slot_where_a_handle_is_gives_way():
    window = window_of("frame: {width: 1000, height: 600}\nlights: [{light: top-hung}]\n")
    # rebate of 914 - 2 x 56 = 802: slots 60 from its ends and one in the middle, where the handle is, 457 + 3: it stands 40 beside it
    assert places(window, "handle")["W1-S1 bottom rail"] == [460]
    assert places(window, "drainage slot")["W1-S1 bottom rail"] == [119, 460 - 40, 920 - 119]


def test_slots_above_a_transom_need_not_keep_clear_of_what_hangs_below_it():
    window = window_of("frame: {width: 500, height: 1300}\ntransoms: [600]\nlights: [{light: fixed}, {light: side-hung, hinge: left}]\n")
    # T1 begins at 46 - 12 = 34. Above it the pane's slot is 46 + 60 from the frame's edge, its outlet 60 on; the stay of the sash below it,
    # on the other side of the bar, 43 + 150: 27 apart
    assert places(window, "drainage outlet")["W1-T1"][0] == 46 + 60 + 60 - 34 == 132
    assert places(window, "stay")["W1-T1"] == [43 + 150 - 34]


def test_a_screw_that_finds_no_clear_place_says_so():
    window = window_of("frame: {width: 800, height: 600}\nlights: [{light: top-hung}]\n")
    rule = window.system.reinforcement
    far = replace(rule, screws=replace(rule.screws, clear_of=(("hardware", 400.0),)))
    said = [r.what for r in machining_rows(with_system(window, reinforcement=far)) if r.piece == "W1-S1 bottom rail" and r.kind == "steel screw"]
    assert said[0] == "reinforcement: 245 from the handle, less than 400"     # 360 - 114.7
    assert all(what.startswith("reinforcement: ") for what in said)


@pytest.mark.parametrize("head", ["{raked: {left: 1100, right: 1400}}", "{arched: {rise: 200}}"])
def test_no_screws_are_given_where_steel_begins_is_set_at_the_bench(head):
    window = window_of(f"frame: {{width: 1200, height: 1400}}\nhead: {head}\nmullions: [500]\nlights: [{{light: fixed}}, {{light: fixed}}]\n")
    assert "W1-M1" not in places(window, "steel screw")


def test_white_pieces_without_steel_have_no_screws():
    window = window_of("frame: {width: 800, height: 1000}\nfinish: {outside: RAL 9016, inside: RAL 9016}\nlights: [{light: fixed}]\n")
    assert set(places(window, "steel screw")) == {"W1-left jamb", "W1-right jamb"}    # 1006 long; from 900 on
