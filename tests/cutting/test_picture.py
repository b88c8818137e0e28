"""Bars drawn: to scale, texts clear of each other and of the lines; and the pieces of a job named once each."""

import math
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.cutting.job import BarSet, bar_sets
from elevations.cutting.picture import (
    BAR_MM,
    FORMED_TONE,
    NUMBER_MM,
    PIECE_TONE,
    PITCH_MM,
    REST_MM,
    bar_picture,
    bars_that_fit,
    hatching,
)
from elevations.cutting.plan import plan
from elevations.cutting.stock import Stock
from elevations.drawing.entities import Fill, Stroke
from elevations.drawing.extent import bounds_of, bounds_of_all, text_boxes
from elevations.drawing.layers import Layer
from elevations.errors import SpecError
from elevations.plane import Box
from elevations.schedules.cutting import cutting_rows, merged
from tests.jobs import windows_of

TWO_WINDOWS = """
- {mark: W1, frame: {width: 1200, height: 1050}, mullions: [600], lights: [{light: side-hung, hinge: left}, {light: fixed}]}
- {mark: W2, frame: {width: 1200, height: 900}, lights: [{light: top-hung}]}
"""

RAKED = """
- mark: W1
  frame: {width: 1200, height: 1400}
  head: {raked: {left: 1100, right: 1400}}
  mullions: [600]
  lights: [{light: fixed}, {transoms: [800], lights: [{light: fixed}, {light: fixed}]}]
"""


def rows_of(text):
    return merged(row for window in windows_of(text) for row in cutting_rows(window))


def any_set(pieces, stock):
    made = plan(pieces, stock, 20)
    numbers = iter(range(10_000))
    return BarSet("sash", "flush-70", "RAL 7038", "", made, tuple(
        tuple(f"W{next(numbers)}-S1 bottom rail" for _ in bar.pieces_mm) for bar in made.bars
    ))


def drawn(bars, **more):
    return bar_picture(bars, left=10, top=190, width=277, prefix="bars", **more)


def test_every_piece_of_a_job_comes_out_of_exactly_one_bar():
    rows = rows_of(TWO_WINDOWS)
    sets = bar_sets(rows)
    asked = Counter((row.bars, piece) for row in rows for piece in row.pieces)
    given_out = Counter((s.profile, piece) for s in sets for bar in s.pieces for piece in bar)
    assert asked == given_out
    assert set(asked.values()) == {1}
    lengths = {(row.bars, piece): row.length_mm for row in rows for piece in row.pieces}
    for s in sets:
        for bar, names in zip(s.plan.bars, s.pieces, strict=True):
            assert [lengths[s.profile, name] for name in names] == list(bar.pieces_mm)


def test_ends_are_said_once_and_with_each_piece_that_is_cut_otherwise():
    raked = next(s for s in bar_sets(rows_of(RAKED)) if s.profile == "mullion and transom")
    assert (raked.ends_words, raked.named(0)) == ("ends 90/90 unless said", ("W1-M1 76/90", "W1-T1"))
    square = next(s for s in bar_sets(rows_of(TWO_WINDOWS)) if s.profile == "frame")
    assert (square.ends_words, square.named(0)) == ("ends 45/45", square.pieces[0])
    assert drawn(square).groups[0].items[1].text.startswith("ends 45/45; ")


ODD = """
- {mark: A1, frame: {width: 1000, height: 1500}, head: {arched: {rise: 300}}, lights: [{light: fixed}]}
- {mark: G1, frame: {width: 1600, height: 1800}, head: {gable: {apex: 800, eaves: 1100}}, mullions: [800], lights: [{light: fixed}, {light: fixed}]}
"""


def test_what_is_bent_comes_off_the_saw_square_and_longer_by_the_grip():
    radius = (500**2 + 300**2) / (2 * 300)
    arc = 2 * radius * math.asin(500 / radius)   # 1225.0: of a circle over a chord of 1000 and a rise of 300
    frame = next(s for s in bar_sets(rows_of(ODD), lambda _: Stock(6000, kerf_mm=4, end_trim_mm=15, grip_mm=200)) if s.profile == "frame")
    ((length, name),) = [
        (length, name) for number, bar in enumerate(frame.plan.bars)
        for length, name in zip(bar.pieces_mm, frame.named(number), strict=True) if "A1-head" in name
    ]
    assert name == "A1-head to bend 90/90"   # and not 76/76, which is cut once it is bent
    assert length == pytest.approx(arc + 2 * 3 + 2 * 200, abs=0.05)   # weld 3 and grip 200 at each end
    beads = next(s for s in bar_sets(rows_of(ODD), lambda _: Stock(6000, grip_mm=200)) if s.profile.startswith("frame bead"))
    assert beads.bends
    assert sum("to bend" in name for number in range(len(beads.plan.bars)) for name in beads.named(number)) == 1


