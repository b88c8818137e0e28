"""The ways a light opens: one file a type, listed here."""

from __future__ import annotations

from elevations.openings.base import Opening
from elevations.openings.bottom_hung import BottomHung
from elevations.openings.fixed import Fixed
from elevations.openings.horizontal_pivot import HorizontalPivot
from elevations.openings.side_hung import SideHung
from elevations.openings.side_hung_pair import SideHungPair
from elevations.openings.sliding import Sliding
from elevations.openings.tilt_and_turn import TiltAndTurn
from elevations.openings.top_hung import TopHung
from elevations.openings.vertical_pivot import VerticalPivot
from elevations.openings.vertical_sliding import VerticalSliding

OPENINGS: dict[str, Opening] = {
    opening.key: opening
    for opening in (
        Fixed(), SideHung(), TopHung(), BottomHung(), TiltAndTurn(), SideHungPair(), HorizontalPivot(), VerticalPivot(),
        Sliding(), VerticalSliding(),
    )
}
