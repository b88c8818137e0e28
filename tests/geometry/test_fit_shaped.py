"""Holes under slopes and arches: the frame set in by its clearance, by sums by hand and against searches with shapely.

A circle's radius from chord and rise is any geometry handbook's: chord² / (8 rise) + rise / 2. That an arch and the one set in
from it share their centre follows from what a parallel curve is. The clearance table is from memory (see the reference notes).
"""

from __future__ import annotations

import math
import random
from itertools import product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.prepared import prep

from elevations.errors import SpecError
from elevations.geometry.fit_head import head_edges, off_edges, pieces_of
from elevations.geometry.fit_shaped import best_shaped_place, gaps_at, largest_shaped
from elevations.geometry.hole import Inward, hole_of
from elevations.plane import flatten
from elevations.shapes import Arched, Pointed, Raked
from elevations.spec.site import Opening
from tests.jobs import window_of

WHITE = "finish: {outside: RAL 9016}\n"   # 10 off each of width and height, 5 a side
FIXED = "lights: [{light: fixed}]\n"
FIVE = Inward(5, 5, 5, 5)


def sized(opening, more=WHITE):
    return window_of(f"opening: {opening}\n{more}{FIXED}")


def hole(head, width, height, diagonals=None, level=0.0):
    opening = Opening.model_construct(head=head, width=width, height=height, diagonals=diagonals, out_of_level=level)
    return hole_of(opening, ())


# Sums by hand


def test_a_segmental_arch_is_set_in_about_the_same_centre():
    """1200 wide, 200 of rise: radius 1200² / 1600 + 100 = 1000, centre 800 below the springing, which is 1000 up.

    Set in by 5: radius 995, half of 1190 is 595, so the springing is at 200 + sqrt(995² - 595²) = 997.497 and the crown at 1195.
    """
    found = largest_shaped(hole("arched", (1200,) * 3, (1000, 1200, 1000)), FIVE, 1)
    assert found.exact == pytest.approx((1190, 1190), abs=1e-4)
    assert found.exact_shape.rise == pytest.approx(1195 - (200 + math.sqrt(995**2 - 595**2)), abs=1e-4)
    assert (found.width, found.height, found.shape.rise) == (1190, 1190, 198)


def test_a_semicircle_stays_one():
    """900 wide, springing at 1000, crown at 1450: radius 450 - 5 = 445, half of 900 - 10."""
    window = sized("{head: arched, width: 900, height: [1000, 1450, 1000]}")
    assert (window.width.value, window.height.value) == pytest.approx((890, 1440))
    assert window.shape == Arched(445)
    assert {round(gap.mm, 2) for gap in window.site.fitted.gaps} == {5}


@pytest.mark.parametrize(("width", "diagonals", "made"), [(1000, "[1345.4, 1345.4]", 989), (1200, "[1562, 1562]", 1184)])
def test_a_semicircle_as_taped_stays_one(width, diagonals, made):
    """True diagonals are hypot(1000, 900) = 1345.36 and hypot(1200, 1000) = 1562.05. Half a mm less of width would let a larger arch
    spring some 20 higher: with 7.5 of clearance, 592 in a circle of 592.5, sqrt(592.5² - 592²) = 24.3 above its centre. It gains nothing to see:
    under the flatter arch 1184 x 24.3 are jambs, and the areas differ by a few parts in ten thousand."""
    up = 900 if width == 1000 else 1000
    more = WHITE if width == 1000 else "finish: {outside: RAL 7016}\n"
    window = sized(f"{{head: arched, width: {width}, height: [{up}, {up + width // 2}, {up}], diagonals: {diagonals}}}", more)
    assert window.width.value == made
    assert window.shape == Arched(made / 2)
    ((_, rise),) = window.site.fitted.head
    assert rise.value == pytest.approx(made / 2)
    assert "semicircle" in rise.terms[-1].label


def test_a_segmental_arch_is_not_made_a_semicircle():
    """Rise 300 of 1000: a semicircle in it would have jambs some 200 shorter."""
    window = sized("{head: arched, width: 1000, height: [900, 1200, 900], diagonals: [1345.4, 1345.4]}")
    assert window.shape.rise < 0.6 * window.width.value / 2


