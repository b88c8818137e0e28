"""`elevations explain`: how a size came about."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from elevations.answers import print_json
from elevations.commands.options import job_argument, json_option

if TYPE_CHECKING:
    from elevations.catalogue.system import System
    from elevations.geometry.window import Window
    from elevations.schedules.explain import Explanation
    from elevations.spec.load import LoadedJob
    from elevations.spec.model import Job


@click.command(short_help="How a size came about, step by step, each with its source.")
@job_argument
@click.argument("mark")
@click.argument("thing", metavar="[THING]", nargs=-1)
@json_option
def command(*, job: str, mark: str, thing: tuple[str, ...], as_json: bool) -> None:
    """How the sizes of one THING of window or bay MARK came about, step by step, each with its source; without THING, of the whole.

    \b
    elevations explain job.yaml W1 glass G2
    elevations explain job.yaml W1 fixing F3
    elevations explain job.yaml W1 sash S1
    elevations explain job.yaml W1 member 'S1 top rail'
    elevations explain job.yaml W1 bar M1
    elevations explain job.yaml W1 light 2
    elevations explain job.yaml W1 window
    elevations explain job.yaml B1 whole
    elevations explain job.yaml W1 check u-value
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.schedules.explain import explain as explanation_of
    from elevations.schedules.explain_joined import explain_joined

    loaded = pipeline.read(job)
    if any(spec.mark == mark for spec in loaded.job.joined):
        (joined,) = pipeline.sets(loaded, [mark])
        _answer(explain_joined(joined, " ".join(thing) or "whole"), loaded, joined.system, as_json=as_json)
        return
    (window,) = pipeline.windows(loaded, [mark])
    thing = thing or ("window",)
    if thing[0] == "check":
        _explain_check(loaded.job, window, " ".join(thing[1:]), as_json=as_json)
        return
    _answer(explanation_of(window, thing[0], " ".join(thing[1:])), loaded, window.system, as_json=as_json)


def _answer(explanation: Explanation, loaded: LoadedJob, system: System, *, as_json: bool) -> None:
    """Its steps, each with its place in the job or the system."""
    from elevations.schedules import account

    if as_json:
        print_json(account.as_data(explanation, loaded.document, system))
    else:
        click.echo(account.as_text(explanation, loaded.document, system), nl=False)


def _explain_check(job: Job, window: Window, rule: str, *, as_json: bool) -> None:
    """What a rule looked at in the window, by England's figures."""
    from elevations.checks import explain
    from elevations.checks.on_sheets import RULES_OF_SHEETS
    from elevations.checks.rules_file import load_rules
    from elevations.checks.run import case_of

    case = case_of(job, window, load_rules(RULES_OF_SHEETS))
    assert case is not None   # the window is of this job
    if as_json:
        print_json(explain.as_data(case, rule))
    else:
        click.echo(explain.as_text(case, rule), nl=False)
