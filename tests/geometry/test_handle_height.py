"""Where a handle may be on its stile."""

from dataclasses import replace

import pytest

from elevations.catalogue.hardware_places import HardwarePlaces
from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.geometry.hardware_places import handle_from_end
from tests.jobs import window_of

JOB = "frame: {{width: 1200, height: 1050}}\nlights: [{{light: side-hung, hinge: left, handle_height: {}}}]"


def test_a_handle_above_its_sash_is_told_at_its_key():
    with pytest.raises(SpecError) as caught:
        window_of(JOB.format(1500))
    (problem,) = caught.value.problems
    assert problem.code == "handle-off-sash"
    assert f"{1050 - 2 * 43} high" in problem.message
    assert problem.path[-1] == "handle_height"


# The sash is 1050 - 2 x 43 = 964 high, its rails 76: a handle stands 76 + 40 = 116 from the ends of its stile (common practice, no source)
LEAST, MOST = 76 + 40, 964 - 76 - 40


@pytest.mark.parametrize("height", [LEAST, 482, MOST])
def test_a_handle_clear_of_both_corners_is_taken(height):
    assert window_of(JOB.format(height)).lights[0].spec.handle_height == height


@pytest.mark.parametrize(("height", "said"), [(LEAST - 1, "115 from the bottom"), (MOST + 1, "115 from the top"), (55, "55 from the bottom"), (963, "1 from the top")])
def test_a_handle_in_a_welded_corner_is_told_with_the_heights_that_do(height, said):
    with pytest.raises(SpecError) as caught:
        window_of(JOB.format(height))
    (problem,) = caught.value.problems
    assert (problem.code, problem.path[-1]) == ("handle-in-corner", "handle_height")
    assert said in problem.message
    assert problem.hint == "give 116 to 848, or leave it out for the middle"


def test_a_stile_too_short_for_any_height_has_its_handle_in_the_middle():
    # 300 - 2 x 43 = 214 high, less than 2 x 116
    short = "frame: {{width: 700, height: 300}}\nlights: [{{light: side-hung, hinge: left{}}}]"
    window_of(short.format(""))
    with pytest.raises(SpecError) as caught:
        window_of(short.format(", handle_height: 107"))
    assert caught.value.problems[0].hint == "leave it out: so short a stile has its handle in the middle"


def test_the_heights_that_are_told_are_whole_and_taken():
    # 900.5 - 86 = 814.5: at most 814.5 - 116 = 698.5
    job = JOB.replace("1050", "900.5")
    with pytest.raises(SpecError) as caught:
        window_of(job.format(810))
    assert "116 to 698," in caught.value.problems[0].hint
    assert window_of(job.format(698.5)).lights[0].spec.handle_height == 698.5


def test_a_system_says_how_far_from_the_corners_its_handles_stand():
    rule = HardwarePlaces("handle", "sash", "handle", 250.0)
    system = find_system("flush-70")
    assert handle_from_end(system, "side-hung", 76) == 116
    items = tuple(replace(item, places=rule) if item.kind == "handle" else item for item in system.hardware)
    assert handle_from_end(replace(system, hardware=items), "side-hung", 76) == 250
    assert handle_from_end(replace(system, hardware=()), "side-hung", 76) == 116


def test_under_an_arch_a_handle_stays_on_the_straight_part_of_its_stile():
    # head rises 300: its springing is 1500 - 300 = 1200 up the frame; the stile of the sash, 43 in, is straight for some of its height only
    job = "frame: {{width: 900, height: 1500}}\nhead: {{arched: {{rise: 300}}}}\nlights: [{{light: side-hung, hinge: left, handle_height: {}}}]"
    window_of(job.format(600))
    with pytest.raises(SpecError) as caught:
        window_of(job.format(1250))
    (problem,) = caught.value.problems
    assert problem.code == "handle-off-sash"
    assert "straight there from 0 to " in problem.message


@pytest.mark.parametrize("light", ["light: top-hung", "light: bottom-hung", "light: horizontal-pivot"])
def test_a_height_for_a_handle_that_is_on_no_stile_is_not_passed_over(light):
    with pytest.raises(SpecError) as caught:
        window_of(f"frame: {{width: 900, height: 900}}\nlights: [{{{light}, handle_height: 400}}]", "pivot-68" if "pivot" in light else "flush-70")
    (problem,) = caught.value.problems
    assert (problem.code, problem.path[-1]) == ("not-wanted", "handle_height")


def test_the_pull_of_a_sliding_sash_takes_a_height():
    window_of("frame: {width: 1600, height: 1400}\nlights: [{light: sliding, handle_height: 500}]", "slider-112")
