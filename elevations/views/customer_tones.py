"""What a window looks like to the people who will live with it: tones of its finish, its glass and the wall round it.

Every tone is '#rrggbb' for the screen. A finish is ordered by its code, never by what a screen shows.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.finishes import screen_colour

NOT_CHOSEN = "#dcd8cf"
"""Stands for a finish that the job does not name, or whose code has no screen colour here."""
GLASS = {"outside": "#b3c6cc", "inside": "#dbe7ea"}
"""From outside a pane is darker than the wall, from inside it is the light."""
SHEEN = {"outside": ("#c3d2d6", "#d0dcdf"), "inside": ("#e5eef0", "#eef4f5")}
"""Two slanting bands, the second brighter, as a calm sky leaves them."""
OBSCURE, OBSCURE_BRIGHT = "#cfdadb", "#e9efee"
METAL, METAL_EDGE = "#8d8a84", "#625f5a"
WALL = {"outside": "#e9e0d1", "inside": "#f3eee5"}
REVEAL = {"outside": "#cfc3b0", "inside": "#e2dacb"}
DARK = 0.2
"""Relative luminance under which shades are made by lightening rather than by darkening."""


@dataclass(frozen=True, slots=True)
class Finished:
    """A finish as it is shown."""

    code: str
    """As ordered: 'RAL 7038'; empty where the job names none."""
    name: str
    """'Agate grey'; empty where the code is not in our list."""
    tone: str

    @property
    def shown(self) -> bool:
        """Whether the tone is that of the code."""
        return bool(self.name)


def finished(code: str) -> Finished:
    """How a finish is shown; a calm neutral where its colour is not known."""
    found = screen_colour(code) if code else None
    return Finished(code, *found) if found else Finished(code, "", NOT_CHOSEN)


def mixed(tone: str, other: str, share: float) -> str:
    """`share` of `other` in `tone`, channel by channel in sRGB: for looks, not for measuring colour."""
    ends = zip(_channels(tone), _channels(other), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in ends)


def luminance(tone: str) -> float:
    """Relative luminance, 0 black to 1 white (WCAG 2.2, definition of relative luminance)."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (v / 255 for v in _channels(tone))]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def facet(tone: str, right: float, up: float) -> str:
    """The tone of a bevelled face that looks that way (a unit direction): light comes from the upper left."""
    lit = (up - 0.5 * right) / 1.118   # 1.118: the length of (-0.5, 1), so that lit runs from -1 to 1
    if luminance(tone) < DARK:
        return mixed(tone, "#ffffff", 0.10 + 0.08 * lit)
    return mixed(tone, "#ffffff", 0.30 * lit) if lit > 0 else mixed(tone, "#000000", -0.10 * lit)


def edge(tone: str) -> str:
    """The tone of a thin line on the finish: seen, and no harder than it must be."""
    return mixed(tone, "#ffffff", 0.34) if luminance(tone) < DARK else mixed(tone, "#20262c", 0.42)


def gap(tone: str) -> str:
    """The tone of the shadow where two members meet."""
    return mixed(tone, "#000000", 0.55)


def _channels(tone: str) -> tuple[int, int, int]:
    return int(tone[1:3], 16), int(tone[3:5], 16), int(tone[5:7], 16)
