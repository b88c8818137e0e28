"""Jobs as somebody types them on site: each is told where it is wrong, in what way, and what would do. One row a slip.

What is meant by a word that is not ours is common practice, no source.
"""

import pytest
from spec_jobs import GOOD, HEAD, assert_told, of_lights, one, problems_of, rows

from elevations.spec.glass import GASES
from elevations.spec.lengths import read_length
from elevations.spec.load import parse_job
from elevations.thermal.gases import GASES as KNOWN_GASES

FRAME = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]"
TWO = "lights: [{light: fixed}, {light: fixed}]"
W2 = "  - mark: W2\n    frame: {width: 900, height: 1050}\n    lights: [{light: fixed}]\n"


def glass(make_up):
    return GOOD.replace("clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}}", f"clear: {make_up}")


def joined(entry):
    return GOOD + W2 + f"joined: {entry}\n"


WORDS = [
    ("hinge: rhs", of_lights("[{light: side-hung, hinge: rhs}]"), "unknown-choice", ["did you mean 'right'?"], "10:40"),
    ("hinge: L", of_lights("[{light: side-hung, hinge: L}]"), "unknown-choice", ["did you mean 'left'?"], "10:40"),
    ("hinge: top", of_lights("[{light: side-hung, hinge: top}]"), "unknown-choice", ["`light: top-hung`"], "10:40"),
    ("side-hung left", of_lights("[{light: side-hung left}]"), "unknown-light", ["`{light: side-hung, hinge: left}`"], "10:22"),
    ("lights as words", of_lights("[side-hung rh]"), "not-a-block", ["{light: side-hung, hinge: right}"], "10:14"),
    ("hung for hinge", of_lights("[{light: side-hung, hung: left}]"), "unknown-key", ["did you mean 'hinge'?"], "10:33"),
    ("toughened: outside", glass("{make_up: 4/20/4, toughened: outside}"), "not-a-list", ["`toughened: [outer]`"], "3:39"),
    ("toughened: both", glass("{make_up: 4/20/4, toughened: both}"), "not-a-list", ["`toughened: [outer, inner]`"], "3:39"),
    ("toughened: [inside]", glass("{make_up: 4/20/4, toughened: [inside]}"), "unknown-choice", ["did you mean 'inner'?"], "3:40"),
    ("gas: argn", glass("{make_up: 4/20/4, gas: argn}"), "unknown-gas", ["did you mean 'argon'?"], "3:33"),
    ("name of the job", GOOD.replace("reference: QL-07", "number: QL-07"), "unknown-key", ["did you mean 'reference'?"], "1:7"),
    ("make-up as text", glass("4/16/4"), "not-a-block", ["the make-up 'clear'", "`clear: {make_up: 4/16/4}`"], "3:10"),
    ("make-up that is none", glass("28mm"), "not-a-block", ["`clear: {make_up: 4/20/4}`"], "3:10"),
    ("dashes in a make-up", glass("{make_up: 4-16-4}"), "make-up", ["write 4/16/4"], "3:20"),
    ("mm in a make-up", glass("{make_up: 4mm/16mm/4mm}"), "make-up", ["write 4/16/4"], "3:20"),
    ("gas in a make-up", glass("{make_up: 4/16Ar/4}"), "make-up", ["write 4/16/4", "keys of their own: gas, low_e"], "3:20"),
    ("coating in a make-up", glass("{make_up: 4/16/4 low-e}"), "make-up", ["write 4/16/4", "low_e"], "3:20"),
    ("L for laminated", glass("{make_up: 4/16/6.4L}"), "make-up", ["write 4/16/6.4, with `laminated: [inner]` beside it"], "3:20"),
    ("sides top and bottom", one(FRAME + "fixings: {sides: [top]}\n" + FIXED), "unknown-choice", ["did you mean 'head'?"], "9:23"),
    ("storey: first floor", one(FRAME + "storey: first floor\n" + FIXED), "unknown-choice", ["did you mean 'upper'?"], "9:13"),
    ("work: new build", GOOD + "building: {work: new build}\n", "unknown-choice", ["did you mean 'new-dwelling'?"], "13:18"),
    ("near: none", one(FRAME + "near: none\n" + FIXED), "not-a-list", ["`near: []`"], "9:11"),
    ("semicircular head", one(FRAME + "head: {semicircular: {}}\n" + FIXED), "unknown-key", ["did you mean 'arched'?"], "9:12"),
    ("quantity", one("qty: 2\n" + FRAME + FIXED), "unknown-key", ["an entry and a mark of its own"], "8:5"),
    ("size", one("size: 1200 x 1050\n" + FIXED), "unknown-key", ["did you mean 'frame'?"], "8:5"),
    ("hinge of the window", one("hinge: left\n" + FRAME + FIXED), "unknown-key", ["`lights: [{light: …, hinge: …}]`"], "8:5"),
    ("frame by default", GOOD.replace("defaults: {", "defaults: {frame: {}, "), "unknown-key", ["given at each window"], "5:12"),
]