def test_an_end_of_two_cuts_is_said_on_the_bar_and_its_piece_is_shaded():
    bars = next(s for s in bar_sets(rows_of(ODD)) if s.profile == "mullion and transom")
    assert bars.named(0) == ("G1-M1 top end two cuts",)
    (piece,) = [group for group in drawn(bars).groups if "-piece-" in group.id]
    assert [item.tone for item in piece.items if isinstance(item, Fill)] == [FORMED_TONE]
    assert "top end two cuts" in piece.title
    plain = next(s for s in bar_sets(rows_of(TWO_WINDOWS)) if s.profile == "frame")
    assert {item.tone for group in drawn(plain).groups if "-piece-" in group.id for item in group.items if isinstance(item, Fill)} == {PIECE_TONE}


def test_a_piece_that_only_its_grip_makes_too_long_says_so():
    wide = "- {mark: A1, frame: {width: 5000, height: 1500}, head: {arched: {rise: 700}}, lights: [{light: fixed}]}\n"
    with pytest.raises(SpecError, match="A1-head, to bend, 400 mm longer at each end for the grip: a piece of 60"):
        bar_sets(rows_of(wide), lambda _: Stock(6000, grip_mm=400))


def test_a_narrow_piece_keeps_its_mark_and_tag_whole():
    text = "- {mark: W12, frame: {width: 1400, height: 1300}, lights: [{light: fixed, bars: {columns: 7, rows: 2}}]}\n"
    bars = next(s for s in bar_sets(rows_of(text)) if s.profile.startswith("glazing bar"))
    labels = [item.text for group in drawn(bars).groups for item in group.items if hasattr(item, "text")]
    assert "W12-B10" in labels
    assert not [label for label in labels if "…" in label]


def test_profiles_and_finishes_are_not_cut_from_one_bar():
    other = TWO_WINDOWS.replace("{light: top-hung}]", "{light: top-hung}], finish: {outside: RAL 7038}")
    sets = bar_sets(rows_of(other))
    assert len({(s.profile, s.finish_outside) for s in sets}) == len(sets)
    assert [s.title for s in sets if s.profile == "frame"] == ["flush-70 frame", "flush-70 frame, RAL 7038 outside"]


def test_off_cuts_are_asked_for_by_profile():
    sets = bar_sets(rows_of(TWO_WINDOWS), lambda rows: Stock(6000, off_cuts={1000: 1} if rows[0].profile == "mullion" else {}))
    assert [s.profile for s in sets for bar in s.plan.bars if bar.off_cut] == ["mullion and transom"]


def test_pieces_too_long_for_their_bars_are_all_named_with_what_they_are_for():
    with pytest.raises(SpecError) as caught:
        bar_sets(rows_of(TWO_WINDOWS), lambda _: Stock(1080))
    texts = [problem.message for problem in caught.value.problems]
    assert texts[0].startswith("frame for W1-")
    assert texts[0].endswith("4 pieces of 1206 mm are longer than the 1080 mm bar")
    assert any(text.startswith("frame reinforcement for ") for text in texts)


def test_impossible_stock_is_said_once_for_each_profile():
    with pytest.raises(SpecError) as caught:
        bar_sets(rows_of(TWO_WINDOWS), lambda _: Stock(6000, kerf_mm=-4))
    assert len(caught.value.problems) == len(bar_sets(rows_of(TWO_WINDOWS)))


def test_pieces_are_drawn_to_one_scale():
    bars = any_set({2000: 3, 1500: 4, 777.7: 2}, Stock(6000, kerf_mm=4, end_trim_mm=15, off_cuts={1600: 1}))
    scale = (277 - NUMBER_MM - REST_MM) / 6000
    pieces = [group for group in drawn(bars).groups if "-piece-" in group.id]
    assert len(pieces) == 9
    for group in pieces:
        outline = next(item for item in group.items if isinstance(item, Stroke))
        box = bounds_of(outline, 1)
        assert box.width == pytest.approx(float(dict(group.data)["length_mm"]) * scale)
        assert box.height == BAR_MM


