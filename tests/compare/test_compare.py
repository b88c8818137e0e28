"""What changed between two states of a job: said in terms of the product, clouded where it is, nothing else told."""

import json
import os
import re
import subprocess
from copy import deepcopy
from io import StringIO
from pathlib import Path

import ezdxf
import pytest
import yaml
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from elevations.answers import InWords
from elevations.approval.facts import Fact, fingerprint
from elevations.commands.compare import command
from elevations.compare.changes import changes, said
from elevations.compare.clouds import clouds
from elevations.compare.sheet import changes_sheet
from elevations.compare.sources import side
from elevations.drawing.extent import bounds_of_all, text_boxes
from elevations.drawing.layers import Layer
from elevations.export import FORMATS
from elevations.plane import Box
from tests.properties.specs import job, windows

OLD = """\
job: {reference: T-1, revision: A}
glass:
  clear: {make_up: 4/20/4, gas: argon}
  safe: {make_up: 4/20/4, gas: argon, toughened: [outer, inner]}
defaults: {glass: clear}
windows:
  - mark: W1
    location: Kitchen
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
  - mark: W2
    frame: {width: 700, height: 900}
    lights: [{light: fixed}]
"""


def run(*arguments, **more):
    cli = InWords("elevations")
    cli.add_command(command, "compare")
    return CliRunner().invoke(cli, ["compare", *arguments], catch_exceptions=False, **more)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("old.yaml").write_text(OLD, "utf-8")
    return tmp_path


def new(*pairs):
    text = OLD
    for old, instead in pairs:
        assert old in text
        text = text.replace(old, instead)
    Path("new.yaml").write_text(text, "utf-8")
    return text


def lines(*pairs):
    new(*pairs)
    done = run("old.yaml", "new.yaml")
    assert done.exit_code == 0, done.output
    return done.stdout.splitlines()


def test_the_same_job_is_the_same(folder):
    assert lines(("revision: A", "revision: B"), ("Kitchen", "Scullery"), ("  - mark", "  # a comment\n  - mark")) == [
        "2 windows: 2 the same"
    ]


def test_the_hinge_of_a_light_is_told_from_which_side_to_which(folder):
    assert lines(("hinge: left", "hinge: right")) == [
        "W1 Kitchen:", "  hinge of light 1: left → right", "2 windows: 1 changed, 1 the same",
    ]


def test_a_moved_mullion_is_told_with_the_sizes_that_it_changes(folder):
    # 1200 - 46 - (595 + 18) - 2 x 5 = 531: the sum of the format's description with the mullion 5 further left
    assert lines(("[600]", "[595]")) == [
        "W1 Kitchen:",
        "  centre line of mullion M1: 600 → 595",
        "  sash W1-S1 542 × 964 → 537 × 964",
        "  glass W1-G1 420 × 842 → 415 × 842",
        "  glass W1-G2 526 × 948 → 531 × 948",
        "  cut lengths and fixings follow: head, sill, sash S1",
        "2 windows: 1 changed, 1 the same",
    ]


def test_a_change_smaller_than_a_millimetre_is_told_with_its_decimals(folder):
    assert "  glass W1-G2 526 × 948 → 526.5 × 948" in lines(("[600]", "[599.5]"))


@pytest.mark.parametrize(("old", "instead", "line"), [
    ("{light: fixed}]\n  - mark: W2", "{light: fixed, glass: safe}]\n  - mark: W2", "  toughened of glass W1-G2: none → inner, outer"),
    ("{light: fixed}]\n  - mark: W2", "{light: fixed, vent: 4000}]\n  - mark: W2", "  vent of light 2: none → 4000"),
    ("hinge: left}", "hinge: left, restrictor: true}", "  restrictor of light 1: none → yes"),
    ("light: side-hung, hinge: left", "light: top-hung", "  opening of light 1: side-hung → top-hung"),
    ("gas: argon}", "gas: krypton}", "  gas of glass W1-G1: argon → krypton"),
    ("    location", "    finish: {inside: RAL 9016}\n    location", "  finish inside: none → RAL 9016"),
    ("    location", "    fixings: {spacing: 400}\n    location", "  cut lengths and fixings follow: head, sill"),
    ("    location", "    system: lipped-70\n    location", "  system of the profiles: flush-70 → lipped-70"),
    ("width: 1200", "width: 1210", "  width of frame: 1200 → 1210"),
])
def test_each_change_has_its_words(folder, old, instead, line):
    assert line in lines((old, instead))


