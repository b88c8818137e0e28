"""The installer's sheet of joined windows: the order of assembly, sizes to tape by hand, what bears on it; nothing collides."""

import math

import pytest

from elevations.export import FORMATS
from elevations.geometry.assembly import assembly, frame_kg, order_of
from elevations.sheets.installer_joined import installer_set_sheets
from elevations.views.plan import plan_view
from tests.geometry.test_joined import a_set, bay_of, framed, sets_of
from tests.sheets.lettered import texts
from tests.sheets.test_factory import JOB, collisions
from tests.sheets.test_joined_sheet import SETS


def said(sheet):
    return " ".join(text for _, text, _ in texts(sheet))


@pytest.mark.parametrize("style", ["paper", "model"])
@pytest.mark.parametrize("name", SETS)
def test_no_text_meets_another_or_a_line_or_the_border(name, style):
    for sheet in installer_set_sheets(SETS[name](), JOB, style):
        assert collisions(sheet) == []


@pytest.mark.parametrize(("way", "more", "order"), [
    ("bay", {"angles": [135, 135]}, ("W2", "W1", "W3")),
    ("bay", {"angles": [150, 150, 150]}, ("W2", "W1", "W3", "W4")),
    ("side-by-side", {}, ("W1", "W2", "W3")),
    ("stacked", {}, ("W3", "W2", "W1")),
    ("side-by-side", {"assembly": ["W3", "W2", "W1"]}, ("W3", "W2", "W1")),
])
def test_frames_go_up_beside_one_that_stands_each_after_its_joint(way, more, order):
    """Common practice, no source; the job may say another order."""
    (joined,) = sets_of(framed(*[(600, 1200)] * len(order)), a_set(way, len(order), **more))
    assert order_of(joined.spec) == order
    steps = assembly(joined)
    assert [step.number for step in steps] == list(range(1, 2 * len(order)))
    assert [step.name for step in steps if step.window] == list(order)
    standing = set()
    for step in steps:
        if step.joint:
            assert set(step.joint.between) & standing, step
        standing.add(step.name)
    assert {step.name for step in steps if step.joint} == {joint.tag for joint in joined.joints}


def test_the_diagonals_of_a_bays_plan_are_those_of_its_corners():
    # 600, 1200, 600 at 135 with faces of 40: along the outer faces 640 and 1280 at 135 degrees, so by the law of cosines
    # 640^2 + 1280^2 + 2 x 640 x 1280 x 0.70711 = 3 206 524, whose root is 1790.7
    sheet = installer_set_sheets(bay_of([600, 1200, 600], [135, 135]), JOB)[0]
    assert "Diagonal, left end to P2, outside 1790.7" in said(sheet)
    assert "Diagonal, right end to P1, outside 1790.7" in said(sheet)


def test_a_row_is_taped_corner_to_corner():
    (row,) = sets_of(framed((600, 1050), (1200, 1050)), a_set("side-by-side", 2))
    assert f"Both diagonals, each {math.hypot(600 + 20 + 1200, 1050):.1f}" in said(installer_set_sheets(row, JOB)[0])


def test_steps_say_what_goes_where_with_which_screws():
    back = said(installer_set_sheets(bay_of([600, 1200, 600], [135, 135]), JOB)[1])
    assert "W2: stand it on its packers" in back
    assert "P1, bay post for 135 degrees: bed it in sealant on the left jamb of W2 and screw it from that frame with screws of 65" in back
    assert "at 135 degrees to its neighbour" in back
    assert "licensed practice" in back


def test_the_plan_shows_each_frame_and_post_with_its_number():
    bay = bay_of([600, 1200, 600], [135, 135])
    order = {step.name: step.number for step in assembly(bay)}
    view = plan_view(bay, 20.0, order)
    words = [item.text for group in view.groups if group.id in ("plan-words", "plan-order") for item in group.items if hasattr(item, "text")]
    assert {"W1", "W2", "W3", "P1", "P2", "1", "2", "3", "4", "5"} <= set(words)


@pytest.mark.parametrize(("load", "words"), [(None, "Nobody has said"), (True, "not before posts, jacks"), (False, "nothing above bears on it")])
def test_what_bears_on_it_is_said_and_asked(load, words):
    keys = {} if load is None else {"carries_load": load}
    (joined,) = sets_of(framed((600, 900), (600, 900)), a_set("bay", 2, angles=[135], **keys))
    assert words in said(installer_set_sheets(joined, JOB)[1])


def test_a_stack_says_which_frame_stands_on_which_and_how_heavy_it_is():
    """flush-70: 1.15 kg/m of frame, welded 3 mm at each end: (2 x 906 + 2 x 506) mm; glass 4/20/4: 20 kg/m2 x (798 x 398) mm."""
    (stack,) = sets_of(framed((900, 500), (900, 1350)), a_set("stacked", 2))
    assert frame_kg(stack.windows[0]) == pytest.approx(2 * (0.906 + 0.506) * 1.15)
    mass = 2 * (0.906 + 0.506) * 1.15 + 20 * 0.798 * 0.398
    assert f"W1, {mass:.0f} kg with its glass, stands on W2." in said(installer_set_sheets(stack, JOB)[1])


@pytest.mark.parametrize("name", ["canted bay", "row", "stack"])
def test_it_is_drawn_in_every_format(name):
    joined = SETS[name]()
    for kind in FORMATS.values():
        for sheet in installer_set_sheets(joined, JOB, kind.layout):
            assert len(kind.write(sheet)) > 5000
