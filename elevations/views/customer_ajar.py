"""Small pictures of a light standing ajar, in perspective, seen from outside: how it opens, for people who read no symbols."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce

from elevations.drawing.entities import Entity, Fill, Group, View
from elevations.drawing.layers import Layer
from elevations.geometry.window import Light, Sash
from elevations.plane import Box, Corner, Outline, offset, rectangle
from elevations.views import customer_tones as tones
from elevations.views.customer import ring

AJAR_DEG = 34.0
RIM = 0.09
"""Width of the frame drawn round the light, as a share of the picture's longer side."""
EYE = 2.4
"""Distance of the eye in front of the window, as a multiple of the sash's longer side."""
SLIMMEST = 0.42
"""Least share of the longer side that the shorter one is drawn with: a strip would show nothing."""
VOID, VOID_EDGE = "#5d5850", "#46423c"


@dataclass(frozen=True, slots=True)
class _Turn:
    """How a sash turns: about an upright axis (axis 0) or a level one (1), at a share of its width or height."""

    axis: int
    at: float
    nearer: float
    """1 where what lies beyond the axis (to the right, above) comes towards the viewer, -1 where it goes away, 0 shut."""
    slid: tuple[float, float] = (0.0, 0.0)
    """How far it has slid, to the right and up, as shares of its width and height."""

    @property
    def is_open(self) -> bool:
        return self.nearer != 0.0 or self.slid != (0.0, 0.0)


SHUT = _Turn(0, 0.0, 0.0)
_EDGES = {"left": (0, 0.0, 1), "right": (0, 1.0, -1), "bottom": (1, 0.0, 1), "top": (1, 1.0, -1)}
"""Axis, its place, and where the sash lies from it."""
_HALVES = {"left": (0, 1.0), "right": (0, -1.0), "top": (1, -1.0)}
"""Axis, and the way of what lies beyond it, for the half that comes in."""
_SLID = {"left": (-0.45, 0.0), "right": (0.45, 0.0), "up": (0.0, 0.45), "down": (0.0, -0.45)}
INNER = 1


def ajar_views(light: Light, tone: str, width: float, height: float) -> list[View]:
    """One picture for each way in which the light opens, one of it shut where it does not; paper mm about its middle.

    Each is at most `width` by `height`, the sash that stands out included. `tone`: the finish outside.
    """
    outlines = [sash.outer.outline.bounds for sash in light.sashes] or [light.panes[0].tight.outline.bounds]
    whole = reduce(Box.joined, outlines)
    size = _fitted(whole, width * 0.72, height * 0.72)
    leaves = [_on_picture(box, whole, size) for box in outlines]
    inner_slides = any(sash.leaf.slides and sash.leaf.plane == INNER for sash in light.sashes)
    # Of two that slide past each other one is pushed, for both pushed would be shut again: the inner one.
    turns = [_turns(sash, light.swing) if not (inner_slides and sash.leaf.plane == 0) else () for sash in light.sashes]
    ways = max((len(of_sash) for of_sash in turns), default=0)
    if not ways:
        return [_picture(light, "shut", [(leaf, SHUT) for leaf in leaves], tone, size)]
    # What is farther away first: sashes in the inner plane, then those that are shut, then one that comes nearer.
    order = sorted(range(len(leaves)), key=lambda i: (-(light.sashes[i].leaf.plane or 0), bool(turns[i])))
    return [
        _picture(light, f"ajar-{way + 1}", [(leaves[i], (*turns[i], *[SHUT] * ways)[way]) for i in order], tone, size)
        for way in range(ways)
    ]


def _turns(sash: Sash, swing: str) -> tuple[_Turn, ...]:
    """Each way in which a sash turns; none where it does not."""
    out = 1 if swing == "out" else -1
    if sash.leaf.slides:
        return (_Turn(0, 0.0, 0.0, _SLID[sash.leaf.slides]),)
    if sash.leaf.half_in:
        axis, nearer = _HALVES[sash.leaf.half_in]
        return (_Turn(axis, 0.5, nearer),)
    return tuple(_Turn(axis, at, side * out) for axis, at, side in (_EDGES[edge] for edge in sash.hinge_edges))


