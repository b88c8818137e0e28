"""Frame shapes: one file a shape, each giving its keys in the spec, the frame's outline and the names of its edges."""

from __future__ import annotations

from elevations.shapes.arched import Arched
from elevations.shapes.base import Edge, Shape, Wrong
from elevations.shapes.circular import Circular
from elevations.shapes.gable import Gable
from elevations.shapes.pointed import Pointed
from elevations.shapes.raked import Raked
from elevations.shapes.rectangular import Rectangular

RECTANGULAR = Rectangular()
SHAPES: dict[str, type[Shape]] = {shape.key: shape for shape in (Raked, Arched, Pointed, Gable, Circular)}
"""The shapes that a spec can name, by key: those under `head`, and those that replace `frame`."""

__all__ = ["RECTANGULAR", "SHAPES", "Arched", "Edge", "Pointed", "Raked", "Rectangular", "Shape", "Wrong"]
