"""Checks: is this window allowed, strong, warm and safe? One file a rule, listed here.

A help in designing, no certificate: every answer says by which figure, of which document, and how sure that is. Local
codes and a licensed practice decide.
"""

from __future__ import annotations

from elevations.checks.cleaning import RULE as CLEANING
from elevations.checks.dead_load import RULE as DEAD_LOAD
from elevations.checks.edge_cover import RULE as EDGE_COVER
from elevations.checks.escape import RULE as ESCAPE
from elevations.checks.fixings import RULE as FIXINGS
from elevations.checks.glass_thickness import RULE as GLASS_THICKNESS
from elevations.checks.guarding import RULE as GUARDING
from elevations.checks.handling import RULE as HANDLING
from elevations.checks.purge import RULE as PURGE
from elevations.checks.restrictor import RULE as RESTRICTOR
from elevations.checks.rule import Rule
from elevations.checks.safety_glass import RULE as SAFETY_GLASS
from elevations.checks.sash_limits import RULE as SASH_LIMITS
from elevations.checks.security import RULE as SECURITY
from elevations.checks.u_value import RULE as U_VALUE
from elevations.checks.ventilation import RULE as VENTILATION
from elevations.checks.wind import RULE as WIND

RULES: dict[str, Rule] = {
    rule.key: rule
    for rule in (
        ESCAPE, SAFETY_GLASS, GUARDING, RESTRICTOR, VENTILATION, PURGE, U_VALUE, WIND, DEAD_LOAD, GLASS_THICKNESS, SASH_LIMITS, EDGE_COVER, FIXINGS,
        SECURITY, CLEANING, HANDLING,
    )
}
