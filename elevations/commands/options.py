"""Arguments and options that several commands take, so that they read and mean the same everywhere."""

from __future__ import annotations

import click

job_argument = click.argument("job", metavar="JOB")
json_option = click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")
window_option = click.option("--window", "marks", metavar="MARK", multiple=True, help="Only this window; may be repeated.")