SHAPES = [
    ("frame as text", one("frame: 1810 × 1211\n" + FIXED), "not-a-block", ["`frame: {width: 1810, height: 1211}`"], "8:12"),
    ("frame as a list", one("frame: [1810, 1211]\n" + FIXED), "not-a-block", ["`frame: {width: 1810, height: 1211}`"], "8:12"),
    ("opening as text", one("opening: 1810x1211\n" + FIXED), "not-a-block", ["`opening: {width: 1810, height: 1211}`"], "8:14"),
    ("bars as text", of_lights("[{light: fixed, bars: 2x3}]"), "not-a-block", ["`bars: {columns: 2, rows: 3}`"], "10:35"),
    ("sill as a number", one(FRAME + "sill: 150\n" + FIXED), "not-a-block", ["`sill: {projection: 150}`"], "9:11"),
    ("arch as a number", one(FRAME + "head: {arched: 200}\n" + FIXED), "not-a-block", ["`arched: {rise: 200}`"], "9:20"),
    ("finish as text", one(FRAME + "finish: white\n" + FIXED), "not-a-block", ["`finish: {outside: white, inside: white}`"], "9:13"),
    ("list in curly brackets", one(FRAME + "mullions: {600}\n" + TWO), "not-a-list", ["`mullions: [600]`"], "9:15"),
    ("lights as a block", one(FRAME + "lights:\n  light: fixed\n  bars: {rows: 2}"), "not-a-list", ["'- '", "`- {light: fixed}`"], "9:5"),
    ("one light without brackets", one(FRAME + "lights: {light: side-hung, hinge: left}"), "not-a-list", ["`lights: [{light: side-hung, hinge: left}]`"], "9:13"),
    (
        "two make-ups and none chosen", GOOD.replace("defaults: {system: flush-70, glass: clear, fixings: {corner: 160, spacing: 500}}\n", ""), "no-glass",
        ["`defaults: {glass: clear}`"], "10:9",
    ),
    ("off-cuts as numbers", GOOD + "workshop: {off_cuts: [1200]}\n", "not-a-block", ["{system: flush-70, profile: frame, length: 2150}"], "13:23"),
    ("saw as a number", GOOD + "workshop: {saw: 4}\n", "not-a-block", ["`saw: {kerf: 4}`"], "13:17"),
    ("lintel as text", one(FRAME + "wall: {material: brick, thickness: 215, frame_at: 90, lintel: steel}\n" + FIXED), "not-a-block", ["`lintel: {kind: steel}`"], "9:67"),
    ("clear opening as text", of_lights("[{light: top-hung, clear_opening: 450x733}]"), "not-a-block", ["{width: 450, height: 733}"], "10:47"),
    ("one light and a mullion", one(FRAME + "mullions: [600]\n" + FIXED), "light-count", ["give 2 lights, or leave 'mullions' out"], "10:13"),
    ("windows by name", HEAD + "  W1:\n    frame: {width: 900, height: 900}\n", "not-a-list", ["'- '", "`- mark: W1`"], "6:1"),
    ("windows of a set as text", joined("[{mark: B1, way: bay, windows: W1 W2, angles: [135]}]"), "not-a-list", ["`windows: [W1, W2]`"], "16:40"),
]

