"""What `check` prints: worst first, nothing twice, and each missing fact once under where it is given."""

from __future__ import annotations

from pathlib import Path

import pytest

from elevations import pipeline
from elevations.checks.report import PLACES, text_lines
from elevations.checks.rooms import kind_of
from elevations.checks.rules_file import load_rules
from elevations.checks.run import cases, checked, missing_facts
from elevations.errors import Finding

SPECS = Path(__file__).resolve().parents[2] / "specs"
ENGLAND = load_rules("england")


def looked_at(name):
    loaded = pipeline.read(str(SPECS / name))
    found = list(cases(loaded.job, pipeline.windows(loaded), ENGLAND))
    return [checked(case) for case in found], [finding for case in found for finding in case.window.findings]


def said(name):
    return list(text_lines(*looked_at(name)[:1], ENGLAND, looked_at(name)[1], everything=False))


@pytest.fixture(scope="module")
def clash():
    return said("fixings-clash.yaml")


def test_what_fails_stands_before_findings_and_these_before_warnings(clash):
    kinds = [line.split(":")[0] for line in clash if line.startswith(("fail:", "finding:", "warn:", "can't tell"))]
    order = ["fail", "finding", "warn", "can't tell, for want of 10 facts"]
    assert [order.index(kind) for kind in kinds] == sorted(order.index(kind) for kind in kinds)
    assert {"fail", "finding", "warn"} < set(kinds)


def test_a_finding_that_a_rule_fails_for_too_is_said_once_with_every_side(clash):
    about = [line for line in clash if "is 100 from the centre line of T1" in line]
    assert [line.partition(": the fixing")[0] for line in about] == ["fail: near-transom left jamb, fixings"]
    assert about[0].endswith("keeps both distances; the same at its right jamb")
    assert not [line for line in clash if line.startswith("fail: near-transom") and "fixing from the centre line of a bar" in line]


def test_a_fail_that_no_finding_tells_is_said_in_its_own_words(clash):
    # the job allows 100 from a bar, NHBC 6.7.11 asks for 150: the finding says that it was moved, the rule that it is still too near
    assert "fail: moved left jamb, fixings: fixing from the centre line of a bar 100 mm, at least 150 mm" in clash
    assert [line for line in clash if line.startswith("finding: moved left jamb, right jamb:")]


def test_a_finding_that_windows_share_is_said_once_with_their_marks():
    def found(mark):
        return Finding("diagonals-missing", mark, "opening", "no diagonal was measured", "measure both")

    lines = list(text_lines([], ENGLAND, [found("W1"), found("W2")], everything=False))
    assert lines[:2] == ["finding: W1, W2 opening: no diagonal was measured", "    = hint: measure both"]


def test_each_missing_fact_is_asked_for_once_with_the_rules_and_windows_that_wait(clash):
    assert clash.count("    building: {work: …} (replacement or new-dwelling)") == 1
    at = clash.index("    building: {work: …} (replacement or new-dwelling)")
    assert clash[at - 1] == "  once for the job, under `building:`:"
    assert clash[at + 1] == "      = for: vents, u-value, security of all 4 windows"


@pytest.mark.parametrize("spec", sorted(path.name for path in SPECS.glob("*.yaml")))
def test_nothing_that_is_said_is_lost(spec):
    windows, findings = looked_at(spec)
    text = "\n".join(text_lines(windows, ENGLAND, findings, everything=False))
    for finding in findings:
        assert finding.message in text
        assert finding.subject in text
    for result in (result for window in windows for result in window.results):
        for need in result.needs:
            assert text.count(f"    {need}\n") == 1


@pytest.mark.parametrize("spec", sorted(path.name for path in SPECS.glob("*.yaml")))
def test_every_missing_fact_has_a_place_where_it_is_given(spec):
    windows, _ = looked_at(spec)
    facts = missing_facts(result for window in windows for result in window.results)
    starts = tuple(start for place in PLACES.values() for start in place)
    assert [need for need in facts if not need.startswith(starts)] == []


@pytest.mark.parametrize(("use", "kind"), [
    ("bedroom", "habitable"), ("Bedroom 2", "habitable"), ("front bedroom", "habitable"), ("Kitchen/dining room", "habitable"), ("shower", "bathroom"),
    ("En-suite", "bathroom"), ("ground floor WC", "sanitary"), ("landing", "other"), ("kitchin", None), ("bed room", None), ("", None),
])  # fmt: skip
def test_a_room_is_known_by_a_word_of_its_use_and_a_slip_decides_nothing(use, kind):
    assert kind_of(use, ENGLAND.rooms) == kind
