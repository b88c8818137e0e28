"""A picture of every bar: its pieces to scale with length and what they are for, trims dark, the rest hatched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.cutting.job import BarSet
from elevations.cutting.stock import CutBar
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke
from elevations.drawing.layers import Layer
from elevations.drawing.lettering import ASCENT, DESCENT, fit, text_width, wrap
from elevations.plane import Box, Corner, Point, rectangle

BAR_MM = 13.5
"""Height of a bar on paper: room for a length and two lines of what it is for, or for 'W12-B10' along a narrow piece."""
PITCH_MM = 16.0
"""From one bar to the next."""
HEADING_MM = 12.0
NUMBER_MM = 9.0
"""Column on the left for the bar's number."""
REST_MM = 34.0
"""Column on the right for what is left of it."""

LENGTH_TEXT, SMALL_TEXT = 2.5, 1.8   # heights of ISO 3098 (from memory)
SMALLER_TEXT = 2.2
"""Of an account too long for the larger one."""
LINE = ASCENT + DESCENT
"""Height of a line of text for capitals 1 high."""
CLEAR_MM = 0.6
"""Between a text and the lines around it."""
HATCH_MM = 1.8
PIECE_TONE, FORMED_TONE, TRIM_TONE = "#f2efe8", "#e3c48f", "#9aa3ab"


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
    said = "; ".join(filter(None, (bars.ends_words, account)))
    height = next((height for height in (LENGTH_TEXT, SMALLER_TEXT) if text_width(said, height) <= width), SMALL_TEXT)
    return Group(
        f"{prefix}-heading",
        (
            Label(fit(bars.title, width, 3.5, bold=True), Point(left, top - 4.0), 3.5, bold=True),
            Label(fit(said, width, height), Point(left, top - 8.5), height),
        ),
        title=f"{bars.title}: {said}",
    )


def _bar(bars: BarSet, bar: CutBar, number: int, room: Box, scale: float, prefix: str) -> Iterator[Group]:
    """A group for each piece, and one for the bar itself."""
    trim_mm = bars.plan.stock.end_trim_mm
    along = trim_mm
    narrow = []
    for at, (length_mm, name, form) in enumerate(zip(bar.pieces_mm, bars.named(number - 1), bars.forms_of(number - 1), strict=True), 1):
        box = Box(room.left + along * scale, room.bottom, room.left + (along + length_mm) * scale, room.top)
        texts = _lettering(box, _mm(length_mm), name)
        if not texts:
            narrow.append(_mm(length_mm))
        yield Group(
            f"{prefix}-bar-{number}-piece-{at}", (*_piece(box, FORMED_TONE if form else PIECE_TONE), *texts), title=f"{name}, {_mm(length_mm)} mm",
            data=(("bar", str(number)), ("piece", name), ("length_mm", _mm(length_mm))),
        )
        along += length_mm + bars.plan.stock.kerf_mm
    words = _Words.of(bar, narrow)
    listed = ", ".join(f"{name} {_mm(piece)}" for piece, name in zip(bar.pieces_mm, bars.named(number - 1), strict=True))
    yield Group(
        f"{prefix}-bar-{number}",
        (*_stock(bar, trim_mm, room, scale), *_beside(number, words, room)),
        title=f"{number}: {words.kind} mm: {listed}; {words.rest} mm",
        data=(("bar", str(number)), ("rest_mm", _mm(bar.rest_mm)), ("kept", "yes" if bar.kept else "no")),
    )


@dataclass(frozen=True, slots=True)
class _Words:
    """What is written to the right of a bar."""

    kind: str
    rest: str
    narrow: str
    """Lengths of the pieces that are too narrow for any text, in the order of the bar."""

    @classmethod
    def of(cls, bar: CutBar, narrow: Sequence[str]) -> _Words:
        return cls(
            f"{'off-cut' if bar.off_cut else 'bar'} {_mm(bar.stock_mm)}" + (", keep the rest" if bar.kept else ""),
            f"rest {_mm(bar.rest_mm)}",
            _narrow_words(narrow),
        )


def _narrow_words(lengths: Sequence[str]) -> str:
    """'narrow: 61, 3 x 40'; only how many there are where that is too long, since a number cut short reads as another."""
    counts = {length: lengths.count(length) for length in lengths}
    listed = ", ".join(length if count == 1 else f"{count} x {length}" for length, count in counts.items())
    if not listed or text_width(f"narrow: {listed}", SMALL_TEXT) <= REST_MM - 3.0:
        return f"narrow: {listed}" if listed else ""
    return f"{len(lengths)} narrow: see list"


