"""Files written whole or not at all, and never over another job's or somebody else's."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from errno import EISDIR
from pathlib import Path

from elevations.export.stamp import HEAD_BYTES, TAIL_BYTES, shortened, stamp_of, stamped

NOT_OURS = "not written by this program, or saved by another one since"
CHANGED = "changed since this program wrote it"


@dataclass(frozen=True, slots=True)
class Obstacle:
    """A file that stands where another is to be written, and why it is not replaced."""

    path: Path
    why: str
    """'written for another job, …': what goes on after 'it is there already,'."""


class OthersFilesError(Exception):
    """Files are in the way that this job did not write, or that are no longer what it wrote."""

    hint = "move them away, choose another folder with --out, or replace them with --force"

    def __init__(self, obstacles: Sequence[Obstacle]) -> None:
        self.obstacles = tuple(obstacles)
        super().__init__(self.obstacles)   # as it is given, because it comes back from worker processes

    def __str__(self) -> str:
        return "; ".join(f"{one.path}: {one.why}" for one in self.obstacles)

    @property
    def paths(self) -> list[Path]:
        return [one.path for one in self.obstacles]


def write_files(files: Sequence[tuple[Path, bytes]], job: str, *, force: bool) -> Iterator[Path]:
    """Write each file whole, and give its path. Raises as `refuse_obstacles` and `write_whole`, the former before the first."""
    refuse_obstacles(files, job, force=force)
    for path, data in files:
        write_whole(path, stamped(data, job))
        yield path


def write_file(path: Path, data: bytes, job: str, *, force: bool) -> None:
    """Write one file with its stamp, looking once more whether something has come in its way. Raises as `write_files`."""
    for _ in write_files([(path, data)], job, force=force):
        pass


def refuse_obstacles(files: Iterable[tuple[Path, bytes]], job: str, *, force: bool) -> None:
    """Raise OthersFilesError with every file that may not be replaced by the job; the bytes are those to be written, if known.

    A folder of a file's name is refused even by `force`: IsADirectoryError.
    """
    found = []
    for path, data in files:
        if path.is_dir():
            raise IsADirectoryError(EISDIR, "a folder has this name", str(path))
        why = None if force else why_not_replaced(path, job, data)
        if why is not None:
            found.append(Obstacle(path, why))
    if found:
        raise OthersFilesError(found)


def why_not_replaced(path: Path, job: str, data: bytes = b"") -> str | None:
    """None where nothing is there, or a file that this program wrote for this job and nothing has changed since.

    A CSV file has no place for a stamp: one that has the same headings as `data`, which would replace it, is taken as ours.
    """
    if not path.exists():
        return None
    # A pipe or a device would hang a reader or swallow the drawing.
    if not path.is_file():
        return "and is no ordinary file"
    with path.open("rb") as file:
        ends = file.read(HEAD_BYTES)
        headings = data.partition(b"\n")[0]
        if path.suffix == ".csv" and headings and ends.partition(b"\n")[0] == headings[:HEAD_BYTES]:
            return None
        file.seek(max(0, path.stat().st_size - TAIL_BYTES))
        ends += b"\n" + file.read()
    if stamp_of(ends) is None:   # before the rest is read: somebody else's file may be huge
        return NOT_OURS
    stamp = stamp_of(path.read_bytes())
    if stamp is None:
        return NOT_OURS
    if stamp.job != shortened(job):
        return f"written for another job, {stamp.job or 'without a name'}; this one is {shortened(job)}"
    return CHANGED if stamp.changed else None


def write_whole(path: Path, data: bytes) -> None:
    """Put the data where the path says, through a file beside it that is renamed at the end; makes missing folders.

    What is there is replaced. Raises OSError where the system refuses: no permission, a folder of that name, a full
    disk; what was there then stays as it was.
    """
    if path.is_dir():
        raise IsADirectoryError(EISDIR, "a folder has this name", str(path))
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
