"""`elevations installer`: the sheets that windows are fitted by."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import click

from elevations.commands.options import job_argument, window_option

KINDS = ("svg", "dxf", "pdf")


@click.command()
@job_argument
@window_option
@click.option("--out", "folder", metavar="DIR", default="drawings", show_default=True, help="Folder to write to; made if need be.")
@click.option("--format", "formats", metavar="svg,dxf,pdf", default="svg", show_default=True, help="Which files to write.")
@click.option("--force", is_flag=True, help="Replace files that this program did not write.")
def command(*, job: str, marks: tuple[str, ...], folder: str, formats: str, force: bool) -> None:
    """Write a sheet to fit each window of JOB by: fixings from the corners, packers, glass and its blocks, checklist.

    A3, one file a window and format, MARK-installer.svg. Sections with the wall where the job describes the wall.
    """
    from elevations import pipeline
    from elevations.commands.files import written
    from elevations.sheets.installer import installer_sheet

    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    sheets = [(window.mark, "installer", partial(installer_sheet, window, loaded.job)) for window in windows]
    for path in written(sheets, formats, KINDS, Path(folder), force=force):
        click.echo(path)
    count = sum(len(window.findings) for window in windows)
    if count:
        click.echo(f"{count} finding{'' if count == 1 else 's'} to settle first; `elevations check {job}` says them", err=True)
