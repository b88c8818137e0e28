"""What kind of room a window is in, from the word that the job gives for its use."""

from __future__ import annotations

import re
from collections.abc import Mapping

OTHER = "other"
STRICTEST_FIRST = ("habitable", "kitchen", "bathroom", "sanitary", "utility", OTHER)
"""Of a room that is several things, such as a kitchen with a dining table, more is asked by the earlier."""


def kind_of(use: str, rooms: Mapping[str, str]) -> str | None:
    """One of STRICTEST_FIRST; None where no word of the use is known, so that nothing is decided by a slip of the key.

    `rooms`: kind by word, in lower case. 'Bedroom 2' and 'front bedroom' are bedrooms. Rules that name no rooms tell none apart.
    """
    said = " ".join(re.findall(r"[^\W\d_]+(?:-[^\W\d_]+)*", use.casefold()))
    if not said:
        return None
    if not rooms or said in rooms:
        return rooms.get(said, OTHER)
    kinds = {kind for word, kind in rooms.items() if re.search(rf"\b{re.escape(word)}\b", said)}
    return next((kind for kind in STRICTEST_FIRST if kind in kinds), None)
