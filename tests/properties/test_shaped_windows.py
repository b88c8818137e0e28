"""What holds for any shaped window: shapely judges the exact outlines on flattened copies, and mirrors stay mirrors."""

import itertools
import math

import pytest
import yaml
from hypothesis import event, given, settings
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.geometry.resolve import resolve_job
from elevations.geometry.stations import to_station
from elevations.plane import flatten
from elevations.spec.load import parse_job
from tests.properties.shapes import REFUSED, mirrored_head, shaped_windows
from tests.properties.specs import job, mirrored

QUICK = settings(max_examples=80, deadline=None)
FLAT_MM = 0.001


def made(block):
    """The window, or None where its shape is refused, in words and for a reason of shapes."""
    problems = ()
    try:
        (window,) = resolve_job(parse_job(yaml.safe_dump(job(block), sort_keys=False), "job.yaml").job, find_system)
    except SpecError as error:
        window, problems = None, error.problems
    event("made" if window else "refused")
    assert {p.code for p in problems} <= REFUSED, problems
    assert all(p.message and p.hint for p in problems)
    return window


def polygon(outline):
    return Polygon(flatten(outline, FLAT_MM))


@QUICK
@given(shaped_windows())
def test_frame_bars_and_openings_between_them_tile_the_frame(block):
    window = made(block)
    if window is None:
        return
    pieces = [m.face for m in (*window.members, *window.bars)]
    pieces += [to_station(window.system, light.region, "rebate").outline for light in window.lights]
    whole = window.frame.outline.area
    assert sum(p.area for p in pieces) == pytest.approx(whole, rel=1e-9)
    assert unary_union([polygon(p) for p in pieces]).area == pytest.approx(whole, rel=1e-4)
    assert sum(light.region.outline.area for light in window.lights) == pytest.approx(whole, rel=1e-9)


@QUICK
@given(shaped_windows())
def test_offset_outlines_nest_at_their_distances(block):
    window = made(block)
    for pane in window.panes if window else ():
        tight, cut, sight = (polygon(r.outline) for r in (pane.tight, pane.cut, pane.sight))
        assert tight.buffer(0.01).contains(cut)
        assert tight.exterior.distance(cut.exterior) == pytest.approx(window.system.edge_clearance, abs=0.01)
        assert cut.buffer(0.01).contains(sight)
        assert cut.area == pytest.approx(pane.cut.outline.area, rel=1e-4)
    for sash in window.sashes if window else ():
        region = polygon(window.lights[sash.light - 1].region.outline)
        assert region.buffer(0.01).contains(polygon(sash.outer.outline))


@QUICK
@given(shaped_windows())
def test_neighbours_share_their_mitre_and_its_two_angles_fill_the_corner(block):
    window = made(block)
    if window is None:
        return
    for members in (window.members, *(sash.members for sash in window.sashes)):
        by_start = {tuple(round(v, 6) for v in m.face.corners[0].point): m for m in members}
        assert len(by_start) == len(members)
        for member in members:
            a, b, c, d = member.face.corners
            following = by_start[tuple(round(v, 6) for v in b.point)]
            assert following.face.corners[3].point == pytest.approx(c.point, abs=1e-6)
            # one figure for both profiles, so the mitre lies on the bisector: both pieces are cut alike between straight edges
            if not a.bulge and not following.face.corners[0].bulge:
                assert member.end_angles[1] == pytest.approx(following.end_angles[0], abs=0.11)
            assert math.dist(a.point, d.point) > 0


@QUICK
@given(shaped_windows())
def test_a_mirrored_spec_is_a_mirrored_window(block):
    width = block["frame"]["width"] if "frame" in block else block["circular"]["diameter"]
    window, other = made(block), made(mirrored(mirrored_head(block), width))
    assert (window is None) == (other is None)
    if window is None or other is None:
        return
    outlines = [sorted([(o.mirrored(width / 2) if flip else o).bounds for o in outs], key=lambda box: [round(v, 3) for v in box]) for flip, outs in (
        (True, [p.cut.outline for p in window.panes] + [s.outer.outline for s in window.sashes] + [b.face for b in window.bars]),
        (False, [p.cut.outline for p in other.panes] + [s.outer.outline for s in other.sashes] + [b.face for b in other.bars]),
    )]
    for mine, theirs in zip(*outlines, strict=True):
        assert mine == pytest.approx(theirs, abs=1e-6)
    assert sorted(p.cut.outline.area for p in window.panes) == pytest.approx(sorted(p.cut.outline.area for p in other.panes))
    assert sorted(b.length.value for b in window.bars) == pytest.approx(sorted(b.length.value for b in other.bars))


@QUICK
@given(shaped_windows())
def test_fixings_stand_on_the_frames_edge_and_point_into_it(block):
    window = made(block)
    if window is None:
        return
    frame = polygon(window.frame.outline)
    for fixing in window.fixings:
        assert frame.exterior.distance(Point(fixing.at)) < 0.01
        assert frame.contains(Point(fixing.at.x + fixing.inward.x, fixing.at.y + fixing.inward.y))
        assert math.hypot(*fixing.inward) == pytest.approx(1)
        assert 0 < fixing.along.value < fixing.side_length
    if not {f.code for f in window.findings} & {"fixing-spacing", "fixing-side-short"}:
        for side in {f.side for f in window.fixings}:
            places = [f.along.value for f in window.fixings if f.side == side]
            assert places == sorted(places)
            assert all(b - a <= 600 + 1e-6 for a, b in itertools.pairwise(places))


@QUICK
@given(shaped_windows())
def test_a_bar_is_as_long_as_the_strip_that_it_fills(block):
    window = made(block)
    for bar in window.bars if window else ():
        low, high = bar.reach
        assert bar.length.value == pytest.approx(high - low)
        assert max(bar.edge_lengths) <= bar.length.value + 1e-6
        assert all(0 < angle <= 90 for angle in bar.end_angles)
        box, joint = bar.face.bounds, window.system.profiles[bar.profile].joint
        face = (box.bottom, box.top) if bar.upright else (box.left, box.right)
        # the face is narrower than the cut piece, so on a slope it ends short of the joint's own reach beyond it
        assert low <= face[0] + 1e-6
        assert high >= face[1] - 1e-6
        if window.frame.outline.is_box:
            assert (low, high) == pytest.approx((face[0] - joint, face[1] + joint))
