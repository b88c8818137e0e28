"""A section: the profiles along a cutting line with their glass, and what a workshop reads off it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from elevations.drawing.chains import chain
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.explode import dimension_box, measured
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, FINE, THIN, Layer
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.beads import bead_words
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.views.cut_run import Run, glass_outer_v, run_along
from elevations.views.section_parts import Piece, Thing, things
from elevations.views.surround import (
    Context,
    Surround,
    box_round,
    key_under,
    ordered_sizes,
    said,
    surround,
    through_wall,
    under_sill,
)

NAMES = {0: "A-A", 1: "B-B"}
TITLE_HEIGHT, NOTE_HEIGHT = 3.5, 2.5
TICKS = 1.5
"""Beside a text that fits between its ticks, both together, mm on paper."""
DEPTH_OFF, CHAIN_OFF, WORD_OFF = 6.0, 12.0, 1.6
"""From the profiles to the dimension of the depth, to the chain along the cut, to the words, mm on paper."""
BREAK_GAP, BREAK_OVER, BREAK_OVER_MM = 1.6, 2.0, 12.0
"""Between the two halves of a shortened unit, and what their break lines reach beyond it, mm on paper; at most so many true mm."""
NARROWEST_TITLE, KEY_OFF = 42.0, 1.0
TONES = {
    "profile": "#e6e4de", "box": "#e6e4de", "gasket": "#4a5058", "bead": "#f1ece0", "reinforcement": "#9aa6b1",
    "glazing-bar": "#ffffff", "pane": "#cfe2ea", "seal": "#6d7680", "spacer": "#c4ccd2",
}
SASH_TONE = "#dbe1e3"
FINEST = 0.13   # a step of the ISO 128 series (from memory): for chambers, which lie close together


def section(
    window: Window, axis: int, at: float, scale: float, shorten_to: float | None = None, context: Context = Context.NONE
) -> View:
    """Section A-A (axis 0, cut at x = at) or B-B (axis 1, cut at y = at), true mm; annotation for 1:`scale`.

    A-A has the outside on the left and the head at the top, its y being the window's; B-B has the outside at the bottom and
    left on the left, its x being the window's. With `shorten_to`, visible glass longer than that many mm is broken.
    Profiles without outlines are plain boxes, and the section says so. `context`: what of its surroundings is shown.
    """
    run = run_along(window, axis, at, shorten_to, BREAK_GAP * scale)
    found, around = things(run), surround(window, run, scale, context)
    name = NAMES[axis].lower()
    groups = [*around.groups, *(_drawn(run, thing, i, scale) for i, thing in enumerate(found))]
    reach = run.reach()
    box = box_round(around.groups, scale)
    outer = reach.joined(box) if box else reach
    walled = around.context is Context.WALL
    notes = [
        Group(f"{name}-breaks", tuple(_breaks(run, scale))),
        Group(f"{name}-dimensions", (
            *(through_wall(around.ends, outer, scale) if walled else _depth(run, outer, scale)), *_widths(run, around, outer, scale),
            *(under_sill(around.ends, outer, scale) if around.ends else ()),
        ), "profile sizes"),
        Group(f"{name}-words", tuple(_words(run, reach, outer, scale))),
    ]
    inner = outer.joined(bounds_of_all((item for group in notes for item in group.items), scale))
    title = _title(run, found, around, scale, inner)
    groups += [*(group for group in notes if group.items), title]
    return View(f"section-{name}", f"Section {NAMES[axis]}", tuple(groups), inner.joined(bounds_of_all(title.items, scale)))


def _drawn(run: Run, thing: Thing, number: int, scale: float) -> Group:
    """The shapes of a member or pane: tones first, then lines, chambers as holes in the tone."""
    chambers = tuple(piece.outline for piece in thing.pieces if piece.kind == "chamber")
    items: list[Entity] = []
    for piece in thing.pieces:
        tone = SASH_TONE if piece.kind in ("profile", "box") and piece.layer is Layer.SASH else TONES.get(piece.kind)
        if tone:
            items.append(Fill(piece.outline, Layer.HATCH, tone, chambers if piece.kind == "profile" else ()))
    items += [Stroke(piece.outline.corners, piece.layer, closed=True, weight=_weight(piece, scale)) for piece in thing.pieces]
    name = f"{NAMES[run.axis].lower()}-{number}-{thing.tag.lower().replace(' ', '-')}"
    return Group(name, tuple(items), f"{thing.tag}, {thing.words}", (("mark", run.window.mark), ("tag", thing.tag)))


def _weight(piece: Piece, scale: float) -> float | None:
    """Cut outlines are heavy where there is room between the walls, lighter at small scales, where they would clog."""
    if piece.kind in ("profile", "box"):
        return CUT if scale <= 1 else 0.35 if scale <= 2 else THIN if scale <= 5 else FINE
    return FINE if scale <= 2 else FINEST


def _breaks(run: Run, scale: float) -> list[Entity]:
    """Two lines with a kink across each shortened unit, where its parts end."""
    items: list[Entity] = []
    for low, _ in run.gone:
        middle = run.moved(low)
        stretch = next(s for s in run.stretches if s.low < low < s.high)
        out = glass_outer_v(run, stretch)
        inner = out + stretch.pane.make_up.thickness
        half, over = BREAK_GAP / 2 * scale, min(BREAK_OVER * scale, BREAK_OVER_MM)
        centre, kink = (out + inner) / 2, min(1.2 * scale, (inner - out) / 4)
        for t in (middle - half, middle + half):
            places = ((t, out - over), (t, centre - kink), (t + kink * 0.8, centre - kink / 2), (t - kink * 0.8, centre + kink / 2),
                      (t, centre + kink), (t, inner + over))
            items.append(Stroke(tuple(run.corner(*place) for place in places), Layer.NOTE, weight=FINE))
    return items


def _depth(run: Run, outer: Box, scale: float) -> Sequence[Dimension]:
    """The depth of the frame, over the head or to the left of the left jamb."""
    depth = (0.0, run.window.system.depth)
    if run.axis == 0:
        return chain(depth, line_at=outer.top + DEPTH_OFF * scale, upright=False, scale=scale, thing_at=outer.top)
    return chain(depth, line_at=outer.left - DEPTH_OFF * scale, upright=True, scale=scale, thing_at=outer.left)


def _zones(run: Run) -> list[list[float]]:
    """The places that are measured between, zone by zone: what stands between two panes' visible glass, or it and the frame's edge."""
    lights = run.lights
    zones = []
    for i, (_, _, datum) in enumerate(run.bounds):
        below = [lights[i - 1][-1].high] if i > 0 else []
        above = [lights[i][0].low] if i < len(lights) else []
        zones.append([*below, datum, *above])
    for light in lights:
        zones += [[first.high, second.low] for first, second in pairwise(light)]
    return sorted(sorted(set(zone)) for zone in zones)


def _widths(run: Run, around: Surround, outer: Box, scale: float) -> list[Dimension]:
    """Frame and sash to the visible glass at each end, from glass to glass over each bar with its centre line; sill and add-ons.

    At small scales one whose text has no room beside its neighbours' is left out, the shorter first: these are sizes of
    the profiles, and the elevation has every position. What is ordered, sill and add-ons, keeps its sizes.
    """
    upright = run.axis == 0
    line_at = outer.right + CHAIN_OFF * scale if upright else outer.bottom - CHAIN_OFF * scale
    thing_at = outer.right if upright else outer.bottom
    ordered, zones = (
        [dim for places in chains for dim in chain(places, line_at=line_at, upright=upright, scale=scale, thing_at=thing_at)]
        for chains in (ordered_sizes(around.ends), [[run.moved(t) for t in zone] for zone in _zones(run)])
    )
    kept = list(ordered)
    for dim in sorted(zones, key=lambda dim: (tight(dim, scale), -abs(measured(dim)))):
        room = _text_room(dim, scale)
        if not any(room.overlaps(_text_room(other, scale)) for other in kept):
            kept.append(dim)
    return [*ordered, *(dim for dim in zones if dim in kept)]


def tight(dim: Dimension, scale: float) -> bool:
    """Whether a drawing program that sets texts anew may move this one out of its span: LibreCAD does (seen)."""
    return bool(dim.shift) or abs(measured(dim)) < _along(dim, dimension_box(dim, scale)) + TICKS * scale


def _text_room(dim: Dimension, scale: float) -> Box:
    """Where its text may come to lie: a tight one along by half its own width, in its own row or in the one outside."""
    box = dimension_box(dim, scale)
    if not tight(dim, scale):
        return box
    aside, out = _along(dim, box) / 2, box.height if not dim.upright else box.width
    return Box(box.left - out, box.bottom - aside, box.right + out, box.top + aside) if dim.upright else Box(
        box.left - aside, box.bottom - out, box.right + aside, box.top + out)


def _along(dim: Dimension, box: Box) -> float:
    return box.height if dim.upright else box.width


def _words(run: Run, reach: Box, outer: Box, scale: float) -> list[Entity]:
    """Which side is outside, and the tag of each pane."""
    off, depth = WORD_OFF * scale, run.window.system.depth
    items: list[Entity] = []
    if run.axis == 0:
        y, out, room = outer.top + DEPTH_OFF * scale, min(0.0, outer.left if outer.top > reach.top else 0.0), max(depth, outer.right)
        items += [
            Label("outside", Point(out - 1.5 * off, y), NOTE_HEIGHT, align="right", level="middle"),
            Label("inside", Point(room + 1.5 * off, y), NOTE_HEIGHT, level="middle"),
        ]
    else:
        x = outer.right + 1.5 * off
        items += [
            Label("inside", Point(x, depth / 2 + off / 2), NOTE_HEIGHT),
            Label("outside", Point(x, depth / 2 - off / 2), NOTE_HEIGHT, level="top"),
        ]
    for stretch in run.stretches:
        room = (run.moved(stretch.high) - run.moved(stretch.low)) / scale
        if room < (2 * NOTE_HEIGHT if run.axis == 0 else text_width(stretch.pane.tag, NOTE_HEIGHT) + 1.0):
            continue
        t = (run.moved(stretch.low) + run.moved(stretch.high)) / 2
        at = Point(reach.right + off, t) if run.axis == 0 else Point(t, reach.top + off)
        align, level = ("left", "middle") if run.axis == 0 else ("centre", "base")
        items.append(Label(stretch.pane.tag, at, NOTE_HEIGHT, align=align, level=level))
    return items


def _title(run: Run, found: Sequence[Thing], around: Surround, scale: float, inner: Box) -> Group:
    """Name and scale, the make-ups cut, what is not to be trusted (shortened glass, boxes for profiles), what stands round it."""
    lines = [f"Scale 1:{scale:g}" + (", glass shortened" if run.gone else ""), *_glass_lines(run)]
    boxed = sorted({thing.words for thing in found if any(piece.kind == "box" for piece in thing.pieces)})
    lines += run.turned
    if boxed:
        lines.append(f"Outline not given, drawn as plain boxes: {', '.join(boxed)}")
    lines += said(around)
    width = max(inner.width / scale, NARROWEST_TITLE)
    top = inner.bottom - 3.0 * scale
    items: list[Entity] = [Label(f"Section {NAMES[run.axis]}", Point(inner.left, top), TITLE_HEIGHT, level="top", bold=True)]
    top -= 6.0 * scale
    for row in (row for text in lines for row in wrap(text, width, NOTE_HEIGHT)):
        items.append(Label(row, Point(inner.left, top), NOTE_HEIGHT, level="top"))
        top -= NOTE_HEIGHT * 1.6 * scale
    items += key_under(around, Point(inner.left, top - KEY_OFF * scale), width, scale)
    return Group(f"section-{NAMES[run.axis].lower()}-title", tuple(items))


def _glass_lines(run: Run) -> list[str]:
    """'Glass 4/20/4 (28)', or each pane's where they differ; and which face their beads are on."""
    made: dict[str, list[str]] = {}
    for stretch in run.stretches:
        unit = stretch.pane.make_up
        made.setdefault(f"{unit.make_up} ({unit.thickness:g})", []).append(stretch.pane.tag)
    beads = bead_words(run.window, {stretch.pane.tag for stretch in run.stretches})
    if len(made) == 1:
        return [f"Glass {next(iter(made))}. {beads}"]
    return [*(f"{', '.join(tags)} {words}" for words, tags in made.items()), beads]


def section_length(window: Window, axis: int, at: float, shorten_to: float | None) -> float:
    """How long a section is along its cut, mm, without drawing it."""
    run = run_along(window, axis, at, shorten_to)
    first, last = run.bounds[0][2], run.bounds[-1][2]
    return run.moved(last) - run.moved(first)


