"""The built-in systems' outlines agree with their figures and fit together: shapely is the judge of both."""

import math

import pytest
from shapely import LinearRing, Polygon, box
from shapely.affinity import scale, translate
from shapely.ops import unary_union

from elevations.catalogue.load import find_system
from elevations.catalogue.system import BARS, PartKind
from elevations.plane import flatten

EXACT_MM = 1e-6
FLATTENED_MM = 0.02   # what arcs lose as chords
PLAY_MM = 2.0         # least air between a sash and what it hangs in (these systems' own figure)
WALL_MM = 1.5         # least wall between two chambers, or a chamber and the open (these systems' own figure)
SQUEEZE_MM = 1.0      # a gasket is drawn at most this much into what it seals
PVC_U_KG_PER_M_MM2 = 1.4e-3   # 1,400 kg/m3 for window PVC-U: common practice, from memory, no source

SYSTEMS = [find_system(name) for name in ("flush-70", "lipped-70")]   # those for hung sashes; the others have tests of their own
PROFILES = [pytest.param(s, p, id=f"{s.name}-{p.name}") for s in SYSTEMS for p in s.profiles.values()]
HOLDERS = [pytest.param(s, p, id=f"{s.name}-{p.name}") for s in SYSTEMS for p in s.profiles.values() if p.name != "sash"]


def shape(part):
    return Polygon(flatten(part.outline))


def shapes(parts, *kinds):
    return [shape(p) for p in parts if p.kind in kinds]


def solid(section, *lists):
    """Profile less its chambers, and beads: what nothing else may stand in."""
    parts = [part for name in ("body", *lists) for part in getattr(section, name)]
    holes = unary_union(shapes(parts, PartKind.CHAMBER))
    return unary_union(shapes(parts, PartKind.PROFILE, PartKind.BEAD)).difference(holes)


def filled(section, *lists):
    """Profiles and beads with their chambers filled."""
    parts = [part for name in ("body", *lists) for part in getattr(section, name)]
    return unary_union(shapes(parts, PartKind.PROFILE, PartKind.BEAD))


def unit(system, profile):
    """The glass unit in a member, from its edge to well past the sight line."""
    edge = profile.rebate + system.edge_clearance
    return [box(edge, profile.glass, profile.sight + 30, profile.glass + t) for t in system.thickness]


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_every_part_is_a_simple_counter_clockwise_loop(system, profile):
    for part in (*profile.section.body, *profile.section.glazed, *profile.section.hung):
        ring = LinearRing(flatten(part.outline, 0.001))
        assert Polygon(ring).is_valid, part
        assert ring.is_ccw, part
        assert Polygon(ring).area == pytest.approx(part.outline.area, rel=2e-3)


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_straight_edges_are_square_or_plain_chamfers(system, profile):
    """A slip in one coordinate would lean an edge by a few degrees."""
    for part in (*profile.section.body, *profile.section.glazed, *profile.section.hung):
        for a, b in part.outline.edges():
            lean = math.degrees(math.atan2(abs(b.y - a.y), abs(b.x - a.x)))
            assert a.bulge or min(lean, 90 - lean) < 1e-9 or 25 < lean < 65, (part, a, b)


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_sight_is_how_far_profile_and_bead_reach_towards_the_glass(system, profile):
    assert filled(profile.section, "glazed").bounds[2] == pytest.approx(profile.sight, abs=EXACT_MM)
    assert filled(profile.section).bounds[2] == pytest.approx(profile.sight, abs=EXACT_MM)
    if profile.name in BARS:
        assert filled(profile.section).bounds[0] == pytest.approx(-profile.sight, abs=EXACT_MM)
    else:
        assert filled(profile.section).bounds[0] == pytest.approx(0, abs=EXACT_MM)


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_rebate_is_the_platform_beside_the_glass(system, profile):
    for glass in unit(system, profile):
        beside = filled(profile.section).intersection(box(-200, glass.bounds[1], 200, glass.bounds[3]))
        assert beside.bounds[2] == pytest.approx(profile.rebate, abs=EXACT_MM)


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_bead_figure_is_where_the_bead_meets_the_profile_on_its_face(system, profile):
    bead = unary_union(shapes(profile.section.glazed, PartKind.BEAD))
    side = system.sash_bead_side if profile.name == "sash" else system.bead_side
    low, high = bead.bounds[1], bead.bounds[3]
    face = bead.intersection(box(-200, low, 200, low + 0.1) if side == "outside" else box(-200, high - 0.1, 200, high))
    assert face.bounds[0] == pytest.approx(profile.bead, abs=EXACT_MM)


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_beads_and_glazing_gaskets_stand_outside_the_profile(system, profile):
    body = filled(profile.section)
    for part in (*profile.section.glazed, *profile.section.hung):
        assert shape(part).intersection(body).area < EXACT_MM, part
        assert shape(part).distance(filled(profile.section, "glazed")) < EXACT_MM, part


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_chambers_lie_inside_the_profile_behind_walls(system, profile):
    (body,) = shapes(profile.section.body, PartKind.PROFILE)
    chambers = shapes(profile.section.body, PartKind.CHAMBER)
    assert len(chambers) >= 4
    for i, chamber in enumerate(chambers):
        assert body.covers(chamber)
        assert chamber.distance(body.exterior) >= WALL_MM - FLATTENED_MM
        for other in chambers[i + 1 :]:
            assert chamber.distance(other) >= WALL_MM - EXACT_MM


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_reinforcement_has_air_inside_one_chamber(system, profile):
    (steel,) = shapes(profile.section.body, PartKind.STEEL)
    chambers = shapes(profile.section.body, PartKind.CHAMBER)
    around = [chamber for chamber in chambers if chamber.contains(steel)]
    assert len(around) == 1
    assert steel.distance(around[0].exterior) >= 0.5


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_reinforcement_is_bent_from_one_sheet(system, profile):
    (steel,) = shapes(profile.section.body, PartKind.STEEL)
    thickness = 2.0 if profile.name in BARS else 1.5
    assert steel.buffer(-thickness / 2 - 0.15).is_empty          # thicker nowhere
    core = steel.buffer(-thickness / 2 + 0.15)
    assert core.geom_type == "Polygon"                           # thinner nowhere, or the core would part
    assert core.buffer(thickness / 2 - 0.15, join_style="mitre").area == pytest.approx(steel.area, rel=0.02)


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_glass_unit_rests_between_gaskets_and_touches_nothing_else(system, profile):
    gaskets = shapes(profile.section.glazed, PartKind.GASKET)
    for glass in unit(system, profile):
        hard = filled(profile.section, "glazed")
        assert glass.intersection(hard).area == 0
        assert glass.distance(hard) >= 2
        assert glass.bounds[0] - profile.rebate == system.edge_clearance
        outer = [g for g in gaskets if g.centroid.y < glass.bounds[1]]
        inner = [g for g in gaskets if g.centroid.y > glass.bounds[3]]
        assert outer
        assert inner
        for gasket in gaskets:
            assert gasket.distance(glass) < FLATTENED_MM
            squeezed = gasket.intersection(glass)
            assert squeezed.is_empty or squeezed.bounds[3] - squeezed.bounds[1] <= SQUEEZE_MM
            assert gasket.bounds[2] <= profile.sight


