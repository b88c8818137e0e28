"""The job file's JSON Schema, for editors that complete, explain and check while somebody types.

Taken from the model and then cleaned: editors show a choice between a type and null as noise, invent names for keys,
and lose a key's own help text beside a reference. It checks less than `spec.load` does: what takes two keys to judge
is not in it.
"""

from __future__ import annotations

from typing import Any

from elevations.openings import OPENINGS
from elevations.shapes import SHAPES
from elevations.spec.model import Job
from elevations.yaml_source import read_document

DIALECT = "http://json-schema.org/draft-07/schema#"
"""The one that the editor support was tried with."""
RECURSIVE = "Division"
FILLED_FROM_DEFAULTS = {"system", "finish", "glass", "fixings", "fit", "wall"}
QUIET = {"title", "default"}

Schema = dict[str, Any]


def job_schema() -> Schema:
    """The schema as plain data, ready for `json.dumps`; draft-07 with `$defs`."""
    raw = Job.model_json_schema()
    blocks: dict[str, Schema] = raw.pop("$defs")
    blocks["Light"]["properties"]["light"].update(_ways_to_open())
    window = blocks["Window"]
    window["required"] = [key for key in window["required"] if key not in FILLED_FROM_DEFAULTS]
    window["anyOf"] = [
        {"required": ["frame"]},
        {"required": ["opening"], "not": {"required": ["frame"]}},
        *({"required": [key]} for key, shape in SHAPES.items() if shape.replaces_frame),
    ]
    window["required"].remove("frame")
    blocks["Frame"]["required"] = ["width"]  # some shapes give the height
    return {
        "$schema": DIALECT,
        "title": "A window job",
        **_cleaned(raw, blocks),
        "$defs": {RECURSIVE: _cleaned(blocks[RECURSIVE], blocks)},
    }


def _ways_to_open() -> Schema:
    names = list(OPENINGS)
    return {
        "type": "string",
        "enum": names,
        "description": "How the light opens. " + " ".join(f"{name}: {OPENINGS[name].help}" for name in names),
        "enumDescriptions": [OPENINGS[name].help for name in names],
    }


def _cleaned(node: Schema, blocks: dict[str, Schema]) -> Schema:
    """One schema node: references inlined (but the recursive one), null branches, invented titles and defaults gone."""
    choices = node.get("anyOf") or node.get("oneOf")
    if choices:
        return _with_choice(node, [choice for choice in choices if choice.get("type") != "null"], blocks)
    if "$ref" in node:
        name = node["$ref"].rsplit("/", 1)[1]
        rest = {key: value for key, value in node.items() if key != "$ref"}
        return {"$ref": node["$ref"]} if name == RECURSIVE else _cleaned({**blocks[name], **rest}, blocks)
    clean: Schema = {}
    for key, value in node.items():
        if key == "properties":
            clean[key] = {name: _cleaned(inner, blocks) for name, inner in value.items()}
        elif key in ("items", "additionalProperties") and isinstance(value, dict):
            clean[key] = _cleaned(value, blocks)
        elif key == "examples":
            clean[key] = [_example(example) for example in value]
        elif key not in QUIET or (key == "default" and isinstance(value, str | int | float | list | tuple) and value not in ("", [], ())):
            clean[key] = value
    return clean


def _with_choice(node: Schema, choices: list[Schema], blocks: dict[str, Schema]) -> Schema:
    """A node that is one of several things; the choice itself goes where only one is left."""
    own = {key: value for key, value in node.items() if key not in ("anyOf", "oneOf", "discriminator")}
    if len(choices) == 1:
        return _cleaned({**choices[0], **own}, blocks)
    return {**_cleaned(own, blocks), "oneOf": [_cleaned(choice, blocks) for choice in choices]}


def _example(example: Any) -> Any:
    """The help texts' examples are written as in the file; a schema wants them as data."""
    if isinstance(example, str) and example.startswith(("{", "[")):
        return read_document(example, "example").data
    return example
