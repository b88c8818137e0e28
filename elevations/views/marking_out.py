"""The elevation for whoever fits the window: fixings by their running distance along a tape, packers, setting blocks.

Seen from outside, mm from the frame's bottom left corner.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.drawing.chains import overall
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, Symbol, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.drawing.lettering import text_width
from elevations.geometry.setting_blocks import SettingBlock, setting_blocks
from elevations.geometry.sill import cut_length, weeps
from elevations.geometry.tightening import tightening_order
from elevations.geometry.window import FixingPoint, Window
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.views.hatch import MATERIALS

TITLE, TEXT, SMALL = 3.5, 2.5, 2.0
TICK, OFF = 4.0, 5.0
"""From the frame's edge to the end of a fixing's tick and to its figure, mm on paper."""
LEAST_TWO_LINES = 14.0
"""Visible glass lower than this gets its words on one line, mm on paper."""
PITCH = 4.0
"""From one figure to the next, mm on paper."""
OVERALL_OFF = 5.0
SMALLEST_INSIDE = 20.0
"""At smaller scales, 1:50, the frame is too thin for the order to tighten, which then stands with the distances."""
ORDER_OFF = 1.7
"""From a fixing along its member to the number that says when it is tightened, mm on paper."""
PACKER_LONG, PACKER_THICK, BLOCK_THICK = 3.0, 1.2, 1.2
"""As drawn, mm on paper."""
WEEP_MM = 30.0
"""Length of a weep as drawn."""
CARRIES, LOCATES = "#2b3440", "#ffffff"
GLASS = "#edf3f6"


def marking_out(window: Window, scale: float) -> View:
    """Frame, lights, fixings with their distances and the order to tighten them, packers and blocks; annotation for 1:`scale`."""
    groups = [
        Group("installer-lights", tuple(_lights(window, scale)), "lights and glass"),
        Group("installer-sill", tuple(_sill(window)), "sill, with its weeps"),
        Group("installer-frame", (Stroke(window.frame.outline.corners, Layer.FRAME, closed=True, weight=VISIBLE),), "frame"),
        Group("installer-blocks", tuple(item for block in setting_blocks(window) for item in _block(block, scale)), "setting and location blocks"),
        Group("installer-fixings", tuple(_fixings(window, scale)), "fixings, with the order to tighten them", (("mark", window.mark),)),
        Group("installer-overall", tuple(_overall(window, scale)), "overall size"),
    ]
    reach = bounds_of_all((item for group in groups for item in group.items), scale)
    top = reach.bottom - 3.0 * scale
    title = (
        Label("Marking out, from outside", Point(reach.left, top), TITLE, level="top", bold=True),
        Label(
            f"Scale 1:{scale:g}; distances run from the corner marked 0" + ("; in brackets: order to tighten" if scale > SMALLEST_INSIDE else ""),
            Point(reach.left, top - 6.0 * scale), TEXT, level="top",
        ),
    )
    groups.append(Group("installer-title", title))
    return View("marking-out", "Marking out, from outside", tuple(groups), reach.joined(bounds_of_all(title, scale)))


def _overall(window: Window, scale: float) -> Iterator[Entity]:
    """Width below and height on the left, their extension lines outside the figures of the fixings."""
    box = window.frame.outline.bounds
    room = " (99)" if scale > SMALLEST_INSIDE else ""
    widest = max((text_width(_along(point) + room, TEXT) for point in window.fixings), default=0.0)
    clear = (OFF + widest + 1.0) * scale
    below, left = box.bottom - max(clear, _beyond(window, "sill") + (2.0 + widest + 1.0) * scale), box.left - clear
    yield from overall((box.left, box.right), line_at=below - OVERALL_OFF * scale, upright=False, scale=scale, thing_at=below)
    yield from overall((box.bottom, box.top), line_at=left - OVERALL_OFF * scale, upright=True, scale=scale, thing_at=left)


def _along(point: FixingPoint) -> str:
    return f"{round(point.along.value, 1):g}"


def _sill(window: Window) -> Iterator[Entity]:
    """Its front under the frame with horns and weeps, as long as it is cut; the nose lies lower by the fall."""
    site = window.site
    if site is None or site.sill is None:
        return
    sill, fit = site.sill, site.fit
    left, length = -fit.add_ons.left - sill.horns, cut_length(site, window.width.value)
    top = -fit.add_ons.sill
    yield Stroke(rectangle(left, top - sill.height - sill.fall, left + length, top).corners, Layer.SILL, closed=True, weight=THIN)
    yield Stroke((Corner(left, top - sill.fall), Corner(left + length, top - sill.fall)), Layer.SILL, weight=FINE)
    for at in weeps(length, window.system.weeps):
        yield Stroke((Corner(left + at - WEEP_MM / 2, top - sill.fall / 2), Corner(left + at + WEEP_MM / 2, top - sill.fall / 2)), Layer.SILL, weight=VISIBLE)


def _lights(window: Window, scale: float) -> Iterator[Entity]:
    for light in window.lights:
        for pane in light.panes:
            yield Fill(pane.sight.outline, Layer.HATCH, GLASS)
            yield Stroke(pane.sight.outline.corners, Layer.BEAD, closed=True, weight=FINE)
            yield Stroke(pane.cut.outline.corners, Layer.GLASS, closed=True, line="dashed")
            seen = pane.sight.outline.bounds
            mass = f"{pane.mass_kg:.0f} kg"
            if text_width(f"{pane.tag} {mass}", SMALL, bold=True) * scale > seen.width:
                if text_width(pane.tag, SMALL, bold=True) * scale <= seen.width:
                    yield Label(pane.tag, seen.centre, SMALL, align="centre", level="middle", bold=True)
                continue
            if seen.height < LEAST_TWO_LINES * scale:
                yield Label(f"{pane.tag} {mass}", seen.centre, SMALL, align="centre", level="middle", bold=True)
                continue
            yield Label(pane.tag, seen.centre, TITLE, align="centre", level="middle", bold=True)
            yield Label(mass, Point(seen.centre.x, seen.centre.y - 4.5 * scale), TEXT, align="centre", level="middle")
        for sash in light.sashes:
            yield Stroke(sash.outer.outline.corners, Layer.SASH, closed=True, weight=THIN)


def _block(block: SettingBlock, scale: float) -> Iterator[Entity]:
    """On the inner side of its edge, so that it never lies on the frame's fixings."""
    half, thick = block.length / 2, BLOCK_THICK * scale
    x, y = block.at
    if block.edge in ("bottom", "top"):
        box = Box(x - half, y if block.edge == "bottom" else y - thick, x + half, y + thick if block.edge == "bottom" else y)
    else:
        box = Box(x if block.edge == "left" else x - thick, y - half, x + thick if block.edge == "left" else x, y + half)
    yield Fill(rectangle(*box), Layer.HATCH, CARRIES if block.carries else LOCATES)
    yield Stroke(rectangle(*box).corners, Layer.HARDWARE, closed=True, weight=FINE)
    if block.carries:   # a cross, for sheets without tones
        yield Stroke((Corner(box.left, box.bottom), Corner(box.right, box.top)), Layer.HARDWARE, weight=FINE)


