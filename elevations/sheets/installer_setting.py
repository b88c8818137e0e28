"""What the installer's sheet says of setting a frame true: tolerances, every gap, packing under the sill, the sill, what is to be settled."""

from __future__ import annotations

import re
from collections.abc import Iterator

from elevations.geometry.diagonals import jamb_diagonals
from elevations.geometry.sill import cut_length, sill_ends, sill_notch, weeps
from elevations.geometry.tightening import tightening_order
from elevations.geometry.window import Window
from elevations.schedules.fit import allowance_words, by_side, trims
from elevations.spec.site import Fit
from elevations.views.table import TEXT, Block, heading, paragraph, stack, table

CAUTIONS = (
    "Assess each lift, wind and height first: masses leave out hardware and steel. Work above ground needs a platform and a plan. Fixings are "
    "as usual in such walls, not proved for this one: loads, guarding, safety glass and escape are for local codes and a licensed practice."
)
SAME_DIAGONALS_MM = 0.5
"""Diagonals that differ by less are to be equal: no tape reads it."""
FIXING = re.compile(r"\bF\d+\b")


def setting_true(window: Window, width: float, text: float = TEXT) -> Block:
    """Tolerances, the order to tighten, and where the opening was surveyed how the frame stands in it."""
    fit = window.site.fit if window.site else Fit()
    true = fit.tolerances
    lines = [
        f"Level and plumb within {true.plumb:g} over any member; straight within {true.bow:g}; {_diagonals(window, true.diagonals)}.",
        ("Tighten in the order of the figures in circles, opposite corners first, what lies between last. Pack at a fixing before it is tightened: "
        "a screw pulled up over a gap bows the frame. Measure the middle width again after each."),
    ]
    lines += [said for said in (packing_words(window),) if said]
    sides = trims(window)
    lines += [f"Trims: {', '.join(sides)}."] if sides else []
    return stack([heading("Setting true", width), *(paragraph(words, width, height=text) for words in lines)], 0.6)


def _diagonals(window: Window, within: float) -> str:
    """How long the frame's diagonals are, and how far apart they may be: under a slope they differ, and a frame made equal would be racked."""
    found = jamb_diagonals(window)
    if found is None:
        return f"diameters, each {window.width.value:g}, equal within {within:g}" if window.frame.sides[0].tag.startswith("ring") else "true to its drawing"
    left, right = found
    ends = "" if window.frame.outline.is_box else " from the jambs' upper ends"
    if abs(left - right) < SAME_DIAGONALS_MM:
        return f"diagonals{ends}, each about {left:.0f}, equal within {within:g}"
    return f"diagonals{ends}: {left:.0f} from the left one, {right:.0f} from the right one, each within {within / 2:g}"


def packing_words(window: Window) -> str:
    """What is packed under the sill, or the frame, so that it stands level on what was surveyed; empty where nothing was."""
    site = window.site
    if site is None or site.fitted is None:
        return ""
    packers = site.sill.packers if site.sill else 0.0
    under = [gap.mm + packers for gap in site.fitted.gaps if gap.side == "sill"]
    what = "sill" if site.sill else "add-on" if site.fit.add_ons.sill else "frame"
    left, middle, right = (f"{mm:.1f}" for mm in under)
    own = f" (the gap, and {packers:g} of packers)" if packers else ""
    return f"Pack under the {what}: {left} at the frame's left end, {middle} in its middle, {right} at its right end{own}; then it stands level."


def gaps_table(window: Window, width: float, text: float = TEXT) -> Block | None:
    """Every gap where the frame stands as it was fitted, and what each side asks for; None where no opening was surveyed."""
    site = window.site
    if site is None or site.fitted is None:
        return None
    said = f"Jambs from the top, head and sill from the left. Joints {site.fit.joint.least:g} to {site.fit.joint.most:g}"
    allowance = allowance_words(site.fitted)
    said += f"; {allowance}." if allowance else "."
    if site.fit.reveal.kind == "check":
        said += " At jambs and head: by how much the outer leaf laps the frame."
    rows = by_side(window)
    return stack([
        heading("Gaps where the frame stands, mm", width), paragraph(said, width, height=text),
        table(("Side", "Gaps", "Joint"), rows, width, height=text, wide=2),
    ], 0.6)


