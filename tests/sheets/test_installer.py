"""The installer's sheet: everything on the paper, no text on another, every fixing with its distance."""

from itertools import combinations, pairwise
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.drawing.entities import Label, Stroke
from elevations.drawing.extent import bounds_of_all, text_boxes
from elevations.drawing.layers import Layer
from elevations.geometry.setting_blocks import setting_blocks
from elevations.geometry.tightening import tightening_order
from elevations.plane import Box, Outline
from elevations.sheets.fit import fit_sheet
from elevations.sheets.installer import a3_sheets
from elevations.sheets.installer_a4 import installer_sheets
from elevations.spec.load import parse_job
from elevations.views.light_note import crosses
from elevations.views.marking_out import marking_out
from tests.jobs import window_of

SPECS = Path(__file__).parents[2] / "specs"


def loaded_windows(name):
    loaded = pipeline.read(str(SPECS / name))
    return [(loaded.job, window) for window in pipeline.windows(loaded)]


EVERY = [pytest.param(job, window, id=f"{name}-{window.mark}")
         for name in ("fit-opening.yaml", "fit-walls.yaml", "quillback-lock-cottage.yaml") for job, window in loaded_windows(name)]


def on_paper(sheet):
    """Every text of a sheet with its box, mm on paper."""
    found = text_boxes((item for group in sheet.groups for item in group.items), 1.0)
    for placed in sheet.placed:
        boxes = text_boxes((item for group in placed.view.groups for item in group.items), placed.scale)
        found += [(text, Box(*(c / placed.scale + placed.at[i % 2] for i, c in enumerate(box)))) for text, box in boxes]
    return found


@pytest.mark.parametrize(("job", "window"), EVERY)
@pytest.mark.parametrize("style", ["paper", "model"])
def test_all_of_it_is_on_the_paper_and_no_text_on_another(job, window, style):
    for sheet in a3_sheets(window, job, style):
        texts = on_paper(sheet)
        paper = Box(0, 0, sheet.width, sheet.height).grown(-9.0)
        assert [text for text, box in texts if not (paper.left <= box.left and box.right <= paper.right and paper.bottom <= box.bottom and box.top <= paper.top)] == []
        assert [(a, b) for (a, x), (b, y) in combinations(texts, 2) if x.grown(-0.2).overlaps(y.grown(-0.2))] == []
        if style == "model":
            assert {placed.scale for placed in sheet.placed} <= {sheet.scale}


@pytest.mark.parametrize(("job", "window"), EVERY)
def test_views_do_not_lie_on_each_other(job, window):
    sheet = a3_sheets(window, job)[0]
    boxes = [Box(*(c / placed.scale + placed.at[i % 2] for i, c in enumerate(placed.view.bounds))) for placed in sheet.placed]
    assert not any(a.overlaps(b) for a, b in combinations(boxes, 2))


def test_each_fixing_is_given_from_its_corner_and_has_a_number():
    window = window_of("frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]")
    items = [item for group in marking_out(window, 10.0).groups for item in group.items]
    texts = [item.text for item in items if isinstance(item, Label)]
    for point in window.fixings:
        assert f"{point.along.value:g}" in texts
    assert {str(n) for n in range(1, len(window.fixings) + 1)} <= set(texts)
    assert texts.count("0") == 4


def test_opposite_corners_are_tightened_first_and_what_lies_between_last():
    """Common practice, no source."""
    window = window_of("frame: {width: 1200, height: 1500}\nlights: [{light: fixed}]")
    order = tightening_order(window)
    assert sorted(p.tag for p in order) == sorted(p.tag for p in window.fixings)
    assert [(p.side, p.along.value) for p in order[:4]] == [("left jamb", 1350), ("right jamb", 150), ("left jamb", 150), ("right jamb", 1350)]
    kinds = [p.kind for p in order]
    assert kinds == sorted(kinds, key=lambda kind: kind == "intermediate")


def carrying(lights):
    window = window_of(f"frame: {{width: 1200, height: 1000}}\nlights: [{lights}]")
    box = window.panes[0].cut.outline.bounds
    return {(b.edge, "left" if b.at.x < box.centre.x else "right") for b in setting_blocks(window) if b.carries}


