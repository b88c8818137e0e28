"""Glazing bars: the visible glass of a pane divided by bars, each cut to what it meets, and the small panes between them.

Bars are set out on the visible glass, between its sight lines. Upright bars run through and level ones are cut between
them (common practice, no source); a border is mitred. Under a shaped head every bar and small pane ends on the sight line.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from elevations.catalogue.glazing_bars import GlazingBarFigures
from elevations.catalogue.system import System
from elevations.errors import Path, Problem
from elevations.geometry.members import EXACT
from elevations.geometry.window import GlazingBar, Pane
from elevations.plane import SAME_MM, Corner, OffsetError, Outline, clip, offset
from elevations.spec.glazing_bars import GlazingBars
from elevations.working import Source, Term, Working

LEAST_SMALL_PANE_MM = 20
"""Less glass than this between two bars is a slip of the pen; our own limit."""
AXES = {"upright": 0, "level": 1}
GRID = {"upright": "columns", "level": "rows"}


class Ends(NamedTuple):
    """Where the visible glass of a pane begins and ends, from the frame's left and top."""

    across: tuple[Working, Working]
    down: tuple[Working, Working]


@dataclass(frozen=True, slots=True)
class Asked:
    """What one light asks for, and what is needed to lay it."""

    bars: GlazingBars
    kind: GlazingBarFigures
    path: Path
    """Of the light's `bars` in the job."""
    frame_height: float
    tag: Callable[[str], str]


def figures_of(system: System, bars: GlazingBars, panes: Sequence[Pane], path: Path) -> GlazingBarFigures | Problem:
    """The system's figures for the kind asked for, or why these panes can't have it."""
    figures = system.glazing_bars.get(bars.kind)
    where = (*path, "kind")
    if figures is None:
        offered = ", ".join(system.glazing_bars) or "none"
        return Problem(
            "no-glazing-bar", f"{system.name} gives no figures for {bars.kind} glazing bars (it gives {offered})",
            f"put them into the system's file, for example `glazing_bar: {{{bars.kind}: {{width: 24, depth: 12}}}}`", where,
        )
    if bars.kind == "in-unit":
        for pane in panes:
            cavity = next(iter(pane.make_up.layers[1::2]), 0.0)
            if figures.depth > cavity:
                said = f"is {cavity:g} wide" if cavity else "is not there: it is a single pane"
                return Problem(
                    "bar-needs-cavity", f"a bar {figures.depth:g} thick goes between the panes of {pane.tag}, but the cavity of "
                    f"'{pane.glass}' ({pane.make_up.make_up}) {said}", "write `kind: on-face`, or choose a make-up with a wider cavity", where,
                )
    return figures


def lay(asked: Asked, pane: Pane, ends: Ends) -> Pane | Problem:
    """The pane with its bars and small panes, or why they don't fit."""
    try:
        if asked.bars.border is not None:
            return _border(asked, pane, asked.bars.border, ends)
        uprights, levels = _centres(asked, "upright", ends), _centres(asked, "level", ends)
        for along, centres in (("upright", uprights), ("level", levels)):
            problem = _too_close(asked, along, centres, ends)
            if problem:
                return problem
        return _grid(asked, pane, uprights, levels)
    except OffsetError:
        return _no_room(asked, pane)


def _no_room(asked: Asked, pane: Pane) -> Problem:
    box = pane.sight.outline.bounds
    return Problem(
        "glazing-bars-too-close", f"these glazing bars, {asked.kind.width:g} wide, don't fit into the visible glass of {pane.tag}, "
        f"{box.width:.1f} by {box.height:.1f}", "fewer bars, or more glass between them", asked.path,
    )


