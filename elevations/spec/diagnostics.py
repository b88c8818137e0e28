"""A problem as text for a terminal: place, words, the line with a caret under it, and a hint."""

from __future__ import annotations

from elevations.errors import Place, Problem

WIDEST = 100
"""Longest stretch of a source line that is shown."""
LEAD = 20
"""Characters shown before the fault where a line is cut."""
CUT = "…"


def render(problem: Problem) -> str:
    """Several lines without a newline at the end; a place of line 1 without text has no source to show."""
    place = problem.place
    if place is None:
        lines = [f"error: {problem.message}"]
        margin = ""
    elif not place.text.strip():
        lines = [f"{place.file}:{place.line}:{place.column}: error: {problem.message}"]
        margin = ""
    else:
        number = str(place.line)
        margin = " " * len(number)
        lines = [
            f"{place.file}:{place.line}:{place.column}: error: {problem.message}",
            *_source(place, number, margin),
        ]
    if problem.hint:
        lines.append(f"  {margin} = hint: {problem.hint}")
    return "\n".join(_printable(line) for line in lines)


def _printable(text: str) -> str:
    """Character for character; what would steer the terminal is shown as a mark of its own."""
    return text if text.isprintable() else "".join(c if c.isprintable() else "\ufffd" for c in text)


def _source(place: Place, number: str, margin: str) -> tuple[str, str]:
    """The line, a Tab shown as one space so that the caret stays under its character, and the caret run."""
    text = place.text.replace("\t", " ").rstrip()
    start, end = place.column - 1, max(place.end_column - 1, place.column)
    if len(text) > WIDEST:
        first = max(0, min(start - LEAD, len(text) - WIDEST))
        last = first + WIDEST
        before, after = CUT if first else "", CUT if last < len(text) else ""
        text = before + text[first:last] + after
        start, end = start - first + len(before), min(end, last) - first + len(before)
    return f"  {number} | {text}", f"  {margin} | {' ' * start}{'^' * max(1, end - start)}"