FIGURES = [
    ("bar beside the frame", one("frame: {width: 900, height: 900}\nmullions: [950]\n" + TWO), "bar-outside", ["from the frame's left outer edge"], "9:16"),
    ("bar with a digit too many", one("frame: {width: 900, height: 900}\nmullions: [4500]\n" + TWO), "bar-outside", ["450 would fit"], "9:16"),
    ("bar from its own part", of_lights("[{light: fixed}, {mullions: [300], " + TWO + "}]", "mullions: [600]"), "bar-outside", ["900 if 300 was measured from 600"], "10:42"),
    ("angles as turns", joined("[{mark: B1, way: bay, windows: [W1, W2], angles: [45]}]"), "out-of-range", ["turns by 45 has 135"], "16:59"),
    ("floor in metres", one(FRAME + "floor_to_opening: 1.04\n" + FIXED), "unit-doubtful", ['did you mean "1.04 m"?'], "9:23"),
    ("drop in metres", one(FRAME + "drop: 3.2\n" + FIXED), "unit-doubtful", ['did you mean "3.2 m"?'], "9:11"),
    ("frame position in metres", one(FRAME + "wall: {material: brick, thickness: 215, frame_at: 0.09}\n" + FIXED), "unit-doubtful", ['did you mean "0.09 m"?'], "9:55"),
    ("guard in metres", one(FRAME + "guard: 1.1\n" + FIXED), "unit-doubtful", ['did you mean "1.1 m"?', 'write "1.1 mm"'], "9:12"),
    ("vent in thousands", of_lights("[{light: fixed, vent: 4}]"), "unit-doubtful", ["4 mm2", "did you mean 4000?"], "10:35"),
    ("vent in cm2", of_lights("[{light: fixed, vent: 40}]"), "unit-doubtful", ["did you mean 4000?", 'write "40 mm2"'], "10:35"),
    ("minus sign", one(FRAME + "fit: {clearance: -5}\n" + FIXED), "out-of-range", ["without the minus sign"], "9:22"),
    ("feet and inches", one("frame: {width: 4ft, height: 3' 6}\n" + FIXED), "not-a-length", ['write "42 in"'], "8:33"),
    ("inches without a unit", one("frame: {width: 47 1/4, height: 900}\n" + FIXED), "out-of-range", ['"47 1/4 in"'], "8:20"),
    ("inch sign after a fraction", one('frame: {width: 47 1/4", height: 900}\n' + FIXED), "not-a-length", ['did you mean "47 1/4 in"?'], "8:20"),
    ("two bars as text", one(FRAME + "mullions: 400 and 800\n" + TWO), "unknown-spacing", ["equal-sight"], "9:15"),
    ("two bars without a comma", one(FRAME + "mullions: 400 800\n" + TWO), "unknown-spacing", ["`mullions: [400, 800]`"], "9:15"),
    ("two bars in one entry", one(FRAME + "mullions: [400 800]\n" + TWO), "not-a-length", ["[400, 800]"], "9:16"),
    ("opening by its places", one("opening: {top: 1810, height: 1211}\n" + FIXED), "unknown-key", ["'top' belongs in width"], "8:15"),
    ("per cent", one(FRAME + "mullions: [50%]\n" + TWO), "not-a-length", ["is a share", "equal-sight"], "9:16"),
    ("three in one", one("opening: {width: 1810/1808/1811, height: 1211}\n" + FIXED), "not-a-length", ["[1810, 1808, 1811]"], "8:22"),
    ("curly quotes", one("frame: {width: “1200”, height: 900}\n" + FIXED), "not-a-length", ["write 1200"], "8:20"),
    ("comma in a number", one(FRAME + 'room: {floor_area: "11,5"}\n' + FIXED), "not-a-number", ["a point, not a comma: 11.5"], "9:24"),
    ("comma in brackets", one("frame: {width: 1200,5, height: 1050}\n" + FIXED), "unknown-key", ["1200.5 for 1200,5"], "8:25"),
]