def sill_words(window: Window, width: float, text: float = TEXT) -> Block | None:
    """Cut length, ends, notches, weeps; None without a sill."""
    site = window.site
    if site is None or site.sill is None:
        return None
    sill, length, (left, right) = site.sill, cut_length(window), sill_ends(window)
    ends = [end.words(caps=sill.end_caps) for end in (left, right)]
    ended = f"both ends: {ends[0]}" if ends[0] == ends[1] else f"left {ends[0]}; right {ends[1]}"
    said = [
        f"Cut {length:.1f}".removesuffix(".0") + f" long; {ended}; projection {sill.projection:g}, {sill.height:g} high"
        + (f", upstand {sill.upstand:g}" if sill.upstand else "") + (f", packers {sill.packers:g}" if sill.packers else ""),
    ]
    notch = sill_notch(window)
    if notch is not None:
        said.append(
            f"Notch both back corners {notch.length:.1f} along and {notch.depth:g} from the frame's inner face out: {notch.through:.1f} is left between the "
            f"reveals. Horns pass before the wall by {sill.projection - (notch.depth - window.system.depth):g}."
        )
    if not (left.free and right.free):
        said.append("Where two sills meet: a joint piece or sealant under and between them, as the system's supplier says.")
    said.append(f"Weeps from its left end: {', '.join(f'{at:.0f}' for at in weeps(length, window.system.weeps))} ({window.system.weeps.source})")
    return stack([heading("Sill", width), *(paragraph(words, width, height=text) for words in said)], 0.6)


def to_settle(window: Window) -> Iterator[str]:
    """Each finding with what would do; a fixing by its number in a circle, for that is what the drawing carries."""
    circles = {point.tag: number for number, point in enumerate(tightening_order(window), 1)}

    def circled(found: re.Match[str]) -> str:
        return f"the fixing in circle {circles[found.group()]}" if found.group() in circles else found.group()

    for f in window.findings:
        yield FIXING.sub(circled, "; ".join(part for part in (f"{f.subject}: {f.message}", f.hint) if part))


def settle_blocks(window: Window, width: float, text: float = TEXT) -> list[Block]:
    """What is to be settled before the frame goes in, each whole; empty where there is nothing."""
    return [paragraph(said, width, height=text) for said in to_settle(window)]


def setting_words(window: Window, width: float, text: float, *, settle_on: int | None) -> Block:
    """How it is set true, its gaps, its sill, what is to be settled (or on which page that is), cautions."""
    blocks = [setting_true(window, width, text), gaps_table(window, width, text), sill_words(window, width, text), _settled(window, width, text, settle_on)]
    return stack([*(block for block in blocks if block is not None), cautions(width, text)], 4.0)


def _settled(window: Window, width: float, text: float, settle_on: int | None) -> Block | None:
    if not window.findings:
        return None
    if settle_on is not None:
        lines = [paragraph(f"{len(window.findings)} points, on page {settle_on}: before the frame goes in", width, height=text, bold=True)]
    else:
        lines = settle_blocks(window, width, text)
    return stack([heading("To be settled", width), *lines], text * 0.4)


def cautions(width: float, text: float = TEXT) -> Block:
    """What the sheet does not say is safe."""
    return stack([heading("Cautions", width), paragraph(CAUTIONS, width, height=text)])


def in_columns(blocks: list[Block], room: float, gap: float) -> list[Block]:
    """Blocks one under the other in columns of that height, in their order, none divided."""
    columns: list[list[Block]] = []
    left = 0.0
    for block in blocks:
        if not columns or block.height > left:
            columns.append([])
            left = room
        columns[-1].append(block)
        left -= block.height + gap
    return [stack(column, gap) for column in columns]