def test_an_equilateral_pointed_arch_keeps_its_centres():
    """900 wide, so both radii are 900 and the point is 900 x 0.8660 = 779.42 up. Set in: 895 about the same centres,
    which are 450 from the middle: the point is sqrt(895² - 450²) = 773.64 up."""
    found = largest_shaped(hole("pointed", (900,) * 3, (1000, 1000 + 900 * math.sqrt(3) / 2, 1000)), FIVE, 1)
    assert found.exact_shape.rise == pytest.approx(math.sqrt(895**2 - 450**2), abs=1e-3)
    assert (found.width, found.height, found.shape) == (890, 1768, Pointed(773))


def test_a_rake_is_set_in_square_to_its_slope():
    """800 across and 600 up, so 3 : 4 : 5 and 5 square to the slope is 6.25 plumb. At 5 from the left the hole is 1003.75 high,
    less 6.25 and 5 at the sill: 992.5; at 5 from the right 1596.25 - 6.25 - 5 = 1585."""
    window = sized("{head: raked, width: 800, height: [1000, 1300, 1600], diagonals: [1280.62, 1788.85]}")
    assert (window.width.value, window.height.value) == (790, 1585)
    assert window.shape == Raked(992, 1585)
    found = largest_shaped(hole("raked", (800,) * 3, (1000, 1300, 1600), (math.hypot(800, 1000), math.hypot(800, 1600))), FIVE, 1)
    assert (found.exact_shape.left, found.exact_shape.right) == pytest.approx((992.5, 1585), abs=1e-6)


def test_a_raked_heads_top_width_is_level_at_the_lower_jamb():
    """Upright jambs 800 apart: corners at (0, 1000) and (800, 1600), both ways round, though the slope itself is 1000 long."""
    low_left = hole("raked", (800,) * 3, (1000, 1300, 1600), (math.hypot(800, 1000), math.hypot(800, 1600)))
    assert [(round(p.x, 6), round(p.y, 6)) for p in low_left.corners] == [(0, 0), (800, 0), (800, 1600), (0, 1000)]
    assert low_left.closing == pytest.approx(0)
    low_right = hole("raked", (800,) * 3, (1600, 1300, 1000), (math.hypot(800, 1600), math.hypot(800, 1000)))
    assert [(round(p.x, 6), round(p.y, 6)) for p in low_right.corners] == [(0, 0), (800, 0), (800, 1000), (0, 1600)]
    guessed = hole("raked", (800,) * 3, (1000, 1300, 1600))   # without diagonals as square as its sides allow
    assert guessed.corners[2] == pytest.approx((800, 1600), abs=1e-6)


def test_a_head_allowance_under_an_arch_is_kept_upright():
    """A semicircle of 450: 20 of allowance moves the whole arch down by 20, and takes nothing off the width."""
    window = sized("{head: arched, width: 900, height: [1000, 1450, 1000]}", WHITE + "fit: {head_allowance: 20}\n")
    assert (window.width.value, window.height.value, window.shape) == (890, 1420, Arched(445))
    at = {(gap.side, gap.place): round(gap.mm, 2) for gap in window.site.fitted.gaps}
    assert at["head", "crown"] == 25
    assert at["head", "left springing"] == 5   # beside the springing the tape is level, and the allowance is above


def test_a_check_laps_an_arch_all_along():
    """1200 wide, radius 1000, lapped by 20: 1240 wide, and the arch 1020 about the same centre, its crown 20 behind."""
    window = sized("{head: arched, width: 1200, height: [1000, 1200, 1000]}", WHITE + "fit: {reveal: {kind: check, lap: 20}}\n")
    assert (window.width.value, window.height.value) == (1240, 1200 + 20 - 5)
    laps = [gap.mm for gap in window.site.fitted.gaps if gap.side == "head"]
    assert all(-20.01 <= mm <= -19 for mm in laps), laps


def test_every_size_of_a_shaped_frame_is_the_sum_of_its_terms():
    window = sized("{head: arched, width: [903, 900, 902], height: [1002, 1440, 1000], diagonals: [1346, 1350]}",
                   WHITE + "fit: {head_allowance: 4, round_to: 5}\nsill: {projection: 150, height: 30, packers: 3}\n")
    (name, rise), = window.site.fitted.head
    assert name == "rise"
    assert (rise.value, window.width.value % 5, window.height.value % 5) == pytest.approx((window.shape.rise, 0, 0))
    for working in (window.width, window.height, rise):
        assert working.value == pytest.approx(sum(term.amount for term in working.terms), abs=1e-9)
    assert window.site.fitted.play >= 5 - 0.05


