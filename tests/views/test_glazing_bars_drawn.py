"""Glazing bars in the elevation, in both sections, in the schedules and in the DXF that is read back."""

import io

import ezdxf
import pytest

from elevations.drawing.entities import Fill, Stroke
from elevations.drawing.layers import Layer
from elevations.export import FORMATS
from elevations.schedules.explain import explain
from elevations.schedules.glass import GLASS, glass_rows
from elevations.schedules.glass_order import order_rows
from elevations.schedules.glazing_bars import glazing_bar_rows, totals
from elevations.sheets.factory import factory_sheet
from elevations.spec.load import parse_job
from elevations.views.cuts import choose_cuts
from elevations.views.elevation import elevation
from elevations.views.section import section
from tests.jobs import HEAD, window_of

TWO = """
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights:
      - {light: side-hung, hinge: left, bars: {columns: 2, rows: 3}}
      - {light: fixed, bars: {columns: 2, rows: 3, kind: in-unit}}
"""


def strokes(view, layer):
    return [item for group in view.groups for item in group.items if isinstance(item, Stroke) and item.layer is layer]


def boxes(view, layer=Layer.GLAZING_BAR):
    points = [[(c.x, c.y) for c in stroke.corners] for stroke in strokes(view, layer)]
    return sorted((min(x for x, _ in p), min(y for _, y in p), max(x for x, _ in p), max(y for _, y in p)) for p in points)


def test_every_bar_is_drawn_once_in_the_elevation_where_the_geometry_has_it():
    window = window_of(TWO)
    bars = [bar for pane in window.panes for bar in pane.bars]
    drawn = strokes(elevation(window, 10), Layer.GLAZING_BAR)
    assert [stroke.corners for stroke in drawn] == [bar.face.corners for bar in bars]
    assert len(drawn) == 10


def test_only_bars_on_the_face_hide_the_tone_of_the_glass():
    items = [item for group in elevation(window_of(TWO), 10).groups for item in group.items]
    whites = [item for item in items if isinstance(item, Fill) and item.tone == "#ffffff"]
    assert len(whites) == 5


def test_layer_glass_still_holds_the_cut_outlines_alone():
    assert len(strokes(elevation(window_of(TWO), 10), Layer.GLASS)) == 2


def test_a_bar_on_the_faces_stands_out_on_both_sides_in_the_section():
    """flush-70: glass of a sash from 11 to 39 in depth; bars 12 deep and 24 wide, the first at 385.667 from the top."""
    window = window_of(TWO)
    found = boxes(section(window, 0, 200.0, 10))
    top = 1050 - (119 + (812 - 48) / 3)
    assert [pytest.approx(box) for box in ((11 - 12, top - 24, 11, top), (39, top - 24, 39 + 12, top))] == [
        box for box in found if box[3] > 525]
    assert len(found) == 4


def test_a_bar_in_the_unit_lies_in_the_middle_of_its_cavity():
    """flush-70: glass in the frame from 24; 4/20/4, so the cavity is 28 to 48 and a bar 10 deep lies from 33 to 43."""
    found = boxes(section(window_of(TWO), 1, 200.0, 10))
    assert [box for box in found if box[0] > 600] == [(886 - 9, 33, 886 + 9, 43)]


def test_shortened_glass_keeps_every_bar_at_its_width_and_apart():
    window = window_of(TWO)
    view = section(window, 0, 200.0, 2, 36.0)
    heights = sorted({(low, high) for _, low, _, high in boxes(view)})
    assert [high - low for low, high in heights] == [pytest.approx(24)] * 2
    assert heights[0][1] < heights[1][0]
    assert view.bounds.height < section(window, 0, 200.0, 2).bounds.height - 500


def test_cuts_keep_off_the_bars_that_run_along_them():
    window = window_of(TWO)
    cuts = choose_cuts(window)
    for bar in (bar for pane in window.panes for bar in pane.bars):
        box = bar.face.bounds
        assert not (bar.upright and box.left - 1 < cuts.upright_x < box.right + 1)
        assert bar.upright or not box.bottom - 1 < cuts.level_y < box.top + 1


def test_the_schedule_has_every_length_and_the_glass_its_small_panes():
    window = window_of(TWO)
    rows = list(glazing_bar_rows(window))
    assert [(r.tag, r.runs, r.centre_mm, r.length_mm, r.quantity) for r in rows[:2]] == [
        ("W1-B1", "upright", 314, 812, 2), ("W1-B2", "level", 385.7, 183, 2)]
    assert (390 - 24) / 2 == 183
    assert totals(rows) == [
        f"on-face: 10 lengths, {2 * (812 + 4 * 183) / 1000:.2f} m visible", f"in-unit: 5 lengths, {(918 + 4 * 239) / 1000:.2f} m visible"]
    glass = list(glass_rows(window))
    assert glass[0].small_panes == ("183 × 254.7",) * 6
    assert glass[1].glazing_bars == "in the unit, 18 wide; 6 small panes, each 239 × 294 visible"
    assert "glazing bars in the unit" in glass[1].notes
    assert "small_panes" in [column.key for column in GLASS.columns]


def test_whoever_makes_the_unit_is_told_where_its_bars_go_from_its_own_edges():
    """Glass 526 x 948 from 51 to 577 of the right-hand light, whose sight line is 38 from the mullion's centre line."""
    order = next(row for row in order_rows(window_of(TWO)) if row.width_mm == 526)
    left = 600 + 18 + 5
    assert order.special == f"glazing bars in the unit, 18 wide; upright {886 - left} from its left; level {369 - 51}, {681 - 51} from its top"
    assert 886 - left == 526 / 2


def test_units_with_other_bars_are_not_ordered_as_one():
    window = window_of(TWO.replace("light: side-hung, hinge: left, bars: {columns: 2, rows: 3}", "light: fixed"))
    assert sorted(row.quantity for row in order_rows(window)) == [1, 1]


def test_the_place_of_a_bar_can_be_explained():
    made = explain(window_of(TWO), "glazing-bar", "B1")
    assert [(size.name.split(",")[0], size.shown) for size in made.sizes] == [("centre line", 314), ("visible length", 812)]


def test_the_dxf_read_back_has_each_bar_as_a_closed_polyline_on_its_layer():
    """Read by ezdxf, the library that other readers are compared with; arcs are bulges."""
    block = TWO.replace("frame: {width: 1200, height: 1050}", "frame: {width: 1200, height: 1400}\n    head: {arched: {rise: 300}}")
    block = block.replace("side-hung, hinge: left, bars: {columns: 2, rows: 3}", "fixed, bars: {border: 80}")
    window = window_of(block)
    job = parse_job(HEAD.replace("SYSTEM", "flush-70") + "  - {mark: W1, frame: {width: 900, height: 900}, lights: [{light: fixed}]}", "job.yaml").job
    data = FORMATS["dxf"].write(factory_sheet(window, job, "model"))
    document = ezdxf.read(io.StringIO(data.decode() if isinstance(data, bytes) else data))
    found = [e for e in document.modelspace() if e.dxf.layer == "GLAZING-BAR" and e.dxftype() == "LWPOLYLINE"]
    bars = [bar for pane in window.panes for bar in pane.bars]
    assert len(found) >= len(bars)
    assert all(e.closed for e in found)
    assert any(abs(bulge) > 0.01 for e in found for *_, bulge in e.get_points())
    assert not document.audit().errors
