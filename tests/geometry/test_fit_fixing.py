"""How each side is held, figures from the system, and fixings in the way of hardware.

The rules: NHBC Standards 6.7.11 (read: nhbc-standards.co.uk): 150 to 250 from the corner, at most 600 apart, 150 clear of a
bar's centre line, two on each jamb and the sill, all four sides wherever practical.
"""

import pytest

from elevations.catalogue.load import find_system
from elevations.geometry.fit_fixing import holds, packer_at
from tests.geometry.own_system import window_in
from tests.jobs import window_of

SIZE = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]\n"
BRICK = "wall: {material: brick, thickness: 215, frame_at: 90}\n"

@pytest.fixture
def in_own_system(tmp_path):
    """A window of a system whose `frame_fixings` are given."""
    return lambda fixings, text, defaults="": window_in(tmp_path, f"frame_fixings: {fixings}\n", text, defaults)


def places(window, side):
    return [round(point.along.value, 3) for point in window.fixings if point.side == side]


def codes(window):
    return [finding.code for finding in window.findings]


def test_a_screw_is_as_long_as_frame_packer_and_embedment():
    """46 through the frame, 5 of packer, 50 in brick = 101: the next length is 102. Embedments: common practice, no source."""
    hold = holds(window_of(SIZE + BRICK + FIXED))["left jamb"]
    assert (hold.needed, hold.length, hold.into) == (101, 102, "brick")
    assert "46 frame + 5 packer + 50 embedment = 101" in hold.words()


def test_the_packer_is_the_widest_gap_of_its_side():
    window = window_of("opening: {width: 1216, height: 1066, diagonals: [1617.1, 1617.1]}\n" + SIZE + BRICK + FIXED)
    assert holds(window)["left jamb"].packer == 8
    assert holds(window)["left jamb"].needed == 46 + 8 + 50


WHITE = "finish: {outside: RAL 9016}\n"
BOWED = "opening: {width: [1200, 1230, 1200], height: [1000, 1030, 1000], diagonals: [1562.05, 1562.05]}\n"


def test_walls_that_bow_outwards_are_packed_by_the_gap_at_each_fixing():
    """Frame 1190 x 990, 20 of gap in the middle of each side: 46 + 20 + 50 = 116, so the next screw, 122.

    150 up of 990 the gap is 5.15 + (20 - 5.15) x 150 / 495 = 9.65, a packer of 10.
    """
    window = window_of(WHITE + BRICK + BOWED + FIXED)
    found = holds(window)
    assert all(hold.sum_words() == "46 frame + 20 packer (gap up to 20.0) + 50 embedment = 116" for side, hold in found.items() if side != "head")
    assert found["left jamb"].length == 122
    assert [packer_at(window, point) for point in window.fixings if point.side == "left jamb"] == [10, 20, 10]


PACKED = "opening: {width: [1210, 1198, 1212], height: [1012, 1001, 1010], diagonals: [1570, 1584]}\n"


def test_a_packer_as_set_never_hides_a_wider_gap():
    """Gaps up to 17.1 at the left jamb, and a packer of 17 that the screw squeezes by a tenth: 46 + 17 + 50 = 113, whatever the job says of packers; and it is told."""
    window = window_of(WHITE + BRICK + PACKED + FIXED + "fixings: {screw: {packer: 3}}\n")
    assert holds(window)["left jamb"].sum_words() == "46 frame + 17 packer (gap up to 17.1; 3 asked for) + 50 embedment = 113"
    assert holds(window)["left jamb"].length == 122
    (said,) = [found for found in window.findings if found.code == "packer-short"]
    assert "packers of 3 are asked for, and the gap is up to 17.1" in said.message
    assert "packer-short" in codes(window_of(WHITE + BRICK + PACKED + FIXED + "fixings: {screw: {packer: 0}}\n"))


def test_a_packer_thicker_than_its_gap_is_told_and_reckoned_with():
    """Gaps of 5 all round, packers of 12: 46 + 12 + 50 = 108, the longer way, and a finding."""
    square = "opening: {width: 1200, height: 1000, diagonals: [1562.05, 1562.05]}\n"
    window = window_of(WHITE + BRICK + square + FIXED + "fixings: {screw: {packer: 12}}\n")
    assert holds(window)["left jamb"].needed == 108
    assert "packer-thick" in codes(window)
    assert not {"packer-thick", "packer-short"} & set(codes(window_of(WHITE + BRICK + square + FIXED + "fixings: {screw: {packer: 5}}\n")))
    assert not {"packer-thick", "packer-short"} & set(codes(window_of(SIZE + BRICK + FIXED + "fixings: {screw: {packer: 12}}\n")))   # nothing surveyed


