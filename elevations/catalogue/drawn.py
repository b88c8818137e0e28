"""Section outlines from a supplier's DXF, layer by layer.

    sections:
      frame:
        from: profiles.dxf            # beside the system file
        layers:                       # which layer holds what; profile is needed
          profile: FRAME
          chamber: FRAME-HOLES
          reinforcement: FRAME-STEEL
          bead: FRAME-BEAD
          glazing_gasket: FRAME-SEAL
          closing_gasket: FRAME-STOP
        origin: [120, 40]             # the datum at the frame's outer face, as the drawing counts; [0, 0] by default
        glass: right                  # where the glass lies in the drawing: right, left, above, below
        outside: below                # where outside lies

Taken are closed polylines with their bulges, circles, and lines, arcs and open polylines that meet end to end within
0.01 mm, in model space and in its blocks. Lengths follow the drawing's unit ($INSUNITS; mm where it has none). Beads
and gaskets are drawn where the member holds glass or a sash; for a bar, those on the far side of its centre line are
left out, as they are the mirror image of the near side's. A sash's closing gasket belongs to its body.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from elevations.catalogue.blocks import Block, shown
from elevations.catalogue.outlines import FARTHEST_MM, tidy
from elevations.catalogue.system import BARS, Part, PartKind, Section
from elevations.plane import Corner, Outline, Point
from elevations.spelling import did_you_mean
from elevations.yaml_source import raw_text

JOINED_MM = 0.01
"""Ends nearer than this meet: drawing programs write rounded coordinates."""
MOST_PIECES = 1500
MM_PER_UNIT = {0: 1.0, 1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 14: 100.0}
"""DXF reference, header variable $INSUNITS: none, inches, feet, mm, cm, m, dm."""
KIND_OF_LAYER = {
    "profile": PartKind.PROFILE,
    "chamber": PartKind.CHAMBER,
    "reinforcement": PartKind.STEEL,
    "bead": PartKind.BEAD,
    "glazing_gasket": PartKind.GASKET,
    "closing_gasket": PartKind.GASKET,
}
TOWARDS = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "above": (0.0, 1.0), "below": (0.0, -1.0)}
PLAIN = {"LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE"}
CURVES = {"SPLINE", "ELLIPSE"}


class DrawingError(Exception):
    """What a drawing lacks, in the user's words, and what would do."""

    def __init__(self, message: str, hint: str = "") -> None:
        self.message, self.hint = message, hint
        super().__init__(message)


class Piece(NamedTuple):
    """A line or arc in the drawing's own coordinates."""

    start: Point
    end: Point
    bulge: float


class Placing(NamedTuple):
    """How a drawing's coordinates become (u, v) in mm."""

    origin: Point
    u: tuple[float, float]
    v: tuple[float, float]
    mm_per_unit: float

    def outline(self, corners: list[Corner]) -> list[Corner]:
        """Corners in (u, v); where the drawing is mirrored, arcs turn the other way."""
        turn = self.u[0] * self.v[1] - self.u[1] * self.v[0]
        return [self._corner(c, turn) for c in corners]

    def _corner(self, c: Corner, turn: float) -> Corner:
        x, y = (c.x - self.origin.x) * self.mm_per_unit, (c.y - self.origin.y) * self.mm_per_unit
        return Corner(x * self.u[0] + y * self.u[1], x * self.v[0] + y * self.v[1], c.bulge * turn)


def read_drawn_section(block: Block, member: str, folder: Path, drawings: list[Path]) -> Section | None:
    """The section that a block `{from, layers, …}` describes, or None after reports; the file joins `drawings`."""
    block.only(("from", "layers", "origin", "glass", "outside"))
    before = len(block.report.problems)
    name = block.text("from", "")
    layers = _layers(block)
    directions = _directions(block)
    origin = _origin(block)
    if len(block.report.problems) > before or directions is None or origin is None:
        return None
    drawings.append(folder / name)
    try:
        drawing = _open(folder / name, name)
    except DrawingError as error:
        block.say("from", "drawing-unreadable", error.message, error.hint)
        return None
    factor = MM_PER_UNIT.get(drawing.units)
    if factor is None:
        block.say(
            "from", "drawing-unit", f"{shown(name)} is in a unit that is not known ($INSUNITS {drawing.units})",
            "save it in millimetres",
        )  # fmt: skip
        return None
    placing = Placing(origin, *directions, factor)
    found: dict[str, list[Part]] = {}
    for key, layer in layers.items():
        try:
            found[key] = [Part(KIND_OF_LAYER[key], outline) for outline in _on_layer(drawing, layer, placing)]
        except DrawingError as error:
            path = (*block.path, "layers", key)
            block.report.say(path, "drawing-outline", f"{shown(name)}: {error.message}", error.hint)
    return None if len(block.report.problems) > before else _assembled(found, member)


