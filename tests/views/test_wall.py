"""The wall in the sections: its parts add up, nothing of it lies in the frame, the key names what is drawn."""

from itertools import combinations
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.catalogue.weeps import Weeps
from elevations.drawing.entities import Fill, Label, Stroke
from elevations.drawing.extent import bounds_of, text_boxes
from elevations.drawing.layers import Layer
from elevations.geometry.fit_fixing import holds
from elevations.geometry.leaves import layers
from elevations.geometry.sill import cut_length, drip_clear, weeps
from elevations.plane import Box
from elevations.views.cut_run import run_along
from elevations.views.hatch import MATERIALS, lines_in
from elevations.views.sill import sill_profile
from elevations.views.wall import End, drawn, fixing_items, joint, masonry
from elevations.views.wall_section import material_key, wall_section
from tests.jobs import window_of

SPECS = Path(__file__).parents[2] / "specs"
LOADED = pipeline.read(str(SPECS / "fit-walls.yaml"))
WINDOWS = {window.mark: window for window in pipeline.windows(LOADED)}
EVERY = [(mark, axis) for mark in WINDOWS for axis in (0, 1)]


def ends_of(window, axis):
    at = window.width.value / 4 if axis == 0 else window.height.value / 2
    run = run_along(window, axis, at, 100.0)
    held = holds(window)
    sides = (("sill", -1.0), ("head", 1.0)) if axis == 0 else (("left jamb", -1.0), ("right jamb", 1.0))
    return [End(run, window.site, window.site.wall, side, sign, held.get(side)) for side, sign in sides]


@pytest.mark.parametrize("mark", WINDOWS)
def test_the_layers_fill_the_wall_but_for_its_cavity(mark):
    wall = WINDOWS[mark].site.wall
    found = layers(wall)
    assert sum(b - a for _, a, b in found) == pytest.approx(wall.whole - wall.cavity)
    assert found[0][1] == -wall.frame_at


@pytest.mark.parametrize(("mark", "axis"), EVERY)
def test_masonry_keeps_out_of_the_frame_and_of_itself(mark, axis):
    window = WINDOWS[mark]
    for end in ends_of(window, axis):
        frame = end.box(0.0, window.system.depth, -1000.0, 0.0)
        boxes = [(name, box) for name, box in masonry(end) if name not in ("plaster", "window board")]
        assert [name for name, box in boxes if box.overlaps(frame)] == []
        assert [(a, b) for (a, x), (b, y) in combinations(boxes, 2) if x.overlaps(y)] == []


@pytest.mark.parametrize(("mark", "axis"), EVERY)
def test_the_joint_fills_the_gap_that_was_worked_out(mark, axis):
    for end in ends_of(WINDOWS[mark], axis):
        thick = {round(min(box.width, box.height) if name == "foam" else 0, 1) for name, box in joint(end)} - {0}
        assert thick <= {round(end.gap, 1)}
        assert {"sealant", "backer", "foam", "packer"} == {name for name, _ in joint(end)}


def test_a_check_laps_the_frame_at_jambs_and_head_only():
    window = WINDOWS["W2"]
    for end in (*ends_of(window, 0), *ends_of(window, 1)):
        lapped = [box for name, box in masonry(end) if name == "stone" and box.overlaps(end.box(-100.0, 0.0, -25.0, 0.0))]
        assert bool(lapped) == (end.side != "sill")


def fixing_strokes(end):
    items, _ = drawn(end, 5.0)
    return [bounds_of(item, 5.0) for item in items if isinstance(item, Stroke) and item.layer is Layer.FIXING]


def test_a_screw_ends_at_its_embedment_and_nothing_is_drawn_where_nothing_holds():
    drawn_at_all = 0
    for window in WINDOWS.values():
        for end in (*ends_of(window, 0), *ends_of(window, 1)):
            strokes = fixing_strokes(end)
            if end.hold.landing.at is None:
                assert strokes == []
                continue
            drawn_at_all += 1
            reach = max(max(end.sign * (box.right if end.run.axis else box.top), end.sign * (box.left if end.run.axis else box.bottom))
                        for box in strokes) - end.sign * end.edge
            assert reach == pytest.approx(end.start + end.hold.embedment)
    assert drawn_at_all == 4 * len(WINDOWS) - 1   # W2's lintel may not be drilled


@pytest.mark.parametrize("mark", WINDOWS)
def test_every_screw_is_drawn_into_a_leaf_and_out_of_cavity_and_closer(mark):
    """Measured on the drawing: the end of what is drawn of a fixing lies in masonry, 25 from its edges (steel: 10); common practice, no source."""
    for axis in (0, 1):
        for end in ends_of(WINDOWS[mark], axis):
            strokes = fixing_strokes(end)
            if not strokes:
                continue
            tip = max(strokes, key=lambda box: end.sign * (box.right + box.left if axis else box.top + box.bottom))
            deep = tip.centre.y if axis else tip.centre.x
            solid = {name: box for name, box in masonry(end) if name not in ("plaster", "render", "window board", "cavity closer") and box.overlaps(tip)}
            assert solid, (mark, end.side)
            for name, box in solid.items():
                low, high = (box.bottom, box.top) if axis else (box.left, box.right)
                least = 10 if name == "steel" or end.hold.into == "steel" else 25
                assert low + least - 1e-6 <= deep <= high - least + 1e-6


