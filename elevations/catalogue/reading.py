"""A profile system from its YAML file (stations only, so far)."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from elevations.catalogue.system import Profile, System


def read_system(file: Path, origin: str) -> System:
    """The system that a file describes."""
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    data: dict[str, Any] = yaml.load(file.read_text("utf-8"), Loader=loader)  # noqa: S506 (a safe loader)
    glazing = data["glazing"]
    thickness = glazing["thickness"]
    return System(
        name=data["system"],
        title=data["title"],
        material=data["material"],
        depth=float(data["depth"]),
        swing=data["swing"],
        sash_face=data["sash_face"],
        bead_side=glazing.get("bead_side", "inside"),
        sash_bead_side=glazing.get("sash_bead_side", "inside"),
        edge_clearance=float(glazing["edge_clearance"]),
        thickness=tuple(float(t) for t in (thickness if isinstance(thickness, list) else [thickness])),
        profiles={
            name: Profile(name=name, **{key: float(value) for key, value in figures.items()})
            for name, figures in data["members"].items()
        },
        bar_length=float(data.get("bar_length", 6000)),
        weld_allowance=float(data.get("weld_allowance", 0)),
        demonstration=data.get("demonstration", False),
        origin=origin,
    )
