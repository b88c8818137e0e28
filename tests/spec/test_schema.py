"""The JSON Schema for editors, judged by the jsonschema package."""

from pathlib import Path

import jsonschema
import pytest
from spec_jobs import GOOD, of_lights, one

from elevations.openings import OPENINGS
from elevations.spec.schema import job_schema
from elevations.spec.starter import STARTER
from elevations.yaml_source import read_document

SCHEMA = job_schema()
JUDGE = jsonschema.Draft7Validator(SCHEMA)
FRAME = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]"


def faults(text):
    return [error.message for error in JUDGE.iter_errors(read_document(text, "f").data)]


def nodes(schema):
    """Every schema node, and every property with its name."""
    pending = [("", SCHEMA)]
    while pending:
        name, node = pending.pop()
        yield name, node
        for key, inner in node.items():
            if key in ("properties", "$defs"):
                pending += list(inner.items())
            elif key in ("items", "additionalProperties") and isinstance(inner, dict):
                pending.append(("", inner))
            elif key in ("oneOf", "anyOf"):
                pending += [("", choice) for choice in inner]


def test_the_schema_is_one():
    jsonschema.Draft7Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("text", [
    GOOD,
    STARTER,
    one(FRAME + FIXED).replace("W1", "007"),
    one('frame: {width: "1.2 m", height: 47 1/4 in}\n' + FIXED),
    of_lights("[{light: top-hung}, {light: fixed}]", "transoms: equal-glass"),
    one("circular: {diameter: 600}\n" + FIXED),
    one("frame: {width: 1200}\nhead: {raked: {left: 900, right: 1.2 m}}\n" + FIXED),
    one(FRAME + "head: {gable: {apex: 600, left: 700, right: 800}}\n" + FIXED),
    of_lights("[{transoms: [300], lights: [{light: top-hung}, {mullions: [600], lights: [{light: fixed}, {light: fixed}]}]}]"),
])  # fmt: skip
def test_good_jobs_pass(text):
    assert faults(text) == []


@pytest.mark.parametrize("text", [
    one("frame: {width: 1.2, height: 1050}\n" + FIXED),
    one("frame: {width: 12000, height: 1050}\n" + FIXED),
    one('frame: {width: "1,200", height: 1050}\n' + FIXED),
    one("frame: {widht: 1200, height: 1050}\n" + FIXED),
    one(FRAME),
    one(FIXED),
    of_lights("[{light: tophung}]"),
    one(FRAME + "head: {arch: {rise: 200}}\n" + FIXED),
    one(FRAME + "head: {arched: {}}\n" + FIXED),
    one("circular: {diameter: 60}\n" + FIXED),
    of_lights("[{light: side-hung, hinge: up}]"),
    of_lights("[{light: fixed, mullions: [600]}]"),
    of_lights("[{light: fixed}, {light: fixed}]", "mullions: equal"),
    of_lights("[{light: fixed}, {light: fixed}]", "mullions: [1]"),
    GOOD.replace("face: 3", "face: 9"),
    GOOD.replace("2026-10-14", "14.10.2026"),
    GOOD + "drawing: {sheet: A5}\n",
    GOOD + "wobble: 1\n",
])  # fmt: skip
def test_bad_jobs_do_not(text):
    assert faults(text) != []


def test_every_key_is_explained_and_has_an_example_that_is_itself_good():
    named = [(name, node) for name, node in nodes(SCHEMA) if name and name != "Division"]
    assert len(named) > 50
    for name, node in named:
        assert node.get("description", "").endswith("."), name
        assert node["examples"], name
        judge = jsonschema.Draft7Validator({**node, "$defs": SCHEMA["$defs"]})
        assert [e.message for example in node["examples"] for e in judge.iter_errors(example)] == [], name


def test_nothing_is_left_that_editors_show_badly():
    for name, node in nodes(SCHEMA):
        assert not node.keys() & {"ge", "le", "gt", "lt", "discriminator"}, name
        assert node.get("type") != "null", name
        assert "title" not in node or node is SCHEMA, name
        assert node.get("default", 0) is not None, name


def test_lengths_are_numbers_or_texts_within_bounds():
    width = SCHEMA["properties"]["windows"]["items"]["properties"]["frame"]["properties"]["width"]
    assert (width["type"], width["minimum"], width["maximum"]) == (["number", "string"], 200, 6000)
    assert "pattern" in width


def test_every_way_to_open_is_offered():
    light = SCHEMA["$defs"]["Division"]["properties"]["lights"]["items"]["oneOf"][0]["properties"]["light"]
    assert light["enum"] == list(OPENINGS)


@pytest.mark.parametrize("file", sorted((Path(__file__).parents[2] / "specs").glob("*.yaml")), ids=lambda file: file.stem)
def test_every_demonstration_job_passes(file):
    assert faults(file.read_text("utf-8")) == []


def blocks_of(data, path=()):
    """Every block of a job's data with where it stands, but the one whose keys are names of the user's choice."""
    if isinstance(data, dict):
        if path != ("glass",):
            yield path, data
        for key, inner in data.items():
            yield from blocks_of(inner, (*path, key))
    elif isinstance(data, list):
        for number, inner in enumerate(data):
            yield from blocks_of(inner, (*path, number))


@pytest.mark.parametrize("file", sorted((Path(__file__).parents[2] / "specs").glob("*.yaml")), ids=lambda file: file.stem)
def test_an_unknown_key_fails_in_every_block_of_every_demonstration_job(file):
    data = read_document(file.read_text("utf-8"), "f").data
    for path, block in blocks_of(data):
        block["wobble"] = 1
        assert list(JUDGE.iter_errors(data)), path
        del block["wobble"]


def test_no_block_of_the_schema_takes_keys_that_it_does_not_name():
    for name, node in nodes(SCHEMA):
        if node.get("type") == "object":
            assert node.get("additionalProperties") is False or name == "glass", name
