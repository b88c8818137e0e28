"""Marks as file names: what a mark may do on a drawing, it may not do to a folder."""

from __future__ import annotations

import hashlib
import unicodedata

LONGEST_NAME_BYTES = 80
"""Well under the 255 bytes that file systems take, with room for an ending and a temporary suffix."""
DEVICE_NAMES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in "0123456789¹²³")}
)
"""Names that Windows keeps for devices, whatever ending follows (Microsoft, 'Naming Files, Paths, and Namespaces',
from memory)."""
KEPT_SIGNS = "-_."


def file_name(mark: str) -> str:
    """A safe file name for a mark, without an ending; the mark itself wherever that is safe.

    Letters, digits, '-', '_' and '.' stay, anything else becomes '-'. A name that had to change carries a short hash
    of the mark, so that different marks stay different. Never empty, never hidden, never a device name.
    """
    plain = unicodedata.normalize("NFC", mark)
    name = "".join(c if c.isalnum() or c in KEPT_SIGNS else "-" for c in plain).lstrip(".").rstrip(".")
    if name.split(".")[0].casefold() in DEVICE_NAMES:
        name = name.replace(".", "-")
    elif name == mark and name and len(name.encode()) <= LONGEST_NAME_BYTES:
        return name
    suffix = hashlib.sha256(mark.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    room = LONGEST_NAME_BYTES - len(suffix) - 1
    cut = name.encode()[:room].decode("utf-8", "ignore").rstrip(".")
    return f"{cut or 'window'}-{suffix}"


def folded(name: str) -> str:
    """Equal for two names that are one file where capitals do not count."""
    return unicodedata.normalize("NFC", name).casefold()
