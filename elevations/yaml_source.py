"""YAML that remembers where everything stands: text in, plain data and the place of each key and value out.

Reads the core rules of YAML 1.2 (https://yaml.org/spec/1.2.2/, chapter 10.3), less what has no use in a job: only
`true`, `false`, nothing and decimal numbers are more than text, so `on`, `no` and `12:30` stay as written. Numbers
keep their raw text. Tags, keys that are not text, duplicate keys, anchors that hold themselves and files that unfold
without end are refused.
"""

from __future__ import annotations

import gc
import math
import re
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import Any

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from elevations.errors import Path, Place, Problem, SpecError
from elevations.yaml_words import in_own_words

try:
    from yaml.cyaml import CParser  # type: ignore[attr-defined]
except ImportError:  # PyYAML built without libyaml: slower, same answers
    CParser = None  # type: ignore[assignment, misc]

MOST_CHARACTERS = 2_000_000
"""Five times a job of a thousand windows."""
MOST_VALUES = 1_000_000
MOST_LEVELS = 64
MOST_PROBLEMS = 500
"""More are not gathered: nobody reads them, and a hostile file could hold a million."""

_UNPRINTABLE = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]"
)
_NUMBER = re.compile(r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
_NUMBER_STARTS = frozenset("0123456789+-.")
_LONGEST_NUMBER = 40
_WORDS = {"true": True, "false": False, "": None, "~": None, "null": None}


class RawInt(int):
    """A whole number and the text it was written as: '007'."""

    raw: str


class RawFloat(float):
    """A number and the text it was written as: '1.50'."""

    raw: str


class _NoTypes:
    """Leaves every value without an explicit tag untyped; the builder below types them."""

    def resolve(self, *_: Any) -> None:
        return None

    def descend_resolver(self, *_: Any) -> None:
        return None

    def ascend_resolver(self) -> None:
        return None


if CParser is not None:

    class _QuickLoader(CParser, _NoTypes):
        """libyaml's parser, up to the node tree."""

        def __init__(self, text: str) -> None:
            CParser.__init__(self, text)


class _PlainLoader(_NoTypes, yaml.reader.Reader, yaml.scanner.Scanner, yaml.parser.Parser, yaml.composer.Composer):
    """PyYAML's own parser, up to the node tree."""

    def __init__(self, text: str) -> None:
        yaml.reader.Reader.__init__(self, text)
        yaml.scanner.Scanner.__init__(self)
        yaml.parser.Parser.__init__(self)
        yaml.composer.Composer.__init__(self)


class Document:
    """A YAML file as read: `data` is plain dicts, lists, text, numbers, bools and None; `problems` what to tell."""

    def __init__(self, text: str, file: str, root: Node | None) -> None:
        """`text` without a byte order mark; `root` is its node tree, None for an empty file."""
        self.file = file
        self.text = text
        self._root = root
        builder = _Builder(self, shared="*" in text)
        self.data: Any = None if root is None else builder.build(root, 0)
        self.problems: tuple[Problem, ...] = tuple(builder.problems)
        self.holds_nothing: bool = builder.holds_nothing
        """Whether a key or list entry has no value: `data` holds None there."""
        if not self.problems:
            # the tree is several times the data's size, and only an error or an explanation asks for places:
            # it is composed again then
            del self._root

    def __getstate__(self) -> dict[str, Any]:
        """Without the node tree, which another process composes again when it wants a place."""
        return {name: value for name, value in self.__dict__.items() if name not in ("_root", "_pairs")}

    @cached_property
    def _root(self) -> Node | None:
        return _compose(self.text)

    @cached_property
    def _pairs(self) -> dict[int, dict[str, tuple[Node, Node]]]:
        """Key and value nodes of the mappings that were asked about, by the mapping's identity."""
        return {}

    @cached_property
    def lines(self) -> list[str]:
        """The file's lines without their ends."""
        return _lines(self.text)

    def place(self, path: Path, key: bool = False) -> Place:  # noqa: FBT001, FBT002  # reads well: place(path, key=True)
        """Where the value at `path` stands, or with `key` its key; falls back to the nearest parent that is there.

        A value that is missing, empty or a block below its key is shown at the key.
        """
        key_node, node = None, self._root
        for depth, step in enumerate(path):
            found = self._child(node, step)
            if found is None:
                return self.place_of(key_node or node)
            key_node, node = found
            if key and depth == len(path) - 1 and key_node is not None:
                return self.place_of(key_node)
        if node is not None and key_node is not None and _is_elsewhere(key_node, node):
            return self.place_of(key_node)
        return self.place_of(node)

    def _child(self, node: Node | None, step: str | int) -> tuple[Node | None, Node] | None:
        """Key node and value node of one step down, merged blocks included; the key is None in a list."""
        if isinstance(node, SequenceNode):
            inside = isinstance(step, int) and 0 <= step < len(node.value)
            return (None, node.value[step]) if inside else None
        if not isinstance(node, MappingNode):
            return None
        if id(node) not in self._pairs:
            self._pairs[id(node)] = _first_pairs(node)
        found = self._pairs[id(node)].get(str(step))
        if found is not None:
            return found
        return next((inner for merged in _merges_of(node) if (inner := self._child(merged, step)) is not None), None)

    def place_of(self, node: Node | None) -> Place:
        """Where a node stands: its first line, from its first character on."""
        if node is None:
            return place_in(self.lines, self.file, 0, 0)
        start, end = node.start_mark, node.end_mark
        return place_in(self.lines, self.file, start.line, start.column, end.column if end.line == start.line else None)


def place_in(lines: list[str], file: str, line: int, column: int, end_column: int | None = None) -> Place:
    """A place from a line and columns that count from 0; without an end it runs to the end of the line."""
    text = lines[line] if line < len(lines) else ""
    end = len(text.rstrip()) if end_column is None else end_column
    return Place(file, line + 1, column + 1, max(column + 1, end) + 1, text)


def raw_text(value: object) -> str | None:
    """The text that a plain value was written as; None for lists, blocks and nothing."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return str(getattr(value, "raw", value))
    return None


def read_document(text: str, file: str) -> Document:
    """Read YAML text; `file` is the name that places carry.

    Raises SpecError where the text cannot be read at all: broken syntax, characters that no editor shows, or a file
    that is too large, too deep or holds itself. What else is wrong with it is in the document's `problems`.
    """
    with collector_paused():
        return _read(text.removeprefix("\ufeff"), file)


def _read(text: str, file: str) -> Document:
    lines_of = _Lines(text)
    if len(text) > MOST_CHARACTERS:
        message = f"the file has {len(text):,} characters; at most {MOST_CHARACTERS:,} are read"
        raise SpecError(
            [Problem("yaml-too-large", message, "split the job into several files", place=lines_of.place(file, 0))]
        )
    bad = _UNPRINTABLE.search(text)
    if bad:
        raise SpecError([_unprintable(bad.group(), lines_of.place(file, bad.start()))])
    try:
        root = _compose(text)
    except yaml.YAMLError as error:
        code, message, hint, line, column, end = in_own_words(error, lines_of.lines)
        raise SpecError(
            [Problem(code, message, hint, place=place_in(lines_of.lines, file, line, column, end))]
        ) from None
    except RecursionError:
        raise SpecError([_too_deep(lines_of.place(file, 0))]) from None
    if root is not None and "*" in text:
        fault = _Weight().fault(root)
        if fault is not None:
            code, message, hint, node = fault
            place = place_in(lines_of.lines, file, node.start_mark.line, node.start_mark.column)
            raise SpecError([Problem(code, message, hint, place=place)])
    document = Document(text, file, root)
    deep = [problem for problem in document.problems if problem.code == "yaml-too-deep"]
    if deep:
        raise SpecError(deep[:1])
    return document


class _Lines:
    """Places by character position, for what goes wrong before there is a node tree."""

    def __init__(self, text: str) -> None:
        self._text = text

    @cached_property
    def lines(self) -> list[str]:
        return _lines(self._text)

    def place(self, file: str, index: int) -> Place:
        before = _lines(self._text[:index])
        return place_in(self.lines, file, len(before) - 1, len(before[-1]), len(before[-1]) + 1)


def _lines(text: str) -> list[str]:
    return re.split(r"\r\n|\r|\n", text)


@contextmanager
def collector_paused() -> Iterator[None]:
    """Python's cycle collector off meanwhile: it would walk the growing tree again and again, at 2 to 4 times the cost."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _compose(text: str) -> Node | None:
    loader = _PlainLoader(text) if CParser is None else _QuickLoader(text)
    try:
        node: Node | None = loader.get_single_node()
        return node
    finally:
        loader.dispose()


def _unprintable(character: str, place: Place) -> Problem:
    return Problem(
        "yaml-character",
        f"a character that cannot be seen (U+{ord(character):04X}) is in the text",
        "delete it; it often comes from copying out of another program",
        place=place,
    )


def _too_deep(place: Place) -> Problem:
    return Problem("yaml-too-deep", f"blocks are nested more than {MOST_LEVELS} levels deep", "flatten it", place=place)


def _first_pairs(mapping: Any) -> dict[str, tuple[Node, Node]]:
    """Key and value nodes of a mapping by the key's text, the first where one is repeated."""
    return {key.value: (key, value) for key, value in reversed(mapping.value) if isinstance(key, ScalarNode)}


def _merges_of(mapping: Any) -> Iterator[Node]:
    for key_node, value_node in mapping.value:
        if _is_merge(key_node):
            yield from value_node.value if isinstance(value_node, SequenceNode) else [value_node]


def _is_elsewhere(key_node: Node, node: Node) -> bool:
    """Whether the value has no text of its own, or starts on a later line than its key."""
    start, end = node.start_mark, node.end_mark
    return bool(start.index == end.index or start.line != key_node.start_mark.line)


def _is_merge(key_node: Node) -> bool:
    return isinstance(key_node, ScalarNode) and key_node.value == "<<" and not key_node.style


def scalar(text: str) -> Any:
    """What plain (unquoted) text means: nothing, true, false, a decimal number, or itself."""
    if text and text[0] in _NUMBER_STARTS and len(text) <= _LONGEST_NUMBER and _NUMBER.fullmatch(text):
        try:
            whole = RawInt(text)
        except ValueError:
            number = RawFloat(text)
            if not math.isfinite(number):
                return text
            number.raw = text
            return number
        whole.raw = text
        return whole
    return _WORDS.get(text, text)


class _Builder:
    """Nodes to plain data, gathering what is wrong."""

    def __init__(self, document: Document, *, shared: bool) -> None:
        self.problems: list[Problem] = []
        self.holds_nothing = False
        self._document = document
        self._shared = shared
        """Whether a node can be met twice: then it is built once, and told about once."""
        self._built: dict[int, Any] = {}

    def build(self, node: Any, depth: int) -> Any:
        if self._shared and id(node) in self._built:
            return self._built[id(node)]
        if node.tag is not None:
            self._say("yaml-tag", f"'{_short(node.tag)}': tags have no meaning here", "delete the tag", node)
        kind = type(node)
        value: Any
        if kind is ScalarNode:
            value = self._scalar(node)
        elif depth >= MOST_LEVELS:
            self.problems.append(_too_deep(self._document.place_of(node)))
            value = None
        elif kind is SequenceNode:
            value = [self.build(item, depth + 1) for item in node.value]
        else:
            value = self._mapping(node, depth + 1)
        if self._shared:
            self._built[id(node)] = value
        return value

    def _scalar(self, node: Any) -> Any:
        text = node.value
        if not node.style:
            value = scalar(text)
            if value is None:
                self.holds_nothing = True
            return value
        if node.style == '"':
            bad = _UNPRINTABLE.search(text)
            if bad:
                self.problems.append(_unprintable(bad.group(), self._document.place_of(node)))
        return text

    def _mapping(self, node: Node, depth: int) -> dict[str, Any]:
        data: dict[str, Any] = {}
        merges: list[Node] = []
        firsts: dict[str, tuple[Node, Node]] = {}
        for key_node, value_node in node.value:
            name = key_node.value
            if type(key_node) is not ScalarNode:
                message = "a key must be plain text, not a list or a block"
                self._say("yaml-key", message, "text that starts with { or [ must be in quotes", key_node)
            elif _is_merge(key_node):
                merges.extend(self._merged(value_node))
            elif name in data:
                firsts = firsts or _first_pairs(node)
                hint = f"first given on line {firsts[name][0].start_mark.line + 1}; keep one of the two"
                self._say("yaml-duplicate-key", f"'{_short(name)}' is given twice in the same block", hint, key_node)
            else:
                data[name] = self.build(value_node, depth)
        for merged in merges:
            for name, value in self.build(merged, depth).items():
                data.setdefault(name, value)
        return data

    def _merged(self, node: Node) -> list[Node]:
        parts = node.value if isinstance(node, SequenceNode) else [node]
        good: list[Node] = [part for part in parts if isinstance(part, MappingNode)]
        if len(good) < len(parts):
            self._say(
                "yaml-merge", "'<<' takes an anchored block, or a list of them", "for example '<<: *standard'", node
            )
        return good

    def _say(self, code: str, message: str, hint: str, node: Node) -> None:
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(Problem(code, message, hint, place=self._document.place_of(node)))


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:39] + "…"


