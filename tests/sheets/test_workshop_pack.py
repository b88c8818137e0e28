"""The pack's pages and lists: glass drawings, bars, and totals that agree with each other."""

from __future__ import annotations

import json
import re
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations import pipeline
from elevations.drawing.entities import Label, Stroke
from elevations.drawing.extent import text_boxes
from elevations.drawing.layers import Layer
from elevations.errors import SpecError
from elevations.sheets.bars import BARS
from elevations.sheets.glass_order import glass_page
from elevations.sheets.machining import PIECES
from elevations.sheets.page import BODY
from elevations.sheets.workshop import packed, pages, sheets, unused_off_cuts
from elevations.spec.load import parse_job
from tests.commands.typed import JOB
from tests.jobs import windows_of
from tests.properties.specs import windows as any_window


def pack_of(text=JOB, seconds=0.2):
    loaded = parse_job(text, "job.yaml")
    return packed(loaded.job, list(pipeline.windows(loaded)), seconds)


def rows(pack, key):
    return next(part.rows for part in pack.lists if part.schedule.key == key)


def labels(groups):
    return [item for group in groups for item in group.items if isinstance(item, Label)]


def test_a_window_has_its_factory_sheet_and_its_glass_then_come_the_lists():
    titles = [sheet.title for sheet in sheets(pack_of())]
    assert titles[:4] == ["Window W1, Kitchen", "Glass of window W1, Kitchen", "Window W2", "Glass of window W2"]
    kinds = [title.split(" (")[0] for title in titles[4:]]
    assert list(dict.fromkeys(kinds)) == ["Windows", "Glass order", "Cutting list", "Bars to cut", "Machining", "Hardware", "Sundries"]


def test_pages_count_through_the_whole_pack():
    made = list(sheets(pack_of()))
    said = [label.text for sheet in made for label in labels(sheet.groups) if "Page " in label.text]
    assert len(said) == len(made)
    for number, text in enumerate(said, 1):
        assert text.endswith(f"Page {number} of {len(made)}")


def test_templates_of_shaped_panes_follow_the_glass_drawing_that_points_to_them():
    text = JOB.replace("frame: {width: 900, height: 1350}", "frame: {width: 900, height: 1350}\n    head: {arched: {rise: 200}}")
    made = list(sheets(pack_of(text), ("glass",)))
    assert [sheet.title for sheet in made] == ["Glass of window W1, Kitchen", "Glass of window W2", "Template W2-G1"]
    said = [label.text for label in labels(made[1].groups)]
    assert any("cut to its template" in text for text in said)
    assert any(label.text.endswith("Page 3 of 3") for label in labels(made[2].groups))


def test_the_glass_drawing_has_each_pane_once_at_true_size_and_its_tag_and_size_large():
    window = next(w for w in windows_of("""
        - mark: W1
          frame: {width: 1810, height: 1213}
          mullions: [600, 1200]
          lights:
            - {light: side-hung, hinge: left}
            - {transoms: [350], lights: [{light: top-hung}, {light: fixed}]}
            - {light: side-hung, hinge: right}
        """))
    page = glass_page(window)
    drawing = page.placed[0]
    assert drawing.scale == 10
    panes = [item for group in drawing.view.groups for item in group.items if isinstance(item, Stroke) and item.layer is Layer.GLASS]
    assert [stroke.corners for stroke in panes] == [pane.cut.outline.corners for pane in window.panes]
    said = {label.text: label.height for label in labels(drawing.view.groups)}
    assert {tag: said[tag] >= 2.5 for tag in ("G1", "G2", "G3", "G4")} == dict.fromkeys(("G1", "G2", "G3", "G4"), True)
    assert said["554 × 789"] >= 5
    listed = [label.text for label in labels(page.groups)]
    assert [text for text in listed if text.startswith("G")] == ["G1", "G2", "G3", "G4"]


