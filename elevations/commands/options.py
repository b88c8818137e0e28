"""Arguments and options that several commands take, so that they read and mean the same everywhere."""

from __future__ import annotations

from collections.abc import Collection

import click

job_argument = click.argument("job", metavar="JOB")
json_option = click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")
force_option = click.option("--force", is_flag=True, help="Replace files of another job, or that something else wrote or changed.")
window_option = click.option("--window", "marks", metavar="MARK", multiple=True, help="Only this window; may be repeated.")


def format_keys(text: str, known: Collection[str], option: str = "--format", what: str = "format") -> tuple[str, ...]:
    """The words that an option's text lists, in the order of those known. Raises click.BadParameter naming the unknown."""
    keys = [key.strip().lower() for key in text.split(",") if key.strip()]
    unknown = [key for key in keys if key not in known]
    if unknown or not keys:
        raise click.BadParameter(f"there is no {what} '{', '.join(unknown)}'; there are {', '.join(known)}", param_hint=option)
    return tuple(key for key in known if key in keys)
