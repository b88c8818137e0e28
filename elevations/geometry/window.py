"""What will be made: frozen results of the geometry core, every default filled, every size with its working.

Coordinates are mm with the origin at the bottom left outer corner of the frame, x right, y up, seen from outside.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from elevations.catalogue.system import System
from elevations.errors import Finding, Path
from elevations.geometry.along import mitre_angles
from elevations.geometry.bar_end import BarEnd
from elevations.geometry.drain import Drain
from elevations.geometry.fit import Site
from elevations.geometry.neighbours import Neighbour
from elevations.geometry.region import Region
from elevations.later import Later
from elevations.openings.base import STILL, Leaf
from elevations.plane import Outline, Point
from elevations.shapes import RECTANGULAR, Shape
from elevations.spec.model import Finish, Glass
from elevations.spec.model import Light as LightSpec
from elevations.working import Working


@dataclass(frozen=True, slots=True)
class GlazingBar:
    """One length of glazing bar on or in a pane; on the faces of the glass there is one on each, alike."""

    tag: str
    """B1, B2 … pane by pane."""
    pane: str
    """Tag of its pane."""
    light: int
    kind: str
    """on-face or in-unit."""
    width: float
    """As seen, mm."""
    depth: float
    """Out from the face of the glass, or between the panes, mm."""
    upright: bool
    centre: Working | None
    """Distance of its centre line from the frame's left (upright bars) or top (level ones); None of a sloping or bent one."""
    face: Outline
    """What it covers of the visible glass."""
    length: Working
    """Visible length over the longest points; what goes into a spacer or under a bead is for whoever makes the unit."""
    ends: str
    """square, cut to the sight line, mitred, or bent and mitred."""
    path: Path
    """Of the light's `bars` in the spec."""


@dataclass(frozen=True, slots=True)
class Pane:
    """One piece of glass, cut size."""

    tag: str
    """G1, G2 … in reading order; 'W1-G1' is `Window.mark` + '-' + tag."""
    light: int
    make_up: Glass
    glass: str
    """The make-up's name in the job."""
    cut: Region
    sight: Region
    tight: Region
    """The rebate platform that the glass edge stands off from."""
    holder: str
    """What it is glazed in: 'sash' or 'frame' (directly, in the frame and bars)."""
    bars: tuple[GlazingBar, ...] = ()
    """On it or in it: uprights from the left, then levels from the top and from the left."""
    small_panes: tuple[Outline, ...] = ()
    """What of its visible glass lies between the bars; inside a border, not the margin round it. Empty without bars."""

    @property
    def width(self) -> Working:
        """Cut width: whole mm but for shaped panes that can't be whole, which `whole_mm` rounds down where they leave the core."""
        return self.cut.width

    @property
    def height(self) -> Working:
        return self.cut.height

    @property
    def shaped(self) -> bool:
        """True where it is no upright rectangle: its width and height are those of its bounding box."""
        return not self.cut.outline.is_box

    @property
    def area_m2(self) -> float:
        """Of the outline that is cut, which is in whole mm: see `in_whole_mm`."""
        return self.cut.outline.area / 1e6

    @property
    def mass_kg(self) -> float:
        """2.5 kg for each m2 and mm of glass, cavities excluded."""
        return GLASS_KG_PER_M2_MM * sum(self.make_up.layers[::2]) * self.area_m2


GLASS_KG_PER_M2_MM = 2.5   # 2,500 kg/m3 for soda-lime glass, EN 572-1 (from memory, not seen)


@dataclass(frozen=True, slots=True)
class Sash:
    """A frame that holds glass and hangs in the window's frame, or a dummy that does not open."""

    tag: str
    """S1, S2 … in reading order."""
    light: int
    outer: Region
    sight: Region
    """Edges: where its glass begins to be visible."""
    rails: Later[tuple[Member, ...]]
    """Its members, made when they are asked for: `members`."""
    dummy: bool
    hinge_edges: tuple[str, ...]
    """left, right, top, bottom: where it turns; empty for a dummy."""
    leaf: Leaf = STILL
    """How it moves."""
    stile: Member | None = None
    """The floating stile that it carries, of a pair."""

    @property
    def members(self) -> tuple[Member, ...]:
        """Its rails and stiles."""
        return self.rails()


@dataclass(frozen=True, slots=True)
class Light:
    """One light of the window."""

    number: int
    """From 1, in reading order, which is the order of the spec, depth first."""
    path: Path
    """Its entry in the spec."""
    spec: LightSpec
    region: Region
    """Between the datum lines: frame edge and bar centre lines."""
    opening: str
    """The key of its opening type in `elevations.openings.OPENINGS`."""
    hinge: str | None
    swing: str
    """out or in."""
    fanlight: bool
    """Over a transom, up to the head, and no higher than what is below it."""
    words: str
    """'side-hung, hinges left, opens out'."""
    sashes: tuple[Sash, ...]
    panes: tuple[Pane, ...]


