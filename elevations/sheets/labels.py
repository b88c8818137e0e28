"""Labels for frames, sashes and units: tag, size, where it sits in the window, and a code that a phone reads. Paper mm, y up.

Needs segno for the codes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

import segno

from elevations.drawing.entities import Entity, Fill, Group, Label, Sheet, Stroke
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import ELLIPSIS, fit, text_width, wrap
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.sheets.labelled import Tagged, code_text
from elevations.sheets.words import DEMONSTRATION
from elevations.spec.model import JobInfo
from elevations.views.visible import bar_face

PAPERS = {"A4": (210.0, 297.0), "A5": (148.0, 210.0), "letter": (215.9, 279.4)}
"""Upright; ISO 216, and 8.5 by 11 inches."""
LEAST_WIDE, LEAST_HIGH = 45.0, 20.0
"""Of a label, mm: below it neither the code nor the size can be read."""
PAD = 2.0
QUIET = 4
"""Empty modules round a code: ISO/IEC 18004 (from memory)."""
MODULE_MM, FINE_MODULE_MM = 0.5, 0.3
"""Greatest size of a module: a phone reads it from a hand's breadth; and a size below which printers blur it (common
practice, no source)."""
INK, PIECE_TONE = "#000000", "#9fb4bf"
SIZE_MM, SMALL_MM = 2.5, 2.0
"""Least height of the size; height of the small words."""
LEAST_MM = 1.8
"""The small words are made this small before any is cut."""
LARGE, MIDDLING = (0.28, 0.2), (0.2, 0.16)
"""Greatest heights of tag and size, as shares of the label's; the second pair where the rest needs the room."""
SKETCH = 0.28
"""Greatest width of the picture, as a share of what the code leaves."""
LEADING = 1.55
HEIGHTS = (10.0, 7.0, 5.0, 3.5, 2.5, 2.0, 1.8)


@dataclass(frozen=True, slots=True)
class Grid:
    """How labels lie on their paper, mm."""

    paper: str = "A4"
    columns: int = 2
    rows: int = 7
    margin_across: float = 8.0
    """Left and right."""
    margin_along: float = 12.0
    """Above and below."""
    gap: float = 3.0
    """Between two labels, across and along."""

    @property
    def label(self) -> tuple[float, float]:
        """Width and height of a label."""
        width, height = PAPERS[self.paper]
        return (
            (width - 2 * self.margin_across - (self.columns - 1) * self.gap) / self.columns,
            (height - 2 * self.margin_along - (self.rows - 1) * self.gap) / self.rows,
        )

    @property
    def fault(self) -> str:
        """Why nothing can be printed on it, in words; empty where it can."""
        wide, high = self.label
        if wide < LEAST_WIDE or high < LEAST_HIGH:
            least = f"a label needs at least {LEAST_WIDE:g} x {LEAST_HIGH:g} mm"
            return f"{self.columns} x {self.rows} labels on {self.paper} would be {max(wide, 0):.1f} x {max(high, 0):.1f} mm; {least}"
        return ""

    def boxes(self) -> Iterator[Box]:
        """The labels of a page, row by row from the top left."""
        (wide, high), top = self.label, PAPERS[self.paper][1] - self.margin_along
        for row in range(self.rows):
            for column in range(self.columns):
                left, upper = self.margin_across + column * (wide + self.gap), top - row * (high + self.gap)
                yield Box(left, upper - high, left + wide, upper)


def finest_module_mm(labelled: Sequence[Tagged], info: JobInfo, grid: Grid) -> float:
    """Side of a module of the finest code on these labels, mm: long marks and references make fine codes."""
    wide, high = grid.label
    room = Box(0.0, 0.0, wide, high).grown(-PAD)
    return min(_module_mm(len(_modules(code_text(thing, info))), room) for thing in labelled)


def words_left_off(labelled: Sequence[Tagged], info: JobInfo, grid: Grid, *, demonstration: bool) -> tuple[list[Tagged], list[Tagged]]:
    """What has no room for its needful words on such labels, and what only has none for other words."""
    box = next(grid.boxes())
    needful, other = [], []
    for thing in labelled:
        group = _label(thing, info, box, borders=False, demonstration=demonstration)
        there = _letters(" ".join(item.text for item in group.items if isinstance(item, Label)))
        if any(_letters(text) not in there for text in thing.needful):
            needful.append(thing)
        elif any(_letters(text) not in there for text, _ in _said(thing, info, demonstration=demonstration)) or not _has_picture(group):
            other.append(thing)
    return needful, other


