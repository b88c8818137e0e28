"""What else is cut to length for a window: frame extensions, the sill under the frame, glazing bars on the faces of its glass.

Head and sill extensions run over those of the jambs (common practice, no source). Bars between the panes come with the unit.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.catalogue.strips import Strip, is_unlisted, of_size
from elevations.errors import Finding
from elevations.geometry.along import acute_degrees, mitre_angles
from elevations.geometry.cut_length import is_bent
from elevations.geometry.fit_fixing import kind_of_side
from elevations.geometry.sill import cut_length, sill_ends
from elevations.geometry.window import GlazingBar, Member, Window
from elevations.plane import SAME_MM, Corner
from elevations.schedules.cutting_row import BENT_ENDS, TO_BEND, CuttingRow, coloured
from elevations.schedules.pieces import in_order
from elevations.schedules.table import tidy
from elevations.spelling import counted

SUB_SILL = "sub-sill"
"""The sill under the frame, in the names of pieces: 'W1-sill' is the frame's own bottom member."""
EXTENDED = {"left jamb": "left", "right jamb": "right", "head": "head", "sill": "sill"}
FACES = ("outside", "inside")
UNLISTED = ", not in the system"
"""In the name of bars that the system does not list."""


def extension_rows(window: Window) -> Iterator[CuttingRow]:
    """One length along each frame member on a side that has an extension."""
    if window.site is None:
        return
    add_ons, listed = window.site.fit.add_ons, window.system.strips.extensions
    for member in window.members:
        width = getattr(add_ons, EXTENDED[kind_of_side(member.tag)])
        if not width:
            continue
        strip = of_size(listed, width)
        length, said = _along(member, add_ons.left + add_ons.right)
        missing = f"{window.system.name} lists none {width:g} wide" if is_unlisted(listed, width) else ""
        yield CuttingRow(
            profile=f"frame extension {width:g}", system=window.system.name, **coloured(window), length_mm=tidy(length, 1), ends="90/90",
            weld_each_end_mm=0, quantity=1, mass_kg=_kg(strip, length), pieces=(f"{window.mark}-{member.tag} extension",),
            remark="; ".join(filter(None, (said, missing))), bar_length_mm=window.system.bar_length,
            form=TO_BEND if is_bent(member) else "", stock=f"frame extension {width:g}{UNLISTED}" if missing else "",
        )


def _along(member: Member, jambs_mm: float) -> tuple[float, str]:
    """Length of an extension along a member, mm, and what is to say of it."""
    a, b = member.outer
    length = member.face.length(0)
    if is_bent(member):
        return length, f"bent: length along the frame's outer edge, {BENT_ENDS}"
    if abs(a.x - b.x) < SAME_MM:
        return length, ""
    if abs(a.y - b.y) < SAME_MM:
        return length + jambs_mm, "runs over those of the jambs" if jambs_mm else ""
    return length, "length along the frame's outer edge; its ends are cut to its neighbours"


def sill_rows(window: Window) -> Iterator[CuttingRow]:
    """The sill under the frame, horns included."""
    site = window.site
    if site is None or site.sill is None:
        return
    length, listed = cut_length(window), window.system.strips.sills
    strip = of_size(listed, site.sill.projection)
    ends = sill_ends(window)
    caps = sum(end.free for end in ends) if site.sill.end_caps else 0
    missing = f"{window.system.name} lists none of that projection" if is_unlisted(listed, site.sill.projection) else ""
    yield CuttingRow(
        profile=f"sill {site.sill.projection:g}", system=window.system.name, finish_outside=window.finish.outside, finish_inside="",
        length_mm=tidy(length, 1), ends="/".join(f"{90 - end.mitre:g}" for end in ends), weld_each_end_mm=0, quantity=1, mass_kg=_kg(strip, length),
        pieces=(f"{window.mark}-{SUB_SILL}",), remark="; ".join(filter(None, (counted(caps, "end cap") if caps else "", missing))),
        bar_length_mm=window.system.bar_length, stock=f"sill {site.sill.projection:g}{UNLISTED}" if missing else "",
    )


