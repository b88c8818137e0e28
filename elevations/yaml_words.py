"""What is wrong with the YAML itself, in the user's words: the parser's own messages speak of tokens and nodes.

The parser stops at the first fault, so these come one at a time.
"""

from __future__ import annotations

import re
from typing import NamedTuple

import yaml


class Fault(NamedTuple):
    """A syntax fault; line and columns count from 0, an end of None means the end of the line."""

    code: str
    message: str
    hint: str
    line: int
    column: int
    end_column: int | None


SYNTAX = "yaml-syntax"
SPACES = "in most editors: 'Convert indentation to spaces'"
LONGEST_KEY = 1024
"""YAML's own limit for a key on one line (YAML 1.2.2, chapter 7.4.2)."""
QUOTES = "put the whole text in quotes"
OPENERS = {"sequence": ("[", "]"), "mapping": ("{", "}")}
BRACKETS = re.compile(r"[\[\]{}]")
QUOTED_OR_COMMENT = re.compile(r"\"[^\"]*\"|'[^']*'|(?:^|\s)#.*")
NO_BREAK = re.compile("[\u00a0\u2007\u202f\u3000]")

FIXED_WORDS = {
    "exceeded maximum nesting depth": ("yaml-too-deep", "lists or blocks are nested far too deep", "flatten it"),
    "another document": (
        SYNTAX,
        "a second document starts here; a file holds one job",
        "delete the line '---' or move the rest to a file of its own",
    ),
    "<document start>": (
        SYNTAX,
        "text goes on after the end of the document",
        "delete the line '...' or '---' above it",
    ),
    "undefined alias": (
        SYNTAX,
        "no block with this anchor has been given before",
        "write '&name' at the block to be repeated",
    ),
    "second occurrence": (SYNTAX, "this anchor is given twice", "give each anchor ('&name') its own name"),
    "alphabetic or numeric": (
        SYNTAX,
        "'*' and '&' have a meaning of their own at the start of text",
        "put the text in quotes",
    ),
    "undefined tag handle": ("yaml-tag", "'!' has a meaning of its own at the start of text", "put the text in quotes"),
    "unknown escape": (
        SYNTAX,
        "a backslash in double quotes starts a special character, and this is none",
        "use single quotes, or write \\\\ for a backslash",
    ),
    "sequence entries are not allowed": (
        SYNTAX,
        "a list entry '- ' cannot start on the line of its key",
        "start it on the next line, or write [a, b]",
    ),
    "block sequence entries": (
        SYNTAX,
        "a list entry '- ' cannot start on the line of its key",
        "start it on the next line, or write [a, b]",
    ),
    "comment or line break": (
        SYNTAX,
        "'|' and '>' have a meaning of their own at the start of text",
        "put the text in quotes",
    ),
    "chomping": (SYNTAX, "'|' and '>' have a meaning of their own at the start of text", "put the text in quotes"),
    "a comment or a line break": (
        SYNTAX,
        "'|' and '>' have a meaning of their own at the start of text",
        "put the text in quotes",
    ),
    "directive": (
        SYNTAX,
        "'%' has a meaning of its own at the start of a line",
        "put the text in quotes, or delete the line",
    ),
    "incompatible YAML": (SYNTAX, "this version of YAML is not read", "delete the line that starts with %YAML"),
    "node content": (
        SYNTAX,
        "a value is missing here, or a bracket is closed that was never opened",
        "check the brackets on this line",
    ),
}


def in_own_words(error: yaml.YAMLError, lines: list[str]) -> Fault:
    """What PyYAML's error means and where; `lines` are the file's."""
    problem = str(getattr(error, "problem", None) or "")
    mark = getattr(error, "problem_mark", None)
    begun = getattr(error, "context_mark", None)
    line, column = (mark.line, mark.column) if mark else (0, 0)
    first, start = (begun.line, begun.column) if begun else (line, column)
    if "unexpected end of stream" in problem or "document indicator" in problem:
        return Fault(
            SYNTAX, "a quote is opened here and never closed", "close it where the text ends", first, start, start + 1
        )
    if "node content" in problem and "flow" in str(getattr(error, "context", "")) and not _at(lines, line, column):
        return _open_at_the_end(lines)
    blank = _no_break_space(lines, first, line)
    if blank is not None:
        return blank
    if "tab" in problem or _at(lines, line, column) == "\t":
        return _tab(lines, line, column)
    if "node content" in problem and _at(lines, line, column) == "?":
        return Fault(SYNTAX, "'?' is no value", "measure it, or leave the key out until it is known", line, column, column + 1)
    if "cannot start any token" in problem:
        return _odd_start(lines, line, column)
    if "mapping values are not allowed" in problem:
        return _stray_colon(lines, line, column)
    if "could not find expected ':'" in problem:
        return _no_colon(lines, first)
    if "',' or" in problem:
        return _open_bracket(str(getattr(error, "context", "")), lines, (first, start), (line, column))
    if "expected key" in problem or "'-' indicator" in problem or "<block end>" in problem:
        return _out_of_step(lines, first, start, line, column)
    for words, (code, message, hint) in FIXED_WORDS.items():
        if words in problem:
            return Fault(code, message, hint, line, column, None)
    return Fault(SYNTAX, "this is not valid YAML", f"the parser says: {problem or error}", line, column, None)


