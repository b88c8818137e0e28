"""A measured drawing against the window that it should show: every difference in words, sizes in mm, seen from outside."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.drawing.explode import dimension_text, size_text
from elevations.drawing.layers import Layer
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Outline, Point
from elevations.verify.difference import SAME_MM, Difference, moves, place_in
from elevations.verify.dimensions import changed_dimensions, false_readings
from elevations.verify.loops import Edge
from elevations.verify.lying import fixing_signs, lying
from elevations.verify.measured import Measured
from elevations.verify.opening_signs import changed_signs
from elevations.verify.said import SheetSays, with_figures
from elevations.verify.sections import SECTION_LAYERS, changed_sections
from elevations.verify.words import changed_words, pane_sizes
from elevations.views.visible import bar_face

FAR_SHARE = 0.5
"""A thing further from its place than this share of its size is another thing."""
FIXING_REACH_MM = 150.0
"""A fixing sign further off than this from where one should be is another fixing."""


@dataclass(frozen=True, slots=True)
class _Thing:
    tag: str
    outline: Outline
    part: str = ""
    """Of the thing: 'sight line'. Empty for the thing itself."""


def differences(window: Window, found: Measured, says: SheetSays | None = None) -> list[Difference]:
    """What differs, panes first; empty where the drawing measures, and says, what the job says.

    `says`: the job's sheet today that the drawing was made as. Without it words and dimensions are only looked at for
    what can't be right on any sheet.
    """
    if says is not None and not says.shows_window:
        return list(said_otherwise(window, found.placed(0.0, 0.0, found.unit_mm), says, found.unit_mm))
    panes = [_Thing(pane.tag, pane.cut.outline) for pane in window.panes]
    lies = next((placed for unit in dict.fromkeys((found.unit_mm, 1.0)) if (placed := lying(window, found, unit))), None)
    if lies is None:
        return [Difference("drawing", window.mark, _unlike(window, found.placed(0.0, 0.0, found.unit_mm)))]
    drawn, unit = lies
    made = []
    if unit != found.unit_mm:
        said = f"the file says that its unit is {found.unit_mm:g} mm, but its figures are the job's in mm: another program may scale it"
        made.append(Difference("drawing", window.mark, said))
    made += [
        Difference("drawing", layer, f"layer {layer} is frozen or switched off: what is drawn on it is not seen") for layer in drawn.hidden
    ]
    made += _outlines("pane", panes, drawn.outlines[Layer.GLASS], window)
    made += _edges_of_frame(window, drawn)
    bars = [_Thing(bar.tag, bar_face(window, bar)) for bar in window.bars]
    sashes = [_Thing(sash.tag, sash.outer.outline) for sash in window.sashes]
    if says is not None and says.closed_sash_lines >= 2 * len(sashes):
        sashes += [_Thing(sash.tag, sash.sight.outline, "sight line") for sash in window.sashes]
    for layer, things in ((Layer.BARS, bars), (Layer.SASH, sashes)):
        if says is None or layer in says.layers:
            made += _outlines("member", things, drawn.outlines[layer], window, extra=False)
    return [*made, *_fixings(window, drawn), *said_otherwise(window, drawn, says, unit)]


def said_otherwise(window: Window, drawn: Measured, says: SheetSays | None, unit_mm: float) -> Iterator[Difference]:
    """Opening signs, dimensions and words of a drawing that lies as the sheet's first view does."""
    if says is None:
        yield from false_readings(drawn.dimensions, unit_mm)
        yield from pane_sizes(window, drawn.texts)
        return
    yield from changed_signs(says.signs, _edges(drawn, Layer.OPENING))
    yield from changed_sections(says.sections, {layer: _edges(drawn, layer) for layer in SECTION_LAYERS})
    yield from changed_dimensions(says, drawn.dimensions, unit_mm)
    # A program that knows no dimensions leaves their figures as words.
    yield from changed_words(says if drawn.dimensions else with_figures(says), drawn.texts, window)


