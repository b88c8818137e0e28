"""The glass drawing, as whoever cuts or fits the glass reads it; glazing bars from the edges of their pane."""

from __future__ import annotations

from itertools import combinations

import pytest

from elevations.catalogue.load import find_system
from elevations.drawing.entities import Dimension, Label, Stroke
from elevations.drawing.explode import dimension_box, label_box
from elevations.drawing.layers import Layer
from elevations.geometry.resolve import resolve_job
from elevations.sheets.glass_order import glass_page
from elevations.sheets.page import BODY, sheets_of
from elevations.sheets.template import template_sheet
from elevations.spec.load import parse_job
from elevations.views.glass_bars import bar_chains

GLASS = """\
job: {reference: QL-07, site: Quillback Lock Cottage}
glass:
  clear: {make_up: 4/20/4}
  bathroom: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}, spacer: warm-edge, obscure: outer}
  safe: {make_up: 6/16/6, toughened: [outer, inner]}
defaults: {glass: clear}
windows:
"""
KITCHEN = """
- mark: W2
  location: Kitchen
  frame: {width: 1810, height: 1213}
  mullions: [600, 1200]
  lights:
    - {light: side-hung, hinge: left}
    - {transoms: [350], lights: [{light: top-hung}, {light: fixed}]}
    - {light: side-hung, hinge: right}
"""
BARRED = """
- mark: B1
  frame: {width: 1200, height: 1050}
  mullions: [600]
  lights:
    - {light: side-hung, hinge: left, bars: {columns: 2, rows: 3}}
    - {light: fixed, bars: {at: {upright: [900], level: [300, 660]}, kind: in-unit}}
"""
ARCHED = """
- mark: B3
  frame: {width: 1200, height: 1400}
  head: {arched: {rise: 300}}
  lights: [{light: fixed, bars: {margin: 100}}]
"""


def window(block):
    return resolve_job(parse_job(GLASS + block, "job.yaml").job, find_system)[0]


def labels(groups):
    return [item for group in groups for item in group.items if isinstance(item, Label)]


def on_glass(page):
    return {label.text: label for label in labels(page.placed[0].view.groups)}


def listed(page):
    return " ".join(label.text for label in labels(page.groups))


def test_the_drawing_says_which_side_it_is_seen_from_and_which_size_comes_first():
    said = on_glass(glass_page(window(KITCHEN)))
    assert "Seen from outside" in said
    assert any("width × height" in text for text in said)


def test_sizes_stand_level_and_readable_at_arms_length_in_every_pane_that_has_the_room():
    """5 mm capitals: common practice, no source. The panes are 390 to 544 wide where they are seen: 39 to 54 mm at 1:10."""
    said = on_glass(glass_page(window(KITCHEN)))
    for text in ("420 ×", "430 ×", "1005", "554 × 789"):
        assert said[text].height >= 5
        assert said[text].angle == 0


def test_a_pane_says_its_make_up_and_what_is_special_and_not_its_nickname():
    page = glass_page(window("- {mark: W1, frame: {width: 630, height: 900}, lights: [{light: top-hung, glass: bathroom}]}"))
    said = on_glass(page)
    assert any(text.startswith("4/20/4") for text in said)
    assert "obscure outer" in said
    assert "bathroom" not in said
    words = listed(page)
    for part in ("28 thick, argon", "warm-edge spacer", "low-E on face 3", "obscure pane to the outside", "EN 1279-1"):
        assert part in words


def test_a_heavy_pane_warns_on_the_glass_and_the_list_says_what_the_figures_are():
    """1.398 x 1.298 m of 12 mm glass at 2.5 kg: 54.4 kg, beyond two people by the UK guideline (from memory)."""
    page = glass_page(window("- {mark: W2, frame: {width: 1500, height: 1400}, lights: [{light: fixed, glass: safe}]}"))
    warning = on_glass(page)["to lift: more than two people, or lifting gear"]
    assert warning.bold
    assert "toughened outer and inner, marked" in on_glass(page)
    assert "no safe limit" in listed(page)
    assert "permanent mark" in listed(page)


def test_names_of_make_ups_stand_in_the_list_only_where_there_are_several():
    two = "- {mark: W1, frame: {width: 1800, height: 900}, mullions: [900], lights: [{light: fixed}, {light: fixed, glass: safe}]}"
    assert "For G1" in listed(glass_page(window(two)))
    assert "For G1" not in listed(glass_page(window(KITCHEN)))


