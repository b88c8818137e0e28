"""The sill schedule: cut lengths, weeps and how far the drip is clear."""

from elevations.catalogue.load import find_system
from elevations.geometry.resolve import each_window
from elevations.schedules.sills import SILLS, sill_rows
from elevations.schedules.sundries import sundry_rows
from elevations.spec.load import parse_job
from tests.jobs import window_of

SILL = "frame: {width: 1200, height: 900}\nsill: {projection: 140, horns: 40, drip: 8}\nfit: {add_ons: {left: 20, right: 20}}\n"
FIXED = "lights: [{light: fixed}]\n"


def test_a_sill_is_cut_for_frame_add_ons_and_horns():
    (row,) = sill_rows(window_of(SILL + FIXED))
    assert row.length_mm == 1200 + 20 + 20 + 2 * 40
    assert row.weeps_mm == ("150", "660", "1170")   # 1320 - 150 = 1170, and the middle
    assert row.end_caps == 2
    assert row.drip_clear_mm is None   # no wall is described


def test_a_sill_takes_two_end_caps_unless_it_has_none():
    caps = [row.quantity for row in sundry_rows(window_of(SILL + FIXED)) if row.what == "sill end cap"]
    assert caps == [2]
    bare = window_of(SILL.replace("drip: 8", "drip: 8, end_caps: false") + FIXED)
    assert not [row for row in sundry_rows(bare) if row.what == "sill end cap"]


def test_the_drip_is_measured_from_the_walls_finished_face():
    (row,) = sill_rows(window_of(SILL + "wall: {material: brick, thickness: 215, frame_at: 90}\n" + FIXED))
    assert row.drip_clear_mm == 140 - 90 - 8


def test_windows_without_a_sill_have_no_row():
    assert list(sill_rows(window_of("frame: {width: 900, height: 900}\n" + FIXED))) == []
    assert SILLS.totals([]) == []


JOINED = """
job: {reference: T}
glass: {clear: {make_up: 4/20/4}}
defaults: {system: flush-70}
windows:
  - {mark: A, frame: {width: 1200, height: 1000}, sill: {projection: 150, horns: 30}, fit: {add_ons: {left: 20}}, lights: [{light: fixed}]}
  - {mark: B, frame: {width: 900, height: 1000}, sill: {projection: 150, horns: 30}, lights: [{light: fixed}]}
joined: [{mark: S, WAY, windows: [A, B], carries_load: false}]
"""


def rows_of(way):
    loaded = parse_job(JOINED.replace("WAY", way), "sills.yaml")
    windows = list(each_window(loaded.job, find_system))
    return [row for window in windows for row in sill_rows(window)], [row for window in windows for row in sundry_rows(window) if row.what == "sill end cap"]


def test_sills_of_a_row_meet_in_the_middle_of_the_coupler_with_no_horn_and_no_cap_there():
    """A: 20 of add-on + 30 of horn + 1200 + half of the coupler's 20 = 1260; B: 10 + 900 + 30 = 940. Together 2200: 30 + 20 + 1200 + 20 + 900 + 30."""
    (a, b), caps = rows_of("way: side-by-side")
    assert (a.length_mm, b.length_mm) == (1260, 940)
    assert a.length_mm + b.length_mm == 30 + 20 + 1200 + 20 + 900 + 30
    assert (a.left_end, a.right_end) == ("horn 30, end cap", "to the middle of C1, square")
    assert (b.left_end, b.right_end) == ("to the middle of C1, square", "horn 30, end cap")
    assert [row.end_caps for row in (a, b)] == [cap.quantity for cap in caps] == [1, 1]


def test_sills_of_a_bay_are_mitred_at_half_its_turn():
    """135° turn by 45°: each sill 22.5° out of square, its front edge 150 x tan 22.5° = 62.132 further than the post's face of 40."""
    (a, b), _ = rows_of("way: bay, angles: [135]")
    assert a.length_mm == round(30 + 20 + 1200 + 40 + 62.132, 1)
    assert b.length_mm == round(40 + 62.132 + 900 + 30, 1)
    assert a.right_end == b.left_end == "to the corner at P1, mitred 22.5°"


REVEAL = "wall: {material: brick, thickness: 215, frame_at: 60}\n"


def test_horns_are_notched_where_the_sill_goes_between_the_reveals():
    """Frame 1200, horns 40: 40 off each back corner, 70 of frame and 60 to the wall's face deep; 140 - 60 = 80 pass before the wall."""
    (row,) = sill_rows(window_of(SILL.replace("fit: {add_ons: {left: 20, right: 20}}\n", "") + REVEAL + FIXED))
    assert row.notch == "40 × 130"
    (bare,) = sill_rows(window_of(SILL + FIXED))
    assert bare.notch == ""   # no wall is described
    (flush,) = sill_rows(window_of(SILL.replace("horns: 40", "horns: 0") + REVEAL + FIXED))
    assert flush.notch == ""


def test_behind_a_check_the_notch_takes_what_the_wall_laps_too():
    """Opening 904 wide at the bottom, frame 904 - 1 (its narrowest) + 2 x 25 of lap: the sill is 60 of horns longer than the frame,
    and between the reveals as wide as the opening less the clearance on both sides."""
    window = window_of(
        "opening: {width: [905, 903, 904], height: [1204, 1203, 1204], diagonals: [1506, 1507]}\nfit: {reveal: {kind: check, lap: 25}, clearance: 10}\n"
        "sill: {projection: 150, horns: 30}\n" + REVEAL + FIXED
    )
    (row,) = sill_rows(window)
    through = 904 - 10
    assert row.notch == f"{(window.width.value + 60 - through) / 2:g} × 130"
    assert float(row.notch.split()[0]) > 30 + 25


def test_horns_of_a_sill_that_stays_behind_the_walls_face_are_found():
    deep = SILL.replace("projection: 140", "projection: 60") + "wall: {material: brick, thickness: 215, frame_at: 60}\n" + FIXED
    found = [f for f in window_of(deep).findings if f.code == "horns-in-wall"]
    assert [f.message for f in found] == ["its front edge is at the wall's face: horns of 40 have no place to run past the frame"]
    assert not [f for f in window_of(deep.replace("projection: 60", "projection: 61")).findings if f.code == "horns-in-wall"]
    assert not [f for f in window_of(deep.replace("horns: 40", "horns: 0")).findings if f.code == "horns-in-wall"]
