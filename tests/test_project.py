"""The project's own rules: what lies where, how long files are, which way imports run, and that the README tells the truth."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
LONGEST = 300
LONGER_WITH_A_REASON = {
    "elevations/plane.py": "one subject, exact outlines; its functions call each other",
    "elevations/yaml_source.py": "one reader; its parts make no sense apart",
    "elevations/catalogue/systems/flush-70.yaml": "data",
    "elevations/catalogue/systems/lipped-70.yaml": "data",
    "README.md": "a tour",
    "DEVELOPERS.md": "reference",
}
ALLOWED_TOP = {
    "README.md", "DEVELOPERS.md", "pyproject.toml", "elevations", "tests", "specs", "gallery",
    ".ci", ".gitignore", ".pre-commit-config.yaml", ".gitattributes",
}


def committed() -> list[str]:
    try:
        listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True)
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("not a git clone")
    return [name for name in listed.stdout.splitlines() if (ROOT / name).is_file()]


def text_files():
    for name in committed():
        if not name.startswith("gallery/") and not name.endswith(".ttf"):
            yield name, (ROOT / name).read_text("utf-8")


def test_the_top_level_holds_only_what_is_agreed():
    assert {name.split("/")[0] for name in committed()} <= ALLOWED_TOP


def test_no_file_is_long_without_a_reason():
    long = {name for name, text in text_files() if text.count("\n") > LONGEST}
    assert sorted(long - set(LONGER_WITH_A_REASON)) == []


# Put together here, so that this file does not hold them itself.
MACHINE = re.compile("|".join(["/wor" + "k/", "/op" + "t/ev", "/ro" + "ot/", "/ho" + "me/", "/tm" + "p/"]))
REGISTRY = re.compile("|".join(["pypi" + r"\.org", "files\\.python" + "hosted", "index-" + "url", "deb\\.deb" + "ian"]))


@pytest.mark.parametrize("pattern", [MACHINE, REGISTRY], ids=["machine", "registry"])
def test_no_file_names_one_machine_or_a_registry(pattern):
    found = [f"{name}: {hit.group()}" for name, text in text_files() for hit in pattern.finditer(text)]
    assert found == []


def test_the_gallery_names_no_machine():
    for name in committed():
        if name.startswith("gallery/"):
            assert not MACHINE.search((ROOT / name).read_text("utf-8")), name


def commands(word: str) -> list[str]:
    return re.findall(rf"^python3 .*{word}.*$", (ROOT / "README.md").read_text("utf-8"), re.MULTILINE)


def test_the_readme_has_one_command_that_draws_and_one_that_tests():
    assert len(commands("elevations draw specs/quillback-lock-cottage.yaml")) == 1
    assert len(commands("pytest")) == 1


def test_ci_runs_the_readme_test_command_to_the_letter():
    script = (ROOT / ".ci/run").read_text("utf-8")
    pattern = re.search(r"grep -E '(.*)' README\.md", script).group(1)
    found = [line for line in (ROOT / "README.md").read_text("utf-8").splitlines() if re.search(pattern, line)]
    assert found == commands("pytest")
    assert 'bash -euo pipefail -c "$test_command"' in script
    for tool in ("ruff check", "mypy", "lint-imports"):
        assert f".venv/bin/{tool}" in script


def test_the_readme_draw_command_runs(tmp_path):
    """All of it but the installing, which .ci/run's own venv stands for."""
    arguments = commands("elevations draw")[0].split(".venv/bin/elevations ")[1].split()
    arguments[arguments.index("--out") + 1] = str(tmp_path)
    done = subprocess.run([sys.executable, "-m", "elevations.cli", *arguments], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert sorted(path.suffix for path in tmp_path.iterdir()) == [".dxf"] * 8 + [".svg"] * 8


def test_files_that_the_readme_shows_are_there():
    for link in re.findall(r"\]\(([^)#:]+)\)", (ROOT / "README.md").read_text("utf-8")):
        assert (ROOT / link).exists(), link


def lint_imports(folder: Path) -> subprocess.CompletedProcess:
    program = shutil.which("lint-imports", path=str(Path(sys.executable).parent)) or shutil.which("lint-imports")
    if program is None:
        pytest.skip("import-linter is not installed")
    return subprocess.run([program, "--no-cache"], cwd=folder, capture_output=True, text=True, check=False)


def copied(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "elevations", tmp_path / "elevations", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_imports_run_one_way(tmp_path):
    done = lint_imports(copied(tmp_path))
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize(("module", "line"), [
    ("plane.py", "from elevations.geometry import window"),
    ("geometry/fixings.py", "from elevations.views import elevation"),
    ("export/svg.py", "import elevations.cli"),
])
def test_an_import_the_wrong_way_is_caught(tmp_path, module, line):
    file = copied(tmp_path) / "elevations" / module
    file.write_text(file.read_text("utf-8") + f"\n{line}\n", "utf-8")
    done = lint_imports(tmp_path)
    assert done.returncode == 1
    assert "Data runs one way BROKEN" in done.stdout


def test_a_module_without_a_place_in_the_order_is_caught(tmp_path):
    (copied(tmp_path) / "elevations" / "helpers.py").write_text('"""Belongs nowhere."""\n', "utf-8")
    assert lint_imports(tmp_path).returncode == 1


HEAVY = ("ezdxf", "svgwrite", "shapely", "numpy", "reportlab")


@pytest.mark.parametrize(("arguments", "also"), [
    (["--help"], ("pydantic", "yaml")),
    (["check", "specs/one-light.yaml"], ()),
    (["schedule", "glass", "specs/one-light.yaml"], ()),
    (["explain", "specs/one-light.yaml", "W1", "glass", "G1"], ()),
    (["draw", "--dry-run", "specs/one-light.yaml"], ()),
])
def test_quick_commands_import_nothing_heavy(arguments, also):
    """By what is imported, and not by the clock."""
    code = (
        "import sys; from elevations.cli import cli\n"
        f"try: cli({arguments!r})\n"
        "except SystemExit as end: assert not end.code, end.code\n"
        f"print('HEAVY', *[name for name in {(*HEAVY, *also)!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.stdout.splitlines()[-1] == "HEAVY", done.stdout + done.stderr
