"""What a user may get wrong, each with its own words and its place. One row a mistake."""

import time

import pytest
from spec_jobs import GOOD, HEAD, of_lights, one

from elevations.errors import SpecError
from elevations.spec.load import parse_job

FRAME = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]"

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

LENGTHS = [
    (
        "metres",
        one("frame: {width: 1.2, height: 1050}\n" + FIXED),
        "out-of-range",
        ["200 to 6000 mm", '"1.2 m"'],
        "8:20",
    ),
    ("centimetres", one("frame: {width: 120, height: 900}\n" + FIXED), "out-of-range", ['"120 cm"'], "8:20"),
    (
        "a digit too many",
        one("frame: {width: 12000, height: 900}\n" + FIXED),
        "out-of-range",
        ["1200 would fit"],
        "8:20",
    ),
    (
        "comma in quotes",
        one('frame: {width: "1,200", height: 900}\n' + FIXED),
        "not-a-length",
        ["write 1200", "1.200 m"],
        "8:20",
    ),
    (
        "comma in a block",
        one("frame: {width: 1,200, height: 900}\n" + FIXED),
        "unknown-key",
        ["'200'", "1200 for 1,200"],
        "8:22",
    ),
    (
        "comma",
        one("frame:\n  width: 1,200\n  height: 900\n" + FIXED),
        "not-a-length",
        ["'1,200'", "write 1200"],
        "9:14",
    ),
    (
        "comma in a list",
        of_lights("[{light: fixed}]", "mullions: [1,200]"),
        "out-of-range",
        ["1200, not 1,200"],
        "9:16",
    ),
    ("decimal comma", one('frame: {width: "1,2 m", height: 900}\n' + FIXED), "not-a-length", ["1.2 m"], "8:20"),
    ("underscore", one("frame: {width: 1_200, height: 900}\n" + FIXED), "not-a-length", ["write 1200"], "8:20"),
    ("space", one("frame: {width: 1 200, height: 900}\n" + FIXED), "not-a-length", ["write 1200"], "8:20"),
    ("time", one("frame: {width: 12:30, height: 900}\n" + FIXED), "not-a-length", ["time or a ratio", "1230"], "8:20"),
    ("yes", one("frame: {width: yes, height: 900}\n" + FIXED), "not-a-length", ["'yes' is not a length"], "8:20"),
    ("true", one("frame: {width: true, height: 900}\n" + FIXED), "not-a-length", ["'true' is not a length"], "8:20"),
    ("negative", one("frame: {width: -1200, height: 900}\n" + FIXED), "out-of-range", ["-1200 mm"], "8:20"),
    (
        "unit slip",
        one("frame: {width: 1200 mn, height: 900}\n" + FIXED),
        "not-a-length",
        ["'mn' is not a unit", '"1200 mm"'],
        "8:20",
    ),
    (
        "strange unit",
        one("frame: {width: 12 ells, height: 900}\n" + FIXED),
        "not-a-length",
        ["mm, cm, m, in and ft"],
        "8:20",
    ),
    (
        "letter O",
        one("frame: {width: 12OO, height: 900}\n" + FIXED),
        "not-a-length",
        ["letters that look like figures"],
        "8:20",
    ),
    ("two in one", one("frame: {width: 1200 x 900, height: 900}\n" + FIXED), "not-a-length", ["two lengths"], "8:20"),
    ("a list", one("frame: {width: [1200], height: 900}\n" + FIXED), "not-a-length", ["this is a list"], "8:20"),
    ("nan", one("frame: {width: .nan, height: 900}\n" + FIXED), "not-a-length", ["'.nan' is not a length"], "8:20"),
    (
        "unit of the wrong size",
        one('frame: {width: "1200 m", height: 9}\n' + FIXED),
        "out-of-range",
        ["1.2e+06 mm"],
        "8:20",
    ),
    ("not given", one("frame: {width: , height: 900}\n" + FIXED), "empty", ["'width' is empty"], "8:13"),
    ("no height", one("frame: {width: 1200}\n" + FIXED), "missing-key", ["'height' is missing", "height: 1050"], "8:5"),
    ("no frame", one(FIXED), "missing-key", ["'frame' is missing", "frame: {width: 1200"], "7:5"),
]