def test_trims_kerfs_and_rest_lie_where_the_saw_leaves_them():
    scrap, kept = (any_set({2000: 2, 1000: 1}, Stock(6000, 40, 150, {}, keep)) for keep in (None, 500))
    scale, zero = (277 - NUMBER_MM - REST_MM) / 6000, 10 + NUMBER_MM
    for bars, far_trim in ((scrap, 150), (kept, 0)):
        groups = {group.id: group for group in drawn(bars).groups}
        starts = [
            (bounds_of_all([i for i in groups[f"bars-bar-1-piece-{n}"].items if isinstance(i, Stroke)], 1).left - zero) / scale
            for n in (1, 2, 3)
        ]
        assert starts == pytest.approx([150, 150 + 2000 + 40, 150 + 2 * (2000 + 40)])
        hatched = bounds_of_all([i for i in groups["bars-bar-1"].items if isinstance(i, Stroke) and i.layer is Layer.HATCH], 1)
        assert (hatched.left - zero) / scale == pytest.approx(150 + 2 * 2040 + 1000 + 40, abs=1)
        assert (hatched.right - zero) / scale == pytest.approx(6000 - far_trim, abs=1)
        trims = [bounds_of(i, 1) for i in groups["bars-bar-1"].items if isinstance(i, Fill)]
        assert [round((t.left - zero) / scale) for t in trims] == [0, 5850][: 2 if far_trim else 1]


def test_part_of_a_set_is_drawn_for_a_page_that_holds_no_more():
    bars = any_set({5000: 7}, Stock(6000))
    fits = bars_that_fit(12 + 3 * PITCH_MM)
    assert fits == 3
    first, second = drawn(bars, count=3), drawn(bars, first=3, count=3)
    assert [g.title.split(":")[0] for g in second.groups if g.id.count("-") == 2 and "heading" not in g.id] == ["4", "5", "6"]
    assert first.bottom == 190 - 12 - 3 * PITCH_MM
    assert not {g.id for g in first.groups} & {g.id for g in second.groups} - {"bars-heading"}


def test_a_piece_too_narrow_for_text_is_named_beside_its_bar():
    picture = drawn(any_set({5000: 1, 20: 1}, Stock(6000)))
    narrow = next(group for group in picture.groups if group.id == "bars-bar-1-piece-2")
    assert not text_boxes(narrow.items, 1)
    bar = next(group for group in picture.groups if group.id == "bars-bar-1")
    assert "narrow: 20" in [text for text, _ in text_boxes(bar.items, 1)]


def test_a_list_of_narrow_pieces_is_never_cut_short():
    bars = any_set({5000: 1, 20: 4, 31: 1}, Stock(6000))
    texts = [text for group in drawn(bars).groups for text, _ in text_boxes(group.items, 1)]
    assert "narrow: 31, 4 x 20" in texts
    many = any_set({4000: 1, **{20.5 + n: 1 for n in range(12)}}, Stock(6000))
    assert "12 narrow: see list" in [text for group in drawn(many).groups for text, _ in text_boxes(group.items, 1)]


def test_an_empty_set_is_only_a_heading():
    assert len(drawn(any_set({}, Stock())).groups) == 1


@given(
    st.dictionaries(st.integers(100, 59000).map(lambda n: n / 10), st.integers(1, 3), min_size=1, max_size=9),
    st.sampled_from([0, 4.0]), st.sampled_from([0, 15.0]),
)
@settings(max_examples=60, deadline=None)
def test_texts_stay_clear_of_each_other_and_inside_their_piece(pieces, kerf, trim):
    bars = any_set(pieces, Stock(6000, kerf, trim, {1500: 1}, 500))
    picture = drawn(bars)
    texts = [box for group in picture.groups for _, box in text_boxes(group.items, 1)]
    for i, one in enumerate(texts):
        assert not any(one.overlaps(other) for other in texts[i + 1:])
    for group in picture.groups:
        inside = bounds_of_all([i for i in group.items if isinstance(i, Stroke) and i.layer is Layer.SHEET], 1) if "-bar-" in group.id else None
        for _, box in text_boxes(group.items, 1):
            if "-piece-" in group.id:
                assert inside.left <= box.left
                assert box.right <= inside.right
                assert inside.bottom <= box.bottom
                assert box.top <= inside.top
            elif inside:
                assert not box.overlaps(inside)
    page = bounds_of_all([item for group in picture.groups for item in group.items], 1)
    assert page.right <= 10 + 277 + 0.2
    assert page.left >= 10 - 0.2


@given(st.floats(0.01, 200), st.floats(1, 20))
def test_hatching_stays_in_its_box_and_rises_at_45_degrees(width, height):
    box = Box(3, 5, 3 + width, 5 + height)
    for line in hatching(box):
        a, b = line.corners
        assert b.x - a.x == pytest.approx(b.y - a.y)
        for corner in (a, b):
            assert box.left - 1e-9 <= corner.x <= box.right + 1e-9
            assert box.bottom - 1e-9 <= corner.y <= box.top + 1e-9
