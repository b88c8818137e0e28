"""The free way past an open sash against shapely: the sash as a turned rectangle in plan, the frame's far edge as a line."""

from dataclasses import replace

import pytest
from shapely import LineString, Polygon
from shapely.affinity import rotate

from elevations.checks.hanging import clear_opening, sash_depth_mm
from tests.checks.cases import case_of

WIDTHS = (500, 620, 900)
ANGLES = (30, 45, 60, 75, 90)


def free_in_plan(window, light):
    """Shortest way, mm, from the turned sash to the far edge of the opening: x along the window, y into the room.

    The frame's far edge is a line through its whole depth; the sash turns outwards about the outer corner of its hinge side.
    """
    sash, sight = light.sashes[0].outer.outline.bounds, window.system.profiles["frame"].sight
    depth = sash_depth_mm(window.system)
    shut = Polygon([(sash.left, 0), (sash.right, 0), (sash.right, depth), (sash.left, depth)])
    turned = rotate(shut, -light.spec.opens_to, origin=(sash.left, 0))
    far = LineString([(window.width.value - sight, 0), (window.width.value - sight, window.system.depth)])
    return min(turned.distance(far), window.width.value - 2 * sight)


def without_hardware(text):
    """The window and its one light, in a system that lists no hardware: the opening is then worked out."""
    window = case_of(text).window
    window = replace(window, system=replace(window.system, hardware=()))
    return window, window.lights[0]


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize("width", WIDTHS)
def test_the_free_width_is_the_way_from_the_open_sash_to_the_far_jamb(width, angle):
    window, light = without_hardware(f"frame: {{width: {width}, height: 1000}}\nlights: [{{light: side-hung, hinge: left, opens_to: {angle}}}]")
    assert clear_opening(window, light).width.value == pytest.approx(free_in_plan(window, light), abs=1e-6)


@pytest.mark.parametrize("angle", ANGLES)
def test_a_top_hung_sash_is_the_same_turned_on_its_side(angle):
    across = clear_opening(*without_hardware(f"frame: {{width: 700, height: 700}}\nlights: [{{light: side-hung, hinge: right, opens_to: {angle}}}]"))
    down = clear_opening(*without_hardware(f"frame: {{width: 700, height: 700}}\nlights: [{{light: top-hung, opens_to: {angle}}}]"))
    assert across.width.value == pytest.approx(down.height.value)
    assert across.height.value == down.width.value
