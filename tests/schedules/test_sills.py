"""The sill schedule: cut lengths, weeps and how far the drip is clear."""

from elevations.schedules.sills import SILLS, sill_rows
from elevations.schedules.sundries import sundry_rows
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
