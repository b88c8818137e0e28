"""What people write where a length belongs. One row a mistake."""

import pytest
from spec_jobs import assert_told, of_lights, one, problems_of, rows

FIXED = "lights: [{light: fixed}]"

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


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(LENGTHS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)


@pytest.mark.parametrize("text", [row[1] for row in LENGTHS])
def test_one_mistake_is_not_told_as_many(text):
    assert len(problems_of(text)) <= 2
