"""The job as it is written: one class a block of the YAML file, its keys, their ranges and their help texts.

The classes are pydantic models and live in `spec` alone with the code that builds them; later stages read their
fields. All lengths are mm. Whatever needs more than one key to judge is in `validate`.
"""

from __future__ import annotations

from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from elevations.shapes import Shape
from elevations.spec.block import Block
from elevations.spec.building import LEAST_VENT_MM2, Building, GlassFacts, LightFacts, WindowFacts
from elevations.spec.coating import Coatings, LowE
from elevations.spec.fields import Date, Mark, Switch, Text, length, number
from elevations.spec.glazing_bars import GlazingBars
from elevations.spec.joined import JoinedFrames
from elevations.spec.shape import CIRCULAR, HEAD
from elevations.spec.site import Bracket, Fit, FrameSide, Opening, Screw, Sill, Wall
from elevations.spec.workshop import Workshop

BAR_SPACINGS = ("equal-centres", "equal-sight", "equal-glass")
BarSpacing = Literal["equal-centres", "equal-sight", "equal-glass"]
PaneName = Literal["outer", "middle", "inner"]

FRAME_WIDTH_MM = (200, 6000)
FRAME_HEIGHT_MM = (200, 4000)
BarPosition = Annotated[float, length(20, 6000)]


class JobInfo(Block):
    """Who and what the job is for: the title block's text."""

    reference: Text = Field("", description="The job's number or name in your books.", examples=["QL-07"])
    site: Text = Field("", description="The building or place.", examples=["Quillback Lock Cottage"])
    client: Text = Field("", description="Who the job is for.", examples=["Quillback Lock Trust"])
    surveyed: Date = Field("", description="Day of the survey, year-month-day.", examples=["2026-10-14"])
    issued: Date = Field("", description="Day of issue for the title block, year-month-day.", examples=["2026-10-21"])
    revision: Text = Field("", description="Revision of the drawings.", examples=["B"])
    drawn_by: Text = Field("", description="Who drew it.", examples=["R. Amory"])
    checked_by: Text = Field("", description="Who checked it.", examples=["T. Okell"])


class Glass(GlassFacts):
    """A sealed unit or single pane, outer pane first: 4/20/4 is two 4 mm panes 20 mm apart."""

    make_up: Text = Field(
        description="Thickness of pane, cavity, pane … in mm from outside in, parted by '/'.", examples=["4/20/4"]
    )
    gas: Text = Field("", description="Gas in the cavities; for air, argon and krypton heat is worked out.", examples=["argon"])
    low_e: Coatings | None = Field(
        None, description="Low-emissivity coating, or a list of several.", examples=["{face: 3, emissivity: 0.03}"]
    )
    spacer: Text = Field("", description="Spacer bar; heat is worked out for aluminium, steel and warm-edge.", examples=["warm-edge"])
    obscure: Literal["outer", "inner"] | None = Field(
        None, description="The pane that is obscured (patterned or etched).", examples=["outer"]
    )
    toughened: tuple[PaneName, ...] = Field(
        (), description="The panes that are toughened safety glass.", examples=["[outer, inner]"]
    )
    laminated: tuple[PaneName, ...] = Field((), description="The panes that are laminated.", examples=["[inner]"])

    @property
    def coatings(self) -> tuple[LowE, ...]:
        """Its low-emissivity coatings; none where `low_e` is left out."""
        return self.low_e if isinstance(self.low_e, tuple) else (self.low_e,) if self.low_e else ()

    @cached_property
    def layers(self) -> tuple[float, ...]:
        """Thickness of pane, cavity, pane … from outside, mm."""
        return tuple(float(part) for part in self.make_up.split("/"))

    @cached_property
    def thickness(self) -> float:
        """Whole unit, mm: 28 for 4/20/4."""
        return sum(self.layers)


class Finish(Block):
    """Colour codes outside and inside."""

    outside: Text = Field("", description="Colour outside, by its code.", examples=["RAL 7038"])
    inside: Text = Field("", description="Colour inside, by its code.", examples=["RAL 9016"])


class Fixings(Block):
    """Where the frame is fixed to the wall."""

    corner: Annotated[float, length(50, 500)] = Field(
        150, description="From each outer corner of the frame to the first fixing, mm.", examples=[150]
    )
    spacing: Annotated[float, length(100, 1500)] = Field(
        600, description="Greatest distance from one fixing to the next, mm.", examples=[600]
    )
    clear_of_bars: Annotated[float, length(0, 500)] = Field(
        150, description="Least distance from the centre line of a mullion or transom, mm.", examples=[150]
    )
    sides: tuple[FrameSide, ...] = Field(
        ("left", "right", "head", "sill"),
        description="The sides that are fixed, seen from outside.",
        examples=["[left, right, head]"],
    )
    screw: Screw = Field(Screw(), description="The fixing itself, as its maker gives it.", examples=["{embedment: 60, wall_drill: 6}"])
    bracket: Bracket = Field(Bracket(), description="Brackets and straps, where no screw goes through the frame.", examples=["{sides: [left, right], reach: 120}"])


