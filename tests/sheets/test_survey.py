"""The survey form: a box for everything that the spec asks of the site, filled in with what the job says and nothing else."""

import math
from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner

from elevations import pipeline
from elevations.commands.survey import command
from elevations.drawing.entities import Label, Stroke
from elevations.drawing.extent import text_boxes
from elevations.drawing.lettering import text_width
from elevations.export.files import OthersFilesError
from elevations.plane import Box, Outline, flatten
from elevations.sheets import survey_form as form
from elevations.sheets.survey import BODY, lights_of, survey_sheets
from elevations.sheets.survey_joined import LOAD, PLAN, SET, survey_set_sheet
from elevations.sheets.survey_sketch import opening_sketch
from elevations.spec.model import JobInfo, Light, Window
from elevations.spec.site import AddOns, Fit, Lintel, Opening, Reveal, Sill, Wall, WindowBoard
from elevations.views.light_note import crosses

SPECS = Path(__file__).parents[2] / "specs"
LOADED = pipeline.read(str(SPECS / "fit-opening.yaml"))
WINDOWS = list(pipeline.windows(LOADED))
FILLED = survey_sheets(LOADED.job, LOADED.job.windows[0], WINDOWS[0])
KEYS = {key for row in (*form.FRONT, *form.FRAME) for box in row.boxes for key in box.keys} | {key for key, _ in form.OPENING.values()}

NOT_MEASURED = {
    # what the office decides, and not the tape
    "fixings", "fit", "lights", "wind", "air_leakage",
    # blocks that are looked at below
    "opening", "sill", "wall", "room", "finish", "frame",
}


def test_the_form_has_a_box_for_each_key_of_a_window():
    missing = {key for key in Window.model_fields if key not in NOT_MEASURED and key not in KEYS}
    known_later = {"bay", "joined", "joining", "couple", "corner", "quantity"}   # windows joined to others are drawn, not measured
    assert missing - known_later == set()


@pytest.mark.parametrize(("prefix", "block", "left_out"), [
    ("opening", Opening, set()), ("sill", Sill, {"drip_clear"}), ("wall", Wall, {"lintel", "window_board", "cavity_overlap"}), ("wall.lintel", Lintel, set()),
    ("wall.window_board", WindowBoard, set()), ("fit.reveal", Reveal, {"sash_clear"}), ("fit.add_ons", AddOns, set()),
    ("fit", Fit, {"add_ons", "reveal", "joint", "closing_limit", "tolerances", "trim_diagonals"}),
])
def test_the_form_has_a_box_for_each_key_of_the_site(prefix, block, left_out):
    assert {f"{prefix}.{key}" for key in block.model_fields if key not in left_out} <= KEYS


def test_lights_have_a_column_for_what_is_settled_on_site():
    assert {"light", "hinge", "swing", "glass", "handle_height", "restrictor", "escape", "vent"} <= set(form.LIGHT_KEYS)
    assert set(form.LIGHT_KEYS) - {""} <= set(Light.model_fields)
    assert {key.removeprefix("job.") for key in KEYS if key.startswith("job.")} <= set(JobInfo.model_fields)


def test_it_goes_as_one_goes_on_site():
    """Widths at top, middle, bottom, heights at left, middle, right: installer survey pages and a timber manual, read second hand."""
    assert [form.OPENING[name] for name in ("top", "middle", "bottom")] == [("opening.width", n) for n in range(3)]
    assert [form.OPENING[name] for name in ("left", "centre", "right")] == [("opening.height", n) for n in range(3)]
    headings = [row.heading for row in (*form.FRONT, *form.FRAME, *form.JOINED) if row.heading]
    assert [heading[0] for heading in headings] == ["1", "2", "4", "5", "6", "8"]   # 3 is the sketch of the opening, 7 the lights


def texts_of(*sheets):
    return [found for sheet in sheets for found in text_boxes((item for group in sheet.groups for item in group.items), 1.0)]


