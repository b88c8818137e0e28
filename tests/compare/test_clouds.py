"""The drawing of what changed: clouds where it is, tags, and a table that says each."""

import json
import re
from io import StringIO
from pathlib import Path

import ezdxf
import pytest

from elevations.compare.changes import changes, said
from elevations.compare.clouds import clouds
from elevations.compare.sheet import changes_sheet
from elevations.compare.sources import side
from elevations.drawing.extent import bounds_of_all, text_boxes
from elevations.drawing.layers import Layer
from elevations.export import FORMATS
from elevations.plane import Box
from tests.compare.states import OLD, new, run


def drawn(folder, *pairs):
    new(*pairs)
    before, after = side("old.yaml"), side("new.yaml")
    told = changes("W1", before.windows["W1"].facts, after.windows["W1"].facts)
    window = after.windows["W1"].window
    return window, told, changes_sheet(window, after.job, told, "revision A")


def test_a_cloud_is_round_the_light_that_changed_and_no_other(folder):
    window, told, sheet = drawn(folder, ("hinge: left", "hinge: right"))
    (cloud,), rest = clouds(window, told)
    assert rest == []
    group = next(g for g in sheet.placed[0].view.groups if g.id == "cloud-1")
    drawn_box = bounds_of_all([i for i in group.items if getattr(i, "layer", None) == Layer.REVISION][:1], sheet.scale)
    glass = window.lights[0].panes[0].sight.outline.bounds
    assert drawn_box.left < glass.left < glass.right < drawn_box.right < window.lights[1].region.outline.bounds.left
    assert cloud.lines == ["hinge of light 1: left → right"]
    assert cloud.box == glass


def test_every_puff_swells_outwards_and_is_an_arc(folder):
    _window, _, sheet = drawn(folder, ("[600]", "[595]"))
    for group in sheet.placed[0].view.groups:
        if group.id.startswith("cloud-"):
            stroke = group.items[0]
            assert stroke.closed
            assert all(corner.bulge > 0 for corner in stroke.corners)
            xs, ys = [c.x for c in stroke.corners], [c.y for c in stroke.corners]
            outer = bounds_of_all([stroke], sheet.scale)
            assert outer.left < min(xs) < max(xs) < outer.right
            assert outer.bottom < min(ys) < max(ys) < outer.top


def test_each_tag_of_the_drawing_is_in_the_table_with_its_words(folder):
    _, told, sheet = drawn(folder, ("[600]", "[595]"), ("hinge: left", "hinge: right"), ("revision: A", "revision: B"))
    table = next(g for g in sheet.groups if g.id == "revision-table")
    texts = [text for text, _ in text_boxes(table.items, 1.0)]
    tags = [g.id.removeprefix("cloud-") for g in sheet.placed[0].view.groups if g.id.startswith("cloud-")]
    assert tags == ["1", "2", "3"]
    assert set(tags) <= set(texts)
    assert "Revision B" in texts
    assert "What changed since revision A" in texts
    joined = " ".join(texts)
    for line in said(told):
        assert line in joined


def test_on_the_sheet_no_text_of_the_table_overlaps_or_leaves_it(folder):
    _, _, sheet = drawn(folder, ("width: 1200", "width: 1700"), ("gas: argon}", "gas: krypton}"))
    boxes = text_boxes([i for g in sheet.groups for i in g.items], 1.0)
    page = Box(0, 0, sheet.width, sheet.height)
    for number, (text, box) in enumerate(boxes):
        assert page.left <= box.left < box.right <= page.right, text
        assert page.bottom <= box.bottom < box.top <= page.top, text
        assert not [other for other, their in boxes[:number] if box.grown(-0.2).overlaps(their)], text


def test_more_changes_than_the_table_takes_are_counted(folder):
    lights = ", ".join(["{light: side-hung, hinge: left, vent: 4000}"] * 16)
    big = OLD.replace("width: 1200, height: 1050", "width: 6000, height: 1050").replace("mullions: [600]", "mullions: equal-sight")
    big = re.sub(r"lights: \[\{light: side.*", f"lights: [{lights}]", big)
    Path("old.yaml").write_text(big, "utf-8")
    Path("new.yaml").write_text(big.replace("hinge: left, vent: 4000", "hinge: right, vent: 2500, restrictor: true, escape: true, handle_height: 400"), "utf-8")
    before, after = side("old.yaml"), side("new.yaml")
    told = changes("W1", before.windows["W1"].facts, after.windows["W1"].facts)
    sheet = changes_sheet(after.windows["W1"].window, after.job, told, "revision A")
    table = next(g for g in sheet.groups if g.id == "revision-table")
    boxes = text_boxes(table.items, 1.0)
    assert any(re.match(r"and \d+ more: see", text) for text, _ in boxes)
    assert min(box.bottom for _, box in boxes) > 10 + 55


def test_the_files_are_written_and_readable(folder):
    new(("hinge: left", "hinge: right"))
    done = run("old.yaml", "new.yaml", "--out", "out", "--format", "dxf,svg")
    assert done.exit_code == 0
    assert sorted(p.name for p in Path("out").iterdir()) == ["W1-changes.dxf", "W1-changes.svg"]
    doc = ezdxf.read(StringIO(Path("out/W1-changes.dxf").read_text("utf-8")))
    assert doc.audit().errors == []
    clouds_read = [e for e in doc.modelspace().query("LWPOLYLINE") if e.dxf.layer == "REVISION" and e.has_arc]
    assert len(clouds_read) == 1
    assert 'data-change="1"' in Path("out/W1-changes.svg").read_text("utf-8")


def test_what_is_not_ours_is_not_replaced(folder):
    new(("hinge: left", "hinge: right"))
    Path("out").mkdir()
    Path("out/W1-changes.svg").write_text("theirs", "utf-8")
    assert run("old.yaml", "new.yaml", "--out", "out").exit_code == 2
    assert Path("out/W1-changes.svg").read_text("utf-8") == "theirs"


def test_nothing_is_drawn_of_what_did_not_change(folder):
    new(("revision: A", "revision: B"))
    assert run("old.yaml", "new.yaml", "--out", "out").exit_code == 0
    assert not Path("out").exists()


@pytest.mark.parametrize("key", list(FORMATS))
def test_hostile_text_stays_text(folder, key):
    hostile = json.dumps("</svg><script>x</script>&=1+1")
    new(("location: Kitchen", f"finish: {{outside: {hostile}}}\n    location: {hostile}"))
    assert run("old.yaml", "new.yaml", "--out", "out", "--format", key).exit_code == 0
    if key == "svg":
        assert "<script" not in Path("out/W1-changes.svg").read_text("utf-8")


def test_the_sheet_says_what_is_to_be_confirmed_and_that_figures_are_invented(folder):
    _, _, sheet = drawn(folder, ("hinge: left", "hinge: right"))
    texts = " ".join(text for text, _ in text_boxes([item for group in sheet.groups for item in group.items], 1.0))
    for words in ("to be confirmed on site", "licensed practice decide", "Demonstration profile data", "opens out, towards you"):
        assert words in texts