def _assembled(found: dict[str, list[Part]], member: str) -> Section:
    body = [part for key in ("profile", "chamber", "reinforcement") for part in found.get(key, ())]
    glazed = [part for key in ("bead", "glazing_gasket") for part in found.get(key, ())]
    hung = found.get("closing_gasket", [])
    if member in BARS:
        glazed, hung = _near_side(glazed), _near_side(hung)
    if member == "sash":
        body, hung = [*body, *hung], []
    return Section(tuple(body), tuple(glazed), tuple(hung))


def _near_side(parts: list[Part]) -> list[Part]:
    return [part for part in parts if part.outline.bounds.left + part.outline.bounds.right > 0]


def _layers(block: Block) -> dict[str, str]:
    inner = Block(block.report, (*block.path, "layers"), block.data.get("layers"), "'layers'")
    inner.only(KIND_OF_LAYER)
    if inner.data.get("profile") is None:
        inner.missing("profile", "the layer that holds the profile's outline, for example {profile: FRAME}")
    names = {key: inner.text(key, "") for key in KIND_OF_LAYER if raw_text(inner.data.get(key)) is not None}
    return {key: name for key, name in names.items() if name}


def _directions(block: Block) -> tuple[tuple[float, float], tuple[float, float]] | None:
    glass, outside = block.choice("glass", tuple(TOWARDS), "right"), block.choice("outside", tuple(TOWARDS), "below")
    u, out = TOWARDS[glass], TOWARDS[outside]
    if u[0] * out[0] + u[1] * out[1]:
        message = f"the glass cannot lie {glass} of the datum and outside {outside}: they are at right angles"
        block.say("outside", "bad-direction", message, "look at the drawing: which way is the glass, which way outside?")
        return None
    return u, (-out[0], -out[1])


def _origin(block: Block) -> Point | None:
    value = block.data.get("origin", [0.0, 0.0])
    if isinstance(value, list) and len(value) == 2:
        x, y = (block.as_number((*block.path, "origin", i), n, "origin", "as the drawing counts") for i, n in enumerate(value))
        return None if x is None or y is None else Point(x, y)
    block.say("origin", "bad-point", f"'origin' must be [x, y], not {shown(value)}", "a place in the drawing")
    return None


def _open(file: Path, name: str) -> Any:
    try:
        status = file.stat()
        return _read(file, status.st_mtime_ns, status.st_size)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "its name is no file's name"
        reason = "is not there" if isinstance(error, FileNotFoundError) else f"cannot be read: {why}"
        raise DrawingError(f"the drawing {shown(name)} {reason}", "a path is taken from the system file's folder") from None


@lru_cache(maxsize=2)
def _read(file: Path, _changed_ns: int, _size: int) -> Any:
    from ezdxf import recover
    from ezdxf.filemanagement import readfile
    from ezdxf.lldxf.const import DXFError

    faults = (DXFError, UnicodeDecodeError, KeyError, ValueError, OSError)
    try:
        return readfile(file)
    except faults as error:
        if getattr(error, "errno", None) is not None:   # the system's own error; ezdxf raises OSError for 'not a DXF'
            raise
    try:
        return recover.readfile(file)[0]
    except faults:
        raise DrawingError(f"{shown(file.name)} is not a DXF drawing that can be read", "save it as DXF R2010") from None


