"""Shaped frames: outlines, mitres, bars, glass and fixings, against circle, segment and triangle formulas worked out here."""

import math

import pytest

from elevations.errors import SpecError
from elevations.geometry.along import chord
from elevations.plane import arc_radius
from tests.jobs import window_of, windows_of

# flush-70, mm: frame sash 43, rebate 46, sight 66; mullion and transom rebate 18, sight 38, joint 12; sash rebate 56,
# sight 76; edge clearance 5; weld allowance 3 at each end.
FIXED = "lights: [{light: fixed}]"
CLEAR_KG_PER_M2 = 2 * 4 * 2.5   # two panes of 4 mm at 2.5 kg per m2 and mm


def segment_area(radius, chord_mm):
    """Circular segment: r^2 (t - sin t) / 2 with t = 2 asin(c / 2r)."""
    t = 2 * math.asin(min(1.0, chord_mm / (2 * radius)))
    return radius**2 * (t - math.sin(t)) / 2


def arcs(outline):
    return [(arc_radius(a, b), (a, b)) for a, b in outline.edges() if a.bulge]


def tagged(window, tag):
    members = [*window.members, *window.bars, *(m for s in window.sashes for m in s.members)]
    return next(m for m in members if m.tag == tag)


def refusal(text):
    with pytest.raises(SpecError) as caught:
        window_of(text)
    return caught.value.problems


def test_a_segmental_head_has_the_radius_of_its_chord_and_rise():
    w = window_of("frame: {width: 1200, height: 1200}\nhead: {arched: {rise: 200}}\n" + FIXED)
    radius = 1200**2 / (8 * 200) + 200 / 2
    assert radius == 1000
    assert [r for r, _ in arcs(w.frame.outline)] == pytest.approx([radius])
    assert [r for r, _ in arcs(w.panes[0].cut.outline)] == pytest.approx([radius - 46 - 5])
    # half the angle at the centre: asin(600 / 1000); the head's outer edge is R t, with 3 at each end for the weld
    assert tagged(w, "head").length.value == pytest.approx(1000 * 2 * math.asin(0.6) + 2 * 3)
    assert tagged(w, "left jamb").length.value == pytest.approx(1000 + 2 * 3)


def test_the_glass_of_a_segmental_head_has_its_area_and_mass():
    w = window_of("frame: {width: 1200, height: 1200}\nhead: {arched: {rise: 200}}\n" + FIXED)
    pane = w.panes[0]
    # cut width 1200 - 2 x 51; its arc about the same centre, 200 above the bottom, with radius 1000 - 51
    width, radius = 1200 - 2 * 51, 1000 - 51
    side = 200 + math.sqrt(radius**2 - (width / 2) ** 2) - 51
    assert pane.width.value == pytest.approx(width)
    assert pane.height.value == pytest.approx(1200 - 2 * 51)
    area = width * side + segment_area(radius, width)
    assert pane.cut.outline.area == pytest.approx(area)
    assert pane.mass_kg == pytest.approx(area / 1e6 * CLEAR_KG_PER_M2)
    assert pane.shaped


def test_a_semicircular_fanlight_is_half_a_circle_less_the_transom():
    w = window_of("""
        frame: {width: 1200, height: 1700}
        head: {arched: {rise: 600}}
        transoms: [600]
        lights: [{light: fixed}, {light: side-hung, hinge: left}]
    """)
    pane = w.panes[0]
    # radius 600 - 46 - 5 = 549, cut off 18 + 5 = 23 above the centre: the segment of that circle over the chord there
    radius, off = 549, 23
    half = math.sqrt(radius**2 - off**2)
    t = 2 * math.acos(off / radius)
    assert pane.cut.outline.area == pytest.approx(radius**2 * (t - math.sin(t)) / 2)
    assert pane.width.value == pytest.approx(2 * half)
    assert pane.height.value == pytest.approx(radius - off)
    assert w.lights[0].fanlight
    assert not w.panes[1].shaped