def test_the_edge_is_drawn_with_clearance_and_cover():
    page = glass_page(windows_of("- {mark: W1, frame: {width: 900, height: 900}, lights: [{light: fixed}]}")[0])
    edge = page.placed[1]
    assert edge.scale == 1
    assert "clearance 5, cover 15" in [label.text for label in labels(edge.view.groups)]   # 66 - 46 - 5


@settings(max_examples=25, deadline=None)
@given(any_window())
def test_no_text_of_a_glass_drawing_lies_over_another_or_outside_the_page(block):
    text = json.dumps({"glass": {"clear": {"make_up": "4/20/4"}}, "windows": [block]})
    loaded = parse_job(text, "job.yaml")
    page = glass_page(next(iter(pipeline.windows(loaded))))
    boxes = []
    for placed in page.placed:
        for _, box in text_boxes([i for g in placed.view.groups for i in g.items], placed.scale):
            boxes.append(tuple(v / placed.scale + (placed.at.x if n % 2 == 0 else placed.at.y) for n, v in enumerate(box)))
    boxes += [tuple(box) for _, box in text_boxes([i for g in page.groups for i in g.items], 1.0)]
    for left, bottom, right, top in boxes:
        assert BODY.left - 1 <= left <= right <= BODY.right + 1
        assert BODY.bottom - 1 <= bottom <= top <= BODY.top + 1
    for a, b in combinations(boxes, 2):
        # Boxes reach from descenders to accents, which tags and sizes don't have: 10 mm letters may share 1.5 mm.
        assert min(min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])) < 1.6, (a, b)


def test_every_piece_of_the_cutting_list_is_on_a_bar():
    pack = pack_of()
    cut = sorted(piece for row in rows(pack, "cutting") for piece in row.pieces)
    ends = {(row.bars, piece): row.ends for row in rows(pack, "cutting") for piece in row.pieces}
    on_bars = [(row.profile, *piece.split(" ", 1)[1].rsplit(" ", 1)) for row in rows(pack, "bars") for piece in row.pieces]   # '2418 W4-head 45/45'
    assert sorted(name for _, name, _ in on_bars) == cut
    assert all(ends[profile, name] == cuts for profile, name, cuts in on_bars)
    drawn = [group for page in pages(pack) if page.title.startswith("Bars to cut") for group in page.groups]
    assert len([g for g in drawn if "-piece-" in g.id]) == len(cut)


@settings(max_examples=15, deadline=None)
@given(st.lists(any_window(), min_size=1, max_size=2), st.sampled_from([0, 3, 4.5]), st.sampled_from([0, 12.5]), st.sampled_from([None, 500]))
def test_cut_lengths_and_kerf_and_trims_and_rests_are_the_bars(blocks, kerf, trim, keep):
    saw = {"kerf": kerf, "end_trim": trim, **({"keep_from": keep} if keep else {})}
    text = json.dumps({
        "glass": {"clear": {"make_up": "4/20/4"}}, "workshop": {"saw": saw},
        "windows": [{**block, "mark": f"W{i}"} for i, block in enumerate(blocks)],
    })
    pack = pack_of(text, 0.05)
    for row in rows(pack, "bars"):
        assert row.pieces_mm + row.kerf_mm + row.trims_mm + row.rest_mm == pytest.approx(row.stock_mm, abs=1e-6)
    cut = sum(round(row.length_mm * 10) * row.quantity for row in rows(pack, "cutting"))
    assert sum(round(row.pieces_mm * 10) for row in rows(pack, "bars")) == cut
    for bars in pack.bars:
        plan = bars.plan
        assert plan.pieces_mm + plan.waste_mm + plan.kept_mm == pytest.approx(plan.stock_mm, abs=1e-6)


def test_cutting_and_machining_say_on_their_first_page_how_they_are_read():
    made = pages(pack_of())
    for title, words in (("Machining", "Distances in mm along the piece as cut, weld included"), ("Cutting list", "Lengths go over the long points")):
        first = next(page for page in made if page.title.partition(" (")[0] == title)
        assert labels(first.groups)[0].text.startswith(words)


