"""What a sheet says of its approval: in the title block, and across the top where it must not be made from."""

from __future__ import annotations

from dataclasses import replace

from elevations.drawing.entities import Group, Label, Sheet
from elevations.drawing.layers import Layer
from elevations.plane import Point
from elevations.sheets.factory import MARGIN
from elevations.sheets.title_block import APPROVED, approved_field

WARNING = 5.0


def with_approval(sheet: Sheet, words: str, *, warning: str = "") -> Sheet:
    """The sheet with these words in its 'Approved by' field. `warning`: large, above the border.

    For sheets with our title block in the bottom right corner of the border.
    """
    groups = [_without_name(group) if group.id == "title-block" else group for group in sheet.groups]
    groups.append(approved_field(words, sheet.width - MARGIN, MARGIN))
    if warning:
        at = Point(sheet.width / 2, sheet.height - MARGIN / 2)
        label = Label(warning, at, WARNING, Layer.FIXING, align="centre", level="middle", bold=True)
        groups.append(Group("approval-warning", (label,), warning))
    return replace(sheet, description=f"{sheet.description} {words[0].upper()}{words[1:]}.", groups=tuple(groups))


def _without_name(title_block: Group) -> Group:
    """Without the name of the field that the words fill."""
    kept = tuple(item for item in title_block.items if not (isinstance(item, Label) and item.text == APPROVED))
    return replace(title_block, items=kept)
