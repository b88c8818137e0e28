"""What holds of the checks for any window and any facts: they answer, mirrors change nothing, and a missing fact is never a pass."""

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.catalogue.load import find_system
from elevations.checks import RULES
from elevations.checks.results import State
from elevations.checks.rule import Case
from elevations.checks.rules_file import load_rules
from elevations.checks.run import checked
from elevations.checks.said import customer_words, factory_words, job_data, result_data, text_lines
from elevations.errors import SpecError
from elevations.geometry.resolve import resolve_job
from elevations.spec.load import parse_job
from tests.properties.shapes import shaped_windows
from tests.properties.specs import job, mirrored, windows

RULES_OF = load_rules("england")
QUICK = settings(max_examples=50, deadline=None)
FACTS = {
    "floor_to_opening": st.sampled_from([0, 300, 734, 735, 900, 1500]), "drop": st.sampled_from([0, 150, 600, 601, 3000, 5000]),
    "near": st.sampled_from([[], ["door"], ["bath"], ["door", "bath"]]), "guard": st.sampled_from([0, 800, 1100]),
    "old_vent": st.sampled_from([0, 5000]), "storey": st.sampled_from(["ground", "upper"]), "wind": st.sampled_from(["A1", "B2", "C5", "900 Pa"]),
    "room": st.sampled_from([{"use": "bedroom"}, {"use": "bathroom"}, {"use": "bedroom", "floor_area": 12, "exit": "hall"}, {"use": "hall"}]),
    "building": st.sampled_from([{"work": "replacement"}, {"work": "new-dwelling"}]),
    "ventilation": st.sampled_from(["natural", "mechanical"]),
}
GLASSES = st.sampled_from([
    {"make_up": "4/20/4"}, {"make_up": "4/20/4", "toughened": ["outer", "inner"]}, {"make_up": "6/16/6", "laminated": ["inner"]},
    {"make_up": "4/20/4", "toughened": ["inner"], "impact_class": 2, "gas": "argon", "spacer": "warm-edge"},
    {"make_up": "8/12/8", "gas": "air", "spacer": "metal", "wind_load": 900},
])  # fmt: skip
LIGHT = {
    "escape": st.booleans(), "restrictor": st.booleans(), "opens_to": st.sampled_from([10, 20, 45, 90]), "vent": st.sampled_from([0, 4000, 8000]),
}


@st.composite
def facts(draw):
    return {key: draw(values) for key, values in FACTS.items() if draw(st.booleans())}


def case_of(block, given_facts, glass):
    window = {k: v for k, v in given_facts.items() if k not in {"building", "ventilation"}}
    building = {**given_facts.get("building", {}), **({"ventilation": given_facts["ventilation"]} if "ventilation" in given_facts else {})}
    data = {**job({**block, **window}), "glass": {"clear": glass}, "building": building}
    made = parse_job(yaml.safe_dump(data, sort_keys=False), "job.yaml").job
    (resolved,) = resolve_job(made, find_system)
    return Case(resolved, made.windows[0], made.building, RULES_OF)


def with_light_facts(draw, entry):
    """The same entry, its opening lights with facts of their own."""
    if "lights" in entry:
        return {**entry, "lights": [with_light_facts(draw, light) for light in entry["lights"]]}
    if entry["light"] == "fixed":
        return entry
    return {**entry, **{key: draw(values) for key, values in LIGHT.items() if draw(st.booleans())}}


@QUICK
@given(st.one_of(windows(), shaped_windows()), facts(), GLASSES, st.data())
def test_every_window_gets_an_answer_to_every_rule(block, given_facts, glass, data):
    try:
        case = case_of(with_light_facts(data.draw, block), given_facts, glass)
    except SpecError:
        return   # a shape that cannot be made
    done = checked(case)
    assert {r.rule for r in done.results} >= set(RULES) - {"fixings"}
    for result in done.results:
        assert (result.state is State.CANNOT_TELL) == bool(result.needs)
        result_data(result)
    assert list(text_lines([done], RULES_OF, everything=True))
    assert factory_words(done)
    assert customer_words(done)
    assert job_data([done], RULES_OF)


GOOD = {State.PASS, State.NOT_APPLICABLE}
BAD = {State.FAIL, State.WARN}


@QUICK
@given(windows(), facts(), GLASSES, st.sampled_from(sorted(FACTS)), st.data())
def test_what_passes_without_a_fact_passes_whatever_the_fact_is(block, given_facts, glass, key, data):
    """The soundness of 'can't tell': a pass may not hang on something that nobody said."""
    block = with_light_facts(data.draw, block)
    less = {k: v for k, v in given_facts.items() if k != key}
    more = {**less, key: data.draw(FACTS[key])}
    before, after = by_part(case_of(block, less, glass)), by_part(case_of(block, more, glass))
    for part, states in before.items():
        if states <= GOOD:
            assert not after.get(part, set()) & BAD, (part, key, more)


def by_part(case):
    """States by rule and part. Whole-window answers that only say 'not asked' are left out: the parts answer then."""
    found = {}
    for result in checked(case).results:
        found.setdefault((result.rule, result.subject), set()).add(result.state)
    return found


@QUICK
@given(windows(), facts(), GLASSES)
def test_the_mirror_image_of_a_window_fares_the_same(block, given_facts, glass):
    mirror = mirrored(block, block["frame"]["width"])
    states = [sorted((r.rule, str(r.state)) for r in checked(case_of(b, given_facts, glass)).results) for b in (block, mirror)]
    assert states[0] == states[1]


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_says_what_it_asks(rule):
    assert RULES[rule].title
    assert RULES[rule].asks.endswith("?")