def _unlike(window: Window, found: Measured) -> str:
    """Why nothing could be compared: another window, another scale, or nothing on the layers."""
    glass = found.outlines[Layer.GLASS]
    if not glass and not found.fixings:
        return f"the drawing has no pane on layer {Layer.GLASS} and no fixing on layer {Layer.FIXING}: nothing could be measured"
    mine = max((pane.cut.outline.bounds for pane in window.panes), key=lambda box: box.width * box.height)
    theirs = max((outline.bounds for outline in glass), key=lambda box: box.width * box.height, default=mine)
    across, along = theirs.width / mine.width, theirs.height / mine.height
    if abs(across - along) < 1e-3 * across and abs(across - 1) > 1e-3:
        return f"everything is {across:.5g} times as large as in the job: check the drawing's scale and units"
    return (
        f"the drawing shows another window: its largest pane measures {size_text(theirs)}, the largest of {window.mark} {size_text(mine)}, "
        "and too little else lies where the job has it"
    )


def _outlines(kind: str, things: Sequence[_Thing], there: Sequence[Outline], window: Window, *, extra: bool = True) -> Iterator[Difference]:
    """Each thing with the outline nearest to it; `extra`: what is left over in the frame is told too."""
    pairs = sorted(
        (_apart(thing.outline.bounds, outline.bounds), i, j) for i, thing in enumerate(things) for j, outline in enumerate(there)
    )
    mine: dict[int, int] = {}
    for distance, i, j in pairs:
        box = things[i].outline.bounds
        if i not in mine and j not in mine.values() and distance <= FAR_SHARE * math.hypot(box.width, box.height):
            mine[i] = j
    for i, thing in enumerate(things):
        if i in mine:
            yield from _difference(kind, thing, there[mine[i]])
        else:
            yield Difference(kind, thing.tag, f"{_named(kind, thing)} is not in the drawing, or not as one closed outline; the job has {size_text(thing.outline.bounds)}")
    frame = window.frame.outline.bounds
    for j, outline in enumerate(there):
        if extra and j not in mine.values():
            where = place_in(outline.bounds, frame)
            yield Difference(kind, "?", f"a {kind} of {size_text(outline.bounds)}, {where}, is in the drawing and not in the job")


def _apart(a: Box, b: Box) -> float:
    """How far two boxes are from being one: by their corners, mm."""
    return max(math.hypot(a.left - b.left, a.bottom - b.bottom), math.hypot(a.right - b.right, a.top - b.top))


def _difference(kind: str, thing: _Thing, outline: Outline) -> Iterator[Difference]:
    job, drawn = thing.outline.bounds, outline.bounds
    name = _named(kind, thing)
    changes = [
        f"{abs(by):.1f} {less if by < 0 else more}".replace(".0 ", " ")
        for by, less, more in ((drawn.width - job.width, "narrower", "wider"), (drawn.height - job.height, "lower", "higher"))
        if abs(by) > SAME_MM
    ]
    if changes:
        yield Difference(kind, thing.tag, f"{name} measures {size_text(drawn)} in the drawing; the job says {size_text(job)}: {' and '.join(changes)}")
        return
    by = moves(drawn.left - job.left, drawn.bottom - job.bottom)
    if by:
        yield Difference(kind, thing.tag, f"{name} has its size, {size_text(job)}, but stands {by} from where the job has it")
        return
    bend = _shape_apart(thing.outline, outline)
    if bend > SAME_MM:
        yield Difference(kind, thing.tag, f"{name} has the job's width and height but another shape: {bend:.1f} mm apart at the worst place")


def _named(kind: str, thing: _Thing) -> str:
    tag = thing.tag
    whole = f"pane {tag}" if kind == "pane" else f"sash {tag}" if tag.startswith("S") else f"bar {tag}"
    return f"the {thing.part} of {whole}" if thing.part else whole


def _shape_apart(a: Outline, b: Outline) -> float:
    """The greatest distance from a corner or the middle of an edge of one outline to the nearest of the other's."""
    first, second = _marks(a), _marks(b)
    nearest = [min(math.dist(p, q) for q in second) for p in first] + [min(math.dist(p, q) for p in first) for q in second]
    return max(nearest)


