"""Where fixings land in a wall, what is said where nothing holds, and how far a frame stands across a cavity.

Sums are worked by hand beside each check. The wall: brick 103 | cavity 100 | block 100 | plaster 13; the frame 70 deep,
its screws in the middle, 35 from its outer face.
"""

import pytest

from elevations.catalogue.anchors import anchors
from elevations.geometry.fit_fixing import holds
from elevations.geometry.leaves import first_hold, leaf_at, leaves
from elevations.spec.site import Wall
from tests.jobs import window_of

SIZE = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]\n"
SILL = "sill: {projection: 200}\n"


def cavity(frame_at, more="", rest=""):
    wall = f"wall: {{material: brick, thickness: 103, cavity: 100, inner: 100, frame_at: {frame_at}{more}}}\n"
    return window_of(SIZE + wall + rest + FIXED)


def found(window, code):
    return [f for f in window.findings if f.code == code]


@pytest.mark.parametrize(("frame_at", "said"), [
    (43, None),                               # 43 + 35 = 78 = 103 - 25
    (43.5, "less than 25 from the cavity"), (67.9, "less than 25 from the cavity"),
    (68.5, "in the cavity"), (167.5, "in the cavity"),
    (168.5, "less than 25 from the cavity"), (192.5, "less than 25 from the cavity"),
    (193, None),                              # 193 + 35 = 228 = 203 + 25
])
def test_a_screw_keeps_its_distance_from_the_edge_of_its_leaf(frame_at, said):
    """25 from a leaf's edge: common practice, no source."""
    told = [f for f in found(cavity(frame_at), "fixing-in-cavity") if "left jamb" in f.subject]
    assert [said in f.message for f in told] == ([True] if said else [])
    assert not told or "screws through the middle of the frame" in told[0].message


@pytest.mark.parametrize(("edge", "told"), [(10, 0), (15, 0), (16, 1), (40, 1)])
def test_the_edge_distance_is_a_setting(edge, told):
    """Frame at 53: the screw is at 88, 15 from the cavity."""
    assert len(found(cavity(53, rest=f"fixings: {{screw: {{edge: {edge}}}}}\n"), "fixing-in-cavity")) == told


def test_a_screw_near_the_face_of_a_solid_wall_is_told():
    """The frame stands out of the wall: 215 of brick from v = -205 on, so that its screws at 35 are past the wall's 10."""
    window = window_of(SIZE + "wall: {material: brick, thickness: 215, plaster: 0, frame_at: 205}\n" + FIXED)
    (told,) = found(window, "fixing-off-wall")
    assert "outside the wall" in told.message
    assert "155" in told.hint   # 215 - 25 - 35
    near = window_of(SIZE + "wall: {material: brick, thickness: 215, plaster: 0, frame_at: 160}\n" + FIXED)
    assert "less than 25 from the edge of the wall" in found(near, "fixing-off-wall")[0].message


def test_a_steel_lintel_takes_a_screw_nearer_to_its_edge_than_brick():
    """At 50: 85 is 18 from the cavity: too near in brick (25), not in steel (10); common practice, no source."""
    (told,) = found(cavity(50, ", lintel: {kind: steel}"), "fixing-in-cavity")
    assert told.subject == "left jamb, right jamb, sill"


@pytest.mark.parametrize(("reach", "holds_at"), [(117, None), (118, 188), (150, 188)])
def test_a_sill_bracket_holds_as_soon_as_it_reaches_the_inner_leaf(reach, holds_at):
    """Frame at 40: its inner face is at 110, the inner leaf takes a screw from 203 + 25 = 228 on: 118 further in, 188 from the frame's outer face."""
    window = cavity(40, rest=SILL + f"fixings: {{bracket: {{reach: {reach}}}}}\n")
    landing = holds(window)["sill"].landing
    assert landing.at == holds_at
    told = [f for f in found(window, "bracket-holds-nothing") if f.subject == "sill"]
    assert bool(told) == (holds_at is None)
    if told:
        assert "holds only from 118 on" in told[0].message
        assert "straps that reach 118, into the inner leaf" in told[0].hint
        assert told[0].limit_mm == 118
    else:
        assert (holds(window)["sill"].into, landing.leaf.name) == ("block", "inner leaf")


def test_what_a_finding_proposes_does_hold():
    """The frame's places and the strap's length, taken at their word: none of them is told again."""
    bad = found(cavity(40, rest=SILL), "bracket-holds-nothing")[0]
    assert "set the frame 98 to 183 from the face" in bad.hint   # 228 - 70 - 60; 278 - 70 - 25
    for at, told in ((97, 1), (98, 0), (183, 0), (184, 1)):
        assert len(found(cavity(at, rest=SILL), "bracket-holds-nothing")) == told, at


