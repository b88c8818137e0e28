"""The command line: lists the commands, and is the last resort for faults of the program itself.

Answers go to standard output, all else to standard error. Exit codes: 0 done, 1 problems in the job or in writing its
files, 2 a command that can't be carried out as it is typed, 3 a fault of the program itself.
"""

from __future__ import annotations

import sys
import traceback
from importlib import import_module

import click

from elevations import __version__
from elevations.answers import BUG, InWords
from elevations.spelling import did_you_mean

COMMANDS = (
    "new", "words", "schema", "check", "draw", "schedule", "explain",
    "survey", "fit", "templates", "workshop", "cut", "labels", "verify", "pack", "approve", "compare",
)
"""In the order of use, as `--help` lists them; each is a file of `elevations.commands`, read when it is asked for."""


class Commands(InWords):
    """The commands, each imported when it is asked for, so that starting costs little."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 (click's signature)
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command:
        if cmd_name not in COMMANDS:
            ctx.fail(f"there is no command '{cmd_name}'; {did_you_mean(cmd_name, COMMANDS) or 'there are ' + ', '.join(COMMANDS)}")
        command: click.Command = import_module(f"elevations.commands.{cmd_name}").command
        return command


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="elevations")
def cli() -> None:
    """Manufacturing drawings, schedules and fixing positions for windows, from one YAML job file.

    Start with `elevations new`, then `elevations check job.yaml` and `elevations draw job.yaml`. Each command has its own --help.

    Ends with 0 when done, 1 for problems in the job or in writing its files, 2 for a command that can't be carried out as
    typed, 3 for a fault of the program.
    """


def main() -> None:
    """Run the command line; a fault of the program itself ends in a traceback and code 3."""
    try:
        cli(prog_name="elevations")
    except Exception:  # noqa: BLE001 (the last resort: whatever it is, it is ours)
        traceback.print_exc()
        click.echo("\nThis is a fault of the program, not of your job. Please report it with the job file.", err=True)
        sys.exit(BUG)


if __name__ == "__main__":
    main()
