"""Every way of opening under every rule: an answer, and none that is easier than the light deserves."""

import pytest

from elevations.catalogue.load import builtin_names
from elevations.checks import RULES
from elevations.checks.hanging import clear_opening
from elevations.checks.results import State
from elevations.errors import SpecError
from elevations.openings import OPENINGS
from tests.checks.cases import case_of

FACTS = "floor_to_opening: 600\ndrop: 3000\nnear: []\nstorey: upper\nold_vent: 0\nroom: {use: bedroom, floor_area: 9, exit: through-room}\n"
BUILDING = "work: replacement, ventilation: natural, wind: B2"


def case_with(key, more=""):
    """A window of one such light, in the first built-in system that makes it."""
    opening = OPENINGS[key]
    hinge = ", hinge: left" if opening.takes_hinge else ""
    for system in builtin_names():
        try:
            return case_of(f"frame: {{width: 1300, height: 1300}}\n{FACTS}lights: [{{light: {key}{hinge}{more}}}]", BUILDING, system=system)
        except SpecError:
            continue
    pytest.fail(f"no built-in system makes a {key} light")


@pytest.mark.parametrize("key", OPENINGS)
def test_every_opening_gets_an_answer_to_every_rule(key):
    case = case_with(key)
    for rule in RULES.values():
        results = list(rule.check(case))
        assert results
        assert all((r.state is State.CANNOT_TELL) == bool(r.needs) for r in results)


@pytest.mark.parametrize("key", [key for key, opening in OPENINGS.items() if opening.has_sash(dummy=False)])
def test_no_opening_is_freer_than_its_frame(key):
    case = case_with(key, ", opens_to: 180")
    (light,) = case.window.lights
    clear, box = clear_opening(case.window, light), light.region.outline.bounds
    for found, whole in ((clear.width, box.width), (clear.height, box.height)):
        assert getattr(found, "value", 0) < whole


@pytest.mark.parametrize("key", [key for key, opening in OPENINGS.items() if opening.has_sash(dummy=False)])
def test_a_declared_clear_opening_is_taken_for_every_opening(key):
    case = case_with(key, ", escape: true, clear_opening: {width: 500, height: 660}")
    (light,) = case.window.lights
    assert clear_opening(case.window, light).area.value == pytest.approx(0.33)
    areas = [r for r in RULES["escape"].check(case) if r.message.startswith("clear area")]
    assert [r.state for r in areas] == [State.PASS]


@pytest.mark.parametrize("key", [key for key, opening in OPENINGS.items() if opening.has_sash(dummy=False)])
def test_what_slides_airs_a_room_by_its_declared_opening_alone(key):
    case = case_with(key, ", opens_to: 90")
    (light,) = case.window.lights
    if any(sash.hinge_edges or sash.leaf.half_in for sash in light.sashes):
        return
    (result,) = RULES["purge"].check(case)
    assert result.state is State.CANNOT_TELL
    (result,) = RULES["purge"].check(case_with(key, ", clear_opening: {width: 500, height: 1000}"))
    assert result.value.value == 0.5