def test_new_lost_and_renamed_windows_are_told(folder):
    assert lines(("mark: W2", "mark: W7")) == ["W7: was called W2, else the same", "2 windows: 1 renamed, 1 the same"]
    extra = "  - {mark: W3, frame: {width: 500, height: 500}, lights: [{light: fixed}]}\n"
    Path("new.yaml").write_text(OLD[: OLD.index("  - mark: W2")] + extra, "utf-8")
    assert run("old.yaml", "new.yaml").stdout.splitlines() == [
        "W3: new window, 500 × 500", "W2: taken out, 700 × 900", "3 windows: 1 new, 1 taken out, 1 the same",
    ]


def test_a_further_light_is_told_as_new(folder):
    found = lines(("[600]", "[400, 800]"), ("{light: fixed}]\n  - mark: W2", "{light: fixed}, {light: fixed}]\n  - mark: W2"))
    assert "  light 3, fixed: new" in found
    assert any(line.startswith("  glass W1-G3, ") and line.endswith(": new") for line in found)
    assert "  mullion M2, 800: new" in found


def test_json_has_values_and_words(folder):
    new(("hinge: left", "hinge: right"))
    data = json.loads(run("old.yaml", "new.yaml", "--json").stdout)
    assert [(one["mark"], one["kind"]) for one in data] == [("W1", "changed"), ("W2", "same")]
    assert data[0]["changes"] == [{"subject": "light 1", "what": "hinge", "old": "left", "new": "right",
                                   "words": "hinge of light 1: left → right", "follows": False}]


def test_one_window_alone_can_be_asked_for(folder):
    new(("hinge: left", "hinge: right"))
    assert run("old.yaml", "new.yaml", "--window", "W2").stdout == "1 window: 1 the same\n"
    done = run("old.yaml", "new.yaml", "--window", "W9")
    assert done.exit_code == 2
    assert "neither job has a window 'W9'; there are W1, W2" in done.stderr


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data(), windows(), windows())
def test_there_are_changes_exactly_where_fingerprints_differ(data, one, other):
    from elevations.approval.facts import product_facts
    from elevations.catalogue.load import find_system
    from elevations.geometry.resolve import resolve_window
    from elevations.spec.load import parse_job

    second = deepcopy(one) if data.draw(st.booleans()) else other
    facts, found = [], []
    for block in (one, second):
        loaded = parse_job(yaml.safe_dump(job(block)), "job.yaml")
        window = resolve_window(loaded.job, loaded.job.windows[0], ("windows", 0), find_system)
        facts.append(product_facts(window, loaded.job.windows[0]))
        found.append((window, loaded.job))
    told = changes("W1", *facts)
    assert bool(told) == (fingerprint(facts[0]) != fingerprint(facts[1]))
    assert changes("W1", facts[0], facts[0]) == []
    for change in told:
        assert change.old != change.new
    if told:
        sheet = changes_sheet(*found[1], told, "revision A")
        assert sheet.placed


def test_changes_are_told_back_and_forth(folder):
    old = (Fact("light 1", "hinge", "left"), Fact("light 1", "vent", "4000"))
    after = (Fact("light 1", "hinge", "right"),)
    assert said(changes("W1", old, after)) == ["hinge of light 1: left → right", "vent of light 1: 4000 → none"]
    assert said(changes("W1", after, old)) == ["hinge of light 1: right → left", "vent of light 1: none → 4000"]


# The drawing


def drawn(folder, *pairs):
    new(*pairs)
    before, after = side("old.yaml"), side("new.yaml")
    told = changes("W1", before.windows["W1"].facts, after.windows["W1"].facts)
    window = after.windows["W1"].window
    return window, told, changes_sheet(window, after.job, told, "revision A")


def test_a_cloud_is_round_the_light_that_changed_and_no_other(folder):
    window, told, sheet = drawn(folder, ("hinge: left", "hinge: right"))
    (cloud,), rest = clouds(window, told)
    assert rest == []
    group = next(g for g in sheet.placed[0].view.groups if g.id == "cloud-1")
    drawn_box = bounds_of_all([i for i in group.items if getattr(i, "layer", None) == Layer.REVISION][:1], sheet.scale)
    glass = window.lights[0].panes[0].sight.outline.bounds
    assert drawn_box.left < glass.left < glass.right < drawn_box.right < window.lights[1].region.outline.bounds.left
    assert cloud.lines == ["hinge of light 1: left → right"]
    assert cloud.box == glass


def test_every_puff_swells_outwards_and_is_an_arc(folder):
    _window, _, sheet = drawn(folder, ("[600]", "[595]"))
    for group in sheet.placed[0].view.groups:
        if group.id.startswith("cloud-"):
            stroke = group.items[0]
            assert stroke.closed
            assert all(corner.bulge > 0 for corner in stroke.corners)
            xs, ys = [c.x for c in stroke.corners], [c.y for c in stroke.corners]
            outer = bounds_of_all([stroke], sheet.scale)
            assert outer.left < min(xs) < max(xs) < outer.right
            assert outer.bottom < min(ys) < max(ys) < outer.top


