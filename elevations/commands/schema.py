"""`elevations schema`: what editors complete and check job files with."""

from __future__ import annotations

from pathlib import Path

import click


@click.command(short_help="What editors complete and check job files with.")
@click.option("--out", "file", metavar="FILE", help="Write it to FILE instead of printing it.")
def command(file: str | None) -> None:
    """The JSON Schema of job files, for editors that complete and check YAML.

    \b
    elevations schema --out elevations.schema.json
    """  # noqa: D301 (click wants the character, not its name)
    import json

    from elevations.spec.schema import job_schema

    text = json.dumps(job_schema(), indent=2, ensure_ascii=False) + "\n"
    if file is None:
        click.echo(text, nl=False)
    else:
        Path(file).write_text(text, encoding="utf-8")
        click.echo(file)
