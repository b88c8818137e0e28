"""`elevations check`: the problems of a job, what its windows do not meet, and what the rules of a country say of them."""

from __future__ import annotations

from collections.abc import Sequence

import click

from elevations.answers import PROBLEMS, counted, finding_data, finding_texts, print_json, problem_data
from elevations.errors import Finding, Problem, SpecError


@click.command(name="check")
@click.argument("job", metavar="JOB")
@click.option("--window", "marks", metavar="MARK", multiple=True, help="Only this window; may be repeated.")
@click.option("--rules", "rules_name", metavar="NAME", default="england", show_default=True, help="Whose figures: built-in ones, or your own YAML file.")
@click.option("--all", "everything", is_flag=True, help="Say what passes and what is not asked for too.")
@click.option("--strict", is_flag=True, help="Exit 1 where a check fails.")
@click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")
def command(*, job: str, marks: tuple[str, ...], rules_name: str, everything: bool, strict: bool, as_json: bool) -> None:
    """Say every problem of the JOB file, what its windows do not meet, and how they stand to the figures of a country.

    Checks pass, fail, warn, or can't be told for want of facts, which are named. They are a help in designing and no
    certificate: local codes and a licensed practice decide. JOB is a YAML file; '-' reads standard input.
    """
    from elevations import pipeline
    from elevations.checks import said
    from elevations.checks.results import State
    from elevations.checks.rules_file import load_rules
    from elevations.checks.run import Checked, cases, checked
    from elevations.schedules.hardware import hardware_findings

    problems: Sequence[Problem] = ()
    findings: list[Finding] = []
    done: list[Checked] = []
    rules = load_rules(rules_name)
    try:
        loaded = pipeline.read(job)
        for case in cases(loaded.job, pipeline.windows(loaded, marks), rules):
            findings += [*case.window.findings, *hardware_findings(case.window)]
            done.append(checked(case))
        for joined in pipeline.sets(loaded):
            findings += joined.findings if not marks or any(window.mark in marks for window in joined.windows) else ()
    except SpecError as error:
        if not as_json:
            raise
        problems, done = error.problems, []
    failed = any(result.state is State.FAIL for window in done for result in window.results)
    if as_json:
        results = [said.result_data(result) for window in done for result in window.results]
        print_json({
            "problems": [problem_data(p) for p in problems], "findings": [finding_data(f) for f in findings], "checks": results,
            **said.job_data(done, rules),
        })
    else:
        for text in (*finding_texts(findings), *said.text_lines(done, rules, everything=everything)):
            click.echo(text)
        click.echo(f"{job}: {counted(len(done), 'window')}, no problems, {counted(len(findings), 'finding')}")
    if problems or (strict and failed):
        raise click.exceptions.Exit(PROBLEMS)
