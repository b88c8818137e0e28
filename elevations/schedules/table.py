"""Rows out: as a table for people, as JSON and as CSV for programs. What a schedule holds is said by its columns."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.spec.model import Job

Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class Column:
    """One field of a row. A number without `decimals` is shown as it is."""

    key: str
    """The row's attribute; the name in JSON and CSV, which carries the unit."""
    heading: str = ""
    """Over the column of a table; empty leaves it to programs."""
    text: bool = False
    decimals: int | None = None
    data: bool = True
    """Whether JSON and CSV have it; a column that only puts other fields into words is for the table alone."""


@dataclass(frozen=True, slots=True)
class Schedule(Generic[Row]):
    """A kind of schedule: which rows a window gives, which columns they have, what is added up below them."""

    key: str
    title: str
    columns: tuple[Column, ...]
    rows: Callable[[Window], Iterable[Row]]
    totals: Callable[[Sequence[Row]], list[str]]
    joined: Callable[[Sequence[Row]], Sequence[Row]] = list
    """For a whole job: rows of several windows that are one made one. As they are where a row is one window's own."""
    of_joined: Callable[[Joined], Iterable[Row]] | None = None
    """What a set of joined windows adds to the rows of its windows."""
    for_job: Callable[[Job], Schedule[Row]] | None = None
    """The same with what the job says beside its windows, where its rows hang on that."""


def tidy(number: float, decimals: int) -> float | int:
    """A number rounded for people and programs: 420 and not 420.0, 7.1 and not 7.0999999."""
    rounded = round(float(number), decimals)
    return int(rounded) if rounded == int(rounded) else rounded


def as_table(schedule: Schedule[Row], rows: Sequence[Row]) -> str:
    """Aligned columns, numbers to the right, and the totals below."""
    columns = [column for column in schedule.columns if column.heading]
    cells = [[shown(getattr(row, column.key), column) for column in columns] for row in rows]
    widths = [max([len(c.heading), *(len(line[i]) for line in cells)]) for i, c in enumerate(columns)]
    lines = [_line([c.heading for c in columns], columns, widths), "  ".join("-" * width for width in widths)]
    lines += [_line(line, columns, widths) for line in cells]
    totals = schedule.totals(rows)
    return "\n".join([*lines, *([""] if totals else []), *totals]) + "\n"


def as_json(schedule: Schedule[Row], rows: Sequence[Row]) -> str:
    """A list with one object a row."""
    return json.dumps([_fields(schedule, row) for row in rows], indent=1, ensure_ascii=False) + "\n"


def as_csv(schedule: Schedule[Row], rows: Sequence[Row]) -> str:
    """A heading line and one line a row; lists are joined by '; '."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")   # RFC 4180, section 2
    columns = [column for column in schedule.columns if column.data]
    writer.writerow([column.key for column in columns])
    for row in rows:
        writer.writerow([_csv_cell(value_of(row, column), column) for column in columns])
    return out.getvalue()


FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def _csv_cell(value: Any, column: Column) -> Any:
    """Text that a spreadsheet would run as a formula gets a leading apostrophe; numbers never do."""
    if not column.text:
        return "" if value is None else value
    text = plain_text(value)
    return "'" + text if text.startswith(FORMULA_STARTS) else text


def _fields(schedule: Schedule[Row], row: Row) -> dict[str, Any]:
    return {column.key: value_of(row, column) for column in schedule.columns if column.data}


def value_of(row: Any, column: Column) -> Any:
    """A cell as it goes out to programs: a number rounded where its column says so, for rows hold sums that are not."""
    value = getattr(row, column.key)
    return value if column.text or column.decimals is None or value is None else tidy(value, column.decimals)


def plain_text(value: Any) -> str:
    """A cell of a column of text: lists joined by '; ', yes and no, nothing for None."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "; ".join(value) if isinstance(value, tuple) else "" if value is None else str(value)


def shown(value: Any, column: Column) -> str:
    """A cell as people read it: lists joined by '; ', numbers with the column's decimals, nothing for None."""
    if value is None or column.text:
        return plain_text(value)
    return f"{value:.{column.decimals}f}" if column.decimals is not None else f"{value:g}"


def _line(cells: Sequence[str], columns: Sequence[Column], widths: Sequence[int]) -> str:
    shown = [
        cell.ljust(width) if column.text else cell.rjust(width)
        for cell, column, width in zip(cells, columns, widths, strict=True)
    ]
    return "  ".join(shown).rstrip()
