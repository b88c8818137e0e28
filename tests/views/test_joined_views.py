"""The developed elevation and the true plan of joined windows, measured from what is drawn."""

import math

import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from elevations.drawing.entities import Dimension, Label, Stroke
from elevations.drawing.explode import measured
from elevations.drawing.layers import Layer
from elevations.plane import arc_radius
from elevations.views.developed import developed
from elevations.views.elevation import window_groups
from elevations.views.plan import plan_view
from tests.geometry.test_joined import DEPTH, a_set, bay_of, framed, sets_of

SCALE = 20


def items(view, kind, layer=None):
    return [item for group in view.groups for item in group.items if isinstance(item, kind) and (layer is None or item.layer == layer)]


def polygons(view, layer):
    return [Polygon([c[:2] for c in s.corners]) for s in items(view, Stroke, layer) if s.closed]


def test_each_facet_is_its_own_elevation_moved_beside_the_one_before():
    bay = bay_of([600, 1200, 700], [135, 150])
    view = developed(bay, SCALE)
    for facet, left in zip(bay.facets, (0, 600 + 80, 600 + 80 + 1200 + 64), strict=True):
        own = [item for group in window_groups(facet.window, SCALE) for item in group.items if isinstance(item, Stroke)]
        number = facet.window.path[1] + 1
        drawn = [item for g in view.groups if g.id.startswith(f"w{number}-") for item in g.items if isinstance(item, Stroke)]
        assert len(drawn) == len(own) > 0
        for a, b in zip(own, drawn, strict=True):
            assert [(c.x + left, c.y) for c in a.corners] == [pytest.approx((c.x, c.y)) for c in b.corners]


def test_posts_and_couplers_fill_the_gaps_between_the_frames():
    bay = bay_of([600, 800, 800, 600], [135, 180, 135])
    view = developed(bay, SCALE)
    spans = sorted(p.bounds for p in polygons(view, Layer.COUPLER))
    assert spans == [(600, 0, 680, 1200), (1480, 0, 1500, 1200), (2300, 0, 2380, 1200)]
    # the edge of each post, in the middle of its two faces; a coupler has none
    edges = sorted(s.corners[0].x for s in items(view, Stroke, Layer.COUPLER) if not s.closed)
    assert edges == [640, 2340]


def test_glass_of_every_facet_is_one_closed_line_each_on_its_layer():
    view = developed(bay_of([600, 1200, 700], [135, 150]), SCALE)
    assert sorted(round(p.bounds[2] - p.bounds[0]) for p in polygons(view, Layer.GLASS)) == [498, 598, 1098]   # each 102 less


def test_dimensions_give_each_facet_each_post_and_the_whole():
    view = developed(bay_of([600, 1200, 700], [135, 150]), SCALE)
    level = [measured(dim) for dim in items(view, Dimension) if not dim.upright]
    assert level == [600, 80, 1200, 64, 700, 600 + 80 + 1200 + 64 + 700]
    assert [measured(dim) for dim in items(view, Dimension) if dim.upright] == [1200]


def test_a_stack_gives_its_heights_from_the_bottom():
    (stack,) = sets_of(framed((900, 500), (900, 1350)), a_set("stacked", 2))
    view = developed(stack, SCALE)
    assert [measured(dim) for dim in items(view, Dimension) if dim.upright] == [1350, 20, 500, 1870]
    assert [measured(dim) for dim in items(view, Dimension) if not dim.upright] == [900]
    assert polygons(view, Layer.COUPLER)[0].bounds == (0, 1350, 900, 1370)


def test_a_raked_row_gives_both_heights():
    low = {"frame": {"width": 700, "height": 1200}, "head": {"raked": {"left": 900, "right": 1200}}}
    (row,) = sets_of([("W1", {"frame": {"width": 700, "height": 900}}), ("W2", low)], a_set("side-by-side", 2))
    assert [measured(dim) for dim in items(developed(row, SCALE), Dimension) if dim.upright] == [900, 300, 1200]


def test_the_plan_shows_every_part_at_its_size_and_none_over_another():
    bay = bay_of([600, 1200, 700], [135, 150])
    view = plan_view(bay, SCALE)
    frames, posts = polygons(view, Layer.FRAME), polygons(view, Layer.COUPLER)
    assert [frame.area for frame in frames] == pytest.approx([600 * DEPTH, 1200 * DEPTH, 700 * DEPTH])
    assert unary_union([*frames, *posts]).area == pytest.approx(sum(part.area for part in (*frames, *posts)))
    for post, face, angle in zip(posts, (40, 32), (135, 150), strict=True):
        # by hand: a post is the two strips behind its faces, less the kite that both cover twice
        turn = math.radians(180 - angle)
        assert post.area == pytest.approx(2 * face * DEPTH - DEPTH**2 * math.tan(turn / 2))


def test_the_plan_is_dimensioned_over_both_faces_and_to_its_furthest_corner():
    bay = bay_of([600, 1200, 600], [135, 135])
    dims = items(plan_view(bay, SCALE), Dimension)
    root = math.sqrt(0.5)
    assert [measured(dim) for dim in dims if not dim.upright] == pytest.approx(
        [2 * 640 * root + 1280 - 140 * root, 2 * 640 * root + 1280], abs=0.1)   # chains stand on a 0.1 mm grid
    assert [measured(dim) for dim in dims if dim.upright] == pytest.approx([640 * root], abs=0.1)


def test_each_angle_is_written_where_it_is_and_its_arc_spans_it():
    bay = bay_of([600, 1200, 700], [120, 150])
    view = plan_view(bay, SCALE)
    assert [label.text for label in items(view, Label) if label.text.endswith("°")] == ["120°", "150°"]
    arcs = [s for s in items(view, Stroke, Layer.DIMENSION) if s.corners[0].bulge]
    assert [math.degrees(4 * math.atan(arc.corners[0].bulge)) for arc in arcs] == pytest.approx([120, 150])
    assert [arc_radius(*arc.corners) for arc in arcs] == pytest.approx([5 * SCALE] * 2)


def test_a_coupled_row_shows_the_frames_depth_and_couplers_in_the_middle_of_it():
    (row,) = sets_of(framed((600, 900), (600, 900)), a_set("side-by-side", 2))
    view = plan_view(row, SCALE)
    assert [p.bounds for p in polygons(view, Layer.COUPLER)] == [pytest.approx((600, 5, 620, 65))]   # 60 deep in 70
    assert [measured(dim) for dim in items(view, Dimension)] == [1220, 70]


def test_a_stack_has_no_plan():
    (stack,) = sets_of(framed((900, 500), (900, 1350)), a_set("stacked", 2))
    with pytest.raises(ValueError, match="no plan"):
        plan_view(stack, SCALE)


def test_a_point_at_the_lock_is_for_joined_windows_too():
    windows = [("W1", {"frame": {"width": 600, "height": 900}, "lights": [{"light": "side-hung", "hinge": "left"}]}), *framed((600, 900))]
    windows[1] = ("W2", windows[1][1])
    (row,) = sets_of(windows, a_set("side-by-side", 2))
    hinge, lock = (
        [s.corners for s in items(developed(row, SCALE, apex_at_hinge=at), Stroke, Layer.OPENING)] for at in (True, False)
    )
    assert hinge != lock
