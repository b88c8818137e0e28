"""`elevations explain`: how a size came about."""

from __future__ import annotations

import click

from elevations.answers import print_json
from elevations.commands.options import job_argument, json_option


@click.command()
@job_argument
@click.argument("mark")
@click.argument("thing", nargs=-1, required=True)
@json_option
def command(*, job: str, mark: str, thing: tuple[str, ...], as_json: bool) -> None:
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
