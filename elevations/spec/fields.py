"""The kinds of value that a job file holds, as pydantic types: text, marks, dates, lengths, numbers, switches.

Each says in the user's words what is wrong (the message and hint travel in the error's context) and what an editor
should show (JSON Schema). Built here rather than from pydantic's constraints, whose words are not a surveyor's.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, NoReturn

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from elevations.spec.lengths import LENGTH_PATTERN, NotALength, range_fault, read_length, unit_doubt
from elevations.yaml_source import raw_text

LONGEST_TEXT = 200
LONGEST_MARK = 40
_ON = {"true": True, "yes": True, "y": True, "on": True, "false": False, "no": False, "n": False, "off": False}


def refuse(code: str, message: str, hint: str = "") -> NoReturn:
    """Raise the error that `spec.words` turns into a Problem; "{key}" in the message becomes the field's name."""
    raise PydanticCustomError("words", "{message}", {"code": code, "message": message, "hint": hint})


def short(value: object) -> str:
    """A value as it may stand in a message: one line, at most 40 characters."""
    text = " ".join((raw_text(value) or _kind_of(value)).split())
    return text if len(text) <= 40 else text[:39] + "…"


def _kind_of(value: object) -> str:
    return "nothing" if value is None else "a list" if isinstance(value, list | tuple) else "a block"


def _text(value: Any, longest: int = LONGEST_TEXT) -> str:
    raw = raw_text(value)
    if raw is None:
        refuse(
            "not-text",
            f"{{key}} must be text; this is {_kind_of(value)}",
            "text that starts with { or [ must be in quotes",
        )
    text = " ".join(raw.split())
    if len(text) > longest:
        refuse(
            "text-too-long", f"{{key}} is {len(text):,} characters long; at most {longest} fit on a sheet", "shorten it"
        )
    return text


def _mark(value: Any) -> str:
    text = _text(value, LONGEST_MARK)
    if not text:
        refuse("mark-empty", "{key} is empty", "give each window a mark, for example W1")
    return text


def _date(value: Any) -> str:
    text = _text(value)
    try:
        if not text or re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            if text:
                dt.date.fromisoformat(text)
            return text
    except ValueError:
        refuse("not-a-date", f"there is no day {text}", "dates are year-month-day, for example 2026-10-14")
    found = re.fullmatch(r"([0-9]{1,2})[./ -]([0-9]{1,2})[./ -]([0-9]{4})", text)
    if found and int(found[1]) > 12 >= int(found[2]):
        hint = f"write {found[3]}-{int(found[2]):02}-{int(found[1]):02}"
    else:
        hint = "dates are year-month-day, for example 2026-10-14"
    refuse("not-a-date", f"'{short(text)}' is not a date", hint)


def _switch(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    meant = _ON.get(str(raw_text(value)).casefold())
    hint = f"write {'true' if meant else 'false'}" if meant is not None else "write true or false"
    refuse("not-true-or-false", f"{{key}} must be true or false; this is '{short(value)}'", hint)


def _length(low: float, high: float) -> Callable[[Any], float]:
    def read(value: Any) -> float:
        mm = read_length(value)
        if isinstance(mm, NotALength):
            refuse("not-a-length", mm.message, mm.hint)
        fault = range_fault(value, mm, low, high)
        if fault is not None:
            refuse("out-of-range", "{key} " + fault.message, fault.hint)
        doubt = unit_doubt(value, mm, high)
        if doubt is not None:
            refuse("unit-doubtful", "{key} " + doubt.message, doubt.hint)
        return mm

    return read


def _number(low: float, high: float, unit: str, hint: str, seldom_below: float) -> Callable[[Any], float]:
    tail = f" {unit}" if unit else ""

    def read(value: Any) -> float:
        plain = not isinstance(value, str)
        if isinstance(value, str) and unit and value.endswith((unit, unit.replace("2", "²"))):
            value = _plain_number(value[: -len(unit)].strip())
        if isinstance(value, bool) or not isinstance(value, int | float):
            comma = re.fullmatch("[0-9]+,[0-9]+", value) if isinstance(value, str) else None
            refuse(
                "not-a-number", f"{{key}} must be a number from {low:g} to {high:g}{tail}; this is '{short(value)}'",
                f"write a point, not a comma: {comma[0].replace(',', '.')}" if comma else "",
            )
        if not low <= value <= high:
            refuse("out-of-range", f"{{key}} must be {low:g} to {high:g}{tail}; this is {value:g}{tail}", hint)
        if plain and 0 < value < seldom_below:
            meant = value * (1000 if value < 10 else 100)   # thousands, or cm2 for mm2
            refuse(
                "unit-doubtful", f"{{key}} is {value:g}{tail}, which is hardly meant",
                f'the number is in{tail}; did you mean {meant:g}? If it is {value:g}, write "{value:g}{tail}"',
            )
        return float(value)

    return read


def _plain_number(text: str) -> float | str:
    return float(text) if re.fullmatch(r"[0-9]+(\.[0-9]+)?", text) else text


@dataclass(frozen=True, eq=False)
class Reads:
    """How a field's value is read, and its JSON Schema: goes into Annotated beside the resulting Python type."""

    read: Callable[[Any], Any]
    schema: dict[str, Any]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Our reader in place of pydantic's."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """What editors check and complete by."""
        return dict(self.schema)


def count(low: int, high: int) -> Reads:
    """A whole number."""

    def read(value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            refuse("out-of-range", f"{{key}} must be a whole number from {low} to {high}; this is '{short(value)}'")
        return int(value)

    return Reads(read, {"type": "integer", "minimum": low, "maximum": high})


def length(low: float, high: float) -> Reads:
    """A length from `low` to `high` mm, written as a number or as text with a unit."""
    schema = {"type": ["number", "string"], "minimum": low, "maximum": high, "pattern": LENGTH_PATTERN}
    return Reads(_length(low, high), schema)


def number(low: float, high: float, unit: str = "", hint: str = "", seldom_below: float = 0.0) -> Reads:
    """A plain number in a fixed unit; `hint`: what would do, where it lies outside its range.

    What is above 0 and below `seldom_below` is taken for another unit, unless it is written with its own.
    """
    return Reads(_number(low, high, unit, hint, seldom_below), {"type": "number", "minimum": low, "maximum": high, **({"unit": unit} if unit else {})})


_TEXT_SCHEMA = {"type": ["string", "number", "boolean"], "maxLength": LONGEST_TEXT}
_DATE_SCHEMA = {"type": "string", "pattern": "^([0-9]{4}-[0-9]{2}-[0-9]{2})?$"}

Text = Annotated[str, Reads(_text, _TEXT_SCHEMA)]
"""One line of text, as written: 007, on and 12:30 stay."""
Mark = Annotated[str, Reads(_mark, {**_TEXT_SCHEMA, "maxLength": LONGEST_MARK})]
Date = Annotated[str, Reads(_date, _DATE_SCHEMA)]
Switch = Annotated[bool, Reads(_switch, {"type": "boolean"})]
