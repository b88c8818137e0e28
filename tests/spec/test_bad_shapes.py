"""What users get wrong about head shapes, one row a mistake: its code, its words and its place."""

import pytest
from spec_jobs import assert_told, one, problems_of, rows

from elevations.shapes import SHAPES
from elevations.spec.load import parse_job

FIXED = "\nlights: [{light: fixed}]"
FRAME = "frame: {width: 1200, height: 1500}\nhead: "


def head(text):
    """A window of 1200 x 1500 whose head is on line 9."""
    return one(FRAME + text + FIXED)


HEADS = [
    ("misspelt shape", head("{arch: {rise: 200}}"), "unknown-key", ["did you mean 'arched'"], "9:12"),
    ("no shape", head("{}"), "one-head", ["no shape", "raked, arched, pointed, gable"], "9:11"),
    (
        "two shapes",
        head("{arched: {rise: 200}, raked: {left: 900, right: 1500}}"),
        "one-head",
        ["raked and arched"],
        "9:11",
    ),
    ("shape as text", head("arched"), "not-a-block", ["'head' must be a block", "arched: {rise: 200}"], "9:11"),
    ("no rise", head("{arched: {}}"), "missing-key", ["'rise' is missing", "rise: 200"], "9:12"),
    ("rise in metres", head("{arched: {rise: 0.2}}"), "out-of-range", ["'rise'", "metres"], "9:27"),
    (
        "more than half round",
        head("{arched: {rise: 700}}"),
        "rise-too-high",
        ["half the width, 600", "pointed"],
        "9:27",
    ),
    (
        "rise beyond the frame",
        one("frame: {width: 1200, height: 500}\nhead: {arched: {rise: 550}}" + FIXED),
        "rise-too-high",
        ["overall height, 500"],
        "9:27",
    ),
    (
        "stumps for jambs",
        one("frame: {width: 1200, height: 460}\nhead: {arched: {rise: 400}}" + FIXED),
        "jamb-too-short",
        ["jambs of 60", "at least 100"],
        "9:27",
    ),
    (
        "blunt point",
        head("{pointed: {rise: 500}}"),
        "rise-too-low",
        ["half the width, 600", "arched: {rise: 500}"],
        "9:28",
    ),
    ("level rake", head("{raked: {left: 1500, right: 1500}}"), "head-not-raked", ["leave 'head' out"], "9:39"),
    (
        "rake and height disagree",
        head("{raked: {left: 1000, right: 1400}}"),
        "height-disagrees",
        ["1500", "1400", "leave frame.height out"],
        "8:34",
    ),
    ("no eaves", head("{gable: {apex: 600}}"), "eaves-unclear", ["once", "eaves: 800"], "9:26"),
    ("eaves twice", head("{gable: {apex: 600, eaves: 900, left: 900}}"), "eaves-unclear", ["once"], "9:26"),
    (
        "eaves above the apex",
        head("{gable: {apex: 600, eaves: 1600}}"),
        "eaves-too-high",
        ["not below the apex", "1500"],
        "9:38",
    ),
    ("apex outside", head("{gable: {apex: 1300, eaves: 900}}"), "apex-outside", ["1200 wide"], "9:26"),
    (
        "round and framed",
        one("frame: {width: 600, height: 600}\ncircular: {diameter: 600}" + FIXED),
        "not-wanted",
        ["'frame' cannot stand beside"],
        "8:5",
    ),
    (
        "round with a head",
        one("circular: {diameter: 600}\nhead: {arched: {rise: 100}}" + FIXED),
        "not-wanted",
        ["'head' cannot stand beside"],
        "9:5",
    ),
    ("round and small", one("circular: {diameter: 60}" + FIXED), "out-of-range", ["'diameter'"], "8:26"),
    ("round and empty", one("circular: {}" + FIXED), "missing-key", ["'diameter' is missing"], "8:5"),
]


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(HEADS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)


@pytest.mark.parametrize("text", [row[1] for row in HEADS])
def test_one_mistake_is_not_told_as_many(text):
    assert len(problems_of(text)) == 1


def test_a_raked_head_gives_the_overall_height():
    job = parse_job(one("frame: {width: 1200}\nhead: {raked: {left: 1.1 m, right: 1400}}" + FIXED), "job.yaml").job
    assert job.windows[0].frame.height == 1400
    assert (job.windows[0].head.left, job.windows[0].head.right) == (1100, 1400)


def test_a_circle_gives_both_sizes():
    job = parse_job(one("circular: {diameter: 600}" + FIXED), "job.yaml").job
    assert (job.windows[0].frame.width, job.windows[0].frame.height) == (600, 600)


@pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)
def test_every_shape_reads_its_own_example(shape):
    sizes = (
        "circular: " + shape.example
        if shape.replaces_frame
        else f"frame: {{width: 900, height: 1200}}\nhead: {{{shape.key}: {shape.example}}}"
    )
    assert parse_job(one(sizes + FIXED), "job.yaml").job.windows[0]
