"""What a window is, in words for people who have never bought one. No terms of the trade, no weights, no codes alone."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.geometry.joined import Joined
from elevations.geometry.window import Light, Window
from elevations.openings import OPENINGS
from elevations.spec.model import Glass
from elevations.views.customer_tones import finished

SCREEN = "screen colour, ask for a sample"
FROM_OUTSIDE = "Left and right are as you look at the window from outside."
CONFIRM = "Sizes are confirmed on site before anything is made."
CAUTIONS = (
    ("These drawings show what will be made. They do not show that it meets your local rules on safety glass, escape in "
    "case of fire, falling out, fresh air, heat or wind: a licensed professional or your building authority decides that."),
    ("Glass low down, beside doors or near a bath, and windows that small children can reach, often need safety glass, "
    "a catch that limits how far they open, or both. Please say so if yours are such."),
)
DEMONSTRATION = "Made with demonstration profiles, whose figures are invented: not for manufacture."
_FREE_EDGE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def opening_words(light: Light) -> str:
    """'opens outwards, hinged on the left as you look at it from outside'."""
    hung = [sash for sash in light.sashes if sash.hinge_edges]
    plain = OPENINGS[light.opening].plain_words(light.swing, light.spec.leads)
    if plain:
        return plain
    if not light.sashes:
        return "does not open"
    if not hung:
        return "does not open; framed like the parts that do" if all(s.dummy for s in light.sashes) else light.words
    way = f"{light.swing}wards"
    phrases = [_hung_words(edge) for edge in hung[0].hinge_edges]
    if len(phrases) == 1:
        return f"opens {way}, {phrases[0]}"
    return f"opens {way} in two ways: {', or '.join(phrases)}"


def _hung_words(edge: str) -> str:
    if edge in ("left", "right"):
        return f"hinged on the {edge} as you look at it from outside"
    return f"hinged along the {edge}, so that its {_FREE_EDGE[edge]} swings open"


def extras(light: Light) -> list[str]:
    """What else the light has, each a sentence of its own without a full stop."""
    said = []
    if light.spec.restrictor:
        said.append("it has a catch that limits how far it opens")
    if light.spec.escape:
        two_ways = any(len(sash.hinge_edges) > 1 for sash in light.sashes)
        said.append("it is meant as a way out in an emergency" + (": turned like a door, not tilted" if two_ways else ""))
    if light.spec.vent:
        said.append("it has a small vent that can be left open")
    return said


def light_words(light: Light) -> str:
    """How it opens and what else it has, parted by semicolons, without a full stop."""
    return "; ".join([opening_words(light), *extras(light)])


def grouped(lights: Sequence[Light]) -> list[tuple[str, tuple[Light, ...]]]:
    """Lights that open alike, under what is said of them, in the order of the first of each."""
    found: dict[str, list[Light]] = {}
    for light in lights:
        found.setdefault(light_words(light), []).append(light)
    return [(said, tuple(alike)) for said, alike in found.items()]


def numbers(lights: Sequence[Light]) -> str:
    """'Part 1', 'Parts 1 and 5', 'Parts 1, 2 and 5'."""
    given = [str(light.number) for light in lights]
    if len(given) == 1:
        return f"Part {given[0]}"
    return f"Parts {', '.join(given[:-1])} and {given[-1]}"


def size_words(window: Window) -> str:
    """Overall size of the frame."""
    return f"{window.width.value:g} mm wide × {window.height.value:g} mm high"


def sill_words(window: Window) -> str:
    """Of the sill, where it has one."""
    return "with a sill under it, not counted in the size" if window.site and window.site.sill else ""


def finish_words(code: str) -> str:
    """'Agate grey (RAL 7038)'."""
    shown = finished(code)
    if not code:
        return "not chosen yet"
    return f"{shown.name} ({shown.code})" if shown.shown else f"{code} (shown in a neutral tone)"


_PANES = {1: "Single glass", 2: "Double glazing", 3: "Triple glazing"}


def glass_words(glass: Glass) -> str:
    """'Double glazing, patterned so that nobody sees in clearly, toughened safety glass on both sides'."""
    said = [_PANES[(len(glass.layers) + 1) // 2]]
    if glass.obscure:
        said.append("patterned so that nobody sees in clearly")
    names = {"outer": "the outside", "middle": "the middle pane", "inner": "the inside"}
    for word, panes in (("toughened", glass.toughened), ("laminated", glass.laminated)):
        if panes:
            where = "on both sides" if set(panes) == {"outer", "inner"} else f"on {' and '.join(names[pane] for pane in panes)}"
            said.append(f"{word} safety glass {where}")
    return ", ".join(said)


def glasses(window: Window) -> list[tuple[str, str]]:
    """Which parts ('' where it is all of them) have which glass, in words."""
    found: dict[str, list[Light]] = {}
    for light in window.lights:
        for pane in light.panes:
            alike = found.setdefault(glass_words(pane.make_up), [])
            if light not in alike:
                alike.append(light)
    if len(found) == 1:
        return [("", next(iter(found)))]
    return [(numbers(alike), said) for said, alike in found.items()]


def name_of(window: Window) -> str:
    """'Kitchen', or 'Window W2' where no place is given."""
    return window.location or f"Window {window.mark}"


_SIDES = {"left jamb": "on its left", "right jamb": "on its right", "head": "above it", "sill": "below it"}
_COUNTS = ("", "", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")


def joined_words(window: Window) -> str:
    """'Joined to window W2 on its right'; empty of one that stands alone."""
    said = [f"window {one.mark} {_SIDES[one.side]}" for one in window.neighbours]
    return f"Joined to {' and '.join(said)}" if said else ""


def name_of_set(joined: Joined) -> str:
    """'Parlour bay', or 'Windows W1 to W3 together' where no place is given."""
    return joined.location or f"Windows {joined.windows[0].mark} to {joined.windows[-1].mark} together"


def set_words(joined: Joined) -> str:
    """'Three windows that stand at angles as a bay: W1, W2, W3 from the left as you look at it from outside'."""
    way = {"bay": "that stand at angles as a bay", "stacked": "one above the other", "side-by-side": "side by side"}[joined.spec.way]
    order = "from the top" if joined.stacked else "from the left as you look at them from outside"
    return f"{_COUNTS[len(joined.windows)]} windows {way}: {', '.join(window.mark for window in joined.windows)} {order}"


def set_size(joined: Joined) -> str:
    """'2479 × 1290': as it is seen from in front, whole mm."""
    width = joined.plan.width if joined.plan is not None and joined.bay else joined.width
    return f"{width.value:.0f} × {joined.height.value:.0f}"


def set_size_words(joined: Joined) -> str:
    """Overall size of the whole, and how far a bay stands out."""
    wide, high = set_size(joined).split(" × ")
    out = f", standing out {joined.plan.projection.value:.0f} mm" if joined.plan is not None and joined.bay else ""
    return f"{wide} mm wide × {high} mm high{out}"


def load_words(joined: Joined) -> str:
    """What is known of what rests on it, and who decides."""
    said = {
        None: "Nobody has looked yet whether a wall, floor or roof above rests on it: that must be settled before the old windows come out.",
        True: "A wall, floor or roof above rests on it: a licensed professional must say what carries that.",
        False: "It was looked at on site: no wall, floor or roof above rests on it.",
    }[joined.spec.carries_load]
    return f"{said} Nothing here was worked out for such a load."


LAID_FLAT = "drawn laid flat, as if all stood in one plane"
