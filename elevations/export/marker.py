"""What each written file carries to say that it is ours, and text made safe for any of them."""

from __future__ import annotations

import re

MARKER = "Drawn by elevations"
"""Near the top of every file, in a comment or note that readers pass over."""

ROOM = " " * 200
"""Among the keywords of a PDF: the job's name takes its place, padded to its length, so that no offset moves."""

_BLANK = re.compile(r"[\t\n\v\f\r\x85\u2028\u2029]+")
# C0 and C1 controls, what XML 1.0 or UTF-8 can't hold, and marks that turn the direction of the text round: on a
# drawing they could make 1216 read as 6121.
_UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")


def printable(text: str) -> str:
    """The text on one line, without the characters that no drawing can show."""
    return text if text.isascii() and text.isprintable() else _UNPRINTABLE.sub("", _BLANK.sub(" ", text))