def _centres(asked: Asked, along: str, ends: Ends) -> list[Working]:
    """Centre lines of the upright or level bars, from the frame's left or top, in order; those of `at` that this pane has."""
    bars, width = asked.bars, asked.kind.width
    low, high = ends.across if along == "upright" else ends.down
    if bars.at is not None:
        given = enumerate(getattr(bars.at, along))
        terms = [Term(at, "centre line", Source("spec", (*asked.path, "at", along, i))) for i, at in given if low.value < at < high.value]
        return [Working((term,)) for term in sorted(terms, key=lambda term: term.amount)]
    if bars.margin is not None:
        margin = Term(bars.margin, "visible glass of the margin", Source("spec", (*asked.path, "margin")))
        half = Term(width / 2, "half of the bar's width", Source("system", f"glazing_bar.{bars.kind}.width"))
        back = (margin._replace(amount=-margin.amount), half._replace(amount=-half.amount))
        return [low.plus(margin, half), high.plus(*back)]
    count = getattr(bars, GRID[along]) or 1
    visible = high.minus(low).value
    share = (visible - (count - 1) * width) / count
    source = Source("spec", (*asked.path, GRID[along]))
    return [low.plus(Term(i * (share + width) - width / 2, f"to the bar after small pane {i}", source, (
        f"{visible:g} of visible glass less {count - 1} x {width:g} of bars, / {count} = {share:g} for each small pane",
        f"{i} x ({share:g} + {width:g}) - {width:g} / 2",
    ))) for i in range(1, count)]


def _too_close(asked: Asked, along: str, centres: Sequence[Working], ends: Ends) -> Problem | None:
    """Where two bars, or a bar and the sight line, leave less than a small pane between them."""
    low, high = ends.across if along == "upright" else ends.down
    half = asked.kind.width / 2
    stops = [low.value, *(at for centre in centres for at in (centre.value - half, centre.value + half)), high.value]
    least = min(after - before for before, after in zip(stops[::2], stops[1::2], strict=True))
    if least >= LEAST_SMALL_PANE_MM:
        return None
    least = max(least, 0.0)
    key = "at" if asked.bars.at is not None else "margin" if asked.bars.margin is not None else GRID[along]
    return Problem(
        "glazing-bars-too-close", f"{along} glazing bars {asked.kind.width:g} wide leave {least:.1f} of visible glass at the narrowest place, "
        f"less than {LEAST_SMALL_PANE_MM}", "fewer bars, or more glass between them", (*asked.path, key),
    )


def outside(asked: Asked, panes: Sequence[Ends]) -> Problem | None:
    """A given centre line that runs through no pane's visible glass."""
    if asked.bars.at is None:
        return None
    for along in AXES:
        spans = [ends.across if along == "upright" else ends.down for ends in panes]
        for i, at in enumerate(getattr(asked.bars.at, along)):
            if not any(low.value < at < high.value for low, high in spans):
                edge = "left" if along == "upright" else "top"
                said = " and ".join(f"{low.value:g} to {high.value:g}" for low, high in spans)
                return Problem(
                    "glazing-bar-outside", f"{'an' if along == 'upright' else 'a'} {along} glazing bar at {at:g} lies outside the visible glass, {said}",
                    f"glazing bars are measured from the frame's {edge} outer edge to their centre lines", (*asked.path, "at", along, i),
                )
    return None


def _grid(asked: Asked, pane: Pane, uprights: Sequence[Working], levels: Sequence[Working]) -> Pane:
    """Uprights through the whole glass; levels in pieces between them, from the top down and from the left."""
    sight, half = pane.sight.outline, asked.kind.width / 2
    made, strips, start = [], [], sight.bounds.left
    for centre in uprights:
        face = between(sight, 0, centre.value - half, centre.value + half)
        if face is not None:
            made.append(_bar(asked, pane, "upright", centre, face))
        strips.append(between(sight, 0, start, centre.value - half))
        start = centre.value + half
    strips.append(between(sight, 0, start, sight.bounds.right))
    small = []
    rest = [strip for strip in strips if strip is not None]
    for centre in levels:
        y, below = asked.frame_height - centre.value, []
        for strip in rest:
            face = between(strip, 1, y - half, y + half)
            if face is not None:
                made.append(_bar(asked, pane, "level", centre, face))
            small.append(between(strip, 1, y + half, strip.bounds.top))
            below.append(between(strip, 1, strip.bounds.bottom, y - half))
        rest = [strip for strip in below if strip is not None]
    small += rest
    return replace(pane, bars=tuple(made), small_panes=tuple(outline for outline in small if outline is not None))


