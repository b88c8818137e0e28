"""Small pictures of a light standing ajar, in perspective, seen from outside: how it opens, for people who read no symbols."""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.drawing.entities import Entity, Fill, Group, View
from elevations.drawing.layers import Layer
from elevations.geometry.window import Light
from elevations.plane import Box, Corner, Outline, Point, offset, rectangle
from elevations.views import customer_tones as tones
from elevations.views.customer import ring

AJAR_DEG = 34.0
EYE = 2.4
"""Distance of the eye in front of the window, as a multiple of the sash's longer side."""
SLIMMEST = 0.42
"""Least share of the longer side that the shorter one is drawn with: a strip would show nothing."""
VOID, VOID_EDGE = "#5d5850", "#46423c"


def ajar_views(light: Light, tone: str, width: float, height: float) -> list[View]:
    """One picture for each way in which the light opens, one of it shut where it does not; paper mm about its middle.

    Each is at most `width` by `height`, the sash that stands out included. `tone`: the finish outside.
    """
    hung = [sash for sash in light.sashes if sash.hinge_edges]
    like = hung[0].outer if hung else light.sashes[0].outer if light.sashes else light.panes[0].tight
    size = _fitted(like.outline.bounds, width * 0.72, height * 0.72)
    return [_picture(light, edge, tone, size) for edge in (hung[0].hinge_edges if hung else ("",))]


def _fitted(box: Box, width: float, height: float) -> tuple[float, float]:
    """Width and height of a sash like this one that fits the room."""
    longer = max(box.width, box.height)
    w, h = max(box.width, SLIMMEST * longer), max(box.height, SLIMMEST * longer)
    scale = min(width / w, height / h)
    return w * scale, h * scale


def _picture(light: Light, edge: str, tone: str, size: tuple[float, float]) -> View:
    width, height = size
    rim = 0.09 * max(size)
    opening = rectangle(-width / 2, -height / 2, width / 2, height / 2)
    frame = offset(opening, [-rim] * 4)
    items: list[Entity] = [
        Fill(frame, Layer.FRAME, tones.facet(tone, 0.0, 0.1), (opening,)),
        *ring(frame, 0.15, tones.edge(tone), Layer.FRAME),
        Fill(opening, Layer.WALL, VOID if edge else tones.GLASS["inside"]),
        *ring(opening, 0.25, VOID_EDGE if edge else tones.edge(tone), Layer.FRAME),
    ]
    words = f"part {light.number}, {light.words}"
    if edge:
        items += _leaf(edge, light.swing == "out", size, rim, tone)
        words = f"part {light.number} ajar, hung at its {edge}, seen from outside"
    return View(f"ajar-{light.number}-{edge or 'shut'}", words, (Group("ajar", tuple(items), words),), frame.bounds)


def _leaf(edge: str, out: bool, size: tuple[float, float], rim: float, tone: str) -> Iterator[Fill]:  # noqa: FBT001 (one way or the other)
    """The sash, turned about an edge and seen in perspective."""
    width, height = size

    def seen(x: float, y: float) -> Point:
        """A point of the shut sash, from its lower left corner, where it is seen once the sash is ajar."""
        turned = math.radians(AJAR_DEG)
        away = {"left": x, "right": width - x, "top": height - y, "bottom": y}[edge]
        near, depth = away * math.cos(turned), away * math.sin(turned) * (1 if out else -1)
        x = {"left": near, "right": width - near}.get(edge, x)
        y = {"top": height - near, "bottom": near}.get(edge, y)
        eye = EYE * max(size)
        share = eye / (eye - depth)
        return Point((x - width / 2) * share, (y - height / 2) * share)

    def quad(inset: float) -> Outline:
        corners = ((inset, inset), (width - inset, inset), (width - inset, height - inset), (inset, height - inset))
        return Outline(tuple(Corner(*seen(*corner)) for corner in corners))

    outer, inner = quad(0.0), quad(rim * 1.25)
    shade = {"left": (0.5, 0.3), "right": (-0.5, 0.3), "top": (0.0, -0.4), "bottom": (0.0, 0.8)}[edge]
    yield Fill(outer, Layer.SASH, tones.gap(tone))
    yield Fill(quad(0.18), Layer.SASH, tones.facet(tone, *(s if out else -s for s in shade)), (inner,))
    yield Fill(inner, Layer.SASH, tones.gap(tone))
    yield Fill(quad(rim * 1.25 + 0.15), Layer.HATCH, tones.GLASS["inside"])
