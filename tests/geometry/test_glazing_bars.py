"""Glazing bars: sums written out, areas held against shapely, chords against the circle's formula, refusals in words."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, union_all

from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.plane import flatten
from tests.geometry.one_light import OWN
from tests.jobs import window_of

SHAPES = {
    "rectangle": "frame: {width: 900, height: 1200}",
    "arched": "frame: {width: 900, height: 1200}\nhead: {arched: {rise: 300}}",
    "half-round": "frame: {width: 900, height: 1200}\nhead: {arched: {rise: 450}}",
    "pointed": "frame: {width: 900, height: 1200}\nhead: {pointed: {rise: 600}}",
    "gable": "frame: {width: 900, height: 1200}\nhead: {gable: {apex: 450, eaves: 700}}",
    "raked": "frame: {width: 900}\nhead: {raked: {left: 900, right: 1200}}",
    "round": "circular: {diameter: 900}",
}
PATTERNS = [
    "{columns: 2, rows: 3}", "{columns: 4}", "{rows: 2}", "{margin: 120}", "{border: 100}", "{columns: 3, rows: 3, kind: in-unit}",
    "{at: {upright: [300, 500], level: [600, 800]}}",
]


def pane_of(shape, bars, light="fixed", system="flush-70"):
    return window_of(f"{shape}\nlights: [{{light: {light}, bars: {bars}}}]", system).panes[0]


def problem(bars, system="flush-70", shape=SHAPES["rectangle"]):
    with pytest.raises(SpecError) as caught:
        pane_of(shape, bars, system=system)
    assert len(caught.value.problems) == 1
    return caught.value.problems[0]


def polygon(outline):
    return Polygon([(p.x, p.y) for p in flatten(outline, 0.0005)])


def test_two_by_three_in_a_sash_by_hand():
    """flush-70: frame to sash 43, sash to sight 76; bars 24 wide."""
    pane = pane_of("frame: {width: 600, height: 1050}", "{columns: 2, rows: 3}", "top-hung")
    wide, high = 600 - 2 * (43 + 76), 1050 - 2 * (43 + 76)
    assert (wide, high) == (362, 812)
    across, down = (362 - 24) / 2, (812 - 2 * 24) / 3
    assert {(round(o.bounds.width, 6), round(o.bounds.height, 6)) for o in pane.small_panes} == {(across, round(down, 6))}
    assert len(pane.small_panes) == 6
    upright, *levels = pane.bars
    assert upright.centre.value == 119 + 169 + 12
    assert upright.length.value == 812
    assert [119 + down + 12, 119 + down + 12, 119 + 2 * (down + 24) - 12, 119 + 2 * (down + 24) - 12] == pytest.approx(
        [bar.centre.value for bar in levels])
    assert [across] * 4 == [bar.length.value for bar in levels]
    assert [bar.tag for bar in pane.bars] == ["B1", "B2", "B3", "B4", "B5"]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("bars", PATTERNS)
def test_bars_and_small_panes_tile_the_visible_glass(shape, bars):
    """Held against shapely, on copies flattened to 0.0005 mm."""
    pane = pane_of(SHAPES[shape], bars)
    faces = [polygon(bar.face) for bar in pane.bars]
    small = [polygon(outline) for outline in pane.small_panes]
    sight = polygon(pane.sight.outline)
    if "border" in bars:   # the margin round a border is glass too, and no small pane
        small.append(sight - union_all([Polygon(small[0].exterior), *faces]).buffer(0.001))
    parts = [*faces, *small]
    assert union_all(parts).symmetric_difference(sight).area < 8.0   # 0.001 mm along each edge
    assert sum(part.area for part in parts) == pytest.approx(sight.area, abs=8.0)


def test_bars_of_a_round_window_are_as_long_as_the_chord():
    """Chord of a circle at distance d from its centre: 2 * sqrt(r^2 - d^2); the bar's inner edge is the longer one."""
    pane = pane_of(SHAPES["round"], "{at: {upright: [300]}}")
    radius, nearest = 450 - 66, 450 - 300 - 12
    assert pane.bars[0].length.value == pytest.approx(2 * math.sqrt(radius**2 - nearest**2), abs=1e-6)
    assert pane.bars[0].ends == "cut to the sight line"


def test_a_border_follows_an_arched_head_about_the_same_centre():
    pane = pane_of(SHAPES["half-round"], "{border: 100}")
    bent = [bar for bar in pane.bars if bar.ends == "bent and mitred"]
    assert sum(bar.length.value for bar in bent) == pytest.approx(math.pi * (450 - 66 - 100))   # half a circle's circumference
    assert pane.small_panes[0].bounds.width == pytest.approx(900 - 2 * 66 - 2 * 100 - 2 * 24)


