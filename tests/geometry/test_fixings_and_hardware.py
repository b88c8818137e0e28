"""Fixings keep clear of the hardware that machining lists, and of what is taken where a system lists none. Places are invented.

flush-70: a sash begins 43 inside the frame; weld allowance 3; fixings 30 from keeps, hinges and other hardware.
"""

from dataclasses import replace

from elevations.geometry.fit_fixing import fixing_findings
from elevations.geometry.fit_obstacles import frame_edges
from elevations.geometry.hardware_places import hardware_places
from elevations.spec.model import Fixings
from tests.jobs import window_of

TOP_HUNG = "frame: {width: 900, height: 450}\nlights: [{light: top-hung}]\n"


def clashes(window):
    return [(f.subject, f.value_mm, f.hint) for f in fixing_findings(window, Fixings()) if f.code == "fixing-clash"]


def test_a_fixing_under_a_stay_is_told_with_a_place_to_go():
    # a sash 364 high takes the stay whose middle is 120 from the hinge edge: 43 + 120 = 163 down both jambs; 163 + 30 is free
    assert clashes(window_of(TOP_HUNG)) == [(jamb, 150, "move it to 193 from the top") for jamb in ("left jamb", "right jamb")]


def test_a_system_that_asks_for_no_distance_from_stays_has_none_told():
    window = window_of(TOP_HUNG)
    asked = tuple(pair for pair in window.system.frame_fixings.keep_clear if pair[0] != "hardware")
    assert clashes(replace(window, system=replace(window.system, frame_fixings=replace(window.system.frame_fixings, keep_clear=asked)))) == []


def test_a_keep_in_a_head_is_in_the_way_of_its_fixing():
    # 1200 wide, a bottom-hung sash of 1114: keeps 150 from its ends and, 814 apart being more than 700, one in the middle, at 600
    window = window_of("frame: {width: 1200, height: 600}\nlights: [{light: bottom-hung}]\n")
    assert ("head", 600, "move it to 570 from the left") in clashes(window)


def test_where_the_hardware_says_its_places_no_keep_is_taken_at_the_handle():
    # a sash of 964: the espagnolette's keeps 150 from its ends, 193 and 857 down; the fixing in the middle, 525, is across from the handle
    window = window_of("frame: {width: 700, height: 1050}\nlights: [{light: side-hung, hinge: left}]\n")
    assert [p.along.value for p in window.fixings if p.side == "right jamb"] == [150, 525, 900]
    assert clashes(window) == []
    without = replace(window, system=replace(window.system, hardware=()))
    assert ("right jamb", 525, "move it to 495 from the top") in clashes(without)


def test_every_place_of_machining_near_a_fixing_is_told():
    found = 0
    for light in ("light: side-hung, hinge: right", "light: top-hung", "light: bottom-hung", "light: tilt-and-turn, hinge: left"):
        for height in (500, 700, 1290, 1390):
            window = window_of(f"frame: {{width: 780, height: {height}}}\nlights: [{{{light}}}]\n")
            edges = {edge.tag: edge for edge in frame_edges(window)}
            near = {
                (point.side, point.along.value) for place in hardware_places(window) if place.member.tag in edges for point in window.fixings
                if point.side == place.member.tag and abs(edges[point.side].along(place.at) - point.along.value) < 30
            }
            assert near <= {(side, along) for side, along, _ in clashes(window)}
            found += len(near)
    assert found == 4    # keeps in the middle of the lock jamb at 1290 and 1390; stays of the top-hung sash 414 high on both jambs
