"""Schedules say how the approval of their windows stands, where the job keeps approvals."""

import json

import pytest
from click.testing import CliRunner

from elevations.cli import cli

JOB = """\
job: {revision: A}
glass: {clear: {make_up: 4/20/4}}
windows:
  - {mark: W1, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
  - {mark: W2, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
"""


def run(*arguments):
    return CliRunner().invoke(cli, arguments, catch_exceptions=False)


@pytest.fixture
def job(tmp_path):
    file = tmp_path / "job.yaml"
    file.write_text(JOB, "utf-8")
    return file


def test_without_approvals_a_schedule_is_as_it_was(job):
    done = run("schedule", "glass", str(job))
    assert "approved" not in done.output


@pytest.mark.parametrize("kind", ["glass", "windows", "fixings"])
def test_below_the_table_each_window_says_how_it_stands(job, kind):
    assert run("approve", str(job), "--window", "W1", "--by", "A. Towpath", "--on", "2026-10-20").exit_code == 0
    lines = run("schedule", kind, str(job)).stdout.splitlines()
    assert lines[-2].startswith("W1: approved 2026-10-20 by A. Towpath (")
    assert lines[-1] == "W2: not approved"
    job.write_text(JOB.replace("width: 700", "width: 701", 1), "utf-8")
    assert run("schedule", kind, str(job), "--window", "W1").stdout.splitlines()[-1].startswith("W1: changed since approval 2026-10-20 (")


def test_rows_for_programs_stay_rows(job):
    run("approve", str(job), "--window", "W1", "--by", "A. Towpath", "--on", "2026-10-20")
    done = run("schedule", "glass", str(job), "--json")
    assert len(json.loads(done.stdout)) == 2
    assert "W1: approved" in done.stderr
    assert run("schedule", "glass", str(job), "--csv").stdout.count("\n") == 3


def test_a_damaged_approvals_file_is_told(job):
    job.with_name("job.approvals.yaml").write_text("approvals: 3", "utf-8")
    done = run("schedule", "glass", str(job))
    assert done.exit_code == 1
    assert "no list called 'approvals'" in done.stderr