def _fixings(window: Window, scale: float) -> Iterator[Entity]:
    inset = window.system.profiles["frame"].rebate / 2
    order = {point.tag: number for number, point in enumerate(tightening_order(window), 1)}
    box = window.frame.outline.bounds
    figures: list[_Figure] = []
    for point in window.fixings:
        inner = Point(point.at.x + point.inward.x * inset, point.at.y + point.inward.y * inset)
        yield Symbol("fixing", inner, Layer.FIXING, tag=point.tag)
        yield from _packer(point, scale)
        said = _along(point) if scale <= SMALLEST_INSIDE else f"{_along(point)} ({order[point.tag]})"
        figures.append(_Figure(said, point.at, -point.inward.x, -point.inward.y, _beyond(window, point.side)))
        if scale > SMALLEST_INSIDE:
            continue
        # Beside it along the member: further in stand the blocks of the glass.
        at = Point(inner.x - abs(point.inward.y) * ORDER_OFF * scale, inner.y + abs(point.inward.x) * ORDER_OFF * scale)
        upright = abs(point.inward.x) > abs(point.inward.y)
        yield Label(
            str(order[point.tag]), at, SMALL, Layer.FIXING, align="left" if upright else "right", level="middle", angle=90.0 if upright else 0.0,
        )
    for side, corner, dx, dy in (
        ("left jamb", Point(box.left, box.top), -1, 0), ("right jamb", Point(box.right, box.top), 1, 0),
        ("head", Point(box.left, box.top), 0, 1), ("sill", Point(box.left, box.bottom), 0, -1),
    ):
        if any(p.side == side for p in window.fixings):
            figures.append(_Figure("0", corner, dx, dy, _beyond(window, side)))
    for way in ("left", "right", "up", "down"):
        yield from _spread([figure for figure in figures if figure.way == way], scale)


