"""Moving entities: their bounds move with them, and nothing else of them changes."""

import pytest

from elevations.drawing.entities import Dimension, Fill, Label, Leader, Stroke, Symbol
from elevations.drawing.extent import bounds_of
from elevations.drawing.layers import Layer
from elevations.drawing.moving import moved
from elevations.plane import Corner, Outline, Point, rectangle

ARCH = (Corner(0, 0), Corner(100, 0, 1.0), Corner(0, 0))
ITEMS = [
    Stroke(ARCH, Layer.FRAME),
    Fill(rectangle(0, 0, 100, 50), Layer.HATCH, "#ffffff", (rectangle(10, 10, 20, 20),)),
    Label("W1", Point(5, 5), 2.5, angle=90),
    Dimension(Point(0, 0), Point(120, 10), -40, upright=False),
    Dimension(Point(0, 0), Point(12, 100), -40, upright=True, shift=1, slide=3),
    Leader((Point(0, 0), Point(30, 30)), "R 50", 2.5),
    Symbol("fixing", Point(3, 4), Layer.FIXING),
]


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: type(item).__name__)
def test_bounds_move_with_the_entity_and_back(item):
    there = moved(item, 30, -7)
    before, after = bounds_of(item, 10), bounds_of(there, 10)
    assert after == pytest.approx((before.left + 30, before.bottom - 7, before.right + 30, before.top - 7))
    assert moved(there, -30, 7) == item


def test_holes_move_with_their_area():
    there = moved(ITEMS[1], 5, 6)
    assert there.holes == (Outline(tuple(Corner(c.x + 5, c.y + 6) for c in ITEMS[1].holes[0].corners)),)