def test_it_is_filled_in_with_what_the_job_says():
    said = [text for text, _ in texts_of(*FILLED)]
    for value in ("1811", "1808", "1810", "1213", "1211", "1214", "2180", "2178", "1040", "150", "stone", "RAL 7016", "600, 1200", "side-hung"):
        assert value in said, value
    assert "Kitchen" in said


def test_standard_values_and_stand_ins_are_not_passed_off_as_measured():
    spec = LOADED.job.windows[0]
    assert form.value_of(spec, None, "wall.cavity") == ""
    assert form.value_of(spec, None, "frame.width") == ""
    assert form.value_of(spec, None, "fit.round_to") == ""
    assert form.value_of(LOADED.job.windows[1], None, "frame.width") == "880"
    assert form.value_of(None, None, "opening.width") == ""


def sets_of(name):
    loaded = pipeline.read(str(SPECS / name))
    return [(loaded.job, joined.spec, joined) for joined in pipeline.sets(loaded)]


EVERY = {
    "blank": survey_sheets(), "filled in": FILLED, "set, blank": [survey_set_sheet()],
    **{f"set {spec.mark}": [survey_set_sheet(job, spec, joined)] for name in ("bay.yaml", "coupled.yaml") for job, spec, joined in sets_of(name)},
}


@pytest.mark.parametrize("name", EVERY)
def test_texts_lie_on_the_page_and_not_on_each_other(name):
    for sheet in EVERY[name]:
        texts = texts_of(sheet)
        assert [text for text, box in texts if box.left < 12 or box.right > 202 or box.bottom < 5 or box.top > 292] == []
        assert [(a, b) for (a, x), (b, y) in combinations(texts, 2) if x.grown(-0.2).overlaps(y.grown(-0.2))] == []
        assert (sheet.width, sheet.height) == (210.0, 297.0)   # A4, ISO 216


@pytest.mark.parametrize("name", EVERY)
def test_no_caption_is_cut_and_every_one_is_readable(name):
    """2.5 mm at least, a text height of ISO 3098 (from memory)."""
    for sheet in EVERY[name]:
        labels = [item for group in sheet.groups for item in group.items if isinstance(item, Label)]
        assert [item.text for item in labels if item.text.endswith("…")] == []
        assert [item.text for item in labels if item.height < 2.5] == []


def test_every_caption_of_a_row_has_its_room():
    for row in (*form.FRONT, *form.FRAME, *form.JOINED, form.SIGNED, *PLAN, SET, LOAD):
        room = form.widths(row.boxes, BODY.width)
        assert sum(room) == pytest.approx(BODY.width)
        assert all(text_width(box.caption, form.CAPTION) + 1.0 <= width for box, width in zip(row.boxes, room, strict=True)), row


def test_a_blank_form_says_nothing():
    blank = {text for text, _ in texts_of(*survey_sheets())}
    assert "1811" not in blank
    assert [sheet.placed for sheet in survey_sheets()] == [(), ()]


def test_a_shaped_head_has_its_boxes_filled_in():
    loaded = pipeline.read(str(SPECS / "shapes-straight.yaml"))
    raked = next(spec for spec in loaded.job.windows if spec.head is not None and spec.head.key == "raked")
    assert form.value_of(raked, None, "head") == "raked"
    assert form.value_of(raked, None, "head.left") == f"{raked.head.left:g}"
    assert form.value_of(raked, None, "head.rise") == ""
    arched = pipeline.read(str(SPECS / "shapes-arched.yaml")).job.windows[0]
    assert form.value_of(arched, None, "head.rise") == f"{arched.head.rise:g}"