def _at(lines: list[str], line: int, column: int) -> str:
    return lines[line][column : column + 1] if line < len(lines) else ""


def _no_break_space(lines: list[str], first: int, last: int) -> Fault | None:
    for number in sorted({first, last, max(0, last - 1)}):
        found = NO_BREAK.search(lines[number]) if number < len(lines) else None
        if found and not _in_quotes(lines[number], found.start()):
            message = "a no-break space stands here; it looks like a space and is none"
            return Fault(SYNTAX, message, "replace it with an ordinary space", number, found.start(), found.end())
    return None


def _in_quotes(text: str, column: int) -> bool:
    return text[:column].count('"') % 2 == 1 or text[:column].count("'") % 2 == 1


def _tab(lines: list[str], line: int, column: int) -> Fault:
    indenting = not lines[line][:column].strip()
    what = (
        "a Tab is used for indentation; YAML allows only spaces"
        if indenting
        else "a Tab stands here; YAML wants spaces"
    )
    return Fault(SYNTAX, what, f"replace the Tab with two spaces ({SPACES})", line, column, column + 1)


def _odd_start(lines: list[str], line: int, column: int) -> Fault:
    sign = _at(lines, line, column)
    return Fault(SYNTAX, f"text cannot start with '{sign}' unless it is in quotes", QUOTES, line, column, None)


def _stray_colon(lines: list[str], line: int, column: int) -> Fault:
    text = lines[line] if line < len(lines) else ""
    key = re.match(r"\s*(?:- +)*[^\s:'\"][^:'\"]*: +(?=\S)", text)
    if key and key.end() <= column:
        value = text[key.end() :].split(" #")[0].rstrip()
        shown = value if len(value) <= 60 else value[:59] + "…"
        hint = f'write "{shown}"' if '"' not in value else f"write '{shown}'"
        bare = shown.strip("()")
        if re.match(r"[^,:]+, *[a-z_]+: ", value):
            return Fault(SYNTAX, "several keys on one line stand in curly brackets", f"write '{{{key[0].strip(' -')} {bare}}}'",
                         line, key.end(), key.end() + len(value))
        if re.match(r"\(?[a-z_]+: \S", value):
            hint = f"write {{{bare}}} if that is a block, or {hint.removeprefix('write ')} if it is text"
        return Fault(SYNTAX, "text that holds ': ' must be in quotes", hint, line, key.end(), key.end() + len(value))
    above = next(
        (n for n in range(line - 1, -1, -1) if lines[n].strip() and not lines[n].strip().startswith("#")), None
    )
    indent = len(text) - len(text.lstrip())
    if above is not None and (fault := _no_key_above(lines[above], above)) is not None:
        return fault
    if above is not None:
        start = re.match(r"\s*(?:- +)*", lines[above])
        want = (start.end() if start else 0) + 1
        message = "this line is indented more than the key above it, which already has a value"
        return Fault(SYNTAX, message, f"start it in column {want}, under the key above", line, indent, None)
    return Fault(SYNTAX, "a ':' is not expected here", QUOTES, line, column, column + 1)


