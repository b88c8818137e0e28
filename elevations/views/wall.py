"""The wall round a frame in section: leaves, lintel, plaster, board, sill, joint and fixing at one end of a cut.

Seen along the cut, `d` is the distance outwards from the frame's outer edge, `v` the depth from the frame's outer face
inwards to the room, as in `section_parts`; both true mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.catalogue.anchors import Bracket
from elevations.drawing.entities import Entity, Fill, Label, Stroke
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.geometry.fit import Site
from elevations.geometry.fit_deductions import between
from elevations.geometry.fit_fixing import Hold, packer_for
from elevations.geometry.leaves import cavity, layers
from elevations.geometry.neighbours import COUPLER, Neighbour
from elevations.plane import Box, Corner, Outline, rectangle
from elevations.spec.site import Wall
from elevations.views.cut_run import Run
from elevations.views.developed import JOINT_TONE
from elevations.views.hatch import MATERIALS, hatched
from elevations.views.sill import UPSTAND_MM, sill_profile

WALL_DRAWN_MM = 130.0
"""How much of the wall is drawn beyond the gap."""
CLOSER_MM = 40.0
STEEL_PLATE_MM = 8.0
"""A steel lintel is drawn as the plate that carries the wall."""
BED_MM = 3.0
PACKER_WIDTH_MM = 24.0
HEAD_MM, INTO_FRAME_MM, CRANK_MM = 5.0, 15.0, 10.0
"""Half a screw's head, a bracket's screw in the frame, and over what length a strap is cranked, as drawn."""
SEAL_DEPTH_MM, SKIN_MM = 6.0, 1.0
LEAST_JOINT_MM = 1.5
TAG = 2.5
"""Height of a coupler's or post's tag, mm on paper."""


@dataclass(frozen=True, slots=True)
class End:
    """One end of a cut: a frame edge and the wall beyond it."""

    run: Run
    site: Site
    wall: Wall | None
    """None where the job does not describe it."""
    side: str
    """left jamb, right jamb, head or sill."""
    sign: float
    """1 where the wall is at larger t."""
    hold: Hold | None
    """How it is fixed; None where nothing is."""
    neighbour: Neighbour | None = None
    """What other frame is joined there instead of a wall."""

    @property
    def edge(self) -> float:
        """The frame's outer edge, t as drawn."""
        return self.run.moved(self.run.bounds[0 if self.sign < 0 else -1][2])

    @property
    def stack(self) -> float:
        """Add-on, lining, sill and packers between frame and gap."""
        return sum(each.mm for each in between(self.site.fit, self.site.sill, self.side))

    @property
    def add_on(self) -> float:
        return float({"left jamb": self.site.fit.add_ons.left, "right jamb": self.site.fit.add_ons.right,
                      "head": self.site.fit.add_ons.head, "sill": self.site.fit.add_ons.sill}[self.side])

    @property
    def lap(self) -> float:
        """How far a check's outer leaf runs over the frame; 0 without one."""
        return (self.site.fit.reveal.lap or 0.0) if self.site.fit.reveal.kind == "check" and self.side != "sill" else 0.0

    @property
    def gap(self) -> float:
        """At the middle of the side, as surveyed; else what is usual."""
        fitted = self.site.fitted
        if fitted is None or self.lap:
            return packer_for(self.site, self.side, self.site.fixings)[0]
        return max(0.0, fitted.in_the_middle(self.side))

    @property
    def start(self) -> float:
        """Where the wall begins, d."""
        return self.stack + self.gap

    def box(self, v0: float, v1: float, d0: float, d1: float) -> Box:
        """A rectangle of the section on the page."""
        low, high = sorted((self.edge + self.sign * d0, self.edge + self.sign * d1))
        return self.run.box(low, v0, high, v1).bounds

    def at(self, v: float, d: float) -> Corner:
        """A place of the section on the page."""
        return self.run.corner(self.edge + self.sign * d, v)


Pieces = Iterator[tuple[str, Box]]


