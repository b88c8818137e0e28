"""`elevations pack`: what the customer looks at and signs."""

from __future__ import annotations

from pathlib import Path

import click

from elevations.commands.options import force_option, format_keys, job_argument, window_option
from elevations.spelling import counted

FORMATS = ("html", "pdf")


@click.command(short_help="What the customer looks at and signs.")
@job_argument
@window_option
@click.option("--format", "formats", metavar="html,pdf", default="html,pdf", show_default=True, help="Which files to write.")
@click.option("--out", "folder", metavar="DIR", default="drawings", show_default=True, help="Folder to write to; made if need be.")
@force_option
def command(*, job: str, marks: tuple[str, ...], formats: str, folder: str, force: bool) -> None:
    """Write the pack of JOB for its customer: pictures, plain words, cautions, and where to sign.

    One HTML page that needs no network and no script, and the same as a PDF on A4. Each window carries its design
    number, which `elevations approve --fingerprint` takes back.

    \b
    elevations pack job.yaml
    elevations pack job.yaml --format html
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.approval.pack import Pack, html_pack, pdf_pack
    from elevations.export.files import write_files
    from elevations.schedules.hardware import all_findings
    from elevations.spec.load import job_name

    keys = format_keys(formats, FORMATS)
    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    marks_in = {window.mark for window in windows}
    sets = [joined for joined in pipeline.sets(loaded, (), windows) if marks_in.issuperset(window.mark for window in joined.windows)]
    pack = Pack(loaded, tuple(windows), tuple(sets))
    stem = "job" if job == "-" else Path(job).stem
    writers = {"html": html_pack, "pdf": pdf_pack}
    files = [(Path(folder) / f"{stem}-pack.{key}", writers[key](pack)) for key in keys]
    for path in write_files(files, job_name(loaded), force=force):
        click.echo(path)
    count = sum(len(all_findings(window)) for window in windows) + sum(len(joined.findings) for joined in sets)
    if count:
        click.echo(f"{counted(count, 'finding')} to settle before it is sent; `elevations check {job}` says them", err=True)

