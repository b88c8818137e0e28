"""What is seen of a sash in the elevation: its edges, beads and mitres, and what hides a part of it."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Stroke
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.geometry.beads import beads_outside
from elevations.geometry.window import Light, Sash, Window
from elevations.openings.base import in_half
from elevations.plane import SAME_MM, Corner, Outline, clip, offset
from elevations.views.visible import in_tracks, light_edge, sash_bead_edge


def sash_lines(window: Window, light: Light, sash: Sash) -> list[Entity]:
    """Outer edge (dashed where the frame, a stop or another sash hides it), beads where they are outside, and mitres."""
    items = _outer_edge(window, light, sash)
    if beads_outside(window, sash=True):
        bead = sash_bead_edge(window.system, sash.outer)
        items.append(Stroke(bead.corners, Layer.BEAD, closed=True, weight=FINE))
    seen = _seen_corners(window, light, sash)
    for a, b in zip(seen, sash.sight.outline.corners, strict=True):
        if not _behind(light, sash, b):
            items.append(Stroke((Corner(a.x, a.y), Corner(b.x, b.y)), Layer.SASH, weight=FINE))
    return items


def _behind(light: Light, sash: Sash, corner: Corner) -> bool:
    """Whether a corner of an inner sash's visible glass is at the stile or rail that the outer sash covers."""
    if sash.leaf.plane != 1:
        return False
    other = next(other for other in light.sashes if other is not sash).outer.outline.bounds
    return other.left - SAME_MM < corner.x < other.right + SAME_MM and other.bottom - SAME_MM < corner.y < other.top + SAME_MM


def back_to_front(window: Window, light: Light) -> tuple[Sash, ...]:
    """The sashes of a light in the order in which they hide each other, the one seen whole last."""
    front = 1 if window.reversed else 0
    return tuple(sorted(light.sashes, key=lambda sash: sash.leaf.plane == front))


def sash_edge(window: Window, light: Light, sash: Sash) -> Outline:
    """The edge that a sash is seen to have: its own; or, built inside out, that of the frame and of the floating stile over it."""
    if in_tracks(light):
        return _in_track(window, light, sash)
    if not window.reversed:
        return sash.outer.outline
    edge, pair = light_edge(window, light), window.system.ways.pair
    if len(light.sashes) == 1 or pair is None:
        return edge
    first = sash is light.sashes[0]
    middle = (light.sashes[0].outer.outline.bounds.right + light.sashes[1].outer.outline.bounds.left) / 2
    return clip(edge, 0, middle - pair.sight if first else middle + pair.sight, high=not first)[0]


def _in_track(window: Window, light: Light, sash: Sash) -> Outline:
    """A sliding sash up to the frame's walls round it and to its own meeting edge."""
    edge, box = light_edge(window, light), sash.outer.outline.bounds
    other = next(other for other in light.sashes if other is not sash).outer.outline.bounds
    axis = 0 if abs(box.left - other.left) > SAME_MM else 1
    high = box[axis] > other[axis]
    return clip(edge, axis, box[axis] if high else box[axis + 2], high=high)[0]


def _outer_edge(window: Window, light: Light, sash: Sash) -> list[Entity]:
    outline, leaf, pivot = sash.outer.outline, sash.leaf, window.system.ways.pivot
    if leaf.half_in and pivot is not None:
        axis, high = (1, True) if leaf.half_in == "top" else (0, leaf.half_in == "right")
        middle = outline.bounds.centre[axis]
        stop = offset(outline, [pivot.cover] * len(outline.corners))
        return [
            _part(outline, axis, middle, high=not high, seen=True), _part(outline, axis, middle, high=high, seen=False),
            _part(stop, axis, middle, high=high, seen=True, layer=Layer.FRAME),
        ]
    hidden = Stroke(outline.corners, Layer.SASH, closed=True, weight=FINE, line="dashed")
    if in_tracks(light):
        seen = _in_track(window, light, sash).corners   # the last edge is the one where the sashes meet
        return [hidden, Stroke((seen[-1], Corner(seen[0].x, seen[0].y)), Layer.SASH, weight=VISIBLE)] if leaf.plane == 0 else [hidden]
    if window.reversed:
        return [hidden]
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
    if in_tracks(light):
        frame = window.system.profiles["frame"]
        return offset(outline, [frame.sight - (frame.sash or 0.0)] * len(outline.corners)).corners
    if not half or figures is None:
        return sash_edge(window, light, sash).corners
    behind, middle = offset(outline, [figures.cover] * len(outline.corners)), outline.bounds.centre
    return [
        stop if in_half(half, corner, middle) else corner for corner, stop in zip(outline.corners, behind.corners, strict=True)
    ]
