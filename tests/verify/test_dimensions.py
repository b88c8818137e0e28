"""Dimensions of a drawing against the job: feet that were dragged and figures typed over are told, what was only moved is not."""

from __future__ import annotations

import ezdxf
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from elevations.plane import Point
from elevations.verify.annotation import DrawnDimension
from elevations.verify.dimensions import changed_dimensions, false_readings
from elevations.verify.said import SaidDimension, SheetSays
from tests.verify.drawn import Drawn


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    return Drawn(tmp_path_factory.mktemp("said"))


def dimensions(space):
    """The chain of bars and overall widths stands first: 600 and 600 below the frame."""
    return list(space.query("DIMENSION"))


def drag(dimension, dx, dy=0.0):
    """Take the foot and the end of the dimension line that goes with it elsewhere, as a person does by its grip."""
    dimension.dxf.defpoint3 += ezdxf.math.Vec3(dx, dy)
    dimension.dxf.defpoint += ezdxf.math.Vec3(dx, 0)


def test_a_foot_that_was_dragged_is_told_with_the_figure_that_still_stands_there(drawn):
    (told,) = drawn.said(lambda space: drag(dimensions(space)[0], 12))
    assert told == (
        "the dimension 600, 0 to 600 from the left of the frame (elevation from outside, bar centre lines): "
        "its right foot stands 12 to the right, so that it measures 612 and still says '600'"
    )


def test_a_foot_that_was_dragged_is_told_where_the_program_drew_its_figure_anew(drawn):
    def change(space):
        dimension = dimensions(space)[0]
        drag(dimension, -12)
        for part in dimension.get_geometry_block().query("TEXT"):
            part.dxf.text = "588"

    (told,) = drawn.said(change)
    assert told.endswith("its right foot stands 12 to the left, so that it measures 588")


def test_a_dimension_that_shows_its_own_length_is_read_from_its_picture(drawn):
    """'<>' means its own length, which a stale picture shows as it was."""
    def change(space):
        dimensions(space)[0].dxf.text = "<>"
        drag(dimensions(space)[0], 12)

    (told,) = drawn.said(change)
    assert told.endswith("so that it measures 612 and still says '600'")


def test_both_feet_moved_alike_are_told_though_the_length_is_right(drawn):
    (told,) = drawn.said(lambda space: dimensions(space)[0].translate(25, 0, 0))
    assert "its left foot stands 25 to the right and its right foot stands 25 to the right, so that it measures 600" in told


def test_a_dimension_of_a_section_is_told_by_its_section(drawn):
    def change(space):
        last = max((d for d in dimensions(space) if d.dxf.get("angle", 0) == 90), key=lambda d: d.dxf.defpoint.x)
        last.dxf.defpoint3 += ezdxf.math.Vec3(0, 3)

    (told,) = drawn.told(change)
    assert told[:2] == ("dimension", "Section A-A, profile sizes")
    assert "3 up" in told[2] or "3 down" in told[2]


def test_a_figure_typed_over_a_dimension_is_told(drawn):
    def change(space):
        dimensions(space)[0].dxf.text = "605"
        dimensions(space)[1].dxf.text = "<> or so"
        dimensions(space)[2].dxf.text = "<>"

    first, second = drawn.said(change)
    assert first == "the dimension 600, 0 to 600 from the left of the frame (elevation from outside, bar centre lines) says '605' in the drawing"
    assert second.endswith("says '600 or so' in the drawing")


@pytest.mark.parametrize(("figure", "told"), [("600.05", False), ("600,05", False), ("600 mm", False), ("600.3", True), ("599.7", True), ("600.1", True)])
def test_a_figure_may_be_rounded_to_a_tenth_and_no_further(drawn, figure, told):
    def change(space):
        dimensions(space)[0].dxf.text = figure

    assert bool(drawn.said(change)) is told


def test_dimensions_deleted_are_told_unless_there_are_none_at_all(drawn):
    def one(space):
        space.delete_entity(dimensions(space)[0])

    (told,) = drawn.said(one)
    assert told.startswith("the dimension 600, 0 to 600 from the left of the frame")
    assert told.endswith("is not in the drawing")


def test_a_dimension_added_is_told_only_where_it_reads_what_it_does_not_measure(drawn):
    def add(space, words):
        at = space.query("DIMENSION")[0].dxf.defpoint2
        dimension = space.add_linear_dim(base=(at.x, at.y + 300), p1=(at.x, at.y), p2=(at.x + 333, at.y), text=words)
        dimension.render()

    assert drawn.said(lambda space: add(space, "<>")) == []
    (told,) = drawn.said(lambda space: add(space, "340"))
    assert told == "a dimension says '340' and measures 333"