def _fitted(box: Box, width: float, height: float) -> tuple[float, float]:
    """Width and height of a sash like this one that fits the room."""
    longer = max(box.width, box.height)
    w, h = max(box.width, SLIMMEST * longer), max(box.height, SLIMMEST * longer)
    scale = min(width / w, height / h)
    return w * scale, h * scale


def _on_picture(box: Box, whole: Box, size: tuple[float, float]) -> Box:
    """A sash's box on the picture, mm about its middle."""
    across, up = size[0] / whole.width, size[1] / whole.height
    return Box(
        (box.left - whole.centre.x) * across, (box.bottom - whole.centre.y) * up,
        (box.right - whole.centre.x) * across, (box.top - whole.centre.y) * up,
    )


def _picture(light: Light, name: str, leaves: Sequence[tuple[Box, _Turn]], tone: str, size: tuple[float, float]) -> View:
    width, height = size
    rim = RIM * max(size)
    opening = rectangle(-width / 2, -height / 2, width / 2, height / 2)
    frame = offset(opening, [-rim] * 4)
    ajar = any(turn.is_open for _, turn in leaves)
    items: list[Entity] = [
        Fill(frame, Layer.FRAME, tones.facet(tone, 0.0, 0.1), (opening,)),
        *ring(frame, 0.15, tones.edge(tone), Layer.FRAME),
        Fill(opening, Layer.WALL, VOID if ajar else tones.GLASS["inside"]),
        *ring(opening, 0.25, VOID_EDGE if ajar else tones.edge(tone), Layer.FRAME),
    ]
    for box, turn in leaves if ajar or len(leaves) > 1 else ():
        items += _leaf(box, turn, max(size), tone)
    words = f"part {light.number}, {'ajar' if ajar else 'shut'}, seen from outside: {light.words}"
    return View(f"{name}-{light.number}", words, (Group("ajar", tuple(items), words),), frame.bounds)


def _leaf(box: Box, turn: _Turn, size: float, tone: str) -> Iterator[Fill]:
    """A sash, turned about its axis or slid, and seen in perspective by an eye before the picture's middle."""
    dx, dy = turn.slid[0] * box.width, turn.slid[1] * box.height
    box = Box(box.left + dx, box.bottom + dy, box.right + dx, box.top + dy)
    axis_at = (box.left + turn.at * box.width, box.bottom + turn.at * box.height)[turn.axis]
    angle = math.radians(AJAR_DEG) if turn.nearer else 0.0

    def seen(x: float, y: float) -> Corner:
        """Where a point of the shut sash is seen once it is ajar."""
        place = [x, y]
        away = place[turn.axis] - axis_at
        place[turn.axis] = axis_at + away * math.cos(angle)
        share = EYE * size / (EYE * size - away * math.sin(angle) * turn.nearer)
        return Corner(place[0] * share, place[1] * share)

    def quad(inset: float) -> Outline:
        b = box.grown(-inset)
        return Outline((seen(b.left, b.bottom), seen(b.right, b.bottom), seen(b.right, b.top), seen(b.left, b.top)))

    # A face that turns looks to the side that goes away: lit or in shade like a facet that looks there.
    look = [0.0, 0.0]
    look[turn.axis] = -turn.nearer if turn.axis == 0 else 0.8 * (turn.nearer if turn.at == 0 else -turn.nearer)
    rim = RIM * 1.25 * min(size, box.width * 1.6, box.height * 1.6)
    inner = quad(rim)
    yield Fill(quad(0.0), Layer.SASH, tones.gap(tone))
    yield Fill(quad(0.18), Layer.SASH, tones.facet(tone, look[0] * 0.5, look[1]), (inner,))
    yield Fill(inner, Layer.SASH, tones.gap(tone))
    yield Fill(quad(rim + 0.15), Layer.HATCH, tones.GLASS["inside"])
