"""The sizes of profiles under a section: left out, the shorter first, where a drawing program would lay one on another."""

import pytest

from elevations.drawing.entities import Dimension
from elevations.drawing.explode import measured
from elevations.views.section import section
from tests.jobs import window_of


@pytest.mark.parametrize(("scale", "widths"), [
    (5, [119, 91, 38, 38, 91, 119]),
    (20, [119, 91, 91, 119]),       # 38 is 1.9 mm on paper; LibreCAD laid it on the 91 beside it (seen)
])
def test_a_size_with_no_room_beside_its_neighbour_is_left_out(scale, widths):
    window = window_of("""
        frame: {width: 2412, height: 1508}
        mullions: [720, 1692]
        lights: [{light: side-hung, hinge: left}, {light: fixed}, {light: side-hung, hinge: right}]
    """)
    view = section(window, 1, 700, scale)
    found = [item for group in view.groups for item in group.items if isinstance(item, Dimension) and not item.upright]
    assert [round(abs(measured(dim))) for dim in sorted(found, key=lambda dim: dim.start.x)] == widths
