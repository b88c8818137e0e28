"""Each command on its own, in a group that answers like the program's own command line."""

from __future__ import annotations

from importlib import import_module

from click.testing import CliRunner

from elevations.answers import InWords

JOB = """\
job: {reference: QL-07, site: Quillback Lock Cottage, revision: B}
glass: {clear: {make_up: 4/20/4, spacer: warm-edge}, safe: {make_up: 6/16/6, toughened: [outer, inner]}}
defaults: {glass: clear, finish: {outside: RAL 7038, inside: RAL 9016}}
workshop: {saw: {kerf: 4, end_trim: 15, keep_from: 600}, seal: {gap: 10, foam_depth: 40, foam_yield: 30}}
windows:
  - mark: W1
    location: Kitchen
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
  - mark: W2
    frame: {width: 900, height: 1350}
    lights: [{light: fixed, glass: safe}]
"""


def run(name, *arguments):
    """Type `elevations NAME ARGUMENTS`."""
    command = import_module(f"elevations.commands.{name}").command
    return CliRunner().invoke(InWords(commands={name: command}), (name, *arguments), catch_exceptions=False, prog_name="elevations")


def names(folder):
    return sorted(path.name for path in folder.iterdir())
