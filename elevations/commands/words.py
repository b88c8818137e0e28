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

OF_SYSTEM = (
    "Every key of a profile system's file. Figures are plain millimetres; members run from a datum towards the glass: the outer edge of a frame or "
    "sash, the centre line of a mullion or transom. * must be given; a firm starts with these, and the rest can follow. "
    "For one key with its example: elevations words --system KEY."
)


@click.command(short_help="The words of the job file: every key, what it takes, an example.")
@click.argument("key", metavar="[KEY]", required=False)
@click.option("--system", "of_system", is_flag=True, help="The words of a profile system's file instead.")
def command(*, key: str | None, of_system: bool) -> None:
    """The words of the job file: every key with what it takes, or all about KEY.

    KEY is a key, or several joined by dots where blocks have the same: frame.width.

    \b
    elevations words
    elevations words lights
    elevations words frame.width
    elevations words --system hardware
    """  # noqa: D301 (click wants the character, not its name)
    from elevations.spec.reference import words
    from elevations.spec.system_reference import system_words

    known = list(system_words() if of_system else words())
    lines = _all(known, OF_SYSTEM if of_system else HEAD) if key is None else _about(known, _meant(known, key, of_system=of_system))
    click.echo("\n".join(lines))


def _all(known: Sequence[Word], head: str) -> Iterator[str]:
    yield from wrap(head, WIDE)
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


def _meant(known: Sequence[Word], key: str, *, of_system: bool) -> list[Word]:
    """The words whose path ends in this key; words for where there is none."""
    from elevations.spec.meant import meant_key

    wanted = tuple(part for part in key.strip(" :").split(".") if part)
    # What a window and the defaults both may say has its keys at the defaults, wherever one asks for them.
    for asked in (wanted, ("defaults", *wanted[1:])):
        found = [word for word in known if asked and word.path[-len(asked) :] == asked]
        if found or wanted[:1] != ("windows",):
            break
    if not found:
        near = meant_key(wanted[-1] if wanted else "", sorted({word.path[-1] for word in known}))
        hint = f"did you mean '{near}'?" if near else f"`elevations words{' --system' if of_system else ''}` lists them all"
        raise click.UsageError(f"{'a system file' if of_system else 'the job file'} has no key '{key[:60]}'; {hint}")
    return found
