"""Elevations and sections of shaped windows: what they measure, where symbols end, what slants and how that is said."""

import pytest
from shapely.geometry import LineString, Polygon

from elevations.drawing.entities import Dimension, Label, Leader, Symbol
from elevations.drawing.explode import measured
from elevations.drawing.layers import Layer
from elevations.geometry.along import is_kink
from elevations.plane import flatten
from elevations.views.chains_round import chains_round
from elevations.views.cut_run import run_along
from elevations.views.cuts import choose_cuts
from elevations.views.elevation import elevation
from elevations.views.section import section
from elevations.views.shaped import largest_box, on_shape
from elevations.views.visible import bar_face, light_edge
from tests.jobs import window_of

FIXED = "\nlights: [{light: fixed}]"
ARCHED = "frame: {width: 1200, height: 1200}\nhead: {arched: {rise: 200}}"
RAKED = "frame: {width: 1200}\nhead: {raked: {left: 900, right: 1200}}"
GABLE = "frame: {width: 1400, height: 1400}\nhead: {gable: {apex: 700, eaves: 800}}"
POINTED = "frame: {width: 900, height: 1700}\nhead: {pointed: {rise: 800}}"
ROUND = "circular: {diameter: 900}"
ALL = [ARCHED, RAKED, GABLE, POINTED, ROUND]


def items(view, kind):
    return [item for group in view.groups for item in group.items if isinstance(item, kind)]


def texts(view):
    return " ".join(label.text for label in items(view, Label))


def lengths(dims, *, upright):
    return sorted(round(measured(dim), 1) for dim in dims if dim.upright == upright)


def test_springing_and_rise_are_dimensioned():
    chains = chains_round(window_of(ARCHED + FIXED), 10.0)
    assert lengths(chains.bars, upright=True) == [200, 1000]
    assert lengths(chains.overall, upright=True) == [1200]


def test_both_jambs_of_a_rake_are_dimensioned_each_on_its_side():
    chains = chains_round(window_of("frame: {width: 1200}\nhead: {raked: {left: 1200, right: 900}}" + FIXED), 10.0)
    assert lengths(chains.bars, upright=True) == [900]
    assert all(dim.line_at > 1200 for dim in chains.bars)   # to the right of the frame, where the low jamb is
    assert lengths(chains.overall, upright=True) == [1200]


def test_an_apex_is_dimensioned_from_the_left():
    chains = chains_round(window_of("frame: {width: 1400, height: 1400}\nhead: {gable: {apex: 500, eaves: 800}}" + FIXED), 10.0)
    assert lengths(chains.bars, upright=False) == [500, 900]
    assert lengths(chains.bars, upright=True) == [600, 800]


def test_fixings_along_an_arc_have_no_chain_and_the_drawing_says_so():
    view = elevation(window_of(ARCHED + FIXED), 10.0)
    assert "head as listed, along the outer edge" in texts(view)
    heads = [dim for dim in items(view, Dimension) if not dim.upright and dim.line_at > 1200]
    assert heads == []


@pytest.mark.parametrize(("frame", "said"), [
    (ARCHED, {"R 1000"}), (RAKED, {"slope 14°"}), (GABLE, {"slope 40.6°"}), (ROUND, {"R 450"}),
])
def test_radii_and_slopes_are_written_at_the_head(frame, said):
    # 1200^2 / 1600 + 100 = 1000; atan(300 / 1200) = 14.0; atan(600 / 700) = 40.6
    window = window_of(frame + FIXED)
    assert {leader.text for leader in items(elevation(window, 10.0, cuts=choose_cuts(window)), Leader)} == said


@pytest.mark.parametrize("frame", ALL)
def test_fixing_signs_stand_in_the_frame(frame):
    window = window_of(frame + FIXED)
    outer, inner = (Polygon(flatten(o)) for o in (window.frame.outline, light_edge(window, window.lights[0])))
    signs = [s for s in items(elevation(window, 10.0), Symbol) if s.layer is Layer.FIXING]
    assert len(signs) == len(window.fixings) > 3
    for sign in signs:
        place = LineString([sign.at, (sign.at.x + 0.1, sign.at.y)])
        assert outer.contains(place)
        assert not inner.intersects(place)