@pytest.mark.parametrize(("light", "expected"), [
    # Side-hung: bottom at the hinge, top at the lock: a trade guide, read second hand.
    ("{light: side-hung, hinge: left}", {("bottom", "left"), ("top", "right")}),
    ("{light: side-hung, hinge: right}", {("bottom", "right"), ("top", "left")}),
    ("{light: tilt-and-turn, hinge: left}", {("bottom", "left"), ("top", "right")}),
    # Fixed: quarter points of the bottom; top-hung: bottom near the corners (EN 12488, from memory).
    ("{light: fixed}", {("bottom", "left"), ("bottom", "right")}),
    ("{light: fixed, sash: dummy}", {("bottom", "left"), ("bottom", "right")}),
    ("{light: top-hung}", {("bottom", "left"), ("bottom", "right")}),
])
def test_glass_is_carried_where_its_opening_asks_for_it(light, expected):
    assert carrying(light) == expected


def test_blocks_of_fixed_glass_stand_at_the_quarter_points():
    window = window_of("frame: {width: 1200, height: 1000}\nlights: [{light: fixed}]")
    box = window.panes[0].cut.outline.bounds
    places = [b.at.x for b in setting_blocks(window) if b.carries]
    assert places == pytest.approx([box.left + box.width / 4, box.right - box.width / 4])


def test_a_block_is_27_mm_a_square_metre_and_50_at_least():
    """A block maker, read second hand; the least from memory."""
    small = window_of("frame: {width: 1000, height: 900}\nlights: [{light: fixed}]")
    large = window_of("frame: {width: 2400, height: 1500}\nlights: [{light: fixed}]")
    assert {b.length for b in setting_blocks(small)} == {50}
    assert [b.length for b in setting_blocks(large)] == pytest.approx([27 * large.panes[0].area_m2] * 8)
    assert large.panes[0].area_m2 > 2


def test_heavy_units_ask_for_more_hands():
    window = window_of("frame: {width: 2400, height: 1500}\nlights: [{light: fixed}]")
    # (2400 - 102) x (1500 - 102) mm = 3.21 m2, x 20 kg/m2 = 64 kg: more than two people's 33 (UK guideline, from memory).
    job, _ = loaded_windows("fit-walls.yaml")[0]
    texts = [text for text, _ in on_paper(a3_sheets(window, job)[0])]
    assert "64" in texts
    assert "over 2" in texts
    assert "G1: more than two people, or lifting gear" in texts
    light = window_of("frame: {width: 1000, height: 900}\nlights: [{light: fixed}]")
    assert not any("lifting gear" in text for text, _ in on_paper(a3_sheets(light, job)[0]))


def test_views_have_honest_bounds():
    window = window_of("frame: {width: 1200, height: 1050}\nlights: [{light: fixed}]")
    view = marking_out(window, 10.0)
    inner = bounds_of_all((item for group in view.groups for item in group.items), 10.0)
    assert view.bounds.joined(inner) == view.bounds


A4 = "drawing: {sheet: A4}\n"


@pytest.mark.parametrize(("name", "pages", "more"), [("fit-walls.yaml", 4, {"W2"}), ("quillback-lock-cottage.yaml", 3, {"W7"})])
def test_on_a4_it_takes_several_pages_with_nothing_off_them(name, pages, more):
    """One more where what is to be settled finds no room beside gaps and sill, the check reveal; or the marking-out beside its words, the widest."""
    loaded = parse_job(A4 + (SPECS / name).read_text("utf-8"), name)
    for window in pipeline.windows(loaded):
        for style in ("paper", "model"):
            sheets = installer_sheets(window, loaded.job, style)
            assert len(sheets) == pages + (window.mark in more)
            for sheet in sheets:
                texts = on_paper(sheet)
                assert (sheet.width, sheet.height) == (297.0, 210.0)   # A4, ISO 216
                assert [text for text, box in texts if box.left < 18 or box.right > 290 or box.bottom < 8 or box.top > 203] == []
                assert [(a, b) for (a, x), (b, y) in combinations(texts, 2) if x.grown(-0.2).overlaps(y.grown(-0.2))] == []
                assert {placed.scale for placed in sheet.placed} <= {sheet.scale}


def test_a_deep_sill_does_not_cover_the_distances():
    window = window_of("frame: {width: 1200, height: 1000}\nsill: {projection: 150, height: 120}\nlights: [{light: fixed}]")
    items = [item for group in marking_out(window, 5.0).groups for item in group.items]
    low = min(box.top for text, box in text_boxes(items, 5.0) if text in ("150 b", "600 b", "1050 b"))
    assert low < -(120 + 8)