def masonry(end: End, beyond: float = WALL_DRAWN_MM) -> Pieces:
    """So many mm of the wall itself beyond one edge: leaves with their lintel, closer, plaster on the reveal, window board."""
    wall, depth, far = end.wall, end.run.window.system.depth, end.start + beyond
    assert wall is not None
    for material, v0, v1 in layers(wall):
        for a, b, first in _split(v0, v1, end):
            if end.side == "head" and material not in ("render", "plaster") and not (end.lap and b <= 0):
                high = STEEL_PLATE_MM if wall.carried_by == "steel" else wall.lintel.height
                top = min(far, first + high)
                yield wall.carried_by, end.box(a, b, first, top)
                if top < far:
                    yield material, end.box(a, b, top, far)
            else:
                yield material, end.box(a, b, first, far)
    inside = -wall.frame_at + wall.whole
    gap = cavity(wall)
    if gap is not None:
        yield "cavity closer", end.box(*gap, end.start, end.start + CLOSER_MM)
    if end.side != "sill" and wall.plaster and inside - wall.plaster > depth + 2:
        yield "plaster", end.box(depth + 2, inside, end.start - wall.plaster, end.start)
    if end.side == "sill" and wall.window_board is not None:
        board = wall.window_board
        yield "window board", end.box(depth + 1, inside + board.nosing, end.start - BED_MM - board.thickness, end.start - BED_MM)


def _split(v0: float, v1: float, end: End) -> list[tuple[float, float, float]]:
    """A layer as v to v and where it begins, d: before a check it runs over the frame, behind it it starts at the gap."""
    if not end.lap or v0 >= 0:
        return [(v0, v1, end.start)]
    before = (v0, min(v1, 0.0), -end.lap)
    return [before] if v1 <= 0 else [before, (0.0, v1, end.start)]


def joint(end: End) -> Pieces:
    """What fills the gap: sealant and backer at both faces, foam between."""
    depth, d0, d1 = end.run.window.system.depth, end.stack, end.start
    if end.gap < LEAST_JOINT_MM:
        return
    back = SKIN_MM + SEAL_DEPTH_MM
    thick = min(end.gap, 10.0)
    yield "foam", end.box(back + thick, depth - back, d0, d1)
    yield "sealant", end.box(SKIN_MM, back, d0, d1)
    yield "backer", end.box(back, back + thick, d0, d1)
    yield "sealant", end.box(depth - back, depth - SKIN_MM, d0, d1)
    if end.hold is not None:
        yield "packer", end.box(depth / 2 - PACKER_WIDTH_MM / 2, depth / 2 + PACKER_WIDTH_MM / 2, d0, d1)


def under_and_over(end: End) -> Pieces:
    """The add-on between frame and sill or wall, and packers under a sill."""
    depth = end.run.window.system.depth
    if end.add_on:
        yield "add-on", end.box(0.0, depth, 0.0, end.add_on)
    sill = end.site.sill
    if end.side == "sill" and sill is not None and sill.packers:
        yield "packer", end.box(depth / 2 - PACKER_WIDTH_MM / 2, depth / 2 + PACKER_WIDTH_MM / 2, end.add_on + sill.height, end.stack)


def sill_items(end: End) -> Iterator[Entity]:
    """The sill cut across."""
    sill = end.site.sill
    if end.side != "sill" or sill is None:
        return
    corners = [end.at(v, -t) for v, t in sill_profile(sill, end.run.window.system.depth, -end.add_on)]
    yield Fill(Outline(tuple(corners)), Layer.HATCH, MATERIALS["sill"].tone)
    yield Stroke(tuple(corners), Layer.SILL, closed=True, weight=VISIBLE)


def fixing_items(end: End) -> Iterator[Entity]:
    """The screw through the frame and the gap into the wall, or the bracket; nothing where nothing in the wall holds it."""
    hold = end.hold
    landing = hold.landing if hold else None
    if hold is None or landing is None or landing.at is None or hold.embedment is None:
        return
    v, tip = landing.at, end.start + hold.embedment
    if landing.bracket is None:
        yield Stroke((end.at(v, -hold.through), end.at(v, tip)), Layer.FIXING, weight=VISIBLE)
        yield _head(end, v, -hold.through)
        return
    t, depth, behind = landing.bracket.thickness, end.run.window.system.depth, end.start - landing.bracket.thickness
    upright = end.side == "sill" and end.site.sill is not None   # behind a sill it stands against the frame's inner face
    plate = _angle(end, landing.bracket, v) if upright else _strap(end, landing.bracket, v)
    corners = tuple(end.at(*place) for place in plate)
    yield Fill(Outline(corners), Layer.HATCH, MATERIALS["steel"].tone)
    yield Stroke(corners, Layer.FIXING, closed=True, weight=THIN)
    yield Stroke((end.at(v, behind), end.at(v, tip)), Layer.FIXING, weight=VISIBLE)
    yield _head(end, v, behind)
    if upright:
        face, low = _inner_face(end) + t, landing.bracket.leg / 2
        yield Stroke((end.at(face, -low), end.at(depth - INTO_FRAME_MM, -low)), Layer.FIXING, weight=VISIBLE)
    else:
        middle = depth - _leg(end, landing.bracket) / 2
        yield Stroke((end.at(middle, end.stack + t), end.at(middle, end.stack - INTO_FRAME_MM)), Layer.FIXING, weight=VISIBLE)


