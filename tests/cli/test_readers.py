"""`draw --for`: each reader's own sheet, and nothing unapproved to the factory unasked."""

import shutil
from pathlib import Path

import pytest

from elevations.cli import cli
from tests.cli.typed import run

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def job(tmp_path):
    return shutil.copy(ROOT / "specs/two-lights.yaml", tmp_path / "job.yaml")


def draw(job, *options):
    return run("draw", str(job), "--out", str(Path(job).parent / "out"), *options)


def written(job):
    return sorted(path.name for path in (Path(job).parent / "out").glob("*"))


@pytest.mark.parametrize("reader", ["customer", "workshop"])
def test_a_reader_on_paper_gets_svg_under_a_name_of_its_own(job, reader):
    assert draw(job, "--for", reader).exit_code == 0
    assert written(job) == [f"W1-{reader}.svg"]


def test_the_installer_gets_front_and_back_on_a3_and_numbered_pages_on_a4(job):
    assert draw(job, "--for", "installer", "--format", "svg").exit_code == 0
    assert written(job) == ["W1-installer-1.svg", "W1-installer-2.svg"]
    Path(job).write_text("drawing: {sheet: A4}\n" + Path(job).read_text("utf-8"), "utf-8")
    assert draw(job, "--for", "installer", "--format", "dxf", "--dry-run").stdout.split()[-1].endswith("W1-installer-3.dxf")
    assert draw(job, "--for", "installer", "--format", "dxf").exit_code == 0
    assert [name for name in written(job) if name.endswith("dxf")] == [f"W1-installer-{page}.dxf" for page in (1, 2, 3)]


def test_a_pdf_holds_all_pages_of_a_sheet(job):
    assert draw(job, "--for", "installer", "--format", "pdf", "--dry-run").stdout.split() == [str(Path(job).parent / "out/W1-installer.pdf")]
    assert draw(job, "--for", "installer", "--format", "pdf").exit_code == 0
    assert written(job) == ["W1-installer.pdf"]
    assert len(pytest.importorskip("pypdf").PdfReader(Path(job).parent / "out/W1-installer.pdf").pages) == 2


def test_a_paper_sheet_is_not_to_be_had_as_dxf(job):
    done = draw(job, "--for", "customer", "--format", "dxf")
    assert done.exit_code == 2
    assert "laid out for paper" in done.stderr
    assert written(job) == []


def test_the_factory_gets_nothing_that_is_not_approved(job):
    done = draw(job, "--for", "factory")
    assert done.exit_code == 1
    assert "W1 is not approved" in done.stderr
    assert "--unapproved" in done.stderr
    assert written(job) == []


def test_told_to_it_gets_it_and_the_sheet_says_so(job):
    assert draw(job, "--for", "factory", "--unapproved").exit_code == 0
    assert written(job) == ["W1.dxf", "W1.svg"]
    assert "NOT APPROVED" in (Path(job).parent / "out/W1.svg").read_text("utf-8")


def test_an_approved_window_goes_to_the_factory_until_it_is_changed(job):
    assert run("approve", str(job), "--window", "W1", "--by", "A. Lockwright", "--on", "2026-10-20").exit_code == 0
    assert draw(job, "--for", "factory").exit_code == 0
    sheet = (Path(job).parent / "out/W1.svg").read_text("utf-8")
    assert "approved 2026-10-20 by A. Lockwright" in sheet
    Path(job).write_text(Path(job).read_text("utf-8").replace("width: 1200", "width: 1210"), "utf-8")
    done = draw(job, "--for", "factory")
    assert done.exit_code == 1
    assert "changed since approval 2026-10-20" in done.stderr
    assert draw(job).exit_code == 0   # for nobody in particular it is drawn, and says how it stands
    assert "changed since approval 2026-10-20" in (Path(job).parent / "out/W1.svg").read_text("utf-8")


def test_an_unknown_reader_is_told_who_there_is(job):
    done = draw(job, "--for", "custmer")
    assert done.exit_code == 2
    assert "did you mean 'customer'?" in done.stderr


def test_every_command_explains_itself():
    for name in cli.list_commands(None):
        done = run(name, "--help")
        assert done.exit_code == 0
        assert len(done.stdout.splitlines()) > 5


def test_a_package_that_is_missing_is_told_before_anything_is_written(job, monkeypatch):
    monkeypatch.setattr("elevations.export.extras.find_spec", lambda _: None)
    done = draw(job, "--format", "svg,pdf")
    assert done.exit_code == 1
    assert "pip install '.[pdf]'" in done.stderr
    assert written(job) == []
