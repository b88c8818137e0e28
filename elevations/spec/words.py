"""pydantic's errors as problems in the user's words."""

from __future__ import annotations

import re
from typing import Any, Literal, get_args, get_origin

from pydantic import ValidationError
from pydantic.fields import FieldInfo

from elevations.errors import Path, Problem
from elevations.openings import OPENINGS
from elevations.spec.block import Block
from elevations.spec.fields import short
from elevations.spec.glass import make_up_fault
from elevations.spec.meant import QUANTITIES, as_block, as_light, as_list, meant_choice, meant_key
from elevations.spec.model import BAR_SPACINGS, Defaults, Division, Job, Light, Window
from elevations.spec.shape import ReadsShape
from elevations.spec.site import Opening
from elevations.spelling import nearest
from elevations.yaml_source import MOST_PROBLEMS

STANDS_FOR = {"opening": "frame", "circular": "frame"}
"""Where one of these is given, the other is not missing too."""
TAPED = {**dict.fromkeys(("top", "middle", "bottom"), "width"), **dict.fromkeys(("left", "centre", "center", "right"), "height")}
"""Places where an opening is measured, and which list the size belongs in."""
VARIANTS: dict[str, type[Block]] = {"light": Light, "division": Division}


def problems_of(error: ValidationError) -> list[Problem]:
    """The errors, worded, with their paths in the job file: all of them up to what anybody reads."""
    items = error.errors(include_url=False)[:MOST_PROBLEMS]
    details = [(*_path_and_block(item["loc"]), item) for item in items]
    extra: dict[Path, list[str]] = {}
    for path, _, item in details:
        if item["type"] == "extra_forbidden":
            extra.setdefault(path[:-1], []).append(str(path[-1]))
    problems = []
    for path, block, item in details:
        if item["type"] == "missing" and (_supplied(path, extra, item["input"]) or _of_shape(path, details)):
            continue
        problems.append(_problem(path, block, item))
    return problems


def _path_and_block(loc: tuple[str | int, ...]) -> tuple[Path, type[Block]]:
    """The path without pydantic's variant names, and the block whose key the path ends in."""
    path: list[str | int] = []
    block: type[Block] = Job
    owner: type[Block] = Job
    previous: str | int = ""
    for step in loc:
        if previous in ("mullions", "transoms", "low_e") and isinstance(step, str):
            previous = ""  # the variant's name: positions or spacing, one or several
            continue
        if isinstance(previous, int) and path[-2:-1] == ["lights"] and step in VARIANTS:
            block = owner = VARIANTS[str(step)]
            previous = ""
            continue
        path.append(step)
        owner = block
        if isinstance(step, str) and step in block.model_fields:
            within = _block_within(block.model_fields[step])
            if within is not None:
                block = within
        previous = step
    return tuple(path), owner


def _block_within(field: FieldInfo) -> type[Block] | None:
    """The block that a field holds, alone, in a list or under names of the user's choice."""
    pending: list[Any] = [field.annotation]
    while pending:
        kind = pending.pop()
        if isinstance(kind, ReadsShape):
            return kind.block
        if isinstance(kind, type) and issubclass(kind, Block):
            return kind
        pending.extend(get_args(kind))
    return None


def _supplied(missing: Path, extra: dict[Path, list[str]], block: Any) -> bool:
    """Whether a misspelt or stand-in key of the same block is what is missing."""
    given = extra.get(missing[:-1], [])
    if isinstance(block, dict) and any(STANDS_FOR.get(key) == missing[-1] for key in block):
        return True
    return any(STANDS_FOR.get(key) == missing[-1] or nearest(key, [str(missing[-1])]) for key in given)


def _of_shape(missing: Path, details: list[tuple[Path, type[Block], Any]]) -> bool:
    """Whether it is the height of a frame whose head, which might give it, is itself wrong."""
    head = (*missing[:-2], "head")
    return missing[-2:] == ("frame", "height") and any(path[: len(head)] == head for path, _, _ in details)


def _problem(path: Path, block: type[Block], item: Any) -> Problem:
    key = next((step for step in reversed(path) if isinstance(step, str)), "")
    kind = item["type"]
    if kind == "words":
        words = item["ctx"]
        subject = f"an entry of '{key}'" if path and isinstance(path[-1], int) else f"'{key}'"
        hint = _comma_hint(path, item["input"]) or words["hint"]
        return Problem(words["code"], words["message"].replace("{key}", subject), hint, path)
    if kind == "extra_forbidden":
        return _unknown_key(path, block, item["input"])
    if kind == "missing":
        field = block.model_fields.get(key)
        hint = _example(key, field)
        if block is Light:
            hint += "; to divide it again, give mullions or transoms and 'lights' instead"
        return Problem("missing-key", f"'{key}' is missing", hint, path)
    if kind == "literal_error":
        return _not_a_choice(path, key, item)
    return _wrong_shape(path, key, block, item)


def _comma_hint(path: Path, value: Any) -> str:
    """`[1,200]` is two numbers to YAML: worth saying where a bar position is absurdly small."""
    in_list = len(path) > 1 and isinstance(path[-1], int) and path[-2] in ("mullions", "transoms")
    small = isinstance(value, int) and 0 < value < 10
    return "in a list, commas part the entries: write 1200, not 1,200" if in_list and small else ""


