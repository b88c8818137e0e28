"""Pivots, pairs and sliding sashes in elevation and section: what covers what, and in which plane each sash lies."""

import io
from pathlib import Path

import ezdxf
import pytest
from ezdxf import bbox as bounding_box
from shapely import Polygon

from elevations import pipeline
from elevations.catalogue.load import find_system
from elevations.catalogue.system import PartKind
from elevations.drawing.entities import Dimension, Label, Stroke
from elevations.drawing.layers import Layer
from elevations.export import FORMATS
from elevations.sheets.column import column
from elevations.sheets.factory import factory_sheets
from elevations.sheets.words import lights_rows
from elevations.views.elevation import elevation
from elevations.views.section import section
from tests.geometry.one_light import OWN
from tests.jobs import window_of

SPECS = Path(__file__).parents[2] / "specs"


def window(text, system, width=1000, height=1200):
    return window_of(f"frame: {{width: {width}, height: {height}}}\nlights: [{{{text}}}]", system)


def strokes(view, layer):
    return [item for group in view.groups for item in group.items if isinstance(item, Stroke) and item.layer is layer]


def box_of(stroke):
    xs, ys = [c.x for c in stroke.corners], [c.y for c in stroke.corners]
    return min(xs), min(ys), max(xs), max(ys)


def stops(view, axis):
    """Depths (v) of the stops that sashes close against, in the order of the cut: the beads 12 wide of pivot-68."""
    found = []
    for stroke in strokes(view, Layer.BEAD):
        left, low, right, high = box_of(stroke)
        if round((high - low) if axis == 0 else (right - left), 6) == 12:
            found.append((low, left, right) if axis == 0 else (left, low, high))
    return [(out, inner) for _, out, inner in sorted(found)]


def test_the_symbol_of_a_pivot_is_solid_where_it_goes_out_and_dashed_where_it_comes_in():
    view = elevation(window("light: horizontal-pivot", "pivot-68"), 10)
    lines = {line.line: line for line in strokes(view, Layer.OPENING)}
    assert set(lines) == {None, "dashed"}
    assert min(c.y for c in lines["dashed"].corners) == 600 == max(c.y for c in lines[None].corners)
    axis = [line for line in strokes(view, Layer.CENTRE) if len(line.corners) == 2 and line.corners[0].y == line.corners[1].y == 600]
    assert len(axis) == 1


def test_turned_round_the_symbol_has_its_points_at_the_free_edges():
    view = elevation(window("light: vertical-pivot", "pivot-68"), 10, apex_at_hinge=False)
    tips = {line.corners[1].x for line in strokes(view, Layer.OPENING)}
    assert tips == {49, 1000 - 49}


def test_the_stop_of_a_horizontal_pivot_is_outside_at_the_head_and_inside_at_the_sill():
    """pivot-68, 68 deep: stops 10 deep at the outer or the inner face; A-A runs from the sill up."""
    view = section(window("light: horizontal-pivot", "pivot-68"), 0, 400.0, 2)
    assert stops(view, 0) == [(58, 68), (0, 10)]


def test_above_the_axis_both_jambs_have_their_stops_outside_and_below_it_inside():
    made = window("light: horizontal-pivot", "pivot-68")
    assert stops(section(made, 1, 900.0, 2), 1) == [(0, 10)] * 2
    assert stops(section(made, 1, 300.0, 2), 1) == [(58, 68)] * 2


def test_the_stops_of_a_vertical_pivot_change_from_jamb_to_jamb():
    assert stops(section(window("light: vertical-pivot", "pivot-68"), 1, 500.0, 2), 1) == [(0, 10), (58, 68)]
    assert stops(section(window("light: vertical-pivot, leads: left", "pivot-68"), 1, 500.0, 2), 1) == [(58, 68), (0, 10)]


def test_a_hung_sash_in_the_same_system_closes_against_the_inside_all_round():
    made = window("light: side-hung, hinge: left", "pivot-68")
    assert stops(section(made, 1, 900.0, 2), 1) == [(58, 68)] * 2


