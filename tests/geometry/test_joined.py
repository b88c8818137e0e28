"""Joined frames: developed sizes by hand, and the true plan against complex numbers and shapely, which know nothing of it."""

import cmath
import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.geometry.joined import resolve_joined, with_add_ons
from elevations.geometry.resolve import resolve_job
from elevations.spec.load import parse_job

DEPTH, COUPLER = 70, 20
FACE = {90: 80, 120: 52, 135: 40, 150: 32}
"""Of flush-70's bay posts, mm, as its file gives them."""


def sets_of(windows, sets, system="flush-70"):
    """The resolved sets of a job of windows given as (mark, keys) and sets."""
    job = {
        "glass": {"clear": {"make_up": "4/20/4"}}, "defaults": {"system": system},
        "windows": [{"mark": mark, "lights": [{"light": "fixed"}], **keys} for mark, keys in windows], "joined": sets,
    }
    read = parse_job(json.dumps(job), "job.yaml").job
    made = resolve_job(read, find_system)
    return resolve_joined(read, {window.mark: window for window in made})


def framed(*sizes, **more):
    return [(f"W{n}", {"frame": {"width": width, "height": height}, **more}) for n, (width, height) in enumerate(sizes, 1)]


def a_set(way, count, **keys):
    return [{"mark": "B1", "way": way, "windows": [f"W{n}" for n in range(1, count + 1)], **keys}]


def bay_of(widths, angles, system="flush-70"):
    (made,) = sets_of(framed(*((width, 1200) for width in widths)), a_set("bay", len(widths), angles=angles), system)
    return made


def problems_of(windows, sets, system="flush-70"):
    with pytest.raises(SpecError) as caught:
        sets_of(windows, sets, system)
    return {(p.code, p.path): f"{p.message} | {p.hint}" for p in caught.value.problems}


def test_frames_side_by_side_measure_their_widths_and_couplers():
    (row,) = sets_of(framed((600, 1050), (1200, 1050), (600, 1050)), a_set("side-by-side", 3))
    assert row.width.value == 600 + 20 + 1200 + 20 + 600 == 2440
    assert row.height.value == 1050
    assert [facet.x for facet in row.facets] == [0, 620, 1840]
    assert [(joint.tag, joint.profile, joint.length.value) for joint in row.joints] == [("C1", "coupler", 1050), ("C2", "coupler", 1050)]
    assert row.plan.width.value == 2440
    assert row.plan.projection.value == row.plan.inner_projection.value == 0


def test_stacked_frames_measure_their_heights_and_couplers_from_the_top():
    (stack,) = sets_of(framed((900, 500), (900, 1350)), a_set("stacked", 2))
    assert stack.height.value == 500 + 20 + 1350 == 1870
    assert stack.width.value == 900
    assert [facet.y for facet in stack.facets] == [1370, 0]     # 1870 - 500; 1870 - 500 - 20 - 1350
    assert [joint.length.value for joint in stack.joints] == [900]
    assert stack.plan is None


def test_a_canted_bay_measures_by_hand():
    # facets 600, 1200, 600 at 135: each side facet stands at 45 degrees to the wall; a post adds 40 to each facet it joins
    bay = bay_of([600, 1200, 600], [135, 135])
    assert bay.width.value == 600 + 2 * 40 + 1200 + 2 * 40 + 600 == 2560
    root = math.sqrt(0.5)
    plan = bay.plan
    assert plan.width.value == pytest.approx(2 * 640 * root + 1280)          # 2185.1
    assert plan.projection.value == pytest.approx(640 * root)                # 452.5
    # the inner face: each end lies 70 further in, square to its facet, so 70 x sin 45 nearer the middle and 70 x cos 45 deeper;
    # the front lies 70 behind the outer one
    assert plan.inner_width.value == pytest.approx(2 * 640 * root + 1280 - 2 * 70 * root)
    assert plan.inner_projection.value == pytest.approx(640 * root + 70 * root - 70)
    assert plan.turns == pytest.approx((-45, 0, 45))