Fault = tuple[str, str, str, Node]


class _Weight:
    """How many values and levels a node tree unfolds to, found without unfolding it."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[int, int]] = {}
        self._open: set[int] = set()
        self._fault: Fault | None = None

    def fault(self, root: Node) -> Fault | None:
        """What makes the tree unreadable, or None."""
        self._weigh(root, 0)
        return self._fault

    def _weigh(self, node: Node, depth: int) -> tuple[int, int]:
        """Values and levels; an anchor stands before its aliases, so recursion is only as deep as the text."""
        if isinstance(node, ScalarNode):
            return 1, 0
        key = id(node)
        if key in self._known:
            return self._known[key]
        if key in self._open:
            self._fault = self._fault or ("yaml-cycle", "this anchored block contains itself", "take the '*' out", node)
            return 1, 0
        if depth > MOST_LEVELS or self._fault:
            self._fault = self._fault or _deep_fault(node)
            return 1, 0
        self._open.add(key)
        pairs = isinstance(node, MappingNode)
        parts = [part for pair in node.value for part in pair] if pairs else node.value
        weights = [self._weigh(part, depth + 1) for part in parts]
        self._open.discard(key)
        values, levels = 1 + sum(w[0] for w in weights), 1 + max((w[1] for w in weights), default=0)
        if values > MOST_VALUES:
            message = f"repeats anchored blocks so often that the file grows past {MOST_VALUES:,} values"
            self._fault = self._fault or ("yaml-too-large", message, "write out what is needed, without anchors", node)
        elif levels > MOST_LEVELS:
            self._fault = self._fault or _deep_fault(node)
        self._known[key] = values, levels
        return values, levels


def _deep_fault(node: Node) -> Fault:
    problem = _too_deep(Place("", 1, 1, 2, ""))
    return problem.code, problem.message, problem.hint, node
