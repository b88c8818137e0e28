"""`elevations verify`: whether a drawing still says what the job says."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from elevations.commands.options import job_argument, json_option


@click.command(short_help="What a changed DXF has different from the job.")
@click.argument("file", metavar="FILE.dxf")
@job_argument
@click.option("--window", "mark", metavar="MARK", help="The window that the drawing shows; left out, as its title block or its name says.")
@json_option
def command(*, file: str, job: str, mark: str | None, as_json: bool) -> None:
    """Measure a DXF of a window, also one that a CAD program changed, and say what it has otherwise than JOB.

    Panes are measured on layer GLASS, members on FRAME, BARS and SASH, fixings by their signs on FIXING. Then the opening
    signs, what each dimension measures and reads, and every line of words are held against the sheet that JOB gives today;
    what was only moved is no difference. Ends with 1 where anything differs.

    \b
    elevations verify drawings/W1.dxf job.yaml
    """  # noqa: D301 (click wants the character, not its name)
    from dataclasses import asdict

    from elevations import pipeline
    from elevations.answers import PROBLEMS, print_json
    from elevations.approval.standing import Approvals
    from elevations.sheets.readers import Standing
    from elevations.spelling import counted
    from elevations.verify.compare import differences
    from elevations.verify.measured import measured
    from elevations.verify.which_sheet import sheet_of

    loaded = pipeline.read(job)
    found = measured(file)
    words = [text.words for text in found.texts]
    for joined in loaded.job.joined:
        if mark is None and _names(words, Path(file), joined.mark):
            listed = ", ".join(joined.windows)
            raise click.UsageError(f"{file} shows the joined windows {joined.mark}; measure the drawings of its windows: {listed}")
    chosen = mark or _shown(words, Path(file), pipeline.known_marks(loaded, ()))
    (window,) = pipeline.windows(loaded, [chosen])
    standings = [Standing(), *(Approvals(loaded, reader, unapproved=True).standing(window) for reader in ("", "factory"))]
    says = sheet_of(window, loaded.job, standings, found.texts)
    told = differences(window, found, says)
    if as_json:
        print_json({"file": file, "mark": window.mark, "differences": [asdict(difference) for difference in told]})
    else:
        for difference in told:
            click.echo(f"{window.mark}: {difference.message}")
        measured_words = f"{counted(len(window.panes), 'pane')}, {counted(len(window.fixings), 'fixing')} and the members of {window.mark}"
        if says:
            drawn_words = f"{counted(len(says.dimensions), 'dimension')} and the words"
            measured_words = f"{measured_words}, {drawn_words}" if says.shows_window else f"{drawn_words} of {window.mark}"
        click.echo(f"{file}: {counted(len(told), 'difference')} from {job}" if told else f"{file}: {measured_words} are as {job} says")
        if not says:
            click.echo("note: this is none of the sheets that the job gives, so its words were not compared, only sizes beside panes' tags", err=True)
    if told:
        raise click.exceptions.Exit(PROBLEMS)


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
