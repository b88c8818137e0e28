"""What people write who think in other words than the job file's: the trade's other names, plain text for a block.

Each function gives what would have been right, or an empty text where nothing can be told from what was written.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from typing import Any

from elevations.openings import OPENINGS
from elevations.spec.fields import short
from elevations.spelling import nearest
from elevations.yaml_source import raw_text

OTHER_KEYS = {
    "size": "frame", "sizes": "frame", "dimensions": "frame", "overall": "frame", "name": "mark", "id": "mark", "ref": "mark", "no": "mark",
    "number": "mark", "panes": "lights", "openers": "lights", "sashes": "lights", "type": "light", "style": "light", "opens": "light",
    "opening": "light", "hand": "hinge", "handing": "hinge", "hung": "hinge", "hinges": "hinge", "hinged": "hinge", "glazing": "glass",
    "colour": "finish", "color": "finish", "profile": "system", "cill": "sill", "unit": "make_up", "spec": "make_up", "build": "make_up",
    "coating": "low_e", "lowe": "low_e", "tempered": "toughened", "frosted": "obscure", "obscured": "obscure", "patterned": "obscure",
    "date": "surveyed", "address": "site", "customer": "client", "w": "width", "h": "height", "georgian": "bars", "astragals": "bars",
    "post": "mullions", "posts": "mullions", "notes": "location", "area": "floor_area", "vent": "ventilation",
    "semicircular": "arched", "segmental": "arched", "arch": "arched", "curved": "arched", "gothic": "pointed", "apex": "gable", "pitched": "gable",
    "sloped": "raked", "sloping": "raked", "slanted": "raked", "circle": "circular", "round": "circular", "room_name": "location", "kind": "way", "type_of_joint": "way",
}  # fmt: skip
"""Other words for keys; each stands for its own only in a block that has that key. Common practice, no source."""
QUANTITIES = frozenset({"qty", "quantity", "count", "off", "number_off", "no_off", "pieces"})
OTHER_CHOICES = {
    "left": ("l", "lh", "lhs", "lefthand", "lefthandside"), "right": ("r", "rh", "rhs", "righthand", "righthandside"),
    "outer": ("outside", "external", "exterior", "front"), "inner": ("inside", "internal", "interior", "back"),
    "ground": ("0", "g", "downstairs", "gf", "groundfloor"), "upper": ("1", "2", "3", "first", "second", "upstairs", "1st", "2nd", "ff", "firstfloor", "secondfloor"),
    "new-dwelling": ("new", "newbuild", "newhouse", "newbuilding"), "replacement": ("existing", "refurb", "refurbishment", "retrofit"),
    "out": ("outward", "outwards", "external"), "in": ("inward", "inwards", "internal"),
    "bay": ("angled", "splay", "bow"), "side-by-side": ("row", "coupled", "beside"), "stacked": ("stack", "above", "over"),
    "hinge": ("hinges", "pivot"), "lock": ("handle",), "head": ("top",), "sill": ("bottom", "cill"),
}  # fmt: skip
"""Other words for choices, small and without signs. Common practice, no source."""
ALL_OF_THEM = frozenset({"both", "all", "yes", "true"})
NONE_OF_THEM = frozenset({"none", "no", "neither", "false"})
TWO_SIZES = re.compile(r"([0-9.]+) ?(?:mm)? ?[x×*] ?([0-9.]+) ?(?:mm)?")
PLAIN_TO_BLOCK = {"sill": "projection", "fixings": "corner", "room": "use", "low_e": "face", "arched": "rise", "circular": "diameter", "lintel": "kind",
    "window_board": "thickness", "saw": "kerf",
}  # fmt: skip
"""The key that plain text for one of these blocks most likely is the value of."""


def meant_key(key: str, known: Collection[str]) -> str:
    """The key of this block that another word stands for, or that is spelt nearly so."""
    bare = key.strip().casefold().replace("-", "_").replace(" ", "_")
    other = OTHER_KEYS.get(bare, "")
    if other == "mark" and "reference" in known:   # of a job, what names it is its reference
        other = "reference"
    return other if other in known else nearest(key, known) or ""


def meant_choice(text: str, choices: Collection[str]) -> str:
    """The choice that another word stands for, or that is spelt nearly so."""
    bare = "".join(c for c in text.casefold() if c.isalnum())
    return next((choice for choice in choices if bare in OTHER_CHOICES.get(choice, ())), "") or nearest(text, choices) or ""


def as_list(key: str, value: Any, choices: Sequence[str]) -> str:
    """A list as it would be written, for what was given in its place."""
    if isinstance(value, dict):
        if value and all(item in (None, "") for item in value.values()):
            return f"lists stand in square brackets: `{key}: [{', '.join(map(short, value))}]`"
        if value and all(raw_text(item) is not None for item in value.values()):
            return f"put it in brackets: `{key}: [{{{', '.join(f'{short(name)}: {short(item)}' for name, item in value.items())}}}]`"
        example = {"windows": "- mark: W1", "lights": "- {light: fixed}", "joined": "- {mark: B1, …}"}.get(key, "- …")
        return f"start each entry of the list with '- ': `{example}`"
    text = short(value)
    if key == "windows":
        text = ", ".join(re.split(r"[\s,;+&]+", text))
    if choices:
        said = text.casefold()
        if said in NONE_OF_THEM:
            return f"where there is none, write `{key}: []`"
        named = [meant_choice(text, choices)] if said not in ALL_OF_THEM else [c for c in ("outer", "inner") if c in choices]
        text = ", ".join(name for name in named if name) or choices[0]
    return f"put it in brackets: `{key}: [{as_light(text) if key == 'lights' else text}]`"


def as_light(text: str) -> str:
    """A light as it would be written, for a text such as 'side-hung left'."""
    first, _, rest = text.partition(" ")
    way = nearest(text, OPENINGS) or nearest(first, OPENINGS)
    if way is None:
        return "{light: fixed}"
    hand = meant_choice(rest, ("left", "right")) if OPENINGS[way].takes_hinge else ""
    return f"{{light: {way}, hinge: {hand or 'left'}}}" if OPENINGS[way].takes_hinge else f"{{light: {way}}}"


def as_block(key: str, value: Any) -> str:
    """A block as it would be written, for plain text in its place."""
    numbers = value if isinstance(value, list | tuple) and len(value) == 2 else None
    text = " x ".join(short(number) for number in numbers) if numbers else (raw_text(value) or "")
    sizes = TWO_SIZES.fullmatch(text.strip())
    if sizes and key in ("frame", "opening", "clear_opening", "bars"):
        first, second = ("columns", "rows") if key == "bars" else ("width", "height")
        return f"{key}: {{{first}: {sizes[1]}, {second}: {sizes[2]}}}"
    if not text or numbers or text.casefold() in ALL_OF_THEM | {"no", "false", "on", "off"}:
        return ""
    if key == "finish":
        return f"finish: {{outside: {short(text)}, inside: {short(text)}}}"
    return f"{key}: {{{PLAIN_TO_BLOCK[key]}: {short(text)}}}" if key in PLAIN_TO_BLOCK else ""
