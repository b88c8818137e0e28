"""What users get wrong about openings, sills and walls: one row a mistake, its code, its words and its place."""

import pytest
from spec_jobs import HEAD, assert_told, one, problems_of, rows

from elevations.spec.load import parse_job

FIXED = "\nlights: [{light: fixed}]"
FRAME = "frame: {width: 1200, height: 1050}\n"


def opening(text, more=""):
    """A window whose opening is on line 8."""
    return one(f"opening: {text}{more}{FIXED}")


def wall(text):
    """A window of 1200 x 1050 whose wall is on line 9."""
    return one(f"{FRAME}wall: {text}{FIXED}")


def setting(text):
    """A window whose `fit` is on line 9."""
    return one(f"{FRAME}fit: {text}{FIXED}")


OPENINGS = [
    ("two widths", opening("{width: [1811, 1808], height: 1213}"), "measure-count", ["'width' has 2 lengths", "top, middle, bottom"], "8:22"),
    ("three diagonals", opening("{width: 1811, height: 1213, diagonals: [1, 2, 3]}"), "measure-count", ["'diagonals' has 3"], "8:53"),
    ("a width in metres", opening("{width: [1.811, 1.808, 1.81], height: 1213}"), "out-of-range", ["'width', top", "metres"], "8:22"),
    ("a height with a comma", opening("{width: 1811, height: [1213, '1,211', 1214]}"), "not-a-length", ["'height', centre", "1211"], "8:36"),
    ("a middle that no wall has", opening("{width: [1811, 1908, 1810], height: 1213}"), "middle-off",
     ["middle width 1908", "97.5 more", "no wall bows", "measure it again"], "8:29"),
    ("a middle far too small", opening("{width: 1811, height: [1213, 1121, 1214]}"), "middle-off", ["centre height 1121", "92.5 less"], "8:43"),
    ("a taper that no opening has", opening("{width: [1811, 1730, 1650], height: 1213}"), "ends-off", ["1811 at the top", "1650 at the bottom"], "8:35"),
    ("an arch over a level opening", opening("{width: 1811, height: 1213}", "\nhead: {arched: {rise: 200}}"), "opening-shaped",
     ["arched head", "`head: arched`", "left springing, crown, right springing", "frame's own size"], "8:14"),
    ("and round", opening("{width: 600, height: 600}", "\ncircular: {diameter: 580}"), "opening-shaped", ["circular frame", "smallest less the clearance"], "8:14"),
    ("under a gable", opening("{width: 600, height: 600}", "\nhead: {gable: {apex: 300, eaves: 500}}"), "opening-shaped", ["gable frame", "eaves and apex"], "8:14"),
    ("an arch with one height", opening("{head: arched, width: 900, height: 1200}"), "arch-heights", ["one height", "left springing, to the crown"], "8:49"),
    ("a crown below its springings", opening("{head: arched, width: 900, height: [1000, 990, 1000]}"), "arch-flat", ["990 is -10 above", "1000"], "8:56"),
    ("a rise no arc has", opening("{head: arched, width: 900, height: [1000, 1500, 1000]}"), "arch-high", ["500 above", "half the width", "pointed"], "8:56"),
    ("a point that is none", opening("{head: pointed, width: 900, height: [1000, 1300, 1000]}"), "arch-low", ["300 above", "`head: arched`"], "8:57"),
    ("a head that follows anyway", opening("{head: arched, width: 900, height: [1000, 1300, 1000]}", "\nhead: {arched: {rise: 290}}"), "not-wanted",
     ["follows from the opening's"], "9:5"),
    ("a frame of another shape", opening("{head: arched, width: 900, height: [1000, 1300, 1000]}", "\nframe: {width: 880, height: 1280}"), "heads-differ",
     ["an arched head and the frame none", "head: {arched: …}"], "8:21"),
    ("an extension over an arch", opening("{head: arched, width: 900, height: [1000, 1300, 1000]}", "\nfit: {add_ons: {head: 40}}"), "not-wanted",
     ["can't follow an arched head", "head_allowance"], "9:21"),
    ("a head nobody makes", opening("{head: elliptical, width: 900, height: [1000, 1300, 1000]}"), "unknown-choice",
     ["level, raked, arched, pointed", "a template"], "8:21"),
    ("another word for it", opening("{head: segmental, width: 900, height: [1000, 1300, 1000]}"), "unknown-choice", ["did you mean 'arched'"], "8:21"),
    ("a head with its rise", opening("{head: {arched: {rise: 300}}, width: 900, height: [1000, 1300, 1000]}"), "unknown-choice",
     ["one word", "`head: arched`", "[left springing, crown, right springing]"], "8:21"),
    ("a sill under a circle", one("circular: {diameter: 600}\nsill: {projection: 90}" + FIXED), "not-wanted", ["round frame"], "9:5"),
    ("misspelt", opening("{widht: 1811, height: 1213}"), "unknown-key", ["did you mean 'width'"], "8:15"),
    ("neither opening nor frame", one("location: Landing" + FIXED), "missing-key", ["'frame' is missing"], "7:5"),
]
SETTINGS = [
    ("a check without a lap", setting("{reveal: {kind: check}}"), "lap-missing", ["needs 'lap'", "lap: 25"], "9:19"),
    ("a lap without a check", setting("{reveal: {lap: 25}}"), "not-wanted", ["belongs to a check", "kind: check"], "9:20"),
    ("room beside a sash without a check", setting("{reveal: {sash_clear: 8}}"), "not-wanted", ["'sash_clear' belongs to a check"], "9:20"),
    ("a hole behind no check", setting("{reveal: {behind: 12}}"), "not-wanted", ["'behind' belongs to a check"], "9:20"),
    ("too much room beside a sash", setting("{reveal: {kind: check, lap: 25, sash_clear: 80}}"), "out-of-range", ["80", "50"], "9:54"),
    ("a lining outside", setting("{reveal: {lining: 12}}"), "not-wanted", ["inner-leaf"], "9:20"),
    ("a joint the wrong way round", setting("{joint: {least: 15, most: 5}}"), "joint-range", ["at least 15 and at most 5"], "9:18"),
    ("an unknown reveal", setting("{reveal: {kind: rebated}}"), "unknown-choice", ["square, check, inner-leaf"], "9:26"),
    ("a clearance that leaves nothing", setting("{clearance: 800}"), "out-of-range", ["0 to 80", "one digit too many"], "9:22"),
]
WALLS = [
    ("a cavity without its leaf", wall("{material: brick, thickness: 103, cavity: 100, frame_at: 60}"), "wall-leaves", ["needs 'inner' too"], "9:53"),
    ("a frame behind the wall", wall("{material: brick, thickness: 215, frame_at: 300}"), "frame-outside-wall", ["300", "228 thick", "inwards"], "9:55"),
    ("a leaf that a solid wall has not", wall("{material: brick, thickness: 215, frame_at: 60, inner_material: timber}"), "not-wanted",
     ["inner leaf", "one 'material'"], "9:59"),
    ("barred, but may be drilled", wall("{material: brick, thickness: 215, frame_at: 60, lintel: {barred_by: wires}}"), "not-wanted",
     ["may be drilled", "drilling: false"], "9:68"),
    ("a lintel of nothing known", wall("{material: brick, thickness: 215, frame_at: 60, lintel: {kind: oak}}"), "unknown-choice",
     ["concrete, steel, stone, brick, timber"], "9:74"),
    ("brackets on a side that is none", one(f"{FRAME}fixings: {{bracket: {{sides: [top]}}}}{FIXED}"), "unknown-choice", ["left, right, head, sill"], "9:33"),
    ("a strap that reaches a metre", one(f"{FRAME}fixings: {{bracket: {{reach: 1200}}}}{FIXED}"), "out-of-range", ["'reach'", "20 to 600"], "9:32"),
    ("no material", wall("{thickness: 215, frame_at: 60}"), "missing-key", ["'material' is missing"], "9:5"),
    ("in the defaults", HEAD.replace("glass: clear,", "glass: clear, wall: {material: brick, thickness: 103, cavity: 75, frame_at: 60},")
     + "  - mark: W1\n    frame: {width: 1200, height: 1050}\n    lights: [{light: fixed}]\n", "wall-leaves", ["'inner'"], "5:92"),
]


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(OPENINGS, SETTINGS, WALLS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)


