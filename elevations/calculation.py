"""An engineering figure with the steps that made it, or the facts that are missing for it.

Lengths that are plain sums keep a `Working`; heat and strength figures are formulas, and keep these.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


class Step(NamedTuple):
    """One quantity on the way: its symbol as the standard writes it, its value, unit and where it comes from."""

    symbol: str
    value: float
    unit: str
    source: str
    """A standard and edition, a line of the job, or 'common practice, no source'; says 'from memory' where it is."""


@dataclass(frozen=True, slots=True)
class Calculation:
    """A result, its unit, and its steps in the order they were worked out."""

    value: float
    unit: str
    steps: tuple[Step, ...] = ()
    assumed: tuple[str, ...] = ()
    """What was taken because nobody declared it, in words: a reader must see these beside the value."""


@dataclass(frozen=True, slots=True)
class CannotTell:
    """No result, because facts are missing: which ones, in the user's words."""

    needs: tuple[str, ...]

    def __str__(self) -> str:
        return "can't tell: needs " + "; ".join(self.needs)


class ImpossibleInputError(ValueError):
    """A figure that no real thing can have, in plain words; the spec refuses most of these earlier."""


def keeps(value: Calculation | CannotTell, limit: float) -> bool | None:
    """Whether a value is at most the limit, in its own unit; None where it can't be told."""
    return None if isinstance(value, CannotTell) else value.value <= limit
