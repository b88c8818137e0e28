"""What the installer's sheet says of setting a frame true, and where it goes when a page has no room for it. Sums by hand."""

from pathlib import Path

import pytest

from elevations import pipeline
from elevations.drawing.entities import Dimension, Label
from elevations.geometry.diagonals import jamb_diagonals
from elevations.geometry.tightening import tightening_order
from elevations.sheets.installer import a3_sheets, planned
from elevations.sheets.installer_a4 import installer_sheets, page_count
from elevations.sheets.installer_setting import packing_words, to_settle
from elevations.sheets.installer_views import alone
from elevations.views.marking_out import marking_out
from tests.jobs import window_of

SPECS = Path(__file__).parents[2] / "specs"
FIXED = "lights: [{light: fixed}]\n"
WALL = "wall: {material: brick, thickness: 215, frame_at: 60}\n"


def resolved(name):
    loaded = pipeline.read(str(SPECS / name))
    return loaded.job, {window.mark: window for window in pipeline.windows(loaded)}


def said(sheets):
    found = [item for sheet in sheets for group in sheet.groups for item in group.items]
    found += [item for sheet in sheets for placed in sheet.placed for group in placed.view.groups for item in group.items]
    return " ".join(item.text for item in found if isinstance(item, Label))


def on_a4(job):
    return job.model_copy(update={"drawing": job.drawing.model_copy(update={"sheet": "A4"})})


def test_a_raked_frame_is_taped_by_two_diagonals_that_differ():
    """Pythagoras: 885 across, jambs of 986 and 1282: √(885² + 986²) = 1324.9 and √(885² + 1282²) = 1557.8. Made equal it would be racked."""
    job, windows = resolved("fit-opening.yaml")
    assert jamb_diagonals(window_of("frame: {width: 885}\nhead: {raked: {left: 986, right: 1282}}\n" + FIXED)) == pytest.approx((1324.9, 1557.8), abs=0.1)
    text = said(a3_sheets(windows["W4"], job))
    left, right = jamb_diagonals(windows["W4"])
    assert f"{left:.0f} from the left one, {right:.0f} from the right one" in text
    assert "equal within" not in text


@pytest.mark.parametrize(("keys", "words"), [
    ("frame: {width: 1200, height: 1600}\n", "diagonals, each about 2000, equal within 5"),   # 3-4-5 times 400
    # To the springing at 1500 - 600 = 900: 3-4-5 times 300.
    ("frame: {width: 1200, height: 1500}\nhead: {arched: {rise: 600}}\n", "diagonals from the jambs' upper ends, each about 1500, equal within 5"),
    ("circular: {diameter: 900}\n", "diameters, each 900, equal within 5"),
])
def test_other_frames_are_taped_by_equal_ones(keys, words):
    job, _ = resolved("fit-opening.yaml")
    assert words in said(a3_sheets(window_of(keys + FIXED), job))


def test_packing_under_the_sill_is_its_gap_and_its_packers():
    """fit-opening W1: the wall is 3 higher on the right, so the gap of 10.5, 7.8, 7.5 and 3 of packers are 13.5, 10.8, 10.5."""
    _, windows = resolved("fit-opening.yaml")
    gaps = [gap.mm for gap in windows["W1"].site.fitted.gaps if gap.side == "sill"]
    assert gaps == pytest.approx([10.5, 7.8, 7.5], abs=0.06)
    assert packing_words(windows["W1"]).startswith("Pack under the sill: 13.5 at the frame's left end, 10.8 in its middle, 10.5 at its right end")
    assert packing_words(windows["W2"]).startswith("Pack under the frame: ")
    assert packing_words(window_of("frame: {width: 900, height: 900}\n" + FIXED)) == ""


def test_every_gap_of_the_fit_stands_on_the_sheet():
    job, windows = resolved("fit-opening.yaml")
    for window in windows.values():
        text = said(a3_sheets(window, job))
        for side in ("left jamb", "right jamb", "head", "sill"):
            gaps = " · ".join(f"{gap.mm:.1f}" for gap in window.site.fitted.gaps if gap.side == side)
            assert gaps.count("·") >= 2
            assert gaps in text


def test_what_is_to_be_settled_names_fixings_by_the_circles_of_the_drawing():
    _, windows = resolved("fit-clash.yaml")
    window = windows["W1"]
    circles = {point.tag: number for number, point in enumerate(tightening_order(window), 1)}
    clash = next(f for f in window.findings if f.code == "fixing-clash")
    tag = clash.message.partition(",")[0]
    assert circles[tag] != int(tag[1:])
    lines = list(to_settle(window))
    assert any(line.startswith(f"{clash.subject}: the fixing in circle {circles[tag]}, ") for line in lines)
    assert not any(tag in line.split() for line in lines)


MANY = (
    "opening: {width: [1795, 1750, 1793], height: [1342, 1310, 1344], diagonals: [2240, 2200], out_of_level: -4}\n"
    "wall: {material: brick, thickness: 103, cavity: 100, inner: 100, plaster: 13, frame_at: 65, lintel: {kind: steel, height: 150, drilling: false}}\n"
    "sill: {projection: 66, horns: 50, upstand: 20, packers: 10}\nmullions: [300, 600, 900, 1200, 1500]\nsystem: flush-70\n"
    "lights:\n" + 6 * "  - {light: top-hung, vent: 4000}\n"
)


