"""The customer's drawing: right in size, side, colour and number, whatever the window."""

import json
import math
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from elevations import pipeline
from elevations.catalogue.finishes import SCREEN_COLOURS, screen_colour
from elevations.catalogue.load import find_system
from elevations.drawing.entities import Fill, Label, Stroke
from elevations.drawing.extent import bounds_of_all, text_boxes
from elevations.drawing.layers import Layer
from elevations.geometry.hardware_places import hardware_places
from elevations.geometry.resolve import resolve_job
from elevations.plane import Box, Outline
from elevations.sheets.customer import customer_sheet
from elevations.sheets.customer_notes import notes_sheets
from elevations.sheets.overview import overview_sheets
from elevations.spec.load import parse_job
from elevations.views import customer_tones as tones
from elevations.views.customer import customer_view
from elevations.views.customer_ajar import ajar_views
from elevations.views.marking_lights import marked_lights
from tests.jobs import window_of
from tests.properties.specs import job, windows

QUICK = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
ONE = "frame: {{width: 700, height: 1000}}\nlights: [{{{}}}]"


def group(view, name):
    (found,) = [g for g in view.groups if g.id == name]
    return found.items


def fills(view, layer):
    return [item for g in view.groups for item in g.items if isinstance(item, Fill) and item.layer == layer]


@QUICK
@given(windows())
def test_both_sides_have_the_frame_at_its_true_size(block):
    (window,) = resolve_job(parse_job(json.dumps(job(block)), "job.yaml").job, find_system)
    for side in ("outside", "inside"):
        box = group(customer_view(window, 20, side=side), "frame")[0].outline.bounds
        assert box == pytest.approx((0, 0, window.width.value, window.height.value))


@QUICK
@given(windows())
def test_everything_stays_within_the_window_and_its_hinges(block):
    (window,) = resolve_job(parse_job(json.dumps(job(block)), "job.yaml").job, find_system)
    for side in ("outside", "inside"):
        view = customer_view(window, 20, side=side, badge=3.5)
        drawn = bounds_of_all([item for g in view.groups for item in g.items], 20)
        limit = view.bounds.grown(1e-6)
        assert limit.left <= drawn.left <= drawn.right <= limit.right
        assert limit.bottom <= drawn.bottom <= drawn.top <= limit.top


def test_numbers_are_left_for_right_from_inside_and_never_mirrored_text():
    window = window_of("frame: {width: 1800, height: 1000}\nmullions: [500, 1000]\nlights: [{light: fixed}, {light: fixed}, {light: fixed}]")
    outside, inside = (customer_view(window, 20, side=side, badge=3.5) for side in ("outside", "inside"))
    places = [
        {i.text: i.at for g in view.groups for i in g.items if isinstance(i, Label)} for view in (outside, inside)
    ]
    for number in "123":
        assert places[0][number].x + places[1][number].x == pytest.approx(1800)
        assert places[0][number].y == pytest.approx(places[1][number].y)


@pytest.mark.parametrize("hinge", ["left", "right"])
def test_the_handle_is_inside_opposite_the_hinges(hinge):
    window = window_of(ONE.format(f"light: side-hung, hinge: {hinge}"))
    assert not [f for f in fills(customer_view(window, 10), Layer.HARDWARE) if f.tone == tones.METAL_EDGE and not f.holes and f.outline.bounds.height > 60]
    inside = customer_view(window, 10, side="inside")
    handle = [f.outline.bounds.centre.x for f in fills(inside, Layer.HARDWARE)]
    # Hinged on the left from outside is hinged on the right from inside, so its handle is on the left from there.
    assert handle
    assert all((x < 350) == (hinge == "left") for x in handle)


