"""`elevations fit` on the specs that show it, and on jobs it can't answer for."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from elevations.commands.fit import command
from elevations.errors import SpecError
from elevations.export.files import OthersFilesError

SPEC = str(Path(__file__).parents[2] / "specs" / "fit-opening.yaml")


FOUR_SIDED = ("--window", "W1", "--window", "W2")


def run(*arguments):
    return CliRunner().invoke(command, list(arguments))


def test_it_says_every_gap_and_what_is_to_settle():
    done = run(SPEC)
    assert done.exit_code == 0, done.output
    for words in ("worked out from the opening", "frame 880 × 1340 as given", "trims: left jamb, right jamb", "measure the sides", "6.3 off"):
        assert words in done.stdout


def test_json_has_twelve_gaps_a_window_and_two_more_along_an_arch():
    rows = json.loads(run(SPEC, "--json").stdout)
    assert [row["mark"] for row in rows] == ["W1"] * 12 + ["W2"] * 12 + ["W3"] * 14 + ["W4"] * 12
    assert [row["place"] for row in rows if row["mark"] == "W3" and row["side"] == "head"] == [
        "left springing", "left quarter", "crown", "right quarter", "right springing"]
    assert set(rows[0]) == {"tag", "mark", "side", "place", "gap_mm", "joint"}


def test_csv_has_a_heading_and_a_row_a_gap():
    lines = run(SPEC, "--csv", "--window", "W2").stdout.splitlines()
    assert len(lines) == 1 + 12


def test_pictures_say_that_gaps_are_enlarged(tmp_path):
    done = run(SPEC, *FOUR_SIDED, "--out", str(tmp_path), "--format", "svg,dxf")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["W1-fit.dxf", "W1-fit.svg", "W2-fit.dxf", "W2-fit.svg"], done.output
    assert "gaps drawn 20 times larger than the frame" in (tmp_path / "W1-fit.svg").read_text("utf-8")


def test_somebody_elses_file_is_left_alone(tmp_path):
    (tmp_path / "W2-fit.svg").write_text("mine")
    done = run(SPEC, "--out", str(tmp_path))
    assert isinstance(done.exception, OthersFilesError)
    assert [p.name for p in tmp_path.iterdir()] == ["W2-fit.svg"]


@pytest.mark.parametrize(("arguments", "words"), [(["--format", "gif", "--out", "x"], "no format 'gif'"), (["--json", "--csv"], "exclude")])
def test_what_cannot_be_asked_for_is_a_usage_error(arguments, words):
    done = run(SPEC, *arguments)
    assert done.exit_code == 2
    assert words in done.output


def test_an_opening_that_cannot_be_makes_no_picture(tmp_path):
    job = tmp_path / "job.yaml"
    job.write_text(
        "glass: {clear: {make_up: 4/20/4}}\nwindows:\n- mark: W1\n  opening: {width: 1200, height: 1000, diagonals: [2900, 2900]}\n"
        "  lights: [{light: fixed}]\n", "utf-8")
    done = run(str(job), "--out", str(tmp_path / "out"))
    assert isinstance(done.exception, SpecError)
    problem = done.exception.problems[0]
    assert (problem.code, problem.place.line) == ("no-such-opening", 4)
    assert not (tmp_path / "out").exists()
