"""The template of one shaped pane: its exact cut outline with letters at its sides and numbers at its corners."""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.drawing.chains import chain, next_line, overall
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.explode import label_box
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import FINE, VISIBLE, Layer
from elevations.geometry.along import chord, place_on
from elevations.geometry.window import Pane, Window
from elevations.plane import Outline, Point
from elevations.schedules.templates import LETTERS, template_outline
from elevations.views.shaped import holds_box

GLASS_TONE = "#e3eef3"
FIRST = 8.0
"""From the glass to the first chain, mm on paper."""
LETTER, NUMBER, TAGS = 3.5, 2.5, (5.0, 3.5, 2.5)
LETTER_IN, NUMBER_IN = 3.2, 4.5
"""From a sight line to the middle of its side's letter, from its corner to that of the number, mm on paper."""
TAG_PLACES = (0.5, 0.4, 0.3, 0.6, 0.2, 0.7)
"""Where the tag may stand, as shares of the height, and then of the width between the sight lines there."""


def template(window: Window, pane: Pane, scale: float) -> View:
    """The pane from outside, mm from the bottom left of its bounds; annotation sized for 1:`scale`.

    Layer GLASS holds the cut outline, true size and true arcs, and nothing else.
    """
    outline = template_outline(pane)
    sight = template_outline(pane, sight=True)
    tag = f"{window.mark}-{pane.tag}"
    items: tuple[Entity, ...] = (
        Fill(outline, Layer.HATCH, GLASS_TONE),
        Stroke(sight.corners, Layer.BEAD, closed=True, line="dashed", weight=FINE),
        Stroke(outline.corners, Layer.GLASS, closed=True, weight=VISIBLE),
    )
    data = (("mark", window.mark), ("light", str(pane.light)), ("tag", pane.tag))
    groups = [
        Group("template-glass", items, f"{tag}, cut outline", data),
        Group("template-names", tuple(_names(sight, tag, scale)), "sides and corners"),
        Group("template-sizes", tuple(_sizes(outline, scale)), "places of corners, and overall size"),
    ]
    bounds = bounds_of_all((item for group in groups for item in group.items), scale)
    return View("template", f"Template {tag}", tuple(groups), bounds)


def _names(outline: Outline, tag: str, scale: float) -> list[Label]:
    """A letter inside each side, a number inside each corner, and the tag as large as it fits between them."""
    made = list(_letters(outline, scale))
    taken = [label_box(label, scale) for label in made]
    for height in TAGS:
        for up in TAG_PLACES:
            y = outline.bounds.bottom + up * outline.bounds.height
            across = chord(outline, 1, y)
            for share in TAG_PLACES if across else ():
                assert across is not None
                at = Point(across[0].at + share * (across[1].at - across[0].at), y)
                label = Label(tag, at, height, align="centre", level="middle", bold=True)
                box = label_box(label, scale)
                if holds_box(outline, box) and not any(box.overlaps(other) for other in taken):
                    return [*made, label]
    return made   # the page's title has it


def _letters(outline: Outline, scale: float) -> Iterator[Label]:
    count = len(outline.corners)
    for i in range(count):
        at, inward = place_on(outline, i, outline.length(i) / 2)
        place = Point(at.x + inward.x * LETTER_IN * scale, at.y + inward.y * LETTER_IN * scale)
        yield Label(LETTERS[i], place, LETTER, align="centre", level="middle", bold=True)
        _, arriving = place_on(outline, i - 1 if i else count - 1, outline.length(i - 1 if i else count - 1))
        corner, leaving = place_on(outline, i, 0.0)
        x, y = arriving.x + leaving.x, arriving.y + leaving.y
        length = math.hypot(x, y) or 1.0
        # Further in where the corner is sharp, so that the number is clear of both sides.
        reach = NUMBER_IN * scale / max(0.35, length / 2)
        yield Label(
            str(i + 1), Point(corner.x + x / length * reach, corner.y + y / length * reach), NUMBER, align="centre", level="middle"
        )


def _sizes(outline: Outline, scale: float) -> Iterator[Dimension]:
    """Below: corners from left to right, and the width. Left: corners and crowns from the bottom up, and the height."""
    box = outline.bounds
    for upright, low, high, edge in ((False, box.left, box.right, box.bottom), (True, box.bottom, box.top, box.left)):
        places = sorted({low, high, *(corner[1 if upright else 0] for corner in outline.corners)})
        line_at = edge - FIRST * scale
        if len({round(place, 1) for place in places}) > 2:
            dims = chain(places, line_at=line_at, upright=upright, scale=scale, thing_at=edge)
            yield from dims
            line_at = next_line(dims, scale)
        yield from overall((low, high), line_at=line_at, upright=upright, scale=scale, thing_at=edge)
