"""`elevations schedule`: rows of a job, for people or for other programs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from elevations.commands.options import job_argument, json_option, window_option

if TYPE_CHECKING:
    from elevations.spec.load import LoadedJob


@click.command()
@click.argument("kind", metavar="KIND")
@job_argument
@window_option
@json_option
@click.option("--csv", "as_csv", is_flag=True, help="Answer as CSV.")
def command(*, kind: str, job: str, marks: tuple[str, ...], as_json: bool, as_csv: bool) -> None:
    """Print a schedule of JOB, lengths in mm, seen from outside.

    KIND is glass, glass-order, templates, fixings, windows, glazing-bars, cutting, machining, hardware, sills or sundries.

    \b
    elevations schedule glass job.yaml
    elevations schedule cutting job.yaml --csv > cutting.csv
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.schedules import SCHEDULES, table
    from elevations.spelling import did_you_mean

    if kind not in SCHEDULES:
        guess = did_you_mean(kind, SCHEDULES) or f"there are {', '.join(SCHEDULES)}"
        raise click.UsageError(f"there is no schedule '{kind}'; {guess}")
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other")
    chosen = SCHEDULES[kind]
    loaded = pipeline.read(job)
    chosen = chosen.for_job(loaded.job) if chosen.for_job else chosen
    rows = pipeline.rows(loaded, chosen, marks)
    write = table.as_json if as_json else table.as_csv if as_csv else table.as_table
    approvals = _approvals(loaded, marks)
    click.echo(write(chosen, rows).encode(), nl=False)
    for line in approvals:
        click.echo(line, err=as_json or as_csv)   # not among rows that a program reads


def _approvals(loaded: LoadedJob, marks: tuple[str, ...]) -> list[str]:
    """How the approval of each window stands; nothing where the job keeps no approvals."""
    from elevations import pipeline
    from elevations.approval.state import approval_state, record_of

    record = record_of(loaded)
    if not record.approvals:
        return []
    return ["", *(f"{window.mark}: {approval_state(loaded, window, record).words}" for window in pipeline.windows(loaded, marks))]
