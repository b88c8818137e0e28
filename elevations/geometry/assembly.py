"""In which order joined frames and what stands between them go up, and what each piece weighs."""

from __future__ import annotations

from dataclasses import dataclass

from elevations.geometry.joined import Joined, Joint
from elevations.geometry.window import Window
from elevations.spec.joined import BAY, JoinedFrames


@dataclass(frozen=True, slots=True)
class Step:
    """One piece as it goes up."""

    number: int
    window: Window | None
    joint: Joint | None
    """Either a frame or what joins it to one that stands already."""
    beside: str = ""
    """Of a joint, the mark of the frame that stands; of a frame, the tag of the joint that it goes against."""

    @property
    def name(self) -> str:
        """Mark or tag."""
        return self.window.mark if self.window else self.joint.tag if self.joint else ""


def assembly(joined: Joined) -> tuple[Step, ...]:
    """Every frame and joint of a set, a joint just before the frame that it brings.

    As the job says; else a bay from its middle facet outwards, a row from the left, a stack from the bottom (common
    practice, no source).
    """
    marks = [window.mark for window in joined.windows]
    steps: list[Step] = []
    standing: list[int] = []
    for place in [marks.index(mark) for mark in order_of(joined.spec)]:
        joint, other = None, -1
        for neighbour in (place - 1, place + 1):
            if neighbour in standing:
                joint, other = joined.joints[min(place, neighbour)], neighbour
                steps.append(Step(len(steps) + 1, None, joint, marks[other]))
        standing.append(place)
        steps.append(Step(len(steps) + 1, joined.windows[place], None, joint.tag if joint else ""))
    return tuple(steps)


def order_of(spec: JoinedFrames) -> tuple[str, ...]:
    """The marks of a set's windows in the order in which they go up."""
    if spec.assembly:
        return spec.assembly
    marks = list(spec.windows)
    if spec.way == "stacked":
        return tuple(reversed(marks))
    if spec.way != BAY:
        return tuple(marks)
    middle = (len(marks) - 1) // 2
    return tuple(sorted(marks, key=lambda mark: (abs(marks.index(mark) - middle), marks.index(mark))))


def frame_kg(window: Window) -> float | None:
    """A frame with its sashes, without glass, beads, steel and hardware; None where the system gives no masses."""
    rails = [member for sash in window.sashes for member in sash.members]
    total = 0.0
    for member in (*window.members, *window.bars, *rails):
        per_m = window.system.profile(member.profile).kg_per_m
        if per_m is None:
            return None
        total += per_m * member.length.value / 1000
    return total


def joint_kg(joint: Joint) -> float | None:
    """A coupler or post as cut; None where the system gives no mass."""
    return None if joint.kg_per_m is None else joint.kg_per_m * joint.length.value / 1000
