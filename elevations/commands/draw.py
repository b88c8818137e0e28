"""`elevations draw`: the drawings of a job."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from elevations.answers import counted
from elevations.commands.options import job_argument, window_option
from elevations.errors import Finding

DEFAULT_OUT = "drawings"


@click.command()
@job_argument
@window_option
@click.option("--format", "formats", metavar="dxf,svg", default="dxf,svg", show_default=True, help="Which files to write.")
@click.option("--out", "folder", metavar="DIR", default=DEFAULT_OUT, show_default=True, help="Folder to write to; made if need be.")
@click.option("--force", is_flag=True, help="Replace files that this program did not write.")
@click.option("--jobs", type=click.IntRange(1), metavar="N", help="Processes to use [default: one a processor].")
@click.option("--dry-run", is_flag=True, help="Name the files, write none.")
def command(*, job: str, marks: tuple[str, ...], formats: str, folder: str, force: bool, jobs: int | None, dry_run: bool) -> None:
    """Draw the windows of JOB: elevation, sections and tables, one file a window and format.

    Prints the path of each file. Files are named by their window's mark; each is written whole or not at all, and
    none is written when the job has problems.
    """
    from elevations import pipeline
    from elevations.batch import usable_cores

    loaded = pipeline.read(job)
    order = pipeline.Order(marks, _formats(formats), Path(folder), force)
    paths = pipeline.targets(loaded, order)
    findings: list[Finding] = []
    if dry_run:
        findings = [finding for window in pipeline.windows(loaded, marks) for finding in window.findings]
        for path in paths:
            click.echo(path)
    else:
        _drawn(pipeline.draw(loaded, order, jobs or usable_cores(), on_findings=findings.extend), len(paths))
    if findings:
        click.echo(f"{counted(len(findings), 'finding')} to settle; `elevations check {job}` says them", err=True)


def _drawn(paths: Iterator[Path], count: int) -> None:
    """Name each file when it is whole; behind a progress bar, where a person watches, all at the end."""
    if not (sys.stderr.isatty() and count > 4):
        for path in paths:
            click.echo(path)
        return
    done: list[Path] = []
    with click.progressbar(paths, length=count, label="drawing", file=sys.stderr) as bar:
        done.extend(bar)
    for path in done:
        click.echo(path)


def _formats(text: str) -> tuple[str, ...]:
    from elevations.export import FORMATS

    keys = [key.strip().lower() for key in text.split(",") if key.strip()]
    unknown = [key for key in keys if key not in FORMATS]
    if unknown or not keys:
        raise click.BadParameter(f"there is no format '{', '.join(unknown)}'; there are {', '.join(FORMATS)}", param_hint="--format")
    return tuple(key for key in FORMATS if key in keys)
