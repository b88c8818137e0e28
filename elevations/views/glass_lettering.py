"""What is written on a pane of the glass drawing, as large as the visible glass takes it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Label
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.window import Pane, whole_mm
from elevations.plane import Box, Point
from elevations.schedules.glass_order import special_words
from elevations.schedules.lifting import lift_words, people_to_lift
from elevations.views.shaped import largest_box

LETTERING = ((10.0, 7.0, 3.5), (7.0, 5.0, 3.5), (5.0, 5.0, 3.5), (5.0, 5.0, 2.5), (5.0, 3.5, 2.5), (3.5, 3.5, 2.5), (3.5, 2.5, 2.0), (2.5, 2.0, 1.8))
"""Heights of tag, size and further words on paper, largest first."""
AT_ARMS_LENGTH = 5.0
"""A size in capitals this high is read at arm's length, mm; common practice, no source."""
TAG_ALONE = (2.5, 2.0, 1.8)
"""Heights of a tag where nothing else fits, mm on paper."""
BARRED = 5.0
"""Letters on a pane with glazing bars are no higher than this, mm on paper."""
LEADING = 1.45
Line = tuple[str, float, bool]
"""Text, height, and whether it is bold."""


def size_words(pane: Pane) -> str:
    """'420 × 842', width by height."""
    return " × ".join(_size(pane))


def _size(pane: Pane) -> tuple[str, str]:
    return str(whole_mm(pane.width.value)), str(whole_mm(pane.height.value))


def lettering(pane: Pane, scale: float) -> tuple[Label, ...]:
    """Tag and size, then make-up and mass, what is special, and who lifts it, as far as there is room.

    Level where that gives letters that are read at arm's length, if need be with the size on two lines, then upright, then
    smaller ones. What is special about a pane comes before larger letters. Only the tag where nothing else fits, and
    nothing where not even that does: the list has the rest.
    """
    box = largest_box(pane.sight.outline)
    room = Box(box.left / scale, box.bottom / scale, box.right / scale, box.top / scale).grown(-1.0)
    for heights, upright, size, whole in _ways(pane):
        across, along = (room.height, room.width) if upright else (room.width, room.height)
        for lines in _wordings(pane, size, heights, across, whole=whole):
            if _fits(lines, across, along):
                return _set(lines, room, scale, upright=upright)
    for height in TAG_ALONE:
        for upright in (False, True):
            across, along = (room.height, room.width) if upright else (room.width, room.height)
            if _fits([(pane.tag, height, True)], across, along):
                return _set([(pane.tag, height, True)], room, scale, upright=upright)
    return ()


def says_all(pane: Pane, labels: Sequence[Label]) -> bool:
    """Whether make-up and mass are among what is written on the pane."""
    said = " ".join(label.text for label in labels)
    return pane.make_up.make_up in said and f"{pane.mass_kg:.1f} kg" in said


Heights = tuple[float, float, float]


def _ways(pane: Pane) -> Iterator[tuple[Heights, bool, Sequence[str], bool]]:
    """Heights, whether upright, the size on one line or two, and whether all that is special has to be said: best first."""
    most = BARRED if pane.bars else LETTERING[0][1]   # so that bars can be seen beside the words
    offered = [heights for heights in LETTERING if heights[1] <= most and (not pane.bars or heights[0] <= most)]
    large = [heights for heights in offered if heights[1] >= AT_ARMS_LENGTH]
    one, two = [size_words(pane)], [f"{_size(pane)[0]} ×", _size(pane)[1]]
    for whole in (True, False):
        for choices in (large, offered):
            for upright in (False, True):
                for size in (one,) if upright else (one, two):
                    yield from ((heights, upright, size, whole) for heights in choices)


def _wordings(pane: Pane, size: Sequence[str], heights: Heights, across: float, *, whole: bool) -> Iterator[list[Line]]:
    """What may be written at these heights, the fullest first; `whole`: nothing special left out."""
    tag, large, small = heights
    said = [(pane.tag, tag, True), *((text, large, True) for text in size)]
    mass = f"{pane.mass_kg:.1f} kg"
    people = lift_words(people_to_lift(pane.mass_kg))
    lift = [f"to lift: {people}"] if people else []
    special = [text for text in special_words(pane.make_up).split("; ") if text]
    shape = ["shaped: template"] if pane.shaped else []
    needed = [*special, *shape]
    for extra in ([f"{pane.make_up.make_up}, {mass}", *needed], [mass, *needed], needed) if whole else ([mass], []):
        texts = [(text, text in lift) for text in (*extra, *lift)]
        if any(text_width(word, small, bold=bold) > across for text, bold in texts for word in text.split()):
            continue   # a word would break: upright or in smaller letters it may not
        yield [*said, *((line, small, bold) for text, bold in texts for line in wrap(text, across, small, bold=bold))]
    if len(size) == 1 and not (lift or (whole and needed)):
        yield [(f"{pane.tag}  {size[0]}", large, True)]


def _fits(lines: Sequence[Line], across: float, along: float) -> bool:
    wide = max(text_width(text, height, bold=bold) for text, height, bold in lines)
    return wide <= across and sum(height for _, height, _ in lines) * LEADING <= along


def _set(lines: Sequence[Line], room: Box, scale: float, *, upright: bool) -> tuple[Label, ...]:
    """Lines in the middle of the room, the first on top, or leftmost where they read from the right."""
    x, y = room.centre
    along = sum(height for _, height, _ in lines) * LEADING / 2
    made = []
    for text, height, bold in lines:
        along -= height * (LEADING + 1.0) / 2
        at = Point((x - along) * scale, y * scale) if upright else Point(x * scale, (y + along) * scale)
        made.append(Label(text, at, height, align="centre", angle=90.0 if upright else 0.0, bold=bold))
        along -= height * (LEADING - 1.0) / 2
    return tuple(made)