TYPING = [
    ("no space after a colon", GOOD.replace("- mark: W1", "- mark:W1"), "yaml-syntax", ["a space behind it", "write 'mark: W1'"], "7:5"),
    ("no colon", one("location Office\n" + FRAME + FIXED), "yaml-syntax", ["write 'location: Office'"], "8:5"),
    ("= for a colon", GOOD.replace("- mark: W1", "- mark = W1"), "yaml-syntax", ["write 'mark: W1'"], "7:3"),
    ("no space in brackets", one("frame: {width:1200, height: 1050}\n" + FIXED), "glued", ["write `width: 1200`"], "8:13"),
    ("= in brackets", one("frame: {width=1200, height: 1050}\n" + FIXED), "glued", ["write `width: 1200`"], "8:13"),
    ("no colon in brackets", of_lights("[{light fixed}]"), "glued", ["write `light: fixed`"], "10:15"),
    ("two keys on a line", one(FRAME + "lights:\n  - light: fixed, glass: clear"), "yaml-syntax", ["write '{light: fixed, glass: clear}'"], "10:16"),
    ("block without brackets", one("frame: width: 1200\n" + FIXED), "yaml-syntax", ["{width: 1200} if that is a block"], "8:12"),
    ("a question mark", one("frame: {width: ?, height: 1050}\n" + FIXED), "yaml-syntax", ["leave the key out until it is known"], "8:20"),
    ("no space after a dash", one(FRAME + "mullions: [600]\nlights:\n  - {light: fixed}\n  -{light: fixed}"), "yaml-syntax", ["write '- {light: fixed}'"], "12:7"),
    ("entries out of line", one(FRAME + "mullions: [600]\nlights:\n - {light: fixed}\n  - {light: fixed}"), "yaml-syntax", ["start it in column 6"], "12:7"),
]


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(WORDS, SHAPES, FIGURES, TYPING))
def test_a_slip_is_told_with_what_would_do(text, code, words, where):
    assert_told(text, code, words, where)


@pytest.mark.parametrize(
    "text",
    [
        GOOD.replace("mark: W1", "mark:"),
        one("frame: {width: 1.2, height: 1050}\nmullions: [600]\n" + TWO),
        one("frame: {width: 120, height: 1050}\nmullions: [600]\n" + TWO),
        of_lights("[{light: side-hung, hung: left}]"),
        of_lights("[{light: side-hung, hinge: top}]"),
        one("location: !Office\n" + FRAME + FIXED),
        one("frame: {width:1200, height: 1050}\n" + FIXED),
        of_lights("[{light fixed}]"),
    ],
    ids=["empty mark", "metres", "centimetres", "misspelt hinge", "hinge elsewhere", "tag", "no space", "no colon"],
)
def test_one_slip_is_told_once(text):
    assert len(problems_of(text)) == 1


def test_what_is_more_than_a_gas_is_taken_as_written():
    assert parse_job(glass("{make_up: 4/16/4, gas: argon 90 %}"), "job.yaml").job.glass["clear"].gas == "argon 90 %"


def test_a_misspelt_pattern_of_bars_is_not_also_a_missing_one():
    assert {p.code for p in problems_of(of_lights("[{light: fixed, bars: {colums: 2, row: 3}}]"))} == {"unknown-key"}


def test_what_a_hint_says_to_write_is_read():
    assert read_length("42 in") == 42 * 25.4   # 3 ft 6 in; inch exact by the international agreement of 1959 (from memory)
    for text in (glass("{make_up: 4/16/6.4, laminated: [inner]}"), of_lights("[{light: side-hung, hinge: right}]"), one(FRAME + "near: []\n" + FIXED)):
        assert parse_job(text, "job.yaml").job.windows


def test_the_gases_of_a_job_are_those_with_figures():
    assert set(GASES) == set(KNOWN_GASES)
