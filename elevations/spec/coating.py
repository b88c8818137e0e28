"""Low-emissivity coatings of a sealed unit: one, or a list of several."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Discriminator, Field, Tag

from elevations.spec.block import Block
from elevations.spec.fields import count, number


class LowE(Block):
    """A low-emissivity coating: on which face, counted from outside, and its normal emissivity."""

    face: Annotated[int, count(1, 6)] = Field(
        description="Coated face, counted from outside: a double glazed unit has faces 1 to 4.", examples=[3]
    )
    emissivity: Annotated[float, number(0.005, 0.9)] | None = Field(
        None, description="Normal emissivity, from the glass maker's declaration.", examples=[0.03]
    )


def _coatings_kind(coatings: Any) -> str:
    return "several" if isinstance(coatings, list | tuple) else "one"


Coatings = Annotated[
    Annotated[LowE, Tag("one")] | Annotated[tuple[LowE, ...], Tag("several")],
    Discriminator(_coatings_kind),
]
