"""What the signs of a drawing mean, each beside its picture."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from elevations.drawing.entities import Entity, Fill, Label, Stroke, Symbol
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import wrap
from elevations.geometry.fit_fixing import holds
from elevations.geometry.setting_blocks import setting_blocks
from elevations.geometry.window import Sash, Window
from elevations.openings.base import ALONG, AWAY, AXIS, TOWARDS
from elevations.plane import Box, Corner, Point, rectangle
from elevations.views.hatch import MATERIALS
from elevations.views.marking_figures import order_sign
from elevations.views.marking_lights import handle_edge
from elevations.views.marking_out import CARRIES, LOCATES
from elevations.views.opening_symbol import symbol_lines
from elevations.views.table import LEADING, SMALL, Block, heading, stack

Rows = Sequence[tuple[Sequence[Entity], str]]
"""Each a picture, mm on paper from its top left corner, and its words."""


def sign_side(text: float) -> float:
    """Height of a sign beside text of that height, mm on paper."""
    return 5.0 if text > SMALL else 4.2


def elevation_key(
    sashes: Sequence[Sash], width: float, text: float, *, apex_at_hinge: bool, ways: Collection[str] = (), kinds: Collection[str] | None = None,
) -> Block:
    """Of an elevation with these sashes: how they open, by what fixings it shows (`Hold.how`), the glass's hidden edge.

    `kinds`: of the lines of opening symbols that it shows (see `openings.base.Line`); None lists both triangles, shown or not.
    """
    side = sign_side(text)
    wide = side * 1.7
    moves = {AXIS for sash in sashes if sash.leaf.half_in} | {ALONG for sash in sashes if sash.leaf.slides}
    shown = {TOWARDS, AWAY} | moves if kinds is None else kinds
    rows = [*_opening_rows(shown, side, apex_at_hinge=apex_at_hinge)]
    if set(ways) - {"bracket"}:
        rows.append(([Symbol("fixing", Point(wide / 2, -side / 2), Layer.FIXING)], "fixing point"))
    if "bracket" in ways:
        rows.append(([Symbol("bracket", Point(wide / 2, -side / 2), Layer.FIXING)], "bracket on the frame: not drilled"))
    rows.append(([Stroke((Corner(0, -side / 2), Corner(wide, -side / 2)), Layer.GLASS_CUT, line="dashed")], "edge of the glass, hidden (cut size)"))
    return _listed(rows, side, width, text)


def marking_key(window: Window, width: float, text: float, *, apex_at_hinge: bool) -> Block:
    """Of the marking-out for whoever fits the window: only what is drawn there."""
    side = sign_side(text)
    wide = side * 1.7
    kinds = {line.kind for light in window.lights for line in symbol_lines(light)}
    rows = [*_opening_rows(kinds, side, apex_at_hinge=apex_at_hinge)]
    if any(handle_edge(sash) for sash in window.sashes):
        rows.append(([Stroke(rectangle(wide / 2 - 0.6, -side + 0.4, wide / 2 + 0.6, -0.4).corners, Layer.HARDWARE, closed=True, weight=THIN)], "handle"))
    middle = Point(wide / 2, -side / 2)
    held = holds(window)
    ways = {hold.how for hold in held.values()}
    if ways - {"bracket"}:
        rows.append(([Symbol("fixing", middle, Layer.FIXING)], "screw through the frame, marked from 0"))
    if "bracket" in ways:
        rows.append(([Symbol("bracket", middle, Layer.FIXING)], "bracket on the frame, b at its distance from 0"))
    if ways:
        if any(hold.fails for hold in held.values()):
            rows.append(([Label("?", middle, text, align="centre", level="middle")], "nothing holds there: not before it is settled"))
        rows.append(([*order_sign(1, middle, 1.0)], "when it is tightened"))
        rows.append(([*_bar(wide, side, MATERIALS["packer"].tone, Layer.FIXING)], "packer"))
    if setting_blocks(window):
        cross = Stroke((Corner(1.0, -side / 2 - 0.8), Corner(wide - 1.0, -side / 2 + 0.8)), Layer.HARDWARE, weight=FINE)
        rows.append(([*_bar(wide, side, CARRIES, Layer.HARDWARE), cross], "block that carries the glass"))
        rows.append(([*_bar(wide, side, LOCATES, Layer.HARDWARE)], "block that holds it in place"))
    return _listed(rows, side, width, text)


def _opening_rows(kinds: Collection[str], side: float, *, apex_at_hinge: bool) -> Iterator[tuple[list[Entity], str]]:
    """Triangles, the axis that a sash turns about, the way it slides: of these kinds of lines (see `openings.base.Line`)."""
    where = "at the hinges" if apex_at_hinge else "away from the hinges"
    wide = side * 1.7
    if TOWARDS in kinds:
        yield _triangle(side, None), f"opens out, towards you; point {where}"
    if AWAY in kinds:
        yield _triangle(side, "dashed"), f"opens in, away from you; point {where}"
    if AXIS in kinds:
        yield [Stroke((Corner(0, -side / 2), Corner(wide, -side / 2)), Layer.CENTRE)], "axis that it turns about"
    if ALONG in kinds:
        tip, barb = Corner(wide, -side / 2), side / 4
        shaft = (Corner(0, -side / 2), tip, Corner(wide - barb, barb / 2 - side / 2), tip, Corner(wide - barb, -barb / 2 - side / 2))
        yield [Stroke(shaft, Layer.OPENING)], "slides this way"


def _listed(rows: Rows, side: float, width: float, text: float) -> Block:
    wide = side * 1.7
    blocks = [heading("Key", width)]
    for picture, said in rows:
        lines = wrap(said, width - wide - 3, text)
        step = text * LEADING
        labels = [Label(words, Point(wide + 3, -side / 2 - number * step), text, level="middle") for number, words in enumerate(lines)]
        blocks.append(Block((*picture, *labels), width, side + 0.8 + (len(lines) - 1) * step))
    return stack(blocks)


def _bar(wide: float, side: float, tone: str, layer: Layer) -> Iterator[Entity]:
    outline = rectangle(1.0, -side / 2 - 0.8, wide - 1.0, -side / 2 + 0.8)
    yield Fill(outline, Layer.HATCH, tone)
    yield Stroke(outline.corners, layer, closed=True, weight=FINE)


def _triangle(side: float, style: str | None) -> list[Entity]:
    box = Box(0, -side, side * 1.7, 0)
    corners = tuple(Corner(x, y) for x, y in ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)))
    point = (Corner(box.right, box.top), Corner(box.left, -side / 2), Corner(box.right, box.bottom))
    return [Stroke(corners, Layer.SHEET, closed=True, weight=0.18), Stroke(point, Layer.OPENING, line=style)]