THICK = "wall: {material: stone, thickness: 900, plaster: 20, frame_at: 500}\n"
CAVITY = "wall: {material: brick, thickness: 103, cavity: 150, inner: 100, render: 20, frame_at: 30, window_board: {nosing: 60}}\n"
DEEP = "sill: {projection: 350, horns: 200, height: 120, packers: 20, upstand: 30}\n"
FIXED = "lights: [{light: fixed}]\n"
ROW = "- {transoms: equal-glass, lights: [{light: fixed}, {light: side-hung, hinge: left}, {light: top-hung}, {light: fixed}]}\n"
EXTREMES = {
    "wide": "opening: {width: 6010, height: 420}\n" + THICK + DEEP + FIXED,
    "tall": "opening: {width: 420, height: 4000}\n" + CAVITY + FIXED,
    "tiny": "opening: {width: 300, height: 300}\n" + CAVITY + FIXED,
    "grid": "opening: {width: 4000, height: 3000}\n" + CAVITY + DEEP + "mullions: equal-glass\nlights:\n" + 6 * ROW,
    "round": "circular: {diameter: 900}\n" + CAVITY + FIXED,
    "arched": "frame: {width: 1200, height: 1500}\nhead: {arched: {rise: 300}}\n" + THICK + DEEP + FIXED,
    "named at length": f"location: {'Very long room name ' * 9}\nopening: {{width: 900, height: 900}}\n" + CAVITY + FIXED,
    "packed out": "opening: {width: 1500, height: 1500}\nfit: {add_ons: {left: 200, right: 100, head: 250, sill: 80}, head_allowance: 60}\n" + CAVITY + DEEP + FIXED,
}


@pytest.mark.parametrize("name", EXTREMES)
@pytest.mark.parametrize("style", ["paper", "model"])
def test_the_largest_and_oddest_windows_keep_their_texts_apart(name, style):
    window = window_of(EXTREMES[name])
    job = loaded_windows("fit-walls.yaml")[0][0]
    a4 = job.model_copy(update={"drawing": job.drawing.model_copy(update={"sheet": "A4"})})
    sheets = [*a3_sheets(window, job, style), *installer_sheets(window, a4, style)]
    sheets += [fit_sheet(window, job, style)] if window.site.fitted else []
    for sheet in sheets:
        texts = on_paper(sheet)
        assert [text for text, box in texts if box.left < 8 or box.right > sheet.width - 6 or box.bottom < 4 or box.top > sheet.height - 5] == []
        assert [(a, b) for (a, x), (b, y) in combinations(texts, 2) if x.grown(-0.2).overlaps(y.grown(-0.2))] == []


def installers(keys, **more):
    """The texts of the front of one window's sheet."""
    job, _ = loaded_windows("fit-walls.yaml")[0]
    return [text for text, _ in on_paper(a3_sheets(window_of(keys), job.model_copy(update=more))[0])]


HANDED = "frame: {width: 1400, height: 1200}\nmullions: [700]\nlights:\n  - {light: side-hung, hinge: left, handle_height: 430, restrictor: true, escape: true}\n  - {light: top-hung}\n"


def test_the_fitter_is_told_how_each_light_opens_where_its_handle_is_and_of_its_restrictor():
    said = " ".join(installers(HANDED))
    assert "G1: side-hung, hinges left, opens out; handle right, 430 up the sash; restrictor; way of escape" in said
    assert "G2: top-hung, opens out; handle bottom" in said


def test_the_marking_out_has_the_opening_symbol_and_a_handle_at_its_height():
    window = window_of(HANDED)
    items = [item for group in marking_out(window, 10.0).groups for item in group.items]
    assert sum(isinstance(item, Stroke) and item.layer is Layer.OPENING for item in items) == 2
    first, second = (sash.outer.outline.bounds for sash in window.sashes)
    handles = [Outline(item.corners).bounds.centre for item in items if isinstance(item, Stroke) and item.layer is Layer.HARDWARE
               and sorted((round(Outline(item.corners).bounds.width), round(Outline(item.corners).bounds.height))) == [24, 110]]
    assert round(handles[0].y - first.bottom) == 430
    assert handles[0].x > first.centre.x
    assert handles[1].y < second.centre.y


def test_sections_are_marked_on_the_elevation_where_they_are_shown_and_only_there():
    walled = installers("frame: {width: 1200, height: 1000}\nwall: {material: brick, thickness: 215, frame_at: 60}\n" + FIXED)
    assert (walled.count("A"), walled.count("B")) == (2, 2)
    bare = installers("frame: {width: 1200, height: 1000}\n" + FIXED)
    assert (bare.count("A"), bare.count("B")) == (0, 0)


