"""The tables of a DXF file: layers, line types, lettering and the dimension style, with header variables that agree."""

from __future__ import annotations

from typing import Any

from ezdxf import colors, units
from ezdxf.document import Drawing
from ezdxf.filemanagement import new

from elevations.drawing import explode
from elevations.drawing.layers import LAYERS, Layer

APP = "ELEVATIONS"
"""Under this name entities carry what they are, as extended data."""
DIMSTYLE = "ELEVATIONS"
TINT = "TINT"
"""Light fills: a layer that is off until somebody wants it."""
LINETYPES = {"solid": "CONTINUOUS", "dashed": "DASHEDTINY", "chain": "CENTERTINY"}
"""Names that LibreCAD knows: it draws its own pattern by the name, a solid line where it knows none, and of its dashes
only the tiny ones show on the short lines of a key."""
PATTERNS = {"dashed": (3.0, -1.5), "chain": (6.0, -1.0, 0.6, -1.0)}
"""Lengths of dash (+) and gap (-) on paper, mm; $LTSCALE brings them to the drawing's scale."""
FONTS = {False: ("LETTERING", "DejaVuSans.ttf"), True: ("LETTERING-BOLD", "DejaVuSans-Bold.ttf")}
LINEWEIGHTS = (5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
"""The line widths that DXF knows, hundredths of a mm (group code 370 of the DXF reference, from memory)."""
ADAPTIVE = (7, 8, 9)
"""Colour indices of ink and greys: they stay readable on a dark screen, where a true near-black would vanish."""


def new_document(scale: float, width: float, height: float) -> Drawing:
    """An empty drawing in mm for a sheet of this paper size, mm, at 1:scale; opens showing the whole sheet."""
    doc = new("R2010", setup=False, units=units.MM)
    doc.appids.add(APP)
    for name, pattern in PATTERNS.items():
        doc.linetypes.add(LINETYPES[name], [sum(map(abs, pattern)), *pattern], description=f"{name}, mm on paper")
    for name, font in FONTS.values():
        doc.styles.add(name, font=font)
    _add_dimstyle(doc, scale)
    header = doc.header
    header["$MEASUREMENT"] = 1
    header["$LTSCALE"] = scale
    header["$LWDISPLAY"] = 1
    header["$TEXTSTYLE"] = lettering_style(bold=False)
    header["$EXTMIN"], header["$EXTMAX"] = (0, 0, 0), (width * scale, height * scale, 0)
    doc.set_modelspace_vport(height * scale * 1.05, (width * scale / 2, height * scale / 2))
    return doc


def lettering_style(*, bold: bool) -> str:
    """Name of the text style."""
    return FONTS[bold][0]


def lineweight(weight_mm: float) -> int:
    """The width DXF knows that is nearest to this one, hundredths of a mm."""
    return min(LINEWEIGHTS, key=lambda known: abs(known - weight_mm * 100))


class LayerTable:
    """The layers of a document, each made when first something is drawn on it."""

    def __init__(self, doc: Drawing) -> None:
        self._doc = doc
        self._made: set[str] = set()

    def name(self, layer: Layer) -> str:
        """The layer's name, for an entity to be drawn on it now."""
        if layer not in self._made:
            self._made.add(layer)
            style = LAYERS[layer]
            made = self._doc.layers.add(
                layer.value, color=style.aci, linetype=LINETYPES[style.line], lineweight=lineweight(style.weight)
            )
            if style.aci not in ADAPTIVE:
                made.rgb = colors.RGB.from_hex(style.colour)
        return layer.value

    def tint(self) -> str:
        """The name of the layer of light fills."""
        if TINT not in self._made:
            self._made.add(TINT)
            made = self._doc.layers.add(TINT, color=9)
            made.description = "Light fills, for paper"
            made.off()
            made.freeze()   # LibreCAD shows a layer that is only off
        return TINT


def _add_dimstyle(doc: Drawing, scale: float) -> None:
    """Sizes are absolute and $DIMSCALE is 1: with another factor a reader drew every line too thick."""
    sizes = {
        "dimscale": 1.0,
        "dimlfac": 1.0,
        "dimtxt": explode.TEXT_HEIGHT * scale,
        "dimtsz": explode.TICK * scale,
        "dimasz": explode.TICK * scale,
        "dimexo": explode.GAP * scale,
        "dimexe": explode.OVERRUN * scale,
        "dimgap": explode.TEXT_GAP * scale,
    }
    # Text above the line, along it, never dropped; whole numbers, one decimal where there is one, a decimal point.
    ways = {
        "dimtad": 1, "dimtih": 0, "dimtoh": 0, "dimtix": 1, "dimtofl": 1, "dimtmove": 2,
        "dimdec": 1, "dimzin": 8, "dimlunit": 2, "dimdsep": ord("."),
    }
    attributes: dict[str, Any] = {**sizes, **ways}
    style = doc.dimstyles.new(DIMSTYLE, dxfattribs={**attributes, "dimtxsty": lettering_style(bold=False)})
    style.copy_to_header(doc)