@pytest.mark.parametrize(("frame", "light"), [
    (ARCHED, "{light: side-hung, hinge: left}"), (RAKED, "{light: side-hung, hinge: left}"),
    (RAKED, "{light: side-hung, hinge: right}"), (GABLE, "{light: bottom-hung}"),
    (POINTED, "{light: tilt-and-turn, hinge: right}"),
])
@pytest.mark.parametrize("hinge", [True, False])
def test_an_opening_symbol_stays_on_its_sash(frame, light, hinge):
    window = window_of(f"{frame}\nlights: [{light}]")
    sash = Polygon(flatten(window.sashes[0].outer.outline)).buffer(0.1)
    lines = [s for group in elevation(window, 10.0, apex_at_hinge=hinge).groups for s in group.items if getattr(s, "layer", None) is Layer.OPENING]
    assert lines
    assert all(sash.contains(LineString([c[:2] for c in line.corners])) for line in lines)


def test_a_symbol_on_a_rectangle_is_left_as_it_is():
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: top-hung}]")
    strokes = (((1.0, 2.0), (3.0, 4.0)),)
    assert on_shape(strokes, window.sashes[0].outer.outline) == [tuple(strokes[0])]


@pytest.mark.parametrize("frame", ALL)
def test_what_is_seen_of_bars_and_lights_does_not_overlap(frame):
    window = window_of(f"{frame}\nmullions: [400]\nlights: [{{light: fixed}}, {{light: fixed}}]")
    bar = Polygon(flatten(bar_face(window, window.bars[0])))
    lights = [Polygon(flatten(light_edge(window, light))) for light in window.lights]
    assert all(bar.intersection(light).area < 0.5 for light in lights)
    assert Polygon(flatten(window.frame.outline)).buffer(0.01).contains(bar)


def test_a_section_through_a_slope_shows_the_head_cut_square_and_says_so():
    window = window_of(RAKED + FIXED)
    view = section(window, 0, 600.0, 5.0)
    assert "head shown cut square to its length, which slants 14.0° here" in texts(view)
    run = run_along(window, 0, 600.0)
    # the head's own figures: sight 66 from its outer edge, the glass 46 + 5 from it
    stretch = run.stretches[0]
    assert stretch.datum[1] - stretch.high == pytest.approx(66)
    assert stretch.datum[1] - stretch.glass[1] == pytest.approx(46 + 5)
    assert stretch.low - stretch.datum[0] == pytest.approx(66)
    # the visible glass ends where the cut meets the sight line: 66 inside the slope, measured square to it
    assert stretch.high == pytest.approx(1050 - 66 * (1 + 0.25**2) ** 0.5)


def test_a_section_through_a_sash_under_a_slope_keeps_each_members_figures():
    window = window_of(RAKED + "\nlights: [{light: side-hung, hinge: left}]")
    stretch = run_along(window, 0, 600.0).stretches[0]
    assert stretch.sash[1] - stretch.high == pytest.approx(76)
    assert stretch.datum[1] - stretch.sash[1] == pytest.approx(43)
    assert stretch.sash[1] - stretch.glass[1] == pytest.approx(56 + 5)


def test_a_section_through_the_crown_is_square_and_says_nothing():
    window = window_of(ARCHED + FIXED)
    cuts = choose_cuts(window)
    assert cuts.upright_x == 600
    assert "cut square" not in texts(section(window, 0, cuts.upright_x, 5.0))
    run = run_along(window, 0, 600.0)
    assert run.bounds[-1][0] == "head"
    assert run.bounds[-1][2] == pytest.approx(1200)


@pytest.mark.parametrize("frame", ALL)
def test_cuts_run_through_glass_and_no_corner(frame):
    window = window_of(frame + FIXED)
    cuts = choose_cuts(window)
    sight = window.panes[0].sight.outline
    for axis, at in ((0, cuts.upright_x), (1, cuts.level_y)):
        assert sight.bounds[axis] < at < sight.bounds[axis + 2]
        assert all(abs(corner[axis] - at) >= 5 for i, corner in enumerate(sight.corners) if is_kink(sight, i))


def test_a_round_window_is_cut_through_its_middle_both_ways_where_its_ring_shows_its_own_section():
    window = window_of(ROUND + FIXED)
    cuts = choose_cuts(window)
    assert (cuts.upright_x, cuts.level_y) == pytest.approx((450, 450))
    assert "cut square" not in texts(section(window, 1, cuts.level_y, 5.0))


@pytest.mark.parametrize("frame", ALL)
def test_the_largest_box_lies_inside_and_takes_half_the_area(frame):
    outline = window_of(frame + FIXED).panes[0].sight.outline
    box = largest_box(outline)
    whole = Polygon(flatten(outline))
    inside = Polygon([(box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)])
    assert whole.buffer(0.1).contains(inside)
    assert inside.area > 0.5 * whole.area   # our own bar: a right-angled triangle holds half, and these are fuller
