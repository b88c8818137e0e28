"""A row of the cutting list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypedDict

from elevations.geometry.window import Window

ENDS_WORDS = "degrees between the long edge and the cut, top or left end first, 90 is square; set a saw that reads 0 at square to 90 less these"
"""The long edge is the outer one of a frame, a sash and a bead; of a bar cut to a slope the remark says which."""

TO_BEND = "to bend"
BENT_ENDS = "its ends are cut after bending"


@dataclass(frozen=True, slots=True)
class CuttingRow:
    """Equal pieces. The cut length goes over the long points, to the nearest 0.1 mm, weld allowance included."""

    profile: str
    """frame, mullion, transom, sash; 'bay post for 135 degrees'; 'sash bead for 28 mm glass'; 'frame reinforcement';
    'frame extension 40'; 'sill 150'; 'glazing bar on the face 24 x 12' …"""
    system: str
    finish_outside: str
    finish_inside: str
    """Both empty for reinforcement, which doesn't show."""
    length_mm: float
    ends: str
    """'45/45': degrees between the long edge and the cut, top or left end first; 90 is square."""
    weld_each_end_mm: float
    """How much of the length is burnt off at each end."""
    quantity: int
    mass_kg: float | None
    """Of all its pieces, not rounded; None where the system gives no mass for it."""
    pieces: tuple[str, ...]
    """What they are for: 'W1-head', 'W1-S1 left stile', 'W1-G2 top'."""
    remark: str = ""
    bar_length_mm: float = 6000.0
    """Of the stock that it is cut from."""
    stock: str = ""
    """What those bars are called, where other profiles are cut from them too: 'mullion and transom'; else its profile."""
    cut_from: tuple[str, ...] = ()
    """Every profile that is cut from those bars, where there are several."""
    form: str = ""
    """What makes it more than a length with two straight cuts: 'to bend', 'top end two cuts', 'left end scribed'; else empty."""

    @property
    def first_end_degrees(self) -> float:
        """Of `ends`, the top or left one."""
        return float(self.ends.partition("/")[0])

    @property
    def last_end_degrees(self) -> float:
        """Of `ends`, the bottom or right one."""
        return float(self.ends.partition("/")[2])

    @property
    def bends(self) -> bool:
        """Whether it is bent after it was cut off the bar."""
        return self.form == TO_BEND

    @property
    def bars(self) -> str:
        """What the bars are called that it is cut from."""
        return self.stock or self.profile


def sum_kg(masses: Iterable[float | None]) -> float | None:
    """The masses together, not rounded; None where one of them is not known."""
    known = list(masses)
    return None if None in known else sum(kg for kg in known if kg is not None)


class Coloured(TypedDict):
    """The fields of a row that say its finish."""

    finish_outside: str
    finish_inside: str


def coloured(window: Window) -> Coloured:
    """The finish of a window's own profiles."""
    return {"finish_outside": window.finish.outside, "finish_inside": window.finish.inside}
