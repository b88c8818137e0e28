"""The opening on the survey form: its lines to tape under its own head, each with a box to write in."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Entity, Label, Stroke
from elevations.drawing.layers import FINE, Layer
from elevations.drawing.lettering import fit
from elevations.plane import Box, Corner, Outline, Point, flatten, rectangle
from elevations.shapes.base import rise_bulge
from elevations.sheets import survey_form as form
from elevations.sheets.survey_form import CAPTION
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import Opening
from elevations.views.light_note import crosses

VALUE = 3.5
SHORTEST = 1e-6
WIDE, HIGH = 20.0, 10.4
PLACES = {
    "top": (0.36, 0.86), "middle": (0.36, 0.5), "bottom": (0.36, 0.13), "left": (0.12, 0.68), "centre": (0.62, 0.68), "right": (0.88, 0.68),
    "\\": (0.365, 0.68), "/": (0.32, 0.315),
}
"""Middle of each box of the opening's sketch, as shares of the hole: the first diagonal above the second, as the job has them."""
SPRINGING = 0.8
"""How far up a shaped head's springing, or its lower jamb's top, is sketched: the top width is taken there, the middle one at half of it."""
UNDER_A_HEAD = {
    "top": (0.36, 0.77), "middle": (0.36, 0.43), "left": (0.12, 0.66), "centre": (0.62, 0.62), "right": (0.88, 0.66), "\\": (0.365, 0.63), "/": (0.32, 0.28),
}
CAPTIONS = {"\\": "1st diag. \\", "/": "2nd diag. /"}
POINTED_BEND = 0.1
"""Bulge of each arc of a pointed head as sketched."""


def box_of(box: Box, caption: str, value: str = "") -> Iterator[Entity]:
    """A box with its caption, and what is known already."""
    yield Stroke(rectangle(*box).corners, Layer.SHEET, closed=True, weight=FINE)
    if caption:
        yield Label(caption, Point(box.left + 0.8, box.top - 0.8), CAPTION, level="top")
    if value:
        height = VALUE if fit(value, box.width - 2.0, VALUE) == value else CAPTION
        yield Label(fit(value, box.width - 2.0, height), Point(box.left + 1.0, box.bottom + 1.3), height)


def opening_sketch(area: Box, spec: WindowSpec | None) -> Iterator[Entity]:
    """The hole, under its own head where the job says that, with the lines that are measured and a box on each."""
    hole, opening = area.grown(-3.0), spec.opening if spec is not None else None
    level = opening is None or opening.head == "level"
    shares = PLACES if level else PLACES | UNDER_A_HEAD
    across = {name: shares[name][1] for name in ("top", "middle", "bottom")} | ({} if level else {"top": SPRINGING, "middle": SPRINGING / 2})
    outline, (left_top, right_top) = _hole(opening)

    def at(x: float, y: float) -> Corner:
        return Corner(hole.left + x * hole.width, hole.bottom + y * hole.height)

    yield Stroke(tuple(Corner(*at(corner.x, corner.y).point, corner.bulge) for corner in outline), Layer.WALL, closed=True, weight=0.7)
    places = {name: at(*share) for name, share in shares.items()}
    taken = {name: Box(middle.x - WIDE / 2, middle.y - HIGH / 2, middle.x + WIDE / 2, middle.y + HIGH / 2) for name, middle in places.items()}
    measured_lines = [(at(0, up), at(1, up), None) for up in across.values()]
    for name, most in (("left", left_top), ("centre", 1.0), ("right", right_top)):   # the outer ones to the jambs' tops
        x = shares[name][0]
        measured_lines.append((at(x, 0), at(x, min(most, _up(outline, x))), None))
    for a, b, style in (*measured_lines, (at(0, left_top), at(1, 0), "dashed"), (at(0, 0), at(1, right_top), "dashed")):
        for start, stop in clear_of(a, b, list(taken.values())):
            yield Stroke((start, stop), Layer.DIMENSION, line=style, weight=FINE)
    for name, (key, number) in form.OPENING.items():
        value = ""
        if opening is not None:
            measured = getattr(opening, key.removeprefix("opening.")) or ()
            value = form.shown(measured[number]) if number < len(measured) else ""
        yield from box_of(taken[name], CAPTIONS.get(name, name), value)


def _hole(opening: Opening | None) -> tuple[tuple[Corner, ...], tuple[float, float]]:
    """The sketch's outline as shares, bottom left first, and how far up its jambs go; blank forms have a level head."""
    low = Corner(0.0, 0.0), Corner(1.0, 0.0)
    if opening is None or opening.head == "level":
        return (*low, Corner(1.0, 1.0), Corner(0.0, 1.0)), (1.0, 1.0)
    if opening.head == "raked":
        left, right = (1.0, SPRINGING) if opening.height[0] > opening.height[2] else (SPRINGING, 1.0)
        return (*low, Corner(1.0, right), Corner(0.0, left)), (left, right)
    jambs = SPRINGING, SPRINGING
    if opening.head == "arched":
        return (*low, Corner(1.0, SPRINGING, rise_bulge(1.0, 1.0 - SPRINGING)), Corner(0.0, SPRINGING)), jambs
    return (*low, Corner(1.0, SPRINGING, POINTED_BEND), Corner(0.5, 1.0, POINTED_BEND), Corner(0.0, SPRINGING)), jambs


def _up(outline: Sequence[Corner], x: float) -> float:
    """How high the sketch's head is at a share of its width."""
    points = [point for a, b in itertools.pairwise(outline[2:]) for point in flatten(Outline((a, Corner(b.x, b.y))), 0.001)]
    for a, b in itertools.pairwise(points):
        if b.x <= x <= a.x:
            return b.y + (x - b.x) / (a.x - b.x) * (a.y - b.y) if a.x > b.x else a.y
    return 1.0


def clear_of(a: Corner, b: Corner, boxes_: Sequence[Box]) -> Iterator[tuple[Corner, Corner]]:
    """The pieces of a line that lie in no box: a drawing program covers nothing with white."""
    shares = [0.0]
    for box in boxes_:
        if not crosses(a.point, b.point, box):
            continue
        first, last = 0.0, 1.0
        for start, along, low, high in ((a.x, b.x - a.x, box.left, box.right), (a.y, b.y - a.y, box.bottom, box.top)):
            if along:
                enters, leaves = sorted(((low - start) / along, (high - start) / along))
                first, last = max(first, enters), min(last, leaves)
        shares += [first, last]
    ends = [*sorted(shares[1:]), 1.0]
    for low, high in zip([0.0, *ends[1::2]], ends[::2], strict=True):
        if high - low > SHORTEST:
            yield Corner(a.x + low * (b.x - a.x), a.y + low * (b.y - a.y)), Corner(a.x + high * (b.x - a.x), a.y + high * (b.y - a.y))
