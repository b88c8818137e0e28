"""Which of the known words somebody probably meant; and one window, two windows."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from functools import lru_cache

CLOSE = 0.72
"""Least likeness, as difflib counts it: 'widht' and 'width' pass, 'depth' and 'width' do not."""
SHORTEST = 3
"""Words below this length resemble too many others to guess from."""
LONGEST_SHOWN = 60


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice that `word` resembles most, or None; spaces, hyphens, underscores and capitals do not count."""
    return _nearest(word[:100], tuple(choices))


@lru_cache(maxsize=4096)
def _nearest(word: str, choices: tuple[str, ...]) -> str | None:
    """Cached: one misspelling tends to be repeated in every window."""
    by_letters = {_letters(choice): choice for choice in sorted(choices, reverse=True)}
    letters = _letters(word)
    if letters in by_letters:
        return by_letters[letters]
    if len(letters) < SHORTEST:
        return None
    close = difflib.get_close_matches(letters, by_letters, n=1, cutoff=CLOSE)
    return by_letters[close[0]] if close else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """The hint "did you mean 'x'?", or an empty text where nothing is near."""
    near = nearest(word, choices)
    return f"did you mean '{near[:LONGEST_SHOWN]}'?" if near is not None else ""


def _letters(word: str) -> str:
    return "".join(c for c in word.casefold() if c.isalnum())


def counted(number: int, noun: str) -> str:
    """'1 window', '8 windows'."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
