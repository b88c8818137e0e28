"""A sheet as DXF R2010: model space, true size in mm, annotation at its paper size times the one scale.

What each choice is for, as measured with several readers: paper space is drawn over the model or not at all, so there
is none unless it is asked for; some readers draw dimensions anew from the header's variables, so these agree with the
pictures in the blocks.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Any

from ezdxf._options import options
from ezdxf.colors import RGB
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.base import BaseLayout

from elevations.drawing import explode
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Leader, Sheet, Stroke, Symbol
from elevations.drawing.layers import LAYERS, Layer
from elevations.drawing.symbols import SYMBOLS
from elevations.export.dxf_layout import add_layout
from elevations.export.dxf_tables import APP, DIMSTYLE, LINETYPES, LayerTable, lettering_style, lineweight, new_document
from elevations.export.marker import MARKER, printable
from elevations.plane import Corner, Outline, Point

ALIGNMENTS = {
    "left": TextEntityAlignment.LEFT, "centre": TextEntityAlignment.CENTER, "right": TextEntityAlignment.RIGHT,
}
"""All on the baseline: where the text stands was worked out before, alike for every format."""
PLAIN = str.maketrans({
    "–": "-", "—": "-", "―": "-", "−": "-", "‘": "'", "’": "'", "‚": ",", "“": '"', "”": '"', "„": '"', "′": "'", "″": '"',
    "…": "...", "•": "*", "‹": "<", "›": ">", "→": ">", "←": "<", "≈": "~",
})
"""Signs that LibreCAD's fonts lack, which show as lozenges there, and what stands for them; none is wider."""
XDATA_BYTES = 255
"""Longest string of extended data (DXF reference, from memory)."""
LIGHT = 0.5
"""Fills lighter than this (0 black, 1 white) are tints for paper: on a dark screen they would drown the lettering."""
ROTATED, OWN_BLOCK, TEXT_PLACED = 0, 32, 128
"""Kinds of dimension, group code 70: along an angle; its block is its alone; its text is where we put it."""


def write_dxf(sheet: Sheet, *, paper_space: bool = False) -> bytes:
    """The whole file, the same for the same sheet; with `paper_space` the views in the model, the paper in a layout.

    Raises ValueError where a view is not at the sheet's scale.
    """
    for placed in sheet.placed:
        if placed.scale != sheet.scale:
            raise ValueError(f"view {placed.view.id} is at 1:{placed.scale:g}, the sheet at 1:{sheet.scale:g}")
    with _fixed_metadata():
        doc = new_document(sheet.scale, sheet.width, sheet.height)
        pen = _Pen(doc, LayerTable(doc), sheet.scale)
        for placed in sheet.placed:
            origin = Point(placed.at.x * sheet.scale, placed.at.y * sheet.scale)
            _draw_groups(pen, placed.view.groups, origin, 1.0)
        if paper_space:
            _draw_groups(_Pen(doc, pen.layers, 1.0, "-PAPER"), sheet.groups, Point(0.0, 0.0), 1.0, add_layout(doc, sheet))
        else:
            _draw_groups(pen, sheet.groups, Point(0.0, 0.0), sheet.scale)
        # The order of classes would otherwise hang on the seed of the process's string hashes.
        doc.classes.add_required_classes(doc.dxfversion)
        doc.classes.classes = dict(sorted(doc.classes.classes.items()))
        text = io.StringIO()
        doc.write(text)
    return f"999\n{MARKER}\n{text.getvalue()}".encode()


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """No clock and no GUID in the file: an option of ezdxf, put back for whoever else uses it."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _draw_groups(pen: _Pen, groups: Sequence[Group], origin: Point, size: float, layout: BaseLayout | None = None) -> None:
    for group in groups:
        place = _Place(layout or pen.doc.modelspace(), origin, size, group.data)
        for item in group.items:
            pen.draw(item, place)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where entities go: model point = origin + size x their own."""

    layout: BaseLayout
    origin: Point
    size: float
    data: tuple[tuple[str, str], ...] = ()
    in_block: bool = False
    """In a block, what is drawn takes the layer of the insert: layer 0."""

    def point(self, x: float, y: float) -> tuple[float, float]:
        return round(self.origin.x + x * self.size, 6), round(self.origin.y + y * self.size, 6)

    def corners(self, corners: Sequence[Corner]) -> list[tuple[float, float, float]]:
        return [(*self.point(c.x, c.y), c.bulge) for c in corners]


