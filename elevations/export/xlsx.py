"""Schedules as a workbook: a sheet each, real numbers, text that stays text, a frozen header, set up to print.

Needs xlsxwriter. A cell's kind is its column's: what looks like a formula in a column of text is text.
"""

from __future__ import annotations

import datetime as dt
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Any

import xlsxwriter

from elevations.export.marker import MARKER, printable
from elevations.schedules.table import Column, Schedule, plain_text, value_of
from elevations.spec.model import JobInfo

NO_CLOCK = dt.datetime(2000, 1, 1)  # noqa: DTZ001 - the same job gives the same bytes, so no day of its own
LONGEST_CELL, LONGEST_NAME = 32_767, 31   # limits of the format (from memory; XlsxWriter states them too)
WIDEST, NARROWEST = 60, 16
"""Of a column of text, in characters; longer text wraps."""
PAGE = 150
"""Characters across a page that can still be read when printed; columns of text give way to it, the widest first."""
LINE, ROW = 13.5, 15.0
"""Points of a line of wrapped text, and of a row of one line: spreadsheets differ in whether they find heights for themselves."""
MOST_HIGH = 409.0   # points; a limit of the format (from memory)
A4 = 9
FOOT = 255
"""Characters that a page's foot may have, codes and all (a limit of the format, from memory)."""


@dataclass(frozen=True, slots=True)
class SheetOf:
    """A schedule and its rows."""

    schedule: Schedule[Any]
    rows: Sequence[Any]
    notes: Sequence[str] = ()
    """Written below the totals."""


def write_xlsx(sheets: Sequence[SheetOf], info: JobInfo, caution: str = "") -> bytes:
    """The whole workbook, in the order of the sheets. The same rows give the same bytes.

    `caution`: at the foot of every printed page.
    """
    out = io.BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}) as book:
        book.set_properties({"title": printable(info.reference), "subject": printable(info.site), "comments": MARKER, "created": NO_CLOCK})
        formats = _formats(book)
        for sheet in sheets:
            _sheet(book.add_worksheet(_name(sheet.schedule.title)), sheet, info, caution, formats)
    return out.getvalue()


def _formats(book: Any) -> dict[str, Any]:
    return {
        "head": book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top", "num_format": "@", "align": "left", "indent": 1}),
        "head-number": book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top", "align": "right", "num_format": "@"}),
        "text": book.add_format({"text_wrap": True, "valign": "top", "num_format": "@", "align": "left", "indent": 1}),
        "total": book.add_format({"bold": True, "text_wrap": True, "valign": "top", "align": "left", "num_format": "@"}),
        "plain": book.add_format({"valign": "top"}),
        **{f"decimals-{n}": book.add_format({"valign": "top", "num_format": f"0.{'0' * n}"}) for n in (1, 2, 3)},
    }


def _sheet(page: Any, sheet: SheetOf, info: JobInfo, caution: str, formats: dict[str, Any]) -> None:
    columns = [column for column in sheet.schedule.columns if column.data]
    widths = _widths(columns, sheet.rows)
    for index, (column, width) in enumerate(zip(columns, widths, strict=True)):
        page.write_string(0, index, heading(column), formats["head" if column.text else "head-number"])
        page.set_column(index, index, width)
    page.set_row(0, _height([heading(column) for column in columns], widths))
    for number, row in enumerate(sheet.rows, 1):
        for index, column in enumerate(columns):
            _cell(page, number, index, value_of(row, column), column, formats)
        page.set_row(number, _height([plain_text(getattr(row, column.key)) if column.text else "" for column in columns], widths))
    last = len(sheet.rows)
    below = last + 2
    for said in (*(sheet.schedule.totals(sheet.rows) if sheet.rows else ()), *sheet.notes):
        _across(page, below, printable(said), widths, formats["total"])
        below += 1
    page.freeze_panes(1, 0)
    if last:
        page.autofilter(0, 0, last, len(columns) - 1)
    page.repeat_rows(0)
    page.print_area(0, 0, max(below - 1, 0), len(columns) - 1)
    page.set_landscape()
    page.set_paper(A4)
    page.fit_to_pages(1, 0)
    page.set_header(f"&L{_printed(sheet.schedule.title)}&R{_printed(' '.join(part for part in (info.reference, info.site) if part))}")
    issue = " · ".join(part for part in (f"Revision {info.revision}" if info.revision else "", info.issued or info.surveyed) if part)
    # One under the other: side by side they would be laid over each other.
    page.set_footer(f"&L{_printed(caution, FOOT - 120)}\n{_printed(issue, 60)}&RPage &P of &N")


def _across(page: Any, row: int, text: str, widths: Sequence[float], form: Any) -> None:
    """Text over all columns, wrapped, for on paper it ends with the last of them."""
    if len(widths) > 1:
        page.merge_range(row, 0, row, len(widths) - 1, "", form)
    page.write_string(row, 0, _cut(text), form)
    page.set_row(row, _height([text], [sum(widths)]))


def heading(column: Column) -> str:
    """What stands over a column: with its unit, as in the JSON and CSV."""
    return column.heading or column.key.replace("_", " ")


def _cell(page: Any, row: int, index: int, value: Any, column: Column, formats: dict[str, Any]) -> None:
    if value is None:
        return
    if not column.text:
        page.write_number(row, index, value, formats[f"decimals-{column.decimals}" if column.decimals else "plain"])
        return
    text = plain_text(value)
    if text:
        page.write_string(row, index, _cut(printable(text)), formats["text"])


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_CELL else text[: LONGEST_CELL - 1] + "…"


def _widths(columns: Sequence[Column], rows: Sequence[Any]) -> list[float]:
    """Of each column in characters: what its longest text takes, texts no wider than lets the sheet be read on paper."""
    wanted = [_longest(column, rows) for column in columns]
    for most in range(WIDEST, NARROWEST - 1, -1):
        widths = [float(min(most, width) if column.text else width) for column, width in zip(columns, wanted, strict=True)]
        if sum(widths) <= PAGE:
            break
    return widths


def _longest(column: Column, rows: Sequence[Any]) -> int:
    """Characters of its longest value, or of the longest word over it: a heading wraps."""
    longest = max((len(plain_text(getattr(row, column.key)) if column.text else str(value_of(row, column))) for row in rows), default=0)
    return max(longest, *map(len, heading(column).split()), 6) + 2


def _height(texts: Sequence[str], widths: Sequence[float]) -> float:
    """Of a row, points: that of the text with the most lines in its column."""
    lines = max(len(wrap(text, int(width))) for text, width in zip(texts, widths, strict=True))
    return min(MOST_HIGH, max(ROW, lines * LINE))


def _name(title: str) -> str:
    """A sheet's name without the signs that the format forbids."""
    return re.sub(r"[\[\]:*?/\\']", " ", title)[:LONGEST_NAME]


def _printed(text: str, most: int = 100) -> str:
    """Text for a page's head or foot, where '&' starts a code; what does not fit is marked as cut."""
    text = printable(text)
    return (text if len(text) <= most else text[: most - 1] + "…").replace("&", "&&")