KEYS = [
    ("misspelt", one("frame: {widht: 1200, height: 900}\n" + FIXED), "unknown-key", ["did you mean 'width'"], "8:13"),
    ("unlike any", one(FRAME + "wobble: 3\n" + FIXED), "unknown-key", ["'wobble'", "known here: mullions"], "9:5"),
    ("size beside the mark", one("width: 1200\n" + FRAME + FIXED), "unknown-key", ["belongs under 'frame'"], "8:5"),
    ("light beside the mark", one(FRAME + "light: fixed"), "unknown-key", ["lights: [{light: fixed}]"], "9:5"),
    ("opening", one("opening: {width: 1200}\n" + FIXED), "not-drawn-yet", ["'opening' is understood", "frame:"], "8:5"),
    ("circular", one("circular: {diameter: 600}\n" + FIXED), "not-drawn-yet", ["'circular'"], "8:5"),
    ("head", one(FRAME + "head: {arched: {rise: 200}}\n" + FIXED), "not-drawn-yet", ["'head'", "rectangular"], "9:5"),
    ("sill", one(FRAME + "sill: {projection: 150}\n" + FIXED), "not-drawn-yet", ["'sill'"], "9:5"),
    (
        "glazing bars",
        of_lights("[{light: fixed, bars: {rows: 2}}]"),
        "not-drawn-yet",
        ["'bars'", "glazing bars"],
        "10:29",
    ),
    (
        "comment for a value",
        one("location: #1\n" + FRAME + FIXED),
        "empty",
        ["'location' is empty", "in quotes"],
        "8:5",
    ),
    ("date the other way round", GOOD.replace("2026-10-14", "14/10/2026"), "not-a-date", ["write 2026-10-14"], "1:65"),
    ("no such day", GOOD.replace("2026-10-14", "2026-02-30"), "not-a-date", ["no day 2026-02-30"], "1:65"),
    (
        "text for a block",
        GOOD.replace("{width: 1200, height: 1050}", "1200"),
        "not-a-block",
        ["'frame' must be a block"],
        "8:12",
    ),
    ("block for a text", GOOD.replace("W1", "{a: b}"), "not-text", ["'mark' must be text"], "7:11"),
    ("empty mark", GOOD.replace("W1", "''"), "mark-empty", ["'mark' is empty"], "7:11"),
    ("sheet", GOOD + "drawing: {sheet: A5}\n", "unknown-choice", ["A3, A4"], "13:18"),
    ("windows as a block", HEAD.rstrip() + " {mark: W1}\n", "not-a-list", ["'windows' must be a list"], "6:10"),
    ("no windows", HEAD.rstrip() + " []\n", "no-windows", ["has no windows"], "6:10"),
    ("window that is text", HEAD + "  - W1\n", "not-a-block", ["entry of 'windows'"], "7:5"),
    ("room area", one(FRAME + "room: {floor_area: big}\n" + FIXED), "not-a-number", ["0.5 to 500 m2"], "9:24"),
    (
        "fixing side",
        one(FRAME + "fixings: {sides: [top]}\n" + FIXED),
        "unknown-choice",
        ["left, right, head, sill"],
        "9:23",
    ),
    ("sides as text", one(FRAME + "fixings: {sides: head}\n" + FIXED), "not-a-list", ["sides: [head]"], "9:22"),
    ("duplicate mark", GOOD + GOOD[len(HEAD) :], "duplicate-mark", ["'W1' is given twice", "window 1"], "13:11"),
    (
        "marks that differ in capitals",
        GOOD + GOOD[len(HEAD) :].replace("W1", "w1"),
        "duplicate-mark",
        ["same name"],
        "13:11",
    ),
]

