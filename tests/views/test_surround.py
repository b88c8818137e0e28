"""What stands round the frame in the factory's sections: sill and add-ons always, the wall where there is room for it."""

from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.drawing.entities import Dimension, Fill, Label, Stroke
from elevations.drawing.explode import measured
from elevations.drawing.extent import text_boxes
from elevations.drawing.layers import Layer
from elevations.sheets.factory import factory_sheets
from elevations.views.cuts import choose_cuts
from elevations.views.hatch import MATERIALS
from elevations.views.section import section
from elevations.views.surround import Context, context_of
from tests.jobs import window_of

SPECS = Path(__file__).parents[2] / "specs"
LOADED = pipeline.read(str(SPECS / "fit-walls.yaml"))
WINDOWS = {window.mark: window for window in pipeline.windows(LOADED)}
EVERY = [(mark, axis, context) for mark in WINDOWS for axis in (0, 1) for context in Context]
SILLED = "frame: {width: 1000, height: 900}\nsill: {projection: 140, height: 30}\nfit: {add_ons: {sill: 20, head: 40, left: 25}}\nlights: [{light: fixed}]\n"


def drawn(window, axis, context, scale=5.0):
    cuts = choose_cuts(window)
    return section(window, axis, cuts.level_y if axis else cuts.upright_x, scale, 90.0, context)


def items(view, kind, layer=None):
    return [item for group in view.groups for item in group.items if isinstance(item, kind) and (layer is None or item.layer is layer)]


def sizes(view, *, upright):
    return sorted(round(abs(measured(dim)), 1) for dim in items(view, Dimension) if dim.upright == upright)


@pytest.mark.parametrize(("mark", "axis", "context"), EVERY)
@pytest.mark.parametrize("scale", [2.0, 5.0, 10.0])
def test_texts_do_not_meet_each_other(mark, axis, context, scale):
    view = drawn(WINDOWS[mark], axis, context, scale)
    boxes = text_boxes((item for group in view.groups for item in group.items), scale)
    assert [(a, b) for (a, x), (b, y) in combinations(boxes, 2) if x.overlaps(y)] == []


def test_sill_and_add_ons_are_drawn_and_dimensioned_without_a_wall():
    """Sill 30 under an add-on of 20, projecting 140; add-on 40 over the head and 25 on the left."""
    window = window_of(SILLED)
    assert context_of(window) is Context.ORDERED
    upright, level = (drawn(window, axis, Context.ORDERED) for axis in (0, 1))
    assert len(items(upright, Stroke, Layer.SILL)) == 1
    assert {20.0, 30.0, 40.0} <= set(sizes(upright, upright=True))
    spans = [sorted((dim.start.y, dim.end.y)) for dim in items(upright, Dimension) if dim.upright]
    assert [-20, 0] in spans      # the add-on under the frame, whose bottom is 0
    assert [-50, -20] in spans    # the sill under that
    top = max(high for _, high in spans)
    assert [top - 40, top] in spans
    assert 140.0 in sizes(upright, upright=False)
    assert 25.0 in sizes(level, upright=False)
    assert items(level, Stroke, Layer.SILL) == []
    words = {item.text for item in items(upright, Label)}
    assert {"sill", "add-on"} <= words
    assert items(upright, Stroke, Layer.WALL) != []   # an add-on's edge
    assert not any("wall" in text for text in words)


@pytest.mark.parametrize(("mark", "clear"), [("W1", 29), ("W2", 44), ("W3", -6)])
@pytest.mark.parametrize("context", [Context.ORDERED, Context.WALL])
def test_the_drips_distance_from_the_walls_face_is_dimensioned(mark, clear, context):
    """Projection less the frame's place in the wall less the groove: 100 - 65 - 6, 150 - 100 - 6, 60 - 60 - 6."""
    window = WINDOWS[mark]
    view = drawn(window, 0, context)
    face, drip = -window.site.wall.frame_at, -window.site.sill.projection + window.site.sill.drip
    assert face - drip == clear
    spans = [sorted((dim.start.x, dim.end.x)) for dim in items(view, Dimension) if not dim.upright]
    assert sorted((face, drip)) in spans
    assert any(text.startswith(f"Drip {abs(clear)} ") for text in (item.text for item in items(view, Label)))


