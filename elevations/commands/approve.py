"""`elevations approve`: record what the customer said yes to."""

from __future__ import annotations

from collections.abc import Callable

import click

from elevations.commands.options import job_argument
from elevations.spelling import counted


@click.command()
@job_argument
@click.option("--window", "marks", metavar="MARK", multiple=True, required=True, help="The window approved; may be repeated.")
@click.option("--by", metavar="NAME", required=True, help="Who approved it.")
@click.option("--on", metavar="DATE", required=True, help="The day of the signature, year-month-day.")
@click.option("--fingerprint", "signed", metavar="TEXT", multiple=True, help="As on the signed paper: refused if the design is another by now.")
def command(*, job: str, marks: tuple[str, ...], by: str, on: str, signed: tuple[str, ...]) -> None:
    """Record that windows of JOB are approved as they are now.

    Writes beside the job (cottage.yaml: cottage.approvals.yaml) who approved what and when, with a fingerprint of all
    that makes the window what it is. Drawings and schedules say 'approved' for as long as the window stays that.

    \b
    elevations approve job.yaml --window W1 --by 'A. Name' --on 2026-10-20
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.approval.record import approvals_file, checked_date, checked_name
    from elevations.approval.state import approve
    from elevations.schedules.hardware import all_findings

    who, day = _checked(checked_name, by, "--by"), _checked(checked_date, on, "--on")
    loaded = pipeline.read(job)
    windows = list(pipeline.windows(loaded, marks))
    for state in approve(loaded, windows, who, day, signed):
        assert state.approval is not None
        click.echo(f"{state.approval.window} {state.words}")
    click.echo(approvals_file(job), err=True)
    count = sum(len(all_findings(window)) for window in windows)
    if count:
        click.echo(f"approved with {counted(count, 'finding')} to settle; `elevations check {job}` says them", err=True)


def _checked(check: Callable[[str], str], text: str, name: str) -> str:
    try:
        return check(text)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint=name) from None