class Frame(Block):
    """Overall manufacturing size of the frame, sill not included."""

    width: Annotated[float, length(*FRAME_WIDTH_MM)] = Field(description="Overall width, mm.", examples=[1200])
    height: Annotated[float, length(*FRAME_HEIGHT_MM)] = Field(
        description="Overall height to the highest point, mm; a raked head gives it by itself.", examples=[1050]
    )


FRAME_FROM_OPENING = Frame.model_construct(width=0.0, height=0.0)
"""Stands in for `frame` where a window gives its opening alone: the geometry works the size out, for it needs the system."""


class Room(Block):
    """The room behind the window."""

    use: Text = Field("", description="What the room is used for: bedroom, kitchen, bathroom, landing … as the rules of the checks know it.", examples=["kitchen"])
    floor_area: Annotated[float, number(0.5, 500, "m2")] | None = Field(
        None, description="Floor area in m2, for ventilation.", examples=[11.5]
    )
    exit: Literal["hall", "protected-stair", "through-room"] | None = Field(
        None,
        description="The way out of the room: a hall that leads to a door to the outside, a stair protected from fire, or another room.",
        examples=["hall"],
    )


class Light(LightFacts):
    """One light: a pane that is fixed or that opens."""

    light: Text = Field(description="How the light opens.", examples=["fixed"])
    hinge: Literal["left", "right"] | None = Field(
        None, description="The side its hinges are on, seen from outside, whichever way it swings.", examples=["left"]
    )
    swing: Literal["out", "in"] | None = Field(
        None, description="Which way it swings; left out, the profile system's own way.", examples=["out"]
    )
    glass: Text | None = Field(None, description="Its make-up, by name; left out, the window's.", examples=["safe"])
    sash: Literal["dummy"] | None = Field(
        None,
        description="'dummy' on a fixed light: a sash that does not open, so that sight lines match.",
        examples=["dummy"],
    )
    escape: Switch = Field(default=False, description="Meant as a way of escape.", examples=[True])
    restrictor: Switch = Field(default=False, description="Fitted with an opening restrictor.", examples=[True])
    handle_height: Annotated[float, length(50, 3500)] | None = Field(
        None, description="From the bottom of the light's sash up to the handle's centre, mm.", examples=[500]
    )
    vent: Annotated[float, number(0, 100_000, "mm2", seldom_below=LEAST_VENT_MM2)] | None = Field(
        None, description="Equivalent area of its background ventilator, mm2; 0 where it has none.", examples=[4000]
    )
    leads: Literal["left", "right", "top", "bottom"] | None = Field(
        None,
        description="Which part leads, seen from outside: the sash of a pair that opens first, the side of a vertical pivot that goes out, "
        "the only sash that slides.",
        examples=["left"],
    )
    bars: GlazingBars | None = Field(
        None, description="Glazing bars that divide its glass into smaller panes.", examples=["{columns: 2, rows: 3}"]
    )


def _entry_kind(entry: Any) -> str:
    if isinstance(entry, dict):
        return "division" if "light" not in entry and entry.keys() & {"lights", "mullions", "transoms"} else "light"
    return "division" if isinstance(entry, Division) else "light"


def _bars_kind(bars: Any) -> str:
    return "spacing" if isinstance(bars, str) else "positions"


Bars = Annotated[
    Annotated[tuple[BarPosition, ...], Tag("positions")] | Annotated[BarSpacing, Tag("spacing")],
    Discriminator(_bars_kind),
]


class Division(Block):
    """A window or part of one, divided by mullions (left to right) or transoms (top to bottom)."""

    mullions: Bars | None = Field(
        None,
        description="Centre lines of the mullions in mm from the frame's left outer edge, seen from outside; "
        "or equal-centres, equal-sight or equal-glass.",
        examples=["[600]"],
    )
    transoms: Bars | None = Field(
        None,
        description="Centre lines of the transoms in mm from the frame's top outer edge down; "
        "or equal-centres, equal-sight or equal-glass.",
        examples=["[350]"],
    )
    lights: tuple[
        Annotated[
            Annotated[Light, Tag("light")] | Annotated[Division, Tag("division")],
            Discriminator(_entry_kind),
        ],
        ...,
    ] = Field(
        description="One entry for each part that the mullions (left to right) or transoms (top to bottom) make.",
        examples=["[{light: fixed}]"],
    )


