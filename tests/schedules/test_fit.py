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


CHECK = "finish: {outside: RAL 9016}\nfit: {reveal: {kind: check, lap: 25}}\nopening: {width: [1200, 1199, 1200], height: [1000, 999, 1000], diagonals: [1562, 1562]}\n"


def test_a_frame_that_ends_short_of_its_check_is_told_so_and_stands_on_its_sill():
    """1199 - 1100 = 99 across the middle, 49.5 a side, where 25 of lap was asked for; up, 5 of clearance under it and 999 - 5 - 900 = 94 over it."""
    window = window_of(CHECK + "frame: {width: 1100, height: 900}\nlights: [{light: fixed}]\n")
    words = fit_words(window)
    assert "not lapped at left jamb, right jamb, head, where the frame ends 49.5 to 94.5 short of the wall and a lap of 25 was asked for" in words
    assert "up the middle 5 gap + 900 frame + 94 gap = 999.0, and the tape read 999" in words
    assert not any("-" in line for line in words if "lapped" in line)
    (short,) = [found for found in window.findings if found.code == "lap-short"]
    assert "short of the wall" in short.message
    assert "only" not in short.message


def test_where_laps_are_short_the_report_asks_for_what_its_finding_asks():
    """A lap of 20 asked for, and 7.2 left: less than half, and not 'no trims needed'."""
    window = window_of("finish: {outside: RAL 9016}\nopening: {width: [905, 898, 911], height: [1204, 1201, 1212], diagonals: [1500, 1519], out_of_level: 4}\n"
                       "fit: {reveal: {kind: check, lap: 20}}\nsill: {projection: 150, horns: 30}\nlights: [{light: fixed}]\n")
    (short,) = [found for found in window.findings if found.code == "lap-short"]
    assert f"trims, or a larger frame where the inner hole takes it: {short.subject}" in fit_words(window)
    assert "no trims needed" not in fit_words(window)


@pytest.mark.parametrize(("text", "said"), [
    # 999 - 985 = 14, 7 each: of 20, 7 are over it
    ("opening: {width: 1199, height: 999, diagonals: [1560.66, 1560.66]}\nframe: {width: 1185, height: 985}\nfit: {head_allowance: 20}", "of the head allowance of 20 only 7.0 is left at the tightest place"),
    ("opening: {width: 1199, height: 999, diagonals: [1560.66, 1560.66]}\nfit: {head_allowance: 20}", "of each gap at the head 20 is the head allowance"),
    ("opening: {head: arched, width: 1000, height: [900, 1400, 900]}\nfit: {head_allowance: 10}", "of the gap at the crown 10 is the head allowance, kept plumb: towards the springings there is less of it in the gap"),
])
def test_the_report_claims_no_allowance_that_is_not_in_the_gap(text, said):
    window = window_of(f"finish: {{outside: RAL 9016}}\n{text}\nlights: [{{light: fixed}}]\n")
    assert [line for line in fit_words(window) if "allowance" in line] == [said]


@pytest.mark.parametrize(("opening", "over", "read"), [
    ("{head: raked, width: [1202, 1200, 1204], height: [1500, 1250, 1004], diagonals: [1920, 1566], out_of_level: 5}", "add-on and gap, plumb", 1250),
    ("{head: raked, width: [902, 900, 901], height: [1000, 1130, 1301], diagonals: [1346, 1583]}", "add-on and gap, plumb", 1130),
    ("{head: pointed, width: [806, 804, 805], height: [1101, 1702, 1100], diagonals: [1364, 1365]}", "gap, plumb", 1702),
])
def test_under_slopes_and_points_the_sum_up_the_middle_is_plumb_and_meets_the_tape(opening, over, read):
    """Gap under the sill, packers, sill, frame in its middle, add-on and gap over it: the height that was taped there."""
    window = window_of(f"finish: {{outside: RAL 9016}}\nopening: {opening}\nsill: {{projection: 150, packers: 5}}\n"
                       f"{'fit: {add_ons: {head: 20}}' if 'add-on' in over else ''}\nlights: [{{light: fixed}}]\n")
    (line,) = [line for line in fit_words(window) if line.startswith("up the middle")]
    assert over in line
    assert float(line.split(" = ")[1].split(",")[0]) == pytest.approx(read, abs=0.6)   # a tape from a leaning sill's middle to a leaning slope's reads so little more


def test_a_window_without_a_survey_has_no_rows():
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: fixed}]")
    assert list(fit_rows(window)) == []
    assert FIT.totals([]) == []
