"""What fixings keep clear of on frames of any shape, and on sills and heads.

The system of these tests, mm: a sash begins 43 from the frame's outer edge; its hinges are 90 from its ends and kept 60 clear, its
keep 80 clear, a vent 30 clear and 0.1 long for each mm2, the corner's joint 100. The sums are worked by hand beside each check.
"""

import math

import pytest

from elevations.geometry.fit_obstacles import frame_edges, zones
from tests.geometry.own_system import window_in
from tests.jobs import window_of

FIGURES = "frame_fixings: {hinges_from_end: 90, keep_clear: {hinge: 60, keep: 80, vent: 30, corner: 100}}\n"
HUNG = "lights: [{light: side-hung, hinge: left, vent: 4000}]\n"


@pytest.fixture
def made(tmp_path):
    return lambda text: window_in(tmp_path, FIGURES, text)


def barred(window, tag, what):
    (edge,) = [edge for edge in frame_edges(window) if edge.tag == tag]
    return [(zone.low, zone.high) for zone in zones(edge) if what in zone.what]


def clashes(window):
    return [f for f in window.findings if f.code == "fixing-clash"]


def test_a_slope_of_10_in_1100_changes_no_clash_of_a_rectangle(made):
    """Its hinges, keep and vent are where the rectangle's are, to a few tenths."""
    box = made("frame: {width: 1100, height: 1300}\n" + HUNG)
    raked = made("frame: {width: 1100}\nhead: {raked: {left: 1290, right: 1300}}\n" + HUNG)
    said = [[(f.subject, f.message.partition(" is less ")[2]) for f in clashes(window)] for window in (box, raked)]
    assert said[0] == said[1]
    assert {subject for subject, _ in said[1]} == {"left jamb", "head", "right jamb"}


def test_hinges_keep_and_vent_under_a_slope(made):
    """The sash's edges are 43 from the frame's, square to the slope, whose length is 43 times the square root of 1 + slope squared up."""
    window = made("frame: {width: 1000}\nhead: {raked: {left: 1000, right: 1400}}\n" + HUNG)
    up = 43 * math.hypot(1, 0.4)
    left, right = 1000 + 0.4 * 43 - up, 1400 - 0.4 * 43 - up                       # the sash's corners, y
    hinges = [(1000 - (left - 90), 1000 - (left - 90)), (1000 - (43 + 90), 1000 - (43 + 90))]
    assert sorted(barred(window, "left jamb", "a hinge")) == [pytest.approx((low - 60, high + 60)) for low, high in hinges]
    keep = 1400 - (43 + right) / 2
    assert barred(window, "right jamb", "the keep") == [pytest.approx((keep - 80, keep + 80))]
    middle = 500 * math.hypot(1, 0.4)                                              # along the slope
    assert barred(window, "head", "the vent") == [pytest.approx((middle - 230, middle + 230))]


def test_the_vent_under_an_arch_is_barred_along_the_arc_about_its_crown(made):
    window = made("frame: {width: 1000, height: 1400}\nhead: {arched: {rise: 200}}\nlights: [{light: fixed, vent: 2000}]\n")
    radius = (500**2 + 200**2) / (2 * 200)                                         # of the arc on its chord
    half = radius * math.asin(500 / radius)
    assert barred(window, "head", "the vent") == [pytest.approx((half - 130, half + 130))]


@pytest.mark.parametrize(("light", "locked", "hung"), [("top-hung", "sill", "head"), ("bottom-hung", "head", "sill")])
def test_the_keep_of_a_light_hung_at_top_or_bottom_is_in_the_middle_of_the_rail_across(made, light, locked, hung):
    """A frame 1100 wide, its sash 43 to 1057: the middle is 550, where the middle fixing of both head and sill is."""
    window = made(f"frame: {{width: 1100, height: 900}}\nlights: [{{light: {light}}}]\n")
    assert barred(window, locked, "the keep") == [(470, 630)]
    assert barred(window, hung, "the keep") == []
    (told,) = [f for f in clashes(window) if "the keep" in f.message]
    assert (told.subject, told.value_mm, told.hint) == (locked, 550, "move it to 470 from the left")


def test_places_that_the_systems_hardware_gives_are_kept_clear_of_too():
    """pivot-68: the pivots of a horizontal pivot are at its mid-height: 990 / 2 = 495, where the middle fixing of each jamb is."""
    window = window_of("frame: {width: 890, height: 990}\nlights: [{light: horizontal-pivot}]\n", "pivot-68")
    assert [(f.subject, f.value_mm) for f in clashes(window)] == [("left jamb", 495), ("right jamb", 495)]


@pytest.mark.parametrize("corner", [90, 120])
def test_no_hint_breaks_the_rule_beside_it(made, corner):
    """NHBC Standards 6.7.11 (read): 150 at least from a corner, whatever the job asks for."""
    window = made(f"frame: {{width: 1100, height: 1300}}\nfixings: {{corner: {corner}}}\n" + HUNG)
    lengths = {point.side: point.side_length for point in window.fixings}
    hints = [(lengths[f.subject], float(f.hint.split()[3])) for f in clashes(window) if f.hint.startswith("move it to")]
    assert hints
    assert all(150 <= at <= length - 150 for length, at in hints)


@pytest.mark.parametrize("shape", [
    "frame: {width: 1100}\nhead: {raked: {left: 900, right: 1500}}", "frame: {width: 1100, height: 1500}\nhead: {arched: {rise: 300}}",
    "frame: {width: 1100, height: 1500}\nhead: {pointed: {rise: 900}}", "frame: {width: 1100, height: 1500}\nhead: {gable: {apex: 550, eaves: 1000}}",
    "frame: {width: 1100, height: 1500}",
])
def test_a_place_proposed_on_any_shape_is_free(made, shape):
    window = made(shape + "\n" + HUNG)
    found = clashes(window)
    assert any("a hinge" in f.message for f in found)
    edges = {edge.tag: edge for edge in frame_edges(window)}
    for finding in found:
        if finding.hint.startswith("move it to"):
            at = float(finding.hint.split()[3])
            assert not any(zone.low + 1e-6 < at < zone.high - 1e-6 for zone in zones(edges[finding.subject]))


def test_a_round_frame_has_joints_to_keep_clear_of_and_no_hinges(made):
    window = made("circular: {diameter: 900}\nlights: [{light: fixed}]\n")
    assert {zone.what for edge in frame_edges(window) for zone in zones(edge)} == {"the joint of the corner's reinforcement"}
