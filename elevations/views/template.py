"""The template of one shaped pane: its exact cut outline with letters at its sides and numbers at its corners."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from elevations.drawing.chains import chain, next_line, outside, overall
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.explode import dimension_box, explode_dimension, label_box
from elevations.drawing.extent import bounds_of, bounds_of_all
from elevations.drawing.layers import FINE, VISIBLE, Layer
from elevations.geometry.along import chord, place_on
from elevations.geometry.window import Pane, Window
from elevations.plane import Box, Outline, Point
from elevations.schedules.glazing_bars import bar_places
from elevations.schedules.templates import LETTERS, template_outline
from elevations.views.shaped import holds, holds_box

GLASS_TONE = "#e3eef3"
FIRST = 8.0
"""From the glass to the first chain, mm on paper."""
LETTER, NUMBER, TAGS = 3.5, 2.5, (5.0, 3.5, 2.5)
LETTER_IN, NUMBER_IN = 3.2, (4.0, 5.5, 7.0)
"""From a sight line to the middle of its side's letter, from its corner to that of the number, mm on paper."""
SIDE_PLACES = (0.5, 0.38, 0.62, 0.25, 0.75)
"""Where along its side a letter may stand."""
CLEAR = 0.4
"""An extension line stays this far from a text, mm on paper."""
TAG_PLACES = (0.5, 0.4, 0.3, 0.6, 0.2, 0.7)
"""Where the tag may stand, as shares of the height, and then of the width between the sight lines there."""


def template(window: Window, pane: Pane, scale: float) -> View:
    """The pane from outside, mm from the bottom left of its bounds; annotation sized for 1:`scale`.

    Layer GLASS holds the cut outline, true size and true arcs, and nothing else.
    """
    outline = template_outline(pane)
    sight = template_outline(pane, sight=True)
    tag = f"{window.mark}-{pane.tag}"
    sizes = tuple(_sizes(outline, pane, scale))
    box = pane.cut.outline.bounds
    bars = tuple(
        Stroke(bar.face.moved(-box.left, -box.bottom).corners, Layer.GLAZING_BAR, closed=True, line="dashed", weight=FINE) for bar in pane.bars
    )
    items: tuple[Entity, ...] = (
        Fill(outline, Layer.HATCH, GLASS_TONE),
        Stroke(sight.corners, Layer.BEAD, closed=True, line="dashed", weight=FINE),
        Stroke(outline.corners, Layer.GLASS, closed=True, weight=VISIBLE),
    )
    data = (("mark", window.mark), ("light", str(pane.light)), ("tag", pane.tag))
    groups = [
        Group("template-glass", items, f"{tag}, cut outline", data),
        *([Group("template-bars", bars, "glazing bars")] if bars else []),
        Group("template-names", tuple(_names(outline, sight, sizes, tag, scale)), "sides and corners"),
        Group("template-sizes", sizes, "places of corners, centre lines of glazing bars, and overall size"),
    ]
    bounds = bounds_of_all((item for group in groups for item in group.items), scale)
    return View("template", f"Template {tag}", tuple(groups), bounds)


def _names(outline: Outline, sight: Outline, sizes: Sequence[Dimension], tag: str, scale: float) -> list[Label]:
    """A letter at each side, a number at each corner, inside where there is room, and the tag as large as it fits."""
    made: list[Label] = []
    taken = [bounds_of(part, scale) for dim in sizes for part in explode_dimension(dim, scale)]
    for places, height, texts in (
        (_beside_sides, LETTER, LETTERS), (_beside_corners, NUMBER, [str(i + 1) for i in range(len(outline.corners))]),
    ):
        for i, text in zip(range(len(outline.corners)), texts, strict=False):
            for at, inside in places(outline, sight, i, scale):
                label = Label(text, at, height, align="centre", level="middle", bold=height == LETTER)
                box = label_box(label, scale)
                clear = holds_box(sight, box) if inside else not outline.bounds.overlaps(box) or _apart(outline, box)
                if clear and not any(box.overlaps(other) for other in taken):
                    made.append(label)
                    taken.append(box)
                    break
    return [*made, *_tag(sight, tag, scale, taken)]


