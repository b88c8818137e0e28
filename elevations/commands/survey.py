"""`elevations survey`: forms to measure windows by."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.commands.options import force_option, window_option

if TYPE_CHECKING:
    from elevations.commands.files import Pages
    from elevations.drawing.entities import Sheet
    from elevations.geometry.joined import Joined
    from elevations.geometry.window import Window
    from elevations.spec.joined import JoinedFrames
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
    """Write survey forms: blank ones without JOB, else one for each window and set, filled in with what JOB says of it.

    Boxes stand in the order in which one measures on site; A4, upright, two pages a window, one a set of joined ones. A window that can't be worked out yet gets its form too.

    \b
    elevations survey
    elevations survey job.yaml --format svg
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.commands.files import written_pages
    from elevations.spec.load import job_name

    if job is None:
        if marks:
            raise click.UsageError("--window needs a JOB to take the window from")
        name, wanted = BLANK_JOB, _blank()
    else:
        loaded = pipeline.read(job)
        name = job_name(loaded)
        wanted = _filled(loaded, marks)
    for path in written_pages(wanted, formats, KINDS, Path(folder), name, force=force):
        click.echo(path)


def _blank() -> list[Pages]:
    """A form for one window, and one for joined ones."""
    from elevations.sheets.survey import PAGES, survey_sheets
    from elevations.sheets.survey_joined import survey_set_sheet

    return [
        (BLANK, "blank", PAGES, lambda style: survey_sheets(style=style)),
        (BLANK, "joined-blank", 1, lambda style: [survey_set_sheet(style=style)]),
    ]


def _filled(loaded: LoadedJob, marks: tuple[str, ...]) -> list[Pages]:
    """A form for each window, its division drawn where it can be worked out; then one for each set of joined windows asked for."""
    from elevations import pipeline
    from elevations.errors import SpecError
    from elevations.sheets.survey import PAGES, survey_sheets
    from elevations.spelling import counted

    sets = [spec for spec in loaded.job.joined if not marks or spec.mark in marks]
    own = tuple(mark for mark in marks if mark not in {spec.mark for spec in sets})
    known = pipeline.known_marks(loaded, own) if own or not marks else ()
    chosen = [(number, spec) for number, spec in enumerate(loaded.job.windows) if spec.mark in known]
    made: list[Pages] = []
    for count, (number, spec) in enumerate(chosen):
        first, total = count * PAGES + 1, len(chosen) * PAGES
        made.append((spec.mark, "survey", PAGES, partial(survey_sheets, loaded.job, spec, _worked_out(loaded, number), first, total)))
    try:
        resolved = {joined.mark: joined for joined in pipeline.sets(loaded)} if sets else {}
    except SpecError as error:
        resolved = {}
        click.echo(f"{counted(len(error.problems), 'problem')} of this job: `elevations check` says them. The forms show what the job gives, to be measured again.", err=True)
    made += [(spec.mark, "survey", 1, partial(_of_set, loaded, spec, resolved.get(spec.mark))) for spec in sets]
    return made


def _of_set(loaded: LoadedJob, spec: JoinedFrames, joined: Joined | None, style: str) -> list[Sheet]:
    from elevations.sheets.survey_joined import survey_set_sheet

    return [survey_set_sheet(loaded.job, spec, joined, style)]


def _worked_out(loaded: LoadedJob, number: int) -> Window | None:
    """The window; None where it can't be worked out, for what is wrong may be what is to be measured."""
    from elevations.catalogue.load import find_system
    from elevations.errors import SpecError
    from elevations.geometry.resolve import resolve_window
    from elevations.pipeline import folder_of

    try:
        return resolve_window(loaded.job, loaded.job.windows[number], ("windows", number), partial(find_system, beside=folder_of(loaded)))
    except SpecError:
        return None
