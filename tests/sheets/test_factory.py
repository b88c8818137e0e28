"""The factory sheet: nothing collides, nothing is lost, and both styles say the same of the window.

Text widths are those of the shipped table of font advances, which tests/drawing holds to the font itself.
"""

import json
import re

import pytest
from hypothesis import given, settings
from shapely.geometry import LineString, box
from shapely.strtree import STRtree

from elevations.catalogue.load import find_system
from elevations.drawing.entities import Dimension, Label
from elevations.errors import SpecError
from elevations.geometry.resolve import resolve_job
from elevations.geometry.window import whole_mm
from elevations.sheets.factory import factory_sheet, factory_sheets
from elevations.sheets.words import lights_alike
from elevations.spec.load import parse_job
from elevations.spec.model import Drawing
from tests.jobs import window_of, windows_of
from tests.properties.specs import job as job_of
from tests.properties.specs import windows as any_window
from tests.sheets.lettered import segments, texts, view_named

JOB = parse_job("""
job: {reference: QL-07, site: Quillback Lock Cottage, surveyed: 2026-10-14}
glass:
  clear: {make_up: 4/20/4}
windows:
  - {mark: W0, frame: {width: 600, height: 600}, lights: [{light: fixed}]}
""", "job.yaml").job
INK = 0.6
"""Slack round a text's box that holds no ink: a line may pass there, mm."""

VARIED = {
    "one light": "frame: {width: 900, height: 1350}\nlights: [{light: fixed}]",
    "three lights with fanlights": """
        frame: {width: 1810, height: 1214}
        mullions: [600, 1200]
        lights:
          - {light: side-hung, hinge: left}
          - transoms: [350]
            lights: [{light: top-hung}, {light: fixed}]
          - {light: side-hung, hinge: right}
        """,
    "tilt and turn": "frame: {width: 1400, height: 1300}\nmullions: equal-sight\nlights: [{light: tilt-and-turn, hinge: left}, {light: fixed}]",
    "dummy sash": "frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed, sash: dummy}]",
    "tiny": "frame: {width: 300, height: 300}\nlights: [{light: fixed}]",
    "huge": """
        frame: {width: 6000, height: 2400}
        mullions: equal-sight
        lights:
          - {light: side-hung, hinge: left}
          - transoms: [500]
            lights: [{light: top-hung}, {light: fixed}]
          - {light: fixed}
          - {light: side-hung, hinge: right}
        """,
    "grid": """
        frame: {width: 2400, height: 1800}
        mullions: equal-centres
        lights:
        """ + "".join("""
          - transoms: equal-centres
            lights: [{light: fixed}, {light: top-hung}, {light: fixed}]""" for _ in range(4)),
    "tall and narrow": """
        frame: {width: 900, height: 2100}
        transoms: [500]
        lights:
          - {light: top-hung}
          - mullions: [450]
            lights: [{light: side-hung, hinge: left}, {light: side-hung, hinge: right}]
        """,
    "on a sill in a cavity wall": """
        frame: {width: 1800, height: 1300}
        wall: {material: brick, thickness: 103, cavity: 100, inner: 100, frame_at: 110, window_board: {nosing: 30}}
        sill: {projection: 150, height: 10, upstand: 20, packers: 5}
        mullions: equal-glass
        lights: [{light: side-hung, hinge: left}, {light: fixed}]
        """,
    "extended, its drip behind a thick wall's face": """
        frame: {width: 700, height: 1300}
        wall: {material: stone, thickness: 450, frame_at: 60, render: 20}
        sill: {projection: 30, height: 10}
        fit: {add_ons: {head: 40, left: 12, sill: 8}}
        lights: [{light: fixed}]
        """,
}


def varied(name, system="flush-70"):
    return window_of(VARIED[name], system)


