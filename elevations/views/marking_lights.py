"""The lights on the sheet for whoever fits the window: which way each opens, its handle, its glass, its mass and who lifts it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Entity, Fill, Label, Stroke
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.geometry.hardware_places import handle_level
from elevations.geometry.window import Light, Pane, Sash, Window
from elevations.openings.base import OPPOSITE, UPRIGHT
from elevations.plane import Point, rectangle
from elevations.schedules.lifting import people_to_lift, people_words
from elevations.views.light_note import NoteLines, note_in, tag_in
from elevations.views.opening_symbol import symbol_lines

GLASS = "#edf3f6"
TEXT = 2.5
HANDLE_MM = 24.0, 110.0
"""Width and length of a handle as it is drawn: no make is meant."""


def marked_lights(window: Window, scale: float, *, apex_at_hinge: bool = True) -> Iterator[Entity]:
    """Glass, sashes, opening symbols, handles and words."""
    for light in window.lights:
        symbol = symbol_lines(light, apex_at_hinge=apex_at_hinge)
        for pane in light.panes:
            yield Fill(pane.sight.outline, Layer.HATCH, GLASS)
            yield Stroke(pane.sight.outline.corners, Layer.BEAD, closed=True, weight=FINE)
            yield Stroke(pane.cut.outline.corners, Layer.GLASS, closed=True, line="dashed")
        for sash in light.sashes:
            yield Stroke(sash.outer.outline.corners, Layer.SASH, closed=True, weight=THIN)
            yield from _handle(light, sash)
        yield from (line.stroke for line in symbol)
        strokes = [line.points for line in symbol]
        for number, pane in enumerate(light.panes):
            yield from _note(pane, how_it_opens(light) if number == 0 else "", light.words if number == 0 else "", strokes, scale)


def how_it_opens(light: Light) -> str:
    """'side-hung, hinges left, opens out; handle right, 430 up the sash; restrictor; way of escape'."""
    return "; ".join((light.words, *equipment(light)))


def equipment(light: Light) -> tuple[str, ...]:
    """Handle, restrictor, vent and whether it is a way of escape, as the job gives them."""
    edge = next((side for sash in light.sashes for side in (handle_edge(sash),) if side), None)
    said = []
    if edge is not None:
        height = light.spec.handle_height
        said.append(f"handle {edge}" + (f", {height:g} up the sash" if height is not None and edge in UPRIGHT else ""))
    said += ["restrictor"] if light.spec.restrictor else []
    said += ["vent"] if light.spec.vent else []
    return (*said, *(("way of escape",) if light.spec.escape else ()))


def handle_edge(sash: Sash) -> str | None:
    """The edge that its handle is on, opposite the hinges; None of one that has none or whose place its hardware decides."""
    return None if sash.dummy or not sash.hinge_edges or sash.leaf.follows else OPPOSITE[sash.hinge_edges[0]]


def _handle(light: Light, sash: Sash) -> Iterator[Stroke]:
    """Along its stile or rail, in the middle unless the job says how high."""
    edge = handle_edge(sash)
    if edge is None:
        return
    outer, sight = sash.outer.outline.bounds, sash.sight.outline.bounds
    x = {"left": (outer.left + sight.left) / 2, "right": (outer.right + sight.right) / 2}.get(edge, outer.centre.x)
    y = {"top": (outer.top + sight.top) / 2, "bottom": (outer.bottom + sight.bottom) / 2}.get(edge, outer.centre.y)
    if edge in UPRIGHT:
        y = handle_level(light, sash, edge)
    width, height = HANDLE_MM if edge in UPRIGHT else reversed(HANDLE_MM)
    box = rectangle(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
    yield Stroke(box.corners, Layer.HARDWARE, closed=True, weight=THIN)


def _note(pane: Pane, full: str, short: str, strokes: Sequence[Sequence[Point]], scale: float) -> tuple[Label, ...]:
    """The tag, how its light opens in full or short, and the mass with who lifts it: as much as there is room for; the lists say it all.

    The tag alone always: by it the lists and the unit on site are found.
    """
    people = people_to_lift(pane.mass_kg)
    mass = f"{pane.mass_kg:.0f} kg"
    lift = f"{mass}, {people_words(people)} people" if people > 1 else mass
    choices = [NoteLines(pane.tag, (text,), (lift,)) for text in (full, short) if text]
    choices += [NoteLines(pane.tag, (), (lift,)), NoteLines(pane.tag, (), (mass,)), NoteLines(pane.tag)]
    outline = pane.sight.outline
    return note_in(outline, choices, strokes, scale, height=TEXT) or tag_in(outline, pane.tag, strokes, scale, height=TEXT)

