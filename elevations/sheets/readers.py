"""Who a sheet is for: one line a reader, each with the sheet that has what that reader needs and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Sheet
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.spec.model import Job

Sheets = Mapping[str, Sequence[Sheet]]
"""By style, paper or model: one sheet, or the pages it takes."""


@dataclass(frozen=True, slots=True)
class Standing:
    """How a window's approval stands, in words for a sheet; empty where the job keeps no approvals."""

    words: str = ""
    warning: str = ""
    """Large across the sheet: it goes out although it is not approved."""


@dataclass(frozen=True, slots=True)
class Reader:
    """Somebody who reads drawings."""

    key: str
    """As the user names them; files for others than the factory carry it in their names."""
    help: str
    styles: tuple[str, ...]
    """Of paper and model: what their sheet can be laid out for."""
    sheets: Callable[[Window, Job, Sequence[str], Standing], Sheets]
    """Window, job, styles wanted and how its approval stands, to a sheet a style."""
    pages: Callable[[Window, Job], int] | None = None
    """How many sheets a window takes, in every style the same, because files are named by it; None where it is always one."""
    of_set: Callable[[Joined, Job, Sequence[str], Sequence[Standing]], Sheets] | None = None
    """The same of a set of joined windows, with the standings of its windows; None where that reader has no sheet of sets."""
    set_pages: int = 1
    needs_approval: bool = False
    """Whether a window that is not approved as it now is must not reach them unasked."""


def _factory(window: Window, job: Job, styles: Sequence[str], standing: Standing) -> Sheets:
    from elevations.sheets.approved import with_approval
    from elevations.sheets.factory import factory_sheets

    made = factory_sheets(window, job, styles)
    if not standing.words:
        return {style: (sheet,) for style, sheet in made.items()}
    return {style: (with_approval(sheet, standing.words, warning=standing.warning),) for style, sheet in made.items()}


def _customer(window: Window, job: Job, styles: Sequence[str], standing: Standing) -> Sheets:
    from elevations.sheets.customer import customer_sheet

    agreed = (standing.words,) if standing.words else ()
    return {style: (customer_sheet(window, job, style, agreed=agreed),) for style in styles}


def _workshop(window: Window, job: Job, styles: Sequence[str], standing: Standing) -> Sheets:  # noqa: ARG001 (its lists say how approval stands)
    from elevations.sheets.glass_order import glass_page
    from elevations.sheets.page import sheets_of

    page = glass_page(window, job.workshop.unit_tolerance)
    return dict.fromkeys(styles, sheets_of([page], job.job, demonstration=window.system.demonstration))


def _installer(window: Window, job: Job, styles: Sequence[str], standing: Standing) -> Sheets:  # noqa: ARG001 (what is delivered is fitted)
    from elevations.sheets.installer_a4 import installer_sheets

    return {style: installer_sheets(window, job, style) for style in styles}


def _factory_set(joined: Joined, job: Job, styles: Sequence[str], standings: Sequence[Standing]) -> Sheets:
    from elevations.sheets.joined import joined_sheets

    made = joined_sheets(joined, job, standings)
    return {style: made[style] for style in styles}


def _customer_set(joined: Joined, job: Job, styles: Sequence[str], standings: Sequence[Standing]) -> Sheets:
    from elevations.sheets.customer_joined import customer_set_sheet

    agreed = [f"{window.mark}: {standing.words}" for window, standing in zip(joined.windows, standings, strict=False) if standing.words]
    return {style: (customer_set_sheet(joined, job, agreed),) for style in styles}


def _installer_set(joined: Joined, job: Job, styles: Sequence[str], standings: Sequence[Standing]) -> Sheets:  # noqa: ARG001 (what is delivered is fitted)
    from elevations.sheets.installer_joined import installer_set_sheets

    return {style: installer_set_sheets(joined, job, style) for style in styles}


def _installer_pages(window: Window, job: Job) -> int:
    from elevations.sheets.installer_a4 import page_count

    return page_count(window, job)


READERS: dict[str, Reader] = {
    reader.key: reader
    for reader in (
        Reader("factory", "the manufacturing drawing: elevation, sections, sizes, fixings", ("paper", "model"), _factory,
               of_set=_factory_set, needs_approval=True),
        Reader("customer", "the window as it will look, in plain words, with a place to sign", ("paper",), _customer,
               of_set=_customer_set),
        Reader("workshop", "the glass alone, its tags and sizes readable at arm's length", ("paper",), _workshop),
        Reader("installer", "marking out from the corners, packers, glass and its blocks, checklist", ("paper", "model"), _installer, _installer_pages,
               of_set=_installer_set, set_pages=2),
    )
}