def test_several_mistakes_come_together():
    text = one("opening: {width: [1811, 1908, 1810], height: 1213}\nfit: {reveal: {kind: check}}" + FIXED)
    assert {problem.code for problem in problems_of(text)} == {"middle-off", "lap-missing"}


def test_an_opening_stands_for_the_frame():
    job = parse_job(opening("{width: 1811, height: [1213, 1211, 1214]}"), "job.yaml").job
    assert job.windows[0].opening.width == (1811, 1811, 1811)
    assert job.windows[0].frame.width == 0   # worked out later, from the system


def test_a_windows_own_wall_and_fit_stand_over_the_defaults():
    text = HEAD.replace("glass: clear,", "glass: clear, wall: {material: brick, thickness: 215, frame_at: 60}, fit: {round_to: 5, clearance: 12},")
    text += "  - mark: W1\n    frame: {width: 900, height: 900}\n    wall: {frame_at: 80}\n    fit: {clearance: 15}\n    lights: [{light: fixed}]\n"
    window = parse_job(text, "job.yaml").job.windows[0]
    assert (window.wall.material, window.wall.thickness, window.wall.frame_at) == ("brick", 215, 80)
    assert (window.fit.round_to, window.fit.clearance) == (5, 15)


def test_a_head_that_is_no_shape_is_not_told_of_as_one():
    """'write `head: shape` in opening' would be no help: what is wrong is told where it stands, and nothing of the opening."""
    told = problems_of(opening("{width: 1811, height: 1213}", "\nhead: {shape: arched, rise: 200}"))
    assert {problem.code for problem in told} == {"unknown-key"}
