"""The picture of a fit: gaps as many times enlarged as it says, figures true, wide ones in bold."""

import re

import pytest

from elevations.drawing.entities import Fill, Label, Stroke
from elevations.drawing.layers import Layer
from elevations.plane import Outline
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
