"""Whether what a light says of itself fits the way it opens."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from elevations.errors import Path, Problem
from elevations.openings import OPENINGS
from elevations.openings.base import Opening
from elevations.spec.fields import short
from elevations.spec.glazing_bars import problems_of_glazing_bars
from elevations.spec.meant import as_light, meant_choice, meant_key
from elevations.spelling import nearest

OTHER_WORDS = {
    "casement": "side-hung",
    "hopper": "bottom-hung",
    "awning": "top-hung",
    "vent": "top-hung",
    "tilt-turn": "tilt-and-turn",
    "tilt/turn": "tilt-and-turn",
    "turn-and-tilt": "tilt-and-turn",
    "picture": "fixed",
    "dead": "fixed",
    "dead-light": "fixed",
    "top-opener": "top-hung",
    "side-opener": "side-hung",
    "french": "side-hung-pair",
    "sash": "vertical-sliding",
    "box-sash": "vertical-sliding",
}
"""What the trade also says."""
HANDS = ("left", "right")
FANLIGHT = "a fanlight is any light above a transom: write how it opens, for example top-hung or fixed"


def problems_of_light(light: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong with one light entry as read."""
    kind = light.get("light")
    if not isinstance(kind, str):
        if isinstance(kind, int | float):
            yield _unknown_kind(short(kind), path)
        return
    opening = OPENINGS.get(kind.strip())
    if opening is None:
        yield _unknown_kind(kind, path)
        return
    yield from _hinge(light, opening, path)
    yield from _swing(light, opening, path)
    yield from _leads(light, opening, path)
    yield from problems_of_glazing_bars(light, path)
    if opening.has_sash(dummy=False):
        if light.get("sash") == "dummy":
            message = f"a {opening.key} light has a sash that opens; 'sash: dummy' is for lights that do not"
            yield Problem("not-wanted", message, "leave 'sash' out, or write `light: fixed`", (*path, "sash"))
        if "restrictor_releases" in light and light.get("restrictor") in (None, False):
            message = "'restrictor_releases' means nothing without a restrictor"
            yield Problem("not-wanted", message, "write `restrictor: true` beside it, or leave it out", (*path, "restrictor_releases"))
        return
    for key in ("escape", "restrictor", "handle_height", "opens_to", "clear_opening", "restrictor_releases"):
        if light.get(key) not in (None, False):
            message = f"a {opening.key} light does not open, so '{key}' means nothing on it"
            yield Problem("not-wanted", message, "leave it out, or say how the light opens", (*path, key))


def _unknown_kind(kind: str, path: Path) -> Problem:
    where = (*path, "light")
    known = ", ".join(OPENINGS)
    word = kind.strip().casefold().replace("_", "-").replace(" ", "-")
    if word == "fanlight":
        return Problem("unknown-light", "'fanlight' is not a way to open", FANLIGHT, where)
    first, _, rest = kind.strip().partition(" ")
    if first in OPENINGS and OPENINGS[first].takes_hinge and meant_choice(rest, HANDS):
        return Problem("unknown-light", f"'{short(kind)}' says how the light opens and where its hinges are", f"write `{as_light(kind.strip())}`", where)
    near = OTHER_WORDS.get(word) or nearest(kind, OPENINGS)
    hint = f"did you mean '{near}'?" if near else ""
    return Problem("unknown-light", f"'{short(kind)}' is not one of the ways to open: {known}", hint, where)


def _hinge(light: dict[str, Any], opening: Opening, path: Path) -> Iterator[Problem]:
    given = "hinge" in light
    misspelt = any(meant_key(str(key), ("hinge",)) for key in light.keys() - {"light", "hinge"})   # told as an unknown key
    if opening.takes_hinge and not given and not misspelt:
        message = f"a {opening.key} light needs 'hinge'"
        hint = "write `hinge: left` or `hinge: right`, seen from outside"
        yield Problem("hinge-missing", message, hint, (*path, "hinge"))
    elif given and not opening.takes_hinge:
        message = f"a {opening.key} light takes no 'hinge'"
        yield Problem("not-wanted", message, "leave it out, or write `light: side-hung`", (*path, "hinge"))


def _leads(light: dict[str, Any], opening: Opening, path: Path) -> Iterator[Problem]:
    lead = light.get("leads")
    if lead is None or lead in opening.leads:
        return
    if not opening.leads:
        takers = ", ".join(key for key, other in OPENINGS.items() if other.leads)
        yield Problem("not-wanted", f"a {opening.key} light takes no 'leads'", f"leave it out; it is for {takers}", (*path, "leads"))
    elif lead in ("left", "right", "top", "bottom"):
        message = f"the {lead} of a {opening.key} light cannot lead"
        yield Problem("lead-impossible", message, f"write `leads: {'` or `leads: '.join(opening.leads)}`, or leave it out", (*path, "leads"))


def _swing(light: dict[str, Any], opening: Opening, path: Path) -> Iterator[Problem]:
    swing = light.get("swing")
    if swing is None or swing in opening.swings:
        return
    if not opening.swings:
        why = "does not swing" if not opening.needs else "takes no 'swing': the way it moves says it all"
        yield Problem("not-wanted", f"a {opening.key} light {why}", "leave 'swing' out", (*path, "swing"))
    elif swing in ("out", "in"):
        message = f"a {opening.key} light cannot swing {swing}"
        hint = f"write `swing: {opening.swings[0]}`, or leave it out"
        yield Problem("swing-impossible", message, hint, (*path, "swing"))