@pytest.mark.parametrize(("spec", "side"), [
    ("light: side-hung, hinge: left", "outside"), ("light: side-hung, hinge: left, swing: in", "inside"),
])
def test_hinges_show_on_the_side_that_the_light_opens_to(spec, side):
    window = window_of(ONE.format(spec))
    other = "inside" if side == "outside" else "outside"

    def knuckles(seen):
        return [f.outline.bounds.centre.x for f in fills(customer_view(window, 10, side=seen), Layer.HARDWARE)
                if f.tone == tones.METAL and f.outline.bounds.height < 100]

    assert len(knuckles(side)) == 2
    assert all((x < 350) == (side == "outside") for x in knuckles(side))
    assert not knuckles(other)


def test_a_handle_is_at_its_height():
    window = window_of(ONE.format("light: side-hung, hinge: left, handle_height: 300"))
    sash = window.sashes[0].outer.outline.bounds
    plate = next(f for f in fills(customer_view(window, 10, side="inside"), Layer.HARDWARE) if f.tone == tones.METAL_EDGE)
    assert plate.outline.bounds.centre.y == pytest.approx(sash.bottom + 300)


def test_under_a_slope_the_handle_is_drawn_in_the_middle_of_its_own_stile_where_machining_has_it():
    window = window_of("frame: {width: 1000}\nhead: {raked: {left: 1000, right: 1400}}\nlights: [{light: side-hung, hinge: right}]\n")
    # the sash's edges are 43 from the frame's, square to a slope of 0.4: its left stile ends at 1000 + 0.4 x 43 - 43 x sqrt(1.16)
    middle = (43 + 1000 + 0.4 * 43 - 43 * math.sqrt(1.16)) / 2
    plate = next(f for f in fills(customer_view(window, 10, side="inside"), Layer.HARDWARE) if f.tone == tones.METAL_EDGE)
    assert plate.outline.bounds.centre.y == pytest.approx(middle)
    (machined,) = [place.at.y for place in hardware_places(window) if place.kind == "handle"]
    assert machined == pytest.approx(middle)
    (marked,) = [item for item in marked_lights(window, 10) if isinstance(item, Stroke) and item.layer is Layer.HARDWARE]
    assert Outline(marked.corners).bounds.centre.y == pytest.approx(middle)


def test_each_side_is_in_its_own_finish():
    window = window_of(ONE.format("light: fixed") + "\nfinish: {outside: RAL 7016, inside: RAL 9016}")
    for side, code in (("outside", "7016"), ("inside", "9016")):
        assert group(customer_view(window, 10, side=side), "frame")[0].tone == SCREEN_COLOURS[code][1] == screen_colour(code)[1]


def test_a_finish_without_a_screen_colour_is_neutral_and_said():
    window = window_of(ONE.format("light: fixed") + "\nfinish: {outside: Towpath 12}")
    assert group(customer_view(window, 10), "frame")[0].tone == tones.NOT_CHOSEN
    assert not tones.finished("Towpath 12").shown


def test_obscure_glass_is_patterned_and_clear_glass_is_not():
    text = "glass:\n  a: {make_up: 4/20/4}\n  b: {make_up: 4/20/4, obscure: outer}\nwindows:\n"
    text += "".join(f"  - {{mark: {g}, glass: {g}, frame: {{width: 700, height: 900}}, lights: [{{light: fixed}}]}}\n" for g in "ab")
    clear, obscure = resolve_job(parse_job(text, "job.yaml").job, find_system)
    holes = [sum(len(f.holes) for f in fills(customer_view(w, 20), Layer.HATCH)) for w in (clear, obscure)]
    assert holes[0] == 0
    assert 50 < holes[1] < 600


def test_a_vent_is_shown():
    plain, vented = (window_of(ONE.format(f"light: fixed{more}")) for more in ("", ", vent: 4000"))
    assert len(fills(customer_view(vented, 10), Layer.HARDWARE)) > len(fills(customer_view(plain, 10), Layer.HARDWARE)) == 0


