"""A DXF file's layout: the sheet at its true size in paper space, with a locked viewport on each view of the model."""

from __future__ import annotations

from ezdxf import const
from ezdxf.document import Drawing
from ezdxf.layouts.layout import Paperspace

from elevations.drawing.entities import Placed, Sheet

LAYOUT = "Sheet"
VIEWPORTS = "VIEWPORT"
"""The layer of the viewports' borders, which are never printed."""
AROUND = 0.5
"""Paper around a view, mm: half a line's width must not be cut."""


def add_layout(doc: Drawing, sheet: Sheet) -> Paperspace:
    """The layout of this sheet, 1:1 in mm, its viewports placed; what is drawn on the paper itself is left to do.

    Line types keep the scale that they have in the model: $PSLTSCALE is 0, because the model's patterns are made for the
    one scale of the sheet.
    """
    doc.layers.add(VIEWPORTS, color=9).dxf.plot = 0
    doc.header["$PSLTSCALE"] = 0
    doc.layouts.rename("Layout1", LAYOUT)
    layout = doc.paperspace(LAYOUT)
    layout.page_setup(size=(sheet.width, sheet.height), margins=(0, 0, 0, 0), units="mm", scale=(1, 1), name=LAYOUT, device="")
    for number, placed in enumerate(sheet.placed):
        _add_viewport(layout, placed, number)
    layout.dxf.limmin, layout.dxf.limmax = (0, 0), (sheet.width, sheet.height)
    return layout


def _add_viewport(layout: Paperspace, placed: Placed, number: int) -> None:
    """A viewport as large on paper as the view is; view and model share their place, so one point serves for both."""
    box, scale = placed.view.bounds, placed.scale
    width, height = box.width / scale + 2 * AROUND, box.height / scale + 2 * AROUND
    middle = (placed.at.x + (box.left + box.right) / 2 / scale, placed.at.y + (box.bottom + box.top) / 2 / scale)
    viewport = layout.add_viewport(
        center=middle, size=(width, height), view_center_point=(middle[0] * scale, middle[1] * scale), view_height=height * scale,
        status=number + 2, dxfattribs={"layer": VIEWPORTS},
    )
    viewport.dxf.flags = const.VSF_LOCK_ZOOM
