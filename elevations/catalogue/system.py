"""A profile system: the stations that sizes are worked out from, and the section outlines that are drawn.

Stations run from a datum towards the glass, mm: the outer edge of a frame or sash, the centre line of a mullion or
transom. Outlines are in u (from the datum) and v (from the frame's outer face, inwards to the room), mm.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from elevations.catalogue.anchors import FrameFixings
from elevations.catalogue.drainage import Slots
from elevations.catalogue.glazing_bars import GlazingBarFigures
from elevations.catalogue.hardware import HardwareItem, Reinforcement
from elevations.catalogue.joining import Joining
from elevations.catalogue.opening_figures import FLOATING_STILE, OpeningFigures
from elevations.catalogue.strips import Strips
from elevations.catalogue.weeps import Weeps
from elevations.plane import Outline

BARS = ("mullion", "transom")
MEMBERS = ("frame", *BARS, "sash")
"""The members that every system has."""


class PartKind(StrEnum):
    """What a closed shape in a section is."""

    PROFILE = "profile"
    CHAMBER = "chamber"
    """A hole in the profile."""
    GASKET = "gasket"
    BEAD = "bead"
    STEEL = "reinforcement"


@dataclass(frozen=True, slots=True)
class Part:
    """One closed shape of a section, in (u, v)."""

    kind: PartKind
    outline: Outline


@dataclass(frozen=True, slots=True)
class Section:
    """A member cut across.

    `body` is always there. `glazed` is added on each side that holds glass directly (bead, glazing gaskets), `hung`
    on each side that a sash closes against (its closing gasket). For a bar, `body` spans both sides of u = 0 and
    `glazed` and `hung` are given for the side of positive u; the other side is their mirror image.
    """

    body: tuple[Part, ...]
    glazed: tuple[Part, ...] = ()
    hung: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class Profile:
    """Figures of one member of a system, mm from its datum."""

    name: str
    """frame, mullion, transom or sash: the key in the system file."""
    sight: float
    rebate: float
    sash: float | None = None
    """To the outer edge of a sash hung in it; None on a sash."""
    joint: float = 0.0
    """What a bar runs past the rebate line of the member it meets, each end."""
    glass: float | None = None
    """v of the outer face of a unit glazed directly in this member; None where the system does not say."""
    bead: float | None = None
    """To the visible edge of the glazing bead where it meets the profile; None where the system does not say."""
    kg_per_m: float | None = None
    """Of the profile, without beads and reinforcement."""
    section: Section | None = None
    """None where the system gives no outline: sections show a plain box."""
    stock: str = ""
    """Name of the bars that it is cut from, where others are cut from them too; empty: see `System.cut_from`."""


@dataclass(frozen=True, slots=True)
class System:
    """A whole profile system."""

    name: str
    title: str
    material: str
    depth: float
    swing: str
    sash_face: str
    """flush (the sash closes level with the frame) or lipped (it laps over the frame's face)."""
    bead_side: str
    """Which face the glazing beads of a directly glazed light are on when built as drawn: outside or inside."""
    edge_clearance: float
    """Play between the edge of the glass and the rebate platform, each side."""
    thickness: tuple[float, ...]
    """Unit thicknesses that the system can hold, mm."""
    profiles: dict[str, Profile] = field(repr=False)
    """frame, mullion, transom, sash."""
    bar_length: float = 6000.0
    weld_allowance: float = 0.0
    sash_bead_side: str = "inside"
    """Which face the beads of a sash are on when built as drawn: outside or inside."""
    demonstration: bool = False
    """True for the built-in systems, whose figures are invented: every sheet says so."""
    hardware: tuple[HardwareItem, ...] = ()
    """In the order of preference; empty where the system does not say."""
    reinforcement: Reinforcement | None = None
    drainage: Slots | None = None
    """Slots at the bottom of rebates."""
    pressure_holes: Slots | None = None
    """Holes at the top of rebates, to equalise pressure."""
    u_f_w_m2k: dict[str, float] = field(default_factory=dict, repr=False)
    """Declared Uf by member; '+sash' for the same member with a sash beside it. Empty where the system declares none."""
    modulus_n_mm2: float | None = None
    """Declared modulus of elasticity of its material; None: the usual one, where there is one."""
    glazing_bars: dict[str, GlazingBarFigures] = field(default_factory=dict, repr=False)
    """By kind, on-face and in-unit: those that the system offers."""
    ways: OpeningFigures = field(default_factory=OpeningFigures, repr=False)
    """Which ways of opening it is made for, and the figures of those that need some."""
    frame_fixings: FrameFixings = field(default_factory=FrameFixings)
    """Its own figures for where frames are fixed to the wall."""
    weeps: Weeps = field(default_factory=Weeps)
    """Where its sills are slotted."""
    joining: Joining = field(default_factory=Joining, repr=False)
    """Couplers and bay posts; empty where the system gives none."""
    strips: Strips = field(default_factory=Strips, repr=False)
    """Frame extensions and sills."""
    bead_kg_per_m: float | None = None
    """Of a glazing bead; None: from its outline, where the system gives one."""
    origin: str = ""
    """The file it was read from, as the user named it, or 'built in'."""

    def cut_from(self, name: str) -> tuple[str, tuple[str, ...]]:
        """What the bars are called that a member is cut from, and every member that is: 'mullion and transom'.

        Members come from the same bars where the system gives them the same `stock`; where it gives none, a mullion and a
        transom with the same figures and outline do, for they are one profile.
        """
        own = self.profile(name)
        if own.stock:
            return own.stock, tuple(key for key, other in self.profiles.items() if other.stock == own.stock)
        alike = tuple(key for key in BARS if replace(self.profiles[key], name="") == replace(own, name="")) if name in BARS else (name,)
        return " and ".join(alike), alike

    def profile(self, name: str) -> Profile:
        """The figures of a member by its profile: one of `profiles`, or the floating stile between a pair of sashes."""
        pair = self.ways.pair
        if name == FLOATING_STILE and pair is not None:
            section = Section(pair.section) if pair.section else None
            return Profile(name, pair.sight, 0.0, kg_per_m=pair.kg_per_m, section=section)
        return self.profiles[name]