def test_a_window_of_a_set_says_its_neighbours_and_the_set_its_facets():
    ((job, spec, joined),) = sets_of("bay.yaml")
    middle = next(window for window in job.windows if window.mark == "W2")
    assert form.joined_values(job, middle) == ("B1", "W1", "W3", "", "")
    said = [text for text, _ in texts_of(survey_set_sheet(job, spec, joined))]
    assert said.count("135") == 2
    assert {"B1", "Parlour bay", "W1, W2, W3", "610 × 1290", "1480 × 1290", "no"} <= set(said)
    # sizes of the whole follow from the frames and are not passed off as measured: 2479.2 and 459.6 in tests/cli/test_joined.py
    assert not {"2479.2", "459.6"} & set(said)
    coupled = sets_of("coupled.yaml")[1][0]
    upper = next(window for window in coupled.windows if window.mark == "S1")
    assert form.joined_values(coupled, upper) == ("STACK", "", "", "", "S2")


def test_lights_are_listed_in_reading_order():
    assert [light.light for light in lights_of(LOADED.job.windows[0])] == ["side-hung", "top-hung", "fixed", "side-hung"]


def test_the_command_writes_blanks_or_one_a_window(tmp_path):
    blank = CliRunner().invoke(command, ["--out", str(tmp_path), "--format", "svg,pdf"])
    assert blank.exit_code == 0, blank.output
    assert {path.name for path in tmp_path.iterdir()} == {
        "survey-blank.pdf", "survey-blank-1.svg", "survey-blank-2.svg", "survey-joined-blank.pdf", "survey-joined-blank.svg",
    }
    filled = CliRunner().invoke(command, [str(SPECS / "fit-opening.yaml"), "--out", str(tmp_path / "job"), "--format", "svg,dxf,pdf"])
    assert filled.exit_code == 0, filled.output
    marks = [window.mark for window in LOADED.job.windows]
    assert {path.name for path in (tmp_path / "job").iterdir()} == {
        *(f"{mark}-survey.pdf" for mark in marks), *(f"{mark}-survey-{page}.{kind}" for mark in marks for page in (1, 2) for kind in ("svg", "dxf")),
    }


def test_the_command_writes_a_form_for_each_set_and_takes_its_mark(tmp_path):
    every = CliRunner().invoke(command, [str(SPECS / "bay.yaml"), "--out", str(tmp_path / "all")])
    assert every.exit_code == 0, every.output
    assert {path.name for path in (tmp_path / "all").iterdir()} == {f"{mark}-survey.pdf" for mark in ("B1", "W1", "W2", "W3")}
    one = CliRunner().invoke(command, [str(SPECS / "bay.yaml"), "--window", "B1", "--out", str(tmp_path / "one"), "--format", "pdf,svg,dxf"])
    assert one.exit_code == 0, one.output
    assert {path.name for path in (tmp_path / "one").iterdir()} == {"B1-survey.pdf", "B1-survey.svg", "B1-survey.dxf"}


def test_no_line_of_the_sketch_runs_through_a_box_to_write_in():
    """A drawing program covers nothing with white."""
    opening = list(opening_sketch(Box(0, 0, 90, 90), None))
    closed = [Outline(item.corners).bounds for item in opening if isinstance(item, Stroke) and item.closed]
    hole, taken = max(closed, key=lambda box: box.width), [box for box in closed if box.width < 30]
    lines = [(item.corners[0].point, item.corners[1].point) for item in opening if isinstance(item, Stroke) and not item.closed]
    assert len(taken) == 8
    assert len(lines) > 8
    assert not any(crosses(a, b, box.grown(-0.01)) for a, b in lines for box in taken)
    # what is left of the two diagonals, and of the six others, is all but what the boxes cover
    whole = 2 * math.hypot(hole.width, hole.height) + 3 * hole.width + 3 * hole.height
    assert 0.5 * whole < sum(math.dist(a, b) for a, b in lines) < whole - 6 * 10


def test_a_window_that_cannot_be_worked_out_still_gets_its_form(tmp_path):
    job = tmp_path / "job.yaml"
    job.write_text(
        "glass: {clear: {make_up: 4/20/4}}\nwindows:\n- mark: W1\n  opening: {width: 1200, height: 1000, diagonals: [2900, 2900]}\n"
        "  lights: [{light: fixed}]\n", "utf-8")
    done = CliRunner().invoke(command, [str(job), "--out", str(tmp_path), "--format", "svg"])
    assert done.exit_code == 0, done.output
    assert "2900" in (tmp_path / "W1-survey-1.svg").read_text("utf-8")