def test_add_on_and_packer_are_terms_of_their_own_and_the_gap_is_the_reports():
    """Head: 1000 - 940 frame - 40 add-on leaves 20, of it 8 head allowance; best place gives head 8 + 6 and sill 6."""
    window = window_of(
        "opening: {width: 1200, height: 1000, diagonals: [1562.05, 1562.05]}\nframe: {width: 1187, height: 940}\n"
        "fit: {head_allowance: 8, add_ons: {head: 40}}\n" + BRICK + FIXED
    )
    found = holds(window)
    assert found["head"].sum_words() == "46 frame + 40 add-on + 14 packer (gap up to 14.0) + 40 embedment = 140"
    assert (found["head"].needed, found["head"].length) == (46 + 40 + 14 + 40, 152)
    # 1200 - 1187 = 13, half each side: 6.5, which takes 7 of packer.
    assert "46 frame + 7 packer (gap up to 6.5) + 50 embedment = 103" in found["left jamb"].words()
    widest = {side: max(gap.mm for gap in window.site.fitted.gaps if gap.side == side) for side in found}
    assert all(hold.gap == widest[side] for side, hold in found.items())


def test_a_jobs_own_screw_goes_before_the_table():
    window = window_of(SIZE + BRICK + "fixings: {screw: {embedment: 70, packer: 6, wall_drill: 8}}\n" + FIXED)
    hold = holds(window)["right jamb"]
    assert (hold.needed, hold.length, hold.wall_drill) == (46 + 6 + 70, 122, 8)


def test_a_lintel_that_bars_drilling_asks_for_brackets():
    wall = "wall: {material: brick, thickness: 215, frame_at: 90, lintel: {kind: steel, drilling: false}}\n"
    found = holds(window_of(SIZE + wall + FIXED))
    assert [found[side].how for side in ("left jamb", "head", "right jamb", "sill")] == ["screw", "bracket", "screw", "screw"]
    assert found["head"].landing.fails == "the lintel may not be drilled"
    assert "not screws through the frame" in found["head"].words()


def test_a_side_without_fixings_is_never_left_to_foam():
    """A trade installation guide, read second hand: foam is never the sole fixing."""
    window = window_of(SIZE + BRICK + "fixings: {sides: [left, right, sill]}\n" + FIXED)
    found = next(f for f in window.findings if f.code == "side-unfixed")
    assert found.subject == "head"
    assert "foam" in found.message


def test_a_gap_no_screw_crosses_asks_for_brackets():
    window = window_of(SIZE + BRICK + "fixings: {screw: {embedment: 190, packer: 60}}\n" + FIXED)
    assert "screw-too-short" in codes(window)


def test_coloured_frames_say_that_they_carry_steel():
    white, coloured = (window_of(SIZE + f"finish: {{outside: {code}}}\n" + FIXED) for code in ("RAL 9016", "RAL 7016"))
    assert not holds(white)["head"].steel
    assert holds(coloured)["head"].steel


def test_a_systems_figures_stand_where_the_job_gives_none(in_own_system):
    figures = "{corner: 200, spacing: 500, clear_of_bars: 120}"
    window = in_own_system(figures, SIZE + FIXED)
    assert places(window, "sill") == [200, 600, 1000]
    assert window.fixings[0].along.terms[0].source.ref == "frame_fixings.corner"
    assert places(in_own_system(figures, SIZE + "fixings: {corner: 150}\n" + FIXED), "sill")[0] == 150
    assert places(in_own_system(figures, SIZE + FIXED, ", fixings: {corner: 180}"), "sill")[0] == 180


def test_two_fixings_a_side_on_a_small_frame():
    """At 150 from top and bottom: common practice, no source."""
    window = window_of("frame: {width: 600, height: 600}\n" + FIXED)
    assert [places(window, side) for side in ("left jamb", "right jamb", "sill")] == [[150, 450]] * 3


@pytest.mark.parametrize(("at", "clash"), [(160, True), (250, True), (299, True), (300, False), (420, False)])
def test_a_transom_between_100_and_300_from_a_corner_clashes_with_the_corner_rule(at, clash):
    """Computed from NHBC 6.7.11 with the corner distance at 150: at 300 that place still keeps 150 from the centre line."""
    window = window_of(f"frame: {{width: 1200, height: 1400}}\ntransoms: [{at}]\nlights: [{{light: fixed}}, {{light: fixed}}]\n")
    assert any(code in ("fixing-near-bar", "fixing-moved") for code in codes(window)) == clash


CLEAR = "{hinges_from_end: 150, keep_clear: {hinge: 80, keep: 60, vent: 30, corner: 100}}"
SIDE_HUNG = "lights: [{light: side-hung, hinge: left}]\n"


