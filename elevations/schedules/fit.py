"""How frames fit their openings: one row a gap, and whether a sealant joint bridges it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.fit import Fitted, Gap, Site
from elevations.geometry.fit_bow import outward_words
from elevations.geometry.fit_deductions import between
from elevations.geometry.fit_findings import short_laps
from elevations.geometry.window import Window
from elevations.schedules.table import Column, Schedule, tidy
from elevations.shapes import Raked
from elevations.spec.site import Opening
from elevations.spelling import counted

TOLERANCE_MM = 0.05
"""A gap this little outside the joint's range still counts as inside: no tape reads it."""
BRIDGED, NARROW, TRIM, LAPPED = "sealant", "too narrow", "trim needed", "lapped by the wall"


@dataclass(frozen=True, slots=True)
class FitRow:
    """One place round a frame. Gaps to 0.1 mm; negative where the frame runs behind the wall."""

    tag: str
    mark: str
    side: str
    place: str
    gap_mm: float
    joint: str
    """sealant, too narrow, trim needed or lapped by the wall."""


def joint_of(site: Site, gap: Gap) -> str:
    """What a gap of that width asks for, by the job's own range of joints."""
    if gap.mm < 0:
        return LAPPED
    if gap.mm < site.fit.joint.least - TOLERANCE_MM:
        return NARROW
    return TRIM if gap.mm > site.fit.joint.most + TOLERANCE_MM else BRIDGED


def fit_rows(window: Window) -> Iterator[FitRow]:
    """Every corner and mid-side of a window whose opening was surveyed: jambs from the top, head and sill from the left."""
    site = window.site
    if site is None or site.fitted is None:
        return
    for gap in site.fitted.gaps:
        yield FitRow(
            tag=f"{window.mark} {gap.side}, {gap.place}", mark=window.mark, side=gap.side, place=gap.place,
            gap_mm=tidy(gap.mm, 1), joint=joint_of(site, gap),
        )


def trims(window: Window) -> list[str]:
    """The sides where a trim is needed."""
    return list(dict.fromkeys(row.side for row in fit_rows(window) if row.joint == TRIM))


def by_side(window: Window) -> list[tuple[str, str, str]]:
    """A row for each side: its gaps in their order, and what they ask for; where that is more than sealant at some places alone, which."""
    rows = list(fit_rows(window))
    found = []
    for side in dict.fromkeys(row.side for row in rows):
        own = [row for row in rows if row.side == side]
        joints = [joint for joint in dict.fromkeys(row.joint for row in own) if joint != BRIDGED]
        mixed = len({row.joint for row in own}) > 1
        said = [joint + (f": {', '.join(row.place for row in own if row.joint == joint)}" if mixed else "") for joint in joints]
        found.append((side, " · ".join(f"{abs(row.gap_mm) if row.joint == LAPPED else row.gap_mm:.1f}" for row in own), "; ".join(said) or BRIDGED))
    return found


def fit_words(window: Window) -> list[str]:
    """A window's fit in lines: opening, frame, gaps, joints."""
    site = window.site
    if site is None or site.fitted is None:
        return ["no opening was surveyed"]
    fitted = site.fitted
    least, most = fitted.smallest, fitted.largest
    made = "worked out from the opening" if fitted.worked_out else "as given"
    shape = window.shape.words(window.width.value, window.height.value)
    lines = [
        f"{_opening_words(fitted.opening)}, frame {window.width.value:g} × {window.height.value:g}{f', {shape},' if shape else ''} {made}",
    ]
    if fitted.hole.closing is not None:
        lines.append(f"closing error of the diagonals {abs(fitted.hole.closing):.1f}, at most {site.fit.closing_limit:g} is accepted")
    if site.fit.reveal.kind == "check":
        lines.append(_lap_words(site, fitted))
    else:
        lines.append(f"smallest gap {least:.1f}, largest {most:.1f}; sealant bridges {site.fit.joint.least:g} to {site.fit.joint.most:g}")
    lines += [allowance] if (allowance := allowance_words(fitted)) else []
    lines += [_sum_words(window, site, fitted, upright=upright) for upright in (False, True)]
    lines += [bowed] if (bowed := outward_words(fitted.hole)) else []
    if fitted.opening.head != "level":
        half = "; the middle of both jambs is half of the lower one up" if fitted.opening.head == "raked" else ""
        lines.append(f"gaps along the head are measured square to it{half}")
    lines.append(_trim_words(window, site, fitted))
    return lines


def _trim_words(window: Window, site: Site, fitted: Fitted) -> str:
    sides, short = trims(window), list(dict.fromkeys(gap.side for gap in short_laps(fitted, site.fit)))
    if short:
        return f"trims, or a larger frame where the inner hole takes it: {', '.join(dict.fromkeys([*short, *sides]))}"
    return f"trims: {', '.join(sides)}" if sides else "no trims needed"