def _no_key_above(text: str, line: int) -> Fault | None:
    """A line that was meant as a key: without a colon, with '=' for it, or without the space after it."""
    where = len(text) - len(text.lstrip())
    bare = re.sub(r"^\s*(?:- +)*", "", text).rstrip()
    glued = re.fullmatch(r"([A-Za-z_]+):([^\s:/].*)", bare)
    if glued:
        start = len(text.rstrip()) - len(bare)
        return Fault(SYNTAX, "a ':' after a key needs a space behind it", f"write '{glued[1]}: {glued[2][:40]}'", line, start, None)
    if ":" in text:
        return None
    equals = re.fullmatch(r"([A-Za-z_]+) ?= ?(\S.*)", bare)
    hint = f"write '{equals[1]}: {equals[2][:40]}'" if equals else "for example 'windows:'"
    return Fault(SYNTAX, "this line needs a ':' after its key", hint, line, where, None)


def _no_colon(lines: list[str], line: int) -> Fault:
    text = lines[line]
    indent = len(text) - len(text.lstrip())
    if len(text) > LONGEST_KEY:
        return Fault(SYNTAX, "this key is too long", "a key is one of the job's words", line, indent, None)
    return Fault(
        SYNTAX,
        "this line has no ': ' between a key and its value",
        _with_colon(text),
        line,
        indent,
        None,
    )


def _with_colon(text: str) -> str:
    """The line as it was probably meant."""
    found = re.fullmatch(r"(?:- +)*([A-Za-z_]+)(?: ?= ?|: ?| +)(\S.*)", text.strip())
    return f"write '{found[1]}: {found[2][:40]}'" if found else "write 'key: value', with a space after the colon"


def _open_bracket(context: str, lines: list[str], begun: tuple[int, int], found: tuple[int, int]) -> Fault:
    kind = "mapping" if "mapping" in context else "sequence"
    opener, closer = OPENERS[kind]
    line, column = found
    if line == begun[0] and _at(lines, line, column):
        message = f"a ',' or '{closer}' is missing before this"
        return Fault(
            SYNTAX, message, f"entries between {opener} and {closer} are parted by commas", line, column, column + 1
        )
    return _never_closed(lines, *begun, closer)


def _open_at_the_end(lines: list[str]) -> Fault:
    """The file ends inside brackets: the innermost that is open, quotes and comments left aside."""
    opened: list[tuple[int, int]] = []
    for number, text in enumerate(lines):
        bare = QUOTED_OR_COMMENT.sub(lambda found: " " * len(found.group()), text)
        for found in BRACKETS.finditer(bare):
            if found.group() in "[{":
                opened.append((number, found.start()))
            elif opened:
                opened.pop()
    line, column = opened[-1] if opened else (0, 0)
    closer = dict(OPENERS.values()).get(_at(lines, line, column), "]")
    return _never_closed(lines, line, column, closer)


def _never_closed(lines: list[str], line: int, column: int, closer: str) -> Fault:
    message = f"'{_at(lines, line, column)}' is opened here and never closed"
    return Fault(SYNTAX, message, f"write '{closer}' at the end", line, column, column + 1)


def _out_of_step(lines: list[str], first: int, start: int, line: int, column: int) -> Fault:
    text = lines[line] if line < len(lines) else ""
    before, sign = text[:column].rstrip(), _at(lines, line, column)
    if before.strip() and before[-1] in "'\"":
        message = "text goes on after a closing quote"
        hint = "put the whole text in the other kind of quotes, or see whether a quote further up was never closed"
        return Fault(SYNTAX, message, hint, line, column, None)
    if sign in ("]", "}"):
        return Fault(SYNTAX, f"'{sign}' closes nothing", "take it out, or open it", line, column, column + 1)
    if sign == "-" and text[column : column + 2] in ("-", "- "):
        above = next((len(t) - len(t.lstrip()) for t in reversed(lines[:line]) if t.lstrip().startswith("- ")), column)
        if above != column:
            message = "this list entry does not stand under the one above it"
            return Fault(SYNTAX, message, f"start it in column {above + 1}, as that one does", line, column, None)
        message = "a list entry '- ' stands among keys"
        return Fault(SYNTAX, message, "give the list a key of its own, or indent it under its key", line, column, None)
    if sign == "-" and text[column + 1 : column + 2].strip():
        return Fault(SYNTAX, "the '-' that starts a list entry needs a space behind it", f"write '- {text[column + 1 :].strip()[:40]}'", line, column, None)
    if start == column and _at(lines, first, start) == "-":
        message = "a key stands among list entries that start with '- '"
        return Fault(SYNTAX, message, "indent it to stand inside the entry above, or further out", line, column, None)
    message = "this line does not stand under any key above it"
    return Fault(SYNTAX, message, "give keys of one block the same indentation", line, column, None)
