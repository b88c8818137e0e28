"""Layers by meaning, with line weight, line type and colour: the one table every writer reads."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Layer(StrEnum):
    """What a line is part of."""

    FRAME = "FRAME"
    BARS = "BARS"
    COUPLER = "COUPLER"
    """What joins frames: couplers and bay posts."""
    SASH = "SASH"
    GLASS = "GLASS"
    GLASS_CUT = "GLASS-CUT"
    BEAD = "BEAD"
    GLAZING_BAR = "GLAZING-BAR"
    GASKET = "GASKET"
    STEEL = "REINFORCEMENT"
    OPENING = "OPENING"
    FIXING = "FIXING"
    HARDWARE = "HARDWARE"
    DIMENSION = "DIMENSION"
    NOTE = "NOTE"
    HATCH = "HATCH"
    WALL = "WALL"
    SILL = "SILL"
    CENTRE = "CENTRE"
    REVISION = "REVISION"
    """What changed since the last revision: clouds and their tags."""
    SHEET = "SHEET"


@dataclass(frozen=True, slots=True)
class LayerStyle:
    """How a layer is drawn unless an entity says otherwise."""

    weight: float
    """Line width on paper, mm: a step of the ISO 128 series."""
    colour: str
    """#rrggbb. Ink and greys are for white paper; the other colours stand out from white and from a dark screen alike."""
    aci: int
    """AutoCAD colour index nearest in meaning, for readers that know no true colour."""
    line: str = "solid"


CUT, VISIBLE, THIN, FINE = 0.50, 0.35, 0.25, 0.18   # ISO 128 series (from memory)

LAYERS: dict[Layer, LayerStyle] = {
    Layer.FRAME: LayerStyle(VISIBLE, "#1b1f24", 7),
    Layer.BARS: LayerStyle(VISIBLE, "#1b1f24", 7),
    Layer.COUPLER: LayerStyle(VISIBLE, "#1b1f24", 7),
    Layer.SASH: LayerStyle(VISIBLE, "#1b1f24", 7),
    Layer.GLASS: LayerStyle(FINE, "#3f7f9f", 4),
    Layer.GLASS_CUT: LayerStyle(FINE, "#3f7f9f", 4),
    Layer.BEAD: LayerStyle(FINE, "#4a5058", 8),
    Layer.GLAZING_BAR: LayerStyle(THIN, "#1b1f24", 7),
    Layer.GASKET: LayerStyle(FINE, "#1b1f24", 7),
    Layer.STEEL: LayerStyle(THIN, "#44505c", 8),
    Layer.OPENING: LayerStyle(FINE, "#b0602f", 30),
    Layer.FIXING: LayerStyle(THIN, "#d0393d", 1),
    Layer.HARDWARE: LayerStyle(THIN, "#1b1f24", 7),
    Layer.DIMENSION: LayerStyle(FINE, "#2b3440", 7),
    Layer.NOTE: LayerStyle(FINE, "#1b1f24", 7),
    Layer.HATCH: LayerStyle(FINE, "#9aa3ab", 9),
    Layer.WALL: LayerStyle(VISIBLE, "#5a5148", 8),
    Layer.SILL: LayerStyle(VISIBLE, "#1b1f24", 7),
    Layer.CENTRE: LayerStyle(FINE, "#6a6f76", 8, "chain"),
    Layer.REVISION: LayerStyle(VISIBLE, "#c2408f", 6),
    Layer.SHEET: LayerStyle(VISIBLE, "#1b1f24", 7),
}