def test_a_front_edge_behind_the_walls_face_makes_way_for_the_drips_distance():
    """Frame at 60, projection 30 with the drip 6 back: face -60, front -30, drip -24. Before the face it is a mark of its own."""
    text = "frame: {width: 1000, height: 900}\nsill: {projection: OUT}\nwall: {material: brick, thickness: 215, frame_at: 60}\nlights: [{light: fixed}]\n"
    for out, marks in (("30", [-60, -24, 0]), ("100", [-100, -94, -60, 0])):
        view = drawn(window_of(text.replace("OUT", out)), 0, Context.ORDERED)
        spans = [sorted((dim.start.x, dim.end.x)) for dim in items(view, Dimension) if not dim.upright]
        assert spans[1:] == [list(pair) for pair in pairwise(marks)]   # the first is the frame's depth


@pytest.mark.parametrize("mark", WINDOWS)
def test_every_hatched_material_is_named_under_its_section(mark):
    for axis in (0, 1):
        view = drawn(WINDOWS[mark], axis, Context.WALL)
        tones = {item.tone for item in items(view, Fill)}
        named = {item.text for item in items(view, Label)} & set(MATERIALS)
        assert WINDOWS[mark].site.wall.material in named
        assert {MATERIALS[name].tone for name in named} <= tones
        assert {tone for tone in tones if tone in {m.tone for m in MATERIALS.values()} - {MATERIALS["sill"].tone}} <= {MATERIALS[n].tone for n in named}


def test_a_window_that_says_nothing_of_its_place_keeps_its_plain_sections():
    window = window_of("frame: {width: 1000, height: 900}\nlights: [{light: fixed}]\n")
    assert context_of(window) is Context.NONE
    for axis in (0, 1):
        assert drawn(window, axis, Context.NONE) == drawn(window, axis, Context.WALL)


@pytest.mark.parametrize("job", ["fit-walls", "fit-clash", "fit-opening"])
def test_the_wall_costs_the_elevation_nothing_of_its_scale(job):
    """With its wall left out of the job, but not its opening and sill, the elevation is no larger."""
    loaded = pipeline.read(str(SPECS / f"{job}.yaml"))
    for window in pipeline.windows(loaded):
        if window.site is None or window.site.wall is None:
            continue
        bare = replace(window, site=replace(window.site, wall=None))
        for style in ("paper", "model"):
            assert factory_sheets(window, loaded.job)[style].scale == factory_sheets(bare, loaded.job)[style].scale, window.mark


def test_where_the_wall_has_no_room_the_sheet_says_where_it_is_drawn():
    wall = "wall: {material: stone, thickness: 900, frame_at: 300}\n"
    window = window_of("frame: {width: 2400, height: 2200}\nsill: {projection: 380}\n" + wall + "mullions: equal-glass\nlights: [{light: fixed}, {light: fixed}]\n")
    sheet = factory_sheets(window, LOADED.job)["paper"]
    words = [item.text for place in sheet.placed for group in place.view.groups for item in group.items if isinstance(item, Label)]
    assert any("No room for the wall" in text for text in words)
    assert "stone" not in words
    assert any(isinstance(item, Stroke) and item.layer is Layer.SILL for place in sheet.placed for group in place.view.groups for item in group.items)


def test_a_lintel_that_is_drawn_as_assumed_says_so():
    """W3's job gives no lintel: concrete over a solid wall, common practice, no source."""
    for mark, said in (("W1", False), ("W3", True)):
        words = [item.text for item in items(drawn(WINDOWS[mark], 0, Context.WALL), Label)]
        assert ("Lintel taken as concrete: not given" in words) == said
