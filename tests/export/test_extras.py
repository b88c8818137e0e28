"""A package that is not installed is told in words, before anything is written."""

from __future__ import annotations

import pytest

from elevations.errors import SpecError
from elevations.export import extras
from tests.commands.typed import JOB, names, run


def test_a_package_that_is_there_is_no_trouble():
    extras.require("json", "pdf", "writing PDF")


def test_a_missing_package_is_named_with_what_installs_it():
    with pytest.raises(SpecError) as caught:
        extras.require("no_such_package_at_all", "pdf", "writing PDF")
    (problem,) = caught.value.problems
    assert problem.message == "writing PDF needs the package no_such_package_at_all, which is not installed"
    assert problem.hint == "in this program's source folder: pip install '.[pdf]'"


def test_what_can_be_had_without_is_said():
    with pytest.raises(SpecError) as caught:
        extras.require("no_such_package_at_all", "pdf", "writing PDF", "--format svg")
    assert caught.value.problems[0].hint.endswith("pip install '.[pdf]'; or do without: --format svg")


@pytest.mark.parametrize(("arguments", "package", "extra"), [
    (("workshop", "job.yaml", "--format", "pdf"), "reportlab", "pdf"),
    (("workshop", "job.yaml"), "xlsxwriter", "xlsx"),
    (("labels", "job.yaml"), "segno", "labels"),
    (("survey", "job.yaml", "--format", "svg,pdf", "--out", "."), "reportlab", "pdf"),
    (("pack", "job.yaml", "--out", "."), "reportlab", "pdf"),
    (("cut", "job.yaml", "--pdf", "bars.pdf"), "reportlab", "pdf"),
])
def test_commands_say_which_package_they_lack_and_write_nothing(tmp_path, monkeypatch, arguments, package, extra):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    there = extras.find_spec
    monkeypatch.setattr(extras, "find_spec", lambda name: None if name == package else there(name))
    done = run(*arguments)
    assert done.exit_code == 1
    assert f"needs the package {package}, which is not installed" in done.stderr
    assert f"pip install '.[{extra}]'" in done.stderr
    assert names(tmp_path) == ["job.yaml"]