@pytest.mark.parametrize("scale", [5.0, 10.0, 20.0, 50.0])
def test_the_order_to_tighten_stands_in_circles_outside_the_frame_that_no_line_crosses(scale):
    window = window_of("frame: {width: 2400, height: 1500}\nmullions: equal-glass\nlights: [{light: fixed}, {light: side-hung, hinge: left}, {light: fixed}]")
    view = marking_out(window, scale)
    items = [item for group in view.groups for item in group.items]
    circles = [Outline(item.corners).bounds for item in items if isinstance(item, Stroke) and item.closed and len(item.corners) == 2]
    assert len(circles) == len(window.fixings)
    frame = window.frame.outline.bounds
    assert not any(circle.overlaps(frame) for circle in circles)
    lines = [(a.point, b.point) for item in items if (isinstance(item, Stroke) and len(item.corners) > 2) or (isinstance(item, Stroke) and not item.closed)
             for a, b in pairwise(item.corners)]
    assert not any(crosses(a, b, circle) for a, b in lines for circle in circles)
    assert not any(one.grown(-0.1 * scale).overlaps(other) for one, other in combinations(circles, 2))


def test_jambs_under_an_arch_are_taped_from_where_they_begin():
    window = window_of("frame: {width: 1200, height: 1500}\nhead: {arched: {rise: 300}}\n" + FIXED)
    items = [item for group in marking_out(window, 10.0).groups for item in group.items]
    starts = {(round(item.corners[0].x), round(item.corners[0].y)) for item in items if isinstance(item, Stroke) and item.layer is Layer.DIMENSION}
    assert {(-12, 1200), (1212, 1200)} <= starts   # ticks 1.2 mm on paper outside both jambs, at 1500 less the rise of 300
    assert not any(y == 1500 and x in (-12, 1212) for x, y in starts)


@pytest.mark.parametrize(("job", "window"), EVERY)
def test_every_text_of_it_is_readable(job, window):
    """2.5 mm at least, but for the names of fields in the title block; a text height of ISO 3098, from memory."""
    a4 = job.model_copy(update={"drawing": job.drawing.model_copy(update={"sheet": "A4"})})
    for sheet in (*a3_sheets(window, job), *installer_sheets(window, a4)):
        items = [item for group in sheet.groups if group.id not in ("title-block", "foot") for item in group.items]
        items += [item for placed in sheet.placed for group in placed.view.groups for item in group.items]
        assert [item.text for item in items if isinstance(item, Label) and item.height < 2.5] == []


@pytest.mark.parametrize(("keys", "there", "not_there"), [
    ("frame: {width: 1200, height: 1000}\n" + FIXED, {"packer", "block that carries the glass"}, {"handle", "slides this way"}),
    (HANDED, {"handle", "opens out, towards you; point at the hinges"}, {"opens in, away from you; point at the hinges"}),
    ("circular: {diameter: 900}\n" + FIXED, {"packer"}, {"block that carries the glass", "handle"}),
])
def test_the_key_has_the_signs_that_are_drawn_and_no_others(keys, there, not_there):
    said = set(installers(keys))
    assert there <= said
    assert not not_there & said


def test_along_an_arc_the_sheet_says_where_the_tape_runs():
    words = "Along a slope or an arc: taped on the frame's outer edge"
    assert words in installers("frame: {width: 1200, height: 1500}\nhead: {arched: {rise: 300}}\n" + FIXED)
    assert words not in installers("frame: {width: 1200, height: 1500}\n" + FIXED)


def test_the_unglazed_frame_is_weighed_too():
    """flush-70: 1.15 kg/m of frame, welded 3 mm at each end: (2 x 2006 + 2 x 1506) mm x 1.15 kg/m = 8.1 kg."""
    assert "Frame, unglazed: 8 kg." in " ".join(installers("frame: {width: 2000, height: 1500}\n" + FIXED))


def test_the_mark_stands_alone_in_the_title_block_of_both_pages():
    """`verify` finds the window of a drawing by it."""
    job, window = loaded_windows("fit-walls.yaml")[0]
    sheets = a3_sheets(window, job, "model")
    for page, sheet in enumerate(sheets, 1):
        said = [text for text, _ in on_paper(sheet)]
        assert "Window W1" in said
        assert f"Pump room · page {page} of {len(sheets)}" in said
