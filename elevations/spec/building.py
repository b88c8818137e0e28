"""What the checks ask about the building, and no drawing needs: what kind of work it is, its air and its wind."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from elevations.spec.block import Block
from elevations.spec.fields import Switch, count, length, number
from elevations.spec.wind import WIND, WindLoad

LEAST_VENT_MM2 = 200.0
"""Vents have hundreds and thousands of mm2: a number below this is in cm2 or in thousands. Common practice, no source."""
WIND_HELP = (
    "Wind pressure on the windows in Pa, or a class of EN 12210, from whoever is responsible for it: "
    "1200, '1200 Pa, C' (with a deflection class), C3."
)


class Building(Block):
    """The building and the work on it; what is left out, checks that need it can't tell."""

    work: Literal["replacement", "new-dwelling"] | None = Field(
        None, description="Windows replaced in a dwelling that is there, or put into a new one.", examples=["replacement"]
    )
    ventilation: Literal["natural", "mechanical"] | None = Field(
        None,
        description="How the dwelling gets fresh air: through the windows, or by continuous mechanical supply and extract.",
        examples=["natural"],
    )
    wind: Annotated[WindLoad, WIND] | None = Field(None, description=WIND_HELP, examples=["C3"])


class ClearOpening(Block):
    """The free opening of a light that is open as far as it goes, as its hardware's maker declares it."""

    width: Annotated[float, length(20, 6000)] = Field(description="Free width, mm.", examples=[480])
    height: Annotated[float, length(20, 4000)] = Field(description="Free height, mm.", examples=[900])
    bottom: Annotated[float, length(0, 4000)] | None = Field(
        None, description="From the bottom of the frame up to the free opening, mm; needed where it is not at the light's bottom.", examples=[600]
    )


class GlassFacts(Block):
    """What makers and suppliers declare of a sealed unit."""

    impact_class: Annotated[int, count(1, 3)] | None = Field(
        None, description="Impact class by EN 12600 of its safety panes, as declared: 1, 2 or 3.", examples=[1]
    )
    u_value: Annotated[float, number(0.1, 7, "W/m2K")] | None = Field(
        None, description="Ug that the glass maker declares; left out, it is worked out.", examples=[1.2]
    )
    g_value: Annotated[float, number(0.01, 1)] | None = Field(
        None, description="Solar gain g that the glass maker declares.", examples=[0.6]
    )
    psi: Annotated[float, number(0, 0.5, "W/mK")] | None = Field(
        None, description="Declared ψ of its edge in this frame; left out, by the kind of spacer.", examples=[0.035]
    )
    wind_load: Annotated[float, number(100, 10_000, "Pa")] | None = Field(
        None, description="Wind pressure that the supplier declares its panes thick enough for at their sizes here, Pa.", examples=[1200]
    )


class LightFacts(Block):
    """What checks ask of a light that opens."""

    opens_to: Annotated[float, number(1, 180, "degrees")] | None = Field(
        None, description="How far it opens, degrees; left out, as far as its hardware goes.", examples=[90]
    )
    clear_opening: ClearOpening | None = Field(
        None, description="Free opening that the hardware's maker declares, instead of one worked out.", examples=["{width: 480, height: 900}"]
    )
    restrictor_releases: Switch | None = Field(
        None, description="Whether its restrictor can be released by hand, without a tool or key.", examples=[True]
    )


class WindowFacts(Block):
    """What checks ask of where a window is."""

    storey: Literal["ground", "upper"] | None = Field(None, description="Which storey the room is on.", examples=["upper"])
    drop: Annotated[float, length(0, 200_000)] | None = Field(
        None, description="From the finished floor down to the ground, or to what one could fall onto outside, mm.", examples=[2750]
    )
    near: tuple[Literal["door", "bath"], ...] | None = Field(
        None,
        description="What is close: a door whose edge is within 300 mm, a bath or shower within 800 mm; [] where neither is.",
        examples=["[door]"],
    )
    guard: Annotated[float, length(0, 3000)] | None = Field(
        None, description="Height above the finished floor of a guard across the window, mm; 0 where there is none.", examples=[900]
    )
    old_vent: Annotated[float, number(0, 100_000, "mm2", seldom_below=LEAST_VENT_MM2)] | None = Field(
        None, description="Equivalent area of the replaced window's background ventilators, mm2; 0 where it had none.", examples=[0]
    )
    wind: Annotated[WindLoad, WIND] | None = Field(None, description=f"{WIND_HELP} Left out, the building's.", examples=["B2"])
    air_leakage: Annotated[float, number(0, 2, "W/m2K")] | None = Field(
        None, description="Declared heat loss by air leakage L, W/m2K, for the rating index.", examples=[0.02]
    )
