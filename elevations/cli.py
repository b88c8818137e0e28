"""The commands. The only module that prints or sets an exit code; what a command needs is imported when it runs.

Answers go to standard output, all else to standard error. Exit codes: 0 done, 1 problems in the job or in writing its
files, 2 a command that can't be carried out as it is typed, 3 a fault of the program itself.
"""

from __future__ import annotations

import gc
import sys
import traceback
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from elevations import __version__
from elevations.answers import BUG, PROBLEMS, InWords, counted, finding_data, finding_texts, print_json, problem_data
from elevations.errors import Finding, Problem, SpecError

DEFAULT_OUT = "drawings"
COLLECT_SELDOM = 100_000


@click.group(cls=InWords, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="elevations")
def cli() -> None:
    """Manufacturing drawings, schedules and fixing positions for windows, from one YAML job file.

    Start with `elevations new`, then `elevations draw job.yaml`.
    """
    # Nearly all that a command makes is freed by its count; looking for cycles every 700 objects costs it a tenth.
    gc.set_threshold(COLLECT_SELDOM)


job_argument = click.argument("job", metavar="JOB")
json_option = click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")
window_option = click.option("--window", "marks", metavar="MARK", multiple=True, help="Only this window; may be repeated.")


@cli.command()
@click.argument("file", default="job.yaml", metavar="[FILE]")
def new(file: str) -> None:
    """Write a commented starter job that draws as it is, to FILE (job.yaml); '-' prints it."""
    from elevations.spec.starter import STARTER

    if file == "-":
        click.echo(STARTER, nl=False)
        return
    try:
        with Path(file).open("x", encoding="utf-8") as stream:
            stream.write(STARTER)
    except FileExistsError:
        raise click.UsageError(f"{file} is already there; name another file, or take that one away") from None
    click.echo(file)


@cli.command()
@click.option("--out", "file", metavar="FILE", help="Write it to FILE instead of printing it.")
def schema(file: str | None) -> None:
    """The JSON Schema of job files, for editors that complete and check YAML."""
    import json

    from elevations.spec.schema import job_schema

    text = json.dumps(job_schema(), indent=2, ensure_ascii=False) + "\n"
    if file is None:
        click.echo(text, nl=False)
    else:
        Path(file).write_text(text, encoding="utf-8")
        click.echo(file)


@cli.command()
@job_argument
@json_option
def check(*, job: str, as_json: bool) -> None:
    """Say every problem of the JOB file, and what its windows do not meet. Findings alone are no failure.

    JOB is a YAML file; '-' reads standard input.
    """
    from elevations import pipeline

    problems: Sequence[Problem] = ()
    findings: list[Finding] = []
    count = 0
    try:
        for window in pipeline.windows(pipeline.read(job)):
            count += 1
            findings += window.findings
    except SpecError as error:
        if not as_json:
            raise
        problems = error.problems
    if as_json:
        print_json({"problems": [problem_data(p) for p in problems], "findings": [finding_data(f) for f in findings]})
        if problems:
            raise click.exceptions.Exit(PROBLEMS)
        return
    for text in finding_texts(findings):
        click.echo(text)
    click.echo(f"{job}: {counted(count, 'window')}, no problems, {counted(len(findings), 'finding')}")


@cli.command()
@job_argument
@window_option
@click.option("--format", "formats", metavar="dxf,svg", default="dxf,svg", show_default=True, help="Which files to write.")
@click.option("--out", "folder", metavar="DIR", default=DEFAULT_OUT, show_default=True, help="Folder to write to; made if need be.")
@click.option("--force", is_flag=True, help="Replace files that this program did not write.")
@click.option("--jobs", type=click.IntRange(1), metavar="N", help="Processes to use [default: one a processor].")
@click.option("--dry-run", is_flag=True, help="Name the files, write none.")
def draw(*, job: str, marks: tuple[str, ...], formats: str, folder: str, force: bool, jobs: int | None, dry_run: bool) -> None:
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


@cli.command()
@click.argument("kind", metavar="glass|fixings|windows")
@job_argument
@window_option
@json_option
@click.option("--csv", "as_csv", is_flag=True, help="Answer as CSV.")
def schedule(*, kind: str, job: str, marks: tuple[str, ...], as_json: bool, as_csv: bool) -> None:
    """Print a schedule of JOB: its glass, its fixings or its windows. Lengths in mm, seen from outside."""
    from elevations import pipeline
    from elevations.schedules import SCHEDULES, table
    from elevations.spelling import did_you_mean

    if kind not in SCHEDULES:
        guess = did_you_mean(kind, SCHEDULES) or f"there are {', '.join(SCHEDULES)}"
        raise click.UsageError(f"there is no schedule '{kind}'; {guess}")
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other")
    chosen = SCHEDULES[kind]
    rows = pipeline.rows(pipeline.read(job), chosen, marks)
    write = table.as_json if as_json else table.as_csv if as_csv else table.as_table
    click.echo(write(chosen, rows).encode(), nl=False)


@cli.command()
@job_argument
@click.argument("mark")
@click.argument("thing", nargs=-1, required=True)
@json_option
def explain(*, job: str, mark: str, thing: tuple[str, ...], as_json: bool) -> None:
    r"""How the sizes of one THING of window MARK came about, step by step, each with its source.

    \b
    elevations explain job.yaml W1 glass G2
    elevations explain job.yaml W1 fixing F3
    elevations explain job.yaml W1 sash S1
    elevations explain job.yaml W1 member 'S1 top rail'
    elevations explain job.yaml W1 bar M1
    elevations explain job.yaml W1 light 2
    elevations explain job.yaml W1 window
    """
    from elevations import pipeline
    from elevations.schedules import account
    from elevations.schedules.explain import explain as explanation_of

    loaded = pipeline.read(job)
    (window,) = pipeline.windows(loaded, [mark])
    explanation = explanation_of(window, thing[0], " ".join(thing[1:]))
    if as_json:
        print_json(account.as_data(explanation, loaded.document, window.system))
    else:
        click.echo(account.as_text(explanation, loaded.document, window.system), nl=False)


def main() -> None:
    """Run the command line; a fault of the program itself ends in a traceback and code 3."""
    try:
        cli(prog_name="elevations")
    except Exception:  # noqa: BLE001 (the last resort: whatever it is, it is ours)
        traceback.print_exc()
        click.echo("\nThis is a fault of the program, not of your job. Please report it with the job file.", err=True)
        sys.exit(BUG)


if __name__ == "__main__":
    main()