def test_a_sill_is_under_the_frame_outside_with_its_horns_and_not_inside():
    window = window_of(ONE.format("light: fixed") + "\nsill: {projection: 150, horns: 40, height: 30, fall: 8}")
    (top, front, *_) = [f.outline.bounds for f in fills(customer_view(window, 10), Layer.SILL)]
    # The frame stands on it: 8 of slope seen from the front, then a nose of 25 at most
    assert top == pytest.approx((-40, -8, 740, 0))
    assert front == pytest.approx((-40, -33, 740, -8))
    assert not fills(customer_view(window, 10, side="inside"), Layer.SILL)
    assert customer_view(window, 10).bounds.left <= -40


@pytest.mark.parametrize(("spec", "count"), [
    ("light: fixed", 1), ("light: fixed, sash: dummy", 1), ("light: side-hung, hinge: left", 1), ("light: top-hung", 1),
    ("light: tilt-and-turn, hinge: right", 2),
])
def test_there_is_a_picture_for_each_way_of_opening(spec, count):
    views = ajar_views(window_of(ONE.format(spec)).lights[0], "#b0b0a9", 24, 24)
    assert len(views) == count
    for view in views:
        drawn = bounds_of_all([item for g in view.groups for item in g.items], 1)
        assert drawn.width <= 24
        assert drawn.height <= 24


def test_a_light_that_turns_about_its_middle_comes_nearer_on_the_half_that_goes_out():
    loaded = pipeline.read("specs/openings-pivot.yaml")
    for window in pipeline.windows(loaded):
        light = next(light for light in window.lights if light.sashes)
        half = light.sashes[0].leaf.half_in
        (view,) = ajar_views(light, "#b0b0a9", 24, 24)
        leaf = next(i for g in view.groups for i in g.items if isinstance(i, Fill) and i.layer == Layer.SASH)
        bottom, right, top, left = (math.dist(a[:2], b[:2]) for a, b in leaf.outline.edges())
        nearer, farther = {"top": (bottom, top), "left": (right, left), "right": (left, right)}[half]
        assert nearer > farther


def test_of_a_sliding_light_one_sash_is_pushed_past_the_other_and_stays_within_the_frame():
    for window in pipeline.windows(pipeline.read("specs/openings-sliding.yaml")):
        for light in (light for light in window.lights if any(sash.leaf.slides for sash in light.sashes)):
            (view,) = ajar_views(light, "#b0b0a9", 24, 24)
            boxes = [i.outline.bounds for g in view.groups for i in g.items if isinstance(i, Fill) and i.layer == Layer.SASH and i.holes]
            assert len(boxes) == 2
            assert boxes[0].overlaps(boxes[1])
            frame = view.bounds
            assert all(frame.left < b.left < b.right < frame.right and frame.bottom < b.bottom < b.top < frame.top for b in boxes)


@pytest.mark.parametrize("hinge", ["left", "right"])
@pytest.mark.parametrize("swing", ["out", "in"])
def test_an_ajar_light_keeps_its_hinge_edge_and_its_free_edge_comes_nearer_or_goes_away(hinge, swing):
    light = window_of(ONE.format(f"light: side-hung, hinge: {hinge}, swing: {swing}")).lights[0]
    (view,) = ajar_views(light, "#b0b0a9", 24, 24)
    leaf = next(i for g in view.groups for i in g.items if isinstance(i, Fill) and i.layer == Layer.SASH)
    heights = {}
    for a, b in leaf.outline.edges():
        if math.isclose(a.x, b.x, abs_tol=1e-9):
            heights["left" if a.x < 0 else "right"] = abs(a.y - b.y)
    free = "right" if hinge == "left" else "left"
    assert (heights[free] > heights[hinge]) == (swing == "out")


@pytest.fixture(scope="module")
def demo():
    loaded = pipeline.read("specs/quillback-lock-cottage.yaml")
    return loaded, list(pipeline.windows(loaded))


def texts_of(sheet):
    """Every text of a sheet with its box on the paper, mm; the numbers of lights apart."""
    found = text_boxes([item for g in sheet.groups for item in g.items], 1.0)
    for placed in sheet.placed:
        if placed.scale == 1.0:
            found += text_boxes([item for g in placed.view.groups for item in g.items], 1.0)
    return found