def _packer(point: FixingPoint, scale: float) -> Iterator[Entity]:
    """At every fixing, outside the frame's edge."""
    ux, uy = -point.inward.y, point.inward.x
    half, thick = PACKER_LONG / 2 * scale, PACKER_THICK * scale
    corners = tuple(
        Corner(point.at.x + ux * a - point.inward.x * b, point.at.y + uy * a - point.inward.y * b)
        for a, b in ((-half, 0.0), (half, 0.0), (half, thick), (-half, thick))
    )
    yield Fill(Outline(corners), Layer.HATCH, MATERIALS["packer"].tone)
    yield Stroke(corners, Layer.FIXING, closed=True, weight=FINE)


def _beyond(window: Window, side: str) -> float:
    """How far outside a side the figures start, mm: beyond the sill where there is one."""
    site = window.site
    if side != "sill" or site is None or site.sill is None:
        return 0.0
    return site.fit.add_ons.sill + site.sill.height + site.sill.fall


@dataclass(frozen=True, slots=True)
class _Figure:
    """A distance to be written outside the frame."""

    text: str
    at: Point
    dx: float
    dy: float
    """Outwards, a direction of length 1."""
    beyond: float
    """How far out there is something else, mm."""

    @property
    def way(self) -> str:
        if abs(self.dx) > 0.5:
            return "right" if self.dx > 0 else "left"
        return "up" if self.dy > 0 else "down"


def _spread(figures: Sequence[_Figure], scale: float) -> Iterator[Entity]:
    """Figures on one side at their places, or as far along from the one before as their texts need."""
    upright = bool(figures) and figures[0].way in ("left", "right")
    last = math.inf if upright else -math.inf
    for figure in sorted(figures, key=lambda f: -f.at.y if upright else f.at.x):
        last = min(figure.at.y, last - PITCH * scale) if upright else max(figure.at.x, last + PITCH * scale)
        yield from _figure(figure, last, scale)


def _figure(figure: _Figure, along: float, scale: float) -> Iterator[Entity]:
    """A tick out from the frame's edge, bent where its text had to move along, and the text, readable from the bottom or the right."""
    at, dx, dy, beyond = figure.at, figure.dx, figure.dy, figure.beyond
    tick, off = max(TICK * scale, beyond + scale), max(OFF * scale, beyond + 2 * scale)
    start, knee = PACKER_THICK * scale, max(tick - 1.6 * scale, PACKER_THICK * scale)
    level = figure.way in ("left", "right")
    end = Point(at.x + dx * tick, along) if level else Point(along, at.y + dy * tick)
    moved = abs(along - (at.y if level else at.x)) > 0.01 * scale
    bend = [Corner(at.x + dx * knee, at.y + dy * knee)] if moved else []
    yield Stroke((Corner(at.x + dx * start, at.y + dy * start), *bend, Corner(end.x, end.y)), Layer.DIMENSION, weight=FINE)
    if level:
        yield Label(figure.text, Point(at.x + dx * off, along), TEXT, Layer.DIMENSION, align="left" if dx > 0 else "right", level="middle")
    else:
        half = TEXT / 2 * scale   # turned, so that close fixings don't meet
        place = Point(along + half, at.y + dy * off)
        yield Label(figure.text, place, TEXT, Layer.DIMENSION, align="left" if dy > 0 else "right", angle=90.0)