def collisions(sheet):
    """Texts that share room with another text, stand off the page's border, or lie over a line of their view."""
    found = texts(sheet)
    tree = STRtree([box(*where) for _, _, where in found])
    wrong = []
    for i, (group, text, where) in enumerate(found):
        if where.left < 20 or where.bottom < 10 or where.right > sheet.width - 10 or where.top > sheet.height - 10:
            wrong.append(("off the border", group, text))
        near = tree.query(box(*where).buffer(-0.05), predicate="intersects")
        wrong.extend(("over a text", group, text, found[j][1]) for j in near if j > i)
    for group, a, b in segments(sheet):
        line = LineString([a, b])
        crossed = [] if group.startswith("sheet") else tree.query(line)
        wrong.extend(("on a line", group, found[i][1]) for i in crossed if line.intersects(box(*found[i][2].grown(-INK))))
    return wrong


@pytest.mark.parametrize("system", ["flush-70", "lipped-70"])
@pytest.mark.parametrize("name", VARIED)
def test_no_text_meets_another_or_a_line_or_the_border(name, system):
    for style, sheet in factory_sheets(varied(name, system), JOB).items():
        assert collisions(sheet) == [], style


@settings(max_examples=25, deadline=None)
@given(any_window())
def test_no_text_meets_another_whatever_the_window(block):
    try:
        job = parse_job(json.dumps(job_of(block)), "job.yaml").job
        window = resolve_job(job, find_system)[0]
    except SpecError:
        return
    for sheet in factory_sheets(window, job).values():
        assert collisions(sheet) == []


def test_the_oracle_sees_a_collision():
    sheet = factory_sheet(varied("one light"), JOB, "paper")
    group = sheet.groups[-1]
    label = next(item for item in group.items if isinstance(item, Label))
    doubled = sheet.__class__(**{**{f: getattr(sheet, f) for f in sheet.__slots__}, "groups": (*sheet.groups, group)})
    assert ("over a text", "sheet/title-block", label.text, label.text) in collisions(doubled)


@pytest.mark.parametrize("name", VARIED)
def test_views_keep_clear_of_each_other_and_of_the_words(name):
    for sheet in factory_sheets(varied(name), JOB).values():
        boxes = [
            box(*(value / p.scale + p.at[i % 2] for i, value in enumerate(p.view.bounds))) for p in sheet.placed
        ]
        assert all(not a.intersects(b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])
        assert all(b.bounds[2] < sheet.width - 10 - 110 for b in boxes)


def test_the_model_sheet_has_one_scale_and_its_sections_in_line_with_the_elevation():
    sheet = factory_sheet(varied("three lights with fanlights"), JOB, "model")
    assert {placed.scale for placed in sheet.placed} == {sheet.scale}
    front, upright, level = (view_named(sheet, name) for name in ("elevation", "section-a-a", "section-b-b"))
    assert upright.at.y == front.at.y
    assert upright.at.x > front.at.x
    assert level.at.x == front.at.x
    assert level.at.y < front.at.y


def test_a_paper_sheet_takes_the_largest_standard_scale_that_fits():
    # 1810 wide: at 1:5 it would be 362 on a page of 420 that has 272 for views; 1:10 makes 181 and leaves room for A-A
    assert factory_sheet(varied("three lights with fanlights"), JOB, "paper").scale == 10
    assert factory_sheet(varied("tiny"), JOB, "paper").scale == 5
    assert factory_sheet(varied("huge"), JOB, "paper").scale == 50


def test_a_window_that_does_not_fit_a4_goes_on_a3_and_says_so():
    job = JOB.model_copy(update={"drawing": Drawing(sheet="A4")})
    small = factory_sheet(window_of("frame: {width: 600, height: 900}\nlights: [{light: top-hung}]"), job, "paper")
    large = factory_sheet(varied("huge"), job, "paper")
    assert (small.width, large.width) == (297, 420)
    said = " ".join(text for _, text, _ in texts(large))
    assert "Set on A3: it does not fit A4" in said
    assert collisions(small) == []


def many_lights(mullions, transoms="equal-centres"):
    """9 x 7 lights: 63 rows are more than a column of 2 mm text holds."""
    row = f"{{transoms: {transoms}, lights: [" + ", ".join(["{light: fixed}"] * 7) + "]}"
    return window_of(f"frame: {{width: 5400, height: 2400}}\nmullions: {mullions}\nlights: [" + ", ".join([row] * 9) + "]")