def test_a_square_bay_measures_by_hand():
    # at 90 degrees the sides stand square to the wall: 500 + 80 out, 80 + 1500 + 80 across
    plan = bay_of([500, 1500, 500], [90, 90]).plan
    assert plan.width.value == pytest.approx(1660)
    assert plan.projection.value == pytest.approx(580)
    assert plan.inner_width.value == pytest.approx(1660 - 2 * 70)
    assert plan.inner_projection.value == pytest.approx(580 - 70)


def test_two_frames_of_a_bay_in_one_plane_have_a_coupler_between_them():
    bay = bay_of([600, 800, 800, 600], [135, 180, 135])
    assert [joint.tag for joint in bay.joints] == ["P1", "C1", "P2"]
    assert bay.width.value == 600 + 80 + 800 + 20 + 800 + 80 + 600
    assert bay.plan.width.value == pytest.approx(2 * 640 * math.sqrt(0.5) + 40 + 800 + 20 + 800 + 40)
    assert len(bay.plan.outer) == 4


def turtle(widths, angles, faces):
    """The outer face's corners by complex numbers: every step along a direction, turned at each corner, then laid on the real axis."""
    places, step = [0j], 1 + 0j
    sides = list(widths)
    for i, face in enumerate(faces):
        sides[i] += face
        sides[i + 1] += face
    for side, angle in zip(sides, [*angles, 180], strict=True):
        places.append(places[-1] + side * step)
        step *= cmath.exp(1j * math.radians(180 - angle))
    return [place * abs(places[-1]) / places[-1] for place in places]


POSTS = sorted(FACE)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_any_bay_agrees_with_complex_numbers_and_shapely(data):
    angles = data.draw(st.lists(st.sampled_from(POSTS), min_size=1, max_size=4).filter(lambda found: sum(180 - a for a in found) <= 180))
    widths = data.draw(st.lists(st.integers(250, 2000), min_size=len(angles) + 1, max_size=len(angles) + 1))
    bay = bay_of(widths, angles)
    plan = bay.plan
    corners = turtle(widths, angles, [FACE[a] for a in angles])
    assert [complex(*point) for point in plan.outer] == pytest.approx(corners, abs=1e-6)
    assert plan.width.value == pytest.approx(abs(corners[-1] - corners[0]), abs=1e-6)
    # shapely: the furthest corner from the endless line through both ends
    outer = LineString([(c.real, c.imag) for c in corners])
    wall = LineString([(-1e5, 0), (1e5, 0)])
    furthest = max(Point(c.real, c.imag).distance(wall) for c in corners if c.imag <= 0)
    assert plan.projection.value == pytest.approx(furthest, abs=1e-6)
    # the inner face is shapely's parallel of the outer one, mitred, 70 to its left
    parallel = outer.parallel_offset(DEPTH, "left", join_style="mitre", mitre_limit=50)
    assert [complex(*point) for point in plan.inner] == pytest.approx([complex(*point) for point in parallel.coords], abs=1e-6)
    xs, ys = zip(*parallel.coords, strict=True)
    assert plan.inner_width.value == pytest.approx(xs[-1] - xs[0], abs=1e-6)
    assert plan.inner_projection.value == pytest.approx(max(0, min(ys[0], ys[-1]) - min(ys)), abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(250, 2000), min_size=3, max_size=3), st.sampled_from([120, 135, 150]), st.sampled_from([120, 135, 150]))
def test_frames_and_posts_fill_the_depth_of_a_bay_and_never_overlap(widths, first, second):
    plan = bay_of(widths, [first, second]).plan
    parts = [Polygon([c[:2] for c in outline.corners]) for outline in (*plan.frames, *plan.joints)]
    assert all(part.is_valid and part.exterior.is_ccw for part in parts)
    whole = unary_union(parts)
    assert whole.area == pytest.approx(sum(part.area for part in parts))     # no overlap
    band = Polygon([*plan.outer, *reversed(plan.inner)])
    assert whole.symmetric_difference(band).area == pytest.approx(0, abs=1e-3)
    assert [frame.area for frame in plan.frames] == pytest.approx([width * DEPTH for width in widths])


