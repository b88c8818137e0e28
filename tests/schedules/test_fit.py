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


def test_a_window_without_a_survey_has_no_rows():
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: fixed}]")
    assert list(fit_rows(window)) == []
    assert FIT.totals([]) == []
