"""Entities elsewhere: moved, never turned or scaled."""

from __future__ import annotations

from dataclasses import replace

from elevations.drawing.entities import Dimension, Entity, Fill, Label, Leader, Stroke, Symbol
from elevations.plane import Corner, Point


def moved(item: Entity, dx: float, dy: float) -> Entity:
    """The same entity, that far to the right and up."""
    match item:
        case Label() | Symbol():
            return replace(item, at=Point(item.at.x + dx, item.at.y + dy))
        case Stroke():
            return replace(item, corners=tuple(Corner(c.x + dx, c.y + dy, c.bulge) for c in item.corners))
        case Fill():
            return replace(item, outline=item.outline.moved(dx, dy), holes=tuple(hole.moved(dx, dy) for hole in item.holes))
        case Leader():
            return replace(item, points=tuple(Point(p.x + dx, p.y + dy) for p in item.points))
        case Dimension():
            start, end = (Point(p.x + dx, p.y + dy) for p in (item.start, item.end))
            return replace(item, start=start, end=end, line_at=item.line_at + (dx if item.upright else dy))
