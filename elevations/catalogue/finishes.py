"""Colours by their code, for the screen: a finish is ordered by code, never by what a screen shows."""

from __future__ import annotations

import re

SCREEN_COLOURS: dict[str, tuple[str, str]] = {
    "1015": ("Light ivory", "#e6d2b5"),
    "6009": ("Fir green", "#31372b"),
    "7012": ("Basalt grey", "#575d5e"),
    "7015": ("Slate grey", "#4f5358"),
    "7016": ("Anthracite grey", "#383e42"),
    "7021": ("Black grey", "#2f3234"),
    "7035": ("Light grey", "#c5c7c4"),
    "7038": ("Agate grey", "#b0b0a9"),
    "7040": ("Window grey", "#989ea1"),
    "8014": ("Sepia brown", "#4a3526"),
    "8017": ("Chocolate brown", "#442f29"),
    "8022": ("Black brown", "#1a1719"),
    "9001": ("Cream", "#e9e0d2"),
    "9005": ("Jet black", "#0e0e10"),
    "9006": ("White aluminium", "#a1a1a0"),
    "9007": ("Grey aluminium", "#868581"),
    "9010": ("Pure white", "#f1ede1"),
    "9016": ("Traffic white", "#f1f1ea"),
}
"""RAL Classic number to its name and an APPROXIMATE screen colour (sRGB).

RAL publishes painted samples, not screen values, and public tables differ by up to about 16 steps in 255. These are
from one public table that several repositories repeat; 1015 and 6009 are from memory.
"""

_RAL = re.compile(r"\s*(?:RAL)?[\s-]*(\d{4})\s*", re.IGNORECASE)


def screen_colour(code: str) -> tuple[str, str] | None:
    """Name and approximate screen colour '#rrggbb' of a finish such as 'RAL 7038' or '7038'; None if not known."""
    found = _RAL.fullmatch(code)
    return SCREEN_COLOURS.get(found.group(1)) if found else None
