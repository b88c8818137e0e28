"""The words and dimensions of a DXF, as a person reads them there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from ezdxf.tools.text import fast_plain_mtext

from elevations.drawing.explode import dimension_text
from elevations.plane import Point

UPRIGHT_DEG = 0.01
"""A dimension this near to upright or level is so."""
LINEAR, ALIGNED = 0, 1
"""Kinds of dimension that measure a length, the low bits of group code 70."""


@dataclass(frozen=True, slots=True)
class Text:
    """A line of words; `at` is where it is hung up, on its baseline."""

    words: str
    at: Point
    layer: str = ""


@dataclass(frozen=True, slots=True)
class DrawnDimension:
    """A length as the file has it."""

    start: Point
    end: Point
    line: Point
    """Where its line ends."""
    direction: tuple[float, float]
    """Of its line, length 1."""
    reads: str
    """What a person reads there: what was typed over it, else the text in its picture; empty where the file has neither."""

    @property
    def length(self) -> float:
        """What it measures, in the drawing's unit."""
        return abs((self.end.x - self.start.x) * self.direction[0] + (self.end.y - self.start.y) * self.direction[1])

    @property
    def upright(self) -> bool | None:
        """None where it runs aslant."""
        small = math.radians(UPRIGHT_DEG)
        return False if abs(self.direction[1]) < small else True if abs(self.direction[0]) < small else None


def text_of(entity: Any) -> Text:
    """A TEXT or MTEXT."""
    return Text(_plain(entity), _hung(entity), str(entity.dxf.layer).upper())


def _plain(text: Any) -> str:
    """Its words without codes of the format."""
    return _words(text.text) if text.dxftype() == "MTEXT" else str(text.plain_text())


def _words(coded: str) -> str:
    """Words of a text that may hold codes. A space that must not break goes first, for ezdxf takes all up to a ';' for its code."""
    return str(fast_plain_mtext(coded.replace("\\~", " ")))


def _hung(text: Any) -> Point:
    """Where a text is hung up: where its alignment says, else where it starts."""
    place = text.dxf.insert
    if text.dxftype() == "TEXT" and (text.dxf.get("halign", 0) or text.dxf.get("valign", 0)) and text.dxf.hasattr("align_point"):
        place = text.dxf.align_point
    return Point(place.x * mirror(text), place.y)


def dimension_of(entity: Any) -> Iterator[DrawnDimension]:
    """A dimension of a length; nothing for one of an angle, a radius or a point."""
    kind = entity.dxf.get("dimtype", 0) & 7
    if kind not in {LINEAR, ALIGNED}:
        return
    start, end, line = (Point(p.x, p.y) for p in (entity.dxf.defpoint2, entity.dxf.defpoint3, entity.dxf.defpoint))
    angle = math.radians(entity.dxf.get("angle", 0.0)) if kind == LINEAR else math.atan2(end.y - start.y, end.x - start.x)
    found = DrawnDimension(start, end, line, (math.cos(angle), math.sin(angle)), "")
    yield replace(found, reads=_reads(entity, found.length))


def _reads(entity: Any, length: float) -> str:
    """What stands on a dimension: '' and '<>' typed over it mean its own text, which its picture has."""
    typed = _words(entity.dxf.get("text", "")).strip()
    if typed not in {"", "<>"}:
        return typed.replace("<>", dimension_text(length))
    picture = entity.get_geometry_block() if entity.dxf.hasattr("geometry") else None
    return next((_plain(part) for part in picture or () if part.dxftype() in {"TEXT", "MTEXT"}), "")


def mirror(entity: Any) -> float:
    """-1 where the entity is drawn on the back of the plane, as programs leave it after mirroring: its x and bulges turn round."""
    return -1.0 if entity.dxf.get("extrusion", (0.0, 0.0, 1.0))[2] < 0 else 1.0
