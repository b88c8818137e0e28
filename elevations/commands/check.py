"""`elevations check`: every problem of a job, and what its windows do not meet."""

from __future__ import annotations

from collections.abc import Sequence

import click

from elevations.answers import PROBLEMS, counted, finding_data, finding_texts, print_json, problem_data
from elevations.commands.options import job_argument, json_option
from elevations.errors import Finding, Problem, SpecError


@click.command()
@job_argument
@json_option
def command(*, job: str, as_json: bool) -> None:
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