def test_a_mirrored_bay_is_the_bay_mirrored():
    one, other = bay_of([400, 900, 700], [120, 150]).plan, bay_of([700, 900, 400], [150, 120]).plan
    assert other.width.value == pytest.approx(one.width.value)
    assert other.projection.value == pytest.approx(one.projection.value)
    assert other.inner_projection.value == pytest.approx(one.inner_projection.value)
    mirrored = [(one.width.value - x, y) for x, y in reversed(one.outer)]
    assert [tuple(p) for p in other.outer] == [pytest.approx(p, abs=1e-9) for p in mirrored]


def test_every_length_is_the_sum_of_its_working():
    bay = bay_of([600, 1200, 600], [135, 135])
    plan = bay.plan
    for working in (bay.width, bay.height, plan.width, plan.projection, plan.inner_width, plan.inner_projection):
        assert sum(term.amount for term in working.terms) == pytest.approx(working.value)
        assert all(term.label and term.source.ref for term in working.terms)
    assert plan.projection.terms[0].detail == ("600 x sin 45.00 degrees",)


def test_an_arched_frame_stacks_on_a_rectangular_one_but_nothing_stacks_on_an_arch():
    arched = ("W1", {"frame": {"width": 900, "height": 700}, "head": {"arched": {"rise": 200}}})
    plain = ("W2", {"frame": {"width": 900, "height": 1200}})
    (stack,) = sets_of([arched, plain], a_set("stacked", 2))
    assert stack.height.value == 700 + 20 + 1200
    told = problems_of([("W1", plain[1]), ("W2", arched[1])], a_set("stacked", 2))
    assert "W2 has no straight head" in told["edge-not-straight", ("joined", 0, "windows", 1)]


def test_raked_heads_meet_where_their_jambs_are_equal():
    low_left = {"frame": {"width": 700, "height": 1200}, "head": {"raked": {"left": 900, "right": 1200}}}
    low_right = {"frame": {"width": 700, "height": 1200}, "head": {"raked": {"left": 1200, "right": 900}}}
    (row,) = sets_of([("W1", low_left), ("W2", low_right)], a_set("side-by-side", 2))
    assert row.joints[0].length.value == 1200
    told = problems_of([("W1", low_left), ("W2", low_left)], a_set("side-by-side", 2))
    assert "right jamb of W1 is 1200 mm and the left jamb of W2 900 mm" in told["edges-differ", ("joined", 0, "windows", 1)]


def test_frames_that_cannot_be_joined_are_refused_in_words():
    two = a_set("side-by-side", 2)
    told = problems_of(framed((600, 1050), (600, 900)), two)
    assert "1050 mm" in told["edges-differ", ("joined", 0, "windows", 1)]
    told = problems_of(framed((600, 500), (700, 900)), a_set("stacked", 2))
    assert "sill of W1 is 600 mm and the head of W2 700 mm" in told["edges-differ", ("joined", 0, "windows", 1)]
    mixed = [*framed((600, 900)), ("W2", {"frame": {"width": 600, "height": 900}, "system": "lipped-70"})]
    assert "one system" in problems_of(mixed, two)["systems-differ", ("joined", 0, "windows", 1)]
    painted = [*framed((600, 900)), ("W2", {"frame": {"width": 600, "height": 900}, "finish": {"outside": "RAL 7016"}})]
    assert "one finish" in problems_of(painted, two)["finishes-differ", ("joined", 0, "windows", 1)]
    round_one = [("W1", {"circular": {"diameter": 600}}), ("W2", {"frame": {"width": 600, "height": 600}})]
    assert "W1 has no straight right jamb" in problems_of(round_one, two)["edge-not-straight", ("joined", 0, "windows", 1)]
    opening = [*framed((600, 900)), ("W2", {"opening": {"width": [610, 610, 610], "height": [910, 910, 910], "diagonals": [1095, 1095]}})]
    assert "where the wall would be" in problems_of(opening, two)["joined-opening", ("joined", 0, "windows", 1)]