def test_margin_lights_leave_the_margin_visible_on_all_sides():
    pane = pane_of(SHAPES["rectangle"], "{margin: 120}")
    sizes = {(o.bounds.width, o.bounds.height) for o in pane.small_panes}
    wide, high = 900 - 2 * 66 - 2 * (120 + 24), 1200 - 2 * 66 - 2 * (120 + 24)
    assert sizes == {(120, 120), (120, high), (wide, 120), (wide, high)}
    assert len(pane.small_panes) == 9


def test_a_mirrored_pattern_is_the_mirror_image():
    one = pane_of(SHAPES["arched"], "{at: {upright: [300], level: [500]}}")
    other = pane_of(SHAPES["arched"], "{at: {upright: [600], level: [500]}}")
    ours = sorted(round(o.area, 3) for o in one.small_panes)
    assert ours == sorted(round(o.area, 3) for o in other.small_panes)
    assert {round(900 - o.bounds.right, 6) for o in one.small_panes} == {round(o.bounds.left, 6) for o in other.small_panes}


@settings(max_examples=60, deadline=None)
@given(
    width=st.integers(400, 2000), height=st.integers(400, 2000), columns=st.integers(1, 8), rows=st.integers(2, 8),
    system=st.sampled_from(["flush-70", "lipped-70"]), light=st.sampled_from(["fixed", "top-hung"]),
)
def test_equal_panes_are_equal_and_fill_the_glass_or_are_refused_in_words(width, height, columns, rows, system, light):
    try:
        pane = pane_of(f"frame: {{width: {width}, height: {height}}}", f"{{columns: {columns}, rows: {rows}}}", light, system)
    except SpecError as error:
        assert {p.code for p in error.problems} == {"glazing-bars-too-close"}   # noqa: PT017
        return
    figures = find_system(system).glazing_bars["on-face"]
    box = pane.sight.outline.bounds
    assert len(pane.small_panes) == columns * rows
    for small in pane.small_panes:
        assert small.bounds.width * columns + figures.width * (columns - 1) == pytest.approx(box.width)
        assert small.bounds.height * rows + figures.width * (rows - 1) == pytest.approx(box.height)


REFUSED = [
    ("{columns: 12, rows: 2}", "900", None),
    ("{columns: 12}", "600", "glazing-bars-too-close"),
    ("{margin: 260}", "600", "glazing-bars-too-close"),
    ("{border: 260}", "600", "glazing-bars-too-close"),
    ("{at: {upright: [70]}}", "600", "glazing-bars-too-close"),
    ("{at: {upright: [300, 310]}}", "600", "glazing-bars-too-close"),
    ("{at: {upright: [40]}}", "600", "glazing-bar-outside"),
    ("{at: {level: [1190]}}", "600", "glazing-bar-outside"),
]


@pytest.mark.parametrize(("bars", "width", "code"), REFUSED)
def test_bars_that_leave_no_glass_are_refused_where_they_are_asked_for(bars, width, code):
    shape = f"frame: {{width: {width}, height: 1200}}"
    if code is None:
        assert len(pane_of(shape, bars).small_panes) == 24
        return
    found = problem(bars, shape=shape)
    assert found.code == code
    assert found.path[:5] == ("windows", 0, "lights", 0, "bars")
    assert re.search(r"\d", found.message)
    assert found.hint


def test_a_system_without_glazing_bars_says_so_and_what_would_do(tmp_path):
    own = tmp_path / "own.yaml"
    own.write_text(OWN)
    found = problem("{columns: 2}", str(own))
    assert found.code == "no-glazing-bar"
    assert "gives no figures for on-face glazing bars" in found.message
    assert "glazing_bar: {on-face: {width: 24, depth: 12}}" in found.hint


@pytest.mark.parametrize(("figures", "code"), [
    ("{on-face: {width: 24}}", "missing-key"), ("{on-face: {width: 0, depth: 12}}", "out-of-range"), ("{onface: {}}", "unknown-key"),
    ("{on-face: 24}", "not-a-block"), ("{in-unit: {width: 18, depth: ten}}", "not-a-number"),
])
def test_wrong_figures_of_a_system_are_told_at_their_place(tmp_path, figures, code):
    own = tmp_path / "own.yaml"
    own.write_text(f"{OWN}glazing_bar: {figures}\n")
    with pytest.raises(SpecError) as caught:
        find_system(str(own))
    assert [p.code for p in caught.value.problems] == [code]
    assert caught.value.problems[0].place.line == 12


def test_a_bar_between_the_panes_needs_a_cavity_that_is_wide_enough(tmp_path):
    own = tmp_path / "own.yaml"
    own.write_text(f"{OWN}glazing_bar: {{in-unit: {{width: 18, depth: 22}}}}\n")
    found = problem("{columns: 2, kind: in-unit}", str(own))
    assert found.code == "bar-needs-cavity"
    assert "cavity of 'clear' (4/20/4) is 20 wide" in found.message
