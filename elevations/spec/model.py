"""The job as it is written: one class a block of the YAML file, its keys, their ranges and their help texts.

The classes are pydantic models and live in `spec` alone with the code that builds them; later stages read their
fields. All lengths are mm.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

BAR_SPACINGS = ("equal-centres", "equal-sight", "equal-glass")
BarSpacing = Literal["equal-centres", "equal-sight", "equal-glass"]
Length = Annotated[float, Field(gt=0)]


class Block(BaseModel):
    """A block of the file; unknown keys are errors."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class JobInfo(Block):
    """Who and what the job is for: the title block's text."""

    reference: str = ""
    site: str = ""
    client: str = ""
    surveyed: str = ""
    issued: str = ""
    revision: str = ""
    drawn_by: str = ""
    checked_by: str = ""


class LowE(Block):
    """A low-emissivity coating: on which face, counted from outside, and its normal emissivity."""

    face: int
    emissivity: float | None = None


class Glass(Block):
    """A sealed unit or single pane, outer pane first: 4/20/4 is two 4 mm panes 20 mm apart."""

    make_up: str
    gas: str = ""
    low_e: LowE | None = None
    spacer: str = ""
    obscure: Literal["outer", "inner"] | None = None
    toughened: tuple[Literal["outer", "middle", "inner"], ...] = ()
    laminated: tuple[Literal["outer", "middle", "inner"], ...] = ()

    @property
    def layers(self) -> tuple[float, ...]:
        """Thickness of pane, cavity, pane … from outside, mm."""
        return tuple(float(part) for part in self.make_up.split("/"))

    @property
    def thickness(self) -> float:
        """Whole unit, mm: 28 for 4/20/4."""
        return sum(self.layers)


class Finish(Block):
    """Colour codes outside and inside."""

    outside: str = ""
    inside: str = ""


class Fixings(Block):
    """Where the frame is fixed to the wall."""

    corner: Length = 150
    spacing: Length = 600
    clear_of_bars: Annotated[float, Field(ge=0)] = 150
    sides: tuple[Literal["left", "right", "head", "sill"], ...] = ("left", "right", "head", "sill")


class Frame(Block):
    """Overall manufacturing size of the frame, sill not included."""

    width: Length
    height: Length


class Room(Block):
    """The room behind the window."""

    use: str = ""
    floor_area: float | None = None


class Light(Block):
    """One light: a pane that is fixed or that opens."""

    light: str
    hinge: Literal["left", "right"] | None = None
    swing: Literal["out", "in"] | None = None
    glass: str | None = None
    sash: Literal["dummy"] | None = None
    escape: bool = False
    restrictor: bool = False
    handle_height: Length | None = None
    vent: Length | None = None


class Division(Block):
    """A window or part of one, divided by mullions (left to right) or transoms (top to bottom)."""

    mullions: tuple[float, ...] | BarSpacing | None = None
    transoms: tuple[float, ...] | BarSpacing | None = None
    lights: tuple[Light | Division, ...]


class Defaults(Block):
    """What every window has unless it says otherwise."""

    system: str = "flush-70"
    finish: Finish = Finish()
    glass: str | None = None
    fixings: Fixings = Fixings()


class Window(Division):
    """One window: its mark, place, size and division, with defaults already filled in."""

    mark: str
    location: str = ""
    room: Room | None = None
    frame: Frame
    floor_to_opening: float | None = None
    system: str
    finish: Finish
    glass: str | None
    fixings: Fixings


class Job(Block):
    """A whole job."""

    job: JobInfo = JobInfo()
    glass: dict[str, Glass]
    defaults: Defaults = Defaults()
    windows: tuple[Window, ...]
