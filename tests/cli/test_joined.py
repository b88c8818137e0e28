"""Joined windows from the command line: files, cutting list, pack, explanations and checks of the specs that show them."""

import csv
import io
import json
import shutil
import subprocess
from pathlib import Path

import ezdxf
import pytest
from ezdxf.math import area
from shapely.geometry import Polygon

from tests.cli.typed import names, run

SPECS = Path(__file__).resolve().parents[2] / "specs"
BAY, COUPLED = str(SPECS / "bay.yaml"), str(SPECS / "coupled.yaml")


def drawn(folder, *more):
    done = run("draw", BAY, "--out", str(folder), *more)
    assert done.exit_code == 0, done.output
    return done


def test_draw_writes_a_file_a_window_and_one_for_the_whole(tmp_path):
    done = drawn(tmp_path)
    assert names(tmp_path) == [f"{mark}.{kind}" for mark in ("B1", "W1", "W2", "W3") for kind in ("dxf", "svg")]
    assert done.stdout.splitlines()[-2:] == [str(tmp_path / "B1.dxf"), str(tmp_path / "B1.svg")]


def test_the_same_job_gives_the_same_bytes(tmp_path):
    drawn(tmp_path / "one", "--window", "B1")
    drawn(tmp_path / "two", "--window", "B1")
    for name in ("B1.dxf", "B1.svg"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_dry_run_names_the_files_that_are_then_written(tmp_path):
    said = run("draw", BAY, "--dry-run", "--out", str(tmp_path)).stdout
    assert said == drawn(tmp_path).stdout


def test_one_set_or_one_window_can_be_drawn_alone(tmp_path):
    drawn(tmp_path / "set", "--window", "B1", "--format", "svg")
    drawn(tmp_path / "window", "--window", "W2", "--format", "svg")
    assert (names(tmp_path / "set"), names(tmp_path / "window")) == (["B1.svg"], ["W2.svg"])


def test_customers_and_installers_get_a_sheet_of_the_set_too(tmp_path):
    assert run("draw", BAY, "--for", "customer", "--out", str(tmp_path / "c")).exit_code == 0
    assert names(tmp_path / "c") == [f"{mark}-customer.svg" for mark in ("B1", "W1", "W2", "W3")]
    done = run("draw", BAY, "--for", "installer", "--window", "B1", "--format", "dxf", "--out", str(tmp_path / "i"))
    assert done.exit_code == 0, done.output
    assert names(tmp_path / "i") == ["B1-installer-1.dxf", "B1-installer-2.dxf"]
    assert [Path(line).name for line in run("draw", BAY, "--for", "installer", "--window", "B1", "--format", "dxf", "--dry-run").stdout.splitlines()] == names(tmp_path / "i")


def test_the_workshops_glass_has_no_sheet_of_a_set(tmp_path):
    done = run("draw", BAY, "--for", "workshop", "--window", "B1", "--out", str(tmp_path))
    assert done.exit_code == 2
    assert "no sheet of joined windows" in done.stderr
    assert run("draw", BAY, "--for", "workshop", "--out", str(tmp_path)).exit_code == 0
    assert names(tmp_path) == ["W1-workshop.svg", "W2-workshop.svg", "W3-workshop.svg"]


def test_a_set_of_unapproved_windows_does_not_go_to_the_factory_unasked(tmp_path):
    done = run("draw", BAY, "--for", "factory", "--window", "B1", "--out", str(tmp_path))
    assert done.exit_code == 1
    assert all(f"{mark} is not approved" in done.stderr for mark in ("W1", "W2", "W3"))
    assert names(tmp_path) == []


def test_a_file_of_somebody_elses_in_the_way_of_the_set_stops_all(tmp_path):
    (tmp_path / "B1.svg").write_text("mine")
    done = run("draw", BAY, "--out", str(tmp_path))
    assert done.exit_code == 2
    assert names(tmp_path) == ["B1.svg"]


def test_the_dxf_is_sound_and_has_posts_and_frames_at_true_size(tmp_path):
    drawn(tmp_path, "--window", "B1", "--format", "dxf")
    document = ezdxf.readfile(tmp_path / "B1.dxf")
    assert document.audit().errors == []
    posts = [line for line in document.modelspace().query('LWPOLYLINE[layer=="COUPLER"]') if line.closed]
    # two posts in the elevation, 80 x 1290; in plan two strips of 40 x 70 less a kite of 70 x 70 x tan 22.5 each
    plan_area = 2 * 40 * 70 - 70 * 70 * 0.41421356
    assert sorted(abs(area(line.vertices())) for line in posts) == pytest.approx([plan_area] * 2 + [80 * 1290] * 2, rel=1e-6)
    frames = [Polygon(line.vertices()).area for line in document.modelspace().query('LWPOLYLINE[layer=="FRAME"]') if line.closed]
    assert sorted(round(found) for found in frames)[-3:] == [610 * 70, 610 * 70, 1480 * 70]
    glass = document.modelspace().query('LWPOLYLINE[layer=="GLASS"]')
    assert len(glass) == 4   # W1, both of W2, W3
    assert all(line.closed for line in glass)


@pytest.mark.readers
def test_gdal_reads_the_drawing_too(tmp_path):
    if not shutil.which("ogrinfo"):
        pytest.skip("GDAL is not installed")
    drawn(tmp_path, "--window", "B1", "--format", "dxf")
    query = "SELECT * FROM entities WHERE Layer = 'COUPLER'"
    said = subprocess.run(["ogrinfo", "-q", "-sql", query, str(tmp_path / "B1.dxf")], capture_output=True, text=True, check=True).stdout
    assert said.count("LINESTRING") == 4 + 2   # four outlines, and the edge of each post in elevation


def test_the_cutting_list_has_posts_and_couplers():
    rows = json.loads(run("schedule", "cutting", BAY, "--json").stdout)
    posts = [row for row in rows if row["profile"].startswith("bay post")]
    assert [(row["length_mm"], row["quantity"], row["pieces"], row["ends"]) for row in posts] == [(1290, 2, ["B1-P1", "B1-P2"], "90/90")]
    assert posts[0]["mass_kg"] == pytest.approx(2 * 1.290 * 1.60, abs=0.005)
    assert "licensed practice" in posts[0]["remark"]
    rows = json.loads(run("schedule", "cutting", COUPLED, "--json").stdout)
    couplers = [(row["length_mm"], row["quantity"], row["pieces"]) for row in rows if row["profile"] == "coupler"]
    assert couplers == [(1100, 2, ["ROW-C1", "ROW-C2"]), (1000, 1, ["STACK-C1"])]


def test_the_windows_of_a_set_keep_their_own_rows():
    glass = json.loads(run("schedule", "glass", BAY, "--json").stdout)
    assert [row["tag"] for row in glass] == ["W1-G1", "W2-G1", "W2-G2", "W3-G1"]


def test_a_cutting_list_of_some_windows_has_posts_only_where_the_set_is_whole():
    def profiles(*marks):
        return {row["profile"] for row in json.loads(run("schedule", "cutting", BAY, "--json", *(x for m in marks for x in ("--window", m))).stdout)}

    assert "bay post for 135 degrees" in profiles("W1", "W2", "W3")
    assert "bay post for 135 degrees" not in profiles("W1", "W2")


def test_bars_are_planned_for_posts():
    sets = json.loads(run("cut", BAY, "--json").stdout)
    (posts,) = [found for found in sets if found["profile"] == "bay post for 135 degrees"]
    assert [piece["piece"] for bar in posts["bars"] for piece in bar["pieces"]] == ["B1-P1", "B1-P2"]


def test_the_workshops_pack_has_the_set(tmp_path):
    done = run("workshop", BAY, "--out", str(tmp_path), "--format", "csv")
    assert done.exit_code == 0, done.output
    text = next(path for path in tmp_path.iterdir() if path.name.endswith("cutting.csv")).read_text("utf-8-sig")
    assert [row["quantity"] for row in csv.DictReader(io.StringIO(text)) if row["profile"].startswith("bay post")] == ["2"]


def test_explain_adds_the_projection_up():
    said = json.loads(run("explain", BAY, "B1", "whole", "--json").stdout)
    (projection,) = [size for size in said["sizes"] if size["name"] == "projection of the outer face"]
    # 610 and 40 at 45 degrees: 650 x 0.70711
    assert projection["shown_mm"] == 459.6
    assert sum(step["amount_mm"] for step in projection["steps"]) == pytest.approx(459.619, abs=0.001)
    assert projection["steps"][0]["detail"] == ["610 x sin 45.00 degrees"]
    assert projection["steps"][0]["source"]["where"].endswith("bay.yaml:15")
    assert "licensed practice" in " ".join(said["facts"])


def test_explain_knows_posts_by_tag_and_says_what_there_is():
    assert "Cut length" in run("explain", BAY, "B1", "p2").stdout
    done = run("explain", BAY, "B1", "P7")
    assert done.exit_code == 2
    assert "whole, P1, P2" in done.stderr


def test_check_asks_whether_it_carries_load_until_that_is_settled(tmp_path):
    text = Path(BAY).read_text("utf-8")
    settled = run("check", BAY).stdout
    assert "bears on it" not in settled
    job = tmp_path / "job.yaml"
    job.write_text("\n".join(line for line in text.splitlines() if "carries_load" not in line), "utf-8")
    assert "B1 whole: nobody has said whether a wall, floor or roof above bears on it" in run("check", str(job)).stdout
    job.write_text(text.replace("carries_load: false", "carries_load: true"), "utf-8")
    assert "specified by a licensed practice" in run("check", str(job)).stdout


def test_what_cannot_be_joined_is_told_with_its_place_and_nothing_is_drawn(tmp_path):
    job = tmp_path / "job.yaml"
    job.write_text(Path(BAY).read_text("utf-8").replace("[135, 135]", "[135, 141]"), "utf-8")
    done = run("draw", str(job), "--out", str(tmp_path / "out"))
    assert done.exit_code == 1
    assert "flush-70 has no bay post for 141 degrees" in done.stderr
    assert "job.yaml:38:19" in done.stderr
    assert not (tmp_path / "out").exists()
    for command in (("check",), ("cut",), ("schedule", "cutting")):
        assert run(*command, str(job)).exit_code == 1


OWN_OPENINGS = """
job: {reference: R1}
glass: {clear: {make_up: 4/20/4}}
defaults: {system: flush-70, glass: clear}
windows:
  - {mark: A, opening: {width: 1200, height: 1000, diagonals: [1562, 1562]}, lights: [{light: fixed}]}
  - {mark: B, opening: {width: 1200, height: 1000, diagonals: [1562, 1562]}, lights: [{light: fixed}]}
joined:
  - {mark: ROW, way: side-by-side, windows: [A, B], carries_load: false}
"""


@pytest.mark.parametrize("answer", [
    ["fit"], ["explain", "A"], ["check"], ["schedule", "glass"], ["schedule", "fixings"], ["schedule", "sills"], ["fit", "--window", "A"],
], ids=" ".join)
def test_no_answer_is_given_of_windows_whose_set_cannot_be_made(tmp_path, answer):
    job = tmp_path / "job.yaml"
    job.write_text(OWN_OPENINGS, "utf-8")
    command = answer[:1] if answer[0] in ("fit", "explain", "check") else answer[:2]
    done = run(*command, str(job), *answer[len(command):])
    assert done.exit_code == 1
    assert done.stdout == ""
    assert "A has an opening of its own, but in ROW it has a neighbour" in done.stderr


def test_a_survey_form_is_made_of_a_set_that_cannot_be_and_says_that_something_is_wrong(tmp_path):
    """What is wrong may be what is to be measured."""
    job = tmp_path / "job.yaml"
    job.write_text(OWN_OPENINGS, "utf-8")
    done = run("survey", str(job), "--out", str(tmp_path / "out"))
    assert done.exit_code == 0
    assert "2 problems of this job: `elevations check` says them" in done.stderr