def test_the_cover_of_the_stop_is_that_of_its_outline():
    """The figure and the drawn outline say the same: the stop's edge less the edge of the sash."""
    system = find_system("pivot-68")
    for name in ("frame", "mullion", "transom"):
        profile = system.profiles[name]
        reach = max(part.outline.bounds.right for part in profile.section.hung if part.kind is PartKind.BEAD)
        assert reach - profile.sash == system.ways.pivot.cover
    low, high = (bound for part in system.profiles["sash"].section.body[:1] for bound in part.outline.bounds[1::2])
    assert high - low == system.ways.pivot.thickness
    body = system.profiles["frame"].section.body[0].outline.bounds.right
    assert system.profiles["frame"].sash - body == system.ways.pivot.gap
    assert system.depth - high == low   # in the middle of the depth, so that a stop fits on either side alike


def test_the_edge_of_the_half_that_comes_in_is_behind_its_stop():
    view = elevation(window("light: horizontal-pivot", "pivot-68"), 10)
    hidden = [line for line in strokes(view, Layer.SASH) if line.line == "dashed"]
    assert [box_of(line) for line in hidden] == [(49, 600, 951, 1151)]
    stop = [line for line in strokes(view, Layer.FRAME) if box_of(line) == (58, 600, 942, 1142)]
    assert len(stop) == 1


def test_the_floating_stile_stands_between_the_sashes_of_a_pair_and_touches_neither():
    """Held against shapely: each profile's outline, as drawn in B-B at full size."""
    for system in ("flush-70", "lipped-70"):
        view = section(window("light: side-hung-pair", system, 1200, 1300), 1, 600.0, 2)
        groups = {group.title.split(",")[0]: group for group in view.groups}
        solid = {tag: profile_of(groups[tag]) for tag in ("S1 right stile", "S1 floating stile", "S2 left stile")}
        stile = solid["S1 floating stile"]
        assert stile.centroid.x == pytest.approx(600)
        for tag in ("S1 right stile", "S2 left stile"):
            assert stile.distance(solid[tag]) >= 2 - 1e-6
        assert solid["S1 right stile"].distance(solid["S2 left stile"]) == pytest.approx(6)


def profile_of(group):
    """The outline of a member without its beads and gaskets: the first, largest closed line of the group."""
    made = [Polygon([(c.x, c.y) for c in item.corners]) for item in group.items if isinstance(item, Stroke) and item.closed]
    return max(made, key=lambda shape: shape.area)


def test_opening_in_the_stile_and_the_frame_hide_the_edges_of_a_pair():
    made = window("light: side-hung-pair, swing: in", "flush-70", 1200, 1300)
    view = elevation(made, 10)
    hidden = [line for line in strokes(view, Layer.SASH) if line.line == "dashed"]
    assert [box_of(line) for line in hidden] == [(43, 43, 597, 1257), (603, 43, 1157, 1257)]
    stile = [line for line in strokes(view, Layer.SASH) if box_of(line) == (600 - 28, 68, 600 + 28, 1300 - 68)]
    assert len(stile) == 1


def test_both_panes_of_a_pair_are_on_layer_glass_and_named():
    made = window("light: side-hung-pair", "flush-70", 1200, 1300)
    view = elevation(made, 10)
    assert [box_of(line) for line in strokes(view, Layer.GLASS)] == [tuple(pane.cut.outline.bounds) for pane in made.panes]
    said = [item.text for group in view.groups for item in group.items if isinstance(item, Label)]
    assert "G1 432 × 1092" in said
    assert "G2 432 × 1092" in said
    assert [row[2:] for row in lights_rows(made)] == [("554 × 1214", "G1 432 × 1092"), ("554 × 1214", "G2 432 × 1092")]
    assert [row[1] for row in lights_rows(made)][1:] == ["right sash"]


