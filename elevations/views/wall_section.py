"""Sections A-A and B-B with the wall: how the frame stands in it, what fills the joint, how it is held."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.drawing.entities import Entity, Group, Label, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import Layer
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.fit_fixing import Hold
from elevations.geometry.landing import Landing
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.views.cut_run import run_along
from elevations.views.cuts import choose_cuts
from elevations.views.hatch import hatched
from elevations.views.section import BREAK_GAP, NAMES, section
from elevations.views.surround import drip_words, ends_of, lintel_words, through_wall, under_sill
from elevations.views.wall import End, drawn

KEPT_GLASS = 14.0
"""Visible glass left in a shortened section, mm on paper."""
TITLE, TEXT, SMALL = 3.5, 2.5, 2.0
WORD_OFF = 1.6
NARROWEST = 78.0
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
    ends = ends_of(window, run)
    for end in ends:
        items, names = drawn(end, scale)
        groups.append(Group(f"{name}-{end.side.replace(' ', '-')}", tuple(items), f"wall at the {end.side}"))
        materials += names
    groups += [group for group in plain.groups if not any(group.id.endswith(f"-{word}") for word in OWN_NOTES)]
    reach = bounds_of_all((item for group in groups for item in group.items), scale)
    notes: list[Entity] = [*through_wall(ends, reach, scale), *under_sill(ends, reach, scale), *_sides(axis, reach, scale)]
    groups.append(Group(f"{name}-wall-dimensions", tuple(notes)))
    inner = reach.joined(bounds_of_all(notes, scale))
    title = Group(f"{name}-wall-title", tuple(_title(window, ends, axis, inner, scale)))
    groups.append(title)
    view = View(f"wall-{name}", f"Section {NAMES[axis]} with the wall", tuple(groups), inner.joined(bounds_of_all(title.items, scale)))
    return WallSection(view, tuple(dict.fromkeys(materials)))


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
        yield from drip_words(window.site)
        wall, head = ends[1].wall, ends[1].hold
        if wall is not None and not (head and head.assumed):
            yield from lintel_words(wall)
    held: dict[str, list[str]] = {}
    for end in ends:
        if end.neighbour is not None:
            held.setdefault(f"joined to {end.neighbour.mark} by {end.neighbour.connector.kind} {end.neighbour.connector.tag}", []).append(end.side)
        elif end.hold is not None and end.hold.landing is not None:
            held.setdefault(_held(end.hold, end.hold.landing), []).append(end.side)
    for how, sides in held.items():
        named = " and ".join(sides)
        yield f"{named[:1].upper()}{named[1:]}: {how}"


def _held(hold: Hold, landing: Landing) -> str:
    """'screw 50 deep in brick', 'brackets 93 in, 60 deep in block, the inner leaf', 'screws hold nowhere: …'."""
    if landing.leaf is None:
        return f"{landing.how}s hold nowhere: {landing.fails}"
    what = "screw" if landing.reach is None else f"brackets {landing.reach:g} in,"
    return f"{what} {hold.embedment:g} deep in {hold.where()}"


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
