"""States of a job out of git: what a revision names, and what it does not."""

import os
import subprocess
from pathlib import Path

import pytest

from tests.compare.states import OLD, run


def git(*arguments):
    who = {"GIT_AUTHOR_NAME": "a", "GIT_AUTHOR_EMAIL": "a@b", "GIT_COMMITTER_NAME": "a", "GIT_COMMITTER_EMAIL": "a@b"}
    subprocess.run(["git", *arguments], check=True, capture_output=True, env={**os.environ, **who})


@pytest.fixture
def repository(folder):
    (folder / "jobs" / "systems").mkdir(parents=True)
    (folder / "old.yaml").unlink()
    from elevations.catalogue.load import BUILT_IN
    own = (BUILT_IN / "flush-70.yaml").read_text("utf-8").replace("system: flush-70", "system: own-70", 1)
    Path("jobs/systems/own.yaml").write_text(own, "utf-8")
    Path("jobs/job.yaml").write_text(OLD.replace("glass: clear}", "glass: clear, system: systems/own.yaml}"), "utf-8")
    git("init", "-q", "-b", "main")
    git("add", ".")
    git("commit", "-qm", "one")
    Path("jobs/job.yaml").write_text(Path("jobs/job.yaml").read_text("utf-8").replace("hinge: left", "hinge: right"), "utf-8")
    # the system of today is another than that of the revision
    Path("jobs/systems/own.yaml").write_text(own.replace("edge_clearance: 5", "edge_clearance: 6"), "utf-8")
    return folder


def test_a_revision_is_read_with_the_system_file_that_it_had(repository):
    done = run("HEAD:jobs/job.yaml", "jobs/job.yaml")
    assert done.exit_code == 0, done.output
    assert "  hinge of light 1: left → right" in done.stdout
    assert "  glass W1-G2 526 × 948 → 524 × 946" in done.stdout
    assert "  figures or outlines of the profiles changed" in done.stdout


def test_two_revisions_can_be_compared_and_paths_start_here_or_at_the_top(repository, monkeypatch):
    git("commit", "-qam", "two")
    git("tag", "sent")
    assert "hinge of light 1" in run("HEAD~1:jobs/job.yaml", "sent:jobs/job.yaml").stdout
    monkeypatch.chdir("jobs")
    for path in ("job.yaml", "./job.yaml", "../jobs/job.yaml", "jobs/job.yaml"):
        done = run(f"HEAD~1:{path}", "job.yaml")
        assert "hinge of light 1" in done.stdout, (path, done.output)


@pytest.mark.parametrize(("source", "words"), [
    ("nonsense:jobs/job.yaml", "git knows no revision 'nonsense'"),
    ("--output=x:jobs/job.yaml", "no such option"),
    ("HEAD:jobs/other.yaml", "there is no file 'jobs/other.yaml' at that revision"),
    ("HEAD:../../etc/passwd", "there is no file '../../etc/passwd' at that revision"),
    ("HEAD:jobs", ""),
    ("HEAD:", ""),
])
def test_a_revision_that_is_none_is_told(repository, source, words):
    done = run(source, "jobs/job.yaml")
    assert done.exit_code in (1, 2)
    assert words.casefold() in done.stderr.casefold()
    assert "Traceback" not in done.output


def test_an_option_in_the_place_of_a_revision_reaches_git_as_a_name(repository):
    done = run("--", "--output=x:jobs/job.yaml", "jobs/job.yaml")
    assert done.exit_code == 1
    assert "git knows no revision '--output=x'" in done.stderr
    assert not Path("x").exists()


def test_outside_a_repository_it_is_told(folder):
    done = run("HEAD:old.yaml", "old.yaml")
    assert done.exit_code == 1
    assert "no such file" in done.stderr
    assert "no git repository" in done.stderr


def test_problems_of_a_revision_are_told_under_its_name(repository):
    Path("jobs/bad.yaml").write_text(OLD.replace("1200", "12000"), "utf-8")
    git("add", ".")
    git("commit", "-qm", "bad")
    done = run("HEAD:jobs/bad.yaml", "jobs/job.yaml")
    assert done.exit_code == 1
    assert "HEAD:jobs/bad.yaml:9:" in done.stderr


def test_a_missing_file_is_told(folder):
    done = run("old.yaml", "nowhere.yaml")
    assert done.exit_code == 1
    assert "there is no such file" in done.stderr


def test_the_demonstration_of_a_revision_says_what_its_comments_say():
    specs = Path(__file__).resolve().parents[2] / "specs"
    done = run(str(specs / "two-lights.yaml"), str(specs / "two-lights-revised.yaml"))
    # 1200 - 46 - (595 + 18) - 2 x 5 = 531
    for line in ("  centre line of mullion M1: 600 → 595", "  hinge of light 1: left → right", "  glass W1-G2 526 × 948 → 531 × 948"):
        assert line in done.stdout.splitlines()
