"""A window as its owner will see it, from outside or from inside: in its finish, with its glass, handles and hinges.

No symbol of the trade is used here. Seen from inside, a window is the mirror image of the same window built the other
way round: that is how its visible edges are found, so both sides come from one drawing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.layers import Layer
from elevations.geometry.beads import beads_outside
from elevations.geometry.hardware_places import handle_level
from elevations.geometry.window import Light, Sash, Window
from elevations.plane import Box, Corner, OffsetError, Outline, Point, offset, rectangle
from elevations.spec.site import Sill
from elevations.views import customer_tones as tones
from elevations.views.customer_glass import glass
from elevations.views.sash_seen import back_to_front, sash_edge
from elevations.views.sill import NOSE_MM
from elevations.views.visible import bar_face, inset, light_edge, sash_bead_edge

LINE_MM, GAP_MM = 0.16, 0.3
"""Width of a thin line and of the gap round a sash, mm on paper."""
REVEAL_MM = 16.0
"""What is seen of the wall's thickness round the frame, true mm: a look, not a size."""
HANDLE_MM, PLATE_MM = (22.0, 118.0), (30.0, 66.0)
"""Lever and plate of a handle as they are drawn, width and length, true mm: no make of handle is meant."""
HINGE_MM = (13.0, 74.0)
VENT_MM, VENT_HIGH_MM = 360.0, 18.0
"""Greatest width and the height of a background ventilator's cover as it is drawn, true mm."""
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


@dataclass(frozen=True, slots=True)
class _Look:
    """One side of a window, and the scale it is drawn for."""

    window: Window
    """Built the other way round where the side is the inside."""
    side: str
    """outside or inside."""
    tone: str
    scale: float
    badge: float
    """Height of the lights' numbers, mm on paper; 0 for none."""

    @property
    def inside(self) -> bool:
        return self.side == "inside"

    @property
    def line(self) -> float:
        """Width of a thin line, mm of the window."""
        return LINE_MM * self.scale


def customer_view(window: Window, scale: float, *, side: str = "outside", badge: float = 0.0, setting: bool = True) -> View:
    """The window from one side, mm from the frame's bottom left corner as seen from there; lines for 1:`scale`.

    `side`: outside or inside. `badge`: height of the lights' numbers, mm on paper, 0 for none. `setting`: with the
    reveal of the wall round the frame.
    """
    inside = side == "inside"
    seen = replace(window, reversed=not window.reversed) if inside else window
    code = window.finish.inside if inside else window.finish.outside
    look = _Look(seen, side, tones.finished(code).tone, scale, badge)
    groups = [Group("reveal", tuple(_reveal(look)), "reveal")] if setting else []
    groups.append(Group("frame", tuple(_frame(look)), "frame"))
    if not inside and window.site and window.site.sill:
        groups.append(Group("sill", tuple(_sill(look, window.site.sill)), "sill"))
    groups += [
        Group(f"light-{light.number}", tuple(_light(look, light)), f"part {light.number}: {light.words}",
              (("mark", window.mark), ("light", str(light.number))))
        for light in window.lights
    ]
    if inside:
        axis = window.frame.outline.bounds.centre.x
        groups = [replace(group, items=tuple(mirrored(item, axis) for item in group.items)) for group in groups]
    bounds = window.frame.outline.bounds.grown(REVEAL_MM if setting else 0.0)
    if not inside:
        bounds = bounds.joined(sill_bounds(window))
    return View(f"{side}", f"{window.mark} from {side}", tuple(groups), bounds)


def mirrored(item: Entity, axis_x: float) -> Entity:
    """The same entity left for right about an upright line; text stays readable. Of strokes, fills and centred labels."""
    match item:
        case Fill():
            return replace(item, outline=item.outline.mirrored(axis_x), holes=tuple(h.mirrored(axis_x) for h in item.holes))
        case Label():
            return replace(item, at=Point(2 * axis_x - item.at.x, item.at.y))
        case Stroke():
            return replace(item, corners=tuple(Corner(2 * axis_x - c.x, c.y, -c.bulge) for c in item.corners))
    raise TypeError(f"a {type(item).__name__} has no mirror image here")


