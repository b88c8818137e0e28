from dataclasses import replace

import pytest
import yaml
from hypothesis import given, settings

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError
from elevations.catalogue.load import find_system
from elevations.geometry.resolve import resolve_job
from elevations.spec.load import parse_job
from elevations.spec.model import Glass
from elevations.thermal import Declared, alternatives, area_weighted_u, window_u
from elevations.thermal.window import frame_areas_m2
from tests.jobs import window_of
from tests.properties.specs import job, windows

GOOD = Glass(make_up="4/20/4", gas="argon", low_e={"face": 3, "emissivity": 0.03}, spacer="warm-edge")
TWO_LIGHTS = "frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]"


def glazed(window, glass=GOOD):
    lights = tuple(replace(light, panes=tuple(replace(p, make_up=glass) for p in light.panes)) for light in window.lights)
    return replace(window, lights=lights)


def with_material(window, material):
    return replace(window, system=replace(window.system, material=material))


def test_two_lights_by_hand():
    # sight sizes 390 x 812 (sash) and 496 x 918 (fixed), from the arithmetic of the spec format
    a_g = 0.390 * 0.812 + 0.496 * 0.918
    l_g = 2 * (0.390 + 0.812) + 2 * (0.496 + 0.918)
    expected = (a_g * 1.1 + (1.2 * 1.05 - a_g) * 1.3 + l_g * 0.04) / (1.2 * 1.05)
    heat = window_u(glazed(window_of(TWO_LIGHTS)), Declared({"clear": 1.1}, {"frame": 1.3}, {"clear": 0.04}))
    assert heat.u_w.value == pytest.approx(expected)
    assert heat.u_w.assumed == ()


def test_each_member_takes_its_own_declared_value():
    window = glazed(window_of(TWO_LIGHTS))
    areas = {}
    for light in window.lights:
        for member, area in frame_areas_m2(light):
            areas[member] = areas.get(member, 0) + area
    # the mullion beside the fixed light: 38 mm seen, mitred into the frame's 66 mm at both ends, 1,050 long
    assert areas["mullion"] == pytest.approx(0.038 * (1.050 + 0.918) / 2)
    declared = {"frame": 1.3, "frame+sash": 1.4, "mullion": 1.5}
    base = window_u(window, Declared({}, declared)).u_w.value
    raised = window_u(window, Declared({}, declared | {"mullion+sash": 2.5})).u_w.value
    assert raised - base == pytest.approx(areas["mullion+sash"] * 1.0 / 1.26)


@settings(max_examples=40, deadline=None)
@given(windows())
def test_glass_and_frame_fill_every_window(block):
    window = resolve_job(parse_job(yaml.safe_dump(job(block)), "job.yaml").job, find_system)[0]
    heat = window_u(glazed(window))
    frame = sum(area for light in window.lights for _, area in frame_areas_m2(light))
    assert frame + heat.glass_area_m2 == pytest.approx(heat.area_m2, rel=1e-9)
    assert 1.0 < heat.u_w.value < 3.5


def test_every_missing_fact_is_named_once():
    answer = window_u(with_material(window_of(TWO_LIGHTS), "timber")).u_w
    assert isinstance(answer, CannotTell)
    assert len(answer.needs) == 3
    assert [word in str(answer) for word in ("gas", "spacer", "declared Uf", "timber: no default")] == [True] * 4


def test_a_spacer_of_unknown_kind_is_not_guessed():
    answer = window_u(glazed(window_of(TWO_LIGHTS), GOOD.model_copy(update={"spacer": "stainless steel"}))).u_w
    assert "which kind the spacer 'stainless steel' is" in str(answer)


def test_the_default_for_frames_is_said():
    assert any("Uf 2.2" in words for words in window_u(glazed(window_of(TWO_LIGHTS))).u_w.assumed)


def test_a_declared_frame_value_cannot_be_zero():
    with pytest.raises(ImpossibleInputError, match="Uf of 0"):
        window_u(glazed(window_of(TWO_LIGHTS)), Declared(u_f_w_m2k={"frame": 0}))


def test_a_job_is_weighed_by_area():
    first = window_u(glazed(window_of(TWO_LIGHTS)))
    second = window_u(glazed(window_of("frame: {width: 600, height: 900}\nlights: [{light: fixed}]")))
    expected = (1.26 * first.u_w.value + 0.54 * second.u_w.value) / 1.8
    assert area_weighted_u([first, second]).value == pytest.approx(expected)


def test_a_job_with_one_unknown_window_cannot_be_told():
    known, unknown = window_u(glazed(window_of(TWO_LIGHTS))), window_u(window_of(TWO_LIGHTS))
    answer = area_weighted_u([known, unknown])
    assert isinstance(answer, CannotTell)
    assert all(need.startswith("W1: ") for need in answer.needs)
    assert isinstance(area_weighted_u([]), CannotTell)


def test_alternatives_change_one_thing_each():
    window = glazed(window_of(TWO_LIGHTS))
    now = window_u(window).u_w.value
    rows = {row.change: row for row in alternatives(window)}
    assert set(rows) == {"spacer: aluminium", "gas: air", "gas: krypton", "no coating"}
    l_g = 2 * (0.390 + 0.812) + 2 * (0.496 + 0.918)
    assert rows["spacer: aluminium"].change_w_m2k == pytest.approx(l_g * (0.08 - 0.06) / 1.26)
    assert rows["gas: air"].change_w_m2k > 0
    assert all(row.u_w_m2k == pytest.approx(now + row.change_w_m2k) for row in rows.values())
    order = [row.u_w_m2k for row in alternatives(window)]
    assert order == sorted(order)


def test_a_coating_is_offered_where_there_is_none():
    window = glazed(window_of(TWO_LIGHTS), GOOD.model_copy(update={"low_e": None}))
    best = alternatives(window)[0]
    assert best.change == "coatings towards the room in every cavity, emissivity 0.03"
    assert best.change_w_m2k < -0.5


def test_alternatives_without_facts_say_what_is_missing():
    assert isinstance(alternatives(window_of(TWO_LIGHTS)), CannotTell)


def test_a_window_of_single_panes_has_no_spacer_to_change():
    window = glazed(window_of(TWO_LIGHTS), Glass(make_up="6"))
    assert alternatives(window) == ()
    assert isinstance(window_u(window).u_w, Calculation)
