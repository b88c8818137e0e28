"""`elevations survey`: forms to measure windows by."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.commands.options import force_option, window_option

if TYPE_CHECKING:
    from elevations.commands.files import Wanted
    from elevations.spec.load import LoadedJob

KINDS = ("pdf", "svg", "dxf")
BLANK = "survey"
BLANK_JOB = "no job: a blank form"


@click.command(short_help="Forms to measure by, blank or filled in with the job.")
@click.argument("job", metavar="[JOB]", required=False)
@window_option
@click.option("--out", "folder", metavar="DIR", default="drawings", show_default=True, help="Folder to write to; made if need be.")
@click.option("--format", "formats", metavar="pdf,svg,dxf", default="pdf", show_default=True, help="Which files to write.")
@force_option
def command(*, job: str | None, marks: tuple[str, ...], folder: str, formats: str, force: bool) -> None:
    """Write survey forms: a blank one without JOB, else one for each window, filled in with what JOB says of it.

    Boxes stand in the order in which one measures on site; A4, upright. A window that can't be worked out yet gets its form too.

    \b
    elevations survey
    elevations survey job.yaml --format svg
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.commands.files import written
    from elevations.sheets.survey import survey_sheet
    from elevations.spec.load import job_name

    if job is None:
        if marks:
            raise click.UsageError("--window needs a JOB to take the window from")
        name = BLANK_JOB
        wanted: list[Wanted] = [(BLANK, "blank", partial(survey_sheet, None, None, None, 1, 1))]
    else:
        loaded = pipeline.read(job)
        name = job_name(loaded)
        wanted = _filled(loaded, pipeline.known_marks(loaded, marks))
    for path in written(wanted, formats, KINDS, Path(folder), name, force=force):
        click.echo(path)


def _filled(loaded: LoadedJob, marks: tuple[str, ...]) -> list[Wanted]:
    """A form for each window; its division is drawn where the window can be worked out."""
    from elevations.catalogue.load import find_system
    from elevations.errors import SpecError
    from elevations.geometry.resolve import resolve_window
    from elevations.pipeline import folder_of
    from elevations.sheets.survey import survey_sheet

    chosen = [(number, spec) for number, spec in enumerate(loaded.job.windows) if spec.mark in marks]
    made: list[Wanted] = []
    for page, (number, spec) in enumerate(chosen, 1):
        try:
            window = resolve_window(loaded.job, spec, ("windows", number), partial(find_system, beside=folder_of(loaded)))
        except SpecError:
            window = None   # what is wrong may be what is to be measured
        made.append((spec.mark, "survey", partial(survey_sheet, loaded.job, spec, window, page, len(chosen))))
    return made