def test_each_tag_of_the_drawing_is_in_the_table_with_its_words(folder):
    _, told, sheet = drawn(folder, ("[600]", "[595]"), ("hinge: left", "hinge: right"), ("revision: A", "revision: B"))
    table = next(g for g in sheet.groups if g.id == "revision-table")
    texts = [text for text, _ in text_boxes(table.items, 1.0)]
    tags = [g.id.removeprefix("cloud-") for g in sheet.placed[0].view.groups if g.id.startswith("cloud-")]
    assert tags == ["1", "2", "3"]
    assert set(tags) <= set(texts)
    assert "Revision B" in texts
    assert "What changed since revision A" in texts
    joined = " ".join(texts)
    for line in said(told):
        assert line in joined


def test_on_the_sheet_no_text_of_the_table_overlaps_or_leaves_it(folder):
    _, _, sheet = drawn(folder, ("width: 1200", "width: 1700"), ("gas: argon}", "gas: krypton}"))
    boxes = text_boxes([i for g in sheet.groups for i in g.items], 1.0)
    page = Box(0, 0, sheet.width, sheet.height)
    for number, (text, box) in enumerate(boxes):
        assert page.left <= box.left < box.right <= page.right, text
        assert page.bottom <= box.bottom < box.top <= page.top, text
        assert not [other for other, their in boxes[:number] if box.grown(-0.2).overlaps(their)], text


def test_more_changes_than_the_table_takes_are_counted(folder):
    lights = ", ".join(["{light: side-hung, hinge: left, vent: 4000}"] * 16)
    big = OLD.replace("width: 1200, height: 1050", "width: 6000, height: 1050").replace("mullions: [600]", "mullions: equal-sight")
    big = re.sub(r"lights: \[\{light: side.*", f"lights: [{lights}]", big)
    Path("old.yaml").write_text(big, "utf-8")
    Path("new.yaml").write_text(big.replace("hinge: left, vent: 4000", "hinge: right, vent: 2500, restrictor: true, escape: true, handle_height: 400"), "utf-8")
    before, after = side("old.yaml"), side("new.yaml")
    told = changes("W1", before.windows["W1"].facts, after.windows["W1"].facts)
    sheet = changes_sheet(after.windows["W1"].window, after.job, told, "revision A")
    table = next(g for g in sheet.groups if g.id == "revision-table")
    boxes = text_boxes(table.items, 1.0)
    assert any(re.match(r"and \d+ more: see", text) for text, _ in boxes)
    assert min(box.bottom for _, box in boxes) > 10 + 55


def test_the_files_are_written_and_readable(folder):
    new(("hinge: left", "hinge: right"))
    done = run("old.yaml", "new.yaml", "--out", "out", "--format", "dxf,svg")
    assert done.exit_code == 0
    assert sorted(p.name for p in Path("out").iterdir()) == ["W1-changes.dxf", "W1-changes.svg"]
    doc = ezdxf.read(StringIO(Path("out/W1-changes.dxf").read_text("utf-8")))
    assert doc.audit().errors == []
    clouds_read = [e for e in doc.modelspace().query("LWPOLYLINE") if e.dxf.layer == "REVISION" and e.has_arc]
    assert len(clouds_read) == 1
    assert 'data-change="1"' in Path("out/W1-changes.svg").read_text("utf-8")


def test_what_is_not_ours_is_not_replaced(folder):
    new(("hinge: left", "hinge: right"))
    Path("out").mkdir()
    Path("out/W1-changes.svg").write_text("theirs", "utf-8")
    assert run("old.yaml", "new.yaml", "--out", "out").exit_code == 2
    assert Path("out/W1-changes.svg").read_text("utf-8") == "theirs"


def test_nothing_is_drawn_of_what_did_not_change(folder):
    new(("revision: A", "revision: B"))
    assert run("old.yaml", "new.yaml", "--out", "out").exit_code == 0
    assert not Path("out").exists()


@pytest.mark.parametrize("key", list(FORMATS))
def test_hostile_text_stays_text(folder, key):
    hostile = json.dumps("</svg><script>x</script>&=1+1")
    new(("location: Kitchen", f"finish: {{outside: {hostile}}}\n    location: {hostile}"))
    assert run("old.yaml", "new.yaml", "--out", "out", "--format", key).exit_code == 0
    if key == "svg":
        assert "<script" not in Path("out/W1-changes.svg").read_text("utf-8")


# Revisions


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
