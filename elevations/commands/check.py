"""`elevations check`: the problems of a job, what its windows do not meet, and what the rules of a country say of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import click

from elevations.answers import PROBLEMS, finding_data, print_json, problem_data
from elevations.commands.options import job_argument, json_option, window_option
from elevations.errors import Finding, SpecError
from elevations.spelling import counted

if TYPE_CHECKING:
    from elevations.checks.rule import Rules
    from elevations.checks.run import Checked


@click.command(name="check", short_help="What is wrong with a job, and how it stands to the rules.")
@job_argument
@window_option
@click.option("--rules", "rules_name", metavar="NAME", default="england", show_default=True, help="Whose figures: built-in ones, or your own YAML file.")
@click.option("--all", "everything", is_flag=True, help="Say what passes and what is not asked for too.")
@click.option("--strict", is_flag=True, help="Exit 1 where a check fails.")
@json_option
def command(*, job: str, marks: tuple[str, ...], rules_name: str, everything: bool, strict: bool, as_json: bool) -> None:
    """Say every problem of the JOB file, what its windows do not meet, and how they stand to the figures of a country.

    Checks pass, fail, warn, or can't be told for want of facts, which are named. They are a help in designing and no
    certificate: local codes and a licensed practice decide. JOB is a YAML file; '-' reads standard input.

    \b
    elevations check job.yaml
    elevations check job.yaml --window W1 --all
    elevations check job.yaml --strict --json > checks.json

    Ends with 0 where the job can be drawn, whatever was found; with 1 where it has problems, or with --strict where a
    check fails; with 2 where the command can't be carried out as typed; with 3 where the program itself is at fault.
    """  # noqa: D301 (click wants the character, not its name)
    from elevations.checks import report, said
    from elevations.checks.results import State

    try:
        found = _found(job, marks, rules_name)
    except SpecError as error:
        if not as_json:
            raise
        print_json({"problems": [problem_data(p) for p in error.problems], "findings": [], "checks": []})
        raise click.exceptions.Exit(PROBLEMS) from None
    if as_json:
        results = [said.result_data(result) for window in found.windows for result in window.results]
        findings = [finding_data(f) for f in found.findings]
        print_json({"problems": [], "findings": findings, "checks": results, **said.job_data(found.windows, found.rules)})
    else:
        for text in report.text_lines(found.windows, found.rules, found.findings, everything=everything):
            click.echo(text)
        click.echo(f"{job}: {counted(len(found.windows), 'window')}, no problems, {counted(len(found.findings), 'finding')}")
    if strict and any(result.state is State.FAIL for window in found.windows for result in window.results):
        raise click.exceptions.Exit(PROBLEMS)


class _Found(NamedTuple):
    """What a job's windows do not meet, and how each fares under the rules."""

    rules: Rules
    findings: list[Finding]
    windows: list[Checked]


def _found(job: str, marks: tuple[str, ...], rules_name: str) -> _Found:
    """Everything that is to be said. Raises SpecError with the problems of the job, or of the rules file."""
    from elevations import pipeline
    from elevations.checks.rules_file import load_rules
    from elevations.checks.run import cases, checked
    from elevations.schedules.hardware import all_findings

    found = _Found(load_rules(rules_name), [], [])
    loaded = pipeline.read(job)
    for case in cases(loaded.job, pipeline.windows(loaded, marks), found.rules):
        found.findings.extend(all_findings(case.window))
        found.windows.append(checked(case))
    for joined in pipeline.sets(loaded):
        if not marks or any(window.mark in marks for window in joined.windows):
            found.findings.extend(joined.findings)
    return found
