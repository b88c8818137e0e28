"""What people write for a length, read as millimetres; and what they may have meant where it is none."""

from __future__ import annotations

import re
from typing import NamedTuple

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
"""Inch and foot are exact by the international yard agreement of 1959 (NIST SP 811, appendix B.8, from memory)."""

LENGTH_PATTERN = r"^([0-9]+(\.[0-9]+)?|([0-9]+[ -])?[0-9]+/[1-9][0-9]*) ?(mm|cm|m|in|ft)?$"
"""Texts that are lengths, for editors; `read_length` reads these and no others."""

_LENGTH = re.compile(
    r"(?:(?P<number>[0-9]+(?:\.[0-9]+)?)|(?:(?P<whole>[0-9]+)[ -])?(?P<top>[0-9]+)/(?P<bottom>[1-9][0-9]*)) ?(?P<unit>mm|cm|m|in|ft)?"
)
_YES_NO = frozenset({"yes", "no", "on", "off", "true", "false", "y", "n"})
_OTHER_UNIT = re.compile(r"((?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*|[0-9]+(?:\.[0-9]+)?) ?([A-Za-z\"'′″]+)")
_FEET = re.compile(r"(?P<feet>[0-9]{1,2}) ?(?:ft|'|′|feet|foot) ?-?(?P<inches>[0-9]{1,2})(?: (?P<part>[0-9]+/[1-9][0-9]*))? ?(?:in|ins|inches|\"|″|'')?")
_WORD_UNITS = {
    '"': "in", "″": "in", "inch": "in", "inches": "in", "'": "ft", "′": "ft", "foot": "ft", "feet": "ft",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "centimetre": "cm", "centimetres": "cm",
    "cms": "cm", "ins": "in", "mtr": "m",
}  # fmt: skip
LONGEST_LENGTH = 40
LEAST_PLAIN_MM = 10.0
"""A number without a unit below this may be metres: nothing that is surveyed over a metre is a few millimetres. Our own limit."""
LEAST_IN_METRES_MM = 10.0
"""Nobody gives less than a centimetre in metres. Our own limit."""
LARGEST_MEANT_MM = 99_999


class NotALength(NamedTuple):
    """Why a value is no length, and what would be one."""

    message: str
    hint: str


def read_length(value: object) -> float | NotALength:
    """Millimetres of a number or of text with a unit: 600, "1.2 m", "45 cm", "47 1/4 in"; no range is checked."""
    if isinstance(value, bool):
        return _not_yes_no("true" if value else "false")
    if isinstance(value, int | float):
        return float(value)
    if value is None:
        return _guess("")
    if not isinstance(value, str):
        what = "a list" if isinstance(value, list | tuple) else "a block"
        return NotALength(f"this is {what}, and one length is wanted", "write the millimetres, for example 1200")
    text = " ".join(value.split())
    found = _LENGTH.fullmatch(text) if len(text) <= LONGEST_LENGTH else None
    if not found:
        return _guess(text)
    factor = MM_PER_UNIT[found["unit"] or "mm"]
    if found["number"]:
        return round(float(found["number"]) * factor, 9)
    return round((int(found["whole"] or 0) + int(found["top"]) / int(found["bottom"])) * factor, 9)


def range_fault(value: object, mm: float, low: float, high: float) -> NotALength | None:
    """What is wrong with a length that must lie between two others, mm; None where it does."""
    if low <= mm <= high:
        return None
    return NotALength(f"must be {low:g} to {high:g} mm; this is {mm:g} mm", _range_hint(value, mm, low, high))


def unit_doubt(value: object, mm: float, high: float) -> NotALength | None:
    """Why a plain number within its range is taken for metres all the same: as mm it would be a few, as metres a length for that key.

    None where it is not. With its unit it is never doubted: "1.5 mm". A key that never holds a thousand times the number
    can't have been meant in metres, so that play, packers and joints of a few mm are left alone.
    """
    if not isinstance(value, int | float) or not 0 < mm < LEAST_PLAIN_MM or not LEAST_IN_METRES_MM <= mm * MM_PER_UNIT["m"] <= high:
        return None
    return NotALength(
        f"is {mm:g} mm, which is hardly meant", f'the number is in millimetres; did you mean "{mm:g} m"? If it is {mm:g} mm, write "{mm:g} mm"'
    )


def _range_hint(value: object, mm: float, low: float, high: float) -> str:
    plain = isinstance(value, int | float)
    if mm < 0:
        return "write it without the minus sign"
    if isinstance(value, str) and "/" in value and value[-1].isdigit() and low <= mm * MM_PER_UNIT["in"] <= high:
        return f'without a unit it is in millimetres; did you mean "{value.strip()} in"?'
    if plain and mm < low:
        for unit in ("m", "cm"):
            if low <= mm * MM_PER_UNIT[unit] <= high:
                return f'the number is in millimetres; did you mean "{mm:g} {unit}"?'
    if mm > high and low <= mm / 10 <= high:
        fits = f" {mm / 10:g} would fit" if mm % 10 == 0 else ""
        return f"is there one digit too many?{fits}"
    return ""