def strip_findings(window: Window) -> Iterator[Finding]:
    """Extensions and a sill of a size that the system lists none of: they can't be ordered, though a length of each is reckoned."""
    system, site = window.system, window.site
    if site is None:
        return
    add_ons = site.fit.add_ons
    asked = [(side, getattr(add_ons, side), "extension", "extensions") for side in dict.fromkeys(EXTENDED.values()) if getattr(add_ons, side)]
    asked += [(SUB_SILL, site.sill.projection, "sill", "sills")] if site.sill else []
    for subject, size, what, key in asked:
        listed = getattr(system.strips, key)
        if is_unlisted(listed, size):
            named = "frame extension" if what == "extension" else what
            yield Finding(
                "size-not-listed", window.mark, subject if what == "sill" else f"{subject} extension", f"{system.name} lists no {named} of {size:g}",
                f"it lists {', '.join(f'{strip.size_mm:g}' for strip in sorted(listed, key=lambda one: one.size_mm))}; take one of these, or add it to '{key}' in the system's file",
                size, rule=f"{system.name}: {key}",
            )


def _kg(strip: Strip | None, length_mm: float) -> float | None:
    return None if strip is None or strip.kg_per_m is None else strip.kg_per_m * length_mm / 1000


def glazing_bar_rows(window: Window) -> Iterator[CuttingRow]:
    """Two lengths for each bar on the face of the glass, each in the colour of its side of the window."""
    figures = window.system.glazing_bars.get("on-face")
    for pane in window.panes:
        for bar in pane.bars:
            if bar.kind != "on-face":
                continue
            length, (ends, said) = bar.length.value, _ends(bar)
            for face in FACES:
                yield CuttingRow(
                    profile=f"glazing bar on the face {bar.width:g} x {bar.depth:g}", system=window.system.name,
                    finish_outside=getattr(window.finish, face), finish_inside="", length_mm=tidy(length, 1), ends=ends,
                    weld_each_end_mm=0, quantity=1, mass_kg=None if figures is None or figures.kg_per_m is None else figures.kg_per_m * length / 1000,
                    pieces=(f"{window.mark}-{bar.tag} {face}",), remark=said, bar_length_mm=window.system.bar_length,
                    form=TO_BEND if bar.face.corners[0].bulge else said,
                )


def _ends(bar: GlazingBar) -> tuple[str, str]:
    """How the ends of a glazing bar are cut, top or left one first, and what angles don't say."""
    if bar.centre is None or bar.ends.endswith("mitred"):
        a, b, c, d = bar.face.corners
        return in_order(a, b, mitre_angles(a, b, c, d)).words, f"bent: length along its outer edge, {BENT_ENDS}" if a.bulge else ""
    along = 1 if bar.upright else 0
    ends = [_end(bar, along, high=high) for high in ((True, False) if bar.upright else (False, True))]
    names = ("top", "bottom") if bar.upright else ("left", "right")
    scribed = [f"{name} end scribed to the sight line" for name, angle in zip(names, ends, strict=True) if angle is None]
    return "/".join(f"{90 if angle is None else angle:g}" for angle in ends), "; ".join(scribed)


def _end(bar: GlazingBar, along: int, *, high: bool) -> float | None:
    """Degrees between a bar's length and the straight cut at one end; None where the end is bent or of several cuts."""
    middle = bar.face.bounds.centre[along]
    cuts = [
        (a, b) for a, b in bar.face.edges()
        if abs(a[1 - along] - b[1 - along]) > SAME_MM and ((a[along] + b[along]) / 2 > middle) is high
    ]
    if len(cuts) != 1 or cuts[0][0].bulge:
        return None
    return _against(*cuts[0], along)


def _against(a: Corner, b: Corner, along: int) -> float:
    return acute_degrees(math.atan2(b.y - a.y, b.x - a.x) - (math.pi / 2 if along else 0.0))
