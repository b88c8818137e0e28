"""What a written file says of itself: that this program drew it, for which job, and a checksum that tells of later changes.

The stamp stands where readers pass over it: in the comment at the top of DXF, SVG and HTML, in a comment before the end
of PDF, in the comment of the archive that a workbook is. CSV has no place for one.
"""

from __future__ import annotations

import hashlib
import io
import json
import re
import zipfile
from html import escape
from typing import NamedTuple

from elevations.export.marker import MARKER, ROOM, printable

HEAD_BYTES, TAIL_BYTES = 512, 1024
"""How far from the start, or from the end, of a file its stamp may stand."""
LONGEST_NAME_BYTES = 180
"""A comment of DXF is one line of 255 characters at most (from memory)."""
ZIP, PDF, DXF = b"PK\x03\x04", b"%PDF-", b"999\n"
_NOTHING = "0" * 16
_STAMP = re.compile(MARKER.encode() + rb' for ("(?:[^"\\]|\\.){0,180}"), checksum ([0-9a-f]{16})')


class Stamp(NamedTuple):
    """What a file says of itself."""

    job: str
    changed: bool
    """Something other than this program wrote to it since."""


def stamped(data: bytes, job: str) -> bytes:
    """The file with its stamp; the same file and job give the same bytes. What has no place for a stamp stays as it is."""
    stamp = f"{MARKER} for {_quoted(shortened(job))}, checksum {_NOTHING}".encode()
    if data.startswith(ZIP):
        marked = _with_comment(data, stamp)
    elif data.startswith(PDF):
        named = re.sub(r"[()\\]", "", f"Job: {shortened(job)}").encode("ascii", "replace")[: len(ROOM)]   # what a string of PDF takes as it is
        data = data.replace(ROOM.encode(), named.ljust(len(ROOM)), 1)
        before, end, after = data.rpartition(b"startxref")   # behind it, no offset that the file keeps would move
        marked = before + b"% " + stamp + b"\n" + end + after
    elif MARKER.encode() in data[:HEAD_BYTES]:
        marked = _with_property(data, shortened(job)).replace(MARKER.encode(), stamp, 1)
    else:
        return data
    return marked.replace(stamp, stamp[: -len(_NOTHING)] + _checksum(marked), 1)


def stamp_of(data: bytes) -> Stamp | None:
    """The stamp of a whole file; None where it has none."""
    found = _STAMP.search(data[:HEAD_BYTES]) or _STAMP.search(data[-TAIL_BYTES:])
    if found is None:
        return None
    bare = data.replace(found[0], found[0][: -len(_NOTHING)] + _NOTHING.encode(), 1)
    return Stamp(json.loads(found[1]), _checksum(bare) != found[2])


def shortened(job: str) -> str:
    """The job's name as a stamp holds it; one that is too long ends in a hash, so that different ones stay different."""
    name = printable(job)
    if len(_quoted(name)) <= LONGEST_NAME_BYTES:
        return name
    ending = f"… {hashlib.sha256(name.encode()).hexdigest()[:8]}"
    while len(_quoted(name + ending)) > LONGEST_NAME_BYTES:
        name = name[:-1]
    return name + ending


def _quoted(name: str) -> str:
    """In quotes and ASCII, and without '--', which would end a comment of XML."""
    return json.dumps(name).replace("--", "-\\u002d")


def _checksum(data: bytes) -> bytes:
    return hashlib.sha256(data).hexdigest()[: len(_NOTHING)].encode()


def _with_comment(data: bytes, comment: bytes) -> bytes:
    out = io.BytesIO(data)
    with zipfile.ZipFile(out, "a") as archive:
        archive.comment = comment
    return out.getvalue()


def _with_property(data: bytes, job: str) -> bytes:
    """A DXF names its job among the drawing's properties too, where CAD programs show it, and an SVG in its metadata."""
    if data.startswith(DXF):
        named = f"  9\n$CUSTOMPROPERTYTAG\n  1\nJob\n  9\n$CUSTOMPROPERTY\n  1\n{job}\n"
        return data.replace(b"  0\nENDSEC\n", named.encode() + b"  0\nENDSEC\n", 1)
    before, end, after = data.rpartition(b"</svg>")
    if before and not after.strip():
        return before + f"<metadata>Job: {escape(job)}</metadata>\n".encode() + end + after
    return data
