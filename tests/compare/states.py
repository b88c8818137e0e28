"""Two states of a small job, and the command that compares them."""

from pathlib import Path

from click.testing import CliRunner

from elevations.answers import InWords
from elevations.commands.compare import command

OLD = """\
job: {reference: T-1, revision: A}
glass:
  clear: {make_up: 4/20/4, gas: argon}
  safe: {make_up: 4/20/4, gas: argon, toughened: [outer, inner]}
defaults: {glass: clear}
windows:
  - mark: W1
    location: Kitchen
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
  - mark: W2
    frame: {width: 700, height: 900}
    lights: [{light: fixed}]
"""


def run(*arguments, **more):
    cli = InWords("elevations")
    cli.add_command(command, "compare")
    return CliRunner().invoke(cli, ["compare", *arguments], catch_exceptions=False, **more)


def new(*pairs):
    text = OLD
    for old, instead in pairs:
        assert old in text
        text = text.replace(old, instead)
    Path("new.yaml").write_text(text, "utf-8")
    return text
