"""`elevations templates`, run as a command."""

import json

import pytest
from click.testing import CliRunner

from elevations.commands.templates import command

JOB = """\
glass: {clear: {make_up: 4/20/4}}
windows:
  - mark: W1
    frame: {width: 1200, height: 1700}
    head: {arched: {rise: 600}}
    transoms: [600]
    lights: [{light: fixed}, {light: side-hung, hinge: left}]
  - {mark: W2, circular: {diameter: 700}, lights: [{light: fixed}]}
  - {mark: W3, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
"""


@pytest.fixture
def job(tmp_path):
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    return tmp_path / "job.yaml"


def run(*arguments):
    return CliRunner().invoke(command, [str(argument) for argument in arguments])


def test_one_file_a_shaped_pane_and_format(job, tmp_path):
    done = run(job, "--out", tmp_path / "t")
    assert done.exit_code == 0, done.output
    names = ["W1-G1.dxf", "W1-G1.svg", "W2-G1.dxf", "W2-G1.svg"]
    assert sorted(path.name for path in (tmp_path / "t").iterdir()) == names
    assert done.output.split() == [str(tmp_path / "t" / name) for name in names]


def test_the_same_job_gives_the_same_bytes(job, tmp_path):
    for folder in ("a", "b"):
        assert run(job, "--out", tmp_path / folder).exit_code == 0
    for path in (tmp_path / "a").iterdir():
        assert path.read_bytes() == (tmp_path / "b" / path.name).read_bytes()


def test_a_window_and_a_format_can_be_chosen(job, tmp_path):
    done = run(job, "--out", tmp_path / "t", "--window", "W2", "--format", "dxf")
    assert [path.name for path in (tmp_path / "t").iterdir()] == ["W2-G1.dxf"]
    assert done.exit_code == 0


def test_rectangular_glass_needs_none_and_says_so(job, tmp_path):
    done = run(job, "--out", tmp_path / "t", "--window", "W3")
    assert done.exit_code == 0
    assert "nothing needs a template" in done.output
    assert not (tmp_path / "t").exists()


def test_an_unknown_format_is_refused(job, tmp_path):
    done = run(job, "--out", tmp_path / "t", "--format", "dwg")
    assert done.exit_code == 2
    assert "there is no format 'dwg'" in done.output


def test_a_strangers_file_is_left_alone(job, tmp_path):
    (tmp_path / "t").mkdir()
    (tmp_path / "t" / "W2-G1.dxf").write_text("theirs", "utf-8")
    done = run(job, "--out", tmp_path / "t")
    assert done.exit_code != 0
    assert (tmp_path / "t" / "W2-G1.dxf").read_text("utf-8") == "theirs"
    assert len(list((tmp_path / "t").iterdir())) == 1


def test_the_glass_schedule_marks_what_is_shaped(job):
    from elevations import pipeline
    from elevations.schedules.glass import GLASS
    from elevations.schedules.table import as_json

    rows = json.loads(as_json(GLASS, pipeline.rows(pipeline.read(str(job)), GLASS)))
    assert [(row["tag"], row["shaped"]) for row in rows] == [("W1-G1", True), ("W1-G2", False), ("W2-G1", True), ("W3-G1", False)]


def test_the_sides_of_a_template_come_as_rows(job):
    from elevations import pipeline
    from elevations.schedules.templates import TEMPLATES

    rows = pipeline.rows(pipeline.read(str(job)), TEMPLATES)
    assert [(row.tag, row.side, row.kind) for row in rows] == [
        ("W1-G1", "a", "straight"), ("W1-G1", "b", "arc"), ("W2-G1", "a", "arc"), ("W2-G1", "b", "arc"),
    ]
    # 600 - 46 - 5 = 549 about the springing's middle; the glass begins 18 + 5 = 23 above it: chord 2 sqrt(549^2 - 23^2)
    half_chord = (549**2 - 23**2) ** 0.5
    assert (rows[1].radius_mm, rows[1].rise_mm, rows[1].chord_mm) == (549, 526, round(2 * half_chord, 1))
    assert TEMPLATES.totals(rows) == ["2 shaped panes"]
