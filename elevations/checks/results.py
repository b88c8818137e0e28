"""What a check finds: a value held against a limit, and how sure the limit is. A help for design, no certificate."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import StrEnum

from elevations.calculation import Calculation, CannotTell, Step

CAUTION = (
    "These checks are a help in designing, and no certificate: figures may be out of date or of another place, and they see "
    "only what the job says. Local codes and a licensed practice decide."
)
HARD = frozenset({"read", "read second hand", "declared"})
"""How a limit was found that a design may fail by. By any other it is only warned: nobody has seen the figure."""
SURE = (*sorted(HARD), "from memory", "from memory, doubtful", "common practice, no source", "demonstration data")
SAME = 1e-6
"""Of a value and a limit: noise of sums, far below any tolerance of measuring."""


class State(StrEnum):
    """How a check came out."""

    FAIL = "fail"
    WARN = "warn"
    """Not met, but the limit is not sure enough to fail by, or other windows of the room may make up for it."""
    CANNOT_TELL = "can't tell"
    NOTE = "note"
    """Information: nothing is asked."""
    PASS = "pass"   # noqa: S105 (no password)
    NOT_APPLICABLE = "not applicable"


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure that something is held against, and where it comes from."""

    value: float
    unit: str
    clause: str
    """The document and its paragraph."""
    edition: str
    sure: str
    """One of SURE: how the figure was found."""
    source: str = ""
    """What was read, in words."""

    @property
    def hard(self) -> bool:
        return self.sure in HARD

    @property
    def words(self) -> str:
        """'Approved Document B volume 1, 2.10; read second hand'."""
        return "; ".join(part for part in (self.clause, self.edition, self.sure) if part)


@dataclass(frozen=True, slots=True)
class Result:
    """One check of one part of one window."""

    rule: str
    """Key of the rule."""
    mark: str
    subject: str
    """What it is about, by tag: 'light 1', 'G2', 'M1'; empty for the whole window."""
    state: State
    message: str
    """What was found, in plain words."""
    value: Calculation | None = None
    limit: Limit | None = None
    sense: str = ""
    """How the value must stand to the limit: 'at least' or 'at most'."""
    needs: tuple[str, ...] = ()
    """The facts without which it can't be told, in the user's words."""
    hint: str = ""
    repeats: str = ""
    """Code of the finding that says the same of the same part."""
    working: tuple[Step, ...] = field(default=())
    """Steps that are no steps of the value, such as of what it was compared with."""

    @property
    def assumed(self) -> tuple[str, ...]:
        return self.value.assumed if self.value else ()


@dataclass(frozen=True, slots=True)
class About:
    """What the results of one rule about one part have in common."""

    rule: str
    mark: str
    subject: str = ""

    def result(self, state: State, message: str, **more: object) -> Result:
        """A result about it; `more` are fields of Result."""
        return replace(Result(self.rule, self.mark, self.subject, state, message), **more)   # type: ignore[arg-type]

    def not_applicable(self, message: str) -> Result:
        return self.result(State.NOT_APPLICABLE, message)

    def cannot_tell(self, what: str, *needs: str) -> Result:
        """`what` can't be told for want of the facts in `needs`."""
        return self.result(State.CANNOT_TELL, f"{what}: needs {'; '.join(needs)}", needs=needs)

    def note(self, message: str, value: Calculation | None = None, limit: Limit | None = None) -> Result:
        return self.result(State.NOTE, message, value=value, limit=limit)

    def at_least(self, what: str, found: Calculation | CannotTell, limit: Limit | None, *, soft: bool = False, hint: str = "") -> Result:
        """The value of `what` must reach the limit; `soft`: only warn where it does not."""
        return self._held(what, found, limit, "at least", lambda value, bound: value >= bound - SAME, soft=soft, hint=hint)

    def at_most(self, what: str, found: Calculation | CannotTell, limit: Limit | None, *, soft: bool = False, hint: str = "") -> Result:
        """The value of `what` may reach the limit and no more; `soft`: only warn where it does not."""
        return self._held(what, found, limit, "at most", lambda value, bound: value <= bound + SAME, soft=soft, hint=hint)

    def _held(
        self, what: str, found: Calculation | CannotTell, limit: Limit | None, sense: str, holds: Callable[[float, float], bool], *, soft: bool, hint: str
    ) -> Result:
        if limit is None:
            return self.not_applicable(f"{what}: these rules give no figure")
        if isinstance(found, CannotTell):
            return replace(self.cannot_tell(what, *found.needs), limit=limit, sense=sense)
        good = holds(found.value, limit.value)
        state = State.PASS if good else State.FAIL if limit.hard and not soft else State.WARN
        message = f"{what} {shown(found.value, found.unit, limit.value)}, {sense} {shown(limit.value, limit.unit)}"
        return self.result(state, message, value=found, limit=limit, sense=sense, hint="" if good else hint)


DECIMALS = {"mm": 1, "mm2": 0, "m2": 3, "m": 3, "W/m2K": 2, "W/mK": 3, "kg": 1, "Pa": 0, "kWh/m2a": 0, "N mm": 0, "mm4": 0, "degrees": 0}
AS_PRINTED = ("W/m2K", "kg")
"""Units whose values keep their zeros: people compare 1.40 with 1.35."""
UNITS = {"m2": "m²", "mm2": "mm²", "mm4": "mm⁴", "W/m2K": "W/m²K", "kWh/m2a": "kWh/m² a year", "degrees": "°"}
"""As people write them."""


def shown(value: float, unit: str, against: float | None = None) -> str:
    """A value for people, with its unit; with more digits where rounding would hide on which side of `against` it lies."""
    decimals = DECIMALS.get(unit, 2)
    if against is not None and abs(value - against) > SAME:
        while decimals < 6 and round(value, decimals) == round(against, decimals):
            decimals += 1
    text = f"{value:,.{decimals}f}" if abs(value) >= 10_000 else f"{value:.{decimals}f}"
    if unit not in AS_PRINTED and "." in text:
        text = text.rstrip("0").rstrip(".")
    said = UNITS.get(unit, unit)
    return f"{text}{said}" if said == "°" else f"{text} {said}".strip()
