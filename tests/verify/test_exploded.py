"""Drawings whose polylines or signs a program exploded, sections that were damaged, and windows that grew a little."""

from __future__ import annotations

import ezdxf
import pytest

from elevations.plane import Point
from elevations.sheets.readers import READERS, Standing
from elevations.verify.loops import Edge, joined
from elevations.verify.said import sheet_says
from elevations.verify.sections import SECTION_LAYERS, changed_sections
from tests.commands.typed import JOB
from tests.verify.drawn import Drawn


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    return Drawn(tmp_path_factory.mktemp("drawn"))


def on(space, layer):
    return [entity for entity in space if entity.dxf.layer == layer]


def explode_polylines(space):
    for entity in list(space):
        if entity.dxftype() == "LWPOLYLINE":
            entity.explode()


def test_exploded_polylines_are_no_difference(drawn):
    assert drawn.told(explode_polylines) == []


def test_a_sash_measures_what_it_is_though_its_lines_are_exploded_and_mitred(drawn):
    def widen(space):
        sash = next(entity for entity in on(space, "SASH") if entity.dxftype() == "LWPOLYLINE")
        right = max(x for x, *_ in sash.get_points())
        sash.set_points([(x + 4 * (abs(x - right) < 1e-6), *rest) for x, *rest in sash.get_points()])
        for line in on(space, "SASH"):
            # its mitres run to the corners that moved
            if line.dxftype() == "LINE":
                for end in ("start", "end"):
                    point = line.dxf.get(end)
                    if abs(point.x - right) < 1e-6:
                        line.dxf.set(end, point + ezdxf.math.Vec3(4, 0, 0))
        explode_polylines(space)

    # 542 x 964 by the worked sum of the format's description
    assert ("member", "S1", "sash S1 measures 546 × 964 in the drawing; the job says 542 × 964: 4 wider") in drawn.told(widen)


def test_signs_that_were_exploded_are_fixings_lacking_and_not_another_window(drawn):
    def explode(space):
        for entity in list(space):
            if entity.dxftype() == "INSERT":
                entity.explode()

    kinds = [kind for kind, *_ in drawn.told(explode)]
    assert kinds == ["fixing"] * len(drawn.window.fixings)


def test_a_window_one_mm_wider_is_told_pane_by_pane(drawn, tmp_path):
    wider = Drawn(tmp_path, JOB.replace("width: 1200", "width: 1201", 1))
    assert wider.window.width.value == 1201
    said = [message for _, _, message in wider.of(drawn.file)]
    assert not [message for message in said if "another window" in message]
    # 1200 - 46 - (600 + 18) - 2 x 5 = 526: the light beside the mullion takes the millimetre, 527
    assert "pane G2 measures 526 × 948 in the drawing; the job says 527 × 948: 1 narrower" in said


@pytest.mark.parametrize("layer", ["REINFORCEMENT", "BEAD", "GLASS-CUT"])
def test_a_section_without_its_steel_beads_or_glass_is_told(drawn, layer):
    def delete(space):
        for entity in on(space, layer):
            space.delete_entity(entity)

    told = [(kind, place) for kind, place, message in drawn.told(delete) if layer in message]
    assert told == [("section", section.place) for section in drawn_sections(drawn) if section.layer == layer]
    assert told


def drawn_sections(drawn):
    (sheet,) = READERS["factory"].sheets(drawn.window, drawn.job, ("model",), Standing())["model"][:1]
    return sheet_says(sheet).sections


def test_one_profile_of_a_section_moved_is_told(drawn):
    def steel(space):
        on(space, "REINFORCEMENT")[0].translate(2, 0, 0)

    ((kind, _, message),) = drawn.told(steel)
    assert kind == "section"
    assert "on layer REINFORCEMENT are not drawn where the job has them" in message


def test_a_section_moved_as_a_whole_is_the_same(drawn):
    sections = drawn_sections(drawn)
    first = sections[0].place
    there = {layer: [] for layer in SECTION_LAYERS}
    for section in sections:
        by = 120 if section.place == first else 0
        there[section.layer] += [Edge(Point(e.start.x + by, e.start.y), Point(e.end.x + by, e.end.y), e.bulge) for e in section.edges]
    assert list(changed_sections(sections, there)) == []
    del there["BEAD"][0]
    assert [difference.subject for difference in changed_sections(sections, there)] == [first]


def test_a_sight_line_moved_is_told(drawn):
    def move(space):
        [entity for entity in on(space, "SASH") if entity.dxftype() == "LWPOLYLINE"][1].translate(3, 0, 0)

    # 542 - 2 x 76 by 964 - 2 x 76: the sash's profile to its sight line, from the system file
    assert drawn.told(move) == [("member", "S1", "the sight line of sash S1 has its size, 390 × 812, but stands 3 to the right from where the job has it")]


def test_a_frozen_layer_is_told(drawn, tmp_path):
    document = ezdxf.readfile(drawn.file)
    document.layers.get("GLASS").freeze()
    document.saveas(tmp_path / "frozen.dxf")
    assert drawn.of(tmp_path / "frozen.dxf") == [("drawing", "GLASS", "layer GLASS is frozen or switched off: what is drawn on it is not seen")]


def test_edges_that_fork_close_to_every_part_and_to_the_whole():
    # a square of 10 with the line from the middle of its top to the middle of its bottom: two halves and the square
    ends = [(0, 0), (5, 0), (10, 0), (10, 10), (5, 10), (0, 10)]
    edges = [Edge(Point(*a), Point(*b)) for a, b in zip(ends, [*ends[1:], ends[0]], strict=True)] + [Edge(Point(5, 10), Point(5, 0))]
    loops, rest = joined(edges)
    assert sorted(loop.area for loop in loops) == pytest.approx([50, 50, 100])
    assert sorted(rest, key=str) == sorted(edges, key=str)


def test_a_half_circle_and_a_spur_close_to_the_half_disc():
    # pi x 5^2 / 2
    edges = [Edge(Point(-5, 0), Point(5, 0)), Edge(Point(5, 0), Point(-5, 0), 1.0), Edge(Point(5, 0), Point(9, 9))]
    loops, _ = joined(edges)
    assert {round(loop.area, 3) for loop in loops} == {39.27}
