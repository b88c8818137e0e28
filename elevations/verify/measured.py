"""What a DXF measures and says; also one whose polylines a CAD program opened, exploded or put into a block."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from itertools import pairwise
from pathlib import Path
from typing import Any

from ezdxf import recover
from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError
from ezdxf.math import bulge_from_arc_angle

from elevations.drawing.layers import Layer
from elevations.errors import Problem, SpecError
from elevations.plane import Corner, Outline, Point
from elevations.verify.annotation import DrawnDimension, Text, dimension_of, mirror, text_of
from elevations.verify.loops import Edge, closed_outline, joined
from elevations.verify.sections import SECTION_LAYERS

MM_A_UNIT = {0: 1.0, 1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 14: 100.0}
"""$INSUNITS of the DXF reference: none (taken as mm), inch, foot, mm, cm, m, dm."""
DEEPEST = 4
"""Blocks within blocks."""
LAYERS = (Layer.GLASS, Layer.OPENING, *SECTION_LAYERS)


@dataclass(slots=True)
class Measured:
    """A drawing by what it measures, in its own unit."""

    unit_mm: float = 1.0
    """Of that unit, by the file's header."""

    outlines: dict[Layer, list[Outline]] = field(default_factory=lambda: {layer: [] for layer in LAYERS})
    """Closed ones, counter-clockwise."""
    edges: dict[Layer, list[Edge]] = field(default_factory=lambda: {layer: [] for layer in LAYERS})
    """What closes to nothing."""
    hidden: tuple[Layer, ...] = ()
    """Layers that are frozen or switched off: what lies on them is measured, and nobody sees it."""
    fixings: list[Point] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    dimensions: list[DrawnDimension] = field(default_factory=list)

    def placed(self, dx: float, dy: float, unit_mm: float = 1.0) -> Measured:
        """The same in mm, a unit being `unit_mm`, then moved."""
        return Measured(
            1.0,
            {layer: [_outline_at(outline, unit_mm, dx, dy) for outline in there] for layer, there in self.outlines.items()},
            {
                layer: [Edge(_at(edge.start, unit_mm, dx, dy), _at(edge.end, unit_mm, dx, dy), edge.bulge) for edge in there]
                for layer, there in self.edges.items()
            },
            self.hidden,
            [_at(at, unit_mm, dx, dy) for at in self.fixings],
            [Text(text.words, _at(text.at, unit_mm, dx, dy), text.layer) for text in self.texts],
            [_dimension_at(dim, unit_mm, dx, dy) for dim in self.dimensions],
        )


def _at(point: Point, unit_mm: float, dx: float, dy: float) -> Point:
    return Point(point.x * unit_mm + dx, point.y * unit_mm + dy)


def _dimension_at(dim: DrawnDimension, unit_mm: float, dx: float, dy: float) -> DrawnDimension:
    return replace(dim, start=_at(dim.start, unit_mm, dx, dy), end=_at(dim.end, unit_mm, dx, dy), line=_at(dim.line, unit_mm, dx, dy))


def _outline_at(outline: Outline, unit_mm: float, dx: float, dy: float) -> Outline:
    return Outline(tuple(Corner(c.x * unit_mm + dx, c.y * unit_mm + dy, c.bulge) for c in outline.corners))


def measured(file: str) -> Measured:
    """What the DXF file measures. Raises SpecError where it can't be read, in words."""
    document = _document(file)
    number = document.header.get("$INSUNITS", 0)
    if number not in MM_A_UNIT:
        raise SpecError([Problem("drawing-unit", f"{file} says that it is drawn in unit number {number}, not in mm", "save it in millimetres")])
    found = Measured(MM_A_UNIT[number], hidden=tuple(_hidden(document)))
    loose: dict[Layer, list[Edge]] = {layer: [] for layer in LAYERS}
    for entity in _entities(document.modelspace(), 0):
        _take(entity, found, loose)
    for layer, edges in loose.items():
        closed, rest = joined(edges)
        found.outlines[layer] += closed
        found.edges[layer] += rest
    return found


