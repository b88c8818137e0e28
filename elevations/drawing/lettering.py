"""How wide text is, and how to make it fit: from a shipped table, never from the fonts of the machine.

Heights are those of capitals, as ISO 3098 counts them; a font's em is larger by `CAPITAL_EM`.
"""

from __future__ import annotations

from elevations.drawing.advances import ASCENT_EM, BOLD, CAPITAL_EM, DESCENT_EM, REGULAR, UNITS_PER_EM, Runs

ASCENT, DESCENT = ASCENT_EM / CAPITAL_EM, DESCENT_EM / CAPITAL_EM
"""Reach of a line of text above and below its baseline, for capitals 1 high: the box that a browser reports."""

SLACK = 1.06
"""Room for readers that set text wider than DejaVu Sans does. Measured: LibreCAD 2.2's own font sets words of a window
sheet 0.88 to 1.06 times as wide, digits 0.54 to 0.90, and only a row of nothing but i, l and t up to 1.11."""

UNKNOWN_EM = 1.25
"""Width given to a character outside the table: wider than any full-width letter or sign."""

ELLIPSIS = "…"


def _widths(runs: Runs) -> dict[str, float]:
    per_capital = 1 / UNITS_PER_EM / CAPITAL_EM
    return {chr(first + i): advance * per_capital for first, advances in runs for i, advance in enumerate(advances)}


_REGULAR, _BOLD = _widths(REGULAR), _widths(BOLD)
_UNKNOWN = UNKNOWN_EM / CAPITAL_EM


def font_size(height: float) -> float:
    """Size of the font's em for capitals of this height, in the same unit."""
    return height / CAPITAL_EM


def text_width(text: str, height: float, *, bold: bool = False) -> float:
    """Room that a line of text needs, in the unit of `height` (its capitals): advances of DejaVu Sans times SLACK."""
    widths = _BOLD if bold else _REGULAR
    return sum([widths.get(character, _UNKNOWN) for character in text]) * height * SLACK


def fit(text: str, width: float, height: float, *, bold: bool = False) -> str:
    """The text, or as much of it as fits the width and an ellipsis; empty where not even that fits."""
    if text_width(text, height, bold=bold) <= width:
        return text
    kept = _prefix(text, width - text_width(ELLIPSIS, height, bold=bold), height, bold=bold)
    if kept < 0:
        return ""
    return text[:kept].rstrip() + ELLIPSIS


def wrap(text: str, width: float, height: float, *, bold: bool = False) -> list[str]:
    """The text in lines that fit the width, broken at spaces; a word longer than a line is broken where it must be."""
    lines: list[str] = []
    for paragraph in text.splitlines() or [""]:
        line = ""
        for whole_word in paragraph.split():
            word = whole_word
            longer = f"{line} {word}" if line else word
            if text_width(longer, height, bold=bold) <= width:
                line = longer
                continue
            if line:
                lines.append(line)
            while text_width(word, height, bold=bold) > width:
                kept = max(1, _prefix(word, width, height, bold=bold))
                if kept == len(word):
                    break
                lines.append(word[:kept])
                word = word[kept:]
            line = word
        lines.append(line)
    return lines


def _prefix(text: str, width: float, height: float, *, bold: bool) -> int:
    """How many characters fit the width; -1 where it is negative."""
    if width < 0:
        return -1
    widths = _BOLD if bold else _REGULAR
    room = width / (height * SLACK)
    for count, character in enumerate(text):
        room -= widths.get(character, _UNKNOWN)
        if room < 0:
            return count
    return len(text)