# Against a search that knows nothing of arcs: shapely shrinks the hole's head once, and says what lies inside


class Oracle:
    """A hole as polygons: what a frame's head must lie in, and its other sides as numbers; `c` off each."""

    def __init__(self, of, c):
        self.kind, self.c, self.of = of.kind, c, of
        left, right = of.head[0], of.head[-1]
        points = [(right.x, right.y), (left.x, left.y)]
        if of.crown is not None:
            assert left.y == pytest.approx(right.y, abs=1e-9)   # so that a frame's shape can stand for the arch
            rise = of.crown.y - left.y
            shape = Arched(rise) if of.kind == "arched" else Pointed(rise)
            points = [(p.x + left.x, p.y + left.y - 2 * rise) for p in flatten(shape.outline(right.x - left.x, 3 * rise), 0.0002) if p.y >= 2 * rise - 1e-6]
        self.room = prep(Polygon([(points[-1][0], -9000), (points[0][0], -9000), *points]).buffer(-c + 1e-3, quad_segs=512))

    def side(self, line, y):
        (a, b) = (line[0], line[1]) if y <= line[1].y else (line[-2], line[-1])
        return a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)

    def area(self, left, right, bottom, ends):
        """Of the frame; 0 where it does not keep its distance. `ends`: springing and rise, or the two jambs' heights."""
        half = (right - left) / 2
        if half <= 5 or min(ends) <= 0 or bottom < self.c - 1e-3:
            return 0.0
        if self.kind != "raked" and not (5 <= ends[1] <= half if self.kind == "arched" else ends[1] > half + 0.01):
            return 0.0
        shape = Raked(*ends) if self.kind == "raked" else Arched(ends[1]) if self.kind == "arched" else Pointed(ends[1])
        outline = shape.outline(right - left, max(ends) if self.kind == "raked" else sum(ends))
        points = [(p.x + left, p.y + bottom) for p in flatten(outline, 0.02)]
        ups = (ends[0], ends[1]) if self.kind == "raked" else (ends[0], ends[0])
        for line, sign, x, up in ((self.of.left, 1, left, ups[0]), (self.of.right, -1, right, ups[1])):
            ys = [bottom, bottom + up, *(p.y for p in line[1:-1] if bottom < p.y < bottom + up)]
            if any(sign * (x - self.side(line, y)) < self.c - 1e-3 for y in ys):
                return 0.0
        return Polygon(points).area if self.room.contains(LineString(points[2:] if self.kind == "raked" else points[1:])) else 0.0


def searched(oracle):
    """The largest frame by random steps that shrink; under an arch with the springing as high as the oracle lets it."""
    of, c = oracle.of, oracle.c
    arch = of.kind != "raked"

    def worth(at):
        left, right, bottom, *ends = at
        if not arch:
            return oracle.area(left, right, bottom, ends)
        low, high = 1.0, of.head[0].y
        for _ in range(20):
            middle = (low + high) / 2
            low, high = (middle, high) if oracle.area(left, right, bottom, (middle, ends[0])) else (low, middle)
        return oracle.area(left, right, bottom, (low, ends[0]))

    tops = of.head[0].y - 3 * c, of.head[-1].y - 3 * c
    rise = of.crown.y - of.head[0].y if arch else 0.0
    at = [of.left[0].x + 2 * c, of.right[0].x - 2 * c, c + 0.1, *((rise - c / 2,) if arch else tops)]
    best, step, dice = worth(at), 12.0, random.Random(7)
    while step > 0.01:
        for _ in range(25 if arch else 150):
            tried = [a + dice.uniform(-step, step) for a in at]
            area = worth(tried)
            if area > best:
                best, at = area, tried
        step *= 0.7
    return best, at