def test_a_fixing_at_a_hinge_is_told_with_a_place_to_go(in_own_system):
    """The hinge's middle is 43 + 150 = 193 from the head, so 113 to 273 is barred; the nearest free place within 250 is none."""
    window = in_own_system(CLEAR, SIZE + SIDE_HUNG)
    clashes = [f for f in window.findings if f.code == "fixing-clash" and f.subject == "left jamb"]
    assert [f.value_mm for f in clashes] == [150, 900]
    assert "no place near it is free" in clashes[0].hint
    moved = in_own_system(CLEAR.replace("150,", "250,").replace("hinge: 80", "hinge: 150"), SIZE + SIDE_HUNG)
    # The hinge's middle is now 293, so 143 to 443 is barred.
    assert [f.value_mm for f in moved.findings if f.code == "fixing-clash" and f.subject == "left jamb"] == [150, 900]


def test_a_proposed_place_is_free_and_keeps_the_rules(in_own_system):
    """Hinge middle at 43 + 80 = 123: 63 to 183 barred, so the fixing goes from 150 to 183."""
    clear = "{hinges_from_end: 80, keep_clear: {hinge: 60}}"
    window = in_own_system(clear, SIZE + SIDE_HUNG)
    found = [f for f in window.findings if f.code == "fixing-clash"]
    assert [(f.subject, f.value_mm, f.hint) for f in found] == [
        ("left jamb", 150, "move it to 183 from the top"), ("left jamb", 900, "move it to 867 from the top"),
    ]


def test_no_proposed_place_breaks_the_rule_beside_it(in_own_system):
    """Asked for at 90, barred up to 120: to 150, the least of NHBC Standards 6.7.11 (read), and not to 120. Far end 1050 - 150 = 900."""
    window = in_own_system("{keep_clear: {corner: 120}}", SIZE + FIXED + "fixings: {corner: 90}\n")
    hints = [f.hint for f in window.findings if f.code == "fixing-clash" and f.subject == "left jamb"]
    assert hints == ["move it to 150 from the top", "move it to 900 from the top"]


def test_keeps_vents_and_corner_reinforcement_are_kept_clear(in_own_system):
    text = "frame: {width: 1200, height: 1350}\nlights: [{light: side-hung, hinge: left, handle_height: 632, vent: 4000}]\n"
    window = in_own_system("{keep_clear: {keep: 60, vent: 30, corner: 160}}", text)
    said = {(f.subject, f.value_mm): f.message for f in window.findings if f.code == "fixing-clash"}
    # Handle 632 above the sash's bottom, the frame's bottom 43 below that: 675 up, the middle of 1350, where a fixing is.
    assert "the keep of light 1" in said["right jamb", 675]
    assert "the vent over light 1" in said["head", 600]
    assert "the corner's reinforcement" in said["sill", 150]


def test_without_figures_no_clash_is_claimed(in_own_system):
    assert "fixing-clash" not in codes(in_own_system("{corner: 150}", SIZE + SIDE_HUNG))


def test_of_a_pair_only_the_sash_beside_a_jamb_has_hardware_there(in_own_system):
    """Both sashes lock in the middle, where no frame is: neither jamb has a keep, each has its own sash's hinges."""
    text = "frame: {width: 1400, height: 1300}\nlights: [{light: side-hung-pair, leads: left}]\n"
    window = in_own_system("{hinges_from_end: 150, keep_clear: {hinge: 80, keep: 500}}\npair: {gap: 8, sight: 60}", text)
    said = [f.message for f in window.findings if f.code == "fixing-clash"]
    assert any("a hinge" in text for text in said)
    assert not [text for text in said if "keep" in text]


@pytest.mark.parametrize("name", ["flush-70", "lipped-70", "pivot-68", "slider-112"])
def test_every_built_in_system_says_what_its_fixings_keep_clear_of(name):
    """Invented figures, as all of these systems; a fixing 150 from the corner (NHBC Standards 6.7.11, read) is clear of their corners."""
    figures = find_system(name).frame_fixings
    assert figures.clear_of("corner") is not None
    assert figures.clear_of("corner") <= 150
    assert figures.clear_of("keep") is not None


def test_an_ordinary_casement_of_a_built_in_system_has_no_clash():
    """Sash 43 in, 964 high, its keeps 150 from its ends: 193 and 857 from the frame's top, 43 from the fixings at 150 and 900, 30 asked."""
    window = window_of(SIZE + SIDE_HUNG)
    assert [p.along.value for p in window.fixings if p.side == "right jamb"] == [150, 525, 900]
    assert [f for f in window.findings if f.code == "fixing-clash"] == []


def test_a_slip_in_the_systems_figures_is_told(in_own_system):
    from elevations.errors import SpecError

    with pytest.raises(SpecError) as caught:
        in_own_system("{cornr: 150, keep_clear: {hinge: x}}", SIZE + FIXED)
    assert [p.code for p in caught.value.problems] == ["unknown-key", "not-a-number"]
