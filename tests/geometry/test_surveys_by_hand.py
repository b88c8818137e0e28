"""Holes that a survey may find, each with its frame worked out by hand from Pythagoras and similar triangles, and nonsense.

White pvc-u loses 10 on each of width and height up to 3 m, coloured 15, and 22 from 3 to 4.5 m: a table of BS 8213-4 from
memory, not seen; at least 5 a side is a trade guide's, read second hand. Corners are written as (x, y) from the bottom left.
"""

from __future__ import annotations

import math

import pytest
from click.testing import CliRunner

from elevations.cli import cli
from tests.jobs import window_of

WHITE = "finish: {outside: RAL 9016}\n"
COLOURED = "finish: {outside: RAL 7016}\n"


def surveyed(corners, widths=None, heights=None):
    """What a tape reads in a hole with those corners, bottom left first and anticlockwise; middles as given, else straight."""
    bl, br, tr, tl = corners
    middle = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ((bl, tl), (br, tr), (bl, br), (tl, tr))]
    width = [math.dist(tl, tr), widths or math.dist(middle[0], middle[1]), math.dist(bl, br)]
    height = [math.dist(bl, tl), heights or math.dist(middle[2], middle[3]), math.dist(br, tr)]
    read = ", ".join(f"{key}: [{', '.join(f'{mm:.4f}' for mm in values)}]" for key, values in (
        ("width", width), ("height", height), ("diagonals", [math.dist(tl, br), math.dist(tr, bl)]),
    ))
    return f"opening: {{{read}, out_of_level: {br[1] - bl[1]:.4f}}}\n"


def fit(text):
    window = window_of(text + "lights: [{light: fixed}]")
    return (window.width.value, window.height.value), {(g.side, g.place): g.mm for g in window.site.fitted.gaps}


SQUARE = [(0, 0), (1200, 0), (1200, 1000), (0, 1000)]


def test_everything_that_comes_off_a_square_hole():
    """Width 1200 - 15 - 20 = 1165. Height 1000 - 15 - 30 sill - 5 packers - 10 allowance - 40 add-on = 900."""
    size, gaps = fit(surveyed(SQUARE) + COLOURED + "sill: {projection: 150, height: 30, packers: 5}\n"
                     "fit: {head_allowance: 10, add_ons: {left: 20, head: 40}}\n")
    assert size == pytest.approx((1165, 900))
    # 7.5 all round, and over the add-on at the head 7.5 + 10.
    assert {round(mm, 3) for (side, _), mm in gaps.items() if side != "head"} == {7.5}
    assert {round(mm, 3) for (side, _), mm in gaps.items() if side == "head"} == {17.5}


def test_jambs_that_lean_alike_take_their_lean_over_the_frames_own_height():
    """12 out of plumb in 1000. The frame is 990 high, and over that height the jambs move by 12 x 990 / 1000 = 11.88:
    1200 - 11.88 - 10 = 1178.12, so 1178 x 990. What is left over, 0.12, is halved: 5.06 where it is tightest."""
    size, gaps = fit(surveyed([(0, 0), (1200, 0), (1212, 1000), (12, 1000)]) + WHITE)
    assert size == pytest.approx((1178, 990))
    assert (gaps["left jamb", "top"], gaps["right jamb", "bottom"]) == pytest.approx((5.06, 5.06), abs=0.002)
    # At the other ends the same lean is in the gap: 5.06 + 11.88.
    assert (gaps["left jamb", "bottom"], gaps["right jamb", "top"]) == pytest.approx((16.94, 16.94), abs=0.002)


def test_a_hole_that_widens_upwards_is_held_at_its_bottom():
    """5 wider at each side at the top. At 5 above the sill it is 1200 + 2 x 5 x 5 / 1000 = 1200.05 wide: 1190.05, so 1190 x 990."""
    size, gaps = fit(surveyed([(0, 0), (1200, 0), (1205, 1000), (-5, 1000)]) + WHITE)
    assert size == pytest.approx((1190, 990))
    # At the top, 995 up: 5 x 0.995 = 4.975 wider than the bottom, 5.025 there.
    assert gaps["left jamb", "bottom"] == pytest.approx(5.025, abs=0.002)
    assert gaps["left jamb", "top"] == pytest.approx(5 + 4.975, abs=0.002)


