"""The picture of a fit: gaps as many times enlarged as it says, figures true, wide ones in bold."""

import re

import pytest
from shapely.geometry import LinearRing, Point, Polygon

from elevations.drawing.entities import Fill, Label, Stroke
from elevations.drawing.layers import Layer
from elevations.geometry.fit_head import head_edges, point_at
from elevations.plane import Outline, flatten
from elevations.views.fit_picture import MOST_GAP, enlargement, fit_picture
from tests.jobs import window_of

FRAME = "frame: {width: 880, height: 1340}\n"
OPENING = "opening: {width: [904, 900, 908], height: [1362, 1360, 1358], diagonals: [1629, 1639.3]}\n"
FIXED = "lights: [{light: fixed}]\n"


def items_of(window, scale=10.0):
    return [item for group in fit_picture(window, scale).groups for item in group.items]


def test_the_drawn_gap_is_the_true_one_times_what_the_title_says():
    window = window_of(FRAME + OPENING + FIXED)
    items = items_of(window)
    said = next(int(found.group(1)) for item in items if isinstance(item, Label) and (found := re.search(r"drawn (\d+) times", item.text)))
    fitted = window.site.fitted
    assert said == enlargement(fitted, 10.0)
    edge = next(item for item in items if isinstance(item, Stroke) and item.layer is Layer.WALL)
    gaps = {(gap.side, gap.place): gap.mm for gap in fitted.gaps}
    corners = edge.corners
    assert corners[7].x == pytest.approx(-gaps["left jamb", "middle"] * said)
    assert corners[3].x == pytest.approx(880 + gaps["right jamb", "middle"] * said)
    assert corners[5].y == pytest.approx(1340 + gaps["head", "middle"] * said)
    assert corners[1].y == pytest.approx(-gaps["sill", "middle"] * said)
    assert Outline(corners).area > 880 * 1340


def test_figures_are_true_and_those_for_a_trim_bold():
    window = window_of(FRAME + OPENING + FIXED)
    figures = {item.text: item.bold for item in items_of(window) if isinstance(item, Label) and re.fullmatch(r"\d+\.\d", item.text)}
    assert {f"{gap.mm:.1f}" for gap in window.site.fitted.gaps} == set(figures)
    assert {text for text, bold in figures.items() if bold} == {f"{gap.mm:.1f}" for gap in window.site.fitted.gaps if gap.mm > 15.05}


def test_no_gap_is_drawn_wider_than_the_room_for_it():
    for scale in (5.0, 10.0, 20.0):
        fitted = window_of(FRAME + OPENING + FIXED).site.fitted
        assert max(gap.mm for gap in fitted.gaps) * enlargement(fitted, scale) / scale <= MOST_GAP


def test_a_check_covers_the_edge_of_the_frame_and_says_laps():
    window = window_of(OPENING.replace("1629", "1633").replace("1639.3", "1635") + "fit: {reveal: {kind: check, lap: 25}}\n" + FIXED)
    view = fit_picture(window, 10.0)
    order = [group.id for group in view.groups]
    assert order.index("frame") < order.index("wall") < order.index("frame-behind")
    texts = " ".join(item.text for group in view.groups for item in group.items if isinstance(item, Label))
    assert "laps at jambs and head" in texts
    hole = next(item for group in view.groups if group.id == "wall" for item in group.items if isinstance(item, Fill)).holes[0]
    assert hole.bounds.width < window.width.value


@pytest.mark.parametrize(("opening", "head"), [
    ("{head: arched, width: [1206, 1204, 1205], height: [1300, 1502, 1300], diagonals: [1773, 1774]}", "arched"),
    ("{head: arched, width: 900, height: [1000, 1450, 1000]}", "half round"),
    ("{head: pointed, width: 900, height: [1000, 1700, 1000]}", "pointed"),
    ("{head: raked, width: [902, 900, 901], height: [1000, 1150, 1301], diagonals: [1346, 1583]}", "raked"),
])
def test_an_enlarged_head_is_as_far_off_the_frames_as_its_gaps_times_what_the_title_says(opening, head):
    """Measured on the picture itself by shapely, from the places of the frame's head square to it."""
    window = window_of(f"opening: {opening}\n{FIXED}")
    fitted, times = window.site.fitted, enlargement(window.site.fitted, 10.0)
    edge = next(item for item in items_of(window) if isinstance(item, Stroke) and item.layer is Layer.WALL)
    wall = LinearRing([tuple(p) for p in flatten(Outline(edge.corners), 0.001)])
    outline = window.frame.outline
    made = head_edges(window.shape, window.width.value, window.height.value, 0.0, 0.0)
    heads = [gap for gap in fitted.gaps if gap.side == "head"]
    # At the crown of a point, and at ends, the wall turns a corner: what is asked there is that it is no nearer.
    for number, gap in enumerate(heads):
        at = point_at(made, window.width.value * number / (len(heads) - 1))
        off = wall.distance(Point(*at))
        if 0 < number < len(heads) - 1 and head != "pointed":
            assert off == pytest.approx(gap.mm * times, rel=0.03)
        else:
            assert off >= 0.85 * gap.mm * times
    assert Outline(edge.corners).area > outline.area
    figures = [item for item in items_of(window) if isinstance(item, Label) and re.fullmatch(r"\d+\.\d", item.text)]
    assert len(figures) == len(fitted.gaps)
    inside = Polygon(wall)
    assert not [item.text for item in figures if inside.contains(Point(*item.at))]


def test_the_picture_names_the_frame_and_what_stands_round_it_where_there_is_room():
    window = window_of(FRAME.replace("1340", "1260") + OPENING + "fit: {add_ons: {head: 40}}\nsill: {projection: 90, height: 30, packers: 5}\n" + FIXED)
    texts = [item.text for item in items_of(window) if isinstance(item, Label)]
    assert {"frame 880 × 1260", "over it 40 add-on", "under it 30 sill, 5 packers"} <= set(texts)
    small = window_of("opening: {width: 300, height: 300, diagonals: [424.3, 424.3]}\n" + FIXED)
    assert not [text for text in (item.text for item in items_of(small) if isinstance(item, Label)) if text.startswith("frame 2")]


def test_figures_at_the_springings_stay_off_the_wall_where_an_allowance_widens_the_gap_fast():
    """5 at the springing, 13.6 at a quarter of the width: the figure stands between them, beyond the wall's edge as drawn there."""
    window = window_of("opening: {head: arched, width: 1000, height: [900, 1400, 900]}\nfinish: {outside: RAL 9016}\nfit: {head_allowance: 10}\n" + FIXED)
    items = items_of(window, 20.0)
    (edge,) = [item for item in items if isinstance(item, Stroke) and item.layer is Layer.WALL]
    hole = Polygon([(p.x, p.y) for p in flatten(Outline(edge.corners), 0.1)])
    springing = [item for item in items if isinstance(item, Label) and item.text == "5.0" and item.at.y > 900]
    assert len(springing) == 2
    assert all(hole.distance(Point(item.at.x, item.at.y)) > 20 for item in springing)   # a mm of paper


def test_a_frame_that_no_wall_laps_is_not_said_to_show_laps():
    check = "opening: {width: [1200, 1199, 1200], height: [1000, 999, 1000], diagonals: [1562, 1562]}\nfit: {reveal: {kind: check, lap: 25}}\n"
    short = window_of(check + "frame: {width: 1100, height: 900}\n" + FIXED)
    assert not any("laps" in item.text for item in items_of(short) if isinstance(item, Label))
    assert any("laps at jambs and head" in item.text for item in items_of(window_of(check + FIXED)) if isinstance(item, Label))
