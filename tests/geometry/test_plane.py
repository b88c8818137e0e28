"""Lines and exact arcs, judged by handbook formulas and by shapely on flattened copies."""

import math

import pytest
from shapely.geometry import Polygon, box

from elevations.plane import Corner, OffsetError, Outline, arc_centre, arc_radius, clip, flatten, offset, rectangle

SEGMENTAL = Outline((Corner(0, 0), Corner(1200, 0), Corner(1200, 900, 2 * 300 / 1200), Corner(0, 900)))
RAKED = Outline((Corner(0, 0), Corner(900, 0), Corner(900, 1200), Corner(0, 800)))
ROUND = Outline((Corner(300, 0, 1), Corner(-300, 0, 1)))
POINTED = Outline((Corner(0, 0), Corner(1000, 0), Corner(1000, 800, math.tan(math.pi / 12)), Corner(500, 800 + 500 * math.sqrt(3), math.tan(math.pi / 12)), Corner(0, 800)))


def test_rise_and_chord_give_the_radius_of_the_segment_formula():
    # r = c^2 / 8h + h / 2: 1200^2 / 2400 + 150 = 750 (circular segment, any geometry handbook)
    a, b = SEGMENTAL.corners[2], SEGMENTAL.corners[3]
    assert arc_radius(a, b) == pytest.approx(1200**2 / (8 * 300) + 300 / 2)
    assert arc_centre(a, b) == pytest.approx((600, 900 + 300 - 750))


def test_area_adds_the_circular_segment_exactly():
    # segment = r^2 (t - sin t) / 2 with t = 2 asin(c / 2r)
    t = 2 * math.asin(1200 / 1500)
    assert SEGMENTAL.area == pytest.approx(1200 * 900 + 750**2 * (t - math.sin(t)) / 2)
    assert ROUND.area == pytest.approx(math.pi * 300**2)


def test_bounds_reach_the_crown_of_an_arc():
    assert SEGMENTAL.bounds == pytest.approx((0, 0, 1200, 1200))
    assert ROUND.bounds == pytest.approx((-300, -300, 300, 300))


def test_edge_lengths_are_measured_along_the_arc():
    assert SEGMENTAL.length(2) == pytest.approx(750 * 2 * math.asin(0.8))
    assert SEGMENTAL.length(1) == 900


@pytest.mark.parametrize("outline", [rectangle(0, 0, 900, 1200), SEGMENTAL, RAKED, ROUND, POINTED])
@pytest.mark.parametrize("inward", [10, 46, 118])
def test_offset_agrees_with_shapely_within_its_flattening(outline, inward):
    ours = Polygon(flatten(offset(outline, [inward] * len(outline.corners)), 0.001))
    theirs = Polygon(flatten(outline, 0.001)).buffer(-inward, join_style="mitre", quad_segs=2048, mitre_limit=50)
    assert ours.hausdorff_distance(theirs) < 0.02
    assert ours.area == pytest.approx(theirs.area, rel=1e-5)


def test_each_edge_takes_its_own_offset():
    # left 46, right 18, top and bottom 46: the right light of a two-light frame
    assert offset(rectangle(600, 0, 1200, 1050), [46, 46, 46, 18]).bounds == (618, 46, 1154, 1004)


def test_an_offset_that_eats_an_edge_is_refused():
    with pytest.raises(OffsetError):
        offset(rectangle(0, 0, 100, 500), [60] * 4)
    with pytest.raises(OffsetError):
        offset(ROUND, [300, 300])
    with pytest.raises(OffsetError):
        offset(Outline((Corner(0, 0), Corner(900, 0), Corner(900, 20), Corner(0, 800))), [46] * 4)


@pytest.mark.parametrize(("outline", "axis", "at"), [
    (SEGMENTAL, 0, 400), (SEGMENTAL, 1, 1000), (SEGMENTAL, 1, 900), (SEGMENTAL, 0, 600),
    (RAKED, 0, 300), (RAKED, 1, 1000), (ROUND, 0, 0), (ROUND, 1, 120), (POINTED, 0, 500), (POINTED, 1, 1200),
])
def test_clip_splits_an_outline_without_loss(outline, axis, at):
    low, _ = clip(outline, axis, at, high=False)
    high, _ = clip(outline, axis, at, high=True)
    assert low.area + high.area == pytest.approx(outline.area)
    bounds = Polygon(flatten(outline, 0.001)).bounds
    half = box(bounds[0], bounds[1], at, bounds[3]) if axis == 0 else box(bounds[0], bounds[1], bounds[2], at)
    expected = Polygon(flatten(outline, 0.001)).intersection(half)
    assert Polygon(flatten(low, 0.001)).symmetric_difference(expected).area < 2


def test_clip_says_which_edge_each_piece_came_from():
    part, origins = clip(rectangle(0, 0, 1200, 1050), 0, 600, high=True)
    upright_at_cut = [i for i, o in enumerate(origins) if o is None]
    assert len(upright_at_cut) == 1
    start = part.corners[upright_at_cut[0]]
    assert start.x == 600
    assert sorted(o for o in origins if o is not None) == [0, 1, 2]


def test_a_line_that_misses_cannot_clip():
    with pytest.raises(OffsetError):
        clip(rectangle(0, 0, 100, 100), 0, 100, high=True)
    with pytest.raises(OffsetError):
        clip(rectangle(0, 0, 100, 100), 1, 250, high=False)


@pytest.mark.parametrize("outline", [SEGMENTAL, RAKED, POINTED, ROUND])
def test_mirroring_twice_returns_the_outline(outline):
    once = outline.mirrored(450)
    assert once.area == pytest.approx(outline.area)
    twice = once.mirrored(450)
    for ours, first in zip(sorted(twice.corners), sorted(outline.corners), strict=True):
        assert ours == pytest.approx(first)


def test_neighbouring_offsets_share_a_mitre_on_the_bisector():
    # The mitre from corner to offset corner of a raked head halves the angle between its edges.
    inner = offset(RAKED, [70] * 4)
    (cx, cy, _), (ix, iy, _) = RAKED.corners[2], inner.corners[2]
    mitre = math.atan2(iy - cy, ix - cx)
    down, along = math.atan2(-1, 0), math.atan2(800 - 1200, -900)
    assert math.cos(mitre - down) == pytest.approx(math.cos(mitre - along))