def between(outline: Outline, axis: int, low: float, high: float) -> Outline | None:
    """The part of an outline without hollows from low to high, in x (axis 0) or y; None where it has none."""
    for limit, keep_high in ((low, True), (high, False)):
        box = outline.bounds
        inside = box[axis + 2] - limit if keep_high else limit - box[axis]
        if inside <= SAME_MM:
            return None
        if box[axis] + SAME_MM < limit < box[axis + 2] - SAME_MM:
            outline = clip(outline, axis, limit, high=keep_high)[0]
    return outline


def _bar(asked: Asked, pane: Pane, along: str, centre: Working, face: Outline) -> GlazingBar:
    box, sight = face.bounds, pane.sight
    length = box.height if along == "upright" else box.width
    whole = sight.height if along == "upright" else sight.width
    if not (sight.outline.is_box and abs(whole.value - length) < SAME_MM):
        whole = Working((Term(length, "between what it meets: sight lines and upright bars, over its longest points", EXACT),))
    ends = "square" if face.is_box else "cut to the sight line"
    return _made(asked, pane, Cut(face, whole, ends), upright=along == "upright", centre=centre)


class Cut(NamedTuple):
    """A bar as it is cut: what it covers, its length, and how its ends are."""

    face: Outline
    length: Working
    ends: str


def _made(asked: Asked, pane: Pane, cut: Cut, *, upright: bool, centre: Working | None) -> GlazingBar:
    kind = asked.kind
    return GlazingBar(
        asked.tag("B"), pane.tag, pane.light, asked.bars.kind, kind.width, kind.depth, upright, centre, *cut, asked.path,
    )


def _border(asked: Asked, pane: Pane, margin: float, ends: Ends) -> Pane | Problem:
    """A ring of mitred bars that follows the sight line, each along one of its edges."""
    sight, width = pane.sight.outline, asked.kind.width
    count = len(sight.corners)
    outer, inner = offset(sight, [margin] * count), offset(sight, [margin + width] * count)
    if min(inner.bounds.width, inner.bounds.height) < LEAST_SMALL_PANE_MM:
        return _no_room(asked, pane)
    made = []
    for i, (a, b) in enumerate(outer.edges()):
        c, d = inner.corners[(i + 1) % count], inner.corners[i]
        face = Outline((a, Corner(b.x, b.y), Corner(c.x, c.y, -d.bulge), Corner(d.x, d.y)))
        length = Working((Term(outer.length(i), "along its outer edge, from mitre to mitre", EXACT, (f"{margin:g} in from the sight line",)),))
        upright = not a.bulge and math.isclose(a.x, b.x, abs_tol=SAME_MM)
        cut = Cut(face, length, "bent and mitred" if a.bulge else "mitred")
        made.append(_made(asked, pane, cut, upright=upright, centre=_ring_centre(asked, margin, ends, a, b)))
    return replace(pane, bars=tuple(made), small_panes=(inner,))


def _ring_centre(asked: Asked, margin: float, ends: Ends, a: Corner, b: Corner) -> Working | None:
    """Centre line of an upright or level bar of a border, from the frame's left or top; None of a sloping or bent one."""
    if a.bulge or not (abs(a.x - b.x) < SAME_MM or abs(a.y - b.y) < SAME_MM):
        return None
    upright = abs(a.x - b.x) < SAME_MM
    low, high = ends.across if upright else ends.down
    terms = (
        Term(margin, "visible glass outside the border", Source("spec", (*asked.path, "border"))),
        Term(asked.kind.width / 2, "half of the bar's width", Source("system", f"glazing_bar.{asked.bars.kind}.width")),
    )
    first = b.y < a.y if upright else b.x < a.x   # counter-clockwise: the left edge runs down, the top one to the left
    return low.plus(*terms) if first else high.plus(*(term._replace(amount=-term.amount) for term in terms))