def _marks(outline: Outline) -> list[Point]:
    return [point for a, b in outline.edges() for point in (a.point, middle(a, b))]


def middle(a: Corner | Point, b: Corner | Point, bulge: float | None = None) -> Point:
    """The middle of an edge, on its arc: as far off the chord as its bulge says."""
    bend = (a.bulge if isinstance(a, Corner) else 0.0) if bulge is None else bulge
    return Point((a.x + b.x) / 2 + bend * (b.y - a.y) / 2, (a.y + b.y) / 2 - bend * (b.x - a.x) / 2)


def _edges_of_frame(window: Window, drawn: Measured) -> Iterator[Difference]:
    """Each outer edge of the frame with the nearest edge on its layer."""
    there = _edges(drawn, Layer.FRAME)
    for (a, b), side in zip(window.frame.outline.edges(), window.frame.sides, strict=True):
        edge = Edge(a.point, b.point, a.bulge)
        nearest = min(there, key=lambda other: _edge_apart(edge, other), default=None)
        apart = math.inf if nearest is None else _edge_apart(edge, nearest)
        length = math.dist(a.point, b.point)
        if apart <= SAME_MM:
            continue
        if nearest is None or apart > FAR_SHARE * length:
            yield Difference("member", side.tag, f"the outer edge of the {side.tag} is not in the drawing")
            continue
        measured = math.dist(nearest.start, nearest.end)
        if abs(measured - length) > SAME_MM:
            said = f"measures {dimension_text(measured)} in the drawing; the job says {dimension_text(length)}"
        else:
            said = f"lies up to {dimension_text(apart)} mm from where the job has it"
        yield Difference("member", side.tag, f"the outer edge of the {side.tag} {said}")


def _edges(drawn: Measured, layer: Layer) -> list[Edge]:
    """Every edge on a layer, of closed outlines too."""
    return [*drawn.edges[layer], *(Edge(a.point, b.point, a.bulge) for o in drawn.outlines[layer] for a, b in o.edges())]


def _edge_apart(a: Edge, b: Edge) -> float:
    """The greatest distance between the ends and middles of two edges, whichever way they run."""
    one, other = (
        max(math.dist(a.start, start), math.dist(a.end, end), math.dist(middle(a.start, a.end, a.bulge), middle(start, end, bulge)))
        for start, end, bulge in ((b.start, b.end, b.bulge), (b.end, b.start, -b.bulge))
    )
    return min(one, other)


def _fixings(window: Window, drawn: Measured) -> Iterator[Difference]:
    """Each fixing sign with the nearest one in the drawing; signs outside the frame, as in a key, are no fixings."""
    signs, left = fixing_signs(window), list(drawn.fixings)
    along = {fixing.tag: f"{fixing.side}, {dimension_text(fixing.along.value)} along it" for fixing in window.fixings}
    pairs = sorted((math.dist(at, place), i, j) for i, (_, at) in enumerate(signs) for j, place in enumerate(left))
    mine: dict[int, int] = {}
    for distance, i, j in pairs:
        if i not in mine and j not in mine.values() and distance <= FIXING_REACH_MM:
            mine[i] = j
    for i, (tag, at) in enumerate(signs):
        if i not in mine:
            yield Difference("fixing", tag, f"fixing {tag} ({along[tag]}) is not in the drawing")
            continue
        by = moves(left[mine[i]].x - at.x, left[mine[i]].y - at.y)
        if by:
            yield Difference("fixing", tag, f"fixing {tag} stands {by} from where the job has it ({along[tag]})")
    frame = window.frame.outline.bounds
    for j, place in enumerate(left):
        inside = frame.left <= place.x <= frame.right and frame.bottom <= place.y <= frame.top
        if j not in mine.values() and inside:
            where = place_in(Box(place.x, place.y, place.x, place.y), frame)
            yield Difference("fixing", "?", f"a fixing, {where}, is in the drawing and not in the job")