def _example(key: str, field: FieldInfo | None) -> str:
    examples = (field.examples or []) if field else []
    return f"for example `{key}: {examples[0]}`" if examples else ""


def _unknown_key(path: Path, block: type[Block], value: Any) -> Problem:
    key = str(path[-1])
    if block is Light and key in Division.model_fields:
        hint = "an entry is either a light or divided again: take out 'light', or the bars and 'lights'"
        return Problem("light-and-division", f"'{key}' cannot stand beside 'light'", hint, path)
    if key.isdigit():
        hint = "a comma parts entries here: write 1200 for 1,200, and 1200.5 for 1200,5"
    elif key.casefold() in QUANTITIES and "mark" in block.model_fields:
        hint = "each window has an entry and a mark of its own: write it once for each"
    elif key == "light" and issubclass(block, Division):
        hint = f"a light stands in a list: `lights: [{{light: {short(value)}}}]`"
    elif key in Light.model_fields and issubclass(block, Division):
        hint = f"'{key}' belongs to one of the lights: `lights: [{{light: …, {key}: …}}]`"
    elif block is Opening and key in TAPED:
        hint = f"sizes stand in lists: `width: [top, middle, bottom]`, `height: [left, centre, right]`; '{key}' belongs in {TAPED[key]}"
    elif block is Defaults and key in Window.model_fields:
        hint = f"'{key}' is given at each window"
    elif (home := _home_of(key, block)) is not None:
        hint = f"'{key}' belongs under '{home}'"
    else:
        near = meant_key(key, block.model_fields)
        hint = f"did you mean '{near}'?" if near else f"known here: {', '.join(sorted(block.model_fields))}"
    return Problem("unknown-key", f"'{short(key)}' is not a known key here", hint, path)


def _home_of(key: str, block: type[Block]) -> str | None:
    """The key of this block whose own block knows `key`: 'frame' for a width given beside the mark."""
    within = ((name, _block_within(field)) for name, field in block.model_fields.items() if name != "lights")
    return next((name for name, inner in within if inner is not None and key in inner.model_fields), None)


def _not_a_choice(path: Path, key: str, item: Any) -> Problem:
    choices = [part.strip("'") for part in item["ctx"]["expected"].replace(" or ", ", ").split(", ")]
    value = short(item["input"])
    if key in ("mullions", "transoms"):
        return _not_a_spacing(path, key, value)
    near = meant_choice(value, choices)
    hint = f"did you mean '{near}'?" if near else ""
    if key == "hinge" and f"{value}-hung" in OPENINGS:
        hint = f"a light with its hinges there is `light: {value}-hung`, without 'hinge'"
    return Problem(
        "unknown-choice", f"'{value}' is not one of the choices for '{key}': {', '.join(choices)}", hint, path
    )


def _not_a_spacing(path: Path, key: str, value: str) -> Problem:
    if value.casefold().startswith("equal"):
        message = f"'{value}' does not say what is to be equal"
    else:
        message = f"'{value}' is neither a list of centre lines nor a way to space them"
    numbers = re.findall(r"[0-9.]+", value) if re.fullmatch(r"[0-9.,;&+() ]+", value) else []
    hint = f"write one of {', '.join(BAR_SPACINGS)}, or centre lines in mm: `{key}: [{', '.join(numbers) or 600}]`"
    return Problem("unknown-spacing", message, hint, path)


def _wrong_shape(path: Path, key: str, block: type[Block], item: Any) -> Problem:
    """A text where a list or block belongs, and the like."""
    value = item["input"]
    if item["type"] == "tuple_type":
        choices = () if key in ("mullions", "transoms") else _choices(block.model_fields.get(key))
        return Problem("not-a-list", f"'{key}' must be a list", as_list(key, value, choices), path)
    if path and isinstance(path[-1], int):
        example = as_light(short(value)) if key == "lights" else _entry(block)
        return Problem("not-a-block", f"an entry of '{key}' must be a block of keys", f"for example {example}", path)
    key = short(key)
    if path[:1] == ("glass",) and len(path) == 2:
        make_up = str(value) if make_up_fault(short(value)) is None else "4/20/4"
        return Problem("not-a-block", f"the make-up '{key}' must be a block of keys", f"for example `{key}: {{make_up: {make_up}}}`", path)
    meant = as_block(key, value)
    hint = f"write `{meant}`" if meant else _example(key, block.model_fields.get(key) or Job.model_fields.get(key))
    return Problem("not-a-block", f"'{key}' must be a block of keys", hint, path)


def _entry(block: type[Block]) -> str:
    """An entry of a list of blocks, with the keys that it can't do without."""
    needed = [f"{name}: {field.examples[0]}" for name, field in block.model_fields.items() if field.is_required() and field.examples]
    return "{mark: W1, …}" if block is Window else f"{{{', '.join(needed)}}}"


def _choices(field: FieldInfo | None) -> tuple[str, ...]:
    """The words that the entries of a list are chosen from; none where they are no such words."""
    pending: list[Any] = [field.annotation] if field else []
    while pending:
        kind = pending.pop()
        if get_origin(kind) is Literal:
            return get_args(kind)
        pending.extend(get_args(kind))
    return ()