@pytest.mark.parametrize("of", [
    hole("arched", (900,) * 3, (700, 820, 700)),
    hole("arched", (800, 803, 806), (700, 1000, 700)),          # jambs that spread, and nearly a semicircle
    hole("pointed", (700,) * 3, (600, 1150, 600)),
    hole("raked", (800,) * 3, (600, 720, 840), (math.hypot(800, 600), math.hypot(800, 840))),
], ids=["segmental", "spreading", "pointed", "raked"])
def test_no_search_finds_a_larger_frame(of):
    c = 6.0
    found = largest_shaped(of, Inward(c, c, c, c), 1)
    area, sides = searched(Oracle(of, c))
    mine = found.exact_shape.outline(*found.exact).area
    assert mine >= area - 40   # of some 700,000: the chords and the thousandth of a mm that the oracle lets pass
    assert area >= 0.996 * mine   # and it comes near: up a narrow ridge, random steps get no further
    assert sides[1] - sides[0] == pytest.approx(found.exact[0], abs=1)


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(["arched", "pointed", "raked"]), st.integers(500, 2400), st.integers(500, 1500), st.floats(0.06, 0.98),
    st.floats(-8, 8), st.floats(-8, 8), st.integers(-6, 6), st.sampled_from([1, 5]), st.sampled_from([3, 5, 8]),
)
def test_a_frame_made_keeps_its_clearance_in_any_hole(kind, width, jamb, share, lean, taper, level, to, c):
    """Judged by many places along the head and the exact sides; the frame made is little smaller than the exact one."""
    rise = {"arched": share * width / 2, "pointed": width * (0.52 + share), "raked": share * width * 0.5}[kind]
    heights = (jamb, jamb + rise / 2, jamb + rise) if kind == "raked" else (jamb + taper / 2, jamb + rise, jamb)
    first = math.hypot(width, jamb) + lean / 2
    try:
        of = hole(kind, (width + taper, width + taper / 2 - 1, width), heights, (first, first), level)
    except SpecError:
        assume(False)   # leans more than is believed
    found = largest_shaped(of, Inward(c, c, c, c), to)
    assert found is not None
    box = best_shaped_place(of, Inward(), found.shape, found.width, found.height, c)
    sides = gaps_at(of, Inward(), found.shape, found.width, found.height)(box.left, box.bottom)
    assert min(sides) >= c - 0.06
    edges = head_edges(found.shape, found.width, found.height, box.left, box.bottom)
    pieces = pieces_of(of)
    outline = found.shape.outline(found.width, found.height).moved(box.left, box.bottom)
    points = [p for p in flatten(outline, 0.01) if p.y >= min(a.y for a, _ in edges) - 1e-9 or p.y >= min(b.y for _, b in edges) - 1e-9]
    for piece in pieces:
        assert all(piece.off(p) >= c - 0.08 for p in points)
    assert off_edges(pieces, edges) >= c - 0.06
    exact = found.exact_shape.outline(*found.exact).area
    made = found.shape.outline(found.width, found.height).area
    assert exact - made <= (to + 1.5) * (found.exact[0] + 2 * found.exact[1])


@pytest.mark.parametrize(("kind", "heights", "shape", "size"), [
    ("arched", (1000, 1200, 1000), Arched(190), (1170, 1180)), ("pointed", (1000, 1700, 1000), Pointed(690), (1180, 1670)),
    ("raked", (900, 1050, 1200), Raked(880, 1178), (1180, 1178)),
])
def test_the_best_place_of_a_given_frame_leaves_no_other_with_a_larger_smallest_gap(kind, heights, shape, size):
    of = hole(kind, (1206, 1203, 1200), heights, (math.hypot(1200, heights[0]) + 2,))
    box = best_shaped_place(of, Inward(), shape, *size, math.inf)
    gaps = gaps_at(of, Inward(), shape, *size)
    best = min(gaps(box.left, box.bottom))
    for dx, dy in product((-4, -1, -0.3, 0, 0.3, 1, 4), repeat=2):
        assert min(gaps(box.left + dx, box.bottom + dy)) <= best + 0.11   # a tenth is given up for standing in the middle


def test_a_given_frame_that_is_too_high_under_its_arch_is_refused():
    text = "frame: {width: 1190, height: 1190}\nhead: {arched: {rise: 240}}\nopening: {head: arched, width: 1200, height: [1000, 1200, 1000]}\n"
    window = window_of(text + FIXED)          # more rise than the hole's: it stands lower at its springings
    assert window.site.fitted.smallest > 4
    with pytest.raises(SpecError) as caught:
        window_of(text.replace("1190}", "1203}", 1) + FIXED)
    assert [p.code for p in caught.value.problems] == ["frame-too-large"]
    with pytest.raises(SpecError) as caught:   # as wide and high as the hole, but flatter than its arch
        window_of(text.replace("240", "170") + FIXED)
    assert [p.code for p in caught.value.problems] == ["frame-too-large"]