def test_a_window_without_a_job_is_a_usage_error_and_others_files_stay(tmp_path):
    assert CliRunner().invoke(command, ["--window", "W1"]).exit_code == 2
    (tmp_path / "survey-blank-1.svg").write_text("mine")
    done = CliRunner().invoke(command, ["--out", str(tmp_path), "--format", "svg"])
    assert isinstance(done.exception, OthersFilesError)


def sketched(**opening):
    keys = {"width": (900.0,) * 3, "height": (1000.0, 1150.0, 1300.0), **opening}
    spec = LOADED.job.windows[0].model_copy(update={"opening": Opening.model_construct(diagonals=None, out_of_level=0.0, **keys)})
    return list(opening_sketch(Box(0, 0, 90, 90), spec))


def lines_of(items, *, closed):
    return [item for item in items if isinstance(item, Stroke) and item.closed == closed]


def outline_of(items):
    return max((Outline(item.corners) for item in lines_of(items, closed=True)), key=lambda outline: outline.bounds.width)


@pytest.mark.parametrize(("opening", "high"), [
    ({"head": "raked"}, "right"), ({"head": "raked", "height": (1300.0, 1150.0, 1000.0)}, "left"), ({"head": "arched"}, "middle"), ({"head": "pointed"}, "middle"),
])
def test_the_sketch_has_the_openings_own_head_and_the_widths_where_they_are_taped(opening, high):
    """The top at the springing or the lower jamb's top, level; the middle at half of that (see `spec.site.Opening`)."""
    items = sketched(**opening)
    hole = outline_of(items)
    box, corners = hole.bounds, hole.corners
    up = {round(corner.y, 3) for corner in corners if abs(corner.x - box.left) < 1e-6 and corner.y > box.bottom + 1}
    (left,), springing = up, box.bottom + 0.8 * box.height
    assert left == pytest.approx(box.top if high == "left" else springing)
    level = {round(item.corners[0].y, 2) for item in lines_of(items, closed=False) if abs(item.corners[0].y - item.corners[1].y) < 1e-9}
    assert {round(springing, 2), round(box.bottom + 0.4 * box.height, 2)} <= level
    # No box to write in lies on the wall, and no line runs beyond it.
    taken = [Outline(item.corners).bounds for item in lines_of(items, closed=True) if Outline(item.corners).bounds.width < 30]
    assert len(taken) == 8
    assert not any(a.overlaps(b) for a, b in combinations(taken, 2))
    points = flatten(hole)
    assert not any(crosses(a, b, one.grown(-0.01)) for a, b in zip(points, [*points[1:], points[0]], strict=True) for one in taken)


def test_the_first_diagonal_stands_above_the_second_and_says_so():
    """The job takes top left to bottom right first; swapped by 2 mm they make another frame and still close."""
    for items in (list(opening_sketch(Box(0, 0, 90, 90), None)), sketched(head="arched")):
        at = {item.text: item.at for item in items if isinstance(item, Label)}
        assert at["1st diag. \\"].y > at["2nd diag. /"].y
    assert form.OPENING["\\"] == ("opening.diagonals", 0)


def test_the_inner_leaf_has_one_box_for_what_it_is_of_and_one_for_how_thick():
    boxes = {box.caption: box.keys for row in form.WALL for box in row.boxes if "wall.inner" in " ".join(box.keys)}
    assert boxes == {"Inner leaf, of what": ("wall.inner_material",), "Thickness": ("wall.inner",)}


def test_the_inner_hole_behind_a_check_has_boxes_of_its_own():
    said = [text for text, _ in texts_of(survey_sheets()[0])]
    assert "Inner hole, behind a check: width, top" in said
    assert sum(len(row.boxes) for row in form.INNER) == 6   # widths at three heights, heights at three places, as outside
