"""A picture of every bar: its pieces to scale with length and what they are for, trims dark, the rest hatched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.cutting.job import BarSet
from elevations.cutting.stock import CutBar
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke
from elevations.drawing.layers import Layer
from elevations.drawing.lettering import ASCENT, DESCENT, fit, text_width, wrap
from elevations.plane import Box, Corner, Point, rectangle

BAR_MM = 11.0
"""Height of a bar on paper: room for a length and two lines of what it is for."""
PITCH_MM = 14.0
"""From one bar to the next."""
HEADING_MM = 12.0
NUMBER_MM = 9.0
"""Column on the left for the bar's number."""
REST_MM = 34.0
"""Column on the right for what is left of it."""

LENGTH_TEXT, SMALL_TEXT = 2.5, 1.8   # heights of ISO 3098 (from memory)
CLEAR_MM = 0.6
"""Between a text and the lines around it."""
HATCH_MM = 1.8
PIECE_TONE, TRIM_TONE = "#f2efe8", "#9aa3ab"


@dataclass(frozen=True, slots=True)
class Picture:
    """Groups in paper mm, x right, y up, and how far down they reach."""

    groups: tuple[Group, ...]
    bottom: float


def bars_that_fit(height: float) -> int:
    """How many bars go below a heading on paper of this height, mm."""
    return max(0, int((height - HEADING_MM) / PITCH_MM))


def bar_picture(
    bars: BarSet, *, left: float, top: float, width: float, prefix: str, first: int = 0, count: int | None = None
) -> Picture:
    """Bars `first` up to `first` + `count` of a set (all the rest without one), below a heading; ids start with `prefix`.

    All bars of a set have one scale: the longest takes the width between the two columns of text.
    """
    plan, shown = bars.plan, slice(first, None if count is None else first + count)
    scale = (width - NUMBER_MM - REST_MM) / max((bar.stock_mm for bar in plan.bars), default=1.0)
    groups = [_heading(bars, left, top, width, prefix)]
    y = top - HEADING_MM
    for number, bar in list(enumerate(plan.bars, 1))[shown]:
        groups += _bar(bars, bar, number, Box(left + NUMBER_MM, y - BAR_MM, left + width, y), scale, prefix)
        y -= PITCH_MM
    return Picture(tuple(groups), y)


def _heading(bars: BarSet, left: float, top: float, width: float, prefix: str) -> Group:
    plan = bars.plan
    account = (
        f"{plan.method}. Pieces {_mm(plan.pieces_mm)}, waste {_mm(plan.waste_mm)} ({plan.waste_percent:.1f} %)"
        + (f", kept {_mm(plan.kept_mm)}" if plan.kept_mm else "") + f" of {_mm(plan.stock_mm)} mm"
    )
    return Group(
        f"{prefix}-heading",
        (
            Label(fit(bars.title, width, 3.5, bold=True), Point(left, top - 4.0), 3.5, bold=True),
            Label(fit(account, width, LENGTH_TEXT), Point(left, top - 8.5), LENGTH_TEXT),
        ),
        title=f"{bars.title}: {account}",
    )


