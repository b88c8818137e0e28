"""`elevations new`: a starter job."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("file", default="job.yaml", metavar="[FILE]")
def command(file: str) -> None:
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