def test_dimension_lines_and_texts_moved_across_are_no_difference(drawn):
    def change(space):
        for dimension in dimensions(space):
            upright = dimension.dxf.get("angle", 0) == 90
            dimension.dxf.defpoint += ezdxf.math.Vec3(-30 if upright else 0, 0 if upright else -30)
            dimension.dxf.text_midpoint += ezdxf.math.Vec3(40, -60)

    assert drawn.said(change) == []


def test_a_section_moved_as_a_whole_is_no_difference(drawn):
    """Section A-A stands to the right of the elevation; everything beyond the window's own chains goes 150 to the right and 40 down."""
    def change(space):
        for entity in space:
            at = entity.dxf.defpoint2 if entity.dxftype() == "DIMENSION" else None
            if at is not None and at.x > 2000:
                entity.translate(150, -40, 0)

    assert drawn.said(change) == []


def beyond(space):
    """Dimensions of section A-A, to the right of the elevation's own chains."""
    return [d for d in dimensions(space) if d.dxf.defpoint2.x > 2000]


def test_one_dimension_of_a_section_moved_along_is_told_though_it_measures_the_same(drawn):
    def change(space):
        next(d for d in beyond(space) if d.dxf.get("angle", 0) == 90).translate(0, 20, 0)

    (told,) = drawn.said(change)
    assert "foot stands 20 up" in told


def test_a_section_moved_as_a_whole_does_not_hide_a_foot_that_was_dragged(drawn):
    """Section B-B stands below the elevation, whose own feet are no lower than the frame."""
    def change(space):
        lowest = min(d.dxf.defpoint2.y for d in dimensions(space)[:4])
        below = [d for d in dimensions(space) if d.dxf.defpoint2.y < lowest - 1 and d.dxf.get("angle", 0) == 0]
        assert len(below) > 2
        for dimension in below:
            dimension.translate(150, -40, 0)
        below[0].dxf.defpoint3 += ezdxf.math.Vec3(7, 0)

    (told,) = drawn.told(change)
    assert told[:2] == ("dimension", "Section B-B, profile sizes")
    assert "foot stands 7 to the right" in told[2]


def test_feet_moved_with_their_line_a_little_across_are_still_that_dimensions(drawn):
    (told,) = drawn.said(lambda space: dimensions(space)[0].translate(25, 2, 0))   # 0.2 mm on paper at 1:10
    assert told.startswith("the dimension 600, 0 to 600 from the left of the frame")


def test_a_drawing_in_inches_may_read_inches_or_mm():
    """A 600 mm length drawn in inches measures 23.622 of them."""
    feet = Point(0.0, 0.0), Point(600.0, 0.0), Point(600.0, -50.0)
    for reads, wrong in (("23.62", False), ("600", False), ("24", True), ("", False)):
        assert bool(list(false_readings([DrawnDimension(*feet, (1.0, 0.0), reads)], 25.4))) is wrong


def test_of_two_dimensions_between_the_same_places_each_is_held_to_its_own_line():
    said = [SaidDimension(0.0, 600.0, line, upright=False, view="elevation", place=place) for line, place in ((-100.0, "bars"), (-200.0, "overall size"))]
    drawn = [DrawnDimension(Point(0.0, 0.0), Point(600.0, 0.0), Point(600.0, line), (1.0, 0.0), reads) for line, reads in ((-200.0, "605"), (-100.0, "600"))]
    (told,) = changed_dimensions(SheetSays(10.0, (), tuple(said), (), frozenset()), drawn)
    assert told.subject == "overall size"


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_any_foot_dragged_by_more_than_a_tenth_is_told(drawn, data):
    by = data.draw(st.integers(-200, 200)) / 10
    assume(abs(by) > 0.1)
    number = data.draw(st.integers(0, 3))

    def change(space):
        dimension = dimensions(space)[number]
        if dimension.dxf.get("angle", 0) == 90:
            dimension.dxf.defpoint3 += ezdxf.math.Vec3(0, by)
            dimension.dxf.defpoint += ezdxf.math.Vec3(0, by)
        else:
            drag(dimension, by)

    told = drawn.said(change)
    assert len(told) == 1
    assert f"foot stands {f'{abs(by):.1f}'.removesuffix('.0')} " in told[0]
