"""The approvals file: what it holds, what is refused, and that no crash loses anything."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations import pipeline
from elevations.answers import InWords
from elevations.approval.facts import Fact, fingerprint
from elevations.approval.record import Approval, approvals_file, as_text, read_record
from elevations.approval.state import approval_state
from elevations.commands.approve import command
from elevations.errors import SpecError

JOB = """\
job: {reference: T-1, revision: A}
glass:
  clear: {make_up: 4/20/4}
windows:
  - mark: W1
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
  - mark: W2
    frame: {width: 700, height: 900}
    lights: [{light: fixed}]
"""
HOSTILE = "</svg><script>alert(1)</script>&\"'{}[]: #=1+1 ../../x %%c \u202e \u2028 \x85 é 🏠"

ENV = {**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])}


def group():
    cli = InWords("elevations")
    cli.add_command(command, "approve")
    return cli


def approve(*arguments, by="A. Towpath", on="2026-10-20"):
    return CliRunner().invoke(group(), ["approve", *arguments, "--by", by, "--on", on], catch_exceptions=False)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("job.yaml").write_text(JOB, "utf-8")
    return tmp_path


def states():
    loaded = pipeline.read("job.yaml")
    return {window.mark: approval_state(loaded, window) for window in pipeline.windows(loaded)}


def refused(done, *words, code=1):
    assert done.exit_code == code, done.output
    for word in words:
        assert word in done.stderr
    assert "Traceback" not in done.output


def test_an_approval_is_written_beside_the_job_and_said(folder):
    done = approve("job.yaml", "--window", "W1")
    assert done.exit_code == 0
    state = states()["W1"]
    short = f"{state.fingerprint[:4]}-{state.fingerprint[4:8]}"
    assert done.stdout == f"W1 approved 2026-10-20 by A. Towpath ({short})\n"
    assert sorted(p.name for p in folder.iterdir()) == ["job.approvals.yaml", "job.yaml"]
    assert states()["W2"].words == "not approved"


def test_the_file_is_yaml_that_another_reader_understands(folder):
    # PyYAML's own loader, which our reader does not use
    approve("job.yaml", "--window", "W1")
    (entry,) = yaml.safe_load(Path("job.approvals.yaml").read_text("utf-8"))["approvals"]
    assert (entry["window"], entry["revision"], entry["by"], entry["date"]) == ("W1", "A", "A. Towpath", "2026-10-20")
    assert entry["facts"]["glass G2"]["size"] == "526 × 948"   # shared with the worked example of the format's description


def test_a_changed_window_says_so_and_the_other_stays_approved(folder):
    approve("job.yaml", "--window", "W1", "--window", "W2")
    Path("job.yaml").write_text(JOB.replace("[600]", "[610]"), "utf-8")
    assert states()["W1"].words.startswith("changed since approval 2026-10-20 (")
    assert not states()["W1"].holds
    assert states()["W2"].holds


def test_a_new_revision_is_approved_beside_the_old(folder):
    approve("job.yaml", "--window", "W1")
    Path("job.yaml").write_text(JOB.replace("[600]", "[610]").replace("revision: A", "revision: B"), "utf-8")
    assert approve("job.yaml", "--window", "W1", on="2026-11-02").exit_code == 0
    assert [(a.revision, a.date) for a in read_record(Path("job.approvals.yaml")).approvals] == [("A", "2026-10-20"), ("B", "2026-11-02")]
    assert states()["W1"].words.startswith("approved 2026-11-02")
    assert Path("job.approvals.yaml.bak").read_text("utf-8").count("- window") == 1


def test_going_back_to_an_older_design_is_a_change(folder):
    approve("job.yaml", "--window", "W1")
    Path("job.yaml").write_text(JOB.replace("[600]", "[610]").replace("revision: A", "revision: B"), "utf-8")
    approve("job.yaml", "--window", "W1", on="2026-11-02")
    Path("job.yaml").write_text(JOB, "utf-8")
    assert states()["W1"].kind == "changed"


def test_lines_are_sorted_so_that_the_order_of_approving_does_not_show(folder):
    approve("job.yaml", "--window", "W2")
    approve("job.yaml", "--window", "W1")
    one_by_one = Path("job.approvals.yaml").read_bytes()
    Path("job.approvals.yaml").unlink()
    approve("job.yaml", "--window", "W1", "--window", "W2")
    assert Path("job.approvals.yaml").read_bytes() == one_by_one


def test_a_second_approval_of_one_revision_is_refused_and_changes_nothing(folder):
    approve("job.yaml", "--window", "W1")
    before = Path("job.approvals.yaml").read_bytes()
    refused(approve("job.yaml", "--window", "W1"), "revision A of window W1 was approved already, on 2026-10-20", "nothing to do")
    Path("job.yaml").write_text(JOB.replace("[600]", "[610]"), "utf-8")
    refused(approve("job.yaml", "--window", "W1"), "approved already", "has changed since", "give the job a new 'revision'")
    assert Path("job.approvals.yaml").read_bytes() == before


def test_an_unknown_window_is_refused_with_a_guess(folder):
    refused(approve("job.yaml", "--window", "w1"), "the job has no window 'w1'", code=2)
    assert not Path("job.approvals.yaml").exists()


@pytest.mark.parametrize(("on", "words"), [
    ("2026-02-30", "there is no day 2026-02-30"),
    ("20/10/2026", "write 2026-10-20"),
    ("yesterday", "'yesterday' is not a date"),
    ("", "--on is empty"),
])
def test_a_date_that_is_none_is_refused_in_words(folder, on, words):
    refused(approve("job.yaml", "--window", "W1", on=on), words, code=2)


@pytest.mark.parametrize("by", ["", "   ", "x" * 201])
def test_a_name_that_is_none_is_refused(folder, by):
    refused(approve("job.yaml", "--window", "W1", by=by), "--by", code=2)


def test_a_job_from_standard_input_has_no_place_for_approvals(folder):
    done = CliRunner().invoke(group(), ["approve", "-", "--window", "W1", "--by", "A", "--on", "2026-10-20"], input=JOB.encode())
    refused(done, "no place for its approvals")


def test_the_signed_fingerprint_must_be_that_of_the_window(folder):
    now = states()["W1"].fingerprint
    refused(approve("job.yaml", "--window", "W1", "--fingerprint", "0000-0000"), "not among those that were signed", "send the pack again")
    assert approve("job.yaml", "--window", "W1", "--fingerprint", f"{now[:4]}-{now[4:8]}").exit_code == 0


DAMAGES = [
    ("approvals:", "aprovals:", "no list called 'approvals'"),
    ('"2026-10-20"', '"2026-10-32"', "there is no day 2026-10-32"),
    ('"2026-10-20"', "2026-10-20x", "is not a date"),
    ('  by: "A. Towpath"\n', "", "an approval has no 'by'"),
    ('  by: "A. Towpath"\n', '  by: "A. Towpath"\n  note: x\n', "'note' is no key"),
    ('"size": "526 × 948"', '"size": "531 × 948"', "are not those that were approved"),
    ('  fingerprint: "', '  fingerprint: "zz', "not a fingerprint"),
    ('    "frame"', '\t"frame"', "Tab"),
    ("- window", "- window: {", ""),
    ('"swing": "out"', '"swing": [out]', "'facts' is not"),
]


@pytest.mark.parametrize(("old", "new", "words"), DAMAGES)
def test_a_damaged_file_is_refused_with_the_place_and_left_as_it_is(folder, old, new, words):
    approve("job.yaml", "--window", "W1")
    file = Path("job.approvals.yaml")
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")
    damaged = file.read_bytes()
    refused(approve("job.yaml", "--window", "W2"), "job.approvals.yaml:", words)
    assert file.read_bytes() == damaged
    with pytest.raises(SpecError):
        states()


@pytest.mark.parametrize("content", [b"", b"\x00\xff", b"[]", b"approvals: 3", b"approvals: [1, {}]", b"a: &a [*a]", b"- {"])
def test_any_other_file_of_that_name_is_refused_and_kept(folder, content):
    Path("job.approvals.yaml").write_bytes(content)
    refused(approve("job.yaml", "--window", "W1"), "job.approvals.yaml")
    assert Path("job.approvals.yaml").read_bytes() == content


def test_two_approvals_of_one_revision_in_the_file_are_refused(folder):
    approve("job.yaml", "--window", "W2")
    file = Path("job.approvals.yaml")
    head, entry = file.read_text("utf-8").split("approvals:\n")
    file.write_text(f"{head}approvals:\n{entry}{entry}", "utf-8")
    refused(approve("job.yaml", "--window", "W1"), "revision 'A' of window W2 is approved twice; first on line")


def test_a_file_that_somebody_writes_meanwhile_is_not_overwritten(folder, monkeypatch):
    from elevations.approval import state
    real = state.read_record

    def read_then_overtaken(path):
        record = real(path)
        if record.content is None:
            path.write_bytes(b"theirs")
        return record

    monkeypatch.setattr(state, "read_record", read_then_overtaken)
    refused(approve("job.yaml", "--window", "W1"), "approve again")
    assert Path("job.approvals.yaml").read_bytes() == b"theirs"


def test_a_folder_of_that_name_is_told(folder):
    Path("job.approvals.yaml").mkdir()
    refused(approve("job.yaml", "--window", "W1"), "cannot be read")


KILLED = """
import os, pathlib, signal, sys
from elevations.commands.approve import command
steps, real_replace, real_open = [0], pathlib.Path.replace, pathlib.Path.open
def step():
    steps[0] += 1
    if steps[0] == {at}:
        os.kill(os.getpid(), signal.SIGKILL)
