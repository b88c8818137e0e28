"""Drainage by the system's rules: sums by hand, every way of opening, and any window.

Slots under glass and under sashes, holes at the top of glazed rebates, clear of fixings, joints and corners: common practice,
no source; the figures are those of the demonstration systems, or of the test.
"""

import json
import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings

from elevations.catalogue.drainage import Slots
from elevations.catalogue.load import find_system
from elevations.geometry.drainage import InTheWay, drained, one_place, outlet_place, spread
from elevations.geometry.resolve import resolve_job
from elevations.plane import Point
from elevations.spec.load import parse_job
from tests.jobs import window_of
from tests.properties.specs import job as job_of
from tests.properties.specs import windows as any_window

RULE = Slots("", 80, 600)


def test_slots_of_a_short_rebate_become_one_in_its_middle():
    assert spread(150, RULE)[0] == [75]
    assert spread(239, RULE)[0] == [119.5]      # two would stand 79 apart, nearer to each other than to the ends
    assert spread(240, RULE)[0] == [80, 160]


def test_slots_are_as_few_and_even_as_the_spacing_allows():
    assert spread(2000, Slots("", 80, None))[0] == [80, 1920]
    assert spread(1360, RULE)[0] == [80, 680, 1280]


@pytest.mark.parametrize(("found", "first"), [
    ([], 80),
    ([(110, 30)], 80),            # at just the distance asked for
    ([(110, 31)], 141),           # moves to the far side of it
    ([(100, 40), (170, 40)], 210),     # and past the next
])
def test_a_slot_moves_clear_of_what_is_in_its_way(found, first):
    places, troubles = spread(1000, Slots("", 80, None, 150), [InTheWay(at, clear, "F1") for at, clear in found])
    assert (places, troubles) == ([first, 920], [])


def test_a_slot_that_may_not_move_so_far_stays_and_is_told():
    places, (trouble,) = spread(1000, Slots("", 80, None, 50), [InTheWay(110, 40, "F1")])
    assert places == [80, 920]
    assert trouble.message == "80 along its rebate, is 30 from F1, less than 40, and nothing within 50 is free"
    assert (trouble.value, trouble.limit) == (30, 40)


def test_slots_that_something_keeps_too_far_apart_are_told():
    # 330 to 1030 is taken, so that one gap is 700
    places, (trouble,) = spread(1360, RULE, [InTheWay(680, 350, "the centre line of M1")])
    assert trouble.value == max(b - a for a, b in pairwise(places)) == 700
    assert "none may stand nearer to the centre line of M1" in trouble.message


def test_the_one_slot_of_a_short_rebate_moves_to_the_nearer_side():
    assert one_place(150, 300, RULE, [InTheWay(155, 20, "F1")]) == ([135], [])
    places, (trouble,) = one_place(75, 150, RULE, [InTheWay(80, 20, "F1")])   # no play between its ends
    assert (places, trouble.value) == ([75], 5)


@pytest.mark.parametrize(("found", "outlet"), [
    ([], 140), ([(150, 40)], 190), ([(150, 40), (210, 40)], 250), ([(20, 5)], 140),
])
def test_an_outlet_stands_its_offset_on_or_as_near_as_it_may(found, outlet):
    rule = Slots("", 80, None, 120, 60)
    assert outlet_place(80, 1000, rule, 60, [InTheWay(at, clear, "F1") for at, clear in found]) == (outlet, None)


def test_an_outlet_without_a_free_place_is_told():
    at, trouble = outlet_place(80, 1000, Slots("", 80, None, 30, 60), 60, [InTheWay(150, 60, "F1")])
    assert (at, trouble.value, trouble.limit) == (140, 10, 60)
    window = window_of("frame: {width: 1200, height: 1000}\nlights: [{light: fixed}]")
    rule = replace(window.system.drainage, move_mm=0.0, offset_mm=40.0)      # the first slot 106 along, its outlet 146, a fixing at 150
    _, findings = drained(replace(window, system=replace(window.system, drainage=rule)))
    assert "a drainage outlet of G1, 100 along its rebate, is 4 from F" in findings[0].message


def test_a_round_window_is_drained_at_its_lowest_point_and_aired_at_its_highest():
    window = window_of("circular: {diameter: 900}\nlights: [{light: fixed}]")
    slots = [d for d in window.drains if d.kind == "drainage slot"]
    holes = [d for d in window.drains if d.kind == "pressure hole"]
    assert (len(slots), len(holes)) == (1, 1)
    lowest = min(abs(p.at.x - 450) for p in window.fixings if p.side == "ring lower")
    # a fixing at the very bottom would push it 40 along the rebate of radius 404: 40 / 404 of a turn
    moved = 450 * math.sin(40 / 404) if lowest < 1 else 0.0
    assert slots[0].at == Point(pytest.approx(450 - moved, abs=0.5), pytest.approx(450 - math.sqrt(450**2 - moved**2), abs=0.5))
    assert holes[0].at.y > 890


