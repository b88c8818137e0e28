"""The workbook, read back with openpyxl, which is not the library that wrote it."""

from __future__ import annotations

import io
from dataclasses import dataclass

import openpyxl
import pytest

from elevations.export.files import NOT_OURS, why_not_replaced, write_file
from elevations.export.xlsx import SheetOf, write_xlsx
from elevations.schedules.table import Column, Schedule, as_csv
from elevations.spec.model import JobInfo

INFO = JobInfo(reference="QL-07 & more", site="Quillback Lock Cottage", revision="B")
FORMULAS = ["=1+1", "+44 1", "-5 mm", "@here", '=HYPERLINK("x")', "{=1}", "http://quillback.example", "'quoted", "\t=1", "007", "1e3", "2026-10-21", "TRUE", ""]


@dataclass(frozen=True)
class Row:
    name: str
    length_mm: float | None
    count: int = 1
    tags: tuple[str, ...] = ()


ROWS = Schedule(
    "rows", "Cutting: list/1",
    (Column("name", "name", text=True), Column("length_mm", "length mm", decimals=1), Column("count", "number"), Column("tags", text=True),
     Column("said", "only for people", text=True, data=False)),
    rows=lambda _: (),
    totals=lambda rows: [f"=total {len(rows)}"],
)


def book(rows, notes=()):
    return openpyxl.load_workbook(io.BytesIO(write_xlsx([SheetOf(ROWS, rows, notes)], INFO)))


def test_a_schedule_is_a_sheet_with_its_data_columns_and_units_in_the_head():
    page = book([Row("a", 1206.0, 2, ("W1-head", "W1-sill"))]).worksheets[0]
    assert page.title == "Cutting  list 1"   # ':' and '/' are no signs of a sheet's name
    assert [cell.value for cell in page[1]] == ["name", "length mm", "number", "tags"]
    assert [cell.value for cell in page[2]] == ["a", 1206, 2, "W1-head; W1-sill"]


def test_numbers_are_numbers_with_the_columns_decimals():
    page = book([Row("a", 1206.0), Row("b", 860.6), Row("c", None)]).worksheets[0]
    assert [page.cell(r, 2).value for r in (2, 3, 4)] == [1206, 860.6, None]
    assert page.cell(2, 2).data_type == "n"
    assert page.cell(2, 2).number_format == "0.0"
    assert page.cell(2, 3).number_format == "General"


@pytest.mark.parametrize("text", FORMULAS)
def test_text_stays_text_whatever_it_starts_with(text):
    cell = book([Row(text, 1.0)]).worksheets[0].cell(2, 1)
    assert cell.value == (text.strip("\t") or None if text != "\t=1" else " =1")
    assert cell.data_type != "f"
    assert cell.hyperlink is None


def test_no_cell_of_a_hostile_sheet_is_a_formula():
    page = book([Row(text, 1.0, tags=(text,)) for text in FORMULAS], ["=1+1"]).worksheets[0]
    assert [cell.coordinate for row in page.iter_rows() for cell in row if cell.data_type == "f"] == []


def test_the_head_is_frozen_repeated_and_the_page_set_up():
    page = book([Row("a", 1.0)] * 40).worksheets[0]
    assert page.freeze_panes == "A2"
    assert page.print_title_rows in {"$1:$1", "1:1"}
    assert page.print_area == "'Cutting  list 1'!$A$1:$D$43"   # head, 40 rows, a free one, the total
    assert page.page_setup.orientation == "landscape"
    assert page.page_setup.fitToHeight == 0
    assert page.auto_filter.ref == "A1:D41"
    assert "QL-07 && more" in page.HeaderFooter.oddHeader.right.text or "QL-07 & more" in page.HeaderFooter.oddHeader.right.text


def test_every_printed_page_says_revision_date_cautions_and_its_number():
    info = INFO.model_copy(update={"issued": "2026-10-21"})
    page = openpyxl.load_workbook(io.BytesIO(write_xlsx([SheetOf(ROWS, [Row("a", 1.0)])], info, "Confirm on site."))).worksheets[0]
    foot = page.HeaderFooter.oddFooter
    assert (foot.left.text, foot.center.text, foot.right.text) == ("Confirm on site.\nRevision B · 2026-10-21", None, "Page &P of &N")