def hung(system, profile):
    """The sash where it hangs in a member, in the member's coordinates: rigid parts, and its gaskets."""
    section = system.profiles["sash"].section
    rigid = translate(filled(section, "glazed"), profile.sash, 0)
    return rigid, [translate(g, profile.sash, 0) for g in shapes(section.body, PartKind.GASKET)]


@pytest.mark.parametrize(("system", "profile"), HOLDERS)
def test_hung_sash_keeps_its_play(system, profile):
    rigid, _ = hung(system, profile)
    assert rigid.distance(filled(profile.section)) >= PLAY_MM - EXACT_MM


@pytest.mark.parametrize(("system", "profile"), HOLDERS)
def test_closing_gaskets_touch_what_they_seal_and_are_squeezed_at_most_a_millimetre(system, profile):
    rigid, carried = hung(system, profile)
    seals = [(gasket, rigid) for gasket in shapes(profile.section.hung, PartKind.GASKET)]
    seals += [(gasket, filled(profile.section)) for gasket in carried]
    assert seals
    for gasket, against in seals:
        assert gasket.distance(against) < FLATTENED_MM
        squeezed = gasket.intersection(against)
        assert squeezed.is_empty or squeezed.bounds[3] - squeezed.bounds[1] <= SQUEEZE_MM


@pytest.mark.parametrize(("system", "profile"), HOLDERS)
def test_sash_leaves_outwards_past_the_member(system, profile):
    rigid, _ = hung(system, profile)
    assert system.swing == "out"
    for step in range(1, 2 * math.ceil(system.depth)):
        moved = translate(rigid, 0, -step)
        assert moved.intersection(filled(profile.section)).area < EXACT_MM, step
    assert moved.bounds[3] < 0


@pytest.mark.parametrize(("system", "profile"), HOLDERS)
def test_bars_hold_the_same_glass_and_sash_as_the_frame(system, profile):
    frame = system.profiles["frame"]
    assert profile.sight - profile.rebate == frame.sight - frame.rebate
    assert profile.sash - profile.rebate == frame.sash - frame.rebate
    assert profile.glass == frame.glass
    for name in ("glazed", "hung"):
        for part, other in zip(getattr(profile.section, name), getattr(frame.section, name), strict=True):
            shift = translate(shape(other), profile.sight - frame.sight, 0)
            assert shape(part).symmetric_difference(shift).area < EXACT_MM


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda s: s.name)
def test_a_bar_is_the_same_on_both_sides_but_for_its_reinforcement(system):
    for name in BARS:
        whole = solid(system.profiles[name].section)
        assert whole.symmetric_difference(scale(whole, xfact=-1, origin=(0, 0))).area < 1e-3


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda s: s.name)
def test_the_frame_is_as_deep_as_the_system_says(system):
    _, low, _, high = filled(system.profiles["frame"].section, "glazed").bounds
    assert (low, high) == (0, pytest.approx(system.depth))


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda s: s.name)
def test_sash_face_says_how_the_sash_stands_to_the_frame(system):
    frame = system.profiles["frame"]
    rigid, _ = hung(system, frame)
    face = filled(frame.section)
    if system.sash_face == "flush":
        assert rigid.bounds[1] == face.bounds[1] == 0
    else:
        lapped = rigid.intersection(box(-200, -200, 200, 0)).bounds[0]
        assert rigid.bounds[1] < 0
        assert face.bounds[2] - lapped == 8   # the lip's lap over the frame's face


@pytest.mark.parametrize(("system", "profile"), PROFILES)
def test_mass_per_metre_is_that_of_the_outline(system, profile):
    parts = [part for part in profile.section.body if part.kind in (PartKind.PROFILE, PartKind.CHAMBER)]
    area = sum(part.outline.area * (1 if part.kind is PartKind.PROFILE else -1) for part in parts)
    assert area * PVC_U_KG_PER_M_MM2 == pytest.approx(profile.kg_per_m, rel=0.12)