def _guess(text: str) -> NotALength:
    shown = text if len(text) <= LONGEST_LENGTH else text[: LONGEST_LENGTH - 1] + "…"
    if not text:
        return NotALength("a length is missing here", "write the millimetres, for example 1200")
    if text.casefold() in _YES_NO:
        return _not_yes_no(text)
    if text[0] in "-−" and text[1:2].isdigit():
        return NotALength(
            f"'{shown}' is negative", "lengths are measured from the left or from the top, as positive numbers"
        )
    if re.fullmatch(r"[0-9]+:[0-9:.]+", text):
        return NotALength(f"'{shown}' looks like a time or a ratio", "write the millimetres, for example 1230")
    grouped = re.fullmatch(r"([0-9]{1,3})(?:[,_'’ ]([0-9]{3}))+", text)
    digits = re.sub("[^0-9]", "", text)
    if grouped and int(digits) <= LARGEST_MEANT_MM:   # 400 800 is two lengths rather than one of 400 m
        also = f', or "{text.replace(",", ".")} m" if the comma is a decimal comma' if text.count(",") == 1 else ""
        return NotALength(f"'{shown}' is not read as a number", f"write {digits}{also}")
    if re.fullmatch(r"[0-9]+,[0-9]+(?: ?[a-z]+)?", text):
        return NotALength(f"'{shown}' is not read as a number", f"write a point, not a comma: {text.replace(',', '.')}")
    if re.fullmatch(r"[0-9.]+ ?(?:mm)? ?[x×*] ?[0-9.]+ ?(?:mm)?", text):
        return NotALength(f"'{shown}' is two lengths, and one is wanted", "give width and height under a key each")
    if re.fullmatch(r"(?=.*[OolI])[0-9OolI]+", text):
        return NotALength(f"'{shown}' holds letters that look like figures", "replace them with 0 or 1")
    return _feet_and_inches(text, shown) or _slips(text, shown) or _odd_unit(text, shown)


def _feet_and_inches(text: str, shown: str) -> NotALength | None:
    found = _FEET.fullmatch(text)
    if not found:
        return None
    inches = int(found["feet"]) * 12 + int(found["inches"])
    part = f" {found['part']}" if found["part"] else ""
    quoted = shown.replace("'", "′").replace('"', "″")   # the message's own quotes stay readable
    return NotALength(f"{quoted} is feet and inches, and one unit is wanted", f'write "{inches}{part} in"')


def _slips(text: str, shown: str) -> NotALength | None:
    """Other things than a length that people write where one belongs."""
    if re.fullmatch(r"[0-9.]+ ?%|half|third|quarter|middle|mid|cent(?:re|er)", text.casefold()):
        return NotALength(f"'{shown}' is a share, and a length is wanted", "write the millimetres; bars at equal distances are `equal-sight` and the like")
    if re.fullmatch(r"[0-9.]+(?: ?[/;&+] ?| and | )[0-9.]+(?:(?: ?[/;&+] ?| and | )[0-9.]+)*", text):
        return NotALength(f"'{shown}' is several lengths", f"write them as a list, parted by commas: [{', '.join(re.findall('[0-9.]+', text))}]")
    bare = text.strip('“”„‘’«»"')
    if bare != text and text[0] in "“„‘«" and _LENGTH.fullmatch(bare):
        return NotALength(f"'{shown}' stands in curly quotes, which mean nothing here", f'write {bare}, or "{bare}" in straight quotes')
    return None


def _odd_unit(text: str, shown: str) -> NotALength:
    found = _OTHER_UNIT.fullmatch(text)
    if not found:
        return NotALength(f"'{shown}' is not a length", 'write millimetres, for example 1200, or "1.2 m", "47 1/4 in"')
    number, unit = found.groups()
    meant = _WORD_UNITS.get(unit.casefold())
    if meant is None:
        meant = "mm" if "m" in unit.casefold() and "c" not in unit.casefold() else None
    shown = shown.replace("'", "′")  # the message's own quotes stay readable
    hint = f'did you mean "{number} {meant}"?' if meant else "units are mm, cm, m, in and ft"
    return NotALength(f"'{unit}' is not a unit in '{shown}'", hint)


def _not_yes_no(text: str) -> NotALength:
    return NotALength(f"'{text}' is not a length", "write the millimetres, for example 1200")
