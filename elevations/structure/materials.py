"""How stiff materials are. Every figure here is from memory."""

from __future__ import annotations

from collections.abc import Mapping

E_N_MM2: Mapping[str, float] = {"pvc-u": 2200.0, "aluminium": 70_000.0, "steel": 210_000.0, "glass": 70_000.0}
"""Modulus of elasticity (from memory). PVC-U lies between 2,200 and 2,700: the lower is taken. Timber depends on its
species and grade: it has none here."""

GRAVITY_M_S2 = 9.81