def _on_layer(drawing: Any, layer: str, placing: Placing) -> Iterator[Outline]:
    """Every closed outline on a layer, in (u, v). Raises DrawingError where one is open or cannot be kept exact."""
    from ezdxf.disassemble import recursive_decompose
    from ezdxf.upright import upright

    everything: Iterable[Any] = recursive_decompose(drawing.modelspace())
    entities = [e for e in everything if e.dxf.layer.casefold() == layer.casefold()]
    curves = sorted({e.dxftype() for e in entities} & CURVES)
    if curves:
        raise DrawingError(f"layer {shown(layer)} holds {curves[0].lower()}s", "redraw them with lines and arcs")
    loops: list[list[Corner]] = []
    pieces: list[Piece] = []
    for entity in entities:
        if entity.dxftype() in PLAIN:
            upright(entity)
            _take(entity, loops, pieces)
    loops.extend(_chains(pieces, placing.mm_per_unit))
    if not loops:
        near = did_you_mean(layer, [other.dxf.name for other in drawing.layers])
        raise DrawingError(f"layer {shown(layer)} has no closed outline", near or "see which layer the outline is on")
    for loop in loops:
        corners = placing.outline(loop)
        if any(not max(abs(c.x), abs(c.y)) <= FARTHEST_MM for c in corners):
            raise DrawingError(
                f"an outline on layer {shown(layer)} lies more than {FARTHEST_MM:g} mm from the origin",
                f"set 'origin' to its datum, near ({loop[0].x:.1f}, {loop[0].y:.1f}); see also the drawing's unit",
            )
        outline = tidy(corners)
        if isinstance(outline, str):
            raise DrawingError(f"an outline on layer {shown(layer)} at ({loop[0].x:.1f}, {loop[0].y:.1f}) {outline}")
        yield outline


def _take(entity: Any, loops: list[list[Corner]], pieces: list[Piece]) -> None:
    """Sort an entity into closed loops and pieces to be joined."""
    kind = entity.dxftype()
    if kind == "CIRCLE":
        c, r = entity.dxf.center, entity.dxf.radius
        loops.append([Corner(c.x + r, c.y, 1.0), Corner(c.x - r, c.y, 1.0)])
    elif kind == "LINE":
        start, end = entity.dxf.start, entity.dxf.end
        pieces.append(Piece(Point(start.x, start.y), Point(end.x, end.y), 0.0))
    elif kind == "ARC":
        c, r = entity.dxf.center, entity.dxf.radius
        first = math.radians(entity.dxf.start_angle)
        sweep = math.radians(entity.dxf.end_angle - entity.dxf.start_angle) % math.tau
        ends = [Point(c.x + r * math.cos(a), c.y + r * math.sin(a)) for a in (first, first + sweep)]
        pieces.append(Piece(ends[0], ends[1], math.tan(sweep / 4)))
    else:
        corners = _polyline(entity)
        if entity.is_closed or (len(corners) > 2 and math.dist(corners[0][:2], corners[-1][:2]) == 0):
            loops.append(corners)
        else:
            pieces.extend(Piece(a.point, b.point, a.bulge) for a, b in pairwise(corners))


def _polyline(entity: Any) -> list[Corner]:
    if entity.dxftype() == "LWPOLYLINE":
        return [Corner(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
    return [Corner(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in entity.vertices]


def _chains(pieces: list[Piece], mm_per_unit: float) -> Iterator[list[Corner]]:
    """Loops of pieces joined end to end. Raises DrawingError at the first gap."""
    if len(pieces) > MOST_PIECES:
        raise DrawingError(f"there are {len(pieces):,} loose lines and arcs", "join them into closed polylines")
    near = JOINED_MM / mm_per_unit
    left = [piece for piece in pieces if math.dist(piece.start, piece.end) > near]
    while left:
        chain = [left.pop(0)]
        while math.dist(chain[-1].end, chain[0].start) > near or len(chain) == 1:
            at, end = _nearest(chain[-1].end, left)
            back = math.dist(chain[-1].end, chain[0].start)
            gap = min(back, math.dist(chain[-1].end, (left[at].end if end else left[at].start))) if at >= 0 else back
            if at < 0 or gap > near:
                x, y = chain[-1].end
                raise DrawingError(
                    f"an outline is open: a gap of {round(gap * mm_per_unit, 3):g} mm at ({x:.2f}, {y:.2f})", "close it in the drawing"
                )
            piece = left.pop(at)
            chain.append(Piece(piece.end, piece.start, -piece.bulge) if end else piece)
        yield [Corner(piece.start.x, piece.start.y, piece.bulge) for piece in chain]


def _nearest(to: Point, pieces: list[Piece]) -> tuple[int, bool]:
    """The piece with the nearest end, and whether that is its far end; -1 where none is left."""
    ends = [(math.dist(to, point), i, end) for i, p in enumerate(pieces) for end, point in ((False, p.start), (True, p.end))]
    _, at, end = min(ends, default=(0.0, -1, False))
    return at, end