def _head(end: End, v: float, d: float) -> Stroke:
    return Stroke((end.at(v - HEAD_MM, d), end.at(v + HEAD_MM, d)), Layer.FIXING, weight=VISIBLE)


def _inner_face(end: End) -> float:
    """Where a bracket stands against the frame, v: behind the sill's upstand where it has one."""
    return end.run.window.system.depth + (UPSTAND_MM if end.site.sill is not None and end.site.sill.upstand else 0.0)


def _leg(end: End, bracket: Bracket) -> float:
    """What of a strap lies on the frame's back: not so much that it runs into the packer."""
    return min(bracket.leg, end.run.window.system.depth / 2 - PACKER_WIDTH_MM / 2 - 1.0)


def _angle(end: End, bracket: Bracket, at: float) -> list[tuple[float, float]]:
    """An angle with its leg up the frame's inner face and its foot on the wall: (v, d)."""
    t, face, low, foot = bracket.thickness, _inner_face(end), end.start, at + bracket.past
    return [(face, -bracket.leg), (face, low), (foot, low), (foot, low - t), (face + t, low - t), (face + t, -bracket.leg)]


def _strap(end: End, bracket: Bracket, at: float) -> list[tuple[float, float]]:
    """A strap on the frame's back, cranked over the gap and run along the wall to its screw: (v, d)."""
    t, depth, frame, wall, tip = bracket.thickness, end.run.window.system.depth, end.stack, end.start, at + bracket.past
    back, crank = depth - _leg(end, bracket), depth + CRANK_MM
    return [(back, frame), (depth, frame), (crank, wall - t), (tip, wall - t), (tip, wall), (crank, wall), (depth, frame + t), (back, frame + t)]


def _joined(end: End, neighbour: Neighbour, scale: float) -> Iterator[Entity]:
    """The coupler or post as far as this frame's half of it goes, the screw into it, and what it is."""
    system = end.run.window.system
    coupler = system.joining.coupler if neighbour.connector.kind == COUPLER else None
    depth = coupler.depth if coupler else system.depth
    box = end.box((system.depth - depth) / 2, (system.depth + depth) / 2, 0.0, neighbour.width)
    yield Fill(rectangle(*box), Layer.HATCH, JOINT_TONE)
    yield Stroke(rectangle(*box).corners, Layer.COUPLER, closed=True, weight=THIN)
    if end.hold is not None and end.hold.embedment is not None:
        yield Stroke((end.at(system.depth / 2, -end.hold.through), end.at(system.depth / 2, end.hold.embedment)), Layer.FIXING, weight=VISIBLE)
    level = end.side in ("left jamb", "right jamb")
    at = end.at(system.depth / 2, neighbour.width + 2.0 * scale)
    align = "centre" if not level else "left" if end.sign > 0 else "right"
    yield Label(neighbour.connector.tag, at.point, TAG, align=align, level="middle" if level else "base" if end.sign > 0 else "top")


def drawn(end: End, scale: float) -> tuple[list[Entity], list[str]]:
    """Everything at one end, back to front, and the names of its materials."""
    if end.neighbour is not None:
        return list(_joined(end, end.neighbour, scale)), []
    items: list[Entity] = []
    names: list[str] = []
    for parts, edge, weight in ((masonry(end), True, THIN), (joint(end), False, FINE), (under_and_over(end), True, FINE)):
        for material, box in parts:
            if box.width < 1e-6 or box.height < 1e-6:
                continue
            items += hatched(box, material, scale, edge=edge, weight=weight)
            names.append(material)
    cut = list(sill_items(end))
    items += cut
    names += ["sill"] if cut else []
    items += fixing_items(end)
    return items, list(dict.fromkeys(names))
