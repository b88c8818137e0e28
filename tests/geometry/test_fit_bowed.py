"""Slopes that bow: the frame set in by sums by hand, its gaps against shapely, which knows the surveyed slope as a bent line."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import LineString, Polygon

from elevations.geometry.fit_head import head_edges, off_edges, pieces_of
from elevations.geometry.fit_shaped import best_shaped_place, head_gaps, largest_shaped
from elevations.geometry.hole import Inward
from elevations.shapes import Raked
from tests.geometry.test_fit_shaped import FIVE, hole, sized


@pytest.mark.parametrize("low_left", [True, False])
def test_under_a_rake_that_bows_inwards_the_gap_is_by_the_slope_as_surveyed(low_left):
    """800 across and 600 up, 3 : 4 : 5; the middle height 1280 is 20 short of 1300: 10 off the sill, 10 off the slope.

    10 plumb is 10 x 0.8 = 8 square to the slope, so the frame, 5 below the bow, is 5 + 8 = 13 below the slope's ends; a little more or
    less, because its own ends are a few mm beside them along slopes that fall 8 in 500.
    """
    heights, diagonals = (1000, 1280, 1600), (math.hypot(800, 1000), math.hypot(800, 1600))
    of = hole("raked", (800,) * 3, heights if low_left else heights[::-1], diagonals if low_left else diagonals[::-1])
    found = largest_shaped(of, FIVE, 1)
    box = best_shaped_place(of, Inward(), found.shape, found.width, found.height, 5)
    left, middle, right = head_gaps(of, found.shape, box)
    assert middle == pytest.approx(5, abs=0.6)     # sizes are rounded down: at most a mm of it
    assert left == pytest.approx(13, abs=0.8)
    assert right == pytest.approx(13, abs=0.8)
    wall = Polygon([(p.x, p.y) for p in of.head] + [(of.head[-1].x + 50, 9000), (of.head[0].x - 50, 9000)])
    edge = LineString([(p.x, p.y) for p in head_edges(found.shape, found.width, found.height, box.left, box.bottom)[0]])
    assert off_edges(pieces_of(of), head_edges(found.shape, found.width, found.height, box.left, box.bottom)) == pytest.approx(wall.distance(edge), abs=1e-6)


def test_a_rake_that_bows_outwards_is_sized_by_its_corners():
    """The middle height 1320 is 20 more than 1300: 10 each. Sized as if straight, and 5 + 8 = 13 square to the slope in the middle."""
    of = hole("raked", (800,) * 3, (1000, 1320, 1600), (math.hypot(800, 1000), math.hypot(800, 1600)))
    found = largest_shaped(of.straightened(), FIVE, 1)
    assert (found.exact_shape.left, found.exact_shape.right) == pytest.approx((992.5, 1585), abs=1e-6)
    window = sized("{head: raked, width: 800, height: [1000, 1320, 1600], diagonals: [1280.62, 1788.85]}")
    at = {(gap.side, gap.place): gap.mm for gap in window.site.fitted.gaps}
    assert (window.width.value, window.shape) == (790, Raked(992, 1585))
    assert at["head", "middle"] == pytest.approx(13.2, abs=0.4)
    assert at["head", "left"] == pytest.approx(5.2, abs=0.4)
    assert at["sill", "middle"] == pytest.approx(15, abs=0.3)
