"""`elevations new`: a starter job."""

from __future__ import annotations

from pathlib import Path

import click


@click.command(short_help="Write a commented job to start from.")
@click.argument("file", default="job.yaml", metavar="[FILE]")
def command(file: str) -> None:
    """Write a commented starter job that draws as it is, to FILE (job.yaml); '-' prints it.

    \b
    elevations new
    elevations new cottage.yaml
    """  # noqa: D301 (click wants the character, not its name)
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
    click.echo(f"fill it in; then `elevations check {file}` says what is wrong with it, and `elevations draw {file}` draws it", err=True)
