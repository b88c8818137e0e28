"""What a frame's fit in its opening does not meet: said, and drawn all the same."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.errors import Finding
from elevations.geometry.fit import Fitted, Gap, Site
from elevations.geometry.fit_bow import of_which_bowed
from elevations.geometry.fit_lap import LAP_CODES
from elevations.geometry.sill import sill_findings
from elevations.spec.site import Fit

FIT_CODES = frozenset({
    "diagonals-missing", "diagonal-unchecked", "measure-again", "out-of-square", "gap-narrow", "trim-needed", "clearance-short", "allowance-short",
    "lap-short",
}) | LAP_CODES
"""Findings about a survey and the gaps, which the fit report tells; those of the sill are `elevations check`'s."""
LEAST_LAP_SHARE = 0.5      # less than half of the lap asked for shows light or loses the seal; our own rule
SURVEY = "common practice, no source"
PRACTICE = "a setting: fit.joint; sealant practice, from memory"


def site_findings(mark: str, site: Site | None) -> tuple[Finding, ...]:
    """Findings about the survey, the gaps and the sill of one window."""
    if site is None:
        return ()
    found = list(sill_findings(mark, site)) if site.sill else []
    if site.fitted:
        found = [*_survey(mark, site.fitted, site.fit), *_gaps(mark, site.fitted, site.fit), *found]
    return tuple(found)


def _survey(mark: str, fitted: Fitted, fit: Fit) -> Iterator[Finding]:
    hole, opening = fitted.hole, fitted.opening
    if hole.squared:
        yield Finding(
            "diagonals-missing", mark, "opening", "no diagonal was measured: the opening is taken as square as its sides allow",
            "measure both diagonals before the frame is made", rule=SURVEY,
        )
        return
    if hole.closing is None:
        yield Finding(
            "diagonal-unchecked", mark, "opening", "only one diagonal was measured, so nothing checks the sides", "measure the other one too",
            rule=SURVEY,
        )
        return
    if abs(hole.closing) > fit.closing_limit:
        assert opening.diagonals is not None
        yield Finding(
            "measure-again", mark, "opening",
            f"the lengths don't close: from the sides and the first diagonal the second would be {opening.diagonals[1] - hole.closing:.1f}, "
            f"but {opening.diagonals[1]:g} was measured, {abs(hole.closing):.1f} off",
            "measure the sides and both diagonals again", abs(hole.closing), fit.closing_limit, "a setting: fit.closing_limit",
        )
    assert opening.diagonals is not None
    differ = abs(opening.diagonals[0] - opening.diagonals[1])
    if opening.head == "raked":   # its jambs differ, and so do its diagonals
        return
    if differ > fit.trim_diagonals:
        yield Finding(
            "out-of-square", mark, "opening", f"the diagonals differ by {differ:g}: cover trims may be needed",
            "tell the customer before the order", differ, fit.trim_diagonals,
            "a setting: fit.trim_diagonals; 10: a timber window survey manual, read second hand",
        )


def _gaps(mark: str, fitted: Fitted, fit: Fit) -> Iterator[Finding]:
    lapped = fit.reveal.kind == "check"
    if lapped:
        yield from _laps(mark, fitted, fit)
    open_gaps = [gap for gap in fitted.gaps if not lapped or gap.side == "sill"]
    narrow = [gap for gap in open_gaps if gap.mm < fit.joint.least - 0.05]
    if narrow:
        least = min(narrow, key=lambda gap: gap.mm)
        yield Finding(
            "gap-narrow", mark, _sides(narrow), f"the gap is {least.mm:.1f} at the {least.side}, {least.place}, less than a joint of "
            f"{fit.joint.least:g} needs", "make the frame smaller, or agree a narrower joint", least.mm, fit.joint.least, PRACTICE,
        )
    wide = [gap for gap in open_gaps if gap.mm > fit.joint.most + 0.05]
    if wide:
        most = max(wide, key=lambda gap: gap.mm)
        yield Finding(
            "trim-needed", mark, _sides(wide), f"the gap is up to {most.mm:.1f} ({most.side}, {most.place}), more than sealant of {fit.joint.most:g} "
            f"bridges: a trim is needed there{of_which_bowed(fitted.hole, most.side, most.place)}",
            "order trims with the frame, or make good the reveal", most.mm, fit.joint.most, PRACTICE,
        )
    if not fitted.worked_out and not lapped and fitted.play < fitted.wanted - 0.05:
        yield _short(mark, fitted)


def _short(mark: str, fitted: Fitted) -> Finding:
    """Of a frame as given: it goes in, and leaves less than what the job keeps free."""
    if fitted.allowance and fitted.play < 0:
        left = fitted.allowance + fitted.play
        return Finding(
            "allowance-short", mark, "head", f"the frame leaves {left:.1f} of the head allowance of {fitted.allowance:g}, and no clearance besides",
            "a lower frame, or a smaller allowance where what hangs over it allows that", left, fitted.allowance, "a setting: fit.head_allowance",
        )
    said = f", after the head allowance of {fitted.allowance:g}" if fitted.allowance else ""
    return Finding(
        "clearance-short", mark, "frame", f"the frame goes in with {fitted.play:.1f} at the tightest place{said}, less than its clearance of "
        f"{fitted.wanted:g} each side", "a frame that can't move in heat binds or bows", fitted.play, fitted.wanted,
        "table of clearances, or fit.clearance",
    )


def short_laps(fitted: Fitted, fit: Fit) -> list[Gap]:
    """The places behind a check where the wall laps the frame by too little of what was asked for, or not at all."""
    least = LEAST_LAP_SHARE * (fit.reveal.lap or 0.0)
    return [gap for gap in fitted.gaps if fit.reveal.kind == "check" and gap.side != "sill" and -gap.mm < least]


def _laps(mark: str, fitted: Fitted, fit: Fit) -> Iterator[Finding]:
    wanted = fit.reveal.lap or 0.0
    short = short_laps(fitted, fit)
    if short:
        worst = max(short, key=lambda gap: gap.mm)
        where = f"({worst.side}, {worst.place})"
        said = (
            f"the frame ends {worst.mm:.1f} short of the wall {where} that was to lap it by {wanted:g}" if worst.mm > 0 else
            f"the wall laps the frame by {-worst.mm:.1f} only {where}, of {wanted:g} asked for"
        )
        yield Finding(
            "lap-short", mark, _sides(short), said,
            "make the frame larger if the inner hole takes it, or order trims", -worst.mm, LEAST_LAP_SHARE * wanted, "half the lap asked for; our own rule",
        )


def _sides(gaps: list[Gap]) -> str:
    return ", ".join(dict.fromkeys(gap.side for gap in gaps))
