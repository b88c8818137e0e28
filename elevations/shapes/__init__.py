"""Frame shapes: one file a shape, each giving the frame's outline and the names of its edges."""

from __future__ import annotations

from elevations.shapes.rectangular import Rectangular

RECTANGULAR = Rectangular()