class Defaults(Block):
    """What every window has unless it says otherwise."""

    system: Text = Field(
        "flush-70", description="Profile system: a built-in one, or the path of your own file.", examples=["flush-70"]
    )
    finish: Finish = Field(Finish(), description="Colours.", examples=["{outside: RAL 7038, inside: RAL 9016}"])
    glass: Text | None = Field(None, description="Glass make-up, by its name in `glass`.", examples=["clear"])
    fixings: Fixings = Field(Fixings(), description="Where frames are fixed to the wall.", examples=["{corner: 150}"])
    fit: Fit = Field(Fit(), description="How frames are sized from their openings.", examples=["{round_to: 5}"])
    wall: Wall | None = Field(None, description="The wall round the openings.", examples=["{material: brick, thickness: 215, frame_at: 90}"])


class Window(WindowFacts, Division):
    """One window: its mark, place, size and division, with defaults already filled in."""

    mark: Mark = Field(description="The window's mark on plans and drawings; each only once.", examples=["W1"])
    location: Text = Field("", description="Where it goes.", examples=["Kitchen"])
    room: Room | None = Field(
        None, description="The room behind it, which decides what the checks ask.", examples=["{use: kitchen, floor_area: 11.5}"]
    )
    frame: Frame = Field(
        description="Overall size of the frame, sill not included.", examples=["{width: 1200, height: 1050}"]
    )
    head: Annotated[Shape, HEAD] | None = Field(
        None,
        description="The shape of the head; left out, the frame is rectangular.",
        examples=["{arched: {rise: 200}}"],
    )
    circular: Annotated[Shape, CIRCULAR] | None = Field(
        None, description="A round frame; replaces `frame`.", examples=["{diameter: 600}"]
    )
    opening: Opening | None = Field(
        None,
        description="The surveyed opening. Without `frame` the frame's size is worked out from it; with it, whether it goes in.",
        examples=["{width: [1811, 1808, 1810], height: [1213, 1211, 1214], diagonals: [2178, 2176]}"],
    )
    sill: Sill | None = Field(None, description="The sill under the frame.", examples=["{projection: 150, horns: 40}"])
    floor_to_opening: Annotated[float, length(0, 5000)] | None = Field(
        None, description="From the finished floor to the bottom of the opening, mm.", examples=[1040]
    )
    system: Text = Field(description="Profile system, if not the default.", examples=["flush-70"])
    finish: Finish = Field(description="Colours, where they differ; keys as under `defaults`.", examples=["{inside: RAL 9016}"])
    glass: Text | None = Field(description="Glass make-up, if not the default.", examples=["clear"])
    fixings: Fixings = Field(description="Where it is fixed to the wall, where that differs; keys as under `defaults`.", examples=["{corner: 200}"])
    fit: Fit = Field(description="How it is sized from its opening, where that differs; keys as under `defaults`.", examples=["{clearance: 12}"])
    wall: Wall | None = Field(description="The wall round it, where it differs; keys as under `defaults`.", examples=["{material: brick, thickness: 215, frame_at: 60}"])


class Drawing(Block):
    """How sheets are drawn."""

    sheet: Literal["A3", "A4"] = Field("A3", description="Paper size.", examples=["A4"])
    symbol_apex: Literal["hinge", "lock"] = Field(
        "hinge",
        description="Where the opening symbol's point is: at the hinge side (UK use) or at the lock side.",
        examples=["hinge"],
    )


class Job(Block):
    """A whole job."""

    job: JobInfo = Field(JobInfo(), description="Who and what the job is for.", examples=["{reference: QL-07}"])
    glass: dict[str, Glass] = Field(
        description="The glass make-ups that this job uses, by a name of your choice.",
        examples=["{clear: {make_up: 4/20/4}}"],
    )
    defaults: Defaults = Field(
        Defaults(), description="What every window has unless it says otherwise.", examples=["{system: flush-70}"]
    )
    building: Building = Field(
        Building(), description="What checks ask of the building.", examples=["{work: replacement, ventilation: natural}"]
    )
    drawing: Drawing = Field(Drawing(), description="How sheets are drawn.", examples=["{sheet: A4}"])
    workshop: Workshop = Field(Workshop(), description="How the workshop cuts and seals.", examples=["{saw: {kerf: 4}}"])
    windows: tuple[Window, ...] = Field(
        description="The windows.",
        examples=["[{mark: W1, frame: {width: 900, height: 1350}, lights: [{light: fixed}]}]"],
    )
    joined: tuple[JoinedFrames, ...] = Field(
        (), description="Windows that are joined to each other, and how.", examples=["[{mark: B1, way: bay, windows: [W1, W2], angles: [135]}]"]
    )
