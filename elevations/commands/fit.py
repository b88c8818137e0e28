"""`elevations fit`: how the frames of a job fit their surveyed openings."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.commands.options import force_option, job_argument, json_option, window_option

if TYPE_CHECKING:
    from elevations.geometry.window import Window

KINDS = ("svg", "dxf", "pdf")


@click.command(short_help="Does each frame go into its surveyed opening; every gap.")
@job_argument
@window_option
@json_option
@click.option("--csv", "as_csv", is_flag=True, help="Answer as CSV, a row a gap.")
@click.option("--out", "folder", metavar="DIR", help="Write a picture of each fit there as well, gaps drawn enlarged.")
@click.option("--format", "formats", metavar="svg,dxf,pdf", default="svg", show_default=True, help="Which pictures to write.")
@force_option
def command(
    *, job: str, marks: tuple[str, ...], as_json: bool, as_csv: bool, folder: str | None, formats: str, force: bool
) -> None:
    """Say how each frame of JOB fits its surveyed opening: every gap, what sealant bridges, where trims are needed.

    For a window with `opening` alone the frame is the one worked out from it; with `frame` too, whether that goes in.
    Gaps in mm at each corner and mid-side, seen from outside.

    \b
    elevations fit job.yaml
    elevations fit job.yaml --window W1 --out pictures
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.commands.files import written
    from elevations.schedules import table
    from elevations.schedules.fit import FIT

    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other")
    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    surveyed = [window for window in windows if window.site and window.site.fitted]
    if as_json or as_csv:
        rows = [row for window in surveyed for row in FIT.rows(window)]
        click.echo((table.as_json if as_json else table.as_csv)(FIT, rows).encode(), nl=False)
    else:
        _print(windows)
    if folder is not None:
        from elevations.sheets.fit import fit_sheet
        from elevations.spec.load import job_name

        sheets = [(window.mark, "fit", partial(fit_sheet, window, loaded.job)) for window in surveyed]
        for path in written(sheets, formats, KINDS, Path(folder), job_name(loaded), force=force):
            click.echo(path, err=as_json or as_csv)


def _print(windows: list[Window]) -> None:
    from elevations.answers import finding_texts
    from elevations.geometry.fit_findings import FIT_CODES
    from elevations.schedules import table
    from elevations.schedules.fit import FIT, fit_words
    from elevations.spelling import counted

    without = [window.mark for window in windows if not (window.site and window.site.fitted)]
    for window in windows:
        rows = list(FIT.rows(window))
        if not rows:
            continue
        click.echo(f"{window.mark}{f', {window.location}' if window.location else ''}")
        for line in fit_words(window):
            click.echo(f"  {line}")
        click.echo(table.as_table(FIT, rows))
        for text in finding_texts([f for f in window.findings if f.code in FIT_CODES]):
            click.echo(text)
    if without:
        listed = ", ".join(without[:10]) + (", …" if len(without) > 10 else "")
        click.echo(f"{counted(len(without), 'window')} without a surveyed opening: {listed}", err=True)