def replace(self, target):
    step()
    done = real_replace(self, target)
    step()
    return done
def opened(self, mode="r", *more, **others):
    stream = real_open(self, mode, *more, **others)
    if "x" in mode:
        stream.write(b"- window: half an entr")
        stream.flush()
        step()
        stream.seek(0)
        stream.truncate()
    return stream
pathlib.Path.replace, pathlib.Path.open = replace, opened
command(["job.yaml", "--window", "W2", "--by", "B", "--on", "2026-10-21"], standalone_mode=False)
"""


@pytest.mark.parametrize("at", range(1, 7))
def test_a_process_killed_midway_loses_nothing(folder, at):
    """Six moments: a file half written, before and after its rename, for the safe copy and then for the file."""
    approve("job.yaml", "--window", "W1")
    before = Path("job.approvals.yaml").read_bytes()
    done = subprocess.run([sys.executable, "-c", KILLED.format(at=at)], env=ENV, capture_output=True, check=False)
    assert done.returncode == -signal.SIGKILL, done.stderr
    now = read_record(Path("job.approvals.yaml"))
    assert [a.window for a in now.approvals] == (["W1"] if at < 6 else ["W1", "W2"])
    assert before in (now.content, Path("job.approvals.yaml.bak").read_bytes() if at >= 3 else now.content)
    # and it works the next time, with what the killed one left lying about
    if at < 6:
        assert approve("job.yaml", "--window", "W2").exit_code == 0
    assert states()["W2"].holds
    assert states()["W1"].holds


def test_without_being_killed_the_same_process_ends_well(folder):
    """So that the test above is known to kill where it says."""
    approve("job.yaml", "--window", "W1")
    subprocess.run([sys.executable, "-c", KILLED.format(at=99)], env=ENV, capture_output=True, check=True)
    assert states()["W2"].holds


def test_a_hostile_name_stays_text(folder):
    assert approve("job.yaml", "--window", "W1", by=HOSTILE).exit_code == 0
    (entry,) = yaml.safe_load(Path("job.approvals.yaml").read_text("utf-8"))["approvals"]
    assert "<script>" in entry["by"]
    assert not set(entry["by"]) & set("\u202e\u2028\x85\n")
    assert states()["W1"].holds


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(*[st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc", "Cf", "Zl", "Zp", "Cn"]), max_size=20)] * 3), min_size=1, max_size=6, unique_by=lambda t: t[:2]))
def test_any_facts_are_read_back_as_they_were_written(tmp_path_factory, triples):
    facts = tuple(Fact(*triple) for triple in triples)
    file = tmp_path_factory.mktemp("a") / "x.approvals.yaml"
    file.write_text(as_text([Approval("W1", "A", "by", "2026-10-20", fingerprint(facts), facts)]), "utf-8")
    (found,) = read_record(file).approvals
    assert sorted(found.facts) == sorted(facts)


def test_the_file_is_named_after_the_job():
    assert approvals_file("a/cottage.yaml") == Path("a/cottage.approvals.yaml")
    assert approvals_file("cottage") == Path("cottage.approvals.yaml")
