"""`elevations workshop`: everything that the workshop gets for a job, in one go."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.commands.options import force_option, format_keys, job_argument, window_option
from elevations.spelling import counted

if TYPE_CHECKING:
    from elevations.sheets.workshop import Pack

KINDS = ("pdf", "xlsx", "csv")


@click.command(short_help="The workshop's pack: drawings, glass, cutting, every list.")
@job_argument
@window_option
@click.option("--format", "kinds", metavar="pdf,xlsx,csv", default="pdf,xlsx,csv", show_default=True, help="Which files to write.")
@click.option("--pages", metavar="drawings,glass,lists", default="drawings,glass,lists", show_default=True, help="Which pages the PDF has.")
@click.option("--out", "folder", metavar="DIR", default="workshop", show_default=True, help="Folder to write to; made if need be.")
@force_option
@click.option("--time-limit", type=click.FloatRange(0, 600), metavar="SECONDS", default=5.0, show_default=True, help="For planning the bars.")
def command(*, job: str, marks: tuple[str, ...], kinds: str, pages: str, folder: str, force: bool, time_limit: float) -> None:
    """Write the workshop's pack of JOB: drawings, glass order, cutting list, bars, machining, hardware and sundries.

    One PDF for the whole job with each window's factory sheet and glass drawing and every list; one workbook with a sheet
    a list; one CSV file a list. Prints the path of each file; none is written when the job has problems.

    \b
    elevations workshop job.yaml
    elevations workshop job.yaml --format csv --out for-the-saw
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.export.files import write_files
    from elevations.schedules.hardware import all_findings
    from elevations.sheets.bars import saw_notes
    from elevations.sheets.workshop import PARTS, packed, unused_off_cuts
    from elevations.spec.load import job_name
    from elevations.spec.marks import file_name

    wanted, parts = format_keys(kinds, KINDS), format_keys(pages, PARTS, option="--pages", what="part")
    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    pack = packed(loaded.job, windows, time_limit, pipeline.sets(loaded, (), windows))
    stem = file_name(loaded.job.job.reference or (Path(job).stem if job != "-" else "job"))
    files = [(Path(folder) / f"{stem}-{name}", data) for kind in wanted for name, data in _files(pack, kind, parts)]
    for path in write_files(files, job_name(loaded), force=force):
        click.echo(path)
    cut = next(part.rows for part in pack.lists if part.schedule.key == "cutting")
    for said in saw_notes(pack.bars):
        click.echo(said, err=True)
    for said in unused_off_cuts(loaded.job, cut):
        click.echo(f"note: nothing in this job is cut from the off-cut {said}", err=True)
    count = sum(len(all_findings(window)) for window in windows)
    count += sum(len(joined.findings) for joined in pack.joined)
    if count:
        click.echo(f"{counted(count, 'finding')} to settle; `elevations check {job}` says them", err=True)


def _files(pack: Pack, kind: str, parts: Sequence[str]) -> list[tuple[str, bytes]]:
    """Name endings and contents."""
    from elevations.export.extras import require
    from elevations.schedules.table import as_csv

    if kind == "csv":
        # With a byte order mark: without one spreadsheets take '×' and accents for two letters each (from memory).
        return [(f"{part.schedule.key}.csv", as_csv(part.schedule, part.rows).encode("utf-8-sig")) for part in pack.lists if part.on_files]
    if kind == "xlsx":
        require("xlsxwriter", "xlsx", "writing a workbook", "--format csv")
        from elevations.export.xlsx import SheetOf, write_xlsx

        sheets = [SheetOf(part.schedule, part.rows, (*part.reading, *part.notes)) for part in pack.lists if part.on_files]
        return [("workshop.xlsx", write_xlsx(sheets, pack.job.job, pack.caution))]
    require("reportlab", "pdf", "writing PDF", "--format csv")
    from elevations.export.pdf import write_pdf
    from elevations.sheets.workshop import sheets as pages_of

    return [("workshop.pdf", write_pdf(pages_of(pack, parts)))]