LIGHTS = [
    ("misspelt", of_lights("[{light: tophung}]"), "unknown-light", ["did you mean 'top-hung'"], "10:22"),
    ("trade word", of_lights("[{light: casement}]"), "unknown-light", ["did you mean 'side-hung'"], "10:22"),
    ("fanlight", of_lights("[{light: fanlight}]"), "unknown-light", ["above a transom"], "10:22"),
    ("later kind", of_lights("[{light: sliding}]"), "not-drawn-yet", ["'sliding' is understood"], "10:15"),
    ("number", of_lights("[{light: 3}]"), "unknown-light", ["'3' is not one of the ways"], "10:22"),
    ("text for an entry", of_lights("[fixed]"), "not-a-block", ["{light: fixed}"], "10:14"),
    ("no list", of_lights("{light: fixed}"), "not-a-list", ["'lights' must be a list"], "10:13"),
    ("no hinge", of_lights("[{light: side-hung}]"), "hinge-missing", ["needs 'hinge'", "hinge: left"], "10:14"),
    ("hinge on fixed", of_lights("[{light: fixed, hinge: left}]"), "not-wanted", ["takes no 'hinge'"], "10:29"),
    ("hinge above", of_lights("[{light: side-hung, hinge: top}]"), "unknown-choice", ["left, right"], "10:40"),
    (
        "swing of tilt-and-turn",
        of_lights("[{light: tilt-and-turn, hinge: left, swing: out}]"),
        "swing-impossible",
        ["cannot swing out", "swing: in"],
        "10:57",
    ),
    ("swing of fixed", of_lights("[{light: fixed, swing: out}]"), "not-wanted", ["does not swing"], "10:29"),
    (
        "dummy sash that opens",
        of_lights("[{light: top-hung, sash: dummy}]"),
        "not-wanted",
        ["has a sash that opens"],
        "10:32",
    ),
    (
        "escape through fixed glass",
        of_lights("[{light: fixed, escape: true}]"),
        "not-wanted",
        ["does not open"],
        "10:29",
    ),
    (
        "switch",
        of_lights("[{light: top-hung, escape: maybe}]"),
        "not-true-or-false",
        ["must be true or false"],
        "10:40",
    ),
    ("yes for true", of_lights("[{light: top-hung, escape: yes}]"), "not-true-or-false", ["write true"], "10:40"),
    (
        "unknown glass",
        of_lights("[{light: fixed, glass: saef}]"),
        "unknown-glass",
        ["no glass make-up 'saef'", "'safe'"],
        "10:36",
    ),
    (
        "unknown glass unlike any",
        of_lights("[{light: fixed, glass: blue}]"),
        "unknown-glass",
        ["are clear, safe"],
        "10:36",
    ),
    ("empty entry", of_lights("[{}]"), "missing-key", ["'light' is missing", "divide it again"], "10:14"),
    (
        "light and division",
        of_lights("[{light: fixed, mullions: [600]}]"),
        "light-and-division",
        ["beside 'light'"],
        "10:29",
    ),
    ("no lights", of_lights("[]"), "light-count", ["'lights' is empty"], "10:13"),
    (
        "nothing between lights",
        of_lights("[{light: fixed}, {light: fixed}]"),
        "light-count",
        ["2 lights, and no mullions", "equal-glass"],
        "10:13",
    ),
    (
        "more lights than bars make",
        of_lights("[{light: fixed}, {light: fixed}, {light: fixed}]", "mullions: [600]"),
        "light-count",
        ["3 lights but 1 mullion makes 2"],
        "10:13",
    ),
    (
        "fewer lights than bars make",
        of_lights("[{light: fixed}]", "transoms: [300, 600]"),
        "light-count",
        ["1 light but 2 transoms make 3"],
        "10:13",
    ),
    (
        "equal with one light",
        of_lights("[{light: fixed}]", "mullions: equal-sight"),
        "light-count",
        ["nothing to divide"],
        "10:13",
    ),
    (
        "both ways at once",
        of_lights("[{light: fixed}, {light: fixed}]", "mullions: [600]\n    transoms: [300]").replace(
            "\n        transoms", "\n    transoms"
        ),
        "two-divisions",
        ["cannot divide the same entry"],
        "10:15",
    ),
    (
        "nested without bars",
        of_lights("[{lights: [{light: fixed}]}]"),
        "light-count",
        ["nothing that divides it"],
        "10:23",
    ),
    (
        "bare equal",
        of_lights("[{light: fixed}, {light: fixed}]", "mullions: equal"),
        "unknown-spacing",
        ["equal-centres, equal-sight, equal-glass"],
        "9:15",
    ),
    (
        "spacing in words",
        of_lights("[{light: fixed}, {light: fixed}]", "mullions: middle"),
        "unknown-spacing",
        ["neither a list"],
        "9:15",
    ),
    (
        "bare number",
        of_lights("[{light: fixed}, {light: fixed}]", "mullions: 600"),
        "not-a-list",
        ["mullions: [600]"],
        "9:15",
    ),
    (
        "no bars in the list",
        of_lights("[{light: fixed}]", "mullions: []"),
        "light-count",
        ["'mullions' is empty"],
        "9:15",
    ),
    (
        "falling",
        of_lights("[{light: fixed}, {light: fixed}, {light: fixed}]", "mullions: [800, 400]"),
        "bar-order",
        ["mullion 400 stands after 800", "left to right"],
        "9:21",
    ),
    (
        "same place",
        of_lights("[{light: fixed}, {light: fixed}, {light: fixed}]", "transoms: [400, 400]"),
        "bar-order",
        ["two transoms stand at 400"],
        "9:21",
    ),
    (
        "outside",
        of_lights("[{light: fixed}, {light: fixed}]", "mullions: [1300]"),
        "bar-outside",
        ["outside the frame, which is 1200 wide"],
        "9:16",
    ),
    (
        "a digit too many",
        of_lights("[{light: fixed}, {light: fixed}]", "mullions: [4000]"),
        "bar-outside",
        ["400 would fit"],
        "9:16",
    ),
    (
        "on the edge",
        of_lights("[{light: fixed}, {light: fixed}]", "transoms: [1050]"),
        "bar-outside",
        ["1050 high"],
        "9:16",
    ),
    (
        "nested, measured from its own part",
        of_lights("[{light: fixed}, {mullions: [300], lights: [{light: fixed}, {light: fixed}]}]", "mullions: [600]"),
        "bar-outside",
        ["runs from 600 to 1200", "frame's left outer edge"],
        "10:42",
    ),
    (
        "equal glass of a part divided the same way",
        of_lights(
            "[{light: fixed}, {mullions: [900], lights: [{light: fixed}, {light: fixed}]}]", "mullions: equal-glass"
        ),
        "spacing-nested",
        ["divided by mullions again"],
        "10:41",
    ),
]

