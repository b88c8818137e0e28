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
        _write(Path(file), text)
        click.echo(file)


def _write(file: Path, text: str) -> None:
    """In place of what is there only where that is a schema too: a slip of the name must not cost anybody a job."""
    from elevations.export.files import write_whole
    from elevations.spec.schema import DIALECT

    if file.exists() and DIALECT not in file.read_text("utf-8", errors="replace")[:200]:
        raise click.UsageError(f"{file} is there already, and is no schema; name another file, or take that one away")
    write_whole(file, text.encode())
