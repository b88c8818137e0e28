"""Whether bars and lights fit each other: as many lights as the bars make, bars in order and inside what they divide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from elevations.errors import Path, Problem
from elevations.spec.lengths import NotALength, read_length
from elevations.spec.model import BAR_SPACINGS, FRAME_HEIGHT_MM, FRAME_WIDTH_MM
from elevations.spec.shape import with_frame
from elevations.spelling import counted

MOST_LEVELS = 12
SINGULAR = {"mullions": "mullion", "transoms": "transom"}
AXES = {"mullions": 0, "transoms": 1}
"""Which span a kind of bar divides: the width or the height."""
DATUM = "centre lines are measured from the frame's {edge} outer edge, in nested divisions too"
FAR_OUTSIDE = 2.0
"""A bar at so many times the frame's size is a slip of the key; one that is a little outside is a slip of the tape."""
EDGES = {"mullions": "left", "transoms": "top"}
SPACED_SIDEWAYS = ("equal-sight", "equal-glass")
"""The spacings that need one pane, or a row of them, in each part."""


class Span(NamedTuple):
    """From where to where something runs, mm from the frame's left or top; None where that is not known."""

    start: float
    end: float | None


class Part(NamedTuple):
    """An entry that is divided, and where it stands."""

    entry: dict[str, Any]
    path: Path
    spans: tuple[Span, Span]
    """Across and down."""
    depth: int


def lights_of(entry: dict[str, Any], path: Path) -> Iterator[tuple[dict[str, Any], Path]]:
    """Every light of a window's data with its path, in reading order."""
    lights = entry.get("lights")
    for number, inner in enumerate(lights if isinstance(lights, list) else []):
        if isinstance(inner, dict):
            where = (*path, "lights", number)
            if "light" in inner:
                yield inner, where
            else:
                yield from lights_of(inner, where)


