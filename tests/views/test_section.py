"""Sections: true places along the cut, the way round, and solids that don't run into each other (judged by shapely)."""

from dataclasses import replace
from itertools import combinations

import pytest
from shapely.geometry import Polygon

from elevations.catalogue.load import find_system
from elevations.drawing.entities import Dimension, Label
from elevations.drawing.explode import measured
from elevations.drawing.layers import Layer
from elevations.plane import flatten
from elevations.views.cut_run import run_along
from elevations.views.cuts import choose_cuts
from elevations.views.section import section
from elevations.views.section_parts import things
from tests.jobs import window_of
from tests.sheets.lettered import items_on

OUT = "frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]"
IN = OUT.replace("hinge: left", "hinge: left, swing: in")
STACK = "frame: {width: 900, height: 1500}\ntransoms: [450]\nlights: [{light: top-hung}, {light: fixed}]"
GASKET_PRESS_MM2 = 7.0
"""A gasket may bite into what it seals: 1 mm deep and 7 wide, common practice, no source."""


def laid(window, axis, shorten_to=None, gap=0.0):
    cuts = choose_cuts(window)
    return run_along(window, axis, (cuts.upright_x, cuts.level_y)[axis], shorten_to, gap)


def extent(thing, axis, kinds):
    """From where to where a thing's shapes reach along the cut."""
    along = 1 if axis == 0 else 0
    boxes = [piece.outline.bounds for piece in thing.pieces if piece.kind in kinds]
    return min(box[along] for box in boxes), max(box[along + 2] for box in boxes)


@pytest.mark.parametrize("system", ["flush-70", "lipped-70"])
@pytest.mark.parametrize(("spec", "axis"), [(OUT, 0), (OUT, 1), (IN, 1), (STACK, 0)])
def test_glass_ends_where_its_cut_outline_ends(spec, axis, system):
    window = window_of(spec, system)
    run = laid(window, axis)
    panes = {pane.tag: pane.cut.outline.bounds for pane in window.panes}
    cut = [thing for thing in things(run) if thing.tag in panes]
    assert cut
    for thing in cut:
        box = panes[thing.tag]
        assert extent(thing, axis, {"pane"}) == pytest.approx((box[1 - axis], box[3 - axis]))


@pytest.mark.parametrize(("system", "face"), [("flush-70", (11, 24)), ("lipped-70", (-1, 21))])
def test_the_unit_stands_where_its_holder_says(system, face):
    window = window_of(OUT, system)
    tags = {thing.tag: thing for thing in things(laid(window, 1))}
    for tag, v in zip(("G1", "G2"), face, strict=True):
        panes = [piece.outline.bounds for piece in tags[tag].pieces if piece.kind == "pane"]
        assert [(box.bottom, box.top) for box in panes] == [(v, v + 4), (v + 24, v + 28)]   # 4 + 20 + 4 = 28


def test_built_inside_out_everything_is_counted_from_the_other_face():
    tags = {thing.tag: thing for thing in things(laid(window_of(IN), 1))}
    panes = [piece.outline.bounds for piece in tags["G1"].pieces if piece.kind == "pane"]
    assert [(box.bottom, box.top) for box in panes] == [(31, 35), (55, 59)]                 # 70 - 11 - 28 = 31
    beads = [piece.outline.bounds for piece in tags["right jamb"].pieces if piece.kind == "bead"]
    assert all(box.bottom > 35 for box in beads)                                             # now inside, towards the room


@pytest.mark.parametrize("system", ["flush-70", "lipped-70"])
@pytest.mark.parametrize(("spec", "axis"), [(OUT, 0), (OUT, 1), (IN, 0), (IN, 1), (STACK, 0)])
@pytest.mark.parametrize("shorten_to", [None, 60.0])
def test_solids_of_different_things_do_not_overlap(spec, axis, system, shorten_to):
    run = laid(window_of(spec, system), axis, shorten_to)
    solids = [
        (thing.tag, piece.kind, Polygon(flatten(piece.outline)))
        for thing in things(run) for piece in thing.pieces if piece.kind in {"profile", "bead", "pane", "gasket"}
    ]
    for (tag, kind, a), (other, other_kind, b) in combinations(solids, 2):
        assert a.is_valid
        assert b.is_valid
        if tag != other:
            allowed = GASKET_PRESS_MM2 if "gasket" in (kind, other_kind) else 1e-6
            assert a.intersection(b).area <= allowed, f"{tag} {kind} and {other} {other_kind}"