def _stock(bar: CutBar, trim_mm: float, room: Box, scale: float) -> Iterator[Entity]:
    """The bar itself: trims, the rest and its outline."""
    end = room.left + bar.stock_mm * scale
    far_trim = (bar.trims_mm - trim_mm) * scale
    yield from _trim(room.left, trim_mm * scale, room)
    yield from _trim(end - far_trim, far_trim, room)
    yield from hatching(Box(end - far_trim - bar.rest_mm * scale, room.bottom, end - far_trim, room.top))
    yield Stroke(rectangle(room.left, room.bottom, end, room.top).corners, Layer.SHEET, closed=True, weight=0.25)


def _beside(number: int, words: _Words, room: Box) -> Iterator[Label]:
    """The bar's number to its left; what it is, what is left of it and its narrow pieces to its right."""
    middle, x, width = (room.bottom + room.top) / 2, room.right - REST_MM + 3.0, REST_MM - 3.0
    yield Label(str(number), Point(room.left - 2.0, middle), LENGTH_TEXT, align="right", level="middle")
    lines = [(words.kind, SMALL_TEXT), (words.rest, LENGTH_TEXT), *([(words.narrow, SMALL_TEXT)] if words.narrow else [])]
    y = middle + LINE * sum(height for _, height in lines) / 2
    for text, height in lines:
        yield Label(fit(text, width, height), Point(x, y - ASCENT * height), height)
        y -= LINE * height


def _piece(box: Box, tone: str) -> tuple[Entity, ...]:
    outline = rectangle(*box)
    return Fill(outline, Layer.SHEET, tone), Stroke(outline.corners, Layer.SHEET, closed=True, weight=0.25)


def _lettering(box: Box, length: str, name: str) -> tuple[Label, ...]:
    """Length of a piece and what it is for: level, or reading upwards in a narrow one; empty where there is no room."""
    room = box.width - 2 * CLEAR_MM
    if text_width(length, LENGTH_TEXT, bold=True) > room:
        return _upright(box, length, name)
    lines = [(length, LENGTH_TEXT), *((line, SMALL_TEXT) for line in _in_two_lines(name, room) if line)]
    y = (box.bottom + box.top + LINE * sum(height for _, height in lines)) / 2
    made = []
    for text, height in lines:
        at = Point((box.left + box.right) / 2, y - ASCENT * height)
        made.append(Label(text, at, height, align="centre", bold=height == LENGTH_TEXT))
        y -= LINE * height
    return tuple(made)


def _in_two_lines(name: str, room: float) -> list[str]:
    """What a piece is for, broken at a space, or after the window's mark; the second line is cut off where it is too long."""
    if text_width(name.partition(" ")[0], SMALL_TEXT) > room:
        name = name.replace("-", "- ", 1)
    lines = wrap(name, room, SMALL_TEXT)
    return lines if len(lines) <= 2 else [lines[0], _whole_words(name[len(lines[0]):].strip(), room)]


def _whole_words(text: str, room: float) -> str:
    """As many whole words of a text as there is room for; the first one cut off where even that is too long."""
    words = text.split(" ")
    while len(words) > 1 and text_width(" ".join(words), SMALL_TEXT) > room:
        words.pop()
    return fit(" ".join(words), room, SMALL_TEXT)


def _upright(box: Box, length: str, name: str) -> tuple[Label, ...]:
    """The length, and beside it what it is for; smaller where both go in only so, the length alone where they do not."""
    heights = [
        height for height in (LENGTH_TEXT, SMALL_TEXT)
        if text_width(length, height, bold=True) <= box.height - 2 * CLEAR_MM and LINE * height <= box.width - CLEAR_MM
    ]
    short = _whole_words(name, box.height - 2 * CLEAR_MM)
    with_name = [height for height in heights if short and LINE * (height + SMALL_TEXT) <= box.width - CLEAR_MM / 3]
    if not heights:
        return ()
    height, y = (with_name or heights)[0], (box.bottom + box.top) / 2
    x = box.left + CLEAR_MM / 3 + ASCENT * height
    first = Label(length, Point(x, y), height, align="centre", angle=90.0, bold=True)
    beside = Label(short, Point(x + DESCENT * height + ASCENT * SMALL_TEXT, y), SMALL_TEXT, align="centre", angle=90.0)
    return (first, beside) if with_name else (first,)


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