def test_an_angle_without_a_post_is_refused_with_those_there_are():
    told = problems_of(framed((600, 900), (600, 900)), a_set("bay", 2, angles=[140]))
    assert told["no-bay-post", ("joined", 0, "angles", 0)] == (
        "flush-70 has no bay post for 140 degrees | it has posts for 90, 120, 135, 150 degrees"
    )
    # lipped-70 has one post for any angle from 100 to 170, and one for 135 alone, which goes first
    assert [part.value for part in bay_of([600, 600], [140], "lipped-70").joints[0].widths] == [66, 66]
    assert [part.value for part in bay_of([600, 600], [135], "lipped-70").joints[0].widths] == [42, 42]


def test_a_system_without_couplers_says_what_to_add(tmp_path):
    own = tmp_path / "bare.yaml"
    own.write_text(json.dumps({
        "depth": 70, "material": "timber", "swing": "out", "sash_face": "flush", "glazing": {"edge_clearance": 5, "thickness": 28},
        "members": {name: {"sight": 60, "rebate": 40, "sash": 38} for name in ("frame", "mullion", "transom")} | {"sash": {"sight": 70, "rebate": 50}},
    }))
    told = problems_of(framed((600, 900), (600, 900)), a_set("side-by-side", 2), str(own))
    assert "add `joining: {coupler" in told["no-coupler", ("joined", 0, "way")]
    told = problems_of(framed((600, 900), (600, 900)), a_set("bay", 2, angles=[135]), str(own))
    assert "bay_posts" in told["no-bay-post", ("joined", 0, "angles", 0)]


@pytest.mark.parametrize(("said", "code"), [({}, "load-not-known"), ({"carries_load": True}, "carries-load"), ({"carries_load": False}, None)])
def test_whether_it_carries_load_is_asked_until_it_is_settled(said, code):
    # The question is a trade guide's, read second-hand: confirmed as carrying nothing, or posts specified.
    (made,) = sets_of(framed((600, 900), (600, 900)), a_set("bay", 2, angles=[135], **said))
    assert [finding.code for finding in made.findings] == ([code] if code else [])


def test_a_window_says_what_it_is_joined_to_and_where_its_fixings_go():
    windows = bay_of([600, 1200, 600], [135, 135]).windows
    assert windows[0].notes == ("Part of B1: right jamb joined to W2. Fixings there go into the coupler or post, not into a wall.",)
    assert windows[1].notes[0].startswith("Part of B1: left jamb joined to W1, right jamb joined to W3.")
    (stack,) = sets_of([*framed((900, 500), (900, 1350), (300, 300))], a_set("stacked", 2))
    assert [window.notes[0].split(". ")[0] for window in stack.windows] == ["Part of B1: sill joined to W2", "Part of B1: head joined to W1"]


def test_an_add_on_or_a_sill_where_the_next_frame_stands_is_refused():
    row = [("W1", {"frame": {"width": 600, "height": 900}, "fit": {"add_ons": {"left": 20, "right": 15}}}), *framed((600, 900), (600, 900))[1:]]
    told = problems_of(row, a_set("side-by-side", 2))
    assert list(told) == [("joined-add-on", ("joined", 0, "windows", 0))]
    assert "add-on of 15 at its right jamb" in told["joined-add-on", ("joined", 0, "windows", 0)]
    stack = framed((600, 500), (600, 900), sill={"projection": 100})
    told = problems_of(stack, a_set("stacked", 2))
    assert list(told) == [("joined-sill", ("joined", 0, "windows", 0))]   # the lower one keeps its own
    assert "of a stack the lowest frame has one" in told["joined-sill", ("joined", 0, "windows", 0)]


def test_add_ons_at_the_free_ends_are_told_besides_the_frames_own_width():
    """20 + 1200 + 20 of coupler + 900 = 2140, and the higher with its add-on over the head is 1000 + 45."""
    windows = [
        ("W1", {"frame": {"width": 1200, "height": 1000}, "fit": {"add_ons": {"left": 20, "head": 45}}}), ("W2", {"frame": {"width": 900, "height": 1000}}),
    ]
    (made,) = sets_of(windows, a_set("side-by-side", 2))
    assert (made.width.value, made.height.value) == (2120, 1000)
    assert with_add_ons(made) == (2140, 1045)
    (bare,) = sets_of(framed((1200, 1000), (900, 1000)), a_set("side-by-side", 2))
    assert with_add_ons(bare) == (2120, 1000)
