"""Sections A-A and B-B with the wall: how the frame stands in it, what fills the joint, how it is held."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.drawing.chains import chain
from elevations.drawing.entities import Dimension, Entity, Group, Label, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import Layer
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.fit_fixing import holds
from elevations.geometry.sill import drip_clear
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.views.cut_run import Run, run_along
from elevations.views.cuts import choose_cuts
from elevations.views.hatch import hatched
from elevations.views.section import BREAK_GAP, NAMES, section
from elevations.views.wall import End, drawn

KEPT_GLASS = 14.0
"""Visible glass left in a shortened section, mm on paper."""
TITLE, TEXT, SMALL = 3.5, 2.5, 2.0
CHAIN_OFF, WORD_OFF = 6.0, 1.6
NARROWEST = 60.0
SWATCH, SWATCH_HIGH, ROW = 9.0, 4.4, 6.0
OWN_NOTES = ("dimensions", "words", "title")
"""Groups of the plain section that the wall takes the place of."""


@dataclass(frozen=True, slots=True)
class WallSection:
    """A section with its wall, and what its hatching stands for."""

    view: View
    materials: tuple[str, ...]


def wall_section(window: Window, axis: int, scale: float) -> WallSection:
    """A-A (axis 0) or B-B (axis 1) with the wall at both ends; true mm, annotation for 1:`scale`. The window has a wall."""
    cuts = choose_cuts(window)
    at = cuts.level_y if axis else cuts.upright_x
    kept = KEPT_GLASS * scale
    plain = section(window, axis, at, scale, kept)
    run = run_along(window, axis, at, kept, BREAK_GAP * scale)
    name = NAMES[axis].lower()
    groups, materials = [], []
    ends = list(_ends(window, run, axis))
    for end in ends:
        items, names = drawn(end, scale)
        groups.append(Group(f"{name}-{end.side.replace(' ', '-')}", tuple(items), f"wall at the {end.side}"))
        materials += names
    groups += [group for group in plain.groups if not any(group.id.endswith(f"-{word}") for word in OWN_NOTES)]
    reach = bounds_of_all((item for group in groups for item in group.items), scale)
    notes: list[Entity] = [*_chains(ends, axis, reach, scale), *_sides(axis, reach, scale)]
    groups.append(Group(f"{name}-wall-dimensions", tuple(notes)))
    inner = reach.joined(bounds_of_all(notes, scale))
    title = Group(f"{name}-wall-title", tuple(_title(window, ends, axis, inner, scale)))
    groups.append(title)
    view = View(f"wall-{name}", f"Section {NAMES[axis]} with the wall", tuple(groups), inner.joined(bounds_of_all(title.items, scale)))
    return WallSection(view, tuple(dict.fromkeys(materials)))


def _ends(window: Window, run: Run, axis: int) -> Iterator[End]:
    site = window.site
    assert site is not None
    assert site.wall is not None
    held = holds(window)
    for side, sign in (("sill", -1.0), ("head", 1.0)) if axis == 0 else (("left jamb", -1.0), ("right jamb", 1.0)):
        yield End(run, site, site.wall, side, sign, held.get(side), next((one for one in window.neighbours if one.side == side), None))


def _chains(ends: list[End], axis: int, reach: Box, scale: float) -> list[Dimension]:
    """Through the wall: reveal, frame, inner reveal; under a section with a sill also its projection before the wall."""
    wall, depth = ends[0].wall, ends[0].run.window.system.depth
    face, inside = -wall.frame_at, -wall.frame_at + wall.whole
    places = sorted({face, 0.0, depth, max(depth, inside)})
    if axis == 1:
        return list(chain(places, line_at=reach.left - CHAIN_OFF * scale, upright=True, scale=scale, thing_at=reach.left))
    dims = list(chain(places, line_at=reach.top + CHAIN_OFF * scale, upright=False, scale=scale, thing_at=reach.top))
    sill = ends[0].site.sill
    if sill is not None:
        front = -sill.projection
        marks = sorted({front, face, 0.0})
        dims += chain(marks, line_at=reach.bottom - CHAIN_OFF * scale, upright=False, scale=scale, thing_at=reach.bottom)
    return dims


def _sides(axis: int, reach: Box, scale: float) -> list[Label]:
    """Which side is outside."""
    off = WORD_OFF * scale
    if axis == 0:
        middle = reach.centre.y
        return [Label("outside", Point(reach.left - off, middle), TEXT, align="right", level="middle"),
                Label("inside", Point(reach.right + off, middle), TEXT, level="middle")]
    middle = reach.centre.x
    return [Label("outside", Point(middle, reach.bottom - off), TEXT, align="centre", level="top"),
            Label("inside", Point(middle, reach.top + off), TEXT, align="centre")]


def _title(window: Window, ends: list[End], axis: int, inner: Box, scale: float) -> list[Entity]:
    width = max(inner.width / scale, NARROWEST)
    top = inner.bottom - 3.0 * scale
    items: list[Entity] = [Label(f"Section {NAMES[axis]}, in the wall", Point(inner.left, top), TITLE, level="top", bold=True)]
    top -= 6.0 * scale
    lines = [f"Scale 1:{scale:g}, glass shortened; fixings drawn in the cut", *_said(window, ends)]
    for row in (row for text in lines for row in wrap(text, width, TEXT)):
        items.append(Label(row, Point(inner.left, top), TEXT, level="top"))
        top -= TEXT * 1.6 * scale
    return items


def _said(window: Window, ends: list[End]) -> Iterator[str]:
    """Gaps at the two ends, the lap of a check, and how far the drip is clear."""
    surveyed = window.site is not None and window.site.fitted is not None
    if ends[0].lap or ends[1].lap:
        yield f"Outer leaf laps the frame by {max(end.lap for end in ends):g}"
    gaps = [f"{end.side} {end.gap:.1f}" for end in ends if not end.lap and end.neighbour is None]
    if gaps:
        yield f"Gap at mid-side: {', '.join(gaps)}" + ("" if surveyed else ", drawn as usual: no opening surveyed")
    if ends[0].side == "sill" and window.site is not None:
        clear = drip_clear(window.site)
        if clear is not None:
            yield f"Drip {clear:g} clear of the wall's face" if clear >= 0 else f"Drip {-clear:g} behind the wall's face"
    for end in ends:
        if end.neighbour is not None:
            yield f"{end.side[:1].upper()}{end.side[1:]}: joined to {end.neighbour.mark} by {end.neighbour.connector.kind} {end.neighbour.connector.tag}"
        if end.hold is not None and end.hold.how == "screw" and end.hold.embedment is not None:
            yield f"{end.side[:1].upper()}{end.side[1:]}: screw {end.hold.embedment:g} deep in the {end.hold.into}"
        if end.hold is not None and end.hold.how == "bracket":
            yield f"{end.side[:1].upper()}{end.side[1:]}: brackets" + ("" if end.side == "sill" else ", fixed where the lintel does not bar it")


def material_key(materials: tuple[str, ...], columns: int, width: float, scale: float) -> View:
    """What each hatching stands for: swatches in columns over `width` mm on paper, placed at 1:`scale`; its top left is its origin."""
    items: list[Entity] = [Label("Materials", Point(0, 0), TEXT, level="top", bold=True)]
    rows = -(-len(materials) // columns)
    for number, name in enumerate(materials):
        column, row = divmod(number, rows)
        left, top = column * width / columns * scale, -(5.0 + row * ROW) * scale
        box = Box(left, top - SWATCH_HIGH * scale, left + SWATCH * scale, top)
        items += hatched(box, name, scale, Layer.SHEET, weight=0.18)
        items.append(Label(name, Point(box.right + 2.0 * scale, box.centre.y), TEXT, level="middle"))
    high = (5.0 + rows * ROW) * scale
    wide = max(width, text_width("Materials", TEXT)) * scale
    return View("material-key", "Key to the materials", (Group("materials", tuple(items)),), Box(0, -high, wide, 0))
