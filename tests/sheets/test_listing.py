"""Schedules on pages: nothing lost, nothing over anything else, no number wrapped, headings where a page goes on."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.drawing.entities import Label
from elevations.drawing.extent import text_boxes
from elevations.plane import Box
from elevations.schedules.table import Column, Schedule
from elevations.sheets.listing import Gathering, listing
from elevations.sheets.page import BODY, HEIGHT, MARGIN, WIDTH, sheets_of
from elevations.spec.model import JobInfo


@dataclass(frozen=True)
class Row:
    group: str
    name: str
    length_mm: float
    places: tuple[str, ...] = ()


ROWS = Schedule(
    "rows", "Rows",
    (Column("group", "group", text=True), Column("name", "name", text=True), Column("length_mm", "length mm", decimals=1), Column("places", "for", text=True)),
    rows=lambda _: (),
    totals=lambda rows: [f"{len(rows)} rows"],
)
BY_GROUP = Gathering(heading=lambda row: row.group, spared=("group",))
INFO = JobInfo(reference="QL-07", site="Quillback Lock Cottage", client="Quillback Lock Trust", issued="2026-10-21", revision="B")


def labels(page):
    return [item for group in page.groups for item in group.items if isinstance(item, Label)]


def texts(pages):
    return [label.text for page in pages for label in labels(page)]


def test_every_row_is_there_once_with_its_decimals():
    pages = listing(ROWS, [Row("a", f"W{i}", 100 + i) for i in range(150)])
    said = texts(pages)
    assert len(pages) > 1
    assert [said.count(f"W{i}") for i in range(150)] == [1] * 150
    assert "249.0" in said
    assert said.count("length mm") == len(pages)
    assert said[-1] == "150 rows"


def test_how_rows_are_read_stands_on_the_first_page_before_them():
    first, *others = listing(ROWS, [Row("a", f"W{i}", i) for i in range(150)], ("below them",), reading=("How they are read.",))
    assert texts([first])[:2] == ["How they are read.", "group"]
    assert min(label.at.y for label in labels(first) if label.text == "How they are read.") > max(label.at.y for label in labels(first) if label.text == "W0")
    assert "How they are read." not in texts(others)
    assert texts(others)[-1] == "below them"
    assert "How they are read." not in texts(listing(ROWS, [], reading=("How they are read.",)))


@pytest.mark.parametrize("count", range(15, 75))
def test_the_totals_are_never_alone_on_a_page(count):
    *_, last = listing(ROWS, [Row("abc"[i % 3], f"W{i}", i) for i in range(count)], gathered=BY_GROUP)
    said = texts([last])
    assert said[-1] == f"{count} rows"
    assert [f"W{i}" for i in range(count - 3, count) if f"W{i}" not in said] == []


def test_pages_are_named_with_how_many_there_are():
    pages = listing(ROWS, [Row("a", f"W{i}", i) for i in range(150)])
    assert [page.title for page in pages] == [f"Rows ({n} of {len(pages)})" for n in range(1, len(pages) + 1)]
    assert [page.title for page in listing(ROWS, [Row("a", "W1", 1)])] == ["Rows"]


def test_a_group_that_goes_on_on_the_next_page_says_its_heading_again():
    pages = listing(ROWS, [Row("frame", f"W{i}", i) for i in range(60)], gathered=BY_GROUP)
    first, second = ([label.text for label in labels(page)] for page in pages[:2])
    assert "frame" in first
    assert "frame (continued)" not in first
    assert "frame (continued)" in second
    assert "group" not in first


def test_the_spared_column_is_in_no_row():
    said = texts(listing(ROWS, [Row("frame", "W1", 1), Row("sash", "W2", 2), Row("sash", "W3", 3)], gathered=BY_GROUP))
    assert (said.count("frame"), said.count("sash")) == (1, 1)


def test_no_rows_is_said():
    assert "Nothing in this job." in texts(listing(ROWS, []))


def test_no_heading_and_no_short_word_is_cut_or_broken():
    """Columns as wide as their widest text take it whole, at every text height."""
    for places in ((), tuple(f"W{i}-jamb" for i in range(30))):
        said = texts(listing(ROWS, [Row("piece", "espagnolette", 104.372, places)]))
        assert {"group", "name", "length mm", "for", "piece", "espagnolette", "104.4"} <= set(said)
        assert not [text for text in said if "…" in text]


@pytest.mark.parametrize("count", [40, 4000])
def test_long_text_wraps_over_pages_and_nothing_is_cut(count):
    pages = listing(ROWS, [Row("a", "name", 1, tuple(f"W{i}-jamb" for i in range(count))), Row("a", "next", 2)])
    said = " ".join(texts(pages))
    assert all(f"W{i}-jamb" in said for i in range(count))
    assert said.count("name ") >= 1
    for page in pages:
        assert all(_inside(box, BODY.grown(1.0)) for _, box in text_boxes(labels(page), 1.0))


def _inside(box, outer):
    return outer.left - 1e-6 <= box.left and box.right <= outer.right + 1e-6 and outer.bottom - 1e-6 <= box.bottom and box.top <= outer.top + 1e-6


word = st.text(st.characters(codec="latin-1", exclude_categories=("C",)), min_size=0, max_size=60)
rows = st.lists(st.builds(Row, st.sampled_from(["a", "b", "sash bead"]), word, st.floats(-1e5, 1e5), st.lists(word, max_size=8).map(tuple)), max_size=60)


@settings(max_examples=40, deadline=None)
@given(rows, st.booleans())
def test_nothing_overlaps_or_leaves_its_page(made, gathered):
    made = sorted(made, key=lambda row: row.group)
    for page in listing(ROWS, made, ("A note.",), BY_GROUP if gathered else None):
        boxes = [box for _, box in text_boxes(labels(page), 1.0)]
        assert all(_inside(box, BODY.grown(1.0)) for box in boxes)
        for a, b in combinations(boxes, 2):
            overlap = min(a.right, b.right) - max(a.left, b.left), min(a.top, b.top) - max(a.bottom, b.bottom)
            assert min(overlap) < 0.7, (a, b)   # boxes reach from descenders to accents: rows of text may touch there


def test_head_and_foot_say_job_page_and_cautions():
    (sheet,) = sheets_of(listing(ROWS, [Row("a", "W1", 1)]), INFO, demonstration=True, first=4, total=9)
    said = [item.text for group in sheet.groups for item in group.items if isinstance(item, Label)]
    assert "QL-07 · Quillback Lock Cottage" in said
    assert "Revision B · 2026-10-21 · Page 4 of 9" in said
    assert any("Demonstration profile data: not for manufacture" in text for text in said)
    assert any("to be confirmed on site" in text for text in said)
    page = Box(MARGIN, MARGIN, WIDTH - MARGIN, HEIGHT - MARGIN)
    # Boxes reach up to accents, half a mm over the margin.
    assert all(_inside(box, page.grown(0.5)) for _, box in text_boxes([i for g in sheet.groups for i in g.items], 1.0))


def test_a_long_title_and_job_do_not_meet():
    info = JobInfo(reference="R" * 80, site="S" * 120, client="C" * 150, revision="9" * 40)
    (sheet,) = sheets_of(listing(ROWS, []), info, demonstration=True)
    head = next(group for group in sheet.groups if group.id == "head")
    title, *job = [box for _, box in text_boxes(head.items, 1.0)]
    assert all(title.right < box.left for box in job)


def test_a_column_of_long_text_gets_more_room_than_short_ones_beside_it():
    """Three columns that don't fit: short remarks must not take as much of the page as the long ones."""
    schedule = Schedule(
        "x", "x", (Column("name", "name", text=True), Column("short", "short", text=True), Column("long", "long", text=True)), lambda _: [], lambda _: []
    )
    row = SimpleNamespace(name="W1-left jamb", short="153:F1; 653:F2; 1153:F3, and so on to the end of it", long="drainage slot 30 x 5: 109, 670; " * 12)
    (page,) = listing(schedule, [row])
    lefts = {label.text: label.at.x for label in labels(page) if label.text in ("name", "short", "long")}
    assert lefts["short"] - lefts["name"] < lefts["long"] - lefts["short"] < BODY.right - lefts["long"]
