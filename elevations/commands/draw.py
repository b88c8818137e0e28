"""`elevations draw`: the drawings of a job."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from elevations.commands.options import force_option, format_keys, job_argument, window_option
from elevations.errors import Finding
from elevations.spelling import counted, did_you_mean

DEFAULT_OUT = "drawings"
OTHER_WORDS = {"fitter": "installer", "site": "installer", "glazier": "workshop", "client": "customer", "works": "factory"}
"""For readers. Common practice, no source."""
USUAL_FORMATS = ("dxf", "svg")
FORMATS_HELP = "Which files to write [default: dxf,svg; svg alone for customer and workshop, whose sheets are laid out for paper]."


@click.command(short_help="Elevations, sections and tables as DXF, SVG and PDF.")
@job_argument
@window_option
@click.option("--for", "reader", metavar="READER", default="", help="Who reads them: factory, customer, workshop or installer; the factory's only of approved windows.")
@click.option("--unapproved", is_flag=True, help="With --for factory: windows that are not approved too; the sheet says so.")
@click.option("--format", "formats", metavar="dxf,svg,pdf", help=FORMATS_HELP)
@click.option("--out", "folder", metavar="DIR", default=DEFAULT_OUT, show_default=True, help="Folder to write to; made if need be.")
@click.option("--paper-space", is_flag=True, help="DXF with the sheet in a layout, a locked viewport on each view; LibreCAD lays it over the model.")
@force_option
@click.option("--jobs", type=click.IntRange(1), metavar="N", help="Processes to use [default: one a processor].")
@click.option("--dry-run", is_flag=True, help="Name the files, write none.")
def command(
    *, job: str, marks: tuple[str, ...], reader: str, unapproved: bool, formats: str | None, folder: str, paper_space: bool,
    force: bool, jobs: int | None, dry_run: bool,
) -> None:
    """Draw the windows of JOB: elevation, sections and tables, one file a window and format; joined windows as a whole too.

    Prints the path of each file. Files are named by the mark of their window or set; each is written whole or not at all, and
    none is written when the job has problems.

    \b
    elevations draw job.yaml
    elevations draw job.yaml --window W1 --window W2 --format pdf --out for-print
    elevations draw job.yaml --for installer
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.batch import usable_cores
    from elevations.schedules.hardware import all_findings

    loaded = pipeline.read(job)
    order = pipeline.Order(marks, _formats(reader, formats), Path(folder), force, reader, unapproved, paper_space)
    paths = pipeline.targets(loaded, order)
    findings: list[Finding] = []
    if dry_run:
        own, sets = pipeline.asked_for(loaded, order)
        findings = [finding for window in (pipeline.windows(loaded, own) if own else ()) for finding in all_findings(window)]
        findings += [finding for joined in (pipeline.sets(loaded, sets) if sets else ()) for finding in joined.findings]
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


def _formats(reader: str, asked: str | None) -> tuple[str, ...]:
    """The formats to write; words where there is no such reader, or their sheet can't be had in one of them."""
    from elevations.export import FORMATS
    from elevations.pipeline import DEFAULT_READER
    from elevations.sheets.readers import READERS

    if reader and reader not in READERS:
        other = OTHER_WORDS.get(reader.casefold())
        guess = (f"did you mean '{other}'?" if other else did_you_mean(reader, READERS)) or "there are " + "; ".join(f"{r.key} ({r.help})" for r in READERS.values())
        raise click.BadParameter(f"there is no reader '{reader}'; {guess}", param_hint="--for")
    styles = READERS[reader or DEFAULT_READER].styles
    if asked is None:
        return tuple(key for key in USUAL_FORMATS if FORMATS[key].layout in styles)
    keys = format_keys(asked, FORMATS)
    wrong = [key for key in keys if FORMATS[key].layout not in styles]
    if wrong:
        raise click.BadParameter(f"the {reader}'s sheet is laid out for paper, which {', '.join(wrong)} is not", param_hint="--format")
    return keys
