"""What may be wrong with joined frames. One row a mistake; what takes the system or a shape to judge is tested with the geometry."""

import jsonschema
import pytest
from spec_jobs import HEAD, assert_told, problems_of, rows

from elevations.spec.load import parse_job
from elevations.spec.schema import job_schema
from elevations.yaml_source import read_document


def of_sets(*sets):
    """A job with windows W1, W2, W3 on lines 7 to 9 and a set a line from line 11 on."""
    windows = "".join(f"  - {{mark: W{n}, frame: {{width: 600, height: 1200}}, lights: [{{light: fixed}}]}}\n" for n in (1, 2, 3))
    return f"{HEAD}{windows}joined:\n" + "".join(f"  - {{{one}}}\n" for one in sets)


BAY = "mark: B1, way: bay, windows: [W1, W2, W3], angles: [135, 135]"
ROW = "mark: C1, way: side-by-side, windows: "

WRONG = [
    ("unknown window", of_sets(ROW + "[W1, W9]"), "unknown-window", ["no window 'W9'", "W1"], "11:49"),
    ("window in two sets", of_sets(ROW + "[W1, W2]", "mark: C2, way: stacked, windows: [W2, W3]"),
     "joined-twice", ["'W2' is in the set 'C1' already"], "12:40"),
    ("window twice in one", of_sets(ROW + "[W1, W1]"), "joined-twice", ["in this set already"], "11:49"),
    ("one window", of_sets(ROW + "[W1]"), "too-few-joined", ["1 window cannot be joined"], "11:44"),
    ("no windows", of_sets(ROW + "[]"), "too-few-joined", ["no windows cannot"], "11:44"),
    ("13 windows", of_sets(ROW + "[" + ", ".join(["W1"] * 13) + "]"), "too-many-joined", ["at most 12"], "11:44"),
    ("a window's mark", of_sets("mark: W1, way: stacked, windows: [W2, W3]"), "duplicate-mark", ["taken by the window 'W1'"], "11:12"),
    ("a mark but for capitals", of_sets("mark: w3, way: stacked, windows: [W1, W2]"), "duplicate-mark", ["a mark of its own"], "11:12"),
    ("another set's mark", of_sets(ROW + "[W1, W2]", "mark: C1, way: stacked, windows: [W3, W9]"), "duplicate-mark", ["set 'C1'"], "12:12"),
    ("no way", of_sets("mark: B1, windows: [W1, W2]"), "missing-key", ["'way' is missing", "way: bay"], "11:5"),
    ("another way", of_sets("mark: B1, way: bow, windows: [W1, W2]"), "unknown-choice", ["'bow'", "bay"], "11:21"),
    ("bay without angles", of_sets("mark: B1, way: bay, windows: [W1, W2, W3]"), "missing-key", ["needs 'angles'", "[135, 135]"], "11:5"),
    ("too few angles", of_sets("mark: B1, way: bay, windows: [W1, W2, W3], angles: [135]"),
     "wrong-count", ["3 facets meet at 2 angles; 1 are given"], "11:57"),
    ("all flat", of_sets("mark: B1, way: bay, windows: [W1, W2], angles: [180]"), "not-a-bay", ["one plane", "side-by-side"], "11:53"),
    ("turning back", of_sets("mark: B1, way: bay, windows: [W1, W2, W3], angles: [90, 89.5]"), "turns-back", ["round by 180.5 degrees"], "11:57"),
    ("turned inwards", of_sets("mark: B1, way: bay, windows: [W1, W2], angles: [225]"), "out-of-range", ["90 to 180 degrees"], "11:54"),
    ("outside angle", of_sets("mark: B1, way: bay, windows: [W1, W2], angles: [45]"), "out-of-range", ["90 to 180 degrees"], "11:54"),
    ("angles in a row", of_sets(ROW + "[W1, W2], angles: [135]"), "not-wanted", ["one plane", "way: bay"], "11:54"),
    ("an order that leaves one out", of_sets(ROW + "[W1, W2, W3], assembly: [W1, W2]"), "wrong-assembly",
     ["does not name each window", "[W1, W2, W3]"], "11:68"),
    ("an order with a stranger", of_sets(ROW + "[W1, W2], assembly: [W1, W9]"), "wrong-assembly", ["does not name each window"], "11:64"),
    ("a frame pushed in between", of_sets(ROW + "[W1, W2, W3], assembly: [W1, W3, W2]"), "wrong-assembly",
     ["'W3' would go up beside none that stands", "pushed in between"], "11:73"),
    ("not a list", of_sets("mark: B1, way: stacked, windows: W1"), "not-a-list", ["must be a list"], "11:39"),
    ("misspelt", of_sets("mark: B1, way: stacked, window: [W1, W2]"), "unknown-key", ["did you mean 'windows'"], "11:30"),
]


@pytest.mark.parametrize(("text", "code", "words", "place"), rows(WRONG))
def test_each_mistake_with_joined_frames_is_told_in_its_own_words(text, code, words, place):
    assert_told(text, code, words, place)


def test_several_mistakes_are_told_at_once():
    codes = {problem.code for problem in problems_of(of_sets(ROW + "[W1, W9]", "mark: W1, way: bay, windows: [W1, W3], angles: [20]"))}
    assert {"unknown-window", "duplicate-mark", "joined-twice", "out-of-range"} <= codes


@pytest.mark.parametrize("good", [BAY, ROW + "[W1, W2]", "mark: S1, way: stacked, windows: [W1, W2], carries_load: false"])
def test_each_way_of_joining_is_read_and_fits_the_schema(good):
    text = of_sets(good)
    assert len(parse_job(text, "job.yaml").job.joined) == 1
    assert list(jsonschema.Draft7Validator(job_schema()).iter_errors(read_document(text, "f").data)) == []


def test_a_job_without_joined_frames_has_none():
    assert parse_job(of_sets(BAY).split("joined:", maxsplit=1)[0], "job.yaml").job.joined == ()
