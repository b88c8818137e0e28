"""The words inside a light: its number, its glass and how it opens, where no line of the symbol crosses them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from elevations.drawing.entities import Label
from elevations.drawing.explode import size_text
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.window import Light, Pane, whole_mm
from elevations.plane import Box, Outline, Point
from elevations.views.shaped import holds_box

HEIGHTS = (2.5, 2.0)
"""Text heights tried, larger first, mm on paper."""
LINE = 1.8
"""From one line of text to the next, as a share of its height."""
MARGIN, LEAST_MARGIN = 1.2, 0.4
"""Kept free round the block, and round a light's number that stands alone, mm on paper."""
WIDTHS = (1.0, 0.62, 0.45)
"""Widths tried for the block, as shares of the visible glass."""
ACROSS, UP = (0.5, 0.82, 0.18, 0.66, 0.34), (0.2, 0.12, 0.35, 0.5, 0.65, 0.8)
"""Where the block's middle may stand in the room left to it: centred and low first."""


class NoteLines(NamedTuple):
    """What may be written in a light."""

    first: str
    """In bold."""
    wrapped: tuple[str, ...] = ()
    """Texts that may take several lines each."""
    whole: tuple[str, ...] = ()
    """Texts that stay on one line each."""


@dataclass(frozen=True, slots=True)
class _Block:
    lines: tuple[tuple[str, bool], ...]
    """Text, and whether it is bold."""
    height: float
    width: float

    @property
    def depth(self) -> float:
        return ((len(self.lines) - 1) * LINE + 1.3) * self.height


def light_note(light: Light, strokes: Sequence[Sequence[Point]], scale: float) -> tuple[Label, ...]:
    """The largest and fullest text that fits the light's visible glass clear of `strokes`, the lines of its symbol.

    Where the full words don't fit, the size of the glass and the number stay, then the number alone; the lights
    table of the sheet always has everything. Nothing where not even the number fits.
    """
    more = [label for pane in light.panes[1:] for label in _pane_note(pane, strokes, scale)]
    return (*_main_note(light, strokes, scale), *more)


def note_in(
    outline: Outline, choices: Sequence[NoteLines], strokes: Sequence[Sequence[Point]], scale: float, *, height: float
) -> tuple[Label, ...]:
    """The first of the choices that fits the outline clear of `strokes`, in text of that height; nothing where none does."""
    room = outline.bounds.grown(-MARGIN * scale)
    for choice in choices:
        for block in _set_in(choice, height, room, scale):
            place = _free_place(block, room, strokes, MARGIN / 2 * scale, scale, outline)
            if place:
                return _labels(block, place, scale)
    return ()


def tag_in(outline: Outline, tag: str, strokes: Sequence[Sequence[Point]], scale: float, *, height: float) -> tuple[Label, ...]:
    """A pane's tag where nothing else fits: nearer to the lines of the symbol, else over them, else over the pane's edge; never left out."""
    block = _block([(tag, True)], height)
    room, margin = outline.bounds.grown(-LEAST_MARGIN * scale), LEAST_MARGIN / 2 * scale
    if _fits(block, room, scale):
        for lines in (strokes, ()):
            place = _free_place(block, room, lines, margin, scale, outline)
            if place:
                return _labels(block, place, scale)
    return (Label(tag, outline.bounds.centre, height, align="centre", level="middle", bold=True),)


def _pane_note(pane: Pane, strokes: Sequence[Sequence[Point]], scale: float) -> tuple[Label, ...]:
    """The tag and size of a further pane of the light, as far as they fit."""
    outline = pane.sight.outline
    room = outline.bounds.grown(-MARGIN * scale)
    size = f"{whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}"
    for lines in ([f"{pane.tag} {size}"], [pane.tag, size], [pane.tag]):
        for height in HEIGHTS:
            block = _block([(line, False) for line in lines], height)
            place = _free_place(block, room, strokes, MARGIN / 2 * scale, scale, outline) if _fits(block, room, scale) else None
            if place:
                return _labels(block, place, scale)
    return ()