@settings(max_examples=15, deadline=None)
@given(st.lists(any_window(), min_size=1, max_size=2))
def test_beads_of_the_sundries_are_those_of_the_cutting_list(blocks):
    text = json.dumps({"glass": {"clear": {"make_up": "4/20/4"}}, "windows": [{**block, "mark": f"W{i}"} for i, block in enumerate(blocks)]})
    pack = pack_of(text, 0.05)
    cut = sum(row.quantity * row.length_mm for row in rows(pack, "cutting") if "bead" in row.profile) / 1000
    assert sum(row.quantity for row in rows(pack, "sundries") if "bead" in row.what) == pytest.approx(cut, abs=0.002)


def test_machining_by_piece_holds_every_place_of_the_list():
    pack = pack_of()
    by_piece = next(part.rows for part in pack.lists if part.schedule is PIECES)
    there = sum(len(row.along_mm) * len(row.pieces) for row in by_piece)
    assert there == len(rows(pack, "machining"))


@pytest.mark.parametrize("name", ["mullion", "transom", "mullion and transom"])   # one profile, so any of its names
def test_off_cuts_are_cut_first_and_only_into_their_own_profile(name):
    text = JOB.replace("workshop: {", f"workshop: {{off_cuts: [{{system: flush-70, profile: {name}, outside: ral 7038, inside: RAL 9016, length: 1200, count: 2}},"
                       " {system: flush-70, profile: frame, outside: RAL 9016, length: 2000}], ")
    pack = pack_of(text)
    taken = [row for row in rows(pack, "bars") if row.off_cut == "yes"]
    assert [(row.profile, row.stock_mm) for row in taken] == [("mullion and transom", 1200)]   # one mullion of 982 and the saw
    assert unused_off_cuts(pack.job, rows(pack, "cutting")) == ["flush-70 frame, 2000 mm, RAL 9016"]


def test_a_piece_longer_than_its_bar_is_told_with_what_it_is_for():
    text = JOB.replace("{width: 900, height: 1350}", "{width: 5990, height: 1350}")
    with pytest.raises(SpecError) as caught:
        pack_of(text)
    assert any("W2-head" in problem.message and "longer than the 6000 mm bar" in problem.message for problem in caught.value.problems)


def test_the_bars_page_says_how_pieces_to_bend_are_cut_and_that_their_grip_is_assumed():
    text = JOB.replace("frame: {width: 900, height: 1350}", "frame: {width: 900, height: 1350}\n    head: {arched: {rise: 200}}")
    said = " ".join(label.text for page in pages(pack_of(text)) if page.title.startswith("Bars to cut (1") for label in labels(page.groups))
    assert "250 mm longer at each end for the grip; their ends are cut after bending; grip assumed" in said
    given = pack_of(text.replace("workshop: {", "workshop: {bending: {grip: 300}, "))
    assert "grip assumed" not in given.bars[0].plan.stock.bend_words
    assert "300 mm longer" in given.bars[0].plan.stock.bend_words
    assert not any("bend" in label.text for page in pages(pack_of()) if page.title.startswith("Bars to cut") for label in labels(page.groups))


def test_a_piece_that_only_the_assumed_trim_makes_too_long_says_so():
    text = re.sub(r"saw: {[^}]*}, ", "", JOB).replace("{width: 900, height: 1350}", "{width: 5980, height: 1350}")   # 5986 > 6000 - 2 x 15
    with pytest.raises(SpecError) as caught:
        pack_of(text)
    problem = next(problem for problem in caught.value.problems if "W2-head" in problem.message)
    assert "5970 mm after 15 mm end trim at each end (assumed)" in problem.message
    assert "workshop: saw" in problem.hint


def test_bars_of_a_window_alone_are_not_asked_for():
    with pytest.raises(TypeError, match="whole job"):
        next(iter(BARS.rows(windows_of("- {mark: W1, frame: {width: 900, height: 900}, lights: [{light: fixed}]}")[0])))
