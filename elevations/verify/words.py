"""The words of a drawing against those of the job's sheet today. A text that was only moved is the same text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from difflib import SequenceMatcher

from elevations.export.dxf import PLAIN
from elevations.export.marker import printable
from elevations.geometry.window import Window, whole_mm
from elevations.plane import Box, Point
from elevations.verify.annotation import Text
from elevations.verify.difference import Difference, place_in
from elevations.verify.said import SaidText, SheetSays

AT_PLACE_MM = 0.5
"""On paper: texts hung up nearer than this stand at one place. Lines of text are further apart."""
LIKE = 0.5
"""Texts that have at least this share of their letters in common are one text, changed."""


def share_found(says: SheetSays, found: Sequence[Text]) -> float:
    """How much of the sheet's words the drawing has, 0 to 1."""
    there = [_plain(text.words) for text in found]
    wanted = [_plain(text.words) for text in says.texts]
    if not wanted:
        return 0.0
    kept = 0
    for words in wanted:
        if words in there:
            there.remove(words)
            kept += 1
    return kept / len(wanted)


def changed_words(says: SheetSays, found: Sequence[Text], window: Window) -> Iterator[Difference]:
    """Texts with other words at their place, then those that are gone, then those that the job does not have.

    `found` lies as the window does.
    """
    wanted, there = list(says.texts), list(found)
    changed: list[tuple[SaidText, Text]] = []
    for near in (says.scale * AT_PLACE_MM, None):
        for said in list(wanted):
            text = _at_place(said, there, near) if near else next((t for t in there if _plain(t.words) == _plain(said.words)), None)
            if text is None:
                continue
            wanted.remove(said)
            there.remove(text)
            if _plain(text.words) != _plain(said.words):
                changed.append((said, text))
    changed += _alike(wanted, there)
    for said, text in changed:
        yield Difference("words", said.place, f"{said.place}: the drawing says '{_plain(text.words)}', the job '{said.words}'")
    for said in wanted:
        if not any(said is other for other, _ in changed):
            yield Difference("words", said.place, f"{said.place}: '{said.words}' is not in the drawing")
    frame = window.frame.outline.bounds
    for text in there:
        if not any(text is other for _, other in changed):
            where = place_in(Box(text.at.x, text.at.y, text.at.x, text.at.y), frame)
            yield Difference("words", "?", f"'{_plain(text.words)}', {where}, is in the drawing and not in the job")


def _at_place(said: SaidText, there: Sequence[Text], near: float) -> Text | None:
    """The text hung up where this one is, with its own words where two are."""
    own = _plain(said.words)
    close = [text for text in there if _apart(text.at, said.at) <= near]
    return min(close, key=lambda text: (_plain(text.words) != own, _apart(text.at, said.at)), default=None)


def _alike(wanted: Sequence[SaidText], there: Sequence[Text]) -> Iterator[tuple[SaidText, Text]]:
    """Texts moved and changed: the most alike first, each once."""
    pairs = [
        (-SequenceMatcher(None, _plain(said.words), _plain(text.words)).ratio(), _apart(text.at, said.at), i, j)
        for i, said in enumerate(wanted) for j, text in enumerate(there)
    ]
    taken: tuple[set[int], set[int]] = set(), set()
    for ratio, _, i, j in sorted(pairs):
        if -ratio >= LIKE and i not in taken[0] and j not in taken[1]:
            taken[0].add(i)
            taken[1].add(j)
            yield wanted[i], there[j]


def _apart(a: Point, b: Point) -> float:
    return max(abs(a.x - b.x), abs(a.y - b.y))


def _plain(words: str) -> str:
    """Words alike however a program wrote their signs, spaces and bytes."""
    with suppress(UnicodeError):
        # UTF-8 in a file that says it is not: 'Ã—' for '×', as GDAL leaves it.
        words = words.encode("cp1252").decode("utf-8")
    words = re.sub(r"\\U\+([0-9A-Fa-f]{4})", lambda code: chr(int(code[1], 16)), words)   # as DXF before 2007 writes what its page lacks
    return " ".join(printable(words).translate(PLAIN).replace("% %", "%%").replace("^ ", "^").split())


def pane_sizes(window: Window, found: Sequence[Text]) -> Iterator[Difference]:
    """Sizes written beside a pane's tag that are not the job's: for drawings that are not the job's own sheet."""
    sizes = {pane.tag: (whole_mm(pane.width.value), whole_mm(pane.height.value)) for pane in window.panes}
    told = set()
    for text in found:
        hit = re.search(r"\b(G\d+)\s+(\d+)\s*[×x]\s*(\d+)\b", _plain(text.words))
        if hit and hit[1] in sizes and (int(hit[2]), int(hit[3])) != sizes[hit[1]] and hit[0] not in told:
            told.add(hit[0])
            yield Difference("words", hit[1], f"the words '{hit[0]}' say another size than the job, {sizes[hit[1]][0]} × {sizes[hit[1]][1]}")
