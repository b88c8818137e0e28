"""Which of the known words somebody probably meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

CLOSE = 0.72
"""Least likeness, as difflib counts it: 'widht' and 'width' pass, 'depth' and 'width' do not."""
SHORTEST = 3
"""Words below this length resemble too many others to guess from."""


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice that `word` resembles most, or None; spaces, hyphens, underscores and capitals do not count."""
    by_letters = {_letters(choice): choice for choice in sorted(choices)}
    letters = _letters(word[:100])
    if letters in by_letters:
        return by_letters[letters]
    if len(letters) < SHORTEST:
        return None
    close = difflib.get_close_matches(letters, by_letters, n=1, cutoff=CLOSE)
    return by_letters[close[0]] if close else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """The hint "did you mean 'x'?", or an empty text where nothing is near."""
    near = nearest(word, choices)
    return f"did you mean '{near}'?" if near is not None else ""


def _letters(word: str) -> str:
    return "".join(c for c in word.casefold() if c.isalnum())