def test_a_whole_hole_turned_out_of_level():
    """1200 x 1000 turned by t, sin t = 0.006: 7.2 out of level. A level frame w x h touches all four sides where
    w cos t + h sin t = 1200 and w sin t + h cos t = 1000, so w = (1200 cos t - 1000 sin t) / cos 2t = 1194.064
    and h = (1000 cos t - 1200 sin t) / cos 2t = 992.853: with no clearance 1194 x 992."""
    s, c = 0.006, math.sqrt(1 - 0.006**2)
    corners = [(0, 0), (1200 * c, 1200 * s), (1200 * c - 1000 * s, 1200 * s + 1000 * c), (-1000 * s, 1000 * c)]
    size, _ = fit(surveyed(corners) + WHITE + "fit: {clearance: 0}\n")
    assert size == pytest.approx((1194, 992))
    assert ((1200 * c - 1000 * s) / (c * c - s * s), (1000 * c - 1200 * s) / (c * c - s * s)) == pytest.approx((1194.064, 992.853), abs=0.001)


def test_sides_that_bow_inwards_are_held_in_their_middle():
    """Middles 1194 and 996: 3 and 2 of bow on each side. 1194 - 10 = 1184, 996 - 10 = 986; corners have 5 + 3 and 5 + 2."""
    size, gaps = fit(surveyed(SQUARE, widths=1194, heights=996) + WHITE)
    assert size == pytest.approx((1184, 986))
    assert {place: round(gaps["left jamb", place], 1) for place in ("top", "middle", "bottom")} == {"top": 8.0, "middle": 5.0, "bottom": 8.0}
    assert {place: round(gaps["head", place], 1) for place in ("left", "middle", "right")} == {"left": 7.0, "middle": 5.0, "right": 7.0}


def test_a_bow_that_the_lean_of_its_jamb_hides_takes_nothing():
    """Jambs lean 10 to the right in 1000 and bow in by 3. Left, the top holds: 10 x 0.995 = 9.95, and the bow 5 + 3 = 8 does
    not. Right, the bottom holds: 1200 + 10 x 0.005 = 1200.05, and the bow 1205 - 3 does not. 1200.05 - 9.95 - 10 = 1180.1."""
    size, _ = fit(surveyed([(0, 0), (1200, 0), (1210, 1000), (10, 1000)], widths=1194) + WHITE)
    assert size == pytest.approx((1180, 990))


def test_a_bow_outwards_moves_no_size_but_widens_the_gaps_in_the_middle():
    """Middles 8 larger than the ends: the corners still hold the frame, and in the middle 5 + 8 / 2 = 9 is left a side.

    The side runs straight from corner to middle, so 5 up a side of 500 it is 4 x 5 / 500 = 0.04 beyond the corner.
    """
    size, gaps = fit(surveyed(SQUARE, widths=1208, heights=1008) + WHITE)
    assert size == pytest.approx((1190, 990))
    assert {round(mm, 3) for (_, place), mm in gaps.items() if place == "middle"} == {9}
    assert gaps["left jamb", "top"] == pytest.approx(5.04, abs=0.001)
    assert gaps["sill", "left"] == pytest.approx(5 + 4 * 5 / 600, abs=0.001)


def test_what_is_forgiven_of_a_level_frame_is_not_said_to_go_with_a_rise():
    """A sill 3 out of level over 1212: sqrt(1212² - 3²) = 1211.9963, less 10 is 1201.9963: made 1202, and no head has a rise there."""
    diagonals = [math.hypot(1211.9963, 1057), math.hypot(1211.9963, 1060)]   # upright jambs of 1060 and 1057
    window = window_of(f"opening: {{width: 1212, height: [1060, 1058.5, 1057], diagonals: {diagonals}, out_of_level: 3}}\n" + WHITE + "lights: [{light: fixed}]\n")
    last = window.width.terms[-1]
    assert (window.width.value, round(last.amount, 3)) == (pytest.approx(1202), 0.004)
    assert last.label == "rounded up: no tape reads what is missing"


def test_behind_a_check_the_frame_is_larger_than_what_shows():
    """1200 + 2 x 25 = 1250 across; up 1000 + 25 - 5 under it - 30 of sill = 990. Laps 25, under the sill 5."""
    size, gaps = fit(surveyed(SQUARE) + WHITE + "fit: {reveal: {kind: check, lap: 25}}\nsill: {projection: 150, height: 30}\n")
    assert size == pytest.approx((1250, 990))
    assert {round(mm, 3) for (side, _), mm in gaps.items() if side != "sill"} == {-25}
    assert {round(mm, 3) for (side, _), mm in gaps.items() if side == "sill"} == {5}


