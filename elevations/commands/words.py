"""`elevations words`: the language of the job file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from elevations.spec.reference import Word

WIDE = 100
HEAD = (
    'Every key of a job file. Lengths are millimetres unless a unit is given: 1200, "1.2 m", "47 1/4 in". Everything is seen from outside. '
    "* must be given. For one key with its example: elevations words KEY."
)


@click.command(short_help="The words of the job file: every key, what it takes, an example.")
@click.argument("key", metavar="[KEY]", required=False)
def command(key: str | None) -> None:
    """The words of the job file: every key with what it takes, or all about KEY.

    KEY is a key, or several joined by dots where blocks have the same: frame.width.

    \b
    elevations words
    elevations words lights
    elevations words frame.width
    """  # noqa: D301 (click wants the character, not its name)
    from elevations.spec.reference import words

    known = list(words())
    lines = _all(known) if key is None else _about(known, _meant(known, key))
    click.echo("\n".join(lines))


def _all(known: Sequence[Word]) -> Iterator[str]:
    yield from wrap(HEAD, WIDE)
    for word in known:
        if len(word.path) == 1:
            yield ""
        yield from _short(word)


def _about(known: Sequence[Word], found: Sequence[Word]) -> Iterator[str]:
    """Each of the found in full, then what stands in its block."""
    for number, word in enumerate(found):
        if number:
            yield ""
        yield from _short(word)
        if word.example:
            yield f"    for example `{word.example}`"
        for inner in known:
            if len(inner.path) > len(word.path) and inner.path[: len(word.path)] == word.path:
                yield from ("  " + line for line in _short(inner))


def _short(word: Word) -> Iterator[str]:
    default = f"; left out: {word.default}" if word.default else ""
    yield from wrap(f"{word.name}{'*' if word.needed else ''}  ({word.takes}{default})", WIDE, subsequent_indent="    ")
    yield from wrap(word.says, WIDE, initial_indent="    ", subsequent_indent="    ")


def _meant(known: Sequence[Word], key: str) -> list[Word]:
    """The words whose path ends in this key; words for where there is none."""
    from elevations.spec.meant import meant_key

    wanted = tuple(part for part in key.strip(" :").split(".") if part)
    found = [word for word in known if wanted and word.path[-len(wanted) :] == wanted]
    if not found:
        near = meant_key(wanted[-1] if wanted else "", sorted({word.path[-1] for word in known}))
        hint = f"did you mean '{near}'?" if near else "`elevations words` lists them all"
        raise click.UsageError(f"the job file has no key '{key[:60]}'; {hint}")
    return found