def test_jambs_and_a_semicircle_meet_square():
    w = window_of("frame: {width: 1200, height: 1700}\nhead: {arched: {rise: 600}}\n" + FIXED)
    assert tagged(w, "head").end_angles == (90, 90)
    assert sorted(tagged(w, "left jamb").end_angles) == [45, 90]


def test_an_equilateral_pointed_head_has_the_width_for_a_radius():
    rise = 900 * math.sqrt(3) / 2
    w = window_of(f"frame: {{width: 900, height: 1700}}\nhead: {{pointed: {{rise: {rise!r}}}}}\n" + FIXED)
    found = arcs(w.frame.outline)
    assert [r for r, _ in found] == pytest.approx([900, 900])
    assert [w.frame.outline.length(i) for i in (2, 3)] == pytest.approx([900 * math.pi / 3] * 2)   # a sixth of a circle each
    # the two arcs cross at 120 degrees inside, so the mitre is 60 to each tangent
    assert tagged(w, "right head").end_angles[1] == 60
    assert tagged(w, "left head").end_angles[0] == 60


def test_a_raked_head_is_mitred_on_the_bisectors():
    w = window_of("frame: {width: 1200}\nhead: {raked: {left: 900, right: 1200}}\n" + FIXED)
    slope = math.degrees(math.atan2(300, 1200))
    head = tagged(w, "head")
    # head and right jamb meet at 90 - slope inside, head and left jamb at 90 + slope
    assert head.end_angles == pytest.approx(((90 - slope) / 2, (90 + slope) / 2), abs=0.051)
    assert head.length.value == pytest.approx(math.hypot(1200, 300) + 2 * 3)
    assert tagged(w, "left jamb").length.value == pytest.approx(900 + 6)
    assert tagged(w, "right jamb").length.value == pytest.approx(1200 + 6)


def test_a_mullion_under_a_rake_is_cut_to_its_slope():
    w = window_of("""
        frame: {width: 1200}
        head: {raked: {left: 900, right: 1200}}
        mullions: [600]
        lights: [{light: fixed}, {light: fixed}]
    """)
    bar = w.bars[0]
    slope = math.atan2(300, 1200)
    assert bar.end_angles == pytest.approx((90, 90 - math.degrees(slope)), abs=0.051)
    # the head's line is 46 - 12 = 34 inside its outer edge, measured square to it; at the bar's edges, 38 off the middle
    middle = 1050 - 34 / math.cos(slope) - 34
    climb = 38 * math.tan(slope)
    assert bar.edge_lengths == pytest.approx((middle - climb, middle + climb))
    assert bar.length.value == pytest.approx(middle + climb)
    assert bar.reach == pytest.approx((34, 34 + middle + climb))


def test_a_mullion_at_an_apex_is_cut_to_a_point():
    w = window_of("""
        frame: {width: 1400, height: 1600}
        head: {gable: {apex: 700, eaves: 900}}
        mullions: [700]
        lights: [{light: fixed}, {light: fixed}]
    """)
    bar = w.bars[0]
    assert bar.end_angles == (90, 45)
    assert bar.ends[1].note == "two cuts, 45 and 45, that meet on the centre line"
    # both slopes are 45 degrees: their joint lines meet 34 sqrt 2 below the apex
    assert bar.length.value == pytest.approx(1600 - 34 * math.sqrt(2) - 34)
    assert bar.edge_lengths == pytest.approx((bar.length.value - 38, bar.length.value - 38))
    assert len(bar.face.corners) == 5


def test_a_mullion_under_an_arch_is_scribed_to_it():
    w = window_of("""
        frame: {width: 1200, height: 1200}
        head: {arched: {rise: 200}}
        mullions: [400]
        lights: [{light: fixed}, {light: fixed}]
    """)
    bar, radius = w.bars[0], 1000 - 34
    tops = [200 + math.sqrt(radius**2 - (x - 600) ** 2) for x in (400 - 38, 400 + 38)]
    assert bar.edge_lengths == pytest.approx([top - 34 for top in tops])
    assert bar.ends[1].note == "scribed to radius 966.0"
    assert bar.end_angles[1] == pytest.approx(math.degrees(math.atan2(76, tops[1] - tops[0])), abs=0.051)


