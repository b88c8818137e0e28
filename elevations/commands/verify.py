"""`elevations verify`: whether a drawing still says what the job says."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from elevations.commands.options import job_argument, json_option

if TYPE_CHECKING:
    from elevations.geometry.window import Window
    from elevations.spec.load import LoadedJob
    from elevations.verify.difference import Difference
    from elevations.verify.measured import Measured
    from elevations.verify.said import SheetSays


@click.command(short_help="What a changed DXF has different from the job.")
@click.argument("file", metavar="FILE.dxf")
@job_argument
@click.option("--window", "mark", metavar="MARK", help="The window that the drawing shows; left out, as its title block or its name says.")
@json_option
def command(*, file: str, job: str, mark: str | None, as_json: bool) -> None:
    """Measure a DXF of a window or a template, also one that a CAD program changed, and say what it has otherwise than JOB.

    Panes are measured on layer GLASS, members and sight lines on FRAME, BARS and SASH, fixings by their signs on FIXING. Then
    the opening signs, the profiles, beads, steel and glass of sections, what each dimension measures and reads, and every line
    of words are held against the sheet that JOB gives today; what was only moved is no difference. Gaskets, hatches, walls,
    hardware and sills are not measured. Of a template the corners and sides are measured. Ends with 1 where anything
    differs.

    \b
    elevations verify drawings/W1.dxf job.yaml
    """  # noqa: D301 (click wants the character, not its name)
    from dataclasses import asdict

    from elevations import pipeline
    from elevations.answers import PROBLEMS, print_json
    from elevations.spelling import counted

    loaded = pipeline.read(job)
    made = _compared(loaded, file, mark)
    if as_json:
        print_json({"file": file, "mark": made.mark, "differences": [asdict(difference) for difference in made.told]})
    else:
        for difference in made.told:
            click.echo(f"{made.mark}: {difference.message}")
        click.echo(f"{file}: {counted(len(made.told), 'difference')} from {job}" if made.told else f"{file}: {made.measured} are as {job} says")
        if not made.words:
            click.echo("note: this is none of the sheets that the job gives, so its words were not compared, only sizes beside panes' tags", err=True)
    if made.told:
        raise click.exceptions.Exit(PROBLEMS)


@dataclass(frozen=True, slots=True)
class _Compared:
    mark: str
    told: Sequence[Difference]
    measured: str
    """What was measured, in words."""
    words: bool
    """Whether its words could be held against a sheet."""


def _compared(loaded: LoadedJob, file: str, mark: str | None) -> _Compared:
    """The file against the window or the template that it shows."""
    from elevations import pipeline
    from elevations.approval.standing import Approvals
    from elevations.sheets.readers import Standing
    from elevations.verify.compare import differences
    from elevations.verify.measured import measured
    from elevations.verify.template import template_named
    from elevations.verify.which_sheet import sheet_of

    found = measured(file)
    words, marks = [text.words for text in found.texts], pipeline.known_marks(loaded, ())
    for joined in loaded.job.joined:
        if mark is None and _names(words, Path(file), joined.mark):
            listed = ", ".join(joined.windows)
            raise click.UsageError(f"{file} shows the joined windows {joined.mark}; measure the drawings of its windows: {listed}")
    template = template_named(words, Path(file).stem)
    if template and template[0] in marks and mark in {None, template[0]}:
        (window,) = pipeline.windows(loaded, [template[0]])
        return _template(loaded, file, window, template[1], found)
    (window,) = pipeline.windows(loaded, [mark or _shown(words, Path(file), marks)])
    standings = [Standing(), *(Approvals(loaded, reader, unapproved=True).standing(window) for reader in ("", "factory"))]
    says = sheet_of(window, loaded.job, standings, found.texts)
    return _Compared(window.mark, differences(window, found, says), _measured_words(window, says), says is not None)


def _template(loaded: LoadedJob, file: str, window: Window, tag: str, found: Measured) -> _Compared:
    from elevations.spelling import counted
    from elevations.verify.template import template_differences, template_says

    says = template_says(window, tag, loaded.job)
    if says is None:
        raise click.UsageError(f"{file} is a template of {window.mark}-{tag}, and the job has no shaped pane of that name")
    measured = f"the outline, {counted(len(says.dimensions), 'dimension')} and the words of {window.mark}-{tag}"
    return _Compared(window.mark, template_differences(window, tag, found, says), measured, words=True)


def _measured_words(window: Window, says: SheetSays | None) -> str:
    from elevations.spelling import counted

    measured = f"{counted(len(window.panes), 'pane')}, {counted(len(window.fixings), 'fixing')} and the members of {window.mark}"
    if says is None:
        return measured
    parts = len({section.place for section in says.sections})
    sections = f"{counted(parts, 'section')}, " if parts else ""
    drawn = f"{sections}{counted(len(says.dimensions), 'dimension')} and the words"
    return f"{measured}, {drawn}" if says.shows_window else f"{drawn} of {window.mark}"


def _shown(texts: Sequence[str], file: Path, marks: Sequence[str]) -> str:
    """The mark that the drawing's title block names, or its file name, or the job's only one."""
    titled = [mark for mark in marks if _names(texts, None, mark)]
    named = [mark for mark in marks if _names((), file, mark)]
    for found in (titled, named, list(marks)):
        if len(found) == 1:
            return found[0]
    listed = ", ".join(marks[:20]) + (", …" if len(marks) > 20 else "")
    raise click.UsageError(f"{file} does not say which window it shows; name it with --window: {listed}")


def _names(texts: Sequence[str], file: Path | None, mark: str) -> bool:
    """Whether a title block's words, or the file's name, name a window or a set of joined ones."""
    from elevations.spec.marks import file_name

    return any(text.strip() == f"Window {mark}" for text in texts) or (file is not None and file_name(mark).casefold() == file.stem.casefold())