def test_a_section_through_a_pair_measures_what_stands_between_the_panes():
    view = section(window("light: side-hung-pair", "flush-70", 1200, 1300), 1, 600.0, 10)
    measured = {round(item.end.x - item.start.x, 3) for group in view.groups for item in group.items if isinstance(item, Dimension) and not item.upright}
    assert measured == {43 + 76, 76 + 6 + 76}


def depths(view, tag, axis):
    """From where to where in depth (v) the profile of a sash member lies."""
    group = next(group for group in view.groups if group.title.split(",")[0] == tag)
    shape = profile_of(group).bounds
    return (shape[0], shape[2]) if axis == 0 else (shape[1], shape[3])


def test_sliding_sashes_lie_in_two_planes():
    """slider-112: a sash from 8 to 52 in depth, the inner one 52 further in."""
    view = section(window("light: sliding", "slider-112", 1600, 1200), 1, 600.0, 5)
    assert depths(view, "S1 right stile", 1) == (8, 52)
    assert depths(view, "S2 left stile", 1) == (8 + 52, 52 + 52)
    view = section(window("light: sliding, leads: left", "slider-112", 1600, 1200), 1, 600.0, 5)
    assert depths(view, "S1 right stile", 1) == (60, 104)
    assert depths(view, "S2 left stile", 1) == (8, 52)


def test_meeting_rails_of_a_sash_window_lie_behind_each_other_the_upper_outside():
    view = section(window("light: vertical-sliding", "slider-112", 900, 1600), 0, 300.0, 5)
    assert depths(view, "S1 bottom rail", 0) == (8, 52)
    assert depths(view, "S2 top rail", 0) == (60, 104)
    rails = [profile_of(next(g for g in view.groups if g.title.split(",")[0] == tag)).bounds for tag in ("S1 bottom rail", "S2 top rail")]
    assert rails[0][1] == rails[1][1] == 800 - 35
    assert rails[0][3] == rails[1][3] == 800 + 35


def test_the_glass_of_each_sash_lies_in_its_plane():
    """Outer faces at 16 and at 16 + 52; 4/20/4."""
    view = section(window("light: sliding", "slider-112", 1600, 1200), 1, 600.0, 5)
    found = {}
    for group in view.groups:
        if group.title.startswith(("G1", "G2")):
            found[group.title[:2]] = min(c.y for item in group.items if isinstance(item, Stroke) for c in item.corners)
    assert found == {"G1": 16, "G2": 68}


def test_the_section_of_one_sash_shows_it_in_its_own_track():
    made = window("light: sliding", "slider-112", 1600, 1200)
    assert depths(section(made, 0, 400.0, 5), "S1 top rail", 0) == (8, 52)
    assert depths(section(made, 0, 1200.0, 5), "S2 top rail", 0) == (60, 104)


def test_arrows_point_the_way_that_a_sash_slides():
    view = elevation(window("light: sliding", "slider-112", 1600, 1200), 10)
    ways = [line.corners[1].x - line.corners[0].x for line in strokes(view, Layer.OPENING)]
    assert ways[0] > 0 > ways[1]
    assert len(strokes(elevation(window("light: sliding, leads: right", "slider-112"), 10), Layer.OPENING)) == 1
    upright = elevation(window("light: vertical-sliding, leads: bottom", "slider-112"), 10)
    (line,) = strokes(upright, Layer.OPENING)
    assert line.corners[1].y > line.corners[0].y
    assert line.corners[1].x == line.corners[0].x


def test_only_the_outer_sash_shows_its_meeting_edge():
    """slider-112: walls of the track to 40; the left sash ends at (1600 - 48 + 70) / 2 + 24 = 835."""
    view = elevation(window("light: sliding", "slider-112", 1600, 1200), 10)
    whole = [line for line in strokes(view, Layer.SASH) if line.line is None and len(line.corners) == 2 and line.weight == 0.35]
    assert [box_of(line) for line in whole] == [(835, 40, 835, 1160)]
    hidden = [box_of(line) for line in strokes(view, Layer.SASH) if line.line == "dashed"]
    assert hidden == [(24, 24, 835, 1176), (765, 24, 1576, 1176)]


