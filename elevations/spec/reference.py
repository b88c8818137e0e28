"""The job file's words, each with what it takes, its default and an example: made from the schema, which is made from the model.

One place holds what a key means, its description in the model; this puts it into words for people.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from elevations.spec.lengths import LENGTH_PATTERN
from elevations.spec.schema import FILLED_FROM_DEFAULTS, Schema, job_schema

NAMED = "NAME"
"""Stands in a path for a name of the user's choice."""
FIRST = ("mark", "location", "frame", "opening", "head", "circular", "mullions", "transoms", "light", "hinge", "lights", "make_up")
"""Keys that one asks for first, before those of their block in the order of the model."""
AGAIN = "an entry that is divided again, with mullions or transoms and lights of its own"


@dataclass(frozen=True, slots=True)
class Word:
    """One key of the job file."""

    path: tuple[str, ...]
    """The keys that lead to it: ('windows', 'frame', 'width'). Entries of lists have no step of their own."""
    takes: str
    """'length, 200 to 6000 mm'."""
    needed: bool
    """Whether its block can't do without it."""
    default: str
    """As it would be written; empty where leaving it out says nothing, or what it then is stands in the description."""
    says: str
    """Its description."""
    example: str
    """As it would be written in the file."""

    @property
    def name(self) -> str:
        return ".".join(self.path)


def words() -> Iterator[Word]:
    """Every key, a block before its keys; of what a window and the defaults both may say, the keys stand at the defaults."""
    yield from _of_block(job_schema(), ())


def _of_block(block: Schema, path: tuple[str, ...]) -> Iterator[Word]:
    keys = block.get("properties", {})
    for key in sorted(keys, key=lambda key: FIRST.index(key) if key in FIRST else len(FIRST)):
        node = keys[key]
        here = (*path, key)
        yield Word(
            here, takes(node), key in block.get("required", ()), written(node["default"]) if "default" in node else "",
            node.get("description", ""), f"{key}: {written(node['examples'][0])}" if node.get("examples") else "",
        )
        if path == ("windows",) and key in FILLED_FROM_DEFAULTS:
            continue
        for inner, step in _blocks_in(node):
            yield from _of_block(inner, (*here, *step))


def _blocks_in(node: Schema) -> Iterator[tuple[Schema, tuple[str, ...]]]:
    """The blocks that a value holds, with the step to them; of one block or several like it, the one."""
    if node.get("type") == "object":
        named = node.get("additionalProperties")
        yield (named, (NAMED,)) if isinstance(named, dict) else (node, ())
    elif node.get("type") == "array":
        yield from _blocks_in(node["items"])
    else:
        yield from (found for choice in node.get("oneOf", ())[:1] for found in _blocks_in(choice))


def takes(node: Schema) -> str:
    """What may be written for a key, in a few words."""
    kind, limits = node.get("type"), f"{node.get('minimum', 0):g} to {node.get('maximum', 0):g}"
    if kind == "object":
        return "blocks, each under a name of your choice" if isinstance(node.get("additionalProperties"), dict) else "block"
    if "enum" in node or "const" in node:
        return f"one of: {', '.join(written(choice) for choice in node['enum'])}" if "enum" in node else written(node["const"])
    if "oneOf" in node:
        return ", or ".join(takes(choice) for choice in node["oneOf"])
    if "$ref" in node:
        return AGAIN
    if node.get("pattern") == LENGTH_PATTERN:
        return f"length, {limits} mm"
    match kind:
        case "array":
            return f"list, each {takes(node['items'])}"
        case "number" | "integer":
            return f"{'whole number' if kind == 'integer' else 'number'}, {limits} {node.get('unit', '')}".rstrip()
        case "boolean":
            return "true or false"
    return "date, year-month-day" if "[0-9]{4}-" in node.get("pattern", "") else "text"


def written(value: Any) -> str:
    """Data as it stands in a job file, on one line."""
    if isinstance(value, dict):
        return f"{{{', '.join(f'{key}: {written(inner)}' for key, inner in value.items())}}}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(written, value))}]"
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:g}" if isinstance(value, float) else str(value)
