"""The reference of the job file's words, held against the schema that it is made from and against jobs that use them."""

from __future__ import annotations

from pathlib import Path

import pytest

from elevations.spec.load import parse_job
from elevations.spec.reference import NAMED, words
from elevations.spec.schema import FILLED_FROM_DEFAULTS
from elevations.yaml_source import read_document
from tests.cli.typed import run

WORDS = {word.path: word for word in words()}
SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))


def paths(data, path=()):
    """Every key of a job's data as the reference writes its path."""
    if isinstance(data, dict):
        for key, inner in data.items():
            step = NAMED if path == ("glass",) else key
            nested = path[-1:] == ("lights",) and "light" not in data
            here = ("windows",) if nested else path   # an entry that is divided again has the window's own keys
            here = ("defaults", *here[1:]) if here[:1] == ("windows",) and len(here) > 1 and here[1] in FILLED_FROM_DEFAULTS else here
            if step != NAMED:
                yield (*here, step)
            yield from paths(inner, (*here, step))
    elif isinstance(data, list):
        for inner in data:
            yield from paths(inner, path)


@pytest.mark.parametrize("spec", SPECS, ids=lambda spec: spec.stem)
def test_every_key_that_a_demonstration_job_uses_is_there(spec):
    assert [path for path in paths(read_document(spec.read_text("utf-8"), "f").data) if path not in WORDS] == []


def test_every_key_says_what_it_takes_what_it_means_and_has_an_example():
    for word in WORDS.values():
        assert word.says.endswith("."), word.name
        assert word.example.startswith(f"{word.path[-1]}: "), word.name
        assert word.takes, word.name
        assert "text, or text" not in word.takes, word.name


@pytest.mark.parametrize(("name", "takes", "needed", "default"), [
    ("windows.frame.width", "length, 200 to 6000 mm", True, ""),
    ("windows.mark", "text", True, ""),
    ("windows.room.floor_area", "number, 0.5 to 500 m2", False, ""),
    ("windows.lights.hinge", "one of: left, right", False, ""),
    ("defaults.fixings.corner", "length, 50 to 500 mm", False, "150"),
    ("defaults.fixings.sides", "list, each one of: left, right, head, sill", False, "[left, right, head, sill]"),
    ("job.surveyed", "date, year-month-day", False, ""),
    ("glass", "blocks, each under a name of your choice", True, ""),
    ("windows", "list, each block", True, ""),
])
def test_keys_are_described_as_the_model_reads_them(name, takes, needed, default):
    word = WORDS[tuple(name.split("."))]
    assert (word.takes, word.needed, word.default) == (takes, needed, default)


def test_a_default_that_is_told_is_what_leaving_it_out_gives():
    job = parse_job("glass: {clear: {make_up: 4/20/4}}\nwindows: [{mark: W1, frame: {width: 900, height: 900}, lights: [{light: fixed}]}]\n", "f").job
    fixings = job.windows[0].fixings
    for key in ("corner", "spacing", "clear_of_bars"):
        assert WORDS["defaults", "fixings", key].default == f"{getattr(fixings, key):g}"
    assert WORDS["drawing", "sheet"].default == job.drawing.sheet


def test_all_words_are_printed_with_the_needed_ones_marked():
    said = run("words").stdout
    assert "\nwindows.frame.width*  (length, 200 to 6000 mm)\n" in said
    assert said.count("\nwindows.lights.hinge ") == 1
    assert all(f"\n{word.name}" in said for word in WORDS.values())


def test_a_key_alone_is_printed_with_its_example_and_what_stands_in_it():
    said = run("words", "sill").stdout
    assert "windows.sill  (block)" in said
    assert "for example `sill: {projection: 150, horns: 40}`" in said
    assert "  windows.sill.projection*" in said
    assert "windows.frame" not in said


def test_a_key_is_told_apart_by_its_block():
    assert "joined" not in run("words", "windows.frame.width").stdout
    assert run("words", "frame.width").stdout.startswith("windows.frame.width*")


@pytest.mark.parametrize(("typed", "meant"), [("cill", "sill"), ("handing", "hinge"), ("widht", "width"), ("dimensions", "frame")])
def test_another_word_leads_to_ours(typed, meant):
    done = run("words", typed)
    assert done.exit_code == 2
    assert f"no key '{typed}'; did you mean '{meant}'?" in done.stderr


def test_a_word_like_none_is_told_where_all_are():
    assert "`elevations words` lists them all" in run("words", "xyzzy").stderr


def test_a_key_of_the_defaults_is_found_by_its_place_at_a_window_too():
    assert run("words", "windows.wall.lintel.kind").stdout == run("words", "defaults.wall.lintel.kind").stdout
    assert run("words", "doors.wall.lintel").exit_code == 2