def test_lights_alike_share_a_row_where_the_table_would_be_too_long():
    """Equal centres: the outer columns and rows have their own width and height of glass, which makes four kinds at most six."""
    window = many_lights("equal-centres")
    sheet = factory_sheet(window, JOB, "paper")
    column = [text for group, text, _ in texts(sheet) if group == "sheet/column"]
    sizes = {f"{whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}" for pane in window.panes}
    assert len(sizes) <= 6
    assert sizes <= set(column)
    assert not any("more:" in text for text in column)
    assert [wrong for wrong in collisions(sheet) if wrong[0] != "on a line"] == []


def test_rows_of_lights_alike_hold_every_light_once():
    window = many_lights("equal-centres")
    numbers = []
    for lights, _, _ in lights_alike(window):
        for run in lights.partition(":")[0].split(", "):
            low, _, high = run.partition("–")
            numbers += range(int(low), int(high or low) + 1)
    assert sorted(numbers) == list(range(1, 64))
    pair = window_of("frame: {width: 1800, height: 900}\nlights: [{light: side-hung-pair, leads: left}]")
    assert [row[0] for row in lights_alike(pair)] == [f"1: {pair.lights[0].words}", ""]


def test_rows_that_do_not_fit_are_counted_and_point_to_the_glass_schedule():
    window = many_lights("[500, 1010, 1530, 2060, 2600, 3150, 3710, 4280]", "[310, 630, 960, 1300, 1650, 2010]")
    sheet = factory_sheet(window, JOB, "paper")
    column = [text for group, text, _ in texts(sheet) if group == "sheet/column"]
    listed = [text for text in column if text.startswith("G") and "×" in text]
    words = next(text for text in column if "more: see the glass schedule" in text)
    assert len(listed) + int(words.split()[1]) == 63
    assert listed
    assert [wrong for wrong in collisions(sheet) if wrong[0] != "on a line"] == []


def test_every_finding_is_on_the_sheet():
    window = varied("tiny")
    assert len(window.findings) == 5   # one of them a pressure hole that finds no room
    words = " ".join(text for group, text, _ in texts(factory_sheet(window, JOB, "paper")) if group == "sheet/column")
    for finding in window.findings:
        assert finding.message[:40] in words
        assert re.search(rf"\b{finding.subject}[a-z ,]*: {re.escape(finding.message[:40])}", words)   # sides that share it stand before it together


def test_cautions_and_demonstration_data_are_on_every_sheet():
    for sheet in factory_sheets(varied("one light"), JOB).values():
        words = " ".join(text for _, text, _ in texts(sheet))
        assert "confirmed on site before manufacture" in words
        assert "Demonstration profile data: not for manufacture" in words
        assert "licensed practice" in words
        assert "opens in, away from you; point at the hinges" in words


@pytest.mark.parametrize("mark", ["W" * 40, "i" * 40, "=1+1", "</svg><script>", "Ω" * 40])
def test_hostile_marks_and_locations_stay_in_their_fields(mark):
    window = windows_of(f"- mark: {mark!r}\n  location: {'W' * 200!r}\n  frame: {{width: 900, height: 900}}\n  lights: [{{light: fixed}}]")[0]
    assert collisions(factory_sheet(window, JOB, "paper")) == []


def test_the_same_window_makes_the_same_sheet():
    window = varied("grid")
    assert factory_sheets(window, JOB) == factory_sheets(window, JOB)


def test_group_ids_are_unique_on_a_sheet():
    sheet = factory_sheet(varied("grid"), JOB, "paper")
    ids = [group.id for placed in sheet.placed for group in placed.view.groups] + [group.id for group in sheet.groups]
    assert len(ids) == len(set(ids))


def test_the_lock_side_setting_turns_the_symbols_and_the_key():
    job = JOB.model_copy(update={"drawing": Drawing(symbol_apex="lock")})
    words = " ".join(text for _, text, _ in texts(factory_sheet(varied("dummy sash"), job, "paper")))
    assert "point away from the hinges" in words


def test_dimensions_survive_to_the_sheet_as_dimensions():
    sheet = factory_sheet(varied("one light"), JOB, "model")
    assert any(isinstance(item, Dimension) for placed in sheet.placed for g in placed.view.groups for item in g.items)
