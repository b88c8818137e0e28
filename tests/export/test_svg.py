import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from PIL import Image

from elevations.drawing.entities import Dimension, Fill, Group, Label, Leader, Placed, Sheet, Stroke, Symbol, View
from elevations.drawing.layers import Layer
from elevations.drawing.lettering import text_width
from elevations.export.marker import MARKER
from elevations.export.svg import write_svg
from elevations.plane import Box, Corner, Outline, Point, rectangle
from tests.export.sample import sample_sheet

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "</svg><script>alert(1)</script>&\"'\x00\x07\x1b\ud800\ufffe\n]]>=1+1 ../../x \u202e6121 %%c ^J \\U+0041"


def sheet_of(*items, scale=10.0, data=(), title=""):
    group = Group("g", items, title, data)
    view = View("view", "View", (group,), Box(0, 0, 1, 1))
    return Sheet("Title", "Words", 200, 100, (Placed(view, scale, Point(20, 10)),), (), scale)


def elements(sheet, name):
    return list(ET.fromstring(write_svg(sheet).encode()).iter(SVG + name))


def only_path(*items, **ways):
    (path,) = elements(sheet_of(*items, **ways), "path")
    return path


def test_the_page_is_in_paper_millimetres():
    root = ET.fromstring(write_svg(sample_sheet()).encode())
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("297mm", "210mm", "0 0 297 210")


def test_a_line_lies_at_its_place_over_the_scale_with_y_turned_over():
    # x: 20 + 100/10; y: 100 - 10 - 50/10
    path = only_path(Stroke((Corner(0, 0), Corner(100, 50)), Layer.FRAME))
    assert path.get("d") == "M20 90L30 85"
    assert path.get("stroke-width") == "0.35"


def test_a_counter_clockwise_half_turn_is_an_exact_arc_with_sweep_flag_0():
    path = only_path(Stroke((Corner(0, 0, 1.0), Corner(100, 0)), Layer.FRAME))
    assert path.get("d") == "M20 90A5 5 0 0 0 30 90"


def test_a_clockwise_arc_past_a_half_turn_has_both_flags_set():
    # bulge -2: sweep 4 atan 2 = 253.7 degrees; radius = chord (1 + 4) / 8 = 62.5
    path = only_path(Stroke((Corner(0, 0, -2.0), Corner(100, 0)), Layer.FRAME))
    assert path.get("d") == "M20 90A6.25 6.25 0 1 1 30 90"


def test_a_fill_leaves_its_holes_open():
    path = only_path(Fill(rectangle(0, 0, 100, 100), Layer.FRAME, "#ddeeff", (rectangle(10, 10, 90, 90),)))
    assert path.get("d").count("M") == 2
    assert (path.get("fill"), path.get("fill-rule"), path.get("stroke")) == ("#ddeeff", "evenodd", None)


def test_line_types_are_dashes_in_paper_millimetres():
    assert only_path(Stroke((Corner(0, 0), Corner(9, 0)), Layer.OPENING, line="dashed")).get("stroke-dasharray") == "3 1.5"
    assert only_path(Stroke((Corner(0, 0), Corner(9, 0)), Layer.CENTRE)).get("stroke-dasharray") == "6 1 0.6 1"
    assert only_path(Stroke((Corner(0, 0), Corner(9, 0)), Layer.CENTRE, line="solid")).get("stroke-dasharray") is None


def test_numbers_have_at_most_three_decimals_and_no_negative_zero():
    numbers = re.findall(r"-?\d+\.?\d*", " ".join(p.get("d") for p in elements(sample_sheet(), "path")))
    assert not [n for n in numbers if n == "-0" or len(n.partition(".")[2]) > 3 or n.endswith(".")]


def test_the_picture_has_a_name_and_a_description_for_those_who_cannot_see_it():
    root = ET.fromstring(write_svg(sample_sheet()).encode())
    named = {e.get("id"): e.text for e in root.iter() if e.get("id") in root.get("aria-labelledby").split()}
    assert root.get("role") == "img"
    assert list(named.values()) == ["W1 elevation", "A window of two lights, drawn to try the writers."]


def test_each_group_says_what_it_is():
    groups = {g.get("id"): g for g in elements(sample_sheet(), "g")}
    pane = groups["elevation-pane-1"]
    assert (pane.get("data-mark"), pane.get("data-tag"), pane.find(SVG + "title").text) == ("W1", "G1", "Pane G1")


def test_groups_of_the_same_name_in_two_views_have_ids_of_their_own():
    sheet = sample_sheet()
    twice = replace(sheet, placed=sheet.placed * 2)
    ids = [e.get("id") for e in ET.fromstring(write_svg(twice).encode()).iter() if e.get("id")]
    assert len(ids) == len(set(ids))


def test_a_fixing_carries_its_tag():
    (tag,) = [g.get("data-tag") for g in elements(sheet_of(Symbol("fixing", Point(0, 0), Layer.FIXING, tag="F7")), "g")
              if g.get("data-tag")]
    assert tag == "F7"


def test_a_dimension_shows_what_it_measures():
    (text,) = elements(sheet_of(Dimension(Point(0, 0), Point(617.3, 0), -80, upright=False)), "text")
    assert text.text == "617.3"


