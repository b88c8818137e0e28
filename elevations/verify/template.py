"""A template's drawing against the job: its corners by their numbers and its sides by their letters, then what it says."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator, Sequence

from elevations.drawing.explode import dimension_text
from elevations.drawing.layers import Layer
from elevations.geometry.window import Window
from elevations.plane import Corner, Outline, Point
from elevations.schedules.templates import LETTERS, shaped_panes, template_outline
from elevations.sheets.template import template_sheet
from elevations.spec.model import Job
from elevations.verify.compare import middle, said_otherwise
from elevations.verify.difference import SAME_MM, Difference, moves
from elevations.verify.measured import Measured
from elevations.verify.said import SheetSays, sheet_says

FAR_SHARE = 0.25
"""A corner further from its place than this share of the pane's smaller measure is another corner."""


def template_named(words: Sequence[str], stem: str) -> tuple[str, str] | None:
    """Mark and tag of the pane whose template the words, or else the file's name, say this is; None where it is none."""
    for pattern, texts in ((r"Template (.+)-(G\d+)", words), (r"(.+)-(G\d+)", [stem])):
        for text in texts:
            hit = re.fullmatch(pattern, text.strip())
            if hit:
                return hit[1], hit[2]
    return None


def template_says(window: Window, tag: str, job: Job) -> SheetSays | None:
    """What the pane's template says today; None where the job has no such shaped pane."""
    pane = next((pane for pane in shaped_panes(window) if pane.tag == tag), None)
    return None if pane is None else sheet_says(template_sheet(window, pane, job, "model"))


def template_differences(window: Window, tag: str, found: Measured, says: SheetSays) -> list[Difference]:
    """What differs: corners and sides of the cut outline, then dimensions and words."""
    pane = next(pane for pane in window.panes if pane.tag == tag)
    wanted = template_outline(pane)
    for unit in dict.fromkeys((found.unit_mm, 1.0)):
        in_mm = found.placed(0.0, 0.0, unit)
        there = min(in_mm.outlines[Layer.GLASS], key=lambda outline: _unlike(wanted, outline), default=None)
        shift = None if there is None else _shift(wanted, there)
        if there is not None and shift is not None:
            drawn = in_mm.placed(-shift.x, -shift.y)
            return [*_corners(tag, wanted, there.moved(-shift.x, -shift.y)), *said_otherwise(window, drawn, says, unit)]
    return [Difference("drawing", tag, _unmeasured(tag, wanted, found.placed(0.0, 0.0, found.unit_mm).outlines[Layer.GLASS]))]


def _unmeasured(tag: str, wanted: Outline, there: Sequence[Outline]) -> str:
    """Why nothing could be compared corner by corner."""
    if not there:
        return f"the drawing has no closed outline on layer {Layer.GLASS}: nothing could be measured"
    box, own = min(there, key=lambda outline: _unlike(wanted, outline)).bounds, wanted.bounds
    sizes = [f"{dimension_text(b.width)} × {dimension_text(b.height)}" for b in (box, own)]
    return f"the outline measures {sizes[0]} over all, {tag} in the job {sizes[1]}, and too few of its corners lie as the job has them"


def _unlike(a: Outline, b: Outline) -> float:
    return abs(a.bounds.width - b.bounds.width) + abs(a.bounds.height - b.bounds.height)


def _shift(wanted: Outline, there: Outline) -> Point | None:
    """The shift that most corners agree on; None where fewer than two of them do."""
    shifts = [Point(b.x - a.x, b.y - a.y) for a in wanted.corners for b in there.corners]
    crowds = Counter(
        (i, sum(math.dist(shift, other) <= SAME_MM for other in shifts)) for i, shift in enumerate(shifts)
    )
    if not crowds:
        return None
    best, agreed = max(crowds, key=lambda crowd: (crowd[1], -crowd[0]))
    return shifts[best] if agreed >= min(2, len(wanted.corners)) else None


def _corners(tag: str, wanted: Outline, there: Outline) -> Iterator[Difference]:
    """Corners that stand elsewhere, are gone or are new; then sides between standing corners that bend otherwise."""
    reach = FAR_SHARE * min(wanted.bounds.width, wanted.bounds.height)
    own: dict[int, int] = {}
    for distance, i, j in sorted((math.dist(a.point, b.point), i, j) for i, a in enumerate(wanted.corners) for j, b in enumerate(there.corners)):
        if distance <= reach and i not in own and j not in own.values():
            own[i] = j
    for i, corner in enumerate(wanted.corners):
        if i not in own:
            yield Difference("pane", tag, f"corner {i + 1} of {tag} is not in the drawing")
            continue
        by = moves(there.corners[own[i]].x - corner.x, there.corners[own[i]].y - corner.y)
        if by:
            yield Difference("pane", tag, f"corner {i + 1} of {tag} stands {by} from where the job has it")
    for j, corner in enumerate(there.corners):
        if j not in own.values():
            at = f"{dimension_text(corner.x)} from the left and {dimension_text(corner.y)} from the bottom"
            yield Difference("pane", tag, f"a corner of {tag}, {at}, is in the drawing and not in the job")
    yield from _sides(tag, wanted, there, own)


def _sides(tag: str, wanted: Outline, there: Outline, own: dict[int, int]) -> Iterator[Difference]:
    edges = {(a.point, b.point): (a, b) for a, b in there.edges()}
    for i, (a, b) in enumerate(wanted.edges()):
        ends = [own.get(i), own.get((i + 1) % len(wanted.corners))]
        drawn = None if None in ends else edges.get((there.corners[ends[0] or 0].point, there.corners[ends[1] or 0].point))
        if drawn is None:
            continue
        apart = abs(_rise(*drawn) - _rise(a, b))
        if apart > SAME_MM:
            yield Difference("pane", tag, f"side {LETTERS[i]} of {tag} bends by {dimension_text(abs(_rise(*drawn)))} over its chord; the job says {dimension_text(abs(_rise(a, b)))}")


def _rise(a: Corner, b: Corner) -> float:
    """Of an arc over its chord, mm; 0 of a straight side, negative where it bends the other way."""
    chord_middle = middle(a, b, 0.0)
    return math.copysign(math.dist(chord_middle, middle(a, b)), a.bulge)
