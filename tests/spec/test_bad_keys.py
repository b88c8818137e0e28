"""What may be wrong with keys, texts, marks and glass; and problems together. One row a mistake."""

import pytest
from spec_jobs import GOOD, HEAD, assert_told, one, problems_of, rows

FRAME = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]"

KEYS = [
    ("misspelt", one("frame: {widht: 1200, height: 900}\n" + FIXED), "unknown-key", ["did you mean 'width'"], "8:13"),
    ("unlike any", one(FRAME + "wobble: 3\n" + FIXED), "unknown-key", ["'wobble'", "known here: air_leakage"], "9:5"),
    ("size beside the mark", one("width: 1200\n" + FRAME + FIXED), "unknown-key", ["belongs under 'frame'"], "8:5"),
    ("light beside the mark", one(FRAME + "light: fixed"), "unknown-key", ["lights: [{light: fixed}]"], "9:5"),
    ("half an opening", one("opening: {width: 1200}\n" + FIXED), "missing-key", ["'height' is missing", "1213"], "8:5"),
    ("a sill of no size", one(FRAME + "sill: {horns: 40}\n" + FIXED), "missing-key", ["'projection'"], "9:5"),
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


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(KEYS, GLASS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)


@pytest.mark.parametrize("text", [row[1] for row in KEYS + GLASS])
def test_one_mistake_is_not_told_as_many(text):
    assert len(problems_of(text)) <= 2


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