def test_a_round_window_is_round_all_through():
    w = window_of("circular: {diameter: 900}\n" + FIXED)
    pane = w.panes[0]
    assert w.width.value == w.height.value == 900
    assert pane.cut.outline.area == pytest.approx(math.pi * (450 - 51) ** 2)
    assert [m.tag for m in w.members] == ["ring upper", "ring lower"]
    assert tagged(w, "ring upper").length.value == pytest.approx(math.pi * 450 + 6)
    assert tagged(w, "ring upper").end_angles == (90, 90)
    assert pane.width.value == pytest.approx(2 * 399)


def test_fixings_stand_along_an_arc():
    w = window_of("frame: {width: 1200, height: 1200}\nhead: {arched: {rise: 200}}\n" + FIXED)
    head = [p for p in w.fixings if p.side == "head"]
    length = 1000 * 2 * math.asin(0.6)
    assert [p.along.value for p in head] == pytest.approx([150, length / 2, length - 150])
    assert all(math.dist(p.at, (600, 200)) == pytest.approx(1000) for p in head)
    first = math.pi / 2 + math.asin(0.6) - 150 / 1000   # angle at the centre, counter-clockwise from the right
    assert head[0].at == pytest.approx((600 + 1000 * math.cos(first), 200 + 1000 * math.sin(first)))
    assert all(p.inward == pytest.approx(((600 - p.at.x) / 1000, (200 - p.at.y) / 1000)) for p in head)
    assert [p.side for p in w.fixings] == ["left jamb"] * 3 + ["head"] * 3 + ["right jamb"] * 3 + ["sill"] * 3


def test_fixings_on_slopes_keep_clear_of_a_mullion_at_the_apex():
    w = window_of("""
        frame: {width: 1600, height: 1900}
        head: {gable: {apex: 800, eaves: 1100}}
        mullions: [800]
        lights: [{light: fixed}, {light: fixed}]
    """)
    slope = math.hypot(800, 800)
    for side, from_apex in (("left head", [slope - p.along.value for p in w.fixings if p.side == "left head"]),
                            ("right head", [p.along.value for p in w.fixings if p.side == "right head"])):
        assert min(from_apex) >= 150 - 1e-6, side


@pytest.mark.parametrize(("head", "light", "edge"), [
    ("head: {arched: {rise: 200}}", "{light: top-hung}", "top"),
    ("head: {raked: {left: 900, right: 1500}}", "{light: top-hung}", "top"),
    ("head: {arched: {rise: 600}}", "{light: side-hung, hinge: left}", None),
    ("head: {raked: {left: 900, right: 1500}}", "{light: tilt-and-turn, hinge: left}", None),
])
def test_a_sash_hangs_on_a_straight_edge_or_is_refused(head, light, edge):
    text = f"frame: {{width: 1200, height: 1500}}\n{head}\nlights: [{light}]"
    if edge is None:
        assert window_of(text).sashes
    else:
        (problem,) = refusal(text)
        assert problem.code == "shape-cannot-open"
        assert f"its {edge} edge" in problem.message
        assert problem.path == ("windows", 0, "lights", 0, "light")


def test_a_top_hung_light_may_hang_under_a_transom_of_a_gable():
    w = window_of("""
        frame: {width: 1600, height: 1900}
        head: {gable: {apex: 800, eaves: 1100}}
        transoms: [900]
        lights: [{light: fixed}, {light: top-hung}]
    """)
    assert w.sashes[0].hinge_edges == ("top",)


def test_half_a_gable_can_hang_on_its_mullion():
    w = window_of("""
        frame: {width: 1600, height: 1900}
        head: {gable: {apex: 800, eaves: 1100}}
        mullions: [800]
        lights: [{light: side-hung, hinge: right}, {light: fixed}]
    """)
    assert {m.tag for m in w.sashes[0].members} == {"S1 bottom rail", "S1 right stile", "S1 left head", "S1 left stile"}


