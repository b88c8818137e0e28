"""What is seen of a sash in the elevation: its edges, beads and mitres, and what hides a part of it."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Stroke
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.geometry.window import Light, Sash, Window
from elevations.openings.base import in_half
from elevations.plane import Corner, Outline, clip, offset
from elevations.views.visible import beads_outside, light_edge, sash_bead_edge


def sash_lines(window: Window, light: Light, sash: Sash) -> list[Entity]:
    """Outer edge (dashed where the frame, a stop or another sash hides it), beads where they are outside, and mitres."""
    items = _outer_edge(window, sash)
    if beads_outside(window, sash=True):
        bead = sash_bead_edge(window.system, sash.outer)
        items.append(Stroke(bead.corners, Layer.BEAD, closed=True, weight=FINE))
    seen = _seen_corners(window, light, sash)
    for a, b in zip(seen, sash.sight.outline.corners, strict=True):
        items.append(Stroke((Corner(a.x, a.y), Corner(b.x, b.y)), Layer.SASH, weight=FINE))
    return items


def sash_edge(window: Window, light: Light, sash: Sash) -> Outline:
    """The edge that a sash is seen to have: its own; or, built inside out, that of the frame and of the floating stile over it."""
    if not window.reversed:
        return sash.outer.outline
    edge, pair = light_edge(window, light), window.system.ways.pair
    if len(light.sashes) == 1 or pair is None:
        return edge
    first = sash is light.sashes[0]
    middle = (light.sashes[0].outer.outline.bounds.right + light.sashes[1].outer.outline.bounds.left) / 2
    return clip(edge, 0, middle - pair.sight if first else middle + pair.sight, high=not first)[0]


def _outer_edge(window: Window, sash: Sash) -> list[Entity]:
    outline, leaf, pivot = sash.outer.outline, sash.leaf, window.system.ways.pivot
    if leaf.half_in and pivot is not None:
        axis, high = (1, True) if leaf.half_in == "top" else (0, leaf.half_in == "right")
        middle = outline.bounds.centre[axis]
        stop = offset(outline, [pivot.cover] * len(outline.corners))
        return [
            _part(outline, axis, middle, high=not high, seen=True), _part(outline, axis, middle, high=high, seen=False),
            _part(stop, axis, middle, high=high, seen=True, layer=Layer.FRAME),
        ]
    if window.reversed:
        return [Stroke(outline.corners, Layer.SASH, closed=True, weight=FINE, line="dashed")]
    return [Stroke(outline.corners, Layer.SASH, closed=True, weight=VISIBLE)]


def _part(outline: Outline, axis: int, at: float, *, high: bool, seen: bool, layer: Layer = Layer.SASH) -> Stroke:
    """The part of an outline on one side of a line, open along that line."""
    part, _ = clip(outline, axis, at, high=high)   # its last edge is the cut
    *corners, last = part.corners
    weight = (VISIBLE if layer is Layer.SASH else THIN) if seen else FINE
    return Stroke((*corners, Corner(last.x, last.y)), layer, line=None if seen else "dashed", weight=weight)


def _seen_corners(window: Window, light: Light, sash: Sash) -> Sequence[Corner]:
    """Where each mitre of a sash comes into sight: at the edge that is seen, or at the stop that covers the half that comes in."""
    outline, half, figures = sash.outer.outline, sash.leaf.half_in, window.system.ways.pivot
    if not half or figures is None:
        return sash_edge(window, light, sash).corners
    behind, middle = offset(outline, [figures.cover] * len(outline.corners)), outline.bounds.centre
    return [
        stop if in_half(half, corner, middle) else corner for corner, stop in zip(outline.corners, behind.corners, strict=True)
    ]