def problems_of_division(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong with how a window is divided."""
    frame = with_frame(window).get("frame")
    sizes = frame if isinstance(frame, dict) else {}
    spans = (Span(0.0, _size(sizes.get("width"), FRAME_WIDTH_MM)), Span(0.0, _size(sizes.get("height"), FRAME_HEIGHT_MM)))
    yield from _problems_of_part(Part(window, path, spans, 0))


def _problems_of_part(part: Part) -> Iterator[Problem]:
    entry, path = part.entry, part.path
    if part.depth > MOST_LEVELS:
        message = f"the window is divided more than {MOST_LEVELS} levels deep"
        yield Problem("too-deep", message, "list bars that run side by side in one entry", path)
        return
    kinds = [kind for kind in SINGULAR if kind in entry]
    lights = entry.get("lights")
    if len(kinds) == 2:
        message = "mullions and transoms cannot divide the same entry"
        hint = "divide by one of them here, and by the other in an entry of its `lights`"
        yield Problem("two-divisions", message, hint, (*path, "transoms"))
    elif isinstance(lights, list):
        yield from _problems_of_count(part, kinds[0] if kinds else None, lights)
    for kind in kinds:
        yield from _problems_of_bars(part, kind)
    if not isinstance(lights, list):
        return
    for number, inner in enumerate(lights):
        if isinstance(inner, dict) and "light" not in inner:
            spans = _inner_spans(part, kinds[0] if len(kinds) == 1 else None, number, len(lights))
            yield from _problems_of_part(Part(inner, (*path, "lights", number), spans, part.depth + 1))


def _problems_of_count(part: Part, kind: str | None, lights: list[Any]) -> Iterator[Problem]:
    where: Path = (*part.path, "lights")
    count = len(lights)
    if count == 0:
        yield Problem("light-count", "'lights' is empty", "for example `lights: [{light: fixed}]`", where)
    elif kind is None:
        yield from _undivided(part, count, where)
    else:
        yield from _divided(part, kind, lights)


def _undivided(part: Part, count: int, where: Path) -> Iterator[Problem]:
    if count > 1:
        message = f"{count} lights, and no mullions or transoms between them"
        hint = "write `mullions:` or `transoms:` beside them, for example `mullions: equal-glass`"
        yield Problem("light-count", message, hint, where)
    elif part.depth:
        message = "this entry holds one light and nothing that divides it"
        yield Problem("light-count", message, "write the light itself here, without 'lights'", where)


def _divided(part: Part, kind: str, lights: list[Any]) -> Iterator[Problem]:
    bars, count, name = part.entry[kind], len(lights), SINGULAR[kind]
    where: Path = (*part.path, "lights")
    if isinstance(bars, list) and bars and count != len(bars) + 1:
        plural, makes = ("" if len(bars) == 1 else "s"), ("makes" if len(bars) == 1 else "make")
        message = f"{_lights(count)} but {len(bars)} {name}{plural} {makes} {len(bars) + 1}"
        yield Problem("light-count", message, f"give {_lights(len(bars) + 1)}, or {counted(count - 1, name) if count > 1 else f'leave {kind!r} out'}", where)
    if bars in BAR_SPACINGS and count == 1:
        message = f"'{kind}: {bars}' with one light: there is nothing to divide"
        yield Problem("light-count", message, f"list the lights, or leave '{kind}' out", where)
    if bars in SPACED_SIDEWAYS:
        for number, inner in enumerate(lights):
            if isinstance(inner, dict) and "light" not in inner and kind in inner:
                message = f"'{bars}' cannot space an entry that is divided by {kind} again"
                hint = f"list its {kind} here, or give centre lines in mm"
                yield Problem("spacing-nested", message, hint, (*where, number, kind))


def _problems_of_bars(part: Part, kind: str) -> Iterator[Problem]:
    bars, name = part.entry[kind], SINGULAR[kind]
    if not isinstance(bars, list):
        return
    if not bars:
        hint = f"leave it out, or give centre lines: `{kind}: [600]`"
        yield Problem("light-count", f"'{kind}' is empty", hint, (*part.path, kind))
    span = part.spans[AXES[kind]]
    previous: float | None = None
    for number, raw in enumerate(bars):
        at = _mm(raw)
        if at is None:
            continue
        where = (*part.path, kind, number)
        if previous is not None and at <= previous:
            same = f"two {kind} stand at {at:g}"
            order = "left to right" if kind == "mullions" else "the top down"
            message = same if at == previous else f"{name} {at:g} stands after {previous:g}"
            yield Problem("bar-order", message, f"{kind} are listed from {order}, each only once", where)
        elif not span.start < at or (span.end is not None and at >= span.end):
            yield _outside(part, kind, at, where)
        previous = at


def _outside(part: Part, kind: str, at: float, where: Path) -> Problem:
    name, span = SINGULAR[kind], part.spans[AXES[kind]]
    size = "wide" if kind == "mullions" else "high"
    hint = DATUM.format(edge=EDGES[kind])
    if part.depth == 0 or span.end is None:
        end = "" if span.end is None else f", which is {span.end:g} {size}"
        if span.end is not None and at % 10 == 0 and at / 10 < span.end and at >= FAR_OUTSIDE * span.end:
            hint = f"is there one digit too many? {at / 10:g} would fit"
        return Problem("bar-outside", f"a {name} at {at:g} is outside the frame{end}", hint, where)
    message = f"a {name} at {at:g} is outside the part it divides, which runs from {span.start:g} to {span.end:g}"
    if span.start < span.start + at < span.end:
        hint += f": {span.start + at:g} if {at:g} was measured from {span.start:g}"
    return Problem("bar-outside", message, hint, where)


def _inner_spans(part: Part, kind: str | None, number: int, count: int) -> tuple[Span, Span]:
    """What bounds one entry: the bars beside it where their places are known, else what bounds the whole."""
    bars = part.entry.get(kind) if kind else None
    if kind is None or not isinstance(bars, list) or count != len(bars) + 1:
        return part.spans
    whole = part.spans[AXES[kind]]
    start = _mm(bars[number - 1]) if number else whole.start
    end = _mm(bars[number]) if number < len(bars) else whole.end
    inner = Span(whole.start if start is None else start, end)
    return (inner, part.spans[1]) if AXES[kind] == 0 else (part.spans[0], inner)


def _size(value: Any, allowed: tuple[float, float]) -> float | None:
    """A size of the frame; None where it is told of as wrong itself, so that nothing is measured against it."""
    mm = _mm(value)
    return mm if mm is not None and allowed[0] <= mm <= allowed[1] else None


def _mm(value: Any) -> float | None:
    if value is None:
        return None
    mm = read_length(value)
    return None if isinstance(mm, NotALength) else mm


def _lights(count: int) -> str:
    return "1 light" if count == 1 else f"{count} lights"