SPECS = sorted(Path("specs").resolve().glob("*.yaml"))


@pytest.mark.parametrize("paper", ["A3", "A4"])
@pytest.mark.parametrize("spec", SPECS, ids=lambda spec: spec.stem)
def test_on_no_sheet_do_texts_overlap_or_leave_the_paper(spec, paper):
    loaded = pipeline.read(str(spec))
    found = list(pipeline.windows(loaded))
    on_paper = loaded.job.model_copy(update={"drawing": loaded.job.drawing.model_copy(update={"sheet": paper})})
    agreed = ("Design number 3f9a-1c2e", "Approved 2026-10-20 by M. Towpath (3f9a-1c2e).")
    design = {window.mark: "3f9a-1c2e" for window in found}
    sheets = [*(customer_sheet(w, on_paper, agreed=agreed) for w in found), *overview_sheets(found, on_paper), *notes_sheets(found, on_paper, design)]
    for sheet in sheets:
        boxes = texts_of(sheet)
        assert len(boxes) > 2
        for i, (text, box) in enumerate(boxes):
            assert 0 <= box.left < box.right <= sheet.width, (sheet.title, text)
            assert 0 <= box.bottom < box.top <= sheet.height, (sheet.title, text)
            for other, their in boxes[:i]:
                assert not box.grown(-0.25).overlaps(their), (sheet.title, text, other)


def test_the_sheet_asks_for_a_sample_and_shows_the_cautions(demo):
    loaded, found = demo
    said = " ".join(text for text, _ in texts_of(customer_sheet(found[0], loaded.job)))
    for words in ("screen colour, ask for a sample", "Signature", "Overall size", "licensed professional", "Demonstration".lower()):
        assert words in said


def test_the_overview_has_every_window_at_one_scale_heads_level_none_over_another(demo):
    loaded, found = demo
    (sheet,) = overview_sheets(found, loaded.job)
    standing = [p for p in sheet.placed if p.view.id.startswith("window-")]
    assert len(standing) == len(found) == 8
    assert {p.scale for p in standing} == {sheet.scale}
    boxes = []
    for placed, window in zip(standing, found, strict=True):
        width, height = window.width.value / sheet.scale, window.height.value / sheet.scale
        boxes.append(Box(placed.at.x, placed.at.y, placed.at.x + width, placed.at.y + height))
    for i, box in enumerate(boxes):
        assert not any(box.overlaps(other) for other in boxes[:i])
    # Two rows of four, as the greedy rows of this job come out: each row's heads are on one line.
    assert {round(box.top, 6) for box in boxes[:4]} == {round(boxes[0].top, 6)}
    assert {round(box.top, 6) for box in boxes[4:]} == {round(boxes[4].top, 6)}


def test_a_job_too_long_for_a_page_goes_on_to_the_next():
    text = "glass: {clear: {make_up: 4/20/4}}\nwindows:\n" + "".join(
        f"  - {{mark: W{n}, frame: {{width: 3800, height: 2600}}, lights: [{{light: fixed}}]}}\n" for n in range(40))
    loaded = parse_job(text, "job.yaml")
    found = resolve_job(loaded.job, find_system)
    sheets = overview_sheets(found, loaded.job)
    assert len(sheets) > 1
    assert sum(p.view.id.startswith("window-") for sheet in sheets for p in sheet.placed) == 40


def test_an_empty_job_has_no_overview(demo):
    assert overview_sheets([], demo[0].job) == []


def test_luminance_is_that_of_the_standard():
    # WCAG 2.2: white 1, black 0; sRGB grey 119 (#777777) has a contrast of 4.48 with white (from memory of the usual example)
    assert tones.luminance("#ffffff") == pytest.approx(1.0)
    assert tones.luminance("#000000") == 0.0
    assert 1.05 / (tones.luminance("#777777") + 0.05) == pytest.approx(4.48, abs=0.01)