def _tag(sight: Outline, tag: str, scale: float, taken: Sequence[Box]) -> Iterator[Label]:
    """The pane's tag; nothing where it fits nowhere, as the page's title has it."""
    for height in TAGS:
        for up in TAG_PLACES:
            y = sight.bounds.bottom + up * sight.bounds.height
            across = chord(sight, 1, y)
            for share in TAG_PLACES if across else ():
                assert across is not None
                at = Point(across[0].at + share * (across[1].at - across[0].at), y)
                label = Label(tag, at, height, align="centre", level="middle", bold=True)
                box = label_box(label, scale)
                if holds_box(sight, box) and not any(box.overlaps(other) for other in taken):
                    yield label
                    return


def _beside_sides(outline: Outline, sight: Outline, side: int, scale: float) -> Iterator[tuple[Point, bool]]:
    """Where the letter of a side may stand, and whether that is inside the sight line."""
    for line, way in ((sight, 1.0), (outline, -1.0)):
        for share in SIDE_PLACES:
            at, inward = place_on(line, side, line.length(side) * share)
            yield Point(at.x + way * inward.x * LETTER_IN * scale, at.y + way * inward.y * LETTER_IN * scale), way > 0


def _beside_corners(outline: Outline, sight: Outline, corner: int, scale: float) -> Iterator[tuple[Point, bool]]:
    """Where the number of a corner may stand, on the line between its sides, and whether that is inside the sight line."""
    before = (corner or len(outline.corners)) - 1
    for line, way in ((sight, 1.0), (outline, -1.0)):
        _, arriving = place_on(line, before, line.length(before))
        at, leaving = place_on(line, corner, 0.0)
        x, y = arriving.x + leaving.x, arriving.y + leaving.y
        length = math.hypot(x, y) or 1.0
        for reach in NUMBER_IN:
            # Further in where the corner is sharp, so that the number is clear of both sides.
            along = way * reach * scale / (max(0.35, length / 2) if way > 0 else 1.0)
            yield Point(at.x + x / length * along, at.y + y / length * along), way > 0


def _apart(outline: Outline, box: Box) -> bool:
    """Whether a box small against the outline lies wholly outside it."""
    ends = [Point(x, y) for x in (box.left, box.centre.x, box.right) for y in (box.bottom, box.centre.y, box.top)]
    inside = [c for c in outline.corners if box.left <= c.x <= box.right and box.bottom <= c.y <= box.top]
    return not inside and not any(holds(outline, end) for end in ends)


def _sizes(outline: Outline, pane: Pane, scale: float) -> Iterator[Dimension]:
    """Below: centre lines of glazing bars and corners from left to right, and the width; left: the same from the bottom up."""
    box = outline.bounds
    for upright, low, high, edge in ((False, box.left, box.right, box.bottom), (True, box.bottom, box.top, box.left)):
        bars = [high - at if upright else at for at in bar_places(pane, upright=not upright)]
        corners = [corner[1 if upright else 0] for corner in outline.corners]
        line_at, start = edge - FIRST * scale, edge
        for places in ({low, high, *bars}, {low, high, *corners}):
            if len({round(place, 1) for place in places}) > 2:
                dims = chain(sorted(places), line_at=line_at, upright=upright, scale=scale, thing_at=start)
                yield from dims
                line_at = next_line(dims, scale)
                # The next extension lines start outside this chain's texts, which they would otherwise run through.
                shifted = any(dim.shift for dim in dims)
                start = _past(dims, scale) if bars else outside(dims, scale) if shifted else edge
        yield from overall((low, high), line_at=line_at, upright=upright, scale=scale, thing_at=start)


def _past(dims: Sequence[Dimension], scale: float) -> float:
    """Outside a chain and its texts; those of an upright one stand beyond its line."""
    reach = outside(dims, scale)
    return min(reach, *(dimension_box(dim, scale).left - CLEAR * scale for dim in dims)) if dims[0].upright else reach
