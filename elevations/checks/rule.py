"""What a rule is, and the window that it is asked about."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from elevations.calculation import Calculation, CannotTell, Step
from elevations.checks.results import About, Limit, Result
from elevations.checks.rooms import kind_of
from elevations.geometry.window import Light, Pane, Window
from elevations.spec.building import Building
from elevations.spec.model import Window as WindowSpec


@dataclass(frozen=True, slots=True)
class Rules:
    """The figures of one country, from its file."""

    name: str
    title: str
    rooms: Mapping[str, str]
    """Kind of room by the word for its use, in lower case: {'lounge': 'habitable'}."""
    limits: Mapping[str, Limit]
    caution: str = ""

    def limit(self, key: str) -> Limit | None:
        """The limit of that key; None where the country has no such figure."""
        return self.limits.get(key)


@dataclass(frozen=True, slots=True)
class Case:
    """One window as resolved and as asked for, in its building, under the rules of a country."""

    window: Window
    spec: WindowSpec
    building: Building
    rules: Rules

    def about(self, rule: str, subject: str = "") -> About:
        return About(rule, self.window.mark, subject)

    @property
    def opening_lights(self) -> tuple[Light, ...]:
        """Lights with a sash that opens."""
        return tuple(light for light in self.window.lights if any(not sash.dummy for sash in light.sashes))

    @property
    def room_kind(self) -> str | None:
        """One of `rooms.STRICTEST_FIRST`; None where the job does not say what the room is, or in no word that the rules know."""
        return kind_of(self.room_use, self.rules.rooms)

    @property
    def room_need(self) -> str:
        """The fact that is missing where the kind of room is not known."""
        known = ", ".join(list(self.rules.rooms)[:6])
        return f"room: {{use: …}} in a word that these rules know, such as {known}; '{self.room_use}' is none" if self.room_use else USE

    @property
    def room_use(self) -> str:
        return self.spec.room.use if self.spec.room else ""

    def given_drop(self) -> Calculation | CannotTell:
        """From the floor down to what one could fall onto outside, mm."""
        if self.spec.drop is None:
            return CannotTell((DROP,))
        return Calculation(self.spec.drop, "mm", (Step("floor down to the ground outside", self.spec.drop, "mm", "job: drop"),))

    def above_floor(self, y_mm: float, what: str) -> Calculation | CannotTell:
        """Height above the finished floor of a level of the window, mm; `y_mm` from the bottom of the frame."""
        if self.spec.floor_to_opening is None:
            return CannotTell((FLOOR,))
        steps = [Step("floor to opening", self.spec.floor_to_opening, "mm", "job: floor_to_opening")]
        total = self.spec.floor_to_opening
        assumed: list[str] = []
        fitted, sill = self.window.site.fitted if self.window.site else None, self.spec.sill
        if fitted is None and sill is not None:
            total += sill.height + sill.packers
            steps.append(Step("sill and packers under the frame", sill.height + sill.packers, "mm", "job: sill"))
            assumed.append("the frame stands on its sill, and that on the bottom of the opening")
        elif fitted is None:
            assumed.append("the bottom of the opening is taken as the bottom of the frame")
        else:
            total += fitted.frame.bottom
            steps.append(Step("opening to the bottom of the frame", fitted.frame.bottom, "mm", "frame in its surveyed opening, at its left"))
        total += y_mm
        steps += [Step(f"bottom of the frame to {what}", y_mm, "mm", "resolved window"), Step("height above the floor", total, "mm", "sum")]
        return Calculation(total, "mm", tuple(steps), tuple(assumed))


FLOOR = "floor_to_opening (from the finished floor to the bottom of the opening)"
USE = "room: {use: …} (what the room is used for)"
DROP = "drop (from the finished floor down to what one could fall onto outside)"
WORK = "building: {work: …} (replacement or new-dwelling)"


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: what it asks, which limits of the country's file it reads, and how it looks at a window."""

    key: str
    title: str
    asks: str
    """In one sentence, for people."""
    check: Callable[[Case], Iterable[Result]]
    limits: Mapping[str, str]
    """Key of each limit, and the unit that it must be in."""


def level(pane: Pane) -> float:
    """Bottom of a pane's visible glass, mm above the bottom of the frame."""
    return pane.sight.outline.bounds.bottom
