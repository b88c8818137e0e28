"""What holds for any window: shapely judges the exact outlines, and mirrors stay mirrors."""

import itertools

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely.ops import unary_union

from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.geometry.resolve import resolve_job
from elevations.geometry.stations import to_station
from elevations.geometry.window import whole_mm
from elevations.plane import flatten
from elevations.spec.load import parse_job
from tests.properties.specs import entries, job, mirrored, windows

QUICK = settings(max_examples=60, deadline=None)


def resolve(data):
    return resolve_job(parse_job(yaml.safe_dump(data, sort_keys=False), "job.yaml").job, find_system)


def polygon(outline):
    return Polygon(flatten(outline))


@QUICK
@given(windows())
def test_frame_bars_and_openings_between_them_tile_the_frame(block):
    (window,) = resolve(job(block))
    pieces = [m.face for m in (*window.members, *window.bars)]
    pieces += [to_station(window.system, light.region, "rebate").outline for light in window.lights]
    whole = block["frame"]["width"] * block["frame"]["height"]
    assert sum(p.area for p in pieces) == pytest.approx(whole)
    assert unary_union([polygon(p) for p in pieces]).area == pytest.approx(whole)
    assert sum(light.region.outline.area for light in window.lights) == pytest.approx(whole)


@QUICK
@given(windows())
def test_every_pane_stands_clear_inside_its_rebate_and_covers_its_sight_size(block):
    (window,) = resolve(job(block))
    for pane in window.panes:
        tight, cut, sight = (polygon(r.outline) for r in (pane.tight, pane.cut, pane.sight))
        assert tight.contains(cut)
        assert tight.exterior.distance(cut) == pytest.approx(window.system.edge_clearance)
        assert cut.contains(sight)
        assert len(pane.cut.outline.corners) == 4


@QUICK
@given(windows())
def test_the_working_of_a_size_sums_to_what_the_outline_measures(block):
    (window,) = resolve(job(block))
    for region in [p.cut for p in window.panes] + [s.outer for s in window.sashes]:
        bounds = region.outline.bounds
        assert region.width.value == pytest.approx(bounds.width, abs=1e-9)
        assert region.height.value == pytest.approx(bounds.height, abs=1e-9)
        assert sum(t.amount for t in region.width.terms) == region.width.value


@QUICK
@given(windows())
def test_sashes_keep_apart_and_inside_the_frame(block):
    (window,) = resolve(job(block))
    outlines = [polygon(s.outer.outline) for s in window.sashes]
    for a, b in itertools.combinations(outlines, 2):
        assert not a.intersects(b)
    frame = polygon(window.frame.outline)
    assert all(frame.contains(o) for o in outlines)


@QUICK
@given(windows())
def test_a_mirrored_spec_is_a_mirrored_window(block):
    width = block["frame"]["width"]
    (window,), (other,) = resolve(job(block)), resolve(job(mirrored(block, width)))

    def boxes(w, flip):
        found = []
        for light in w.lights:
            for kind, outline in [("pane", p.cut.outline) for p in light.panes] + [("sash", s.outer.outline) for s in light.sashes]:
                b = outline.bounds
                left, right = (width - b.right, width - b.left) if flip else (b.left, b.right)
                hinge = {"left": "right", "right": "left"}.get(light.hinge, light.hinge) if flip else light.hinge
                found.append((kind, light.opening, str(hinge), *(round(v, 6) for v in (left, b.bottom, right, b.top))))
        return sorted(found)

    assert boxes(window, flip=True) == boxes(other, flip=False)
    assert sorted(b.length.value for b in window.bars) == pytest.approx(sorted(b.length.value for b in other.bars))


@QUICK
@given(windows())
def test_fixings_keep_their_rules_or_a_finding_says_which(block):
    (window,) = resolve(job(block))
    for side, points in itertools.groupby(window.fixings, key=lambda f: f.side):
        places = [f.along.value for f in points]
        length = (window.height if side.endswith("jamb") else window.width).value
        codes = {f.code for f in window.findings if f.subject == side}
        bars = [b.centre.value for b in window.bars if side in b.meets]
        if not codes & {"fixing-moved", "fixing-side-short"}:
            assert places[0] == 150
            assert places[-1] == pytest.approx(length - 150)
            assert len(places) >= 2
        if "fixing-spacing" not in codes:
            assert all(b - a <= 600 + 1e-6 for a, b in itertools.pairwise(places))
        if "fixing-near-bar" not in codes:
            assert all(abs(p - b) >= 150 - 1e-6 for p in places for b in bars)
        assert places == sorted(places)


@QUICK
@given(st.data(), st.integers(2, 4), st.sampled_from(["equal-glass", "equal-sight", "equal-centres"]), st.sampled_from(["flush-70", "lipped-70"]))
def test_equal_bars_make_equal_whatever_the_mix(data, count, kind, system):
    width, height = data.draw(st.integers(count * 350, 4000)), data.draw(st.integers(700, 2000))
    lights = [data.draw(entries(0, 0, 280, height, "out", depth=3)) for _ in range(count)]
    block = {"mark": "W1", "system": system, "frame": {"width": width, "height": height}, "mullions": kind, "lights": lights}
    (window,) = resolve(job(block))
    measure = {
        "equal-glass": [p.width.value for p in window.panes],
        "equal-sight": [p.sight.width.value for p in window.panes],
        "equal-centres": [light.region.width.value for light in window.lights],
    }[kind]
    assert measure == pytest.approx([measure[0]] * count, abs=1e-6)
    assert len({whole_mm(m) for m in measure}) == 1


JUNK = st.one_of(
    st.none(), st.booleans(), st.integers(-10, 100000), st.floats(allow_nan=True, allow_infinity=True), st.text(max_size=8),
    st.lists(st.integers(-5, 5000), max_size=4), st.dictionaries(st.sampled_from(["light", "lights", "mullions", "x"]), st.integers(), max_size=2),
)


def _paths(data, here=()):
    yield here
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in items:
        yield from _paths(value, (*here, key))


def _replaced(data, path, value):
    if not path:
        return value
    copy = dict(data) if isinstance(data, dict) else list(data)
    copy[path[0]] = _replaced(data[path[0]], path[1:], value)
    return copy


def refused(work):
    """The problems that it was refused with; None where it was done."""
    try:
        work()
    except SpecError as error:
        return error.problems
    return None


@settings(max_examples=150, deadline=None)
@given(st.data(), windows())
def test_a_spoilt_job_is_drawn_or_refused_in_words(data, block):
    whole = job(block)
    path = data.draw(st.sampled_from(list(_paths(whole))))
    spoilt = _replaced(whole, path, data.draw(JUNK))
    problems = refused(lambda: resolve(spoilt))
    assert problems is None or (problems and all(p.message and p.code for p in problems))


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_in_words(text):
    assert refused(lambda: parse_job(text, "job.yaml")) != ()