def faces(outer: Outline, inner: Outline, tone: str, layer: Layer, *, inside: bool) -> Iterator[Fill]:
    """The mitred faces between two outlines of as many corners, each in the tone of the way it looks."""
    for i, (a, b) in enumerate(outer.edges()):
        c, d = inner.corners[(i + 1) % len(inner.corners)], inner.corners[i]
        length = math.dist(a[:2], b[:2])
        out_x, out_y = (b.y - a.y) / length, (a.x - b.x) / length
        shown = tones.facet(tone, -out_x if inside else out_x, out_y)
        corners = (a, Corner(b.x, b.y), Corner(c.x, c.y, -d.bulge), Corner(d.x, d.y))
        yield Fill(Outline(corners), layer, shown)


def ring(outline: Outline, width: float, tone: str, layer: Layer) -> Iterator[Fill]:
    """A line of that width, mm of the window, just inside an outline; nothing where the outline is too small for it."""
    try:
        yield Fill(outline, layer, tone, (offset(outline, [width] * len(outline.corners)),))
    except OffsetError:
        return


def _reveal(look: _Look) -> Iterator[Fill]:
    outline = look.window.frame.outline
    around = offset(outline, [-REVEAL_MM] * len(outline.corners))
    yield Fill(around, Layer.WALL, tones.REVEAL[look.side])
    yield from faces(around, outline, tones.REVEAL[look.side], Layer.WALL, inside=not look.inside)


def _frame(look: _Look) -> Iterator[Fill]:
    """The frame's faces, with its bars laid over them."""
    outline, tone = look.window.frame.outline, look.tone
    sight = inset(look.window.frame, lambda profile: look.window.system.profiles[profile].sight)
    yield Fill(outline, Layer.FRAME, tone)
    yield from faces(outline, sight, tone, Layer.FRAME, inside=look.inside)
    yield from ring(outline, look.line, tones.edge(tone), Layer.FRAME)
    for bar in look.window.bars:
        yield Fill(bar_face(look.window, bar), Layer.BARS, tones.facet(tone, 0.0, 0.12))


def sill_bounds(window: Window) -> Box:
    """What is seen of the window and its sill from outside, mm; the frame alone where it has none."""
    frame = window.frame.outline.bounds
    sill = window.site.sill if window.site else None
    if sill is None:
        return frame
    low = frame.bottom - window.site.fit.add_ons.sill - sill.fall - min(NOSE_MM, sill.height) if window.site else frame.bottom
    return Box(frame.left - sill.horns, low, frame.right + sill.horns, frame.top)


def _sill(look: _Look, sill: Sill) -> Iterator[Fill]:
    """From the front: its sloping top, the lighter for looking up, and its nose."""
    box, frame = sill_bounds(look.window), look.window.frame.outline.bounds
    nose = box.bottom + min(NOSE_MM, sill.height)
    if nose < frame.bottom:
        yield Fill(rectangle(box.left, nose, box.right, frame.bottom), Layer.SILL, tones.facet(look.tone, 0.0, 1.0))
    front = rectangle(box.left, box.bottom, box.right, nose)
    yield Fill(front, Layer.SILL, tones.facet(look.tone, 0.0, -0.3))
    yield from ring(front, look.line, tones.edge(look.tone), Layer.SILL)


def _light(look: _Look, light: Light) -> Iterator[Entity]:
    window, tone = look.window, look.tone
    edge = light_edge(window, light)
    yield Fill(edge, Layer.FRAME, tone)
    if light.sashes:
        for sash in back_to_front(window, light):
            yield from _sash(look, sash, sash_edge(window, light, sash))
    else:
        yield from ring(edge, look.line, tones.edge(tone), Layer.BEAD)
    for pane in light.panes:
        yield from glass(pane, look.side, look.scale)
        yield from ring(pane.sight.outline, look.line * 1.4, tones.edge(tone), Layer.BEAD)
        for bar in pane.bars:
            yield Fill(bar.face, Layer.GLAZING_BAR, tones.facet(tone, 0.0, 0.12))
            yield from ring(bar.face, look.line, tones.edge(tone), Layer.GLAZING_BAR)
    for sash in light.sashes:
        yield from _hardware(look, light, sash, sash_edge(window, light, sash))
    if light.spec.vent:
        yield from _vent(look, light, edge)
    if look.badge:
        yield from _badge(look, light)


def _sash(look: _Look, sash: Sash, edge: Outline) -> Iterator[Fill]:
    """A sash's faces up to its glass, its beads, and the gap round it."""
    tone = look.tone
    yield from faces(edge, sash.sight.outline, tone, Layer.SASH, inside=look.inside)
    yield from ring(edge, GAP_MM * look.scale, tones.gap(tone), Layer.SASH)
    if beads_outside(look.window, sash=True):
        yield from ring(sash_bead_edge(look.window.system, sash.outer), look.line, tones.edge(tone), Layer.BEAD)