def _main_note(light: Light, strokes: Sequence[Sequence[Point]], scale: float) -> tuple[Label, ...]:
    """The note in the first pane."""
    outline = light.panes[0].sight.outline
    sight = outline.bounds
    room = sight.grown(-MARGIN * scale)
    for block in _blocks(light, room, scale):
        place = _free_place(block, room, strokes, MARGIN / 2 * scale, scale, outline)
        if place:
            return _labels(block, place, scale)
    bare = _block([(str(light.number), True)], HEIGHTS[-1])
    room = sight.grown(-LEAST_MARGIN * scale)
    place = _free_place(bare, room, strokes, LEAST_MARGIN * scale, scale, outline) if _fits(bare, room, scale) else None
    return _labels(bare, place, scale) if place else ()


def _blocks(light: Light, room: Box, scale: float) -> Iterator[_Block]:
    """Every form of the text that fits the room at all, best first."""
    pane, number = light.panes[0], str(light.number)
    size = f"{whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}"
    outer = light.sashes[0].outer.outline.bounds if light.sashes else None
    sash = [f"sash {size_text(outer)}"] if outer else []
    words = f"fanlight, {light.words}" if light.fanlight else light.words
    glass = f"{pane.tag} {size}"
    bodies = [
        ([words], [*sash, glass]), ([words], [glass]), ([], [glass]), ([], [pane.tag, size]), ([], [pane.tag]), ([], []),
    ]
    for wrapped, whole in bodies:
        for height in HEIGHTS:
            yield from _set_in(NoteLines(number, tuple(wrapped), tuple(whole)), height, room, scale)


def _set_in(choice: NoteLines, height: float, room: Box, scale: float) -> Iterator[_Block]:
    """The widths in which the text fits the room at all, widest first."""
    for share in WIDTHS:
        width = room.width / scale * share
        if any(text_width(word, height) > width for text in choice.wrapped for word in text.split()):
            continue
        lines = [(choice.first, True), *((line, False) for text in choice.wrapped for line in wrap(text, width, height))]
        block = _block([*lines, *((text, False) for text in choice.whole)], height)
        if _fits(block, room, scale):
            yield block


def _block(lines: list[tuple[str, bool]], height: float) -> _Block:
    return _Block(tuple(lines), height, max(text_width(text, height, bold=bold) for text, bold in lines))


def _fits(block: _Block, room: Box, scale: float) -> bool:
    return block.width <= room.width / scale and block.depth <= room.height / scale


def _free_place(
    block: _Block, room: Box, strokes: Sequence[Sequence[Point]], margin: float, scale: float, outline: Outline
) -> Box | None:
    """The first place in the room, and on the glass, that no line of the symbol comes nearer than `margin` mm in the view."""
    width, depth = block.width * scale, block.depth * scale
    for up in UP:
        for across in ACROSS:
            left = room.left + across * (room.width - width)
            bottom = room.bottom + up * (room.height - depth)
            box = Box(left, bottom, left + width, bottom + depth)
            around = box.grown(margin)
            if not outline.is_box and not holds_box(outline, around):
                continue
            if not any(crosses(a, b, around) for line in strokes for a, b in pairwise(line)):
                return box
    return None


def crosses(a: Point, b: Point, box: Box) -> bool:
    """Whether the segment touches the box: its part inside each pair of parallel edges, narrowed in turn."""
    first, last = 0.0, 1.0
    for start, along, low, high in ((a.x, b.x - a.x, box.left, box.right), (a.y, b.y - a.y, box.bottom, box.top)):
        if not along:
            if not low <= start <= high:
                return False
            continue
        enters, leaves = sorted(((low - start) / along, (high - start) / along))
        first, last = max(first, enters), min(last, leaves)
    return first <= last


def _labels(block: _Block, box: Box, scale: float) -> tuple[Label, ...]:
    made = []
    top = box.top
    for row, (text, bold) in enumerate(block.lines):
        at = Point((box.left + box.right) / 2, top - row * LINE * block.height * scale)
        made.append(Label(text, at, block.height, align="centre", level="top", bold=bold))
    return tuple(made)
