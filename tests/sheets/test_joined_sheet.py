"""The sheet of joined windows: nothing collides, and what it says is what was worked out."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.drawing.entities import Fill
from elevations.export import FORMATS
from elevations.sheets.installer_joined import installer_set_sheets
from elevations.sheets.joined import joined_sheet, joined_sheets
from elevations.sheets.readers import Standing
from elevations.spec.model import Drawing
from tests.geometry.test_joined import a_set, bay_of, framed, sets_of
from tests.sheets.lettered import texts
from tests.sheets.test_factory import JOB, collisions

ARCHED = ("W1", {"frame": {"width": 900, "height": 700}, "head": {"arched": {"rise": 200}}})
SETS = {
    "canted bay": lambda: bay_of([600, 1200, 600], [135, 135]),
    "uneven bay": lambda: bay_of([300, 1500, 700], [120, 150]),
    "square bay": lambda: bay_of([500, 1500, 500], [90, 90]),
    "corner": lambda: bay_of([900, 900], [90]),
    "bow": lambda: bay_of([500] * 5, [150] * 4),
    "shallow bow": lambda: bay_of([400] * 7, [170] * 6, "lipped-70"),
    "tiny facets": lambda: bay_of([250] * 6, [150] * 5),
    "coupled front": lambda: bay_of([600, 800, 800, 600], [135, 180, 135]),
    "row": lambda: sets_of(framed((1200, 1050), (600, 1050), (1200, 1050)), a_set("side-by-side", 3))[0],
    "longest row": lambda: sets_of(framed(*[(1100, 2000)] * 12), a_set("side-by-side", 12))[0],
    "stack": lambda: sets_of([ARCHED, ("W2", {"frame": {"width": 900, "height": 1350}})], a_set("stacked", 2))[0],
    "high stack": lambda: sets_of(framed(*[(900, 600)] * 6), a_set("stacked", 6))[0],
}


@pytest.mark.parametrize("style", ["paper", "model"])
@pytest.mark.parametrize("name", SETS)
def test_no_text_meets_another_or_a_line_or_the_border(name, style):
    assert collisions(joined_sheet(SETS[name](), JOB, style)) == []


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_no_text_meets_another_whatever_the_bay(data):
    angles = data.draw(st.lists(st.sampled_from([90, 120, 135, 150, 180]), min_size=1, max_size=5).filter(
        lambda found: 0 < sum(180 - a for a in found) <= 180))
    widths = data.draw(st.lists(st.integers(300, 2200), min_size=len(angles) + 1, max_size=len(angles) + 1))
    assert collisions(joined_sheet(bay_of(widths, angles), JOB)) == []


@pytest.mark.parametrize("name", SETS)
def test_the_views_stay_within_the_border_and_clear_of_each_other(name):
    sheet = joined_sheet(SETS[name](), JOB)
    boxes = [tuple(v / p.scale + p.at[i % 2] for i, v in enumerate(p.view.bounds)) for p in sheet.placed]
    assert all(left >= 20 and bottom >= 10 and right <= sheet.width - 120 and top <= sheet.height - 10 for left, bottom, right, top in boxes)
    if len(boxes) > 1:
        assert boxes[0][1] > boxes[1][3]


def test_the_column_says_every_size_and_the_caution_about_load():
    bay = bay_of([600, 1200, 600], [135, 135])
    said = " ".join(text for group, text, _ in texts(joined_sheet(bay, JOB)) if group == "sheet/column")
    for figure in ("2560", "2185.1", "452.5", "2086.1", "432"):      # by hand in tests/geometry/test_joined.py
        assert figure in said
    assert "must be specified by a licensed practice" in said
    assert "nobody has said whether a wall, floor or roof above bears on it" in said
    assert said.count("bay post for 135 degrees") == 2
    assert "Demonstration profile data" in said


def test_one_scale_serves_both_views_and_the_title_block_names_it():
    sheet = joined_sheet(SETS["canted bay"](), JOB)
    assert {placed.scale for placed in sheet.placed} == {sheet.scale} == {10}
    block = [text for group, text, _ in texts(sheet) if group == "sheet/title-block"]
    assert "1:10" in block
    assert "Bay B1" in block


def test_a_drawing_program_gets_lines_and_no_tones():
    sheet = joined_sheet(SETS["canted bay"](), JOB, "model")
    assert not [item for p in sheet.placed for group in p.view.groups for item in group.items if isinstance(item, Fill)]


def test_what_does_not_fit_a4_goes_on_a3_and_says_so():
    job = JOB.model_copy(update={"drawing": Drawing(sheet="A4")})
    sheet = joined_sheet(SETS["canted bay"](), job)
    assert (sheet.width, sheet.height) == (420, 297)
    assert "Set on A3" in " ".join(text for _, text, _ in texts(sheet))
    assert collisions(sheet) == []


def test_how_approval_of_its_windows_stands_is_on_the_sheet():
    sheets = joined_sheets(SETS["corner"](), JOB, [Standing("approved"), Standing("not approved", "NOT APPROVED")])
    for (sheet,) in sheets.values():
        said = [text for _, text, _ in texts(sheet)]
        assert "NOT APPROVED" in said
        assert any("W1 approved" in text for text in said)


@pytest.mark.parametrize("way", ["side-by-side", "stacked", "bay"])
@pytest.mark.parametrize(("system", "light"), [("flush-70", "fixed"), ("lipped-70", "fixed"), ("pivot-68", "horizontal-pivot")])
def test_every_way_of_joining_is_drawn_in_every_format(system, light, way):
    more = {"angles": [135]} if way == "bay" else {}
    windows = framed((800, 1200), (800, 1200), lights=[{"light": light}])
    (joined,) = sets_of(windows, a_set(way, 2, **more), system)
    sheets = joined_sheets(joined, JOB)
    for kind in FORMATS.values():
        assert len(kind.write(sheets[kind.layout][0])) > 5000


def words_of(sheet):
    return " ".join(text for _, text, _ in texts(sheet))


def test_the_sheet_has_the_sills_as_they_are_cut_and_the_width_with_add_ons():
    """W1: 20 of add-on, 30 of horn, 1200 and half of the coupler's 20; overall 1200 + 20 + 900 = 2120, with the add-on 2140."""
    windows = framed((1200, 1000), (900, 1000), sill={"projection": 150, "horns": 30})
    windows[0][1]["fit"] = {"add_ons": {"left": 20}}
    (row,) = sets_of(windows, a_set("side-by-side", 2, carries_load=False))
    for sheet in (joined_sheet(row, JOB), installer_set_sheets(row, JOB)[0]):
        said = words_of(sheet)
        assert "W1 1260 left horn 30, end cap; right to the" in said
        assert "W2 940 left to the middle of C1, square; right" in said
        assert "Overall width 2120 the same with add-ons 2140 Overall height 1000" in said


def test_the_key_of_a_set_has_the_ways_of_opening_that_it_shows_and_no_others():
    out, away = "opens out, towards you", "opens in, away from you"
    for lights, there in (([{"light": "fixed"}], ()), ([{"light": "top-hung"}], (out,)), ([{"light": "tilt-and-turn", "hinge": "left"}], (away,))):
        windows = [(mark, {"frame": {"width": 900, "height": 1000}, "lights": lights}) for mark in ("W1", "W2")]
        (row,) = sets_of(windows, a_set("side-by-side", 2, carries_load=False))
        for sheet in (joined_sheet(row, JOB), installer_set_sheets(row, JOB)[0]):
            assert tuple(said for said in (out, away) if said in words_of(sheet)) == there
