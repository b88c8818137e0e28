"""The words of the checks for a reader's sheet, by England's figures; none where the job does not hold the window."""

from __future__ import annotations

from elevations.checks.rules_file import load_rules
from elevations.checks.run import Checked, case_of, checked
from elevations.checks.said import customer_heat, customer_words, factory_words
from elevations.geometry.window import Window
from elevations.spec.model import Job

RULES_OF_SHEETS = "england"


def for_factory(window: Window, job: Job) -> list[str]:
    """Lines for the factory's column; see `said.factory_words`."""
    found = _checked(window, job)
    return [] if found is None else factory_words(found)


def for_customer(window: Window, job: Job) -> list[str]:
    """Lines for the customer's pages; see `said.customer_words`."""
    found = _checked(window, job)
    return [] if found is None else customer_words(found)


def heat_for_customer(window: Window, job: Job) -> str:
    """A few words on warmth; see `said.customer_heat`."""
    found = _checked(window, job)
    return "" if found is None else customer_heat(found)


def _checked(window: Window, job: Job) -> Checked | None:
    case = case_of(job, window, load_rules(RULES_OF_SHEETS))
    return None if case is None else checked(case)