def _lap_words(site: Site, fitted: Fitted) -> str:
    """How far the wall laps the frame behind a check; and where the frame ends short of it, by how much."""
    gaps = [gap for gap in fitted.gaps if gap.side != "sill"]
    laps, bare = [-gap.mm for gap in gaps if gap.mm <= 0], [gap for gap in gaps if gap.mm > 0]
    parts = [f"lapped by the wall {min(laps):.1f} to {max(laps):.1f} at jambs and head"] if laps else []
    if bare:
        sides = ", ".join(dict.fromkeys(gap.side for gap in bare))
        widths = f"{min(gap.mm for gap in bare):.1f} to {max(gap.mm for gap in bare):.1f}"
        parts.append(f"not lapped at {sides}, where the frame ends {widths} short of the wall and a lap of {site.fit.reveal.lap:g} was asked for")
    return "; ".join(parts)


def allowance_words(fitted: Fitted) -> str:
    """How much of the gap at the head is the head allowance, or what is left of that; empty without one."""
    kept = fitted.allowance
    if not kept:
        return ""
    if fitted.play < -TOLERANCE_MM:
        return f"of the head allowance of {kept:g} only {kept + fitted.play:.1f} is left at the tightest place"
    if fitted.opening.head == "level":
        return f"of each gap at the head {kept:g} is the head allowance"
    if fitted.opening.head == "raked":
        return f"of each gap at the head {kept:g}, taken plumb, is the head allowance"
    return f"of the gap at the crown {kept:g} is the head allowance, kept plumb: towards the springings there is less of it in the gap"


def _opening_words(opening: Opening) -> str:
    """The opening's governing sizes: the smallest, or jambs and crown."""
    left, middle, right = opening.height
    if opening.head == "level":
        return f"opening at least {min(opening.width):g} × {min(opening.height):g}"
    up = f"{left:g} left, {right:g} right" if opening.head == "raked" else f"{left:g} and {right:g} to the springings, {middle:g} to the crown"
    return f"opening under {'an' if opening.head == 'arched' else 'a'} {opening.head} head at least {min(opening.width):g} wide, {up}"


def _sum_words(window: Window, site: Site, fitted: Fitted, *, upright: bool) -> str:
    """The frame, what stands round it and its gaps at the middle as one sum, beside what the tape read there."""
    first, last = ("sill", "head") if upright else ("left jamb", "right jamb")
    size, read = (_middle_height(window), fitted.opening.height[1]) if upright else (window.width.value, fitted.opening.width[1])
    parts: list[tuple[float, str]] = []
    for side in (first, last):
        gap, stack = fitted.in_the_middle(side), [(each.mm, each.name) for each in between(site.fit, site.sill, side)]
        outward = [*stack, (gap, "gap" if gap >= 0 else "lap")]
        if side == "head" and fitted.over_middle is not None and fitted.opening.head != "arched":   # not square to it, as the gap is
            outward = [(fitted.over_middle, f"{' and '.join([*(name for _, name in stack), 'gap'])}, plumb")]
        parts += outward[::-1] if side == first else [(size, "frame"), *outward]
    text = " ".join(f"{'-' if mm < 0 else '+'} {abs(tidy(mm, 1)):g} {name}" for mm, name in parts).removeprefix("+ ")
    shown = sum(tidy(mm, 1) for mm, _ in parts)   # of the figures as they stand there, so that anyone can add them up
    return f"{'up' if upright else 'across'} the middle {text} = {shown:.1f}, and the tape read {read:g}"


def _middle_height(window: Window) -> float:
    """Of the frame, in the middle of its width or at its crown, mm."""
    shape = window.shape
    return (shape.left + shape.right) / 2 if isinstance(shape, Raked) else window.height.value


def totals(rows: Sequence[FitRow]) -> list[str]:
    """How many places need more than sealant."""
    bad = [row for row in rows if row.joint in (NARROW, TRIM)]
    windows = len({row.mark for row in rows})
    return [f"{counted(windows, 'window')} with a surveyed opening, {len(bad)} of {len(rows)} gaps outside the sealant's range"] if rows else []


FIT = Schedule(
    key="fit",
    title="Fit of frames in their openings",
    columns=(
        Column("tag", text=True),
        Column("mark", "mark", text=True),
        Column("side", "side", text=True),
        Column("place", "place", text=True),
        Column("gap_mm", "gap mm", decimals=1),
        Column("joint", "joint", text=True),
    ),
    rows=fit_rows,
    totals=totals,
)
