"""The demonstration systems for pivots and sliding sashes: their outlines agree with their figures; shapely is the judge."""

import pytest
from shapely import LinearRing, Polygon, box
from shapely.affinity import translate
from shapely.ops import unary_union

from elevations.catalogue.load import find_system
from elevations.catalogue.system import PartKind
from elevations.plane import flatten

NAMES = ["pivot-68", "slider-112"]
PROFILES = [pytest.param(find_system(name), profile, id=f"{name}-{profile}") for name in NAMES for profile in ("frame", "mullion", "transom", "sash")]
GLAZED = [param for param in PROFILES if param.values[0].profiles[param.values[1]].section.glazed]
"""Those that hold glass: of the slider its sashes alone."""
ALUMINIUM_KG_PER_M_MM2 = 2.7e-3   # 2,700 kg/m3: EN 573 alloys for windows, from memory


def shape(part):
    return Polygon(flatten(part.outline, 0.001))


def solid(parts):
    return unary_union([shape(p) for p in parts if p.kind in (PartKind.PROFILE, PartKind.BEAD)])


@pytest.mark.parametrize(("system", "name"), PROFILES)
def test_every_part_is_a_simple_counter_clockwise_loop(system, name):
    section = system.profiles[name].section
    for part in (*section.body, *section.glazed, *section.hung):
        ring = LinearRing(flatten(part.outline, 0.001))
        assert ring.is_simple, part
        assert ring.is_ccw, part


@pytest.mark.parametrize(("system", "name"), PROFILES)
def test_profile_and_beads_reach_the_sight_line_and_no_further(system, name):
    profile = system.profiles[name]
    assert solid((*profile.section.body, *profile.section.glazed)).bounds[2] == pytest.approx(profile.sight)


@pytest.mark.parametrize(("system", "name"), GLAZED)
def test_the_unit_rests_between_its_gaskets_on_the_rebate(system, name):
    profile = system.profiles[name]
    glass = box(profile.rebate + system.edge_clearance, profile.glass, profile.sight + 30, profile.glass + 28)
    hard = solid((*profile.section.body, *profile.section.glazed))
    assert hard.intersection(glass).area == 0
    beside = solid(profile.section.body).intersection(box(0, profile.glass, 200, profile.glass + 28))
    assert beside.bounds[2] == pytest.approx(profile.rebate)
    gaskets = [shape(p) for p in profile.section.glazed if p.kind is PartKind.GASKET]
    assert len(gaskets) == 2
    assert all(gasket.distance(glass) < 0.02 and gasket.distance(hard) < 1e-6 for gasket in gaskets)


@pytest.mark.parametrize(("system", "name"), PROFILES)
def test_chambers_lie_inside_behind_walls_of_two_millimetres(system, name):
    body, *others = system.profiles[name].section.body
    chambers = [shape(p) for p in others if p.kind is PartKind.CHAMBER]
    assert len(chambers) == 2
    for chamber in chambers:
        assert shape(body).contains(chamber)
        assert chamber.distance(shape(body).exterior) == pytest.approx(2)
    assert chambers[0].distance(chambers[1]) == pytest.approx(2)


@pytest.mark.parametrize(("system", "name"), PROFILES)
def test_the_mass_is_that_of_the_outline(system, name):
    profile = system.profiles[name]
    area = sum(part.outline.area * (1 if part.kind is PartKind.PROFILE else -1) for part in profile.section.body)
    assert profile.kg_per_m == pytest.approx(area * ALUMINIUM_KG_PER_M_MM2, rel=0.02)


@pytest.mark.parametrize("name", ["frame", "mullion"])
@pytest.mark.parametrize("plane", [0, 1])
def test_a_sliding_sash_stands_two_millimetres_clear_of_the_walls_of_its_track_and_its_seals_touch_it(name, plane):
    system = find_system("slider-112")
    profile, step = system.profiles[name], plane * system.ways.sliding.step
    sash = translate(solid((*system.profiles["sash"].section.body, *system.profiles["sash"].section.glazed)), profile.sash, step)
    walls = solid(profile.section.body)
    assert sash.intersection(walls).area == 0
    assert sash.distance(walls) == pytest.approx(2)
    for seal in (translate(shape(part), 0, step) for part in profile.section.hung):
        assert seal.distance(sash) < 1e-6
        assert seal.distance(walls) < 1e-6
        assert seal.intersection(walls).area < 1e-6


def test_two_sliding_sashes_pass_each_other_and_their_seal_fills_the_gap():
    system = find_system("slider-112")
    figures = system.ways.sliding
    outer = solid(system.profiles["sash"].section.body)
    low, high = outer.bounds[1], outer.bounds[3]
    assert low + figures.step - high == 8
    (seal,) = figures.section
    assert (seal.outline.bounds.bottom, seal.outline.bounds.top) == (high, low + figures.step)
    assert figures.lap == system.profiles["sash"].sight   # stile behind stile: no glass is covered


def test_of_a_slider_nothing_stands_out_of_its_depth():
    system = find_system("slider-112")
    assert system.profiles["sash"].section.body[0].outline.bounds.top + system.ways.sliding.step < system.depth
