"""What `--help` says: every command in plain words, with examples that can be typed as they stand."""

from __future__ import annotations

import re
import shlex

import pytest

from elevations.cli import COMMANDS, cli
from elevations.sheets.readers import READERS
from tests.cli.typed import run


def examples(name):
    return re.findall(rf"^  elevations ({name}\b.*)$", run(name, "--help").stdout, re.MULTILINE)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_shows_an_example(name):
    assert examples(name)


@pytest.mark.parametrize("name", COMMANDS)
def test_the_examples_can_be_typed(name):
    command = cli.get_command(None, name)
    for line in examples(name):
        arguments = shlex.split(line.partition(" > ")[0])[1:]
        assert command.make_context(name, arguments).params   # click refuses what it does not know


@pytest.mark.parametrize("name", COMMANDS)
def test_the_list_of_commands_says_in_one_line_what_each_does(name):
    line = next(line for line in run("--help").stdout.splitlines() if line.split()[:1] == [name])
    assert len(line.split()) > 3
    assert not line.endswith("...")


def test_draw_names_every_reader_whose_sheets_are_written_as_svg_alone():
    (usual,) = re.findall(r"svg alone for (.*?), whose", " ".join(run("draw", "--help").stdout.split()))
    assert usual.split(" and ") == [reader.key for reader in READERS.values() if "model" not in reader.styles]