def test_equal_spacing_needs_straight_sides():
    text = "circular: {diameter: 1200}\nmullions: equal-glass\nlights: [{light: fixed}, {light: fixed}]"
    (problem,) = refusal(text)
    assert problem.code == "spacing-shaped"
    assert "equal-centres" in problem.hint
    w = window_of(text.replace("equal-glass", "equal-centres"))
    assert w.bars[0].centre.value == 600


def test_equal_glass_under_an_arch_gives_equal_widths():
    w = window_of("""
        frame: {width: 1800, height: 1300}
        head: {arched: {rise: 250}}
        mullions: equal-glass
        lights: [{light: side-hung, hinge: left}, {light: fixed}, {light: side-hung, hinge: right}]
    """)
    assert [p.width.value for p in w.panes] == pytest.approx([w.panes[0].width.value] * 3)
    assert w.panes[0].height.value < w.panes[1].height.value


def test_a_bar_in_a_corner_of_the_shape_is_refused():
    (problem,) = refusal("frame: {width: 1000, height: 500}\nhead: {arched: {rise: 500}}\nmullions: [40]\nlights: [{light: fixed}, {light: fixed}]")
    assert problem.code == "bar-in-corner"
    assert problem.path == ("windows", 0, "mullions", 0)


def test_an_edge_too_short_for_the_profiles_is_named():
    (problem,) = refusal("frame: {width: 1200, height: 1700}\nhead: {arched: {rise: 600}}\ntransoms: [620]\nlights: [{light: fixed}, {light: fixed}]")
    assert problem.code == "no-room"
    assert "20 long along the" in problem.message
    assert "T1" in problem.hint


def test_explained_sizes_name_the_shapes_own_keys():
    w = window_of("circular: {diameter: 900}\n" + FIXED)
    assert w.width.terms[0].source.ref == ("windows", 0, "circular", "diameter")
    w = window_of("frame: {width: 1200}\nhead: {raked: {left: 900, right: 1200}}\n" + FIXED)
    assert w.height.terms[0].source.ref == ("windows", 0, "head", "raked", "right")


def test_windows_of_both_systems_take_every_head():
    for system in ("flush-70", "lipped-70"):
        made = windows_of("""
            - {mark: A, frame: {width: 1000, height: 1400}, head: {arched: {rise: 500}}, lights: [{light: side-hung, hinge: left}]}
            - {mark: B, frame: {width: 1000, height: 1400}, head: {pointed: {rise: 800}}, lights: [{light: side-hung, hinge: left}]}
            - {mark: C, circular: {diameter: 1000}, lights: [{light: fixed, sash: dummy}]}
        """, system)
        assert all(len(w.sashes) == 1 for w in made)


@pytest.mark.parametrize(("x", "expected"), [(600, (0, 1200, 0)), (0, None), (300, (0, 200 + math.sqrt(1e6 - 300**2), math.degrees(math.asin(0.3))))])
def test_a_cut_meets_an_arch_at_its_height_and_slant(x, expected):
    w = window_of("frame: {width: 1200, height: 1200}\nhead: {arched: {rise: 200}}\n" + FIXED)
    found = chord(w.frame.outline, 0, x)
    if expected is None:
        assert found is not None   # along the jamb: from corner to corner
        assert found[1].at == pytest.approx(1000)
    else:
        assert (found[0].at, found[1].at, found[1].out_of_square) == pytest.approx(expected)


def test_a_mullion_just_beside_a_blunt_points_crown_is_as_long_as_its_strip():
    # the rise is hardly more than half the width: each arc's own crown would lie just beyond the point, off the arc
    w = window_of("frame: {width: 1000, height: 1400}\nhead: {pointed: {rise: 502}}\nmullions: [500]\nlights: [{light: fixed}, {light: fixed}]")
    radius = (1000**2 / 4 + 502**2) / 1000 - 34
    centre = 1000 - (radius + 34)
    tip = (1400 - 502) + math.sqrt(radius**2 - (500 - centre) ** 2)
    assert w.bars[0].length.value == pytest.approx(tip - 34)
