"""What the commands answer, where, and with which exit code."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

from tests.cli.typed import JOB, ROOT, names, run


def test_new_writes_a_job_that_draws(folder):
    assert run("new", "first.yaml").stdout == "first.yaml\n"
    assert run("check", "first.yaml").exit_code == 0
    done = run("draw", "first.yaml", "--format", "svg")
    assert done.exit_code == 0
    assert names(folder / "drawings") == ["W1.svg", "W2.svg"]


def test_new_replaces_nothing(folder):
    done = run("new", "job.yaml")
    assert done.exit_code == 2
    assert "already there" in done.stderr
    assert (folder / "job.yaml").read_text("utf-8") == JOB


def test_a_schema_does_not_replace_a_job(folder):
    done = run("schema", "--out", "job.yaml")
    assert done.exit_code == 2
    assert "job.yaml is there already, and is no schema" in done.stderr
    assert (folder / "job.yaml").read_text("utf-8") == JOB
    assert run("schema", "--out", "s.json").exit_code == 0
    assert run("schema", "--out", "s.json").exit_code == 0


def test_new_prints_to_standard_output(folder):
    assert run("new", "-").stdout.startswith("#")
    assert names(folder) == ["job.yaml"]


def test_schema_is_the_same_printed_and_written(folder):
    printed = run("schema").stdout
    assert run("schema", "--out", "s.json").stdout == "s.json\n"
    assert json.loads(printed) == json.loads((folder / "s.json").read_text("utf-8"))


def test_check_prints_findings_and_succeeds(folder):
    done = run("check", "job.yaml")
    assert done.exit_code == 0
    assert "fail: W2 sill, fixings: 320 long: " in done.stdout
    assert "; the same at its head\n" in done.stdout
    assert done.stdout.endswith("job.yaml: 2 windows, no problems, 2 findings\n")


def test_check_answers_in_json(folder):
    data = json.loads(run("check", "job.yaml", "--json").stdout)
    assert data["problems"] == []
    assert {(f["mark"], f["subject"], f["code"]) for f in data["findings"]} == {
        ("W2", "head", "fixing-side-short"), ("W2", "sill", "fixing-side-short"),
    }
    assert all(f["value_mm"] == 320 for f in data["findings"])


def test_check_says_problems_in_json_too(folder):
    (folder / "bad.yaml").write_text(JOB.replace("1200", "12000"), "utf-8")
    done = run("check", "bad.yaml", "--json")
    assert done.exit_code == 1
    (problem,) = json.loads(done.stdout)["problems"]
    assert (problem["file"], problem["line"], problem["column"]) == ("bad.yaml", 4, 20)


def test_every_problem_is_said_then_counted(folder):
    (folder / "bad.yaml").write_text(JOB.replace("1200", "12000").replace("fixed", "fixt"), "utf-8")
    done = run("check", "bad.yaml")
    assert (done.exit_code, done.stdout) == (1, "")
    assert done.stderr.count("error: ") == 3
    assert done.stderr.endswith("\n3 problems; nothing was made\n")


def test_problems_of_the_geometry_have_a_place_too(folder):
    (folder / "bad.yaml").write_text(JOB.replace("[600]", "[100]"), "utf-8")
    done = run("check", "bad.yaml")
    assert done.exit_code == 1
    assert "bad.yaml:5:16: error: " in done.stderr
    assert "1 problem; nothing was made" in done.stderr


def test_draw_names_each_file_it_wrote(folder):
    done = run("draw", "job.yaml", "--out", "here")
    paths = [Path("here") / name for name in ("W1.dxf", "W1.svg", "W2.dxf", "W2.svg")]
    assert [Path(line) for line in done.stdout.splitlines()] == paths
    assert all(path.is_file() for path in paths)
    assert "2 findings to settle" in done.stderr


def test_draw_one_window_in_one_format(folder):
    done = run("draw", "job.yaml", "--window", "W2", "--format", "SVG", "--out", "here")
    assert done.exit_code == 0
    assert names(folder / "here") == ["W2.svg"]


def test_a_dry_run_names_the_files_and_writes_none(folder):
    done = run("draw", "job.yaml", "--dry-run")
    assert [Path(line).name for line in done.stdout.splitlines()] == ["W1.dxf", "W1.svg", "W2.dxf", "W2.svg"]
    assert names(folder) == ["job.yaml"]


def test_drawings_are_drawn_again_over_themselves(folder):
    run("draw", "job.yaml")
    before = {path.name: path.read_bytes() for path in (folder / "drawings").iterdir()}
    assert run("draw", "job.yaml").exit_code == 0
    assert {path.name: path.read_bytes() for path in (folder / "drawings").iterdir()} == before


def test_nothing_is_written_when_any_window_has_a_problem(folder):
    (folder / "bad.yaml").write_text(JOB.replace("width: 320", "width: 12000"), "utf-8")
    assert run("draw", "bad.yaml").exit_code == 1
    assert run("draw", "bad.yaml", "--window", "W1").exit_code == 1
    assert names(folder) == ["bad.yaml", "job.yaml"]


def test_files_of_others_are_all_named_and_none_is_touched(folder):
    out = folder / "drawings"
    out.mkdir()
    for name in ("W1.svg", "W2.dxf"):
        (out / name).write_text("somebody's afternoon", "utf-8")
    done = run("draw", "job.yaml")
    assert done.exit_code == 2
    assert done.stderr.replace("\\", "/").startswith("error: drawings/W1.svg, drawings/W2.dxf are there already, not written by this program")
    assert "--force" in done.stderr
    assert names(out) == ["W1.svg", "W2.dxf"]
    assert (out / "W1.svg").read_text("utf-8") == "somebody's afternoon"


def test_force_replaces_files_of_others(folder):
    out = folder / "drawings"
    out.mkdir()
    (out / "W1.svg").write_text("somebody's afternoon", "utf-8")
    assert run("draw", "job.yaml", "--force").exit_code == 0
    assert "<svg" in (out / "W1.svg").read_text("utf-8")


def test_another_jobs_drawings_are_not_replaced_and_the_words_name_it(folder):
    (folder / "hut.yaml").write_text(JOB, "utf-8")
    run("draw", "job.yaml", "--window", "W1", "--format", "svg")
    before = (folder / "drawings/W1.svg").read_bytes()
    done = run("draw", "hut.yaml", "--format", "svg,dxf")
    assert done.exit_code == 2
    assert "drawings/W1.svg is there already, written for another job, job.yaml; this one is hut.yaml\n" in done.stderr.replace("\\", "/")
    assert "--out" in done.stderr
    assert names(folder / "drawings") == ["W1.svg"]
    assert (folder / "drawings/W1.svg").read_bytes() == before


def test_a_drawing_that_somebody_worked_on_since_is_not_replaced(folder):
    run("draw", "job.yaml", "--format", "svg")
    file = folder / "drawings/W1.svg"
    file.write_text(file.read_text("utf-8").replace("</svg>", "<text>agreed on site</text></svg>"), "utf-8")
    done = run("draw", "job.yaml", "--format", "svg")
    assert (done.exit_code, done.stdout) == (2, "")
    assert "changed since this program wrote it" in done.stderr
    assert run("draw", "job.yaml", "--format", "svg", "--force").exit_code == 0
    assert "agreed on site" not in file.read_text("utf-8")


def test_a_drawing_saved_by_another_program_is_not_replaced(folder):
    import ezdxf  # stands for a CAD program: it reads the drawing and saves it anew

    run("draw", "job.yaml", "--format", "dxf")
    ezdxf.readfile(folder / "drawings/W1.dxf").saveas(folder / "drawings/W1.dxf")
    done = run("draw", "job.yaml", "--format", "dxf")
    assert done.exit_code == 2
    assert "W1.dxf is there already, not written by this program, or saved by another one since" in done.stderr


def test_the_job_may_change_and_its_drawings_follow(folder):
    run("draw", "job.yaml", "--format", "svg")
    before = (folder / "drawings/W1.svg").read_bytes()
    (folder / "job.yaml").write_text(JOB.replace("1200", "1300"), "utf-8")
    assert run("draw", "job.yaml", "--format", "svg").exit_code == 0
    assert (folder / "drawings/W1.svg").read_bytes() != before


def test_a_failing_disk_leaves_nothing_half_written(folder, monkeypatch):
    run("draw", "job.yaml", "--format", "svg")
    before = (folder / "drawings/W1.svg").read_bytes()
    (folder / "job.yaml").write_text(JOB.replace("1200", "1300"), "utf-8")

    def full(*_):
        raise OSError(28, "No space left on device", "W1.svg")

    for module, name in (("os", "replace"), ("os", "rename")):
        monkeypatch.setattr(f"{module}.{name}", full)
    monkeypatch.setattr(Path, "replace", full)
    done = run("draw", "job.yaml", "--format", "svg")
    assert done.exit_code == 1
    assert "No space left on device" in done.stderr
    assert names(folder / "drawings") == ["W1.svg", "W2.svg"]
    assert (folder / "drawings/W1.svg").read_bytes() == before


def test_a_job_comes_through_standard_input(folder):
    done = run("schedule", "glass", "-", "--json", input=JOB)
    assert [row["tag"] for row in json.loads(done.stdout)] == ["W1-G1", "W1-G2", "W2-G1"]


def test_a_schedule_of_one_window(folder):
    done = run("schedule", "glass", "job.yaml", "--window", "W2", "--csv")
    assert done.stdout_bytes.count(b"\r\n") == 2


def test_explain_answers_in_json(folder):
    data = json.loads(run("explain", "job.yaml", "W1", "glass", "G1", "--json").stdout)
    assert [size["shown_mm"] for size in data["sizes"]] == [420, 842, 390, 812]
    assert data["sizes"][0]["steps"][0]["source"] == {"kind": "spec", "where": "job.yaml:5"}


def test_a_system_beside_the_job_is_found_from_anywhere(folder, monkeypatch):
    (folder / "jobs").mkdir()
    (folder / "jobs/job.yaml").write_text("defaults: {system: own.yaml}\n" + JOB.replace("4/20/4", "4/12/4"), "utf-8")
    (folder / "jobs/own.yaml").write_text((ROOT / "specs/systems/lockside-56.yaml").read_text("utf-8"), "utf-8")
    done = run("schedule", "windows", "jobs/job.yaml", "--json")
    assert [row["system"] for row in json.loads(done.stdout)] == ["lockside-56", "lockside-56"]


def program(*arguments, **more):
    return subprocess.run(
        [sys.executable, "-m", "elevations.cli", *arguments], capture_output=True, check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT), **more.pop("env", {})}, **more,
    )


def test_a_reader_that_leaves_early_is_no_fault(folder):
    shell = f"{sys.executable} -m elevations.cli explain job.yaml W1 glass G1 | head -1; exit ${{PIPESTATUS[0]}}"
    done = subprocess.run(
        ["bash", "-c", shell], capture_output=True, check=False, cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT)}
    )
    assert done.stdout == b"W1-G1\n"
    assert b"Traceback" not in done.stderr


def test_a_pipe_that_is_closed_ends_quietly(folder):
    (folder / "big.yaml").write_text(
        "glass: {clear: {make_up: 4/20/4}}\nwindows:\n" + "".join(
            f"  - {{mark: W{i}, frame: {{width: 1200, height: 1050}}, lights: [{{light: fixed}}]}}\n" for i in range(300)
        ), "utf-8",
    )
    shell = f"{sys.executable} -m elevations.cli schedule fixings big.yaml | head -1"
    done = subprocess.run(
        ["bash", "-c", shell], capture_output=True, check=False, cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT)}
    )
    assert done.stderr == b""


def test_no_colour_reaches_a_file(folder):
    (folder / "bad.yaml").write_text("windows: [", "utf-8")
    assert b"\x1b" not in program("check", "bad.yaml", cwd=folder).stderr


def test_a_fault_of_the_program_ends_with_3(folder):
    code = (
        "import sys; from elevations import cli, pipeline\n"
        "def broken(*_): raise ZeroDivisionError\n"
        "pipeline.read = broken\n"
        "sys.argv = ['elevations', 'check', 'job.yaml']\n"
        "cli.main()"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=False, cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT)}
    )
    assert done.returncode == 3
    assert b"fault of the program" in done.stderr


def test_draw_and_check_and_approve_count_the_same_findings(folder):
    (folder / "wide.yaml").write_text(JOB.replace("[600]", "[900]"), "utf-8")   # no stay of flush-70 carries a sash of 842 x 964
    number = re.search(r"(\d+) findings$", run("check", "wide.yaml").stdout.rstrip())[1]
    assert run("draw", "wide.yaml", "--format", "svg").stderr.startswith(f"{number} findings to settle")
    assert run("draw", "wide.yaml", "--format", "svg", "--dry-run").stderr.startswith(f"{number} findings to settle")
    done = run("approve", "wide.yaml", "--window", "W1", "--by", "A. Name", "--on", "2026-10-20")
    assert "approved with 1 finding to settle" in done.stderr


def test_explain_without_a_thing_explains_the_window(folder):
    assert run("explain", "job.yaml", "W1").stdout == run("explain", "job.yaml", "W1", "window").stdout


def test_another_word_for_a_reader_leads_to_ours(folder):
    assert "did you mean 'installer'?" in run("draw", "job.yaml", "--for", "fitter").stderr
