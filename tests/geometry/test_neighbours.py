"""A joined side has no wall: it is screwed into the coupler or post, without packers or foam; worked by hand."""

import json
from dataclasses import replace

import pytest

from elevations.catalogue.load import find_system
from elevations.geometry.fit_fixing import holds
from elevations.geometry.resolve import resolve_job
from elevations.schedules.explain import explain
from elevations.schedules.sundries import sundry_rows
from elevations.spec.load import parse_job
from elevations.spec.workshop import Seal
from tests.geometry.test_joined import a_set, framed, problems_of

WALL = {"material": "brick", "thickness": 215, "frame_at": 60}


def windows_of(way, count=3, **keys):
    job = {
        "glass": {"clear": {"make_up": "4/20/4"}}, "defaults": {"wall": WALL},
        "windows": [{"mark": mark, "lights": [{"light": "fixed"}], **size} for mark, size in framed(*[(1000, 1200)] * count)],
        "joined": a_set(way, count, **keys),
    }
    read = parse_job(json.dumps(job), "job.yaml").job
    return resolve_job(read, find_system)


def test_sides_between_windows_know_what_they_are_joined_to_and_by_what():
    first, middle, last = windows_of("bay", angles=[135, 180])
    assert [(n.side, n.mark, n.joined, n.connector.tag, n.width, n.screw) for n in first.neighbours] == [("right jamb", "W2", "B1", "P1", 40, 65)]
    assert [(n.side, n.mark, n.connector.tag, n.connector.profile) for n in middle.neighbours] == [
        ("left jamb", "W1", "P1", "bay post for 135 degrees"), ("right jamb", "W3", "C1", "coupler")]
    assert [n.side for n in last.neighbours] == ["left jamb"]
    above, below = windows_of("stacked", 2)
    assert ([n.side for n in above.neighbours], [n.side for n in below.neighbours]) == (["sill"], ["head"])


def test_a_joined_jamb_is_screwed_into_the_post_and_the_others_into_the_wall():
    """flush-70: 46 through the frame, screws of 65 into its post for 135 degrees: 19 in it; the wall's side as ever."""
    held = holds(windows_of("bay", angles=[135, 135])[0])
    assert (held["right jamb"].how, held["right jamb"].packer, held["right jamb"].length, held["right jamb"].wall_drill) == ("joint", 0, 65, None)
    assert held["right jamb"].words() == "no wall there: joined by bay post P1 to W2, screws 65: 46 frame + 19 in it; no packers, no foam"
    assert held["left jamb"].how == "screw"
    assert "into brick" in held["left jamb"].words()


def test_a_system_that_does_not_say_which_screws_has_its_supplier_asked():
    window = windows_of("side-by-side", 2)[0]
    held = holds(window)["right jamb"]
    assert held.words().startswith("no wall there: joined by coupler C1 to W2, screws 55: 46 frame + 9 in it")
    silent = replace(window, neighbours=(replace(window.neighbours[0], screw=None),))
    assert "screws as the system's supplier says" in holds(silent)["right jamb"].words()


def test_packers_and_foam_are_counted_at_walls_alone():
    """Between two others a frame of 1000 x 1200 meets the wall at head and sill: 2 x 1 m; alone all round, 2 x 2.2 m."""
    ends, middle = windows_of("side-by-side")[0], windows_of("side-by-side")[1]
    seal = Seal(gap=10, foam_depth=50)

    def counted(window, what):
        return next((row.quantity for row in sundry_rows(window, seal) if row.what == what), None)

    assert counted(middle, "foam") == pytest.approx(2 * 1.0 * 0.010 * 0.050 * 1000)
    assert counted(ends, "foam") == pytest.approx((2 * 1.0 + 1.2) * 0.010 * 0.050 * 1000)
    jambs = sum(point.side.endswith("jamb") for point in middle.fixings)
    assert counted(middle, "frame packer") == len(middle.fixings) - jambs
    fixings = sum(row.quantity for row in sundry_rows(middle, seal) if row.what == "frame fixing")
    assert (fixings, counted(middle, "screw into the coupler")) == (len(middle.fixings) - jambs, jambs)


def test_explain_says_how_a_fixing_in_a_joined_jamb_holds():
    window = windows_of("side-by-side", 2)[0]
    tag = next(point.tag for point in window.fixings if point.side == "right jamb")
    assert any("joined by coupler C1 to W2" in fact for fact in explain(window, "fixing", tag).facts)


def test_an_opening_of_its_own_is_refused_even_beside_a_frame():
    windows = framed((600, 900), (600, 900))
    windows[1][1]["opening"] = {"width": 612, "height": 912, "diagonals": 1098}
    told = problems_of(windows, a_set("side-by-side", 2))
    assert "leave `opening` out" in told["joined-opening", ("joined", 0, "windows", 1)]
