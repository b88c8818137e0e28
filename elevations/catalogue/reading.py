"""A profile system from the text of its YAML file.

Only figures are needed; every other key has a default:

    depth: 70                     # of the frame, outer to inner face
    material: pvc-u               # pvc-u, timber, aluminium
    swing: out                    # out, in
    sash_face: flush              # flush, lipped
    members:
      frame:   {sight: 66, rebate: 46, sash: 43}
      mullion: {sight: 38, rebate: 18, sash: 15}
      transom: {sight: 38, rebate: 18, sash: 15}
      sash:    {sight: 76, rebate: 56}
    glazing: {edge_clearance: 5, thickness: 28}      # or a list of the thicknesses that fit

A mullion and a transom with the same figures and outline are cut from the same bars; members that share bars otherwise, or
must not, say so: `stock: bar-60`, the bars' name. `glazing` may give `bead_kg_per_m`; without it a bead weighs what its outline does.

What each figure means is said in `elevations.catalogue.system`; section outlines (`sections`) are described in
`elevations.catalogue.outlines`; hardware and reinforcement in `elevations.catalogue.hardware`; `drainage` and `pressure_holes`
in `elevations.catalogue.drainage`; glazing bars in `elevations.catalogue.glazing_bars`; `frame_fixings` in `elevations.catalogue.anchors`;
`sill_weeps` in `elevations.catalogue.weeps`; `joining` in `elevations.catalogue.joining`; `extensions` and `sills` in `elevations.catalogue.strips`; `openings`, `pivot`, `pair` and `sliding` in
`elevations.catalogue.opening_figures`. All lengths are mm.
Figures for checks: `u_f` (W/m2K: one for all, or {frame: 1.3, frame+sash: 1.4, mullion: 1.5 …}) and `modulus` (N/mm2).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from elevations.catalogue.anchors import read_frame_fixings
from elevations.catalogue.blocks import Asked, Block, Report
from elevations.catalogue.drainage import read_slots
from elevations.catalogue.glazing_bars import read_glazing_bars
from elevations.catalogue.hardware import read_hardware, read_reinforcement
from elevations.catalogue.joining import read_joining
from elevations.catalogue.opening_figures import read_opening_figures
from elevations.catalogue.outlines import read_sections
from elevations.catalogue.strips import read_strips
from elevations.catalogue.system import BARS, MEMBERS, Profile, System
from elevations.catalogue.weeps import read_weeps
from elevations.errors import Problem, SpecError
from elevations.yaml_source import read_document

MATERIALS = ("pvc-u", "timber", "aluminium")
SIDES = ("outside", "inside")
KEYS = (
    "system", "title", "demonstration", "material", "depth", "swing", "sash_face", "bar_length", "weld_allowance",
    "members", "glazing", "extensions", "sills", "sections", "hardware", "reinforcement", "drainage", "pressure_holes",
    "u_f", "modulus", "glazing_bar", "openings", "pivot", "pair", "sliding", "frame_fixings", "sill_weeps", "joining",
)  # fmt: skip
LARGEST_MM = 500.0
"""No station, depth or unit is larger: beyond it lies a slip of the decimal point."""
LONGEST_BAR_MM = 15_000.0


class Read(NamedTuple):
    """What reading a system file gave."""

    system: System | None
    """None where there are problems."""
    problems: tuple[Problem, ...]
    drawings: tuple[Path, ...]
    """Files that it depends on besides its own."""
    asked: Mapping[tuple[str, ...], Asked] = MappingProxyType({})
    """What its readers asked of each key that they know."""


def read_system(text: str, file: str, folder: Path, *, built_in: bool = False) -> Read:
    """The system that the text describes, or every problem with it, each placed in `file`.

    `file` is the name in messages, `folder` where the system's drawings lie. The outlines of a built-in system are
    taken as they are, for its tests have proved them.
    """
    try:
        document = read_document(text, file)
    except SpecError as error:
        return Read(None, error.problems, ())
    report = Report(document)
    top = Block(report, (), document.data, "a profile system")
    if document.data is None:
        report.say((), "empty-file", "the file is empty", "a profile system needs 'members', 'depth', 'glazing' …")
    top.only(KEYS)
    depth = top.required("depth", low=0, high=LARGEST_MM, hint="depth of the frame from face to face, mm")
    profiles = _members(top, depth)
    glazing = _Glazing(top, profiles)
    sections, drawings = read_sections(top, profiles, depth, folder, proved=built_in)
    profiles = {key: replace(profile, section=sections.get(key)) for key, profile in profiles.items()}
    system = _system(top, depth or 0.0, profiles, glazing, "built in" if built_in else file)
    if report.problems:
        return Read(None, report.in_order(), drawings, report.asked)
    return Read(system, (), drawings, report.asked)


def _system(top: Block, depth: float, profiles: dict[str, Profile], glazing: _Glazing, origin: str) -> System:
    name = top.text("system", Path(origin).stem)
    bar_length = top.number("bar_length", low=0, high=LONGEST_BAR_MM, above=True)
    return System(
        name=name,
        title=top.text("title", name),
        material=top.choice("material", MATERIALS),
        depth=depth,
        swing=top.choice("swing", ("out", "in")),
        sash_face=top.choice("sash_face", ("flush", "lipped")),
        bead_side=glazing.bead_side,
        sash_bead_side=glazing.sash_bead_side,
        edge_clearance=glazing.edge_clearance or 0.0,
        thickness=glazing.thickness,
        profiles=profiles,
        bar_length=6000.0 if bar_length is None else bar_length,
        weld_allowance=top.number("weld_allowance", low=0, high=20) or 0.0,
        demonstration=top.flag("demonstration"),
        hardware=read_hardware(top),
        reinforcement=read_reinforcement(top),
        drainage=read_slots(top, "drainage"),
        pressure_holes=read_slots(top, "pressure_holes"),
        glazing_bars=read_glazing_bars(top),
        ways=read_opening_figures(top),
        frame_fixings=read_frame_fixings(top, depth),
        u_f_w_m2k=_u_f(top),
        weeps=read_weeps(top),
        joining=read_joining(top, depth, profiles["frame"].rebate if "frame" in profiles else None),
        strips=read_strips(top),
        bead_kg_per_m=glazing.bead_kg_per_m,
        modulus_n_mm2=top.number("modulus", low=500, high=300_000, hint="N/mm2: about 11000 for softwood along the grain"),
        origin=origin,
    )


def _u_f(top: Block) -> dict[str, float]:
    """Declared Uf by member; one figure alone is for all of them."""
    given = top.data.get("u_f")
    if given is None:
        return {}
    if not isinstance(given, dict):
        one = top.number("u_f", low=0.1, high=10, hint="W/m2K of the frame profiles")
        return {} if one is None else {"frame": one}
    block = Block(top.report, ("u_f",), given, "'u_f'")
    names = [f"{member}{ring}" for member in MEMBERS[:-1] for ring in ("", "+sash")]
    block.only(names)
    found = {name: block.number(name, low=0.1, high=10, hint="W/m2K") for name in names}
    return {name: value for name, value in found.items() if value is not None}


def _members(top: Block, depth: float | None) -> dict[str, Profile]:
    """Figures of each member that could be read; what is missing or makes no sense is reported."""
    if top.data.get("members") is None:
        top.missing("members", "the figures of frame, mullion, transom and sash")
    members = Block(top.report, ("members",), top.data.get("members"), "'members'")
    members.only(MEMBERS)
    profiles = {}
    for name in MEMBERS:
        if members.data.get(name) is None:
            if members.given:
                members.missing(name, "for example {sight: 66, rebate: 46, sash: 43}" if name != "sash" else
                                      "for example {sight: 76, rebate: 56}")
            continue
        block = Block(top.report, ("members", name), members.data[name], f"'{name}'")
        profile = _profile(block, name, depth or LARGEST_MM) if block.given else None
        if profile is not None:
            profiles[name] = profile
    return profiles


def _profile(block: Block, name: str, depth: float) -> Profile | None:
    hangs, bar = name != "sash", name in BARS
    block.only(("sight", "rebate", *(("sash",) if hangs else ()), *(("joint",) if bar else ()),
                "glass", "bead", "kg_per_m", "stock"))  # fmt: skip
    datum = "its centre line" if bar else "its outer edge"
    sight = block.required("sight", low=0, high=LARGEST_MM, hint=f"mm from {datum} to where the glass shows")
    rebate = block.required("rebate", low=0, high=LARGEST_MM, hint=f"mm from {datum} to the glazing platform")
    sash = None
    if hangs:
        sash = block.required("sash", low=0, high=LARGEST_MM, hint=f"mm from {datum} to a sash hung in it")
    joint = block.number("joint", low=0, high=100) if bar else None
    glass = block.number("glass", low=-depth, high=depth, hint="mm from the frame's outer face to the glass")
    bead = block.number("bead", low=0, high=LARGEST_MM)
    kg_per_m = block.number("kg_per_m", low=0, high=100, above=True, hint="kg for each metre")
    if sight is None or rebate is None or (hangs and sash is None):
        return None
    if rebate >= sight:
        block.say(
            "rebate", "rebate-past-sight", f"the rebate of '{name}' ({rebate:g}) must be less than its sight ({sight:g})",
            "the glass edge is hidden between the two",
        )  # fmt: skip
    if sash is not None and sash >= sight:
        block.say(
            "sash", "sash-past-sight", f"the sash in '{name}' ({sash:g}) must start before its sight line ({sight:g})",
            "a sash laps over the member that it closes against",
        )  # fmt: skip
    if bead is not None and bead >= sight:
        block.say("bead", "bead-past-sight", f"the bead of '{name}' ({bead:g}) must start before its sight ({sight:g})")
    return Profile(name, sight, rebate, sash, joint or 0.0, glass, bead, kg_per_m, stock=block.text("stock", ""))


class _Glazing:
    """The `glazing` block."""

    def __init__(self, top: Block, profiles: dict[str, Profile]) -> None:
        if top.data.get("glazing") is None:
            top.missing("glazing", "for example {edge_clearance: 5, thickness: 28}")
        block = Block(top.report, ("glazing",), top.data.get("glazing"), "'glazing'")
        block.only(("edge_clearance", "thickness", "bead_side", "sash_bead_side", "bead_kg_per_m"))
        self.bead_side = block.choice("bead_side", SIDES, "inside")
        self.sash_bead_side = block.choice("sash_bead_side", SIDES, "inside")
        self.bead_kg_per_m = block.number("bead_kg_per_m", low=0, high=10, above=True, hint="kg for each metre of bead")
        self.thickness = self._thickness(block) if block.given else ()
        self.edge_clearance: float | None = None
        if block.given:
            self.edge_clearance = block.required(
                "edge_clearance", low=0, high=50, above=False, hint="mm between the glass edge and the platform"
            )
        for profile in profiles.values():
            cover = profile.sight - profile.rebate
            if self.edge_clearance is not None and 0 < cover <= self.edge_clearance:
                block.say(
                    "edge_clearance", "glass-not-covered",
                    f"with {self.edge_clearance:g} of clearance the glass edge shows: '{profile.name}' covers {cover:g}",
                    "sight less rebate must be more than the clearance",
                )  # fmt: skip

    @staticmethod
    def _thickness(block: Block) -> tuple[float, ...]:
        value = block.data.get("thickness")
        path = (*block.path, "thickness")
        if value is None:
            block.missing("thickness", "unit thicknesses that fit, for example [24, 28]")
            return ()
        items = value if isinstance(value, list) else [value]
        if not items:
            block.say("thickness", "no-thickness", "'thickness' is an empty list", "for example [24, 28]")
        found = [
            block.as_number((*path, i) if isinstance(value, list) else path, item, "thickness")
            for i, item in enumerate(items)
        ]
        good = tuple(sorted({t for t in found if t is not None}))
        if any(not 0 < t <= LARGEST_MM for t in good):
            block.say(
                "thickness", "out-of-range", f"a unit is more than 0 and at most {LARGEST_MM:g} thick",
                "in mm: a 4/20/4 unit is 28",
            )  # fmt: skip
        return good