def _hardware(look: _Look, light: Light, sash: Sash, edge: Outline) -> Iterator[Fill]:
    """The handle, seen from inside only; the hinges, seen from the side that the light opens to."""
    if not sash.hinge_edges:
        return
    box = edge.bounds
    glazed = sash.sight.outline.bounds
    first = sash.hinge_edges[0]
    if look.inside and not sash.leaf.follows:
        yield from _handle(box, glazed, OPPOSITE[first], handle_level(light, sash, OPPOSITE[first]))
    if (light.swing == "in") == look.inside:
        for share in (0.16, 0.84):
            yield from _knuckle(look, box, first, share)


def _handle(box: Box, glazed: Box, side: str, level: float) -> Iterator[Fill]:
    """Plate and lever on a stile at y = `level`, or in the middle of a rail, the lever along it as when the light is shut."""
    upright = side in ("left", "right")
    x = {"left": (box.left + glazed.left) / 2, "right": (box.right + glazed.right) / 2}.get(side, box.centre.x)
    y = {"top": (box.top + glazed.top) / 2, "bottom": (box.bottom + glazed.bottom) / 2}.get(side, box.centre.y)
    if upright:
        y = level
    for (across, along), shift, tone in ((PLATE_MM, 0.0, tones.METAL_EDGE), (HANDLE_MM, -HANDLE_MM[1] / 2 + 12, tones.METAL)):
        w, h = (across, along) if upright else (along, across)
        dx, dy = (0.0, shift) if upright else (shift, 0.0)
        yield Fill(rounded(x + dx - w / 2, y + dy - h / 2, x + dx + w / 2, y + dy + h / 2), Layer.HARDWARE, tone)


def _knuckle(look: _Look, box: Box, side: str, share: float) -> Iterator[Fill]:
    """One hinge on the edge that the light turns on, at a share of its length."""
    across, along = HINGE_MM
    if side in ("left", "right"):
        x, y = (box.left if side == "left" else box.right), box.bottom + share * box.height
        outline = rounded(x - across / 2, y - along / 2, x + across / 2, y + along / 2)
    else:
        x, y = box.left + share * box.width, (box.bottom if side == "bottom" else box.top)
        outline = rounded(x - along / 2, y - across / 2, x + along / 2, y + across / 2)
    yield Fill(outline, Layer.HARDWARE, tones.METAL)
    yield from ring(outline, look.line, tones.METAL_EDGE, Layer.HARDWARE)


def _vent(look: _Look, light: Light, edge: Outline) -> Iterator[Fill]:
    """The cover of a background ventilator at the head of the light."""
    box = edge.bounds
    top = (box.top + light.panes[0].sight.outline.bounds.top) / 2
    half = min(VENT_MM, box.width * 0.55) / 2
    outline = rounded(box.centre.x - half, top - VENT_HIGH_MM / 2, box.centre.x + half, top + VENT_HIGH_MM / 2)
    yield Fill(outline, Layer.HARDWARE, tones.facet(look.tone, 0.0, 0.4))
    yield from ring(outline, look.line, tones.edge(look.tone), Layer.HARDWARE)


def _badge(look: _Look, light: Light) -> Iterator[Entity]:
    """The light's number in a disc on its glass, as large as the glass allows."""
    box = light.panes[0].sight.outline.bounds
    radius = min(look.badge * look.scale, box.width * 0.45, box.height * 0.45)
    x, y = box.centre
    disc = Outline((Corner(x - radius, y, 1.0), Corner(x + radius, y, 1.0)))
    yield Fill(disc, Layer.NOTE, "#ffffff")
    yield from ring(disc, look.line, "#5b646b", Layer.NOTE)
    yield Label(str(light.number), Point(x, y), radius / look.scale * 0.85, align="centre", level="middle", bold=True)


def rounded(left: float, bottom: float, right: float, top: float) -> Outline:
    """A rectangle whose shorter ends are half circles."""
    if right - left > top - bottom:
        r = (top - bottom) / 2
        return Outline((Corner(left + r, bottom), Corner(right - r, bottom, 1.0), Corner(right - r, top), Corner(left + r, top, 1.0)))
    r = (right - left) / 2
    return Outline((Corner(left, bottom + r, 1.0), Corner(right, bottom + r), Corner(right, top - r, 1.0), Corner(left, top - r)))