def _has_picture(group: Group) -> bool:
    return any(isinstance(item, Stroke) for item in group.items)


def _letters(text: str) -> str:
    """Without spaces: lines break at them, or within long words."""
    return "".join(text.split())


def label_sheets(
    labelled: Sequence[Tagged], info: JobInfo, grid: Grid, *, skip: int = 0, borders: bool = False, demonstration: bool = False
) -> Iterator[Sheet]:
    """Pages of labels; the first page leaves its first `skip` places free, for a sheet that is partly used.

    Raises ValueError for a grid whose labels are too small.
    """
    if grid.fault:
        raise ValueError(grid.fault)
    width, height = PAPERS[grid.paper]
    left, number = iter(labelled), 0
    while True:
        boxes = list(grid.boxes())[skip if number == 0 else 0 :]
        page = list(islice(left, len(boxes)))
        if not page:
            return
        number += 1
        groups = tuple(_label(thing, info, box, borders=borders, demonstration=demonstration) for thing, box in zip(page, boxes, strict=False))
        if demonstration:
            said = Label(DEMONSTRATION, Point(width / 2, grid.margin_along / 2), 2.0, align="centre", level="middle")
            groups = (*groups, Group("demonstration", (said,)))
        named = ", ".join(f"{thing.mark} {thing.tag}" for thing in page)
        yield Sheet(f"Labels, page {number}", f"Labels for {named}.", width, height, (), groups, 1.0)


def _label(thing: Tagged, info: JobInfo, box: Box, *, borders: bool, demonstration: bool) -> Group:
    room = box.grown(-PAD)
    code, side = _code(code_text(thing, info), room)
    items: list[Entity] = [*code]
    words = Box(room.left, room.bottom, room.right - side - PAD, room.top)
    sketch = min(words.height, words.width * SKETCH)
    # Room for the size comes before the picture: a size cut short is another size.
    if words.width - sketch - PAD >= max(LEAST_WIDE * 0.45, text_width(thing.size, SIZE_MM, bold=True)):
        items += _sketch(thing, Box(words.right - sketch, words.top - sketch, words.right, words.top))
        words = Box(words.left, words.bottom, words.right - sketch - PAD, words.top)
    beside = bounds_of_all(items, 1.0)
    items += _words(thing, info, words, Box(room.left, room.bottom, room.right, beside.bottom - PAD), demonstration=demonstration)
    if borders:
        items.append(Stroke(rectangle(*box).corners, Layer.HATCH, closed=True, weight=FINE))
    said = f"{thing.kind} {thing.mark} {thing.tag}, {thing.size}"
    return Group(f"label-{thing.mark}-{thing.tag}", tuple(items), said, (("mark", thing.mark), ("tag", thing.tag)))


def _code(text: str, room: Box) -> tuple[list[Fill], float]:
    """The code at the top right of the room as runs of dark modules, and the side of the square that it takes."""
    rows = _modules(text)
    module = _module_mm(len(rows), room)
    side = module * (len(rows) + 2 * QUIET)
    left, top = room.right - side + QUIET * module, room.top - QUIET * module
    fills = []
    for number, row in enumerate(rows):
        start = 0
        while (start := row.find(1, start)) >= 0:
            end = row.find(0, start)
            end = len(row) if end < 0 else end
            y = top - number * module
            # A hair taller than its row: readers would leave light seams between rows that only touch.
            fills.append(Fill(rectangle(left + start * module, y - module * 1.02, left + end * module, y), Layer.NOTE, INK))
            start = end
    return fills, side


def _modules(text: str) -> list[bytes]:
    """The code's rows of light (0) and dark (1) modules."""
    return [bytes(row) for row in segno.make(text, error="m", micro=False, boost_error=False).matrix]


def _module_mm(count: int, room: Box) -> float:
    return min(MODULE_MM, min(room.height, room.width * 0.4) / (count + 2 * QUIET))


