"""What a job adds up to, as rows: one file a schedule, listed here; and how each number came about."""

from __future__ import annotations

from typing import Any

from elevations.schedules.cutting import CUTTING
from elevations.schedules.fixings import FIXINGS
from elevations.schedules.glass import GLASS
from elevations.schedules.glass_order import GLASS_ORDER
from elevations.schedules.glazing_bars import GLAZING_BARS
from elevations.schedules.hardware import HARDWARE
from elevations.schedules.machining import MACHINING
from elevations.schedules.sills import SILLS
from elevations.schedules.sundries import SUNDRIES
from elevations.schedules.table import Schedule
from elevations.schedules.templates import TEMPLATES
from elevations.schedules.windows import WINDOWS

SCHEDULES: dict[str, Schedule[Any]] = {
    schedule.key: schedule
    for schedule in (GLASS, GLASS_ORDER, TEMPLATES, FIXINGS, WINDOWS, GLAZING_BARS, CUTTING, MACHINING, HARDWARE, SILLS, SUNDRIES)
}
