"""What the checks ask about the building, and no drawing needs: what kind of work it is, its air and its wind."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from elevations.spec.block import Block
from elevations.spec.fields import length
from elevations.spec.wind import WIND, WindLoad

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
