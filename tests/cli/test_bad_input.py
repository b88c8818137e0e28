"""Whatever is typed or written, the answer is in words, with an exit code, and leaves no half of a file."""

from __future__ import annotations

import json

import pytest

from tests.cli.typed import JOB, names, run

USAGE = [
    (("chek", "job.yaml"), "did you mean 'check'?"),
    (("draw",), "Missing argument"),
    (("draw", "job.yaml", "--format", "png"), "there are dxf, svg"),
    (("draw", "job.yaml", "--format", ""), "there are dxf, svg"),
    (("draw", "job.yaml", "--window", "W3"), "it has W1, W2"),
    (("draw", "job.yaml", "--jobs", "0"), "--jobs"),
    (("schedule", "galss", "job.yaml"), "did you mean 'glass'?"),
    (("schedule", "glass", "job.yaml", "--json", "--csv"), "exclude each other"),
    (("explain", "job.yaml"), "Missing argument"),
    (("explain", "job.yaml", "W9", "glass", "G1"), "it has W1, W2"),
    (("explain", "job.yaml", "W1", "glass", "G7"), "it has G1, G2"),
]


@pytest.mark.parametrize(("arguments", "words"), USAGE, ids=lambda value: " ".join(value) if isinstance(value, tuple) else "")
def test_a_command_that_cannot_be_carried_out_ends_with_2(folder, arguments, words):
    done = run(*arguments)
    assert done.exit_code == 2
    assert words in done.stderr
    assert done.stdout == ""


SLIPS = {
    "missing file": None,
    "a folder": "folder",
    "empty": "",
    "not YAML": "windows: [",
    "a list": "- W1",
    "a tab": "windows:\n\t- mark: W1",
    "NUL": "windows:\0",
    "not UTF-8": b"site: caf\xe9",
    "no windows": "glass: {clear: {make_up: 4/20/4}}",
    "unknown system": "defaults: {system: flush-71}\n" + JOB,
    "a system that is a folder": "defaults: {system: .}\n" + JOB,
    "unknown glass": JOB.replace("{light: fixed}", "{light: fixed, glass: cleer}"),
    "thick glass": JOB.replace("4/20/4", "6/20/6"),
    "a mullion outside": JOB.replace("[600]", "[1300]"),
    "a mullion too near": JOB.replace("[600]", "[1190]"),
    "more lights than bars": JOB.replace("[600]", "[600, 800]"),
    "two W1": JOB.replace("W2", "W1"),
    "a cycle": "a: &a [*a]",
    "laughs": "a: &a [x,x,x,x,x,x,x,x,x,x]\n" + "".join(
        f"{c}: &{c} [{','.join(['*' + p] * 10)}]\n" for p, c in zip("abcdefgh", "bcdefghi")
    ),
    "5,000 lists": "windows: " + "[" * 5000,
    "a tag": "windows: !!python/object/apply:os.system ['true']",
    "swings both ways": JOB.replace("{light: fixed}]\n  - mark: W2", "{light: side-hung, hinge: right, swing: in}]\n  - mark: W2"),
}


@pytest.mark.parametrize("slip", SLIPS)
@pytest.mark.parametrize("command", [("check",), ("draw", "--out", "out"), ("schedule", "glass")], ids=lambda c: c[0])
def test_a_slip_ends_with_1_and_words(folder, slip, command):
    content = SLIPS[slip]
    name = "slip.yaml"
    if content == "folder":
        (folder / name).mkdir()
    elif content is not None:
        (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode())
    done = run(command[0], *command[1:], name) if command[0] != "schedule" else run(*command, name)
    assert done.exit_code == 1
    assert "error: " in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stderr.rstrip().endswith("nothing was made")
    assert not (folder / "out").exists()


HOSTILE = ["../../x", "/etc/passwd", "</svg><script>", "=1+1", "W1 & <2>", "..", ".hidden", "CON", "a" * 40, "ä\u00b2 \u4e2d", "'; rm -rf", "%s%n", "W1\\..\\x"]


@pytest.mark.parametrize("mark", HOSTILE)
def test_a_hostile_mark_stays_in_the_folder_and_breaks_no_file(folder, mark):
    import xml.etree.ElementTree as ET

    import ezdxf

    (folder / "job.yaml").write_text(JOB.replace("mark: W1", f"mark: {json.dumps(mark)}"), "utf-8")
    done = run("draw", "job.yaml", "--out", "deep/er/out")
    assert done.exit_code == 0, done.stderr
    assert names(folder) == ["deep", "job.yaml"]
    assert names(folder / "deep") == ["er"]
    assert names(folder / "deep/er") == ["out"]
    written = list((folder / "deep/er/out").iterdir())
    assert len(written) == 4
    for path in written:
        assert not path.name.startswith(".")
        if path.suffix == ".svg":
            tree = ET.parse(path)
            assert not [e for e in tree.iter() if e.tag.endswith("script")]
        else:
            assert not ezdxf.readfile(path).audit().errors


@pytest.mark.parametrize("mark", ["W\\u0000", "W\\u001b[31m", "a" * 10_000, ""])
def test_a_mark_that_no_sheet_can_show_is_refused(folder, mark):
    (folder / "job.yaml").write_text(JOB.replace("mark: W1", f'mark: "{mark}"'), "utf-8")
    done = run("draw", "job.yaml")
    assert done.exit_code == 1
    assert "\x1b[31m" not in done.stderr
    assert names(folder) == ["job.yaml"]


def test_a_mark_that_looks_like_a_formula_is_text_in_csv(folder):
    (folder / "job.yaml").write_text(JOB.replace("mark: W1", 'mark: "=1+1"'), "utf-8")
    assert "\n'=1+1-F1,'=1+1," in run("schedule", "fixings", "job.yaml", "--csv").stdout.replace("\r", "")