@dataclass(frozen=True, slots=True)
class Member:
    """A length of profile."""

    tag: str
    """head, sill, left jamb, right jamb; M1, T1; 'S1 top rail', 'S1 left stile' …"""
    profile: str
    """frame, mullion, transom or sash."""
    outer: tuple[Point, Point]
    """Ends along its datum: outer edge of a frame or sash member, centre line of a bar."""
    face: Outline
    """What it covers in the elevation, mitred at its corners or cut against what it meets."""
    length: Working
    """Cut length over the longest points, weld allowance included; of a bent member along its outer edge."""
    path: Path

    @property
    def end_angles(self) -> tuple[float, float]:
        """Between its length (an arc's tangent) and the cut at each end of `outer`, degrees to 0.1: 45 at a square mitre, 90 square."""
        a, b, c, d = self.face.corners
        return mitre_angles(a, b, c, d)


@dataclass(frozen=True, slots=True)
class Bar(Member):
    """A mullion or transom."""

    centre: Working
    """Distance of the centre line from the frame's left outer edge (mullion) or top outer edge (transom)."""
    upright: bool
    meets: tuple[str, str]
    """Tags of the members that its ends join: bottom and top of a mullion, left and right of a transom."""
    within: Region
    """What it divides."""
    ends: tuple[BarEnd, BarEnd]
    """How it is cut at the bottom and top of a mullion, left and right of a transom."""
    reach: tuple[float, float]
    """Lowest and highest y of the cut piece (mullion), or x (transom), joints included: its longest points, mm."""
    edge_lengths: tuple[float, float]
    """Cut length along its left and right edge (mullion) or bottom and top edge (transom), which lie at its sight lines, mm."""

    @property
    def end_angles(self) -> tuple[float, float]:
        """See `Member`; of both `ends`."""
        return self.ends[0].angle, self.ends[1].angle


@dataclass(frozen=True, slots=True)
class FixingPoint:
    """Where a fixing goes through the frame into the wall."""

    tag: str
    """F1, F2 …: left jamb from the top, head from the left, right jamb from the top, sill from the left."""
    side: str
    """Tag of the frame member: left jamb, head, right jamb, sill; of another shape left head, ring upper …"""
    at: Point
    """On the outer edge of the frame."""
    along: Working
    """Distance along the outer edge of its member: from the upper end on jambs, from the left on the others."""
    kind: str
    """corner or intermediate."""
    measured_from: str
    """The end that `along` starts from: left, or the upper end of a jamb as its shape calls it: top, springing, eaves."""
    side_length: float
    """Of the outer edge of its member, mm."""
    inward: Point
    """Direction of length 1 from the outer edge into the frame."""


@dataclass(frozen=True, slots=True)
class Window:
    """A resolved window: all that views, schedules and checks read."""

    mark: str
    path: Path
    location: str
    system: System
    reversed: bool
    """True where the profiles are built inside out, because the lights swing the other way than the system's own."""
    finish: Finish
    width: Working
    height: Working
    frame: Region
    """The outer edge of the frame."""
    frame_members: Later[tuple[Member, ...]]
    """Made when they are asked for: `members`."""
    bars: tuple[Bar, ...]
    """In the order of the spec, depth first; M1 … and T1 … are numbered separately."""
    lights: tuple[Light, ...]
    fixed: Later[tuple[tuple[FixingPoint, ...], tuple[Finding, ...]]]
    """Made when they are asked for: `fixings` and `findings`."""
    site_findings: tuple[Finding, ...] = ()
    floor_to_opening: float | None = None
    notes: tuple[str, ...] = field(default=())
    site: Site | None = None
    """How it stands in its wall; None where the job says nothing of that."""
    shape: Shape = RECTANGULAR
    neighbours: tuple[Neighbour, ...] = ()
    """Its sides that are joined to another window, with no wall there."""
    fixing_findings: Later[tuple[Finding, ...]] | None = None
    """Made when they are asked for: of how the frame is held and what is in a fixing's way; None where nothing says."""
    drained: Later[tuple[tuple[Drain, ...], tuple[Finding, ...]]] | None = None
    """Made when they are asked for: `drains` and their findings; None where the system has no rule for any."""

    @property
    def members(self) -> tuple[Member, ...]:
        """Frame members: left jamb, head (of several parts from the left), right jamb, sill."""
        return self.frame_members()

    @property
    def fixings(self) -> tuple[FixingPoint, ...]:
        """Fixing points, in the order of their tags."""
        return self.fixed()[0]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What of its rules the window does not meet: first of its site, then of its fixings, then of its drainage."""
        of_fixings = self.fixing_findings() if self.fixing_findings else ()
        return (*self.site_findings, *self.fixed()[1], *of_fixings, *(self.drained()[1] if self.drained else ()))

    @property
    def drains(self) -> tuple[Drain, ...]:
        """Slots and holes that drain its rebates and let air into them, rebate by rebate."""
        return self.drained()[0] if self.drained else ()

    @property
    def panes(self) -> tuple[Pane, ...]:
        """Every pane, in the order of its tags."""
        return tuple(pane for light in self.lights for pane in light.panes)

    @property
    def sashes(self) -> tuple[Sash, ...]:
        """Every sash, in the order of its tags."""
        return tuple(sash for light in self.lights for sash in light.sashes)


WHOLE_MM = 1e-6


def whole_mm(length: float) -> int:
    """Rounded down to a whole millimetre, as cut sizes leave the core; forgives float noise of a millionth."""
    return math.floor(length + WHOLE_MM)
