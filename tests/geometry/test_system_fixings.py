"""What a system's own file says of its fixings, brackets, vents, keeps and weeps goes before what is usual."""

import pytest

from elevations.errors import SpecError
from elevations.geometry.fit_fixing import holds
from elevations.schedules.sills import sill_rows
from tests.geometry.own_system import window_in

SIZE = "frame: {width: 1200, height: 1350}\n"
CAVITY = "wall: {material: brick, thickness: 103, cavity: 100, inner: 100, frame_at: FACE}\n"
SOLID = "wall: {material: brick, thickness: 215, frame_at: 90}\n"
FIXED = "lights: [{light: fixed}]\n"
SIDE_HUNG = "lights: [{light: side-hung, hinge: left, handle_height: 632, vent: 4000}]\n"


@pytest.fixture
def made(tmp_path):
    """A window of a system with these lines in its file."""
    return lambda lines, text: window_in(tmp_path, lines, text)


def told(window, code):
    return [f for f in window.findings if f.code == code]


def test_screws_stand_where_the_system_puts_them(made):
    """20 from the outer face, 65 back: at 85, 18 from the cavity; in the middle it would be at 100. 103 - 25 - 20 = 58."""
    for at, count in (("65", 1), ("58", 0), ("59", 1)):
        found = told(made("frame_fixings: {screw_at: 20}\n", SIZE + CAVITY.replace("FACE", at) + FIXED), "fixing-in-cavity")
        assert len([f for f in found if "left jamb" in f.subject]) == count, at
        assert all("the frame 20 from its outer face" in f.message for f in found)


def test_screws_come_in_the_lengths_that_the_system_keeps(made):
    """46 frame + 5 packer + 50 in brick = 101."""
    for kept, length in (("[150, 110, 90]", 110), ("[90, 101]", 101)):
        assert holds(made(f"frame_fixings: {{screw_lengths: {kept}}}\n", SIZE + SOLID + FIXED))["left jamb"].length == length
    short = told(made("frame_fixings: {screw_lengths: [90]}\n", SIZE + SOLID + FIXED), "screw-too-short")
    assert {f.limit_mm for f in short} == {90}


def test_brackets_are_as_long_as_the_systems_and_the_jobs_reach_goes_before_it(made):
    """The inner leaf holds from 228 on: 118 from the inner face of a frame at 40."""
    text = SIZE + CAVITY.replace("FACE", "40") + "sill: {projection: 120}\n"
    assert holds(made("frame_fixings: {bracket: {reach: 118}}\n", text + FIXED))["sill"].landing.reach == 118
    assert told(made("frame_fixings: {bracket: {reach: 117}}\n", text + FIXED), "bracket-holds-nothing")
    own = made("frame_fixings: {bracket: {reach: 60, nearest: 40, leg: 50}}\n", text + "fixings: {bracket: {reach: 130}}\n" + FIXED)
    assert holds(own)["sill"].landing.reach == 118
    assert (holds(own)["sill"].landing.bracket.leg, holds(own)["sill"].landing.bracket.nearest) == (50, 40)


def test_a_vent_is_as_long_as_the_system_says(made):
    """4000 mm2 over the middle of 1200: at 0.1 mm a mm2 it ends 400 from the left, at 0.25 at 100; fixings at 150, 600, 1050."""
    for length, hit in ((0.1, [600]), (0.25, [150, 600, 1050])):
        window = made(f"frame_fixings: {{vent_length: {length}, keep_clear: {{vent: 0}}}}\n", SIZE + SIDE_HUNG)
        assert [f.value_mm for f in told(window, "fixing-clash") if f.subject == "head"] == hit


def test_keeps_besides_the_one_at_the_handle_are_kept_clear(made):
    """The sash's top is 43 below the frame's: a keep 120 down it is at 163; the fixing at 150 is 13 from it, the one at 1200 far."""
    window = made("frame_fixings: {keeps: [120], keep_clear: {keep: 60}}\n", SIZE + SIDE_HUNG)
    said = {f.value_mm: f.message for f in told(window, "fixing-clash") if f.subject == "right jamb"}
    assert "the keep of light 1, 120 from the top of its sash" in said[150]
    assert set(said) == {150, 675}   # and the one at the handle's height


def test_weeps_stand_by_the_systems_figures(made):
    """A sill of 1200 with horns of 50: 1300; 100 from its ends leaves 1100, three spans of at most 400."""
    text = SIZE + "sill: {projection: 120, horns: 50}\n" + FIXED
    (row,) = sill_rows(made("sill_weeps: {from_end: 100, spacing: 400}\n", text))
    assert row.weeps_mm == ("100", "467", "833", "1200")
    (usual,) = sill_rows(made("", text))
    assert usual.weeps_mm == ("150", "650", "1150")


@pytest.mark.parametrize(("lines", "code", "words"), [
    ("frame_fixings: {bracket: {reach: 20, nearest: 40}}\n", "bracket-short", "reaches 20, but its first hole is at 40"),
    ("frame_fixings: {bracket: {reech: 20}}\n", "unknown-key", "did you mean 'reach'"),
    ("frame_fixings: {screw_at: 90}\n", "out-of-range", "at most 70"),
    ("frame_fixings: {screw_lengths: 90}\n", "not-a-list", "must be a list"),
    ("frame_fixings: {screw_lengths: [9, 90]}\n", "out-of-range", "20 to 600"),
    ("frame_fixings: {keeps: [x]}\n", "not-a-number", "'x'"),
    ("frame_fixings: {vent_length: 100}\n", "out-of-range", "about 0.1"),
    ("sill_weeps: {from_end: 5}\n", "out-of-range", "at least 20"),
    ("sill_weeps: 150\n", "not-a-block", "'sill_weeps' must be a block"),
])
def test_a_slip_in_the_systems_file_is_told(made, lines, code, words):
    with pytest.raises(SpecError) as caught:
        made(lines, SIZE + FIXED)
    assert [p.code for p in caught.value.problems] == [code]
    assert words in f"{caught.value.problems[0].message} {caught.value.problems[0].hint}"
