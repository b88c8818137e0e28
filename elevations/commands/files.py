"""Sheets of single windows written as files, for the commands that make one sheet a window."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from elevations.commands.options import format_keys

if TYPE_CHECKING:
    from elevations.drawing.entities import Sheet

Wanted = tuple[str, str, "Callable[[str], Sheet]"]
"""A window's mark, what the sheet is for, and what makes it for a layout: paper or model."""


def written(wanted: Sequence[Wanted], formats: str, known: Sequence[str], folder: Path, job: str, *, force: bool) -> Iterator[Path]:
    """Write each sheet in each format as MARK-KIND.suffix, and give its path when it is whole.

    `job`: the name that the files' stamps give. Every file in the way is looked at before the first is written:
    OthersFilesError names them all.
    """
    from elevations.export import FORMATS
    from elevations.export.files import refuse_obstacles, write_file
    from elevations.spec.marks import file_name

    keys = format_keys(formats, known)
    for key in keys:
        FORMATS[key].ready()
    paths = [(folder / f"{file_name(mark)}-{kind}{FORMATS[key].suffix}", key, make) for mark, kind, make in wanted for key in keys]
    refuse_obstacles([(path, b"") for path, _, _ in paths], job, force=force)
    for path, key, make in paths:
        write_file(path, FORMATS[key].write(make(FORMATS[key].layout)), job, force=force)
        yield path
