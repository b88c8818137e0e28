"""The fit report: gaps add up to what the tape measured, and joints follow the job's own range."""

import pytest

from elevations.schedules.fit import FIT, fit_rows, fit_words, trims
from tests.jobs import window_of

OPENING = "opening: {width: [904, 900, 908], height: [1362, 1360, 1358], diagonals: [1629, 1639.3]}\nlights: [{light: fixed}]\n"


def rows_of(text):
    window = window_of(text + OPENING)
    return window, {(row.side, row.place): row for row in fit_rows(window)}


def test_gaps_and_frame_add_up_to_the_middle_width_and_height():
    """By the tape: left gap + frame + right gap is the middle width, bottom gap + frame + top gap the centre height."""
    window, rows = rows_of("frame: {width: 880, height: 1340}\n")
    across = rows["left jamb", "middle"].gap_mm + window.width.value + rows["right jamb", "middle"].gap_mm
    up = rows["sill", "middle"].gap_mm + window.height.value + rows["head", "middle"].gap_mm
    assert across == pytest.approx(900, abs=0.15)
    assert up == pytest.approx(1360, abs=0.15)


def test_a_sill_and_its_packers_are_no_gap():
    window, rows = rows_of("frame: {width: 880, height: 1300}\nsill: {projection: 90, height: 30, packers: 5}\n")
    up = rows["sill", "middle"].gap_mm + 35 + window.height.value + rows["head", "middle"].gap_mm
    assert up == pytest.approx(1360, abs=0.15)


def test_the_report_adds_up_what_stands_in_the_middle():
    """Figures as they are printed: 1360 = 5 packers + 30 sill + 1270 frame + 20 add-on and, between, gaps that share the rest."""
    window, rows = rows_of("frame: {width: 880, height: 1270}\nfit: {head_allowance: 8, add_ons: {head: 20, left: 4}}\n"
                           "sill: {projection: 90, height: 30, packers: 5}\n")
    across, up = (line for line in fit_words(window) if " the middle " in line)
    left, right = rows["left jamb", "middle"].gap_mm, rows["right jamb", "middle"].gap_mm
    assert across == f"across the middle {left:g} gap + 4 add-on + 880 frame + {right:g} gap = {left + 4 + 880 + right:.1f}, and the tape read 900"
    low, high = rows["sill", "middle"].gap_mm, rows["head", "middle"].gap_mm
    assert f"{low:g} gap + 5 packers + 30 sill + 1270 frame + 20 add-on + {high:g} gap" in up
    assert low + 5 + 30 + 1270 + 20 + high == pytest.approx(1360, abs=0.15)
    # The allowance is in the gap over the frame, and said: of the 35 left, 8 and half of 27 are over it.
    assert high == pytest.approx(8 + 27 / 2, abs=1.1)
    assert "of each gap at the head 8 is the head allowance" in fit_words(window)


def test_joints_follow_the_range_of_the_job():
    """Details change at 6 and 15 mm (titles of BS 8213-4:2007 Figs C.1, C.2, read); 5 a side at least (a trade guide, read
    second hand): so a setting, and trims go where the gap is wider."""
    window, rows = rows_of("frame: {width: 880, height: 1340}\n")
    assert rows["left jamb", "bottom"].joint == "trim needed"
    assert rows["right jamb", "bottom"].joint == "sealant"
    assert trims(window) == ["left jamb", "right jamb"]
    wider, _ = rows_of("frame: {width: 880, height: 1340}\nfit: {joint: {least: 5, most: 25}}\n")
    assert trims(wider) == []
    _, narrow = rows_of("frame: {width: 880, height: 1340}\nfit: {joint: {least: 8, most: 25}}\n")
    assert narrow["left jamb", "top"].joint == "too narrow"


def test_a_check_is_reported_as_laps():
    window, rows = rows_of("fit: {reveal: {kind: check, lap: 25}}\n")
    assert {row.joint for (side, _), row in rows.items() if side != "sill"} == {"lapped by the wall"}
    assert any(line.startswith("lapped by the wall") for line in fit_words(window))


def test_walls_that_bow_outwards_are_told_and_trimmed_by_their_true_gap():
    """1230 - 1190 = 40 across the middle and 1030 - 990 = 40 up it: 20 a side, more than the 15 that sealant bridges."""
    window = window_of("finish: {outside: RAL 9016}\nopening: {width: [1200, 1230, 1200], height: [1000, 1030, 1000], diagonals: [1562.05, 1562.05]}\n"
                       "lights: [{light: fixed}]\n")
    assert {row.gap_mm for row in fit_rows(window) if row.place == "middle"} == {20}
    assert trims(window) == ["left jamb", "right jamb", "head", "sill"]
    words = fit_words(window)
    assert "across the middle 20 gap + 1190 frame + 20 gap = 1230.0, and the tape read 1230" in words
    assert "up the middle 20 gap + 990 frame + 20 gap = 1030.0, and the tape read 1030" in words
    assert any(line.startswith("the jambs bow outwards by 15.0 each and sill and head bow outwards by 15.0 each, shared equally") for line in words)
    assert any("15.0 of it is the wall bowing outwards" in found.message for found in window.findings if found.code == "trim-needed")


def test_a_bow_of_a_raked_opening_is_where_its_middle_width_was_taped():
    """Jambs 1000 and 1600, so the middle width is taped 500 up: 824 - 800 = 24, 12 a side. The frame is 790: 5 + 12 = 17 there, both sides."""
    window = window_of("finish: {outside: RAL 9016}\nopening: {head: raked, width: [800, 824, 800], height: [1000, 1300, 1600], diagonals: [1280.62, 1788.85]}\n"
                       "lights: [{light: fixed}]\n")
    rows = {(row.side, row.place): row.gap_mm for row in fit_rows(window)}
    assert window.width.value == 790
    assert rows["left jamb", "middle"] == pytest.approx(17, abs=0.15)
    assert rows["right jamb", "middle"] == pytest.approx(17, abs=0.15)
    # and the right jamb runs straight from there to its top: 800 up from the sill by 12 x (1600 - 800) / (1600 - 500) = 8.7 more than 5
    assert window.site.fitted.along("right jamb", 800) == pytest.approx(5 + 12 * 800 / 1100, abs=0.2)


def test_a_window_without_a_survey_has_no_rows():
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: fixed}]")
    assert list(fit_rows(window)) == []
    assert FIT.totals([]) == []
