from elevations.schedules.machining import machining_rows
from tests.jobs import window_of


def test_two_pieces_of_a_sash_under_one_head_have_names_of_their_own():
    """A level rail between two flanks of the arch: machining by piece laid the right flank's holes on the left one."""
    window = window_of("""
frame: {width: 1764, height: 1080}
head: {arched: {rise: 301}}
transoms: [270, 540, 810]
lights: [{light: fixed}, {light: fixed, sash: dummy}, {light: fixed}, {light: fixed}]
""")
    members = {member.tag: member for member in window.lights[1].sashes[0].members}
    assert sorted(members) == sorted(["S1 bottom rail", "S1 top rail", "S1 left stile", "S1 right stile", "S1 head left", "S1 head right"])
    assert members["S1 head left"].outer[0].x < 100 < 1660 < members["S1 head right"].outer[0].x
    assert {row.piece for row in machining_rows(window)} >= {"W1-S1 head left", "W1-S1 head right"}