def test_a_caution_that_fills_the_foot_is_whole_and_a_longer_one_is_marked_as_cut():
    for length, end in ((135, "x"), (200, "…")):
        page = openpyxl.load_workbook(io.BytesIO(write_xlsx([SheetOf(ROWS, [Row("a", 1.0)])], INFO, "x" * length))).worksheets[0]
        first = page.HeaderFooter.oddFooter.left.text.split("\n")[0]
        assert (len(first), first[-1]) == (135, end)


def test_wrapped_text_has_a_row_as_high_as_its_lines():
    """Spreadsheets need not find a row's height for themselves: LibreOffice laid the second line over the next row."""
    page = book([Row("a", 1.0), Row("word " * 40, 1.0)]).worksheets[0]
    one, many = (page.row_dimensions[row].height for row in (2, 3))
    assert one is None   # as every row of one line
    assert many >= 13.5 * 200 / page.column_dimensions["A"].width


def test_columns_of_text_give_way_to_a_page_that_can_be_read():
    wide = Schedule("x", "x", tuple(Column(f"c{n}", "text", text=True) for n in range(8)), lambda _: [], lambda _: [])
    row = type("Wide", (), {f"c{n}": "word " * 20 for n in range(8)})()
    page = openpyxl.load_workbook(io.BytesIO(write_xlsx([SheetOf(wide, [row])], INFO))).worksheets[0]
    kept = page.column_dimensions["A"]   # like ones are kept as one: A to H
    assert (kept.min, kept.max) == (1, 8)
    assert 8 * kept.width == pytest.approx(150, abs=8)   # the format adds 0.7 to each of 18


def test_heads_of_numbers_stand_to_the_right_as_their_numbers_do():
    page = book([Row("a", 1206.0)]).worksheets[0]
    assert [cell.alignment.horizontal for cell in page[1]] == ["left", "right", "right", "left"]


def test_yes_and_no_are_words():
    schedule = Schedule("x", "x", (Column("name", "name", text=True),), lambda _: [], lambda _: [])
    page = openpyxl.load_workbook(io.BytesIO(write_xlsx([SheetOf(schedule, [Row(True, 1.0), Row(False, 1.0)])], INFO))).worksheets[0]
    assert [page.cell(r, 1).value for r in (2, 3)] == ["yes", "no"]


def test_totals_and_notes_stand_below_the_rows():
    page = book([Row("a", 1.0)], ["Ask your supplier."]).worksheets[0]
    assert [page.cell(r, 1).value for r in (3, 4, 5)] == [None, "=total 1", "Ask your supplier."]


def test_hostile_text_breaks_nothing():
    page = book([Row("\x00\x08<&>\u202e]]>\ufffe" + "x" * 40_000, 1.0)]).worksheets[0]
    assert page.cell(2, 1).value.startswith("<&>]]>xxx")
    assert len(page.cell(2, 1).value) == 32_767   # the most that a cell takes


def test_an_empty_schedule_is_an_empty_sheet():
    page = book([]).worksheets[0]
    assert page.max_row == 1


def test_the_same_rows_give_the_same_bytes():
    rows = [Row("a", 1.0)]
    assert write_xlsx([SheetOf(ROWS, rows)], INFO) == write_xlsx([SheetOf(ROWS, rows)], INFO)


def test_our_workbook_is_known_as_ours_and_another_is_not(tmp_path):
    ours, other = tmp_path / "ours.xlsx", tmp_path / "other.xlsx"
    write_file(ours, write_xlsx([SheetOf(ROWS, [])], INFO), "a job", force=False)
    openpyxl.Workbook().save(other)
    assert why_not_replaced(ours, "a job") is None
    assert why_not_replaced(other, "a job") == NOT_OURS
    assert openpyxl.load_workbook(ours).sheetnames


def test_a_csv_file_is_ours_by_its_headings(tmp_path):
    file, data = tmp_path / "rows.csv", as_csv(ROWS, [Row("a", 1.0)]).encode()
    file.write_bytes(as_csv(ROWS, []).encode())
    assert why_not_replaced(file, "a job", data) is None
    assert why_not_replaced(file, "a job")
    file.write_bytes(b"name,price\r\na,1\r\n")
    assert why_not_replaced(file, "a job", data)
