"""The reference of a system file's words, held against what the readers know and against the built-in systems."""

from __future__ import annotations

from copy import deepcopy

import pytest
import yaml

from elevations.catalogue.load import BUILT_IN, builtin_names
from elevations.catalogue.reading import KEYS, read_system
from elevations.spec.system_reference import ALIKE, SAYS, system_words
from elevations.yaml_source import read_document
from tests.cli.typed import run

WORDS = {word.name: word for word in system_words()}
LEAST = """\
depth: 68
material: timber
swing: out
sash_face: flush
members:
  frame: {sight: 60, rebate: 44, sash: 40}
  mullion: {sight: 40, rebate: 20, sash: 16}
  transom: {sight: 40, rebate: 20, sash: 16}
  sash: {sight: 70, rebate: 52}
glazing: {edge_clearance: 5, thickness: 24}
"""


def paths(data, path=()):
    if isinstance(data, dict):
        for key, inner in data.items():
            yield ".".join((*path, key))
            yield from paths(inner, (*path, key))
    elif isinstance(data, list):
        for inner in data:
            yield from paths(inner, path)


def home(name):
    """The path at which the reference has a key: blocks alike are told once."""
    while found := next((block for block in ALIKE if name.startswith(f"{block}.")), None):
        name = ALIKE[found] + name[len(found):]
    return name


def test_every_top_level_key_is_told():
    assert set(KEYS) <= set(WORDS)


@pytest.mark.parametrize("system", builtin_names())
def test_every_key_of_a_built_in_system_is_told(system):
    data = read_document((BUILT_IN / f"{system}.yaml").read_text("utf-8"), system).data
    data["sections"] = {}   # their keys are asked for part by part, and a section may be taken from a drawing
    assert [name for name in paths(data) if home(name) not in WORDS] == []


def test_every_key_says_what_it_takes_and_means():
    for word in WORDS.values():
        assert word.takes, word.name
        assert word.says.endswith("."), word.name


def test_nothing_is_said_of_a_key_that_no_reader_knows():
    last = {word.path[-1] for word in WORDS.values()}
    assert [key for key in SAYS if key not in WORDS and key not in last] == []


def without(data, path):
    copied = deepcopy(data)
    inner = copied
    for step in path[:-1]:
        inner = inner[step]
    del inner[path[-1]]
    return yaml.safe_dump(copied)


def test_what_is_marked_as_needed_is_exactly_what_a_system_can_not_do_without():
    data = yaml.safe_load(LEAST)
    assert read_system(LEAST, "least", BUILT_IN).system is not None
    for name in paths(data):
        assert read_system(without(data, name.split(".")), "less", BUILT_IN).system is None, name
    first = ("members", "glazing")
    assert {home(name) for name in paths(data)} == {word.name for word in WORDS.values() if word.needed and (word.path[0] in first or len(word.path) == 1)}


def test_the_words_are_printed_and_asked_for_one_by_one():
    said = run("words", "--system").stdout
    assert "\nmembers.frame.sight*  (number, 0 to 500)\n    mm from its outer edge to where the glass shows.\n" in said
    one = run("words", "--system", "bead_side").stdout
    assert one.splitlines()[0] == "glazing.bead_side  (one of: outside, inside; left out: inside)"
    assert "for example `bead_side: outside`" in one
    assert "a system file has no key 'rebat'; did you mean 'rebate'?" in run("words", "--system", "rebat").stderr
