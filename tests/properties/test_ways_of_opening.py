"""Any way of opening, in any size, with any glazing bars, in every system that makes it: sashes keep their places, or it is refused in words."""

import pytest
import yaml
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from shapely import Polygon

from elevations.catalogue.load import builtin_names, find_system
from elevations.errors import SpecError
from elevations.geometry.resolve import resolve_job
from elevations.openings import OPENINGS
from elevations.plane import flatten
from elevations.sheets.factory import factory_sheets
from elevations.spec.load import parse_job
from tests.sheets.test_factory import collisions

MIRROR = {"left": "right", "right": "left"}
REFUSALS = {
    "too-close", "no-room", "opening-not-offered", "shape-cannot-open", "sash-cannot-turn", "glazing-bars-too-close", "glazing-bar-outside",
    "no-glazing-bar", "bar-needs-cavity", "swings-both-ways",
}
HEADS = [None, {"arched": {"rise": 200}}, {"gable": {"apex": 500, "eaves": 700}}, {"pointed": {"rise": 620}}]
BARS = [None, {"columns": 2}, {"rows": 3}, {"columns": 2, "rows": 2, "kind": "in-unit"}, {"margin": 60}, {"border": 50}]


@st.composite
def lights(draw):
    kind = draw(st.sampled_from(sorted(OPENINGS)))
    opening = OPENINGS[kind]
    light = {"light": kind}
    if opening.takes_hinge:
        light["hinge"] = draw(st.sampled_from(["left", "right"]))
    lead = draw(st.sampled_from([None, *opening.leads]))
    if lead:
        light["leads"] = lead
    bars = draw(st.sampled_from(BARS))
    if bars:
        light["bars"] = bars
    return light


@st.composite
def windows(draw, heads=(None,)):
    head, light = draw(st.sampled_from(heads)), draw(lights())
    # Under a head the frame is of a size that the head fits.
    width = draw(st.integers(1000, 1220) if head else st.integers(300, 2400))
    height = draw(st.integers(1300, 2200) if head else st.integers(300, 2200))
    window = {"mark": "W1", "system": draw(st.sampled_from(builtin_names())), "frame": {"width": width, "height": height}, "lights": [light]}
    if head:
        window["head"] = head
    if not head and draw(st.booleans()):
        window |= {"mullions": [width // 2], "lights": [light, draw(lights())]}
    return window


def job_of(window):
    return parse_job(yaml.safe_dump({"glass": {"clear": {"make_up": "4/20/4"}}, "windows": [window]}, sort_keys=False), "job.yaml").job


def resolved(window):
    """The window, or None where it is refused in words that are known."""
    try:
        return resolve_job(job_of(window), find_system)[0]
    except SpecError as error:
        for problem in error.problems:
            assert problem.code in REFUSALS, problem
            assert problem.message
            assert problem.hint
        return None


def polygon(outline):
    return Polygon([(p.x, p.y) for p in flatten(outline, 0.001)])


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
@given(windows(HEADS))
def test_sashes_keep_to_their_light_their_plane_and_each_other(window):
    made = resolved(window)
    assume(made is not None)
    for light in made.lights:
        region = polygon(light.region.outline)
        shapes = [polygon(sash.outer.outline) for sash in light.sashes]
        for sash, shape, pane in zip(light.sashes, shapes, light.panes, strict=False):
            assert region.buffer(0.01).covers(shape)
            assert shape.covers(polygon(pane.cut.outline))
            assert polygon(pane.cut.outline).buffer(0.01).covers(polygon(pane.sight.outline))
            assert len(sash.members) == len(sash.outer.sides)
        if len(shapes) == 2:
            planes = {sash.leaf.plane for sash in light.sashes}
            lap = shapes[0].intersection(shapes[1]).area
            assert (lap > 1) == (planes == {0, 1})
            glass = [polygon(pane.sight.outline) for pane in light.panes]
            assert glass[0].intersection(shapes[1]).area < 1   # one sash covers the stile of the other, not its glass
        for pane in light.panes:
            sight = polygon(pane.sight.outline)
            assert all(sight.buffer(0.01).covers(polygon(bar.face)) for bar in pane.bars)
            assert sum(polygon(small).area for small in pane.small_panes) <= sight.area + 1


def mirrored(window):
    """The same window in a mirror; a horizontally sliding light whose sashes both slide is its own kind of handed, and left out."""
    width = window["frame"]["width"]
    made = dict(window)
    made["lights"] = [{**light, **{key: MIRROR.get(light[key], light[key]) for key in ("hinge", "leads") if key in light}} for light in window["lights"]][::-1]
    for light in made["lights"]:
        handed = OPENINGS[light["light"]].leads[:1]
        if light["light"] in ("vertical-pivot", "side-hung-pair") and "leads" not in light:
            light["leads"] = MIRROR[handed[0]]
    if "mullions" in window:
        made["mullions"] = [width - at for at in window["mullions"]]
    return made


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
@given(windows())
def test_a_mirrored_window_has_the_mirrored_sashes_and_panes(window):
    assume(not any(light["light"] == "sliding" and "leads" not in light for light in window["lights"]))
    one, other = resolved(window), resolved(mirrored(window))
    assert (one is None) == (other is None)
    assume(one is not None)
    width = window["frame"]["width"]

    def boxes(made, flip):
        found = []
        for sash in (*made.sashes, *made.panes):
            outline = getattr(sash, "outer", None) or sash.cut
            box = outline.outline.bounds
            left, right = (width - box.right, width - box.left) if flip else (box.left, box.right)
            found.append(tuple(round(v, 4) + 0.0 for v in (left, box.bottom, right, box.top)))
        return sorted(found)

    assert boxes(one, flip=True) == boxes(other, flip=False)
    assert sorted(sash.leaf.half_in for sash in one.sashes) == sorted(MIRROR.get(sash.leaf.half_in, sash.leaf.half_in) for sash in other.sashes)


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
@given(windows(HEADS))
def test_its_sheets_are_drawn_and_no_text_lies_on_another(window):
    made = resolved(window)
    assume(made is not None)
    for sheet in factory_sheets(made, job_of(window)).values():
        assert collisions(sheet) == []


@pytest.mark.parametrize("kind", sorted(OPENINGS))
def test_every_way_of_opening_is_made_by_one_built_in_system_at_least(kind):
    hinge = {"hinge": "left"} if OPENINGS[kind].takes_hinge else {}
    made = [resolved({"mark": "W1", "system": name, "frame": {"width": 1200, "height": 1200}, "lights": [{"light": kind, **hinge}]}) for name in builtin_names()]
    assert any(made)