def test_brackets_asked_for_at_a_side_take_the_place_of_its_screws():
    window = cavity(65, rest="fixings: {bracket: {sides: [left, head], reach: 93}}\n")
    held = holds(window)
    assert {side: hold.how for side, hold in held.items()} == {"left jamb": "bracket", "head": "bracket", "right jamb": "screw", "sill": "screw"}
    assert held["left jamb"].landing.reach == 93   # 228 - 65 - 70
    assert found(window, "fixing-in-cavity")[0].subject == "right jamb, sill"


def test_under_a_lintel_that_bars_drilling_no_bracket_holds():
    wall = ", lintel: {kind: concrete, drilling: false, barred_by: prestressed wires}"
    told = [f for f in found(cavity(40, wall), "bracket-holds-nothing") if f.subject == "head"]
    assert "the lintel may not be drilled (prestressed wires)" in told[0].message
    assert "foam alone never does" in told[0].hint


def test_a_lintel_that_is_not_described_is_said_to_be_assumed():
    """Steel over a cavity, concrete over a solid wall: common practice, no source."""
    held = holds(cavity(40))["head"]
    assert held.into == "steel"
    assert "(taken as steel: not given)" in held.words()
    solid = holds(window_of(SIZE + "wall: {material: brick, thickness: 215, frame_at: 60}\n" + FIXED))["head"]
    assert solid.into == "concrete"
    assert "(taken as concrete: not given)" in solid.words()
    assert "not given" not in holds(cavity(40, ", lintel: {kind: timber}"))["head"].words()


def test_a_frame_in_the_inner_leaf_is_held_by_that_leafs_material():
    for material in ("block", "timber"):
        held = holds(cavity(205, f", inner_material: {material}"))["left jamb"]
        assert (held.into, held.embedment) == (material, anchors().rows[material].embedment)


@pytest.mark.parametrize(("frame_at", "across"), [(40, 7), (62, 29), (63, None), (120, None), (173, None), (174, 29), (210, 0)])
def test_a_frame_stands_30_across_the_cavity(frame_at, across):
    """30: a timber window survey manual, read second hand (regulations.md, 1). 62 + 70 - 103 = 29; 203 - 174 = 29."""
    told = found(cavity(frame_at), "frame-off-closer")
    assert [f.value_mm for f in told] == ([] if across is None else [across])
    if told:
        assert "63 to 173 from the face" in told[0].hint


def test_the_length_across_the_cavity_is_a_setting_and_a_frame_in_line_with_the_inner_leaf_is_past_it():
    assert found(cavity(62, ", cavity_overlap: 29"), "frame-off-closer") == []
    assert found(cavity(0, ", cavity_overlap: 0"), "frame-off-closer") == []
    narrow = "wall: {material: brick, thickness: 103, cavity: 20, inner: 100, frame_at: FACE}\n"
    across = {at: found(window_of(SIZE + narrow.replace("FACE", at) + FIXED), "frame-off-closer") for at in ("60", "40")}
    assert across["60"] == []                                  # 60 + 70 = 130: across all of a cavity of 20
    assert [f.limit_mm for f in across["40"]] == [20]          # 40 + 70 - 103 = 7 of it
    assert found(cavity(205, rest="fit: {reveal: {kind: inner-leaf}}\n"), "frame-off-closer") == []
    assert found(window_of(SIZE + "wall: {material: brick, thickness: 215, frame_at: 10}\n" + FIXED), "frame-off-closer") == []


@pytest.mark.parametrize("parts", [(103, 100, 100, 0, 13), (215, 0, 0, 20, 13), (103, 75, 140, 15, 0), (50, 50, 60, 0, 0)])
@pytest.mark.parametrize("edge", [0, 10, 25])
def test_leaves_against_walking_through_the_wall(parts, edge):
    """Half a millimetre at a time: a place holds if all of it within the edge distance is masonry of one leaf."""
    thickness, gap, inner, render, plaster = parts
    wall = Wall(material="brick", thickness=thickness, cavity=gap, inner=inner, render=render, plaster=plaster, frame_at=30)
    solid = [(render - 30, render - 30 + thickness), *([(render - 30 + thickness + gap, render - 30 + thickness + gap + inner)] if gap else [])]

    def holds_at(v):
        return any(low <= v - edge and v + edge <= high for low, high in solid)

    parts_found = leaves(wall, "left jamb")
    steps = [n / 2 for n in range(-120, 900)]
    assert [leaf_at(parts_found, v, lambda _: edge) is not None for v in steps] == [holds_at(v) for v in steps]
    for low in range(0, 300, 7):
        first = next((v for v in steps if v >= low and holds_at(v)), None)
        held = first_hold(parts_found, low, 440.0, lambda _: edge)
        assert (None if held is None else held[1]) == first


