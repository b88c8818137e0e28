"""How many people a piece asks for: a first filter, for whoever plans the lift."""

from __future__ import annotations

ONE_PERSON_KG = 25.0
"""The UK guideline figure for a man lifting close to the body between knuckle and elbow height: HSE, manual handling
guidance INDG143 (from memory, not seen). It is a filter and no safe limit: for many people the figure is 16."""
TWO_PEOPLE_KG = 2 / 3 * 2 * ONE_PERSON_KG
"""A team of two manages about two thirds of what each could alone: same guidance, from memory."""
MORE = 3
"""More than two: with lifting gear, or as the assessment says."""

NOTE = (
    f"Lifting: over {ONE_PERSON_KG:g} kg two people, over {TWO_PEOPLE_KG:.0f} kg more than two or lifting gear (UK guideline "
    "figures, from memory). A filter, no safe limit: height, reach, wind, ladders and edges ask for less. Assess each lift."
)


def people_to_lift(mass_kg: float) -> int:
    """1, 2, or 3 for more than two people or lifting gear."""
    return 1 if mass_kg <= ONE_PERSON_KG else 2 if mass_kg <= TWO_PEOPLE_KG else MORE


def people_words(people: int) -> str:
    """'1', '2', 'over 2'."""
    return str(people) if people < MORE else "over 2"


def lift_words(people: int) -> str:
    """'two people', 'more than two people, or lifting gear'; empty for one."""
    return ("", "two people", "more than two people, or lifting gear")[people - 1]
