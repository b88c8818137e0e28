"""What the workshop works with: its saw, the off-cuts in its rack, and how joints to the wall are filled."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from elevations.spec.block import Block
from elevations.spec.fields import Text, number
from elevations.spec.fields import count as whole  # the keys below take the names
from elevations.spec.fields import length as mm


class Saw(Block):
    """What the saw takes from a bar. Its defaults are common practice, no source: a 4 mm blade takes 5.7 along the bar at 45 degrees."""

    kerf: Annotated[float, mm(0, 15)] = Field(
        6, description="What a saw cut takes from the length of the bar, mm: at 45 degrees 1.41 times the blade. Left out, plans say that it is assumed.",
        examples=[4],
    )
    end_trim: Annotated[float, mm(0, 300)] = Field(
        15, description="Cut off each end of every bar first, its own saw cut included, mm. Left out, plans say that it is assumed.", examples=[15]
    )
    keep_from: Annotated[float, mm(50, 6000)] | None = Field(
        None, description="A rest at least this long goes back into the rack, mm; left out, none does.", examples=[600]
    )

    @property
    def assumed(self) -> tuple[str, ...]:
        """What the job does not give of what the plans of bars count with, in words."""
        return tuple(words for key, words in (("kerf", "saw cut"), ("end_trim", "end trim")) if key not in self.model_fields_set)


class Bending(Block):
    """How profile is cut for whoever bends it."""

    grip: Annotated[float, mm(0, 1000)] = Field(
        250, description="What is cut longer at each end of a piece to bend, for the bender to hold, mm (common practice, no source). Left out, plans say that "
        "it is assumed.", examples=[300],
    )


class OffCut(Block):
    """Lengths of one profile in the rack; they are cut before a new bar is."""

    system: Text = Field(description="Name of the profile system, as the cutting list has it.", examples=["flush-70"])
    profile: Text = Field(description="Which profile, as the cutting list has it.", examples=["frame"])
    outside: Text = Field("", description="Colour outside; none for reinforcement.", examples=["RAL 7038"])
    inside: Text = Field("", description="Colour inside.", examples=["RAL 9016"])
    length: Annotated[float, mm(50, 15000)] = Field(description="Length, mm.", examples=[2150])
    count: Annotated[int, whole(1, 1000)] = Field(1, description="How many of them there are.", examples=[2])


class Seal(Block):
    """The joint between frame and wall, for counting sealant and foam; a surveyed window is counted by its own gaps."""

    gap: Annotated[float, mm(1, 60)] | None = Field(
        None, description="Gap between frame and wall where no opening was surveyed, mm; left out, such windows are not counted.", examples=[10]
    )
    sealant_depth: Annotated[float, mm(0, 40)] = Field(
        6, description="Depth of the sealant, mm; a window's own goes before it (fit: joint).", examples=[6]
    )
    foam_depth: Annotated[float, mm(0, 200)] = Field(
        0, description="Depth of the foam, mm; 0 where none is used; a window's own goes before it (fit: joint).", examples=[40]
    )
    cartridge: Annotated[float, number(50, 2000, "ml")] = Field(310, description="Contents of a cartridge of sealant, ml.", examples=[310])
    foam_yield: Annotated[float, number(1, 200, "litres")] | None = Field(
        None, description="Litres of set foam from one can, by its maker.", examples=[35]
    )


class UnitTolerance(Block):
    """How far glass units may be off, as agreed with who makes them; printed on glass orders."""

    size: Annotated[float, mm(0.1, 10)] = Field(description="Width and height, plus or minus, mm.", examples=[2])
    thickness: Annotated[float, mm(0.1, 5)] | None = Field(None, description="Thickness of the whole unit, plus or minus, mm.", examples=[1])


class Workshop(Block):
    """How this workshop cuts and seals."""

    saw: Saw = Field(Saw(), description="What the saw takes from a bar.", examples=["{kerf: 4, end_trim: 15}"])
    bending: Bending = Field(Bending(), description="How pieces are cut that are to be bent.", examples=["{grip: 300}"])
    off_cuts: tuple[OffCut, ...] = Field(
        (), description="Off-cuts in the rack, to be cut first.", examples=["[{system: flush-70, profile: frame, length: 2150}]"]
    )
    unit_tolerance: UnitTolerance | None = Field(
        None, description="Tolerances agreed for glass units; left out, the glass order asks to agree them.", examples=["{size: 2, thickness: 1}"]
    )
    seal: Seal | None = Field(
        None, description="The joint to the wall; left out, sealant and foam are not counted.", examples=["{gap: 10}"]
    )