def test_every_outline_runs_counter_clockwise_and_keeps_its_area_whichever_way_it_is_turned():
    profile = find_system("flush-70").profiles["frame"]
    areas = sorted(part.outline.area for part in (*profile.section.body, *profile.section.glazed))
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: fixed}]")
    turned = replace(window, reversed=True)
    for made, axis in ((window, 0), (window, 1), (turned, 0), (turned, 1)):
        for thing in things(laid(made, axis)):
            if thing.words == "frame":
                assert sorted(piece.outline.area for piece in thing.pieces) == pytest.approx(areas)


def test_members_stand_at_their_datum_lines():
    window = window_of(OUT)
    tags = {thing.tag: thing for thing in things(laid(window, 1))}
    assert extent(tags["left jamb"], 1, {"profile"}) == pytest.approx((0, 66))
    assert extent(tags["S1 left stile"], 1, {"profile"}) == pytest.approx((43, 119))        # 43 + 76
    assert extent(tags["S1 right stile"], 1, {"profile"}) == pytest.approx((509, 585))      # 600 - 15 = 585
    assert extent(tags["M1"], 1, {"profile"}) == pytest.approx((562, 638))                  # 600 - 38, 600 + 38
    assert extent(tags["right jamb"], 1, {"profile"}) == pytest.approx((1134, 1200))


def test_a_bar_takes_beads_on_its_fixed_side_and_a_closing_gasket_on_the_other():
    bar = next(thing for thing in things(laid(window_of(OUT), 1)) if thing.tag == "M1")
    beads = [piece.outline.bounds for piece in bar.pieces if piece.kind == "bead"]
    gaskets = [piece.outline.bounds for piece in bar.pieces if piece.kind == "gasket"]
    assert len(beads) == 1
    assert beads[0].left >= 600
    assert sorted(box.centre.x > 600 for box in gaskets) == [False, True, True]


def test_shortening_leaves_out_glass_only_and_what_it_says():
    window = window_of(OUT)
    whole, short = laid(window, 1), laid(window, 1, 60.0)
    # visible glass 390 and 496 become 60 each: 1200 - 330 - 436 = 434
    assert short.moved(1200) == pytest.approx(434)
    for long, cut in zip(things(whole), things(short), strict=True):
        if not long.tag.startswith("G"):
            assert [p.outline.area for p in cut.pieces] == pytest.approx([p.outline.area for p in long.pieces])


def test_a_section_says_that_it_is_shortened_and_which_side_is_outside():
    window = window_of(OUT)
    cuts = choose_cuts(window)
    for axis, at in ((0, cuts.upright_x), (1, cuts.level_y)):
        view = section(window, axis, at, 5.0, 90.0)
        words = [item.text for group in view.groups for item in group.items if isinstance(item, Label)]
        assert {"outside", "inside"} <= set(words)
        assert any("shortened" in text for text in words)
        assert "Glass 4/20/4 (28). Beads inside" in " ".join(words)
        ends = {item.text: item.at for group in view.groups for item in group.items if isinstance(item, Label)}
        assert ends["outside"][axis] < ends["inside"][axis]   # outside is left of inside in A-A, below it in B-B


def test_dimensions_of_a_shortened_section_measure_true_sizes():
    window = window_of(OUT)
    view = section(window, 1, choose_cuts(window).level_y, 5.0, 90.0)
    level = [measured(item) for group in view.groups for item in group.items if isinstance(item, Dimension) and not item.upright]
    assert level == pytest.approx([119, 91, 38, 66])   # 43+76; 15+76; 38; 66


def test_cut_glass_is_on_its_own_layer_and_none_on_the_panes_layer():
    window = window_of(OUT)
    view = section(window, 1, choose_cuts(window).level_y, 5.0)
    assert items_on(view, Layer.GLASS) == []
    assert items_on(view, Layer.GLASS_CUT)


def test_a_system_without_outlines_is_drawn_as_plain_boxes_that_say_so():
    window = window_of(OUT)
    bare = {name: replace(profile, section=None, glass=None) for name, profile in window.system.profiles.items()}
    window = replace(window, system=replace(window.system, profiles=bare))
    cuts = choose_cuts(window)
    view = section(window, 1, cuts.level_y, 5.0)
    words = " ".join(item.text for group in view.groups for item in group.items if isinstance(item, Label))
    assert "Outline not given, drawn as plain boxes: frame, mullion, sash" in words
    solids = [
        (thing.tag, Polygon(flatten(piece.outline))) for thing in things(laid(window, 1)) for piece in thing.pieces
        if piece.kind in {"box", "pane"}
    ]
    assert all(a.intersection(b).area < 1e-6 for (s, a), (t, b) in combinations(solids, 2) if s != t)
    panes = [piece.outline.bounds for thing in things(laid(window, 1)) for piece in thing.pieces if piece.kind == "pane"]
    assert panes[0].bottom == 21                       # in the middle of 70: (70 - 28) / 2