def _sketch(thing: Tagged, room: Box) -> list[Entity]:
    """The window from outside, small, with the thing toned."""
    window, box = thing.window, thing.window.frame.outline.bounds
    share = min(room.width / box.width, room.height / box.height)
    dx = room.right - box.width * share - box.left * share
    dy = room.top - box.height * share - box.bottom * share

    def small(outline: Outline) -> Outline:
        return Outline(tuple(Corner(c.x * share + dx, c.y * share + dy, c.bulge) for c in outline.corners))

    toned = small(thing.outline)
    inner = tuple(small(light.region.outline) for light in window.lights) if thing.kind == "frame" else ()
    lines = [small(bar_face(window, bar)) for bar in window.bars] + [small(light.region.outline) for light in window.lights]
    if thing.kind == "frame":
        # The frame itself, not what it holds: its lights stay light, drawn a little smaller.
        inner = tuple(_shrunk(outline) for outline in inner)
    return [
        Fill(toned, Layer.HATCH, PIECE_TONE, inner),
        *(Stroke(outline.corners, Layer.NOTE, closed=True, weight=FINE) for outline in lines[len(window.bars) :]),
        Stroke(small(window.frame.outline).corners, Layer.NOTE, closed=True, weight=THIN),
        Stroke(toned.corners, Layer.NOTE, closed=True, weight=THIN),
    ]


def _shrunk(outline: Outline) -> Outline:
    """The outline at nine tenths of its size about its middle."""
    x, y = outline.bounds.centre
    return Outline(tuple(Corner(x + (c.x - x) * 0.86, y + (c.y - y) * 0.86, c.bulge) for c in outline.corners))


def _words(thing: Tagged, info: JobInfo, room: Box, under: Box, *, demonstration: bool) -> list[Label]:
    """Tag and size as large as they leave the rest its room, then the rest in small letters; what is cut ends in an ellipsis.

    `under`: below picture and code, where lines may run on.
    """
    tag = thing.mark if thing.kind == "frame" else f"{thing.mark}-{thing.tag}"
    said = _said(thing, info, demonstration=demonstration)
    for shares, small in ((LARGE, SMALL_MM), (LARGE, LEAST_MM), (MIDDLING, SMALL_MM), (MIDDLING, LEAST_MM)):
        labels: list[Label] = []
        top = room.top
        for text, most in zip((tag, thing.size), shares, strict=True):
            height = next((h for h in HEIGHTS if h <= room.height * most and text_width(text, h, bold=True) <= room.width), HEIGHTS[-1])
            labels.append(Label(fit(text, room.width, height, bold=True), Point(room.left, top), height, level="top", bold=True))
            top -= height * 1.45
        small_words = list(_small(said, small, top, room, under))
        kept = [label for label in small_words if label.at.y - small >= room.bottom - 1e-9]
        if len(kept) == len(small_words):
            return [*labels, *kept]
    if kept:
        last, width = kept[-1], under.width if kept[-1].at.y <= under.top else room.width
        kept[-1] = replace(last, text=_ended(f"{last.text} {small_words[len(kept)].text}", width, small, bold=last.bold))
    return [*labels, *kept]


def _small(said: Sequence[tuple[str, bool]], height: float, top: float, room: Box, under: Box) -> Iterator[Label]:
    """The small words line by line, as wide as there is room beside the picture, or under it."""
    for text, bold in said:
        left = text
        while left:
            line = wrap(left, under.width if top <= under.top else room.width, height, bold=bold)[0]
            yield Label(line, Point(room.left, top), height, level="top", bold=bold)
            left = left[len(line) :].lstrip()
            top -= height * LEADING


def _ended(text: str, width: float, height: float, *, bold: bool) -> str:
    """As much as fits, always with an ellipsis: more was to come."""
    cut = fit(text, width, height, bold=bold)
    ended = f"{text}{ELLIPSIS}"
    if cut.endswith(ELLIPSIS) or text_width(ended, height, bold=bold) <= width:
        return cut if cut.endswith(ELLIPSIS) else ended
    return fit(f"{ended}{ELLIPSIS}", width, height, bold=bold)


def _said(thing: Tagged, info: JobInfo, *, demonstration: bool) -> list[tuple[str, bool]]:
    """The small words, the most needful first, and whether they are bold."""
    first = ", ".join(word for word in (thing.kind, *thing.words[:1]) if word)
    job = " · ".join(part for part in (thing.window.location, info.reference, f"revision {info.revision}" if info.revision else "", info.site) if part)
    texts = [(thing.caution, True), (first, False), *((text, False) for text in thing.words[1:]), ("Demonstration data" if demonstration else "", False), (job, False)]
    return [(text, bold) for text, bold in texts if text]
