"""What the readers' sheets say of the checks."""

from pathlib import Path

import pytest

from elevations import pipeline
from elevations.sheets.column import column
from elevations.sheets.customer import customer_sheet
from elevations.sheets.customer_notes import notes_sheets
from elevations.sheets.factory import factory_sheet

SPECS = Path(__file__).parents[2] / "specs"


@pytest.fixture(scope="module")
def england():
    loaded = pipeline.read(str(SPECS / "checks-england.yaml"))
    return loaded.job, list(pipeline.windows(loaded))


def said(sheet):
    """Every text of a sheet, in one line."""
    texts = [item.text for group in sheet.groups for item in group.items if hasattr(item, "text")]
    return " ".join(texts)


def test_the_factory_sheet_says_how_its_checks_came_out(england):
    job, windows = england
    text = said(factory_sheet(windows[1], job, "paper"))
    assert "Checks: a help, no certificate" in text
    assert "fail: G2, its glass begins 539 mm above" in text
    assert "pass: M1, deflection under wind" in text
    assert "guarding" not in text.split("This sheet is no certificate")[0]


def test_a_job_without_its_windows_says_nothing_of_checks(england):
    job, windows = england
    assert "Checks:" not in said(factory_sheet(windows[1], job.model_copy(update={"windows": ()}), "paper"))


def test_a_full_column_says_how_many_checks_are_left_out(england):
    window = england[1][1]
    lines = [f"fail: G{number}, something that takes a line of the column" for number in range(30)]
    short = column(window, 70, 190, apex_at_hinge=True, checks=lines)
    text = " ".join(item.text for item in short.upper.items if hasattr(item, "text"))
    assert "and 29 more: run the check" in text
    assert "something that takes" in text


def test_the_customers_sheets_say_how_warm_a_window_is(england):
    job, windows = england
    assert "Warmth U-value 1.33 W/m²K, worked out" in said(customer_sheet(windows[0], job))
    (notes,) = notes_sheets(windows, job, {window.mark: "0000-0000" for window in windows})
    text = said(notes)
    assert "Warmth: U-value 1.33 W/m²K; the lower, the warmer." in text
    assert "To be settled with you" in text
    assert "estimates to help you choose" in text