def test_the_mitres_of_a_sliding_sash_are_seen_at_45_degrees():
    view = elevation(window("light: vertical-sliding", "slider-112"), 10)
    lines = [line.corners for line in strokes(view, Layer.SASH) if len(line.corners) == 2 and line.weight == 0.18]
    assert len(lines) == 6   # two of the lower sash lie behind the upper one
    assert all(abs(abs(a.x - b.x) - abs(a.y - b.y)) < 1e-9 for a, b in lines)


def test_the_key_names_what_the_sheet_shows():
    for text, system, word in (("light: sliding", "slider-112", "slides this way"), ("light: horizontal-pivot", "pivot-68", "axis that it turns about")):
        made = window(text, system)
        said = [item.text for item in column(made, 100.0, 240.0, apex_at_hinge=True).lower.items if isinstance(item, Label)]
        assert word in said
    plain = column(window("light: top-hung", "flush-70"), 100.0, 240.0, apex_at_hinge=True).lower.items
    assert not [item for item in plain if isinstance(item, Label) and item.text in ("slides this way", "axis that it turns about")]


PLAIN = OWN + """\
pair: {gap: 6, sight: 25}
pivot: {gap: 3, thickness: 50, cover: 8}
sliding: {lap: 70, step: 34}
"""


@pytest.mark.parametrize(("kind", "planes"), [
    ("side-hung-pair", [(0, 70), (0, 70)]), ("horizontal-pivot", [(0, 70)]), ("vertical-pivot", [(0, 70)]), ("sliding", [(0, 34), (34, 68)]),
])
def test_a_system_without_outlines_shows_boxes_in_the_right_planes(tmp_path, kind, planes):
    own = tmp_path / "own.yaml"
    own.write_text(PLAIN)
    view = section(window(f"light: {kind}", str(own), 1300, 1200), 1, 500.0, 5)
    found = {}
    for group in view.groups:
        if group.title.endswith("stile, sash"):
            found[group.title[:2]] = box_of(next(item for item in group.items if isinstance(item, Stroke)))[1::2]
    assert [found[tag] for tag in sorted(found)] == planes
    said = " ".join(item.text for group in view.groups for item in group.items if isinstance(item, Label))
    assert "Outline not given" in said


@pytest.mark.parametrize("spec", ["glazing-bars", "openings-pivot", "openings-pair", "openings-sliding"])
def test_the_dxf_of_each_demonstration_read_back_has_its_panes_at_their_sizes(spec):
    """Read by ezdxf, which audits it: one closed polyline on GLASS a pane, as large as the schedule says."""
    loaded = pipeline.read(str(SPECS / f"{spec}.yaml"))
    for made in pipeline.windows(loaded):
        data = FORMATS["dxf"].write(factory_sheets(made, loaded.job, ("model",))["model"])
        document = ezdxf.read(io.StringIO(data.decode()))
        assert not document.audit().errors
        found = [bounding_box.extents([e]) for e in document.modelspace().query("LWPOLYLINE[layer=='GLASS']")]
        sizes = sorted((round(box.size.x, 3), round(box.size.y, 3)) for box in found)
        assert sizes == sorted((round(p.cut.outline.bounds.width, 3), round(p.cut.outline.bounds.height, 3)) for p in made.panes)
        bars = document.modelspace().query("LWPOLYLINE[layer=='GLAZING-BAR']")
        assert len(bars) >= sum(len(pane.bars) for pane in made.panes)
        assert len(document.modelspace().query("*[layer=='OPENING']")) >= sum(not sash.dummy for sash in made.sashes)


def test_the_second_sash_of_a_vertical_slider_is_named_by_its_place():
    made = window_of("frame: {width: 900, height: 1600}\nlights: [{light: vertical-sliding}]", system="slider-112")
    assert [row[:2] for row in lights_rows(made)] == [("1", "vertical sliding, both sashes slide"), ("", "bottom sash")]