def _bar(bars: BarSet, bar: CutBar, number: int, room: Box, scale: float, prefix: str) -> Iterator[Group]:
    """A group for each piece, and one for the bar itself."""
    middle = (room.bottom + room.top) / 2
    trim_mm = bars.plan.stock.end_trim_mm
    along = trim_mm
    for at, (length_mm, name) in enumerate(zip(bar.pieces_mm, bars.pieces[number - 1], strict=True), 1):
        box = Box(room.left + along * scale, room.bottom, room.left + (along + length_mm) * scale, room.top)
        yield Group(
            f"{prefix}-bar-{number}-piece-{at}", tuple(_piece(box, _mm(length_mm), name)), title=f"{name}, {_mm(length_mm)} mm",
            data=(("bar", str(number)), ("piece", name), ("length_mm", _mm(length_mm))),
        )
        along += length_mm + bars.plan.stock.kerf_mm
    end = room.left + bar.stock_mm * scale
    far_trim_mm = bar.trims_mm - trim_mm
    rest = Box(end - (bar.rest_mm + far_trim_mm) * scale, room.bottom, end - far_trim_mm * scale, room.top)
    kind = f"off-cut {_mm(bar.stock_mm)}" if bar.off_cut else f"bar {_mm(bar.stock_mm)}"
    left_over = f"rest {_mm(bar.rest_mm)}" + (", keep" if bar.kept else "")
    items: list[Entity] = [
        Label(str(number), Point(room.left - 2.0, middle), LENGTH_TEXT, align="right", level="middle"),
        *_trim(room.left, trim_mm * scale, room), *_trim(end - far_trim_mm * scale, far_trim_mm * scale, room),
        *hatching(rest),
        Stroke(rectangle(room.left, room.bottom, end, room.top).corners, Layer.SHEET, closed=True, weight=0.25),
        Label(fit(kind, REST_MM - 3.0, SMALL_TEXT), Point(room.right - REST_MM + 3.0, middle + 1.0), SMALL_TEXT),
        Label(fit(left_over, REST_MM - 3.0, LENGTH_TEXT), Point(room.right - REST_MM + 3.0, middle - 3.0), LENGTH_TEXT),
    ]
    listed = ", ".join(f"{name} {_mm(piece)}" for piece, name in zip(bar.pieces_mm, bars.pieces[number - 1], strict=True))
    yield Group(
        f"{prefix}-bar-{number}", tuple(items), title=f"{number}: {kind} mm: {listed}; {left_over} mm",
        data=(("bar", str(number)), ("rest_mm", _mm(bar.rest_mm)), ("kept", "yes" if bar.kept else "no")),
    )


def _piece(box: Box, length: str, name: str) -> Iterator[Entity]:
    outline = rectangle(*box)
    yield Fill(outline, Layer.SHEET, PIECE_TONE)
    yield Stroke(outline.corners, Layer.SHEET, closed=True, weight=0.25)
    room = box.width - 2 * CLEAR_MM
    if text_width(length, LENGTH_TEXT, bold=True) > room:
        yield from _upright(box, length, name)
        return
    lines = [(length, LENGTH_TEXT), *((line, SMALL_TEXT) for line in _in_two_lines(name, room) if line)]
    y = (box.bottom + box.top + (ASCENT + DESCENT) * sum(height for _, height in lines)) / 2
    for text, height in lines:
        at = Point((box.left + box.right) / 2, y - ASCENT * height)
        yield Label(text, at, height, align="centre", bold=height == LENGTH_TEXT)
        y -= (ASCENT + DESCENT) * height


def _in_two_lines(name: str, room: float) -> list[str]:
    """What a piece is for, broken at a space if it must be; the second line is cut off where it is still too long."""
    lines = wrap(name, room, SMALL_TEXT)
    return lines if len(lines) <= 2 else [lines[0], fit(name[len(lines[0]):].strip(), room, SMALL_TEXT)]


def _upright(box: Box, length: str, name: str) -> Iterator[Entity]:
    """Texts of a narrow piece, reading upwards: its length and beside it what it is for; what has no room is left out."""
    y, room, x = (box.bottom + box.top) / 2, box.height - 2 * CLEAR_MM, box.left + CLEAR_MM
    for text, height, bold in ((length, LENGTH_TEXT, True), (fit(name, room, SMALL_TEXT), SMALL_TEXT, False)):
        line = (ASCENT + DESCENT) * height
        if not text or x + line > box.right - CLEAR_MM / 2 or text_width(text, height, bold=bold) > room:
            return
        yield Label(text, Point(x + ASCENT * height, y), height, align="centre", angle=90.0, bold=bold)
        x += line


def _trim(start: float, width: float, room: Box) -> Iterator[Entity]:
    if width > 0:
        yield Fill(rectangle(start, room.bottom, start + width, room.top), Layer.HATCH, TRIM_TONE)


def hatching(box: Box, step: float = HATCH_MM) -> Iterator[Stroke]:
    """Lines rising at 45 degrees across a box, `step` mm apart along its edges."""
    count = int((box.width + box.height) / step)
    for number in range(1, count + 1):
        offset = number * step - box.height   # where the line would cross the bottom edge, from the left
        start, end = max(offset, 0.0), min(offset + box.height, box.width)
        if end - start > 0.05:
            yield Stroke(
                (
                    Corner(box.left + start, box.bottom + start - offset),
                    Corner(box.left + end, box.bottom + end - offset),
                ),
                Layer.HATCH,
            )


def _mm(length_mm: float) -> str:
    """A length as it is read off a tape: 1206, 860.6."""
    return f"{length_mm:.1f}".removesuffix(".0")
