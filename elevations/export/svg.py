"""A sheet as SVG: paper millimetres, real stroke widths, text as text, one `<g>` for each thing with what it is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import svgwrite

from elevations.drawing import explode
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Leader, Sheet, Stroke, Symbol
from elevations.drawing.layers import LAYERS
from elevations.drawing.lettering import font_size
from elevations.drawing.symbols import SYMBOLS
from elevations.export.marker import MARKER, printable
from elevations.plane import Corner, Outline, Point, arc_radius

FONTS = "'DejaVu Sans', Verdana, 'Bitstream Vera Sans', Arial, sans-serif"
"""Text is laid out for the first; the next two have its widths nearly, the others are narrower."""
DASHES = {"dashed": "3 1.5", "chain": "6 1 0.6 1"}
"""Line types as lengths of dash and gap on paper, mm."""
ANCHORS = {"left": "start", "centre": "middle", "right": "end"}
PAPER = "#ffffff"


def write_svg(sheet: Sheet, *, id_prefix: str = "") -> str:
    """The whole file as text. The view box is the paper in mm; y is turned over, for SVG counts it downwards.

    `id_prefix` goes before every id, so that several drawings can stand in one page; with it the result is the
    element alone, without the lines that open a file and without paper under it.
    """
    width, height = _number(sheet.width), _number(sheet.height)
    drawing = svgwrite.Drawing(size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False)
    drawing.attribs.update({
        "role": "img", "aria-labelledby": f"{id_prefix}sheet-title {id_prefix}sheet-description", "font-family": FONTS,
        "fill": "none",
        "stroke-linecap": "round", "stroke-linejoin": "round",
    })
    drawing.set_desc(title=printable(sheet.title), desc=printable(sheet.description))
    drawing.elements[0].xml.set("id", f"{id_prefix}sheet-title")
    drawing.elements[1].xml.set("id", f"{id_prefix}sheet-description")
    if not id_prefix:
        drawing.add(drawing.rect(size=(width, height), fill=PAPER))
    ids = _Ids(id_prefix)
    for placed in sheet.placed:
        view = drawing.g(id=ids.taken(placed.view.id))
        view.set_desc(title=printable(placed.view.title))
        pen = _Pen(drawing, placed.at, placed.scale, sheet.height)
        for group in placed.view.groups:
            view.add(_group(group, pen, ids.taken(f"{placed.view.id}-{group.id}")))
        drawing.add(view)
    pen = _Pen(drawing, Point(0.0, 0.0), 1.0, sheet.height)
    for group in sheet.groups:
        drawing.add(_group(group, pen, ids.taken(group.id)))
    # One element a line: between two tags only, as text never holds a bare angle bracket.
    body = drawing.tostring().replace("><", ">\n<")
    if id_prefix:
        return f"{body}\n"
    return f'<?xml version="1.0" encoding="utf-8"?>\n<!-- {MARKER} -->\n{body}\n'


class _Ids:
    """Ids that are valid and each used once, whatever the names they are made from."""

    def __init__(self, prefix: str) -> None:
        self._prefix = prefix
        self._used = {f"{prefix}sheet-title", f"{prefix}sheet-description"}

    def taken(self, wanted: str) -> str:
        """The wanted id where it is valid and free, otherwise the nearest that is; not given again."""
        stem = re.sub(r"[^A-Za-z0-9-]+", "-", wanted)[:120] or "group"
        stem = self._prefix + (stem if stem[0].isalpha() else f"g-{stem.lstrip('-')}")
        found, number = stem, 2
        while found in self._used:
            found, number = f"{stem}-{number}", number + 1
        self._used.add(found)
        return found


def _group(group: Group, pen: _Pen, group_id: str) -> Any:
    element = pen.drawing.g(id=group_id)
    if group.title:
        element.set_desc(title=printable(group.title))
    for key, value in group.data:
        element.attribs["data-" + re.sub(r"[^a-z0-9-]+", "-", key.lower())] = printable(value)
    for item in group.items:
        element.elements.extend(pen.drawn(item))
    return element


@dataclass(frozen=True, slots=True)
class _Pen:
    """Draws entities of one view: knows where its coordinates lie on the paper."""

    drawing: Any
    at: Point
    scale: float
    paper_height: float

    def drawn(self, item: Entity) -> Iterable[Any]:
        """The SVG elements for one entity."""
        match item:
            case Stroke():
                return (self._lines((item,)),)
            case Fill():
                return (self._fill(item),)
            case Label():
                return (self._text(item),)
            case Dimension():
                return self._dimension(item)
            case Leader():
                return [element for part in explode.explode_leader(item, self.scale) for element in self.drawn(part)]
            case Symbol():
                return (self._symbol(item),)

    def _lines(self, strokes: Sequence[Stroke]) -> Any:
        """Strokes that look like the first of them, as one path."""
        first = strokes[0]
        style = LAYERS[first.layer]
        weight = style.weight if first.weight is None else first.weight
        attributes = {"stroke": style.colour, "stroke-width": _number(weight)}
        line = first.line or style.line
        if line != "solid":
            attributes["stroke-dasharray"] = DASHES[line]
        return self._path("".join([self._track(s.corners, closed=s.closed) for s in strokes]), attributes)

    def _fill(self, fill: Fill) -> Any:
        outlines: tuple[Outline, ...] = (fill.outline, *fill.holes)
        track = "".join([self._track(outline.corners, closed=True) for outline in outlines])
        return self._path(track, {"fill": fill.tone, "fill-rule": "evenodd"})

    def _text(self, label: Label) -> Any:
        place = explode.baseline(label, self.scale)
        x, y = self._paper(place.x, place.y)
        element = self.drawing.text(printable(label.text))
        element.attribs.update({
            "x": x, "y": y, "font-size": _number(font_size(label.height)), "fill": LAYERS[label.layer].colour,
        })
        if label.align != "left":
            element.attribs["text-anchor"] = ANCHORS[label.align]
        if label.bold:
            element.attribs["font-weight"] = "bold"
        if label.angle:
            element.attribs["transform"] = f"rotate({_number(-label.angle)} {x} {y})"
        return element

    def _dimension(self, dim: Dimension) -> tuple[Any, ...]:
        lines = explode.dimension_lines(dim, self.scale)
        leader = explode.dimension_leader(dim, self.scale)
        return (
            self._lines((*lines, leader) if leader else lines),
            self._lines(explode.dimension_ticks(dim, self.scale)),
            self._text(explode.dimension_label(dim, self.scale)),
        )

    def _symbol(self, symbol: Symbol) -> Any:
        x, y = self._paper(symbol.at.x, symbol.at.y)
        element = self.drawing.g()
        turn = f" rotate({_number(-symbol.angle)})" if symbol.angle else ""
        element.attribs["transform"] = f"translate({x} {y}){turn}"
        if symbol.tag:
            element.attribs["data-tag"] = printable(symbol.tag)
        own = _Pen(self.drawing, Point(0.0, 0.0), 1.0, 0.0)
        colour = LAYERS[symbol.layer].colour
        for part in SYMBOLS[symbol.name]:
            inked = replace(part, tone=colour) if isinstance(part, Fill) else replace(part, layer=symbol.layer)
            element.elements.extend(own.drawn(inked))
        return element

    def _path(self, track: str, attributes: dict[str, str]) -> Any:
        element = self.drawing.path(track)
        element.attribs.update(attributes)
        return element

    def _track(self, corners: Sequence[Corner], *, closed: bool) -> str:
        """Path data: straight edges and exact arcs."""
        start = corners[0]
        x, y = self._paper(start.x, start.y)
        parts = [f"M{x} {y}"]
        ends = (*corners[1:], start) if closed else corners[1:]
        for a, b in zip(corners, ends, strict=False):
            x, y = self._paper(b.x, b.y)
            if a.bulge:
                radius = _number(arc_radius(a, b) / self.scale)
                # Turning y over turns counter-clockwise into SVG's sweep flag 0; a bulge past 1 is past a half turn.
                parts.append(f"A{radius} {radius} 0 {int(abs(a.bulge) > 1)} {int(a.bulge < 0)} {x} {y}")
            elif b is not start:
                parts.append(f"L{x} {y}")
        if closed:
            parts.append("Z")
        return "".join(parts)

    def _paper(self, x: float, y: float) -> tuple[str, str]:
        return (
            _number(self.at.x + x / self.scale),
            _number(self.paper_height - self.at.y - y / self.scale),
        )


def _number(value: float) -> str:
    """To a thousandth, without trailing zeros or a negative zero."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