def _hidden(document: Any) -> Iterator[Layer]:
    for layer in (*LAYERS, Layer.FIXING):
        if document.layers.has_entry(layer) and ((own := document.layers.get(layer)).is_frozen() or own.is_off()):
            yield layer


def _document(file: str) -> Any:
    path = Path(file)
    if not path.is_file():
        raise SpecError([Problem("no-drawing", f"there is no file {file}", "name the DXF to measure")])
    if path.read_bytes()[:4] == b"AC10":
        raise SpecError([Problem("not-dxf", f"{file} is a DWG file", "save it as DXF in your CAD program")])
    try:
        return readfile(file)
    except (DXFError, UnicodeDecodeError, ValueError, OSError):
        pass
    try:
        document = recover.readfile(file)[0]
    except (DXFError, UnicodeDecodeError, ValueError, OSError, KeyError, IndexError, TypeError, AttributeError):
        document = None
    # What is mended from a file that is no drawing at all is an empty drawing.
    if document is None or not len(document.modelspace()):
        raise SpecError([Problem("not-dxf", f"{file} can't be read as a DXF drawing", "open it in your CAD program and save it as DXF")])
    return document


def _entities(space: Iterable[Any], depth: int) -> Iterator[Any]:
    """Entities of the space, those in blocks too, but not those of fixing signs."""
    for entity in space:
        if entity.dxftype() == "INSERT" and _layer(entity) != Layer.FIXING and depth < DEEPEST:
            yield from _entities(entity.virtual_entities(), depth + 1)
        else:
            yield entity


def _layer(entity: Any) -> str:
    return str(entity.dxf.layer).upper()


def _take(entity: Any, found: Measured, loose: dict[Layer, list[Edge]]) -> None:
    kind, name = entity.dxftype(), _layer(entity)
    if kind == "INSERT" and name == Layer.FIXING:
        found.fixings.append(Point(entity.dxf.insert.x * mirror(entity), entity.dxf.insert.y))
    elif kind in {"TEXT", "MTEXT"}:
        found.texts.append(text_of(entity))
    elif kind == "DIMENSION":
        found.dimensions += dimension_of(entity)
    elif name in set(LAYERS):
        layer = Layer(name)
        corners, closed = _corners(entity)
        outline = closed_outline(corners, closed=closed)
        if outline:
            found.outlines[layer].append(outline)
        else:
            loose[layer] += [Edge(a.point, b.point, a.bulge) for a, b in pairwise(corners)]


def _corners(entity: Any) -> tuple[list[Corner], bool]:
    """Corners with bulges, and whether the last joins the first; none for what has no outline."""
    kind, turned = entity.dxftype(), mirror(entity)
    if kind == "LWPOLYLINE":
        return [Corner(float(x * turned), float(y), float(b * turned)) for x, y, b in entity.get_points("xyb")], bool(entity.closed)
    if kind == "POLYLINE" and entity.is_2d_polyline:
        points = [Corner(v.dxf.location.x * turned, v.dxf.location.y, v.dxf.get("bulge", 0.0) * turned) for v in entity.vertices]
        return points, bool(entity.is_closed)
    if kind == "LINE":
        return [Corner(p.x, p.y) for p in (entity.dxf.start, entity.dxf.end)], False
    if kind == "ARC":
        sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360.0)
        start, end = entity.start_point, entity.end_point
        return [Corner(start.x, start.y, bulge_from_arc_angle(sweep) * turned), Corner(end.x, end.y)], False
    if kind == "CIRCLE":
        x, y, radius = entity.dxf.center.x * turned, entity.dxf.center.y, entity.dxf.radius
        return [Corner(x + radius, y, 1.0), Corner(x - radius, y, 1.0)], True
    return [], False
