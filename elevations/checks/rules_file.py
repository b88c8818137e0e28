"""A country's figures from its YAML file: a built-in one by name, or the user's own by path."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from elevations.catalogue.blocks import Block, Report, shown
from elevations.checks import RULES
from elevations.checks.results import SURE, Limit
from elevations.checks.rooms import STRICTEST_FIRST
from elevations.checks.rule import Rules
from elevations.errors import Problem, SpecError
from elevations.spelling import did_you_mean
from elevations.yaml_source import read_document

BUILT_IN = Path(__file__).parent / "rules"
KINDS = STRICTEST_FIRST
"""What a rule may ask of a room; a word that the file doesn't list is 'other'."""
LARGEST = 1e9
MAY_BE_NEGATIVE = ("kWh/m2a",)
"""Units of figures that are balances; everything else is a size, an area, an angle, a share or a count."""
LARGEST_FILE = 1_000_000


def known_limits() -> dict[str, str]:
    """Every limit that some rule reads, and its unit."""
    return {key: unit for rule in RULES.values() for key, unit in rule.limits.items()}


def load_rules(name: str) -> Rules:
    """The figures of a built-in country, or of a file of the user's. Raises SpecError with everything wrong in it."""
    built_in = sorted(path.stem for path in BUILT_IN.glob("*.yaml"))
    if name in built_in:
        return _built_in(name)
    if not name.endswith((".yaml", ".yml")):
        hint = did_you_mean(name, built_in) or f"there are {', '.join(built_in)}; your own are the path of a .yaml file"
        raise SpecError([Problem("unknown-rules", f"there are no rules called {shown(name)}", hint)])
    try:
        with Path(name).open("rb") as stream:
            content = stream.read(LARGEST_FILE + 1)
        text = content.decode("utf-8-sig")
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "it is not UTF-8 text"
        raise SpecError([Problem("unreadable-rules", f"the rules file {shown(name)} cannot be read: {why}", "check the path")]) from None
    if len(content) > LARGEST_FILE:
        raise SpecError([Problem("unreadable-rules", f"the rules file {shown(name)} is larger than {LARGEST_FILE:,} bytes", "is it the right file?")])
    return read_rules(text, name)


@lru_cache(maxsize=4)
def _built_in(name: str) -> Rules:
    return read_rules((BUILT_IN / f"{name}.yaml").read_text("utf-8"), f"{name}.yaml")


def read_rules(text: str, file: str) -> Rules:
    """The figures that a file holds. Raises SpecError with every problem, each with its place."""
    document = read_document(text, file)
    report = Report(document)
    top = Block(report, (), document.data, "a rules file")
    if document.data is None:
        report.say((), "empty-file", "the file is empty", "start from a copy of the built-in one")
    top.only(("rules", "title", "caution", "rooms", "limits"))
    name = top.text("rules", Path(file).stem)
    if top.given and top.data.get("limits") is None:
        top.missing("limits", "the figures, by their names")
    rules = Rules(name, top.text("title", name), _rooms(top), _limits(top), top.text("caution", ""))
    if report.problems:
        raise SpecError(report.in_order())
    return rules


def _rooms(top: Block) -> Mapping[str, str]:
    block = Block(top.report, ("rooms",), top.data.get("rooms"), "'rooms'")
    block.only(KINDS)
    rooms: dict[str, str] = {}
    for kind in KINDS:
        words = block.data.get(kind)
        if words is None:
            continue
        if not isinstance(words, list) or not all(isinstance(word, str) for word in words):
            block.say(kind, "not-a-list", f"'{kind}' must be a list of words", "for example [bedroom, study]")
            continue
        for word in words:
            key = " ".join(word.split()).casefold()
            if rooms.setdefault(key, kind) != kind:
                block.say(kind, "room-twice", f"'{word}' is {rooms[key]} already", "each word stands for one kind of room")
    return rooms


def _limits(top: Block) -> Mapping[str, Limit]:
    known = known_limits()
    block = Block(top.report, ("limits",), top.data.get("limits"), "'limits'")
    block.only(known)
    found = {key: _limit(block, key, known[key]) for key in block.data if key in known}
    return {key: limit for key, limit in found.items() if limit is not None}


def _limit(limits: Block, key: str, unit: str) -> Limit | None:
    block = Block(limits.report, ("limits", key), limits.data[key], f"'{key}'")
    if not block.given:
        if limits.data[key] is None:
            limits.say(key, "not-a-block", f"'{key}' is empty", "write {value: …, clause: …, sure: …}, or delete the line")
        return None
    block.only(("value", "unit", "clause", "edition", "sure", "source"))
    value = block.required("value", low=-LARGEST if unit in MAY_BE_NEGATIVE else 0.0, high=LARGEST, above=False, hint=f"the figure{f' in {unit}' if unit else ''}")
    given = block.text("unit", "")
    if given != unit:
        block.say("unit", "wrong-unit", f"'{key}' is in {given or 'no unit'}; it must be in {unit or 'no unit'}", f"write unit: {unit}" if unit else "leave 'unit' out")
    if block.data.get("clause") is None:
        block.missing("clause", "the document and its paragraph")
    sure = block.choice("sure", SURE)
    if value is None:
        return None
    return Limit(value, unit, block.text("clause", ""), block.text("edition", ""), sure, block.text("source", ""))
