"""What may be wrong with the YAML itself, and texts made to hurt a reader. One row a mistake."""

import pytest
from spec_jobs import GOOD, HEAD, assert_told, of_lights, rows

SYNTAX = [
    ("tab", "job:\n\treference: A\n", "yaml-syntax", ["Tab is used for indentation", "two spaces"], "2:1"),
    ("tab later", "job:\n  site: a\n \tclient: b\n", "yaml-syntax", ["Tab is used for indentation"], "3:2"),
    ("unclosed quote", "job:\n  site: 'Quillback\nglass: 3\n", "yaml-syntax", ["quote is opened here"], "2:9"),
    ("unclosed double quote", 'job:\n  site: "Quillback\n', "yaml-syntax", ["quote is opened here", "close it"], "2:9"),
    ("apostrophe in quotes", "job: {site: x}\na: 'it's'\n", "yaml-syntax", ["after a closing quote"], "2:8"),
    ("colon in text", "job:\n  site: Kitchen: left\n", "yaml-syntax", ["must be in quotes", '"Kitchen: left"'], "2:9"),
    ("over-indented", "job:\n  site: a\n    client: b\n", "yaml-syntax", ["indented more", "column 3"], "3:5"),
    ("under-indented", "job:\n  site: a\n client: b\n", "yaml-syntax", ["does not stand under any key"], "3:2"),
    ("no colon", "job: 1\nglass 2\nwindows: 3\n", "yaml-syntax", ["no ': ' between"], "2:1"),
    ("no colon above a list", "windows\n  - mark: W1\n", "yaml-syntax", ["needs a ':'"], "1:1"),
    ("open bracket", "windows: [\n", "yaml-syntax", ["'[' is opened here and never closed"], "1:10"),
    ("open brace", "job: {site: a\nglass: b\n", "yaml-syntax", ["'{' is opened here and never closed"], "1:6"),
    ("missing comma", "job: {site: a client: b}\n", "yaml-syntax", ["',' or '}' is missing", "commas"], "1:21"),
    ("stray brace", "job: {site: a}}\n", "yaml-syntax", ["'}' closes nothing"], "1:15"),
    ("at sign", "job: {}\na: @home\n", "yaml-syntax", ["cannot start with '@'", "quotes"], "2:4"),
    ("per cent", "a: %5\n", "yaml-syntax", ["cannot start with '%'"], "1:4"),
    ("no-break space", "job:\n  site:\u00a0a\n  client: b\n", "yaml-syntax", ["no-break space"], "2:8"),
    ("two documents", "job: 1\n---\njob: 2\n", "yaml-syntax", ["second document", "'---'"], "2:1"),
    ("list among keys", "job: 1\n- b\n", "yaml-syntax", ["stands among keys"], "2:1"),
    ("key among entries", "windows:\n  - a\n  mark: b\n", "yaml-syntax", ["among list entries"], "3:3"),
    ("list on the key's line", "windows: - mark\n", "yaml-syntax", ["cannot start on the line of its key"], "1:10"),
    ("unknown anchor", "job: *x\n", "yaml-syntax", ["no block with this anchor"], "1:6"),
    ("anchor twice", "a: &x 1\nb: &x 2\n", "yaml-syntax", ["anchor is given twice"], "2:4"),
    ("backslash", 'a: "C:\\jobs"\n', "yaml-syntax", ["backslash"], "1:7"),
    ("NUL", "job: a\x00b\n", "yaml-character", ["U+0000", "cannot be seen"], "1:7"),
    ("escape character", "job: {}\nsite: \x1b[31m\n", "yaml-character", ["U+001B"], "2:7"),
    ("text turned round", "site: a\u202eb\n", "yaml-character", ["U+202E"], "1:8"),
    ("line separator", "a: 1\u2028b: 2\n", "yaml-character", ["U+2028"], "1:5"),
    ("control character escaped", GOOD.replace("W1", '"W\\u0007"'), "yaml-character", ["U+0007"], "7:11"),
    ("tag", GOOD.replace("W1", "!!python/name:os.system W1"), "yaml-tag", ["tags have no meaning"], "7:11"),
    ("key that is a list", GOOD + "? [a]\n: b\n", "yaml-key", ["must be plain text"], "13:3"),
    ("duplicate key", GOOD.replace("1050}", "1050, width: 2}"), "yaml-duplicate-key", ["'width'", "line 8"], "8:40"),
    ("merge of text", GOOD + "<<: text\n", "yaml-merge", ["anchored block"], "13:5"),
    ("empty file", "", "no-job", ["holds no job", "elevations new"], "1:1"),
    ("only a comment", "# nothing\n", "no-job", ["holds no job"], "1:1"),
    ("a list for a job", "- mark: W1\n", "no-job", ["a job is a block of keys"], "1:1"),
    ("text for a job", "hello\n", "no-job", ["a job is a block of keys"], "1:1"),
]

HOSTILE = [
    ("nested lists", "[" * 5000, "yaml-too-deep", ["too deep"], "1:1001"),
    ("nested dashes", "- " * 5000 + "a", "yaml-too-deep", ["too deep"], "1:1999"),
    (
        "nested lists under the limit of the parser",
        "a: " + "[" * 500 + "]" * 500,
        "yaml-too-deep",
        ["64 levels"],
        "1:67",
    ),
    ("self", "a: &a {b: *a}\n", "yaml-cycle", ["contains itself"], "1:4"),
    ("self through another", "a: &a [1, {b: [*a]}]\n", "yaml-cycle", ["contains itself"], "1:4"),
    (
        "bomb",
        "x: &x [1]\n"
        + "".join(f"y{i}: &y{i} [{', '.join([f'*y{i - 1}' if i else '*x'] * 9)}]\n" for i in range(12))
        + "windows: *y11\n",
        "yaml-too-large",
        ["grows past 1,000,000 values"],
        "7:5",
    ),
    (
        "chain of anchors",
        "".join(f"y{i}: &y{i} [{f'*y{i - 1}' if i else 1}]\n" for i in range(5000)),
        "yaml-too-deep",
        ["64 levels"],
        "65:6",
    ),
    ("merge bomb", "a: &a {<<: *a}\n", "yaml-cycle", ["contains itself"], "1:4"),
    (
        "huge number",
        of_lights("[{light: fixed}]").replace("1200", "9" * 5000),
        "not-a-length",
        ["is not a length"],
        "8:20",
    ),
    ("infinite number", of_lights("[{light: fixed}]").replace("1200", "1e999"), "not-a-length", ["'1e999'"], "8:20"),
    ("long mark", GOOD.replace("W1", "W" * 10_000), "text-too-long", ["10,000 characters", "at most 40"], "7:11"),
    ("long key", GOOD + "k" * 1_000 + ": 1\n", "unknown-key", ["not a known key"], "13:1"),
    ("longer key", GOOD + "k" * 10_000 + ": 1\n", "yaml-syntax", ["key is too long"], "13:1"),
    ("five million characters", "a" * 5_000_000, "yaml-too-large", ["5,000,000 characters"], "1:1"),
    ("windows without end", HEAD + "  - {mark: W}\n" * 2001, "too-many-windows", ["2,001 windows"], "6:1"),
    (
        "lights without end",
        of_lights("[" + "{light: fixed}, " * 401 + "]", "mullions: equal-glass"),
        "too-many-lights",
        ["401 lights", "at most 400"],
        "10:13",
    ),
    (
        "divided without end",
        of_lights("[{mullions: [600], lights: " * 14 + "[{light: fixed}]" + "}]" * 14),
        "too-deep",
        ["12 levels"],
        None,
    ),
]


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(SYNTAX, HOSTILE))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)
