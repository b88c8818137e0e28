"""What changed between two states of a job: said in terms of the product, and nothing else told."""

import json
from copy import deepcopy
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from elevations.approval.facts import Fact, fingerprint
from elevations.compare.changes import changes, said
from elevations.compare.sheet import changes_sheet
from tests.compare.states import OLD, new, run
from tests.properties.specs import job, windows


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


def test_a_sash_is_told_to_a_tenth_and_glass_as_it_is_cut(folder):
    said = lines(("[600]", "[599.5]"))
    assert "  sash W1-S1 542 × 964 → 541.5 × 964" in said
    # 420 - 0.5 is cut at 419; 526 + 0.5 is cut at 526 as before
    assert "  glass W1-G1 420 × 842 → 419 × 842" in said
    assert not [line for line in said if "W1-G2" in line]


@pytest.mark.parametrize(("old", "instead", "line"), [
    ("{light: fixed}]\n  - mark: W2", "{light: fixed, glass: safe}]\n  - mark: W2", "  toughened of glass W1-G2: none → inner, outer"),
    ("{light: fixed}]\n  - mark: W2", "{light: fixed, vent: 4000}]\n  - mark: W2", "  vent of light 2: none → 4000"),
    ("hinge: left}", "hinge: left, restrictor: true}", "  restrictor of light 1: none → yes"),
    ("light: side-hung, hinge: left", "light: top-hung", "  opening of light 1: side-hung → top-hung"),
    ("gas: argon}", "gas: krypton}", "  gas of glass W1-G1: argon → krypton"),
    ("    location", "    finish: {inside: RAL 9016}\n    location", "  finish inside: none → RAL 9016"),
    ("    location", "    fixings: {spacing: 400}\n    location", "  fixings at of head: 150, 450, 1050 → 150, 450, 750, 1050"),
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
