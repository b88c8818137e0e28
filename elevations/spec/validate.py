"""What is wrong with a job that no single key shows."""

from __future__ import annotations

from typing import Any

from elevations.errors import Problem


def problems_in(data: dict[str, Any]) -> list[Problem]:
    """All of them."""
    return []
