"""Sheets of single windows written as files, for the commands that make a sheet or a form a window."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from elevations.commands.options import format_keys

if TYPE_CHECKING:
    from elevations.drawing.entities import Sheet

Wanted = tuple[str, str, "Callable[[str], Sheet]"]
"""A window's mark, what the sheet is for, and what makes it for a layout: paper or model."""


Pages = tuple[str, str, int, "Callable[[str], Sequence[Sheet]]"]
"""The same of several sheets, with how many there are."""


def written(wanted: Sequence[Wanted], formats: str, known: Sequence[str], folder: Path, job: str, *, force: bool) -> Iterator[Path]:
    """Write each sheet in each format as MARK-KIND.suffix, and give its path when it is whole.

    `job`: the name that the files' stamps give. Every file in the way is looked at before the first is written:
    OthersFilesError names them all.
    """
    pages: list[Pages] = [(mark, kind, 1, partial(_alone, make)) for mark, kind, make in wanted]
    yield from written_pages(pages, formats, known, folder, job, force=force)


def _alone(make: Callable[[str], Sheet], layout: str) -> list[Sheet]:
    return [make(layout)]


def written_pages(wanted: Sequence[Pages], formats: str, known: Sequence[str], folder: Path, job: str, *, force: bool) -> Iterator[Path]:
    """The same of several sheets each: in one file where the format holds pages, else as MARK-KIND-1.suffix and so on."""
    from elevations.export import FORMATS
    from elevations.export.files import refuse_obstacles, write_file
    from elevations.spec.marks import file_name

    keys = format_keys(formats, known)
    for key in keys:
        FORMATS[key].ready()
    files = []
    for mark, kind, count, make in wanted:
        for key in keys:
            names = FORMATS[key].names(f"{file_name(mark)}-{kind}", count)
            files.append(([folder / name for name in names], FORMATS[key], make))
    refuse_obstacles([(path, b"") for paths, _, _ in files for path in paths], job, force=force)
    for paths, found, make in files:
        for path, data in zip(paths, found.files(make(found.layout)), strict=True):
            write_file(path, data, job, force=force)
            yield path