def test_hostile_text_stays_text():
    items = (Label(HOSTILE, Point(0, 0), 2.5), Leader((Point(0, 0), Point(9, 9)), HOSTILE, 2.5),
             Symbol("fixing", Point(0, 0), Layer.FIXING, tag=HOSTILE))
    group = Group(HOSTILE, items, HOSTILE, ((HOSTILE, HOSTILE), ("tag", HOSTILE)))
    view = View(HOSTILE, HOSTILE, (group, group), Box(0, 0, 1, 1))
    text = write_svg(Sheet(HOSTILE, HOSTILE, 200, 100, (Placed(view, 10, Point(0, 0)),), (group,), 10))
    root = ET.fromstring(text.encode())
    assert {e.tag.removeprefix(SVG) for e in root.iter()} == {"svg", "title", "desc", "defs", "rect", "g", "path", "text"}
    assert not re.search(r"[\x00-\x09\x0b-\x1f\u202e]", text)
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert all(re.fullmatch(r"[A-Za-z][A-Za-z0-9-]*", found) for found in ids)
    assert len(ids) == len(set(ids))


def test_nothing_is_run_or_fetched():
    text = write_svg(sample_sheet())
    assert not re.search(r"<script|<image|<style|@import|url\(|xlink:href|href=", text)


def test_the_file_says_that_it_is_ours():
    assert MARKER in write_svg(sample_sheet())[:200]


def test_the_same_sheet_gives_the_same_bytes_whatever_the_hash_seed():
    code = """
import sys
from elevations.export import FORMATS
from tests.export.sample import sample_sheet
sys.stdout.buffer.write(FORMATS["svg"].write(sample_sheet()))
"""
    found = {subprocess.run([sys.executable, "-c", code], env={"PYTHONHASHSEED": seed}, capture_output=True, check=True).stdout
             for seed in ("0", "1", "2")}
    assert found == {write_svg(sample_sheet()).encode()}


@pytest.fixture
def page(browser, tmp_path):
    """The sample sheet in a browser, and what it asked for on the way."""
    file = tmp_path / "sheet.svg"
    file.write_text(write_svg(sample_sheet()), encoding="utf-8")
    found = browser.new_page()
    found.asked = []
    found.on("request", lambda request: found.asked.append(request.url))
    found.goto(file.as_uri())
    yield found
    found.close()


@pytest.mark.readers
def test_in_a_browser_1200_mm_at_1_to_10_measure_120_mm(page):
    # CSS fixes 96 px = 25.4 mm (CSS Values and Units 4, section 6.2)
    box = page.evaluate("document.querySelector('#elevation-frame path').getBoundingClientRect().toJSON()")
    assert box["width"] * 25.4 / 96 == pytest.approx(120, abs=0.05)
    assert box["height"] * 25.4 / 96 == pytest.approx(90, abs=0.05)


@pytest.mark.readers
def test_in_a_browser_no_text_is_wider_than_the_room_laid_out_for_it(page):
    texts = page.evaluate("""[...document.querySelectorAll('text')].map(t => [t.textContent, t.getBBox().width,
        t.getBBox().height, +t.getAttribute('font-size'), t.getAttribute('font-weight') == 'bold'])""")
    assert len(texts) > 20
    for text, width, height, size, bold in texts:
        room = text_width(text, size * 1493 / 2048, bold=bold)
        assert 0.85 * room < width <= room
        assert height == pytest.approx(size * (1901 + 483) / 2048, rel=0.1)


@pytest.mark.readers
def test_in_a_browser_no_two_texts_overlap_and_none_leaves_the_sheet(page):
    boxes = page.evaluate("""[...document.querySelectorAll('text')].map(t => {
        const r = t.getBoundingClientRect(); return [t.textContent, r.left, r.bottom, r.right, r.top]})""")
    sized = [(text, Box(left, -bottom, right, -top)) for text, left, bottom, right, top in boxes]
    meeting = [(a, b) for i, (a, one) in enumerate(sized) for b, other in sized[i + 1 :] if one.grown(-0.5).overlaps(other)]
    assert meeting == []
    assert all(box.left > 0 and box.right < 297 * 96 / 25.4 for _, box in sized)


@pytest.mark.readers
def test_in_a_browser_the_file_asks_for_nothing_but_itself(page):
    assert len(page.asked) == 1


@pytest.mark.readers
def test_librsvg_draws_as_much_ink_as_the_browser(page, tmp_path):
    if not shutil.which("rsvg-convert"):
        pytest.skip("rsvg-convert is not installed here")
    page.set_viewport_size({"width": 1123, "height": 794})
    page.screenshot(path=tmp_path / "browser.png")
    subprocess.run(["rsvg-convert", "-w", "1123", "-h", "794", "-o", "rsvg.png", "sheet.svg"], cwd=tmp_path, check=True)
    ink = [sum(Image.open(tmp_path / name).convert("L").histogram()[:128]) for name in ("browser.png", "rsvg.png")]
    assert ink[0] > 5000
    assert ink[1] == pytest.approx(ink[0], rel=0.1)


def test_a_round_outline_of_two_half_turns_closes():
    path = only_path(Stroke(Outline((Corner(100, 0, 1.0), Corner(-100, 0, 1.0))).corners, Layer.FRAME, closed=True))
    assert path.get("d") == "M30 90A10 10 0 0 0 10 90A10 10 0 0 0 30 90Z"


def test_drawings_with_prefixes_of_their_own_share_no_id_in_one_page():
    both = [write_svg(sample_sheet(), id_prefix=prefix) for prefix in ("a-", "b-")]
    ids = [e.get("id") for text in both for e in ET.fromstring(text).iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    for text in both:
        root = ET.fromstring(text)
        assert set(root.get("aria-labelledby").split()) <= {e.get("id") for e in root.iter()}
        assert text.startswith("<svg")
