"""Files written whole or not at all, and never over somebody else's."""

from __future__ import annotations

import secrets
from errno import EISDIR
from pathlib import Path

from elevations.export.marker import MARKER

_MARKER_WITHIN = 512
"""Bytes from the start of a file in which its marker stands."""
_ZIP = b"PK\x03\x04"


class NotOurs(Exception):  # noqa: N818 - says what is so, and the command line turns it into words
    """A file stands where ours would go, and nothing says that we wrote it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        super().__init__(f"{path} is there already and was not written by elevations")

    hint = "move it away, choose another folder with --out, or replace it with --force"


def write_whole(path: Path, data: bytes, *, force: bool = False) -> None:
    """Put the data where the path says, through a file beside it that is renamed at the end; makes missing folders.

    Raises NotOurs where another file is in the way and `force` is not given, and OSError where the system refuses:
    no permission, a folder of that name, a full disk. In every case what was there stays as it was.
    """
    if path.is_dir():
        raise IsADirectoryError(EISDIR, "a folder has this name", str(path))
    if not force and not may_replace(path, data):
        raise NotOurs(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    # Its own short name: the file's may be as long as the system takes. Opened by us and not by tempfile, so that the
    # file gets the permissions that the user's other files get.
    beside = path.parent / f".{secrets.token_hex(6)}.part"
    try:
        with beside.open("xb") as file:
            file.write(data)
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def may_replace(path: Path, data: bytes = b"") -> bool:
    """True where nothing is there, or a file with our marker near its top; a workbook, which is a zip, has it at its end.

    A CSV file has no place for a marker: one that has the same headings as `data`, which would replace it, is ours.
    """
    if not path.exists():
        return True
    # A pipe or a device would hang a reader or swallow the drawing.
    if not path.is_file():
        return False
    with path.open("rb") as file:
        first = file.read(_MARKER_WITHIN)
        if first.startswith(_ZIP):
            file.seek(max(0, path.stat().st_size - _MARKER_WITHIN))
            return MARKER.encode() in file.read()
    if MARKER.encode() in first:
        return True
    headings = data.partition(b"\n")[0]
    return path.suffix == ".csv" and bool(headings) and first.partition(b"\n")[0] == headings[:_MARKER_WITHIN]
