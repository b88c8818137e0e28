"""Figures of a country from a file: the built-in one, a user's own, and what is said of a faulty one."""

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.checks import RULES
from elevations.checks.results import SURE, State
from elevations.checks.rules_file import BUILT_IN, KINDS, known_limits, load_rules, read_rules
from elevations.errors import SpecError
from tests.checks.cases import check, only

OWN = """\
rules: elsewhere
title: An invented country
rooms: {habitable: [chambre], kitchen: [cuisine]}
limits:
  safety-low: {value: 900, unit: mm, clause: an invented act, sure: read}
  vent-habitable: {value: 5000, unit: mm2, clause: an invented act, sure: from memory}
"""
FIXED = "frame: {width: 1000, height: 1000}\nlights: [{light: fixed, vent: 4000}]\nfloor_to_opening: 800\ndrop: 3000\nnear: []\nroom: {use: Chambre}\nold_vent: 0"


def faults(text):
    with pytest.raises(SpecError) as caught:
        read_rules(text, "own.yaml")
    return caught.value.problems


def test_the_built_in_file_holds_every_limit_but_those_that_england_does_not_set():
    rules = load_rules("england")
    assert set(known_limits()) - set(rules.limits) == {"vent-sanitary", "vent-utility"}
    assert set(rules.rooms.values()) == set(KINDS)


def test_every_limit_says_where_it_is_from_and_how_sure_it_is():
    data = yaml.safe_load((BUILT_IN / "england.yaml").read_text("utf-8"))
    for key, limit in data["limits"].items():
        assert limit["sure"] in SURE, key
        assert limit["clause"], key
        assert limit["edition"], key
        if limit["sure"].startswith("read"):
            assert limit["source"], key


def test_another_country_needs_no_code():
    rules = read_rules(OWN, "own.yaml")
    assert only("safety-glass", FIXED, rules=rules).state is State.FAIL    # 866 above the floor
    assert only("safety-glass", FIXED).state is State.NOT_APPLICABLE
    vents = check("vents", FIXED, "work: replacement, ventilation: natural", rules=rules)
    assert next(r.state for r in vents) is State.WARN                       # from memory: warned, not failed


def test_a_figure_that_a_country_does_not_have_is_not_asked_for():
    rules = read_rules(OWN, "own.yaml")
    window = "frame: {width: 900, height: 900}\nlights: [{light: side-hung, hinge: left, escape: true}]\nstorey: ground"
    assert {r.state for r in check("escape", window, rules=rules)} <= {State.NOT_APPLICABLE, State.PASS}


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(sorted(known_limits())), st.one_of(st.sampled_from([0, 1e9, 1e-9]), st.floats(0, 1e9)), min_size=1))
def test_any_figures_give_an_answer(values):
    limits = {key: {"value": value, "clause": "an invented act", "sure": "read", **({"unit": known_limits()[key]} if known_limits()[key] else {})}
              for key, value in values.items()}
    rules = read_rules(yaml.safe_dump({"rooms": {"habitable": ["chambre"]}, "limits": limits}), "own.yaml")
    window = FIXED.replace("lights: [{light: fixed, vent: 4000}]", "mullions: equal-sight\nlights: [{light: fixed, vent: 4000}, {light: side-hung, hinge: left, "
                           "escape: true, restrictor: true, restrictor_releases: false}]").replace("use: Chambre", "use: chambre, floor_area: 9, exit: hall")
    for rule in RULES:
        assert check(rule, window + "\nstorey: upper", "work: new-dwelling, ventilation: natural, wind: C2", rules=rules)


def test_every_rule_gets_by_without_any_figure():
    rules = read_rules("limits: {}\n", "own.yaml")
    for rule in RULES:
        states = {r.state for r in check(rule, FIXED, "work: replacement, ventilation: natural, wind: C2", rules=rules)}
        assert states
        assert State.FAIL not in states


@pytest.mark.parametrize(("text", "code", "line"), [
    ("", "empty-file", 1),
    ("- a\n", "not-a-block", 1),
    ("rules: x\n", "missing-key", 1),
    (OWN.replace("safety-low", "safety-lwo"), "unknown-key", 5),
    (OWN.replace("value: 900", "value: high"), "not-a-number", 5),
    (OWN.replace("unit: mm,", "unit: cm,"), "wrong-unit", 5),
    (OWN.replace("unit: mm,", ""), "wrong-unit", 5),
    (OWN.replace("sure: read}", "sure: certain}"), "unknown-word", 5),
    (OWN.replace(", sure: read}", "}"), "missing-key", 5),
    (OWN.replace("clause: an invented act, sure: read}", "sure: read}"), "missing-key", 5),
    (OWN.replace("[cuisine]", "cuisine"), "not-a-list", 3),
    (OWN.replace("[cuisine]", "[Chambre]"), "room-twice", 3),
    (OWN.replace("habitable: [chambre]", "attic: [grenier]"), "unknown-key", 3),
    (OWN + "limit: 3\n", "unknown-key", 7),
    (OWN + "  safety-door:\n", "not-a-block", 7),
    (OWN.replace("900", ".inf"), "not-a-number", 5),
    (OWN.replace("value: 900", "value: -1"), "out-of-range", 5),
])  # fmt: skip
def test_a_fault_is_told_at_its_line(text, code, line):
    problems = faults(text)
    assert [(p.code, p.place.line) for p in problems] == [(code, line)]


def test_faults_come_together():
    text = OWN.replace("unit: mm,", "unit: cm,").replace("from memory", "rumour")
    assert [p.code for p in faults(text)] == ["wrong-unit", "unknown-word"]


@pytest.mark.parametrize(("name", "words"), [("englnd", "did you mean 'england'"), ("mars", "there are england"), ("nowhere.yaml", "check the path"), ("../../etc.yaml", "check the path")])
def test_unknown_rules_are_told(name, words):
    with pytest.raises(SpecError) as caught:
        load_rules(name)
    assert words in caught.value.problems[0].hint


@pytest.mark.parametrize(("content", "words"), [(b"\xff\xfe\xff", "not UTF-8"), (b"# x\n" * 300_000, "larger than")])
def test_files_that_are_no_rules_are_told_in_words(tmp_path, content, words):
    (tmp_path / "own.yaml").write_bytes(content)
    with pytest.raises(SpecError) as caught:
        load_rules(str(tmp_path / "own.yaml"))
    assert words in caught.value.problems[0].message
