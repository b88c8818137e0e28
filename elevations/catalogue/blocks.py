"""Reads blocks of a system file key by key and gathers every problem on the way."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from elevations.errors import Path, Problem
from elevations.spelling import did_you_mean, nearest
from elevations.yaml_source import Document, raw_text

SHOWN = 40
"""Longest piece of the user's text that a message repeats."""


def shown(value: object) -> str:
    """What the user wrote, in quotes and short enough for one line."""
    text = raw_text(value)
    if text is None:
        return "a block" if isinstance(value, dict) else "a list" if isinstance(value, list) else "nothing"
    line = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    return f"'{line}'" if len(line) <= SHOWN else f"'{line[: SHOWN - 1]}…'"


@dataclass(frozen=True, slots=True)
class Asked:
    """What a reader asked of a key, whether it was there or not: the keys of a file explain themselves by it."""

    takes: str = ""
    """'number, 0 to 500'; empty where it is read in a way of its own."""
    hint: str = ""
    default: str = ""
    needed: bool = False


class Report:
    """Problems found in one file, each with its place; and which keys its readers know."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self.problems = list(document.problems)
        self.asked: dict[tuple[str, ...], Asked] = {}
        """By path without the places in lists."""

    def ask(self, path: Path, asked: Asked) -> None:
        """Note that a reader knows a key; what says more of it stays."""
        where = tuple(step for step in path if isinstance(step, str))
        if asked.takes or where not in self.asked:
            self.asked[where] = asked

    def say(self, path: Path, code: str, message: str, hint: str = "", *, key: bool = False) -> None:
        """Note a problem with the value at `path`, or with `key` with its key."""
        self.problems.append(Problem(code, message, hint, place=self._document.place(path, key=key)))

    def in_order(self) -> tuple[Problem, ...]:
        """Every problem in the order of the file."""
        return tuple(sorted(self.problems, key=lambda p: (p.place.line, p.place.column) if p.place else (0, 0)))


class Block:
    """A block of keys at a path of the file; what is not one is reported and read as empty."""

    def __init__(self, report: Report, path: Path, data: Any, name: str) -> None:
        self.report, self.path, self.name = report, path, name
        self.given = isinstance(data, Mapping)
        self.data: Mapping[str, Any] = data if self.given else {}
        if not self.given and data is not None:
            report.say(path, "not-a-block", f"{name} must be a block of keys, not {shown(data)}", "write 'key: value'")

    def say(self, key: str, code: str, message: str, hint: str = "") -> None:
        """Note a problem with the value of a key."""
        self.report.say((*self.path, key), code, message, hint)

    def _ask(self, key: str, takes: str, hint: str = "", *, default: str = "", needed: bool = False) -> None:
        self.report.ask((*self.path, key), Asked(takes, hint, default, needed))

    def only(self, known: Iterable[str]) -> None:
        """Report keys that have no meaning here."""
        choices = tuple(known)
        for key in choices:
            self.report.ask((*self.path, key), Asked())
        for key in self.data:
            if key not in choices:
                near = did_you_mean(key, choices)
                hint = near or f"known here: {', '.join(choices)}"
                if key.isdigit():
                    hint = "a comma parts entries here: write 66.5 for 66,5"
                elif ":" in key:
                    hint = f"write '{key.replace(':', ': ', 1)}', with a space behind the colon"
                self.report.say(
                    (*self.path, key), "unknown-key", f"{shown(key)} has no meaning in {self.name}", hint, key=True
                )

    def missing(self, key: str, hint: str) -> None:
        """Report a key that must be there, unless a misspelling of it is (that is reported already)."""
        if nearest(key, (k for k in self.data if isinstance(k, str))) is None:
            self.report.say(self.path, "missing-key", f"{self.name} needs '{key}'", hint, key=True)

    def number(self, key: str, *, low: float, high: float, hint: str = "", above: bool = False) -> float | None:
        """The finite number of a key from `low` to `high` (greater than `low` with `above`); None if it is not there.

        A wrong value is reported and None.
        """
        self._ask(key, f"number, {low:g} to {high:g}", hint)
        value = self.data.get(key)
        if value is None:
            return None
        found = self.as_number((*self.path, key), value, key, hint)
        if found is None:
            return None
        if found < low or (above and found == low) or found > high:
            limit = f"more than {low:g}" if above else f"at least {low:g}"
            self.say(key, "out-of-range", f"'{key}' is {found:g}; it must be {limit} and at most {high:g}", hint)
            return None
        return found

    def as_number(self, path: Path, value: object, name: str, hint: str = "") -> float | None:
        """A finite number, or a report."""
        if isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value):
            return float(value)
        self.report.say(
            path, "not-a-number", f"'{name}' is {shown(value)}, not a number", f"a plain number: {hint or 'a length in mm'}"
        )
        return None

    def required(self, key: str, *, low: float, high: float, hint: str, above: bool = True) -> float | None:
        """Like `number`, and its absence is reported."""
        found = self.number(key, low=low, high=high, hint=hint, above=above)
        self._ask(key, f"number, {low:g} to {high:g}", hint, needed=True)
        if self.data.get(key) is None:
            self.missing(key, hint)
        return found

    def choice(self, key: str, choices: tuple[str, ...], default: str | None = None) -> str:
        """One of a few words; without a default its absence is reported, and the first is returned."""
        self._ask(key, f"one of: {', '.join(choices)}", default=default or "", needed=default is None)
        value = self.data.get(key)
        if value is None:
            if default is None:
                self.missing(key, f"one of {', '.join(choices)}")
            return default or choices[0]
        if value not in choices:
            near = did_you_mean(value, choices) if isinstance(value, str) else ""
            self.say(key, "unknown-word", f"'{key}' is {shown(value)}", near or f"one of {', '.join(choices)}")
            return choices[0]
        return str(value)

    def text(self, key: str, default: str) -> str:
        """Text; what is not text or a number is reported."""
        self._ask(key, "text")
        value = self.data.get(key)
        if value is None:
            return default
        text = raw_text(value)
        if text is None:
            self.say(key, "not-text", f"'{key}' must be text, not {shown(value)}")
            return default
        return text.strip() or default

    def flag(self, key: str) -> bool:
        """True or false, false where not given."""
        self._ask(key, "true or false", default="false")
        value = self.data.get(key)
        if value not in (None, True, False):
            self.say(key, "not-true-or-false", f"'{key}' is {shown(value)}", "write true or false")
        return value is True
