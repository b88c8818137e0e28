"""`elevations check` as typed: what it says, its JSON, its exit codes."""

import json

import click
import pytest
from click.testing import CliRunner

from elevations.answers import InWords
from elevations.checks.results import State
from elevations.commands.check import command

JOB = """\
glass: {clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}, spacer: warm-edge}}
building: {work: replacement}
windows:
  - mark: W1
    frame: {width: 1200, height: 1050}
    floor_to_opening: 300
    drop: 3000
    near: []
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
  - mark: W2
    frame: {width: 320, height: 700}
    lights: [{light: fixed}]
"""


@pytest.fixture
def run(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    group = click.version_option("0")(InWords())
    group.add_command(command)
    return lambda *arguments: CliRunner().invoke(group, ["check", *arguments], catch_exceptions=False)


def test_it_says_what_fails_then_what_is_missing_then_how_many(run):
    done = run("job.yaml")
    assert done.exit_code == 0
    assert "fail: W1 G1, safety-glass: its glass begins" in done.stdout
    assert "    = rule: Approved Document K, section 5; 2013 edition; read second hand" in done.stdout
    assert done.stdout.index("fail: W1") < done.stdout.index("can't tell, for want of ")
    assert "    room: {use: …} (what the room is used for)\n      = for: escape, vents, purge of W1, W2\n" in done.stdout
    assert "no certificate" in done.stdout
    assert done.stdout.endswith("job.yaml: 2 windows, no problems, 2 findings\n")


def test_all_says_passes_too(run):
    assert "pass: W1" not in run("job.yaml").stdout
    done = run("job.yaml", "--all")
    assert "pass: W1 left jamb, fixings" in done.stdout or "pass: W1 sill, fixings" in done.stdout
    assert "not applicable: W2, restrictor" in done.stdout


def test_strict_makes_a_fail_exit_1(run):
    assert run("job.yaml", "--strict").exit_code == 1
    assert run("job.yaml", "--strict", "--window", "W2").exit_code == 1   # one fixing a side: two are asked for


def test_json_keeps_problems_and_findings_and_adds_checks(run):
    data = json.loads(run("job.yaml", "--json").stdout)
    assert list(data)[:3] == ["problems", "findings", "checks"]
    assert data["problems"] == []
    assert {f["mark"] for f in data["findings"]} == {"W2"}
    assert {c["state"] for c in data["checks"]} <= {str(state) for state in State}
    failed = next(c for c in data["checks"] if c["rule"] == "safety-glass" and c["state"] == "fail")
    assert (failed["value"], failed["unit"], failed["limit"]["value"], failed["limit"]["sure"]) == (300 + 43 + 76, "mm", 800, "read second hand")
    assert sum(data["totals"].values()) == len(data["checks"])
    assert data["rules"]["name"] == "england"
    assert [row["mark"] for row in data["u_values"]] == ["W1", "W2"]
    assert 1.0 < data["job_u_w_m2k"] < 2.5
    assert "no certificate" in data["caution"]


def test_json_tells_problems_of_the_job(run, tmp_path):
    (tmp_path / "bad.yaml").write_text(JOB.replace("1200", "12000"), "utf-8")
    done = run("bad.yaml", "--json")
    assert done.exit_code == 1
    data = json.loads(done.stdout)
    assert data["findings"] == []
    assert [p["line"] for p in data["problems"]] == [5]
    assert data["checks"] == []


def test_one_window_alone(run):
    data = json.loads(run("job.yaml", "--window", "W2", "--json").stdout)
    assert {c["mark"] for c in data["checks"]} == {"W2"}


def test_own_rules_by_path(run, tmp_path):
    (tmp_path / "own.yaml").write_text("title: Nowhere\nlimits: {}\n", "utf-8")
    done = run("job.yaml", "--rules", "own.yaml")
    assert done.exit_code == 0
    assert "checks by the figures of Nowhere" in done.stdout
    assert "fail:" not in done.stdout


@pytest.mark.parametrize(("arguments", "words"), [
    (("job.yaml", "--rules", "atlantis"), "no rules called 'atlantis'"),
    (("nothing.yaml",), "no such file"),
    (("job.yaml", "--window", "W9"), "no window 'W9'"),
])  # fmt: skip
def test_mistakes_are_told_in_words(run, arguments, words):
    done = run(*arguments)
    assert done.exit_code in {1, 2}
    assert words in done.stderr
    assert "Traceback" not in done.stderr


def test_json_tells_problems_of_the_rules_file_too(run, tmp_path):
    (tmp_path / "own.yaml").write_text("limits: {safety-low: {value: high, unit: mm, clause: x, sure: read}}\n", "utf-8")
    done = run("job.yaml", "--rules", "own.yaml", "--json")
    assert done.exit_code == 1
    (problem,) = json.loads(done.stdout)["problems"]
    assert (problem["code"], problem["file"], problem["line"]) == ("not-a-number", "own.yaml", 1)


def test_a_sash_that_no_hardware_carries_is_told_once(run, tmp_path):
    (tmp_path / "wide.yaml").write_text(
        "glass: {clear: {make_up: 4/20/4}}\nwindows: [{mark: W1, frame: {width: 900, height: 880}, lights: [{light: side-hung, hinge: left}]}]\n", "utf-8")
    said = run("wide.yaml").stdout
    assert said.count("814") == 1      # 900 - 2 x 43 wide; stays go to 700
    assert "warn: W1 S1, sash-limits: no stay of flush-70 fits a side-hung sash" in said
    data = json.loads(run("wide.yaml", "--json").stdout)
    assert [finding["code"] for finding in data["findings"]] == ["hardware-none-carries"]
