"""How a number came about: a value is the sum of named terms, and keeps them.

The geometry core computes with these, so that what `elevations explain` prints is the record the size was made
from, and not a second account of it.
"""

from __future__ import annotations

from typing import NamedTuple

from elevations.errors import Path


class Source(NamedTuple):
    """Where a figure comes from."""

    kind: str
    """spec (a line of the job), system (a figure of the profile system), rule (of the tool or a standard)."""
    ref: Path | str
    """The path in the job, the dotted key in the system file, or the rule in words."""


class Term(NamedTuple):
    """One step of a working: what is added, mm (negative: taken off), what it is, and where it comes from."""

    amount: float
    label: str
    source: Source
    detail: tuple[str, ...] = ()
    """Lines that say how `amount` itself was found, where it is not a figure somebody gave."""


class Working:
    """A length and the terms that it is the sum of. Immutable; `value` is in mm."""

    __slots__ = ("terms", "value")

    terms: tuple[Term, ...]
    value: float

    def __init__(self, terms: tuple[Term, ...]) -> None:
        self.terms = terms
        self.value = sum([term[0] for term in terms])

    def plus(self, *terms: Term) -> Working:
        """This length with further terms."""
        longer = Working.__new__(Working)
        longer.terms = self.terms + terms
        value = self.value   # the terms before were added up already, in this order
        for term in terms:
            value += term[0]
        longer.value = value
        return longer

    def minus(self, other: Working) -> Working:
        """The distance from `other` to this; a term that both hold is left out of both."""
        rest = list(other.terms)
        mine = []
        for term in self.terms:
            if term in rest:
                rest.remove(term)
            else:
                mine.append(term)
        return Working((*mine, *(Term(-t.amount, t.label, t.source, t.detail) for t in rest)))

    def __repr__(self) -> str:
        sums = " ".join(f"{t.amount:+g} {t.label}" for t in self.terms)
        return f"Working({self.value:g} = {sums})"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Working) and self.terms == other.terms

    def __hash__(self) -> int:
        return hash(self.terms)
