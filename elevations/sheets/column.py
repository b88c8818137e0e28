"""The column of words beside the drawings: lights, glass, build, fixings, findings, key, notes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Label, Stroke
from elevations.drawing.layers import VISIBLE, Layer
from elevations.geometry.fit_fixing import holds
from elevations.geometry.window import Window
from elevations.plane import Corner, Point
from elevations.sheets import words
from elevations.sheets.key import elevation_key
from elevations.views.table import SMALL, TEXT, Block, heading, paragraph, stack, table

GAP = 3.0
"""Between two sections of the column, mm."""
LIGHTS = "Lights, numbered as drawn"
HEADERS = ("No.", "Opening", "Sash", "Glass, cut size")
MOST_LINES, MOST_GLASSES, MOST_NOTES, LEAST_CHECKS = 3, 6, 4, 1
"""Of one paragraph, the last one then ending in an ellipsis; make-ups listed before the glass schedule is named; the window's own notes; checks that are always said."""


@dataclass(frozen=True, slots=True)
class Column:
    """The words of a sheet."""

    upper: Block
    lower: Block
    """For the foot of the column."""
    whole: bool
    """False where rows or findings had to be left out."""


def column(
    window: Window, width: float, height: float, *, apex_at_hinge: bool, notes: Sequence[str] = (), checks: Sequence[str] = ()
) -> Column:
    """Everything in words, at most `height` high, mm; `notes` come before the standing ones, `checks` say how checks came out.

    Room is found by smaller text first, then by fewer checks, then by one row for lights alike; then rows of the lights table,
    then findings, are left out, and what is left out is said.
    """
    for text, most in ((TEXT, len(checks)), (SMALL, len(checks)), (SMALL, LEAST_CHECKS)):
        foot = _foot(window, width, text, notes, apex_at_hinge=apex_at_hinge)
        middle = stack([b for b in (_middle(window, width, text), _checks(checks, width, text, most)) if b.height], GAP)
        findings = _findings(window, width, text)
        lights = _lights(window, width, text, None)
        if lights.height + middle.height + findings.height + foot.height + 3 * GAP <= height:
            return Column(stack([b for b in (lights, middle, findings) if b.height], GAP), foot, whole=True)
    alike = _lights_alike(window, width)
    if alike.height + middle.height + findings.height + foot.height + 3 * GAP <= height:
        return Column(stack([b for b in (alike, middle, findings) if b.height], GAP), foot, whole=True)
    room = height - middle.height - foot.height - 3 * GAP
    findings = _shortened_findings(window, width, room / 2)
    room -= findings.height
    if alike.height > room:
        kept = max((n for n in range(len(words.lights_rows(window))) if _lights(window, width, SMALL, n).height <= room), default=0)
        alike = _lights(window, width, SMALL, kept)
    return Column(stack([b for b in (alike, middle, findings) if b.height], GAP), foot, whole=False)


def _lights(window: Window, width: float, text: float, most: int | None) -> Block:
    """The table of lights, all of it or its first rows."""
    rows = words.lights_rows(window)
    count = len(rows) if most is None else most
    blocks = [heading(LIGHTS, width), table(HEADERS, rows[:count], width, height=text, wide=1)]
    if count < len(rows):
        left_out = f"and {len(rows) - count} more: see the glass schedule for sizes, the windows schedule for how they open"
        blocks.append(paragraph(left_out, width, height=text, bold=True))
    return stack(blocks)


def _lights_alike(window: Window, width: float) -> Block:
    """The table of lights in small letters with one row for all that are made alike."""
    return stack([heading(LIGHTS, width), table(("Lights", *HEADERS[2:]), words.lights_alike(window), width, height=SMALL)])


def _middle(window: Window, width: float, text: float) -> Block:
    glasses = words.glasses(window)
    if len(glasses) > MOST_GLASSES:
        glasses = [*glasses[:MOST_GLASSES], f"and {len(glasses) - MOST_GLASSES} more: see the glass schedule"]
    parts = (("Glass", glasses), ("Frame", words.build_words(window)), ("Fixings", words.fixings_words(window)))
    return stack([_section(title, lines, width, text) for title, lines in parts], GAP)


def _section(title: str, lines: Sequence[str], width: float, text: float) -> Block:
    return stack([heading(title, width), *(paragraph(words, width, height=text, lines=MOST_LINES) for words in lines)])


def _checks(said: Sequence[str], width: float, text: float, most: int) -> Block:
    """How the checks came out, at most so many lines of it."""
    if not said:
        return Block((), width, 0.0)
    lines = [paragraph(line, width, height=text, lines=MOST_LINES) for line in said[:most]]
    if most < len(said):
        lines.append(paragraph(f"and {len(said) - most} more: run the check", width, height=text, bold=True))
    return stack([heading("Checks: a help, no certificate", width), *lines])


def _findings(window: Window, width: float, text: float, count: int | None = None) -> Block:
    found = list(words.findings_words(window))
    if not found:
        return Block((), width, 0.0)
    kept = found if count is None else found[:count]
    lines = [paragraph(said, width, height=text, lines=MOST_LINES + 1) for said in kept]
    if len(kept) < len(found):
        lines.append(paragraph(f"and {len(found) - len(kept)} more findings: run the check", width, height=text, bold=True))
    return stack([heading("To be settled", width), *lines])


def _shortened_findings(window: Window, width: float, room: float) -> Block:
    """As many findings as the room takes, and how many are left out."""
    counts = range(len(window.findings), -1, -1)
    blocks = (_findings(window, width, SMALL, count) for count in counts)
    return next((block for block in blocks if block.height <= room), _findings(window, width, SMALL, 0))


def _foot(window: Window, width: float, text: float, notes: Sequence[str], *, apex_at_hinge: bool) -> Block:
    blocks = [elevation_key(window.sashes, width, text, apex_at_hinge=apex_at_hinge, ways={hold.how for hold in holds(window).values()}), stack([
        heading("Notes", width),
        *(paragraph(note, width, height=text, lines=MOST_LINES) for note in (*notes, *window.notes[:MOST_NOTES])),
        paragraph(words.CONFIRM, width, height=text, bold=True),
        paragraph(words.CAUTIONS, width, height=SMALL),
    ])]
    if window.system.demonstration:
        blocks.append(banner(words.DEMONSTRATION, width))
    return stack(blocks, GAP)


def banner(text: str, width: float) -> Block:
    """A line of bold text in a box."""
    high = 7.0
    frame = Stroke((Corner(0, 0), Corner(0, -high), Corner(width, -high), Corner(width, 0)), Layer.SHEET, closed=True, weight=VISIBLE)
    return Block((frame, Label(text, Point(width / 2, -high / 2), TEXT, align="centre", level="middle", bold=True)), width, high)