@pytest.mark.parametrize("paper", ["A3", "A4"])
@pytest.mark.parametrize("name", ["fit-clash.yaml", "fit-walls.yaml", "many"])
def test_findings_are_never_cut_off(paper, name):
    job, windows = resolved("fit-clash.yaml" if name == "many" else name)
    job = on_a4(job) if paper == "A4" else job
    for window in [window_of(MANY)] if name == "many" else windows.values():
        text = said(installer_sheets(window, job))
        for line in to_settle(window):
            assert line in text
        assert " more: run the check" not in text


@pytest.mark.parametrize("paper", ["A3", "A4"])
@pytest.mark.parametrize("keys", [
    "frame: {width: 900, height: 900}\n" + FIXED, MANY, "frame: {width: 2386, height: 1250}\n" + WALL + FIXED, "frame: {width: 1774, height: 1284}\n" + FIXED,
])
def test_pages_are_as_many_as_are_said_beforehand(paper, keys):
    """Files are named by how many there are before they are drawn."""
    job, _ = resolved("fit-walls.yaml")
    job = on_a4(job) if paper == "A4" else job
    window = window_of(keys)
    for style in ("paper", "model"):
        assert len(installer_sheets(window, job, style)) == page_count(window, job)


def test_sections_leave_the_page_where_the_marking_out_would_be_smaller_than_1_to_10_beside_them():
    job, _ = resolved("fit-walls.yaml")
    _, windows = resolved("fit-opening.yaml")
    large = windows["W1"]
    first, _, third = a3_sheets(large, job)[:3]
    assert planned(large, job).apart
    assert (first.scale, third.scale) == (10.0, 5.0)
    assert [placed.view.id for placed in first.placed] == ["marking-out"]
    assert [placed.view.id for placed in third.placed][:2] == ["wall-a-a", "wall-b-b"]
    small = window_of("frame: {width: 900, height: 900}\n" + WALL + FIXED)
    assert not planned(small, job).apart
    assert a3_sheets(small, job)[0].scale <= 10


def test_a_marking_out_alone_is_as_large_as_its_page_takes_it():
    window = window_of("frame: {width: 1792, height: 1162}\n" + WALL + FIXED)
    job, _ = resolved("fit-walls.yaml")
    sheet = a3_sheets(window, job)[0]
    assert sheet.scale == 10
    assert alone(window, sheet.placed[0].view.bounds, apex_at_hinge=True).scale == 5   # a page as large as the window itself


@pytest.mark.parametrize("scale", [10.0, 20.0, 50.0])
def test_no_unit_loses_its_tag(scale):
    low = "frame: {width: 1774, height: 1284}\nmullions: [895]\nlights:\n  - {transoms: [250], lights: [{light: top-hung}, {light: fixed}]}\n  - {light: side-hung, hinge: right}\n"
    texts = [item.text for group in marking_out(window_of(low), scale).groups for item in group.items if isinstance(item, Label)]
    assert {"G1", "G2", "G3"} <= set(texts)


@pytest.mark.parametrize(("keys", "sizes", "words"), [
    ("frame: {width: 885}\nhead: {raked: {left: 986, right: 1282}}\n", {986, 296, 1282, 885}, "Raked head, left 986, right 1282"),   # 1282 - 986 = 296
    ("frame: {width: 885}\nhead: {raked: {left: 1282, right: 986}}\n", {986, 1282, 885}, "Raked head, left 1282, right 986"),
    # Radius: 1200² / (8 x 300) + 300 / 2 = 750.
    ("frame: {width: 1200, height: 1500}\nhead: {arched: {rise: 300}}\n", {1200, 300, 1500}, "Segmental head, rise 300, radius 750"),
])
def test_shaped_frames_have_springing_rise_radius_and_both_jambs(keys, sizes, words):
    items = [item for group in marking_out(window_of(keys + FIXED), 10.0).groups for item in group.items]
    found = {round(abs(d.end.y - d.start.y) if d.upright else abs(d.end.x - d.start.x), 1) for d in items if isinstance(d, Dimension)}
    assert sizes <= found
    assert any(isinstance(item, Label) and item.text.startswith(words) for item in items)


def test_a_frame_without_sashes_is_not_weighed_with_them():
    job, _ = resolved("fit-walls.yaml")
    assert "Frame, unglazed" in said(a3_sheets(window_of("frame: {width: 900, height: 900}\n" + FIXED), job))
    assert "Frame with sashes, unglazed" in said(a3_sheets(window_of("frame: {width: 900, height: 900}\nlights: [{light: top-hung}]\n"), job))


def test_no_allowance_is_claimed_that_is_not_in_the_gap():
    """999 - 985 = 14, 7 under the frame and 7 over it, where 20 is asked for."""
    window = window_of("opening: {width: 1199, height: 999, diagonals: [1560.66, 1560.66]}\nframe: {width: 1185, height: 985}\nfit: {head_allowance: 20}\n" + FIXED)
    job, _ = resolved("fit-walls.yaml")
    text = said(installer_sheets(window, job))
    assert "of the head allowance of 20 only 7.0 is left at the tightest place" in text
    assert "hold the head allowance" not in text
