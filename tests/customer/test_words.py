"""The plain words: what each way of opening, glass and finish is called. Expected texts are ours."""

import re

import pytest

from elevations import pipeline
from elevations.openings import OPENINGS
from elevations.sheets import customer_words as words
from elevations.sheets.customer_choices import choices
from elevations.spec.model import Glass
from tests.jobs import window_of

LIGHT = "frame: {{width: 700, height: 1000}}\nlights: [{{{}}}]"
JARGON = re.compile(r"\b(sash|light|mullion|transom|hung|fanlight|pane|unit|rebate|casement|low-e|spacer|kg|cill)\b", re.IGNORECASE)


SYSTEMS = {"": "flush-70", "pair": "flush-70", "pivot": "pivot-68", "sliding": "slider-112"}
"""A built-in system that has the figures which a way of opening needs."""


def light(text, system="flush-70"):
    return window_of(LIGHT.format(text), system).lights[0]


@pytest.mark.parametrize(("spec", "said"), [
    ("light: fixed", "does not open"),
    ("light: fixed, sash: dummy", "does not open; framed like the parts that do"),
    ("light: side-hung, hinge: left", "opens outwards, hinged on the left as you look at it from outside"),
    ("light: side-hung, hinge: right, swing: in", "opens inwards, hinged on the right as you look at it from outside"),
    ("light: top-hung", "opens outwards, hinged along the top, so that its bottom swings open"),
    ("light: bottom-hung, swing: in", "opens inwards, hinged along the bottom, so that its top swings open"),
    ("light: tilt-and-turn, hinge: left",
     "opens inwards in two ways: hinged on the left as you look at it from outside, or hinged along the bottom, so that its top swings open"),
    ("light: side-hung, hinge: left, restrictor: true, vent: 4000",
     ("opens outwards, hinged on the left as you look at it from outside; it has a catch that limits how far it opens; "
     "it has a small vent that can be left open")),
    ("light: side-hung, hinge: left, escape: true",
     "opens outwards, hinged on the left as you look at it from outside; it is meant as a way out in an emergency"),
    # tilted it is a narrow gap: the way out is the other of its two ways
    ("light: tilt-and-turn, hinge: left, escape: true",
     ("opens inwards in two ways: hinged on the left as you look at it from outside, or hinged along the bottom, so that its top swings open; "
      "it is meant as a way out in an emergency: turned like a door, not tilted")),
])
def test_how_a_light_opens_is_said_plainly(spec, said):
    assert words.light_words(light(spec)) == said


@pytest.mark.parametrize("key", list(OPENINGS))
def test_no_way_of_opening_is_said_in_terms_of_the_trade(key):
    hinge = ", hinge: left" if OPENINGS[key].takes_hinge else ""
    said = words.light_words(light(f"light: {key}{hinge}", SYSTEMS[OPENINGS[key].needs]))
    assert ("does not open" in said) == (key == "fixed")
    assert not JARGON.search(said), said


@pytest.mark.parametrize(("glass", "said"), [
    ({"make_up": "6"}, "Single glass"),
    ({"make_up": "4/20/4"}, "Double glazing"),
    ({"make_up": "4/12/4/12/4"}, "Triple glazing"),
    ({"make_up": "4/20/4", "obscure": "outer"}, "Double glazing, patterned so that nobody sees in clearly"),
    ({"make_up": "4/20/4", "toughened": ["inner", "outer"]}, "Double glazing, toughened safety glass on both sides"),
    ({"make_up": "4/20/4", "laminated": ["inner"]}, "Double glazing, laminated safety glass on the inside"),
])
def test_glass_is_said_plainly(glass, said):
    assert words.glass_words(Glass.model_validate(glass)) == said


@pytest.mark.parametrize(("code", "said"), [
    ("RAL 7038", "Agate grey (RAL 7038)"), ("", "not chosen yet"), ("Towpath 12", "Towpath 12 (shown in a neutral tone)"),
])
def test_a_finish_is_said_by_name_and_code(code, said):
    assert words.finish_words(code) == said


def test_lights_that_open_alike_are_said_once():
    window = window_of("""
        frame: {width: 1800, height: 1000}
        mullions: equal-sight
        lights: [{light: fixed}, {light: top-hung}, {light: fixed}]
    """)
    assert [(words.numbers(lights), said) for said, lights in words.grouped(window.lights)] == [
        ("Parts 1 and 3", "does not open"), ("Part 2", "opens outwards, hinged along the top, so that its bottom swings open"),
    ]


def test_only_choices_that_are_made_are_explained():
    fixed = window_of(LIGHT.format("light: fixed"))
    assert [term for term, _ in choices([fixed])] == ["Does not open", "Double glazing", "Colours", "Design number"]
    turning = window_of(LIGHT.format("light: tilt-and-turn, hinge: left, vent: 4000"))
    assert [term for term, _ in choices([fixed, turning])] == [
        "Opens inwards", "Two ways of opening", "Does not open", "A small vent", "Double glazing", "Colours", "Design number",
    ]


@pytest.mark.parametrize(("spec", "term"), [("openings-pivot", "Turns about its middle"), ("openings-sliding", "Slides")])
def test_other_ways_of_opening_are_explained_and_not_called_fixed(spec, term):
    for window in pipeline.windows(pipeline.read(f"specs/{spec}.yaml")):
        terms = [name for name, _ in choices([window])]
        assert term in terms
        assert ("Does not open" in terms) == any(not light.sashes for light in window.lights)


def test_cautions_defer_to_local_rules_and_licensed_practice():
    said = " ".join(words.CAUTIONS)
    for subject in ("safety glass", "escape", "falling", "local rules", "licensed professional"):
        assert subject in said


@pytest.mark.parametrize(("facts", "said"), [
    ("", "Ask whether it can be released"), (", restrictor_releases: true", "It can be released by hand."),
    (", restrictor_releases: false", "It cannot be released by hand."),
])
def test_nothing_is_promised_of_a_catch_that_the_job_does_not_say(facts, said):
    window = window_of(f"frame: {{width: 900, height: 1100}}\nlights: [{{light: side-hung, hinge: left, restrictor: true{facts}}}]")
    (meaning,) = [meaning for term, meaning in choices([window]) if term.startswith("A catch")]
    assert said in meaning
