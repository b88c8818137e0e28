"""The survey form: a box for everything that the spec asks of the site, filled in with what the job says and nothing else."""

from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner

from elevations import pipeline
from elevations.commands.survey import command
from elevations.drawing.extent import text_boxes
from elevations.export.files import OthersFilesError
from elevations.sheets import survey_form as form
from elevations.sheets.survey import lights_of, survey_sheet
from elevations.spec.model import JobInfo, Light, Window
from elevations.spec.site import AddOns, Fit, Lintel, Opening, Reveal, Sill, Wall, WindowBoard

SPECS = Path(__file__).parents[2] / "specs"
LOADED = pipeline.read(str(SPECS / "fit-opening.yaml"))
WINDOWS = list(pipeline.windows(LOADED))
FILLED = survey_sheet(LOADED.job, LOADED.job.windows[0], WINDOWS[0])
KEYS = {key for row in (*form.HEAD, *form.WALL, *form.AFTER) for box in row.boxes for key in box.keys} | {key for key, _ in form.OPENING.values()}

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
    ("wall.window_board", WindowBoard, set()), ("fit.reveal", Reveal, set()), ("fit.add_ons", AddOns, set()),
    ("fit", Fit, {"add_ons", "reveal", "joint", "closing_limit", "tolerances", "trim_diagonals"}),
])
def test_the_form_has_a_box_for_each_key_of_the_site(prefix, block, left_out):
    assert {f"{prefix}.{key}" for key in block.model_fields if key not in left_out} <= KEYS


def test_lights_have_a_column_for_what_is_settled_on_site():
    assert {"light", "hinge", "swing", "glass", "handle_height", "restrictor", "escape", "vent"} <= set(form.LIGHT_KEYS)
    assert set(form.LIGHT_KEYS) - {""} <= set(Light.model_fields)
    assert {key.removeprefix("job.") for key in KEYS if key.startswith("job.")} <= set(JobInfo.model_fields)


def test_widths_come_at_three_places_before_sill_and_frame():
    """Width at top, middle, bottom, height at left, middle, right: installer survey pages and a timber manual, read second hand."""
    assert [form.OPENING[name] for name in ("top", "middle", "bottom")] == [("opening.width", n) for n in range(3)]
    assert [form.OPENING[name] for name in ("left", "centre", "right")] == [("opening.height", n) for n in range(3)]
    headings = [row.heading for row in (*form.WALL, *form.AFTER) if row.heading]
    assert [heading[0] for heading in headings] == ["1", "3", "4"]   # 2 is the sketch of the opening


def texts_of(sheet):
    return text_boxes((item for group in sheet.groups for item in group.items), 1.0)


def test_it_is_filled_in_with_what_the_job_says():
    said = [text for text, _ in texts_of(FILLED)]
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


@pytest.mark.parametrize("sheet", [survey_sheet(), FILLED], ids=["blank", "filled in"])
def test_texts_lie_on_the_page_and_not_on_each_other(sheet):
    texts = texts_of(sheet)
    assert [text for text, box in texts if box.left < 12 or box.right > 202 or box.bottom < 5 or box.top > 292] == []
    assert [(a, b) for (a, x), (b, y) in combinations(texts, 2) if x.grown(-0.2).overlaps(y.grown(-0.2))] == []
    assert (sheet.width, sheet.height) == (210.0, 297.0)   # A4, ISO 216


def test_a_blank_form_says_nothing():
    blank = {text for text, _ in texts_of(survey_sheet())}
    assert "1811" not in blank
    assert survey_sheet().placed == ()


def test_lights_are_listed_in_reading_order():
    assert [light.light for light in lights_of(LOADED.job.windows[0])] == ["side-hung", "top-hung", "fixed", "side-hung"]


def test_the_command_writes_a_blank_or_one_a_window(tmp_path):
    blank = CliRunner().invoke(command, ["--out", str(tmp_path), "--format", "svg"])
    assert blank.exit_code == 0, blank.output
    filled = CliRunner().invoke(command, [str(SPECS / "fit-opening.yaml"), "--out", str(tmp_path), "--format", "svg,dxf,pdf"])
    assert filled.exit_code == 0, filled.output
    assert {path.name for path in tmp_path.iterdir()} == {
        "survey-blank.svg", *(f"W{n}-survey.{kind}" for n in (1, 2, 3, 4) for kind in ("svg", "dxf", "pdf")),
    }


def test_a_window_that_cannot_be_worked_out_still_gets_its_form(tmp_path):
    job = tmp_path / "job.yaml"
    job.write_text(
        "glass: {clear: {make_up: 4/20/4}}\nwindows:\n- mark: W1\n  opening: {width: 1200, height: 1000, diagonals: [2900, 2900]}\n"
        "  lights: [{light: fixed}]\n", "utf-8")
    done = CliRunner().invoke(command, [str(job), "--out", str(tmp_path), "--format", "svg"])
    assert done.exit_code == 0, done.output
    assert "2900" in (tmp_path / "W1-survey.svg").read_text("utf-8")


def test_a_window_without_a_job_is_a_usage_error_and_others_files_stay(tmp_path):
    assert CliRunner().invoke(command, ["--window", "W1"]).exit_code == 2
    (tmp_path / "survey-blank.svg").write_text("mine")
    done = CliRunner().invoke(command, ["--out", str(tmp_path), "--format", "svg"])
    assert isinstance(done.exception, OthersFilesError)
