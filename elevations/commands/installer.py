"""`elevations installer`: the sheets that windows are fitted by."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.answers import counted
from elevations.commands.options import job_argument, window_option

if TYPE_CHECKING:
    from elevations.commands.files import Wanted
    from elevations.drawing.entities import Sheet
    from elevations.geometry.window import Window
    from elevations.spec.model import Job

KINDS = ("svg", "dxf", "pdf")


@click.command()
@job_argument
@window_option
@click.option("--out", "folder", metavar="DIR", default="drawings", show_default=True, help="Folder to write to; made if need be.")
@click.option("--format", "formats", metavar="svg,dxf,pdf", default="svg", show_default=True, help="Which files to write.")
@click.option("--force", is_flag=True, help="Replace files that this program did not write.")
def command(*, job: str, marks: tuple[str, ...], folder: str, formats: str, force: bool) -> None:
    """Write a sheet to fit each window of JOB by: fixings from the corners, packers, glass and its blocks, checklist.

    On A3 one file a window and format, MARK-installer.svg; where the job's paper is A4, MARK-installer-1.svg and so on.
    Sections with the wall where the job describes the wall.
    """
    from elevations import pipeline
    from elevations.commands.files import written
    from elevations.sheets.installer_a4 import installer_sheets

    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    sheets: list[Wanted] = []
    for window in windows:
        count = len(installer_sheets(window, loaded.job))
        sheets += [
            (window.mark, f"installer-{page + 1}" if count > 1 else "installer", partial(_nth, window, loaded.job, page)) for page in range(count)
        ]
    for path in written(sheets, formats, KINDS, Path(folder), force=force):
        click.echo(path)
    found = sum(len(window.findings) for window in windows)
    if found:
        click.echo(f"{counted(found, 'finding')} to settle first; `elevations check {job}` says them", err=True)


def _nth(window: Window, job: Job, page: int, style: str) -> Sheet:
    from elevations.sheets.installer_a4 import installer_sheets

    return installer_sheets(window, job, style)[page]