GLASS = [
    ("no glass", GOOD.replace("glass:\n", "panes:\n"), "missing-key", ["'glass' is missing", "make_up: 4/20/4"], "1:1"),
    ("no make-ups", GOOD[: GOOD.index("glass:")] + "glass: {}\n" + GOOD[GOOD.index("defaults") :], "no-glass", ["no glass make-up"], "2:8"),
    ("none chosen", GOOD.replace("glass: clear, ", ""), "no-glass", ["no glass is chosen for W1", "glass: clear"], "5:1"),
    ("unknown default", GOOD.replace("glass: clear,", "glass: cleer,"), "unknown-glass", ["did you mean 'clear'"], "5:37"),
    ("even parts", GOOD.replace("4/20/4,", "4/20,", 1), "make-up", ["ends in a cavity"], "3:20"),
    ("not parts", GOOD.replace("4/20/4,", "4-20-4,", 1), "make-up", ["'4-20-4' is not a glass make-up"], "3:20"),
    ("thin pane", GOOD.replace("4/20/4,", "1/20/4,", 1), "make-up", ["pane of 1 mm", "2 to 25"], "3:20"),
    ("wide cavity", GOOD.replace("4/20/4,", "4/40/4,", 1), "make-up", ["cavity of 40 mm", "4 to 30"], "3:20"),
    ("four panes", GOOD.replace("4/20/4,", "4/8/4/8/4/8/4,", 1), "make-up", ["4 panes", "at most 3"], "3:20"),
    ("unit thickness for a make-up", GOOD.replace("4/20/4,", "28,", 1), "make-up", ["pane of 28 mm", "4/20/4"], "3:20"),
    ("face too far in", GOOD.replace("face: 3", "face: 5"), "glass-face", ["no face 5", "faces 1 to 4"], "3:54"),
    ("face out of all range", GOOD.replace("face: 3", "face: 9"), "out-of-range", ["1 to 6"], "3:54"),
    ("middle of two", GOOD.replace("[outer, inner]", "[outer, middle]"), "glass-pane", ["no middle pane"], "4:46"),
    ("obscure", GOOD.replace("gas: argon", "obscure: all"), "unknown-choice", ["outer, inner"], "3:37"),
]  # fmt: skip


def problems_of(text):
    with pytest.raises(SpecError) as caught:
        parse_job(text, "job.yaml")
    return caught.value.problems


def rows(*tables):
    return [pytest.param(*row[1:], id=row[0]) for table in tables for row in table]


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(SYNTAX, HOSTILE, LENGTHS, KEYS, LIGHTS, GLASS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    started = time.perf_counter()
    problems = problems_of(text)
    assert time.perf_counter() - started < 1
    problem = next((p for p in problems if p.code == code), None)
    assert problem is not None, problems
    said = f"{problem.message} | {problem.hint}"
    assert [word for word in words if word not in said] == [], said
    if where:
        assert f"{problem.place.line}:{problem.place.column}" == where, said
    assert len(said) < 600


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(LENGTHS, KEYS, LIGHTS, GLASS))
def test_a_single_mistake_is_not_told_as_several(text, code, words, where):
    told = [p for p in problems_of(text) if p.code not in ("unknown-key", "light-count", "bar-outside", "missing-key")]
    assert len(told) <= 2, told


def test_problems_of_every_kind_come_together_in_the_order_of_the_file():
    text = GOOD.replace("face: 3", "face: 5").replace("1200", "12000").replace("hinge: left", "hinge: lfet")
    text = text.replace("[600]", "[1,200]").replace("W1", "W1\n    wobble: 1")
    assert [p.code for p in problems_of(text)] == [
        "glass-face", "unknown-key", "out-of-range", "out-of-range", "light-count", "unknown-choice"
    ]  # fmt: skip


def test_a_fault_in_a_block_shared_by_anchor_is_told_once():
    text = HEAD + "".join(
        f"  - {{mark: W{i}, frame: {'&f {width: 1.2, height: 900}' if i == 1 else '*f'}, lights: [{{light: fixed}}]}}\n"
        for i in (1, 2, 3)
    )
    assert [(p.code, p.place.line) for p in problems_of(text)] == [("out-of-range", 7)]


def test_a_misspelt_key_is_not_missing_too():
    problems = problems_of(one("frame: {widht: 1200, height: 900}\nlights: [{light: fixed}]"))
    assert [p.code for p in problems] == ["unknown-key"]
