"""Every bar of a job as pages: which pieces come out of it, to scale, and what is left."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.cutting.job import BarSet
from elevations.cutting.picture import bar_picture, bars_that_fit
from elevations.drawing.entities import Group
from elevations.sheets.page import BODY, Page

TITLE = "Bars to cut"
BETWEEN = 5.0
"""Between two profiles on one page, mm."""


def bar_pages(sets: Sequence[BarSet]) -> list[Page]:
    """The bars of all profiles, one profile after the other; a profile that does not fit its page goes on on the next."""
    filled: list[list[Group]] = [[]]
    top = BODY.top
    for number, bars in enumerate(sets, 1):
        first, count = 0, len(bars.plan.bars)
        while first < count:
            room = bars_that_fit(top - BODY.bottom)
            if room < min(2, count - first) and filled[-1]:
                filled.append([])
                top = BODY.top
                continue
            taken = max(1, min(room, count - first))
            picture = bar_picture(
                bars, left=BODY.left, top=top, width=BODY.width, prefix=f"bars-{number}-{first}", first=first, count=taken
            )
            filled[-1] += picture.groups
            first, top = first + taken, picture.bottom - BETWEEN
    total = sum(len(bars.plan.bars) for bars in sets)
    pages = [groups for groups in filled if groups]
    return [_page(groups, number, len(pages), total) for number, groups in enumerate(pages, 1)]


def _page(groups: Sequence[Group], number: int, count: int, bars: int) -> Page:
    title = f"{TITLE} ({number} of {count})" if count > 1 else TITLE
    return Page(title, f"{title}: {bars} bars and off-cuts in all, each with its pieces to scale.", tuple(groups))
