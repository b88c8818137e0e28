"""Whether a glass make-up can be made: pane, cavity, pane … and what is said of its panes and faces."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from elevations.errors import Path, Problem
from elevations.spec.fields import short
from elevations.spelling import nearest
from elevations.yaml_source import raw_text

PANE_MM = (2.0, 25.0)
CAVITY_MM = (4.0, 30.0)
MOST_PANES = 3
"""outer, middle, inner: the words have no name for a fourth."""
PANES_NAMED = {1: ("outer",), 2: ("outer", "inner"), 3: ("outer", "middle", "inner")}
MOST_MAKE_UPS = 200
GASES = ("air", "argon", "krypton")
"""With figures for heat; the test of `thermal` holds that these are all."""
EXAMPLE = "panes and cavities in mm from outside in, for example 4/20/4"


def problems_of_make_ups(make_ups: Any) -> Iterator[Problem]:
    """What is wrong with the job's `glass` block."""
    if not isinstance(make_ups, dict):
        return
    if len(make_ups) > MOST_MAKE_UPS:
        message = f"the job has {len(make_ups)} glass make-ups; at most {MOST_MAKE_UPS} are read"
        yield Problem("too-many-make-ups", message, "take out what no window uses", ("glass",))
        return
    if not make_ups:
        hint = "name one, for example `clear: {make_up: 4/20/4}`"
        yield Problem("no-glass", "the job has no glass make-up", hint, ("glass",))
    for name, glass in make_ups.items():
        text = raw_text(glass.get("make_up")) if isinstance(glass, dict) else None
        if text is None:
            continue
        path: Path = ("glass", name)
        fault = make_up_fault(text)
        yield from _problems_of_gas(glass.get("gas"), path)
        if fault:
            yield Problem("make-up", *fault, path=(*path, "make_up"))
        else:
            yield from _problems_of_panes(glass, path, (text.count("/") + 2) // 2)


def make_up_fault(text: str) -> tuple[str, str] | None:
    """Message and hint where a text is no make-up; None where it is one."""
    parts = [part.strip() for part in text.split("/")]
    shown = short(text)
    if not all(re.fullmatch(r"[0-9]{1,3}(\.[0-9]{1,3})?", part) for part in parts):
        return f"'{shown}' is not a glass make-up", _meant(text) or EXAMPLE
    if len(parts) % 2 == 0:
        return f"'{shown}' ends in a cavity: a make-up is pane/cavity/pane", EXAMPLE
    if len(parts) > 2 * MOST_PANES - 1:
        return f"'{shown}' has {(len(parts) + 1) // 2} panes; at most {MOST_PANES} can be named", EXAMPLE
    for number, part in enumerate(parts):
        what, (low, high) = ("cavity", CAVITY_MM) if number % 2 else ("pane", PANE_MM)
        if not low <= float(part) <= high:
            hint = EXAMPLE if len(parts) == 1 else ""
            return f"a {what} of {part} mm in '{shown}': it must be {low:g} to {high:g} mm", hint
    return None


GASES_AND_COATINGS = re.compile(r"(?i)(?<=[0-9])(?:ar|kr)(?=[/-])|\s*(?:low.?e|argon|krypton|soft|hard)\b.*")
"""What people write into a make-up that has keys of its own."""


def _meant(text: str) -> str:
    """The make-up that a text in other signs stands for: 4-20-4, 4mm/20mm/4mm, 6.4L/16/4, 4/20Ar/4."""
    plain = re.sub("(?i) ?mm", "", text)
    bare = GASES_AND_COATINGS.sub("", plain).strip()
    if bare != plain:
        return f"write {bare}; gas and coating have keys of their own: gas, low_e" if make_up_fault(bare) is None else ""
    parts = [part.strip() for part in re.split(r"[/x×*–-]", plain)]
    bare = "/".join(re.sub("[LlTt]$", "", part).strip() for part in parts)
    if bare == text or make_up_fault(bare) is not None:
        return ""
    names = PANES_NAMED[(len(parts) + 1) // 2]
    said = [
        f"`{key}: [{', '.join(named)}]`"
        for letter, key in (("l", "laminated"), ("t", "toughened"))
        if (named := [names[number // 2] for number, part in enumerate(parts) if part.casefold().endswith(letter)])
    ]
    beside = f", with {' and '.join(said)} beside it" if said else ""
    return f"write {bare}{beside}"


def _problems_of_panes(glass: dict[str, Any], path: Path, panes: int) -> Iterator[Problem]:
    make_up = short(glass["make_up"])
    yield from _problems_of_coatings(glass.get("low_e"), (*path, "low_e"), make_up, panes)
    named = PANES_NAMED[panes]
    if "impact_class" in glass and not (glass.get("toughened") or glass.get("laminated")):
        message = f"an impact class is declared for {make_up}, but none of its panes is safety glass"
        yield Problem("not-wanted", message, "say which are toughened or laminated, or leave it out", (*path, "impact_class"))
    for key in ("toughened", "laminated", "obscure"):
        given = glass.get(key)
        for number, pane in enumerate(given if isinstance(given, list) else [given]):
            if pane in PANES_NAMED[MOST_PANES] and pane not in named:
                where = (*path, key, number) if isinstance(given, list) else (*path, key)
                message = f"{make_up} has no {pane} pane"
                yield Problem("glass-pane", message, f"its panes are called {' and '.join(named)}", where)


def _problems_of_gas(given: Any, path: Path) -> Iterator[Problem]:
    """A word that is nearly the name of a gas with known figures; anything else, such as 'argon 90 %', is taken as written."""
    text = (raw_text(given) or "").strip()
    if text.isalpha() and text.casefold() not in GASES and (near := nearest(text, GASES)) is not None:
        yield Problem("unknown-gas", f"'{short(text)}' is not a gas that is known here", f"did you mean '{near}'?", (*path, "gas"))


def _problems_of_coatings(given: Any, path: Path, make_up: str, panes: int) -> Iterator[Problem]:
    """Coatings on faces that the make-up does not have, and two on one face."""
    seen: list[int] = []
    for number, coating in enumerate(given if isinstance(given, list) else [given]):
        face = coating.get("face") if isinstance(coating, dict) else None
        where = (*path, number, "face") if isinstance(given, list) else (*path, "face")
        if not isinstance(face, int):
            continue
        if 2 * panes < face <= 2 * MOST_PANES:
            message = f"there is no face {face}: {make_up} has faces 1 to {2 * panes}"
            yield Problem("glass-face", message, "faces are counted from outside", where)
        elif face in seen:
            yield Problem("glass-face", f"face {face} is coated twice", "give each face once, counted from outside", where)
        seen.append(face)
