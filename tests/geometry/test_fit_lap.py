"""A check's outer leaf before sashes that open out, and before glass.

flush-70 by its own file: a sash begins 43 from the frame's outer edge; glass in the frame begins at 66, in a sash at 43 + 76
= 119. The sums are worked by hand beside each check.
"""

import pytest

from elevations.geometry.fit_fixing import holds
from elevations.schedules.joint_volume import stretches_of
from elevations.spec.workshop import Seal
from tests.jobs import window_of

HOLE = "opening: {width: 900, height: 1000}\n"
HUNG = "lights: [{light: side-hung, hinge: left}]\n"
FIXED = "lights: [{light: fixed}]\n"


def behind(lap, lights=HUNG, rest="", fit="", system="flush-70"):
    return window_of(HOLE + f"fit: {{reveal: {{kind: check, lap: {lap}{rest}}}{fit}}}\n" + lights, system)


def found(window, code):
    return [f for f in window.findings if f.code == code]


@pytest.mark.parametrize(("lap", "told"), [(25, ""), (38, ""), (39, "leaves 4.0 beside it, less than 5"), (45, "can't open"), (100, "can't open")])
def test_a_check_leaves_room_beside_a_sash_that_opens_out(lap, told):
    """43 - 5 = 38 of lap at most: the 5 is a setting; common practice, no source."""
    said = found(behind(lap), "lap-blocks-sash")
    assert [told in f.message for f in said] == ([True] if told else [])
    assert all((f.subject, f.limit_mm) == ("left jamb, right jamb, head", 38) for f in said)


def test_the_room_beside_a_sash_is_a_setting():
    assert found(behind(43, rest=", sash_clear: 0"), "lap-blocks-sash") == []
    assert len(found(behind(30, rest=", sash_clear: 14"), "lap-blocks-sash")) == 1


@pytest.mark.parametrize("lights", [FIXED, "lights: [{light: fixed, sash: dummy}]\n"])
def test_nothing_is_in_the_way_of_what_does_not_open(lights):
    assert found(behind(60, lights), "lap-blocks-sash") == []


def test_a_light_that_opens_in_clears_the_outer_leaf():
    assert found(behind(60, "lights: [{light: tilt-and-turn, hinge: left}]\n", system="lipped-70"), "lap-blocks-sash") == []


def test_only_the_half_of_a_pivot_that_goes_out_meets_the_wall():
    """The top of a horizontal pivot comes in: the head is clear. pivot-68: its sash begins at 49."""
    (told,) = found(behind(48, "lights: [{light: horizontal-pivot}]\n", system="pivot-68"), "lap-blocks-sash")
    assert told.subject == "left jamb, right jamb"


def test_a_frame_extension_is_lapped_before_the_frame_is():
    """60 over an extension of 30 is 30 over the frame, 60 over one of 40 is 20; at the right, without one, it is 60."""
    (told,) = found(behind(60, fit=", add_ons: {left: 30, head: 40}"), "lap-blocks-sash")
    assert (told.subject, told.value_mm) == ("right jamb", pytest.approx(60, abs=0.6))


def test_a_light_away_from_a_jamb_is_not_in_the_walls_way():
    lights = "mullions: [300, 600]\nlights: [{light: fixed}, {light: side-hung, hinge: left}, {light: fixed}]\n"
    (told,) = found(behind(45, lights), "lap-blocks-sash")
    assert (told.subject, "light 2" in told.message) == ("head", True)


@pytest.mark.parametrize(("lap", "lights", "hidden"), [(66, FIXED, None), (100, FIXED, 34), (100, HUNG, None), (130, HUNG, 11)])
def test_glass_behind_the_outer_leaf_is_told(lap, lights, hidden):
    """100 - 66 = 34 of glass in the frame; 130 - 119 = 11 of glass in a sash."""
    said = found(behind(lap, lights), "lap-hides-glass")
    assert [f"hides {hidden:.1f}" in f.message for f in said] == ([True] if hidden else [])


def test_a_frame_that_is_given_without_a_survey_is_lapped_as_asked():
    window = window_of("frame: {width: 950, height: 1025}\nfit: {reveal: {kind: check, lap: 45}}\n" + HUNG)
    assert [f.value_mm for f in found(window, "lap-blocks-sash")] == [45]


def test_the_lap_that_counts_is_the_widest_of_a_side_as_surveyed():
    """Given 970 in a hole 900 wide: 35 a side; given 1000: 50."""
    for width, told in ((970, 0), (1000, 1)):
        text = f"frame: {{width: {width}, height: 1020}}\n" + HOLE + "fit: {reveal: {kind: check, lap: 25}}\n" + HUNG
        assert len(found(window_of(text), "lap-blocks-sash")) == told


WALL = "wall: {material: stone, thickness: 350, frame_at: 100, lintel: {kind: stone, height: 180}}\n"


def walled(fit="", fixings=""):
    return window_of(HOLE + f"fit: {{clearance: 10, reveal: {{kind: check, lap: 25{fit}}}}}\n" + WALL + fixings + "finish: {outside: RAL 9016}\n" + FIXED)


def test_what_nobody_measured_behind_a_check_is_said_to_be_taken():
    """900 + 25 + 25 = 950 wide, 1000 + 25 - 5 = 1020 high over a gap of 5; with 10 at jambs and head 970 by 1035. 46 + 10 + 60 = 116."""
    window = walled()
    (told,) = found(window, "behind-unmeasured")
    assert "the frame needs 950 by 1020, and with 10 the hole is 970 by 1035" in told.hint
    assert holds(window)["left jamb"].sum_words() == "46 frame + 10 packer (taken: not measured behind the check) + 60 embedment = 116"
    assert "taken" not in holds(window)["sill"].sum_words()


def test_what_was_measured_behind_a_check_is_packed():
    """46 + 14 + 60 = 120 for 13.4 behind it; a packer of 6 does not hide that, and is told."""
    assert found(walled(", behind: 13.4"), "behind-unmeasured") == []
    hold = holds(walled(", behind: 13.4"))["head"]
    assert hold.sum_words() == "46 frame + 14 packer (gap up to 13.4) + 60 embedment = 120"
    short = walled(", behind: 13.4", "fixings: {screw: {packer: 6}}\n")
    assert holds(short)["head"].needed == 120
    assert "left jamb" in found(short, "packer-short")[0].subject


def test_a_packer_that_the_job_gives_is_nobodys_guess():
    window = walled("", "fixings: {screw: {packer: 12}}\n")
    assert found(window, "behind-unmeasured") == []
    assert holds(window)["left jamb"].sum_words() == "46 frame + 12 packer + 60 embedment = 118"


def test_the_joint_behind_a_check_is_counted_as_it_was_measured():
    """13.4 at jambs and head where the job says so; else the workshop's 10."""
    for fit, gap in ((", behind: 13.4", 13.4), ("", 10)):
        window = walled(fit)
        stretches = stretches_of(window, window.site, window.site.fitted, Seal(gap=10))
        assert {stretch.side: stretch.gap for stretch in stretches if stretch.side != "sill"} == {"left jamb": gap, "right jamb": gap, "head": gap}
