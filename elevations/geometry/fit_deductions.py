"""What comes off an opening on each side before the frame fills the rest: clearance, add-ons, sill, allowance, lining; or a check's lap."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from elevations.catalogue.clearances import clearance_for, finish_kind
from elevations.catalogue.system import System
from elevations.errors import Path
from elevations.geometry.hole import Inward
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import Fit, Opening, Sill
from elevations.working import Source, Term


@dataclass(frozen=True, slots=True)
class Kept:
    """What comes off on each side, as terms (negative amounts), and how much of it is clearance."""

    left: tuple[Term, ...]
    right: tuple[Term, ...]
    sill: tuple[Term, ...]
    head: tuple[Term, ...]
    stack: Inward
    """Of it, what stands between the frame and the gap, mm: all but clearance, head allowance and lap."""
    allowance: float
    """Of it, what is kept free over the frame besides the clearance, mm."""
    clearance: float
    """Each side, mm."""

    def inward(self) -> Inward:
        """All of it on each side, mm; negative where the frame runs behind a check."""
        return Inward(*(-sum(term.amount for term in side) for side in (self.left, self.right, self.sill, self.head)))

    def solid(self) -> Inward:
        """What a frame's place has to leave for, besides its gaps: the stack and, over it, the head allowance, mm."""
        return self.stack._replace(head=self.stack.head + self.allowance)


class Between(NamedTuple):
    """One thing between a frame's outer edge and the gap to the wall."""

    name: str
    mm: float


def between(fit: Fit, sill: Sill | None, side: str) -> tuple[Between, ...]:
    """What stands between the frame and the gap on a side (left jamb, right jamb, head, sill), from the frame outwards."""
    add_ons = {"left jamb": fit.add_ons.left, "right jamb": fit.add_ons.right, "head": fit.add_ons.head, "sill": fit.add_ons.sill}
    found = [Between("add-on", add_ons[side])]
    if side != "sill":
        found.append(Between("lining", fit.reveal.lining if fit.reveal.kind == "inner-leaf" else 0.0))
    elif sill is not None:
        found += [Between("sill", sill.height), Between("packers", sill.packers)]
    return tuple(each for each in found if each.mm)


def kept_of(spec: WindowSpec, system: System, path: Path) -> Kept:
    """What comes off a surveyed window's opening, each with its source; `path` is the window's."""
    fit, opening = spec.fit, spec.opening
    assert opening is not None
    where = (*path, "fit")
    clear = _clearance(fit, system, spec.finish.outside, opening, where)
    add_on = {
        side: tuple(Term(-mm, f"add-on, {side}", Source("spec", (*where, "add_ons", side))) for mm in (getattr(fit.add_ons, side),) if mm)
        for side in ("left", "right", "head", "sill")
    }
    reveal = _reveal(fit, where)
    upright = (*reveal, *(() if fit.reveal.kind == "check" else (clear[0],)))
    level = (*reveal, *(() if fit.reveal.kind == "check" else (clear[1],)))
    allowance = tuple(Term(-mm, "head allowance", Source("spec", (*where, "head_allowance"))) for mm in (fit.head_allowance,) if mm)
    under = _under(spec.sill, path)
    stack = Inward(*(sum(each.mm for each in between(fit, spec.sill, side)) for side in ("left jamb", "right jamb", "sill", "head")))
    return Kept(
        (*add_on["left"], *upright), (*add_on["right"], *upright), (*under, *add_on["sill"], clear[1]),
        (*allowance, *add_on["head"], *level), stack, fit.head_allowance, min(-term.amount for term in clear),
    )


def _under(sill: Sill | None, path: Path) -> tuple[Term, ...]:
    if sill is None:
        return ()
    parts = (("height", "height of the sill", sill.height), ("packers", "packers under the sill", sill.packers))
    return tuple(Term(-mm, label, Source("spec", (*path, "sill", key))) for key, label, mm in parts if mm)


def _reveal(fit: Fit, where: Path) -> tuple[Term, ...]:
    """What a check or a lining adds to or takes off each jamb and the head."""
    path = (*where, "reveal")
    if fit.reveal.kind == "check":
        return (Term(fit.reveal.lap or 0.0, "behind the check, each jamb and the head", Source("spec", (*path, "lap"))),)
    if fit.reveal.lining:
        return (Term(-fit.reveal.lining, "lining still to come, each jamb and the head", Source("spec", (*path, "lining"))),)
    return ()


def _clearance(fit: Fit, system: System, outside: str, opening: Opening, where: Path) -> tuple[Term, Term]:
    """Half the clearance across and half of that up, each side; under a shaped head one clearance, by the longer size."""
    terms = []
    sizes = (min(opening.width), min(opening.height))
    for size in sizes if opening.head == "level" else (max(*sizes, *opening.height),) * 2:
        if fit.clearance is not None:
            terms.append(Term(-fit.clearance / 2, "clearance, each side", Source("spec", (*where, "clearance"))))
            continue
        row = clearance_for(system.material, outside, size)
        finish = "" if row.finish == "any" else f", {finish_kind(outside)}"
        said = f"half of {row.off:g} for {row.material}{finish}, up to {row.up_to:g} long"
        terms.append(Term(-row.off / 2, "clearance, each side", Source("rule", f"table of clearances ({row.basis})"), (said,)))
    return terms[0], terms[1]
