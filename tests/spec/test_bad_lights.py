"""What may be wrong with lights, bars and how they fit each other. One row a mistake."""

import pytest
from spec_jobs import assert_told, of_lights, problems_of, rows

LIGHTS = [
    ("misspelt", of_lights("[{light: tophung}]"), "unknown-light", ["did you mean 'top-hung'"], "10:22"),
    ("trade word", of_lights("[{light: casement}]"), "unknown-light", ["did you mean 'side-hung'"], "10:22"),
    ("fanlight", of_lights("[{light: fanlight}]"), "unknown-light", ["above a transom"], "10:22"),
    ("leads where nothing leads", of_lights("[{light: top-hung, leads: left}]"), "not-wanted", ["takes no 'leads'", "sliding"], "10:32"),
    ("leads the wrong way", of_lights("[{light: sliding, leads: top}]"), "lead-impossible", ["top of a sliding", "leads: left"], "10:38"),
    ("leads elsewhere", of_lights("[{light: sliding, leads: middle}]"), "unknown-choice", ["left, right, top, bottom"], "10:38"),
    ("swing of a slider", of_lights("[{light: sliding, swing: in}]"), "not-wanted", ["takes no 'swing'"], "10:31"),
    ("dummy that slides", of_lights("[{light: sliding, sash: dummy}]"), "not-wanted", ["has a sash that opens"], "10:31"),
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


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(LIGHTS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)


@pytest.mark.parametrize("text", [row[1] for row in LIGHTS])
def test_one_mistake_is_not_told_as_many(text):
    assert len(problems_of(text)) <= 2
