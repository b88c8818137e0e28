"""Bounds of what is drawn, annotation included: how views keep clear of each other and tests find what collides."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import reduce

from elevations.drawing.entities import Dimension, Entity, Fill, Label, Leader, Stroke, Symbol
from elevations.drawing.explode import explode_dimension, explode_leader, label_box
from elevations.drawing.symbols import SYMBOLS
from elevations.plane import Box, Outline


def bounds_of(entity: Entity, scale: float) -> Box:
    """The box around an entity, mm in the view, text with its slack, line widths left out."""
    match entity:
        case Stroke():
            return _stroke_bounds(entity)
        case Fill():
            return entity.outline.bounds
        case Label():
            return label_box(entity, scale)
        case Dimension():
            return bounds_of_all(explode_dimension(entity, scale), scale)
        case Leader():
            return bounds_of_all(explode_leader(entity, scale), scale)
        case Symbol():
            reach = _REACH[entity.name] * scale
            return Box(entity.at.x, entity.at.y, entity.at.x, entity.at.y).grown(reach)


def bounds_of_all(entities: Iterable[Entity], scale: float) -> Box:
    """The box around all of them. Raises TypeError where there are none."""
    return reduce(Box.joined, (bounds_of(entity, scale) for entity in entities))


def text_boxes(entities: Iterable[Entity], scale: float) -> list[tuple[str, Box]]:
    """Each text among them, those of dimensions and leaders too, with its box, mm in the view."""
    found = []
    for entity in entities:
        parts: Iterable[Entity] = (entity,)
        if isinstance(entity, Dimension):
            parts = explode_dimension(entity, scale)
        elif isinstance(entity, Leader):
            parts = explode_leader(entity, scale)
        found += [(part.text, label_box(part, scale)) for part in parts if isinstance(part, Label)]
    return found


def _stroke_bounds(stroke: Stroke) -> Box:
    corners = stroke.corners
    if not stroke.closed:
        # An open stroke's bulge counts up to its last corner; the way back must not bend.
        corners = (*corners[:-1], corners[-1]._replace(bulge=0.0))
    return Outline(corners).bounds


def _reach(parts: tuple[Stroke | Fill, ...]) -> float:
    """How far a symbol reaches from its origin, whichever way it is turned, mm on paper."""
    boxes = [bounds_of(part, 1.0) for part in parts]
    return max(math.hypot(x, y) for box in boxes for x in (box.left, box.right) for y in (box.bottom, box.top))


_REACH = {name: _reach(parts) for name, parts in SYMBOLS.items()}
