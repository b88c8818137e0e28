"""`elevations templates`: a template drawing for each shaped pane of a job."""

from __future__ import annotations

from pathlib import Path

import click

from elevations.commands.options import force_option, format_keys, job_argument, window_option


@click.command(short_help="Each shaped pane at its true size, for the glass cutter.")
@job_argument
@window_option
@click.option("--format", "formats", metavar="dxf,svg", default="dxf,svg", show_default=True, help="Which files to write.")
@click.option("--out", "folder", metavar="DIR", default="templates", show_default=True, help="Folder to write to; made if need be.")
@force_option
def command(*, job: str, marks: tuple[str, ...], formats: str, folder: str, force: bool) -> None:
    """Draw a template for each pane of JOB that is no rectangle: its exact outline with what a glass cutter needs.

    One file a pane and format, named by window and pane (W1-G2.dxf). In DXF the outline is on layer GLASS at true size
    with true arcs. Prints the path of each file; none is written when the job has problems.

    \b
    elevations templates job.yaml
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.export import FORMATS
    from elevations.export.files import write_files
    from elevations.schedules.templates import shaped_panes
    from elevations.sheets.template import template_sheet
    from elevations.spec.load import job_name
    from elevations.spec.marks import file_name

    keys = format_keys(formats, FORMATS)
    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    files = [
        (Path(folder) / (file_name(f"{window.mark}-{pane.tag}") + FORMATS[key].suffix),
         FORMATS[key].write(template_sheet(window, pane, loaded.job, FORMATS[key].layout)))
        for window in windows for pane in shaped_panes(window) for key in FORMATS if key in keys
    ]
    for path in write_files(files, job_name(loaded), force=force):
        click.echo(path)
    if not files:
        click.echo("all glass is rectangular: nothing needs a template", err=True)
