"""Hatching of materials: families of parallel lines clipped to upright rectangles, a tone, and swatches for a key."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from elevations.drawing.entities import Entity, Fill, Stroke
from elevations.drawing.layers import FINE, Layer
from elevations.plane import Box, Corner, rectangle

LINE = 0.13


@dataclass(frozen=True, slots=True)
class Material:
    """How a cut material looks."""

    name: str
    tone: str
    lines: tuple[tuple[float, float, float, str | None], ...] = ()
    """Families of lines: angle in degrees, distance and offset in mm on paper, line type."""


# The patterns follow no standard: what each means is said by the key beside every picture that uses them.
MATERIALS: dict[str, Material] = {
    m.name: m for m in (
        Material("brick", "#ecd9ce", ((45, 1.8, 0, None),)),
        Material("stone", "#e4e0d6", ((45, 3.6, 0, None), (45, 3.6, 0.7, None))),
        Material("block", "#e3e4e4", ((45, 2.8, 0, None), (135, 2.8, 0, None))),
        Material("concrete", "#dcddd9", ((45, 2.2, 0, "dashed"),)),
        Material("timber", "#eedfc6", ((20, 1.4, 0, None),)),
        Material("steel", "#c3ccd4", ((45, 0.8, 0, None),)),
        Material("render", "#efeae0", ((135, 0.9, 0, None),)),
        Material("plaster", "#f5f3ee", ((135, 1.5, 0, "dashed"),)),
        Material("cavity closer", "#f2e3ee", ((0, 1.0, 0, None), (90, 1.0, 0, None))),
        Material("window board", "#ead8b8", ((0, 0.8, 0, None),)),
        Material("add-on", "#e6e4de", ((90, 1.2, 0, None),)),
        Material("sill", "#e6e4de"),
        Material("packer", "#b5613a", ((45, 0.6, 0, None), (135, 0.6, 0, None))),
        Material("foam", "#f4e9bd", ((45, 1.0, 0, "dashed"),)),
        Material("sealant", "#59636e", ((90, 0.5, 0, None),)),
        Material("backer", "#b8c4cd", ((0, 0.6, 0, None),)),
    )
}


def hatched(box: Box, material: str, scale: float, layer: Layer = Layer.WALL, *, edge: bool = True, weight: float = FINE) -> Iterator[Entity]:
    """A rectangle of a material in true mm: its tone, its lines at paper distances, and its edge."""
    look = MATERIALS[material]
    outline = rectangle(*box)
    yield Fill(outline, Layer.HATCH, look.tone)
    for angle, distance, offset, line in look.lines:
        for a, b in lines_in(box, angle, distance * scale, offset * scale):
            yield Stroke((Corner(*a), Corner(*b)), Layer.HATCH, line=line, weight=LINE)
    if edge:
        yield Stroke(outline.corners, layer, closed=True, weight=weight)


def lines_in(box: Box, angle: float, distance: float, offset: float) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Parallel lines `distance` apart at `angle` degrees, as far as they lie in the box; laid from the origin, so that neighbours agree."""
    ux, uy = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    across = [-uy * x + ux * y for x in (box.left, box.right) for y in (box.bottom, box.top)]
    for number in range(math.ceil((min(across) - offset) / distance), math.floor((max(across) - offset) / distance) + 1):
        c = number * distance + offset
        x, y = -uy * c, ux * c
        low, high = -math.inf, math.inf
        for start, along, least, most in ((x, ux, box.left, box.right), (y, uy, box.bottom, box.top)):
            if abs(along) < 1e-9:
                if not least <= start <= most:
                    low, high = 1.0, 0.0
                continue
            first, last = sorted(((least - start) / along, (most - start) / along))
            low, high = max(low, first), min(high, last)
        if high - low > 0.2 * distance:
            yield (x + low * ux, y + low * uy), (x + high * ux, y + high * uy)