@pytest.mark.parametrize("location", ["Hall", "Segmental arch over three lights", "The long gallery above the pump house, towpath side"])
def test_a_pages_title_is_never_cut(location):
    block = f"- {{mark: A1, location: '{location}', frame: {{width: 900, height: 900}}, lights: [{{light: fixed}}]}}"
    page = glass_page(window(block))
    (sheet,) = sheets_of([page], parse_job(GLASS + block, "job.yaml").job.job, demonstration=True)
    head = labels([group for group in sheet.groups if group.id == "head"])
    title = " ".join(label.text for label in head if label.at.x == BODY.left)
    assert title == f"Glass of window A1, {location}"


def test_bars_are_dimensioned_from_the_edges_of_their_pane():
    """Worked by hand. The left pane is cut 420 x 842 and seen from 15 in all round; 24 wide bars leave (812 - 48) / 3 = 254.67
    three times, so the lowest centre line is at 15 + 254.67 + 12 = 281.67, the upright one in the middle, at 210."""
    made = bar_chains(window(BARRED), 10.0)
    level = [round(abs(dim.end.x - dim.start.x), 1) for dim in made if not dim.upright]
    upright = [round(abs(dim.end.y - dim.start.y), 1) for dim in made if dim.upright]
    assert level[:2] == [210.0, 210.0]
    assert upright[:3] == [281.7, 278.6, 281.7]
    # The right pane: 526 x 948, from 623 to 1149 across and 51 from the top; bars at 900 across, 300 and 660 down.
    assert level[2:] == [900 - 623, 1149 - 900]
    assert upright[3:] == [1050 - 51 - 660, 660 - 300, 300 - 51]


def test_chains_of_panes_over_each_other_run_on_lines_of_their_own():
    block = """
- mark: B1
  frame: {width: 900, height: 2000}
  transoms: [500, 1200]
  lights: [{light: fixed}, {light: fixed, bars: {columns: 2}}, {light: fixed, bars: {columns: 3}}]
"""
    made = [dim for dim in bar_chains(window(block), 10.0) if not dim.upright]
    assert len({dim.line_at for dim in made}) == 2
    assert {len([dim for dim in made if dim.line_at == line]) for line in {dim.line_at for dim in made}} == {2, 3}
    boxes = [dimension_box(dim, 10.0) for dim in made]
    assert not any(a.overlaps(b) for a, b in combinations(boxes, 2))


def test_chains_of_bars_add_up_to_the_cut_size():
    found = window(BARRED)
    for pane, side in zip(found.panes, ("left", "right"), strict=True):
        box = pane.cut.outline.bounds
        dims = [dim for dim in bar_chains(found, 10.0) if dim.upright and (dim.line_at < 0) == (side == "left")]
        assert sum(dim.end.y - dim.start.y for dim in dims) == pytest.approx(box.height, abs=0.15)   # each end to 0.1


def test_bars_give_way_to_the_words_on_the_glass():
    view = glass_page(window(BARRED)).placed[0].view
    for group in view.groups:
        words = [label_box(item, 10.0) for item in group.items if isinstance(item, Label)]
        bars = [item for item in group.items if isinstance(item, Stroke) and item.layer is Layer.GLAZING_BAR]
        for bar in bars:
            xs, ys = [c.x for c in bar.corners], [c.y for c in bar.corners]
            assert not any(b.left < max(xs) and min(xs) < b.right and b.bottom < max(ys) and min(ys) < b.top for b in words)
    assert any(item.layer is Layer.GLAZING_BAR for group in view.groups for item in group.items if isinstance(item, Stroke))


def test_a_template_has_the_bars_of_its_pane_with_their_centre_lines():
    """margin: 100 of visible glass beside the bars; the edge of the glass lies 15 beyond it, a bar's centre 12: 127."""
    job = parse_job(GLASS + ARCHED, "job.yaml").job
    found = window(ARCHED)
    sheet = template_sheet(found, found.panes[0], job, "paper")
    (placed,) = sheet.placed
    dims = [item for group in placed.view.groups for item in group.items if isinstance(item, Dimension)]
    width = found.panes[0].cut.outline.bounds.width
    across = [round(abs(dim.end.x - dim.start.x), 1) for dim in dims if not dim.upright]
    assert across[:3] == [127, pytest.approx(width - 254, abs=0.1), 127]
    assert any("Glazing bars on both faces" in label.text for label in labels(sheet.groups))
    boxes = [dimension_box(dim, placed.scale) for dim in dims]
    assert not any(a.overlaps(b) for a, b in combinations(boxes, 2))
