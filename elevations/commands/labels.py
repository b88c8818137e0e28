"""`elevations labels`: labels for the frames, sashes and units of a job."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.commands.options import format_keys, job_argument, window_option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from elevations.sheets.labelled import Tagged
    from elevations.sheets.labels import Grid
    from elevations.spec.model import JobInfo

NAMED = 5
"""So many labels that are refused are named."""


@click.command(short_help="Labels with codes, for frames, sashes and units.")
@job_argument
@window_option
@click.option("--kind", "kinds", metavar="frame,sash,unit", default="frame,sash,unit", show_default=True, help="What to label.")
@click.option("--grid", metavar="COLUMNSxROWS", default="2x7", show_default=True, help="Labels on a page, across and down.")
@click.option("--paper", type=click.Choice(["A4", "A5", "letter"]), default="A4", show_default=True, help="Paper, upright.")
@click.option("--margin", metavar="ACROSSxALONG", default="8x12", show_default=True, help="Margins of the paper, mm.")
@click.option("--gap", type=click.FloatRange(0, 50), metavar="MM", default=3.0, show_default=True, help="Between two labels, mm.")
@click.option("--skip", type=click.IntRange(0, 500), metavar="N", default=0, help="Leave the first N labels of the first page free.")
@click.option("--borders", is_flag=True, help="Draw a line round each label, for paper that is cut.")
@click.option("--out", "file", metavar="FILE", default="labels.pdf", show_default=True, help="The PDF file to write.")
@click.option("--force", is_flag=True, help="Replace FILE even if it is of another job, or something else wrote or changed it.")
def command(
    *, job: str, marks: tuple[str, ...], kinds: str, grid: str, paper: str, margin: str, gap: float, skip: int, borders: bool,
    file: str, force: bool,
) -> None:
    """Write labels of JOB as PDF: a frame, sash or unit each, with tag, size, its place in the window and a QR code.

    The code holds job, mark, tag and revision, and nothing else. Print at full size ('actual size', not 'fit').

    \b
    elevations labels job.yaml
    elevations labels job.yaml --kind unit --grid 3x8 --skip 5
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.export.extras import require
    from elevations.export.files import write_files
    from elevations.spec.load import job_name

    wanted = format_keys(kinds, ("frame", "sash", "unit"), "--kind", "kind")
    for package in ("reportlab", "segno"):
        require(package, "labels", "writing labels")
    from elevations.export.pdf import write_pdf
    from elevations.sheets.labelled import things
    from elevations.sheets.labels import label_sheets

    laid = _grid(grid, paper, margin, gap)
    if skip >= laid.columns * laid.rows:
        raise click.BadParameter(f"a page has {laid.columns * laid.rows} labels; nothing would be left of it", param_hint="--skip")
    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    labelled = list(things(windows, wanted))
    if not labelled:
        raise click.UsageError(f"there is nothing to label: these windows have no {' or '.join(wanted)}")
    demonstration = any(window.system.demonstration for window in windows)
    left_off = _refused(labelled, loaded.job.job, laid, demonstration=demonstration)
    sheets = label_sheets(labelled, loaded.job.job, laid, skip=skip, borders=borders, demonstration=demonstration)
    (path,) = write_files([(Path(file), write_pdf(sheets))], job_name(loaded), force=force)
    click.echo(path)
    _tell(labelled, loaded.job.job, laid, left_off)


def _tell(labelled: Sequence[Tagged], info: JobInfo, laid: Grid, left_off: int) -> None:
    """What is to be known of the labels that were written."""
    from elevations.sheets.labels import FINE_MODULE_MM, finest_module_mm
    from elevations.spelling import counted

    finest = finest_module_mm(labelled, info, laid)
    if finest < FINE_MODULE_MM:
        click.echo(f"note: the finest code has modules of {finest:.2f} mm and may not print sharply; use larger labels or a shorter reference", err=True)
    if left_off:
        click.echo(f"note: {counted(left_off, 'label')} had no room for the picture, the place, the job or the finish: words that were cut end in '…'", err=True)
    click.echo(f"{len(labelled)} labels of {laid.label[0]:.1f} x {laid.label[1]:.1f} mm", err=True)


def _refused(labelled: Sequence[Tagged], info: JobInfo, laid: Grid, *, demonstration: bool) -> int:
    """How many labels lack words that are not needful; refuses the grid where needful ones have no room."""
    from elevations.sheets.labels import words_left_off
    from elevations.spelling import counted

    needful, other = words_left_off(labelled, info, laid, demonstration=demonstration)
    if needful:
        listed = ", ".join(f"{thing.mark}-{thing.tag}" for thing in needful[:NAMED]) + (" …" if len(needful) > NAMED else "")
        wide, high = laid.label
        raise click.BadParameter(
            f"{counted(len(needful), 'label')} of {wide:.1f} x {high:.1f} mm would cut what must be said whole, who lifts a piece and what a unit is "
            f"({listed}); use fewer labels a page, or leave these kinds out with --kind",
            param_hint="--grid",
        )
    return len(other)


def _grid(grid: str, paper: str, margin: str, gap: float) -> Grid:
    from elevations.sheets.labels import Grid

    columns, rows = _pair(grid, "--grid", "2x7", whole=True)
    across, along = _pair(margin, "--margin", "8x12", whole=False)
    if not 1 <= columns <= 20 or not 1 <= rows <= 40:
        raise click.BadParameter(f"'{grid}': 1 to 20 labels across and 1 to 40 down", param_hint="--grid")
    made = Grid(paper, int(columns), int(rows), across, along, gap)
    if made.fault:
        raise click.BadParameter(made.fault, param_hint="--grid")
    return made


def _pair(text: str, option: str, example: str, *, whole: bool) -> tuple[float, float]:
    number = r"\d{1,3}" if whole else r"\d{1,3}(?:\.\d+)?"
    found = re.fullmatch(rf"({number})\s*[x×]\s*({number})", text.strip())
    if not found:
        raise click.BadParameter(f"'{text}' is not two numbers; for example {example}", param_hint=option)
    return float(found[1]), float(found[2])