@pytest.mark.parametrize(("mark", "axis"), EVERY)
def test_texts_of_a_section_do_not_meet(mark, axis):
    view = wall_section(WINDOWS[mark], axis, 5.0).view
    boxes = text_boxes((item for group in view.groups for item in group.items), 5.0)
    assert [(a, b) for (a, x), (b, y) in combinations(boxes, 2) if x.overlaps(y)] == []


@pytest.mark.parametrize("mark", WINDOWS)
def test_the_key_names_every_material_that_is_drawn(mark):
    made = [wall_section(WINDOWS[mark], axis, 5.0) for axis in (0, 1)]
    names = tuple(dict.fromkeys(name for section in made for name in section.materials))
    tones = {item.tone for section in made for group in section.view.groups for item in group.items if isinstance(item, Fill)}
    key = material_key(names, 3, 150.0, 5.0)
    shown = {item.text for group in key.groups for item in group.items if isinstance(item, Label)}
    assert set(names) | {"Materials"} == shown
    assert {MATERIALS[name].tone for name in names} <= tones


def test_the_drip_stands_clear_by_projection_less_reveal_and_groove():
    """A sill's front edge at least 25 before the building's face: a timber window survey manual, read second hand."""
    site = WINDOWS["W3"].site
    assert drip_clear(site) == 60 - 60 - 6
    assert any(f.code == "drip-close" and "at least 91" in f.hint for f in WINDOWS["W3"].findings)   # 60 + 25 + 6
    assert not any(f.code == "drip-close" for f in WINDOWS["W1"].findings)
    text = "frame: {width: 1000, height: 900}\nwall: {material: brick, thickness: 215, frame_at: 90}\nlights: [{light: fixed}]\nsill: "
    found = {least: [f.code for f in window_of(text + f"{{projection: 115, drip_clear: {least}}}").findings] for least in (15, 25)}
    assert [least for least, codes in found.items() if "drip-close" in codes] == [25]   # 115 - 90 - 6 = 19


def test_a_sill_is_cut_for_frame_add_ons_and_horns():
    window = window_of("frame: {width: 1000, height: 900}\nsill: {projection: 90, horns: 40}\nfit: {add_ons: {left: 20}}\nlights: [{light: fixed}]")
    assert cut_length(window) == 1000 + 20 + 2 * 40


@pytest.mark.parametrize(("length", "places"), [(250, (125,)), (900, (150, 750)), (1300, (150, 650, 1150))])
def test_weeps_start_near_the_ends_and_are_evenly_spaced(length, places):
    assert weeps(length, Weeps()) == pytest.approx(places)


def test_the_sills_profile_spans_from_its_front_to_the_frames_inner_face():
    sill = WINDOWS["W1"].site.sill
    corners = sill_profile(sill, 70.0, 0.0)
    assert (min(v for v, _ in corners), max(v for v, _ in corners)) == (-100, 70)
    assert min(t for v, t in corners if v >= 0) == -sill.height


def test_hatching_stays_in_its_box():
    box = Box(10, 20, 45, 33)
    for angle in (0, 20, 45, 90, 135):
        lines = list(lines_in(box, angle, 3.0, 0.7))
        assert len(lines) >= 4
        assert all(box.grown(1e-6).left <= x <= box.grown(1e-6).right and box.grown(1e-6).bottom <= y <= box.grown(1e-6).top
                   for line in lines for x, y in line)


def test_a_screw_into_a_cavity_is_told():
    wall = "wall: {material: brick, thickness: 103, cavity: 100, inner: 100, frame_at: 90}\n"
    window = window_of("frame: {width: 1000, height: 900}\n" + wall + "lights: [{light: fixed}]")
    found = next(f for f in window.findings if f.code == "fixing-in-cavity")
    assert "at most 43 or 193 to 243 from the face" in found.hint   # 103 - 25 - 70 / 2; 203 + 25 - 35; 303 - 25 - 35
    assert "reach: 68" in found.hint   # 203 + 25 - 90 - 70


def test_a_strap_on_the_frames_back_keeps_clear_of_the_packer():
    """W1: straps at jambs and head; the packer is in the middle of the frame's depth, 24 wide."""
    for end in (*ends_of(WINDOWS["W1"], 1), ends_of(WINDOWS["W1"], 0)[1]):
        packer = next(box for name, box in joint(end) if name == "packer")
        fills = [item for item in fixing_items(end) if isinstance(item, Fill)]
        assert fills
        assert not any(item.outline.bounds.overlaps(packer) for item in fills)