@pytest.mark.parametrize(("system", "light"), [
    ("flush-70", "{light: fixed}"), ("flush-70", "{light: fixed, sash: dummy}"), ("flush-70", "{light: side-hung, hinge: left}"),
    ("flush-70", "{light: top-hung}"), ("flush-70", "{light: bottom-hung, swing: in}"), ("flush-70", "{light: tilt-and-turn, hinge: left, swing: in}"),
    ("flush-70", "{light: side-hung-pair}"), ("lipped-70", "{light: side-hung, hinge: right}"), ("pivot-68", "{light: horizontal-pivot}"),
    ("pivot-68", "{light: vertical-pivot}"), ("slider-112", "{light: sliding}"), ("slider-112", "{light: vertical-sliding}"),
])
def test_every_way_of_opening_is_drained_below_its_glass_and_below_its_sash(system, light):
    window = window_of(f"system: {system}\nframe: {{width: 1200, height: 1200}}\nlights: [{light}]")
    slots = {(d.member, d.what) for d in window.drains if d.kind == "drainage slot"}
    sashes = window.lights[0].sashes
    rails = {(next(m.tag for m in sash.members if m.tag.endswith("bottom rail")), pane.tag) for sash, pane in zip(sashes, window.panes, strict=True)} if sashes else set()
    assert slots == (rails | {("sill", ", ".join(s.tag for s in sashes))} if sashes else {("sill", "G1")})


def test_a_system_may_leave_rebates_under_sashes_alone():
    window = window_of("frame: {width: 1200, height: 1000}\nlights: [{light: side-hung, hinge: left}]")
    rule = replace(window.system.drainage, rebates=("glazed",))
    other = replace(window, system=replace(window.system, drainage=rule))
    assert {d.member for d in drained(other)[0] if d.kind == "drainage slot"} == {"S1 bottom rail"}


def test_a_slot_with_no_free_place_is_a_finding_that_names_what_is_in_its_way():
    window = window_of("frame: {width: 1200, height: 1000}\nlights: [{light: fixed}]\nfixings: {corner: 150, spacing: 100}")
    rule = replace(window.system.drainage, clear_of=(("fixing", 60.0),))
    _, findings = drained(replace(window, system=replace(window.system, drainage=rule)))
    assert {f.code for f in findings} == {"drainage-in-the-way"}
    assert findings[0].subject == "sill"
    assert "a drainage slot of G1, 60 along its rebate, is 44 from F" in findings[0].message
    assert findings[0].rule == "flush-70: drainage"


def as_yaml(block):
    return json.dumps(job_of(block))   # JSON is YAML


@given(any_window())
@settings(max_examples=60, deadline=None)
def test_slots_of_any_window_keep_clear_or_are_found(block):
    """Measured on the frame's own coordinates, apart from how they were placed: distances from fixings and bars, and gaps."""
    window, = resolve_job(parse_job(as_yaml(block), "job.yaml").job, find_system)
    rule = window.system.drainage
    told = {f.subject for f in window.findings if f.code == "drainage-in-the-way"}
    bars = {bar.tag: bar for bar in window.bars}
    for member in ("sill", *(bar.tag for bar in window.bars if not bar.upright)):
        slots = [d for d in window.drains if d.member == member and d.kind == "drainage slot"]
        ends = [end.x for bar in window.bars for end, met in zip(bar.outer, bar.meets, strict=True) if met == member]
        near = [(p.at.x, 40) for p in window.fixings if p.side == member] + [(x, 50) for x in ends]
        for d in slots if member not in told else ():
            assert all(abs(d.at.x - x) >= clear - 1e-6 for x, clear in near)
        for what in {d.what for d in slots} if member not in told else ():
            places = sorted(d.at.x for d in slots if d.what == what)
            assert all(b - a <= rule.spacing_mm + 1e-6 for a, b in pairwise(places))
    drains = {d.what for d in window.drains if d.kind == "drainage slot"}
    assert {pane.tag for pane in window.panes} <= drains
    assert {sash.tag for sash in window.sashes} <= {tag for what in drains for tag in what.split(", ")}
    assert set(bars) >= {d.member for d in window.drains} - {m.tag for m in window.members} - {m.tag for s in window.sashes for m in s.members}