@dataclass(frozen=True, slots=True)
class _Pen:
    """Draws entities of a document whose annotation is `scale` times its size on paper."""

    doc: Drawing
    layers: LayerTable
    scale: float
    blocks: str = ""
    """What the names of its blocks end in: those of the paper are of another size."""

    def draw(self, item: Entity, place: _Place) -> None:
        """Draw one entity."""
        # What is given in paper mm (a sheet's own groups) has its annotation at that size already.
        own_scale = self.scale / place.size
        match item:
            case Stroke():
                self._stroke(item, place)
            case Fill():
                self._fill(item, place)
            case Label():
                self._text(item, place, own_scale)
            case Dimension():
                self._dimension(item, place, own_scale)
            case Leader():
                for part in explode.explode_leader(item, own_scale):
                    self.draw(part, place)
            case Symbol():
                self._symbol(item, place)

    def _attributes(self, layer: Layer, place: _Place) -> dict[str, Any]:
        return {"layer": "0" if place.in_block else self.layers.name(layer)}

    def _stroke(self, stroke: Stroke, place: _Place) -> None:
        attributes, style = self._attributes(stroke.layer, place), LAYERS[stroke.layer]
        if stroke.line and (stroke.line != style.line or place.in_block):
            attributes["linetype"] = LINETYPES[stroke.line]
        if self.blocks and (stroke.line or style.line) != "solid":
            attributes["ltscale"] = 1 / self.doc.header["$LTSCALE"]
        if stroke.weight is not None and stroke.weight != style.weight:
            attributes["lineweight"] = lineweight(stroke.weight)
        corners = stroke.corners
        if len(corners) == 2 and not stroke.closed and not corners[0].bulge:
            place.layout.add_line(place.point(*corners[0][:2]), place.point(*corners[1][:2]), attributes)
            return
        polyline = place.layout.add_lwpolyline(
            place.corners(corners), format="xyb", close=stroke.closed, dxfattribs=attributes
        )
        if stroke.layer is Layer.GLASS and place.data:
            polyline.set_xdata(APP, [(1000, _short(f"{key}={value}")) for key, value in place.data])

    def _fill(self, fill: Fill, place: _Place) -> None:
        attributes = self._attributes(fill.layer, place)
        ink = fill.tone == LAYERS[fill.layer].colour or place.in_block
        if not ink and _lightness(fill.tone) > LIGHT:
            attributes["layer"] = self.layers.tint()
        hatch = place.layout.add_hatch(color=256, dxfattribs=attributes)
        if not ink:
            hatch.rgb = RGB.from_hex(fill.tone)
        outlines: tuple[Outline, ...] = (fill.outline, *fill.holes)
        for number, outline in enumerate(outlines):
            # 1: the outer boundary, 16: what lies just inside it
            hatch.paths.add_polyline_path(place.corners(outline.corners), is_closed=True, flags=16 if number else 1)

    def _text(self, label: Label, place: _Place, own_scale: float) -> None:
        foot = explode.baseline(label, own_scale)
        attributes = self._attributes(label.layer, place)
        attributes["style"] = lettering_style(bold=label.bold)
        if label.angle:
            attributes["rotation"] = label.angle
        text = place.layout.add_text(_literal(label.text), height=label.height * self.scale, dxfattribs=attributes)
        text.set_placement(place.point(foot.x, foot.y), align=ALIGNMENTS[label.align])

    def _dimension(self, dim: Dimension, place: _Place, own_scale: float) -> None:
        """A real dimension with the shared picture as its block; a leader to shifted text is a line beside it.

        It is a line of its own because readers that draw dimensions anew would leave it out.
        """
        block = self.doc.blocks.new_anonymous_block(type_char="D")
        picture = replace(place, layout=block, data=())
        for stroke in (*explode.dimension_lines(dim, own_scale), *explode.dimension_ticks(dim, own_scale)):
            self._stroke(stroke, picture)
        label = explode.dimension_label(dim, own_scale)
        self._text(label, picture, own_scale)
        leader = explode.dimension_leader(dim, own_scale)
        if leader:
            self._stroke(leader, place)
        line_end = (dim.line_at, dim.end.y) if dim.upright else (dim.end.x, dim.line_at)
        middle = replace(label, level="middle")
        rise = explode.baseline(middle, own_scale)
        text_middle = (2 * label.at.x - rise.x, 2 * label.at.y - rise.y)
        place.layout.new_entity("DIMENSION", {
            **self._attributes(Layer.DIMENSION, place),
            "geometry": block.name,
            "dimstyle": DIMSTYLE,
            "dimtype": ROTATED | OWN_BLOCK | (TEXT_PLACED if dim.shift or dim.slide else 0),
            "defpoint": place.point(*line_end),
            "defpoint2": place.point(*dim.start),
            "defpoint3": place.point(*dim.end),
            "text_midpoint": place.point(*text_middle),
            "angle": 90.0 if dim.upright else 0.0,
            "actual_measurement": round(explode.measured(dim), 6),
        })

    def _symbol(self, symbol: Symbol, place: _Place) -> None:
        name = symbol.name.upper() + self.blocks
        if name not in self.doc.blocks:
            block = _Place(self.doc.blocks.new(name), Point(0.0, 0.0), self.scale, in_block=True)
            for part in SYMBOLS[symbol.name]:
                self.draw(part, block)
        attributes = {**self._attributes(symbol.layer, place), "rotation": symbol.angle}
        insert = place.layout.add_blockref(name, place.point(*symbol.at), attributes)
        if symbol.tag:
            insert.set_xdata(APP, [(1000, _short(f"tag={symbol.tag}"))])


def _literal(text: str) -> str:
    """Text that no reader takes for codes: `^` starts a control character in DXF, `%%` a sign of its own."""
    text = printable(text)
    if not text.isascii():
        text = text.translate(PLAIN)
    return text.replace("^", "^ ").replace("%%", "% % ") if "^" in text or "%%" in text else text


def _short(text: str) -> str:
    """Text cut to what a string of extended data holds."""
    return printable(text).encode()[:XDATA_BYTES].decode(errors="ignore")


def _lightness(tone: str) -> float:
    """Relative luminance of a #rrggbb colour without its gamma: enough to tell light from dark."""
    red, green, blue = (int(tone[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
