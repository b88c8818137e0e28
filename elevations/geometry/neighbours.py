"""What a window of a set is joined to at each of its sides: known from the job alone, before the set is resolved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from elevations.catalogue.system import System
from elevations.spec.joined import FLAT, JoinedFrames
from elevations.spec.model import Job

COUPLER, BAY_POST = "coupler", "bay post"


class Connector(NamedTuple):
    """What stands between two neighbours of a set."""

    tag: str
    """C1, C2 … couplers, P1, P2 … bay posts, in the order of the windows."""
    kind: str
    """coupler or bay post."""
    angle: float
    """Between the two, seen from the room, degrees: 180 in one plane."""

    @property
    def profile(self) -> str:
        """'coupler', 'bay post for 135 degrees': a profile of the cutting list."""
        return self.kind if self.kind == COUPLER else f"{self.kind} for {self.angle:g} degrees"


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A side of a frame that another frame is joined to; lengths in mm."""

    side: str
    """left jamb, right jamb, head or sill."""
    mark: str
    """Of the window there."""
    joined: str
    """The set's mark."""
    connector: Connector
    width: float
    """Of the coupler, or of the post's face beside this frame; 0 where the system has none, which resolving the set refuses."""
    screw: float | None
    """Length of the screws from this frame into it, as the system gives it; None where it does not."""


def connectors(spec: JoinedFrames) -> tuple[Connector, ...]:
    """What stands between each window of a set and the next."""
    made: list[Connector] = []
    for number in range(len(spec.windows) - 1):
        angle = spec.angles[number] if spec.angles else float(FLAT)
        kind = COUPLER if angle == FLAT else BAY_POST
        letter = "C" if kind == COUPLER else "P"
        made.append(Connector(f"{letter}{sum(one.kind == kind for one in made) + 1}", kind, angle))
    return tuple(made)


def neighbours_of(job: Job, mark: str, system: System) -> tuple[Neighbour, ...]:
    """The joined sides of a window of that system; none of one that stands alone."""
    for spec in job.joined:
        if mark not in spec.windows:
            continue
        number, standing = spec.windows.index(mark), connectors(spec)
        sides = ("head", "sill") if spec.way == "stacked" else ("left jamb", "right jamb")
        return tuple(
            _neighbour(side, spec, other, standing[min(number, other)], system)
            for side, other in zip(sides, (number - 1, number + 1), strict=True) if 0 <= other < len(spec.windows)
        )
    return ()


def _neighbour(side: str, spec: JoinedFrames, other: int, connector: Connector, system: System) -> Neighbour:
    joining = system.joining
    if connector.kind == COUPLER:
        width, screw = (joining.coupler.width, joining.coupler.screw) if joining.coupler else (0.0, None)
    else:
        post = joining.post_for(connector.angle)
        width, screw = (post.face, post.screw) if post else (0.0, None)
    return Neighbour(side, spec.windows[other], spec.mark, connector, width, screw)


def joined_sides(neighbours: Sequence[Neighbour]) -> frozenset[str]:
    """Tags of the frame's sides that have no wall, but another frame."""
    return frozenset(one.side for one in neighbours)


def notes_of(neighbours: Sequence[Neighbour]) -> tuple[str, ...]:
    """What the sheet of a window says of its neighbours; nothing of one that stands alone."""
    if not neighbours:
        return ()
    meets = ", ".join(f"{one.side} joined to {one.mark}" for one in neighbours)
    return (f"Part of {neighbours[0].joined}: {meets}. Fixings there go into the coupler or post, not into a wall.",)