def test_a_lined_inner_leaf_rounded_to_five():
    """1200 - 2 x 12 - 14 = 1162, so 1160: 8 of gap each side. 1000 - 12 - 40 - 14 = 934, so 930: 14 + 4 halved is 9."""
    size, gaps = fit(surveyed(SQUARE) + WHITE + "fit: {clearance: 14, round_to: 5, add_ons: {head: 40}, reveal: {kind: inner-leaf, lining: 12}}\n")
    assert size == pytest.approx((1160, 930))
    assert (gaps["left jamb", "middle"], gaps["right jamb", "middle"]) == pytest.approx((8, 8))
    assert (gaps["head", "middle"], gaps["sill", "middle"]) == pytest.approx((9, 9))


def test_a_long_dark_frame_loses_more_of_its_length_than_of_its_height():
    """3200 long and coloured: 22 off the width, 15 off the height. 3178 x 1185."""
    size, _ = fit(surveyed([(0, 0), (3200, 0), (3200, 1200), (0, 1200)]) + COLOURED)
    assert size == pytest.approx((3178, 1185))


def test_a_closing_error_is_what_the_second_diagonal_misses_by():
    """A square hole's diagonals are both 1562.05: read as 1562.05 and 1572.05 they are 10 apart, and the shape is still the first's."""
    text = "opening: {width: 1200, height: 1000, diagonals: [1562.05, 1572.05]}\n" + WHITE
    window = window_of(text + "lights: [{light: fixed}]")
    found = next(f for f in window.findings if f.code == "measure-again")
    assert found.value_mm == pytest.approx(10, abs=0.01)
    assert (window.width.value, window.height.value) == pytest.approx((1190, 990))


NONSENSE = {
    "diagonals that no four sides have": ("opening: {width: 1200, height: 1000, diagonals: [2900, 2900]}", "between 200 and 2200", "square corners it would be about 1562"),
    "diagonals of another window": ("opening: {width: 1200, height: 1000, diagonals: [1700, 1400]}", "1 m out of true", "measure them again"),
    "a middle wider than any wall allows": ("opening: {width: [1200, 1290, 1200], height: 1000}", "the middle width 1290 is 90 more", "measure it again"),
    "a frame larger than its opening": (
        "frame: {width: 1204, height: 990}\n  opening: {width: 1200, height: 1000, diagonals: [1562, 1562]}", "does not go into its opening", "leave 'frame' out"),
    "a clearance that leaves nothing": (
        "opening: {width: 260, height: 1000}\n  fit: {clearance: 80}", "leaves a frame of", "what comes off it"),
    "a sill steeper than any": ("opening: {width: 1200, height: 1000, out_of_level: 90}", "steeper", "level"),
    "a frame larger than its arch": (
        "frame: {width: 1190, height: 1215}\n  head: {arched: {rise: 200}}\n  opening: {head: arched, width: 1200, height: [1000, 1200, 1000]}",
        "does not go into its opening", "leave 'frame' out"),
    "an arch with no room for a frame": ("opening: {head: arched, width: 260, height: [260, 300, 260]}\n  fit: {clearance: 75}", "leaves a frame of", "what comes off it"),
    "jambs too short under an arch": ("opening: {head: arched, width: 900, height: [104, 554, 104]}", "jambs of", "at least 100"),
}


@pytest.mark.parametrize(("text", "message", "hint"), NONSENSE.values(), ids=NONSENSE)
@pytest.mark.parametrize("asked", [["draw"], ["fit"]])
def test_nothing_is_drawn_from_nonsense(tmp_path, asked, text, message, hint):
    """Where, what and what would do; exit 1, no file, no traceback."""
    job = tmp_path / "job.yaml"
    job.write_text(f"glass: {{clear: {{make_up: 4/20/4}}}}\nwindows:\n- mark: W1\n  {text}\n  lights: [{{light: fixed}}]\n", "utf-8")
    out = tmp_path / "out"
    done = CliRunner().invoke(cli, [*asked, str(job), "--out", str(out)])
    said = " ".join(done.output.split())
    assert done.exit_code == 1, said
    assert message in said
    assert hint in said
    assert "job.yaml:4:" in said or "job.yaml:5:" in said or "job.yaml:6:" in said
    assert "Traceback" not in said
    assert not out.exists() or not list(out.iterdir())