def test_how_a_window_is_held_counts_without_a_wall_too():
    """Nothing else is said of its place: the drill and the brackets that the job asks for are still its own."""
    held = holds(window_of(SIZE + "fixings: {screw: {frame_drill: 8}, bracket: {sides: [left]}}\n" + FIXED))
    assert {side: hold.how for side, hold in held.items()} == {"left jamb": "bracket", "head": "screw", "right jamb": "screw", "sill": "screw"}
    assert {hold.frame_drill for hold in held.values()} == {8}
    assert "into the wall beside it" in held["left jamb"].words()


LEVEL_900 = "opening: {width: [900, 899, 900], height: [1000, 999, 1000], diagonals: [1345, 1345.5]}\n"


def under(lintel, rest=""):
    return window_of(LEVEL_900 + f"wall: {{material: brick, thickness: 215, frame_at: 60, lintel: {{{lintel}}}}}\n" + rest + FIXED)


@pytest.mark.parametrize(("lintel", "least"), [("kind: stone", 85), ("kind: timber", 65), ("kind: concrete", 65), ("kind: brick", 75)])
def test_a_lintel_is_as_high_as_its_screw_is_deep_and_an_edges_distance_more(lintel, least):
    """60 + 25 in stone, 40 + 25 in timber and concrete, 50 + 25 in brick: common practice, no source."""
    low, high = (under(f"{lintel}, height: {height}") for height in (least - 1, least))
    (told,) = found(low, "lintel-too-low")
    assert (told.subject, told.value_mm, told.limit_mm) == ("head", least - 25, least - 26)
    assert found(high, "lintel-too-low") == []
    assert "nothing holds" in holds(low)["head"].words()
    assert holds(high)["head"].landing.leaf.name == "lintel"


def test_a_low_lintel_says_what_would_do_and_that_does():
    (told,) = found(under("kind: stone, height: 50"), "lintel-too-low")
    assert "60 deep in a stone lintel 50 high, which needs 25 left above them" in told.message
    assert "embedment: 25" in told.hint
    shallow = under("kind: stone, height: 50", "fixings: {screw: {embedment: 25}}\n")
    assert found(shallow, "lintel-too-low") == []


def test_brackets_under_a_low_lintel_hold_no_more_than_screws():
    window = under("kind: stone, height: 50", "fixings: {bracket: {sides: [head]}}\n")
    assert [f.subject for f in found(window, "lintel-too-low")] == ["head"]
    assert "their screws would be 60 deep" in holds(window)["head"].words()


def test_a_steel_lintel_is_a_plate_that_its_screws_are_made_to_go_through():
    assert found(under("kind: steel, height: 50"), "lintel-too-low") == []


def test_a_screw_that_comes_too_long_for_its_lintel_is_told():
    """46 + 5 + 40 = 91 is bought as 92, which goes 41 into concrete that takes 65 - 25 = 40; at 66 it takes 41."""
    lintel = "wall: {{material: brick, thickness: 215, frame_at: 60, lintel: {{kind: concrete, height: {}}}}}\n"
    low, high = (window_of(SIZE + lintel.format(height) + FIXED) for height in (65, 66))
    assert (holds(low)["head"].length, holds(low)["head"].needed) == (92, 91)
    (told,) = found(low, "fixing-through-lintel")
    assert (told.value_mm, told.limit_mm) == (41, 40)
    assert "order screws of 91, or" in told.hint
    assert found(high, "fixing-through-lintel") == []


def test_where_the_gap_over_the_head_narrows_its_screws_go_deeper():
    """The screws of a side are all as long as its widest gap wants, and go deepest at its narrowest."""
    text = "frame: {width: 880, height: 965}\nopening: {width: 900, height: [1000, 995, 990], diagonals: [1338.1, 1345.4]}\n"
    wall = "wall: {material: brick, thickness: 215, frame_at: 60, lintel: {kind: concrete, height: 65}}\n"
    window = window_of(text + wall + FIXED)
    gaps = [gap.mm for gap in window.site.fitted.gaps if gap.side == "head"]
    (told,) = found(window, "fixing-through-lintel")
    assert told.value_mm == pytest.approx(holds(window)["head"].length - 46 - min(gaps))
    assert max(gaps) - min(gaps) > 5
