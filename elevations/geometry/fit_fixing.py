"""How each side of a frame is held: what it is fixed to, with what, how long; and where a fixing is in something's way."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from elevations.catalogue.anchors import anchors
from elevations.catalogue.clearances import finish_kind
from elevations.catalogue.system import System
from elevations.errors import Finding
from elevations.geometry.fit import Site
from elevations.geometry.fit_clashes import ALL_SIDES, clashes
from elevations.geometry.fit_deductions import Between, between
from elevations.geometry.landing import Landing, embedment_in, land
from elevations.geometry.leaves import SOLID
from elevations.geometry.neighbours import Neighbour
from elevations.geometry.wall_findings import PRACTICE, Stand, through_lintel, wall_findings
from elevations.geometry.window import FixingPoint, Window
from elevations.plane import SAME_MM
from elevations.spec.model import Fixings
from elevations.spec.model import Window as WindowSpec
from elevations.spec.site import Fit

FROM_SYSTEM = ("corner", "spacing", "clear_of_bars")
GUESSED_PACKER_MM = 5.0   # PVC-U perimeter clearance, at least 5 a side: a trade installation guide, read second hand
BEHIND_CHECK_MM = 10.0    # taken between a frame and the wall behind a check, where `fit.reveal.behind` is not given: common practice, no source
TAKEN_BEHIND = "taken: not measured behind the check"
SQUEEZE_MM = 0.1          # packers come in whole mm, and no tape reads this
PACKING = "a frame is packed at every fixing: common practice, no source"
GUIDE = "a trade installation guide, read second hand"


def with_system_figures(spec: WindowSpec, system: System) -> WindowSpec:
    """The spec with the system's own fixing distances where the job gives none."""
    given = spec.fixings.model_fields_set
    own = {key: value for key in FROM_SYSTEM if key not in given and (value := getattr(system.frame_fixings, key)) is not None}
    if not own:
        return spec
    values = {key: getattr(spec.fixings, key) for key in type(spec.fixings).model_fields}
    rules = Fixings.model_construct(_fields_set=set(given), **{**values, **own})
    return spec.model_copy(update={"fixings": rules})


@dataclass(frozen=True, slots=True)
class Hold:
    """How one side of a frame is held; lengths in mm."""

    side: str
    """left jamb, right jamb, head or sill."""
    how: str
    """screw (through the frame), bracket (on the frame's edge, into the wall beside it) or joint (through it into a coupler or post)."""
    into: str
    """brick, stone, block, concrete, timber or steel, or 'coupler C1 to W2'; empty where the job says nothing of the wall."""
    screw: str
    through: float
    packer: float
    """In the gap; whole mm where it follows from a survey."""
    embedment: float | None
    length: float | None
    """The shortest that comes long enough; None for brackets, where the wall is not known, or where none does."""
    frame_drill: float
    wall_drill: float | None
    steel: bool
    """Whether the frame carries steel there, to be drilled before."""
    between: tuple[Between, ...] = ()
    """What a screw crosses between the frame's edge and the packer: add-on, lining."""
    gap: float | None = None
    """The widest gap of the side; None where it was not surveyed."""
    asked_packer: float | None = None
    """The packer that the job gives; less than `packer` where the gap is wider than that."""
    landing: Landing | None = None
    """Where in the wall it lands; None of a joint."""
    assumed: str = ""
    """What was taken of the wall that the job does not say, in words."""
    packer_taken: str = ""
    """That the packer is a guess, in words, where the hole that it goes into was not measured."""

    @property
    def needed(self) -> float | None:
        """Through the frame, what is between, the packer and into the wall; None where the wall is not known."""
        if self.embedment is None:
            return None
        return self.through + sum(each.mm for each in self.between) + self.packer + self.embedment

    @property
    def fails(self) -> str:
        """Why nothing holds there, in words; empty where something does or the wall is not known."""
        return self.landing.fails if self.landing else ""

    @property
    def drilled(self) -> bool:
        """Whether holes go through the frame: not for brackets, and not before it is settled what holds there."""
        return self.how != "bracket" and not self.fails

    def words(self) -> str:
        """'masonry frame screw 122 into brick: 46 frame + 7 packer (gap up to 6.5) + 50 embedment = 103'."""
        if self.how == "joint":
            kind = "as the system's supplier says" if self.embedment is None else f"{self.length:g}: {self.through:g} frame + {self.embedment:g} in it"
            return f"no wall there: joined by {self.into}, screws {kind}; no packers, no foam"
        if self.how == "bracket":
            return self._bracket_words()
        if self.fails:
            return f"screws would be {self.fails}, where nothing holds: see what is to be settled"
        if self.needed is None:
            return f"through the frame ({self.through:g}), length and kind to suit the wall, which the job does not describe"
        return f"{self.screw} {f'{self.length:g}' if self.length else 'of more than the usual length'} into {self.where()}: {self.sum_words()}"

    def _bracket_words(self) -> str:
        bracket = self.landing.bracket if self.landing else None
        if self.landing is None or bracket is None or (self.landing.at is None and not self.landing.fails):
            return "brackets screwed to the frame's edge, into the wall beside it; not through the frame"
        if self.landing.reach is None:
            return f"brackets, not screws through the frame; but {self.landing.fails}: see what is to be settled"
        return f"brackets that reach {self.landing.reach:g} in from the frame's inner face, their screws {self.embedment:g} deep in {self.where()}; not through the frame"

    def where(self) -> str:
        """What it holds in: 'brick', 'block, the inner leaf', 'steel, the lintel (taken as steel: not given)'."""
        leaf = self.landing.leaf if self.landing else None
        named = f", the {leaf.name}" if leaf is not None and leaf.name != SOLID else ""
        return f"{self.into}{named}" + (f" ({self.assumed})" if self.assumed else "")

    def sum_words(self) -> str:
        """What the screw goes through, as a sum."""
        asked = f"; {self.asked_packer:g} asked for" if self.asked_packer is not None and self.asked_packer != self.packer else ""
        known = f" ({self.packer_taken})" if self.packer_taken else "" if self.gap is None else f" (gap up to {self.gap:.1f}{asked})"
        packer = f"{self.packer:g} packer{known}"
        parts = [f"{self.through:g} frame", *(f"{each.mm:g} {each.name}" for each in self.between), packer, f"{self.embedment:g} embedment"]
        return f"{' + '.join(parts)} = {self.needed:g}"


def kind_of_side(tag: str) -> str:
    """Left jamb, right jamb, head or sill, of a frame member of any shape."""
    if tag.endswith("jamb"):
        return tag
    return "sill" if tag in ("sill", "ring lower") else "head"


def holds(window: Window) -> dict[str, Hold]:
    """How each side that has fixings is held, in the order of the fixings."""
    found: dict[str, Hold] = {}
    for point in window.fixings:
        side = kind_of_side(point.side)
        if side not in found:
            found[side] = _hold(window, side)
    return found


def through_frame(window: Window) -> tuple[FixingPoint, ...]:
    """The fixings that a hole is drilled through the frame for: not those of brackets, which go on its edge, nor any that nothing holds."""
    drilled = {side for side, hold in holds(window).items() if hold.drilled}
    return tuple(point for point in window.fixings if kind_of_side(point.side) in drilled)


def _hold(window: Window, side: str) -> Hold:
    site, frame = window.site, window.system.profiles["frame"]
    neighbour = next((one for one in window.neighbours if one.side == side), None)
    if neighbour is not None:
        return _joint(window, neighbour)
    wall = site.wall if site else None
    rules = site.fixings if site else Fixings()
    landing = land(window, side)
    into = landing.leaf.material if landing.leaf else ""
    table, lengths, _ = anchors()
    lengths = window.system.frame_fixings.screw_lengths or lengths
    anchor = table.get(into)
    assumed = f"taken as {wall.carried_by}: not given" if wall is not None and side == "head" and landing.leaf and wall.lintel.kind is None else ""
    embedment = embedment_in(rules, into) if into else None
    packer, gap = packer_for(site, side, rules)
    drill = rules.screw.wall_drill if rules.screw.wall_drill is not None else anchor.wall_drill if anchor else None
    hold = Hold(
        side, landing.how, into, anchor.screw if anchor else "frame screw", frame.rebate, packer, embedment, None, rules.screw.frame_drill, drill,
        _has_steel(window), between(site.fit, site.sill, side) if site else (), gap, rules.screw.packer, landing, assumed,
        TAKEN_BEHIND if site is not None and taken_behind(site.fit, rules, side) else "",
    )
    needed = hold.needed
    return hold if needed is None or landing.how == "bracket" else replace(hold, length=next((each for each in lengths if each >= needed - SAME_MM), None))


def _joint(window: Window, neighbour: Neighbour) -> Hold:
    """A side that another frame is joined to: screwed into what stands between, by the system's rule."""
    rules = window.site.fixings if window.site else Fixings()
    into = f"{neighbour.connector.kind} {neighbour.connector.tag} to {neighbour.mark}"
    through = window.system.profiles["frame"].rebate
    bite = None if neighbour.screw is None else neighbour.screw - through
    return Hold(neighbour.side, "joint", into, "screw", through, 0.0, bite, neighbour.screw, rules.screw.frame_drill, None, _has_steel(window))


def _has_steel(window: Window) -> bool:
    """Coloured frames carry reinforcement, where the system has any."""
    return window.system.reinforcement is not None and finish_kind(window.finish.outside) == "coloured"


def packer_for(site: Site | None, side: str, rules: Fixings) -> tuple[float, float | None]:
    """The packer as set, but never less than the widest gap of the side in whole mm; else that, else what is usual; and the gap where it was surveyed."""
    lapped = site is not None and site.fit.reveal.kind == "check" and side != "sill"
    if site is not None and site.fitted is not None and not lapped:
        widest = max(gap.mm for gap in site.fitted.gaps if gap.side == side)
        return max(_filling(widest), rules.screw.packer or 0.0), widest
    behind = site.fit.reveal.behind if site is not None and lapped else None
    if behind is not None:
        return max(_filling(behind), rules.screw.packer or 0.0), behind
    if rules.screw.packer is not None:
        return rules.screw.packer, None
    if lapped:
        return BEHIND_CHECK_MM, None
    return GUESSED_PACKER_MM + (site.fit.head_allowance if site and side == "head" else 0.0), None


def taken_behind(fit: Fit, rules: Fixings, side: str) -> bool:
    """Whether a side stands behind a check, and the job says neither what is between frame and wall there nor what packs it."""
    return fit.reveal.kind == "check" and side != "sill" and fit.reveal.behind is None and rules.screw.packer is None


def _filling(gap: float) -> float:
    """The packer that fills a gap, whole mm."""
    return float(max(0, math.ceil(gap - SQUEEZE_MM)))


def packer_at(window: Window, point: FixingPoint) -> float | None:
    """The packer at a fixing, whole mm: what fills the surveyed gap at its very place. None where that was not surveyed, or no wall is there."""
    side, site = kind_of_side(point.side), window.site
    if site is None or site.fitted is None or any(one.side == side for one in window.neighbours):
        return None
    if site.fit.reveal.kind == "check" and side != "sill":
        return None if site.fit.reveal.behind is None else packer_for(site, side, site.fixings)[0]
    return _filling(site.fitted.along(side, point.at.y if side.endswith("jamb") else point.at.x))


def fixing_findings(window: Window, rules: Fixings) -> tuple[Finding, ...]:
    """Sides that nothing holds, gaps that no screw crosses, and fixings in the way of hardware."""
    return (*_held(window), *_packed(window), *clashes(window, rules))


def _packed(window: Window) -> Iterator[Finding]:
    """A packer as set that leaves some of its gap, or does not go into it anywhere."""
    if window.site is None or window.site.fixings.screw.packer is None:
        return
    held = {side: hold for side, hold in holds(window).items() if hold.asked_packer is not None and hold.gap is not None and hold.how != "joint"}
    short = [side for side, hold in held.items() if hold.asked_packer != hold.packer]
    if short:
        worst = max((held[side] for side in short), key=lambda hold: hold.gap or 0.0)
        yield Finding(
            "packer-short", window.mark, ", ".join(short), f"packers of {worst.asked_packer:g} are asked for, and the gap is up to {worst.gap:.1f} ({worst.side}): "
            "a screw pulled up over the rest bows the frame, so lengths are reckoned with what fills it",
            "leave 'packer' out: each fixing is then packed as its gap is", worst.asked_packer, worst.packer, PACKING,
        )
    thick = [side for side, hold in held.items() if (hold.asked_packer or 0.0) > _filling(hold.gap or 0.0)]
    if thick:
        widest = max((held[side] for side in thick), key=lambda hold: hold.gap or 0.0)
        yield Finding(
            "packer-thick", window.mark, ", ".join(thick), f"packers of {widest.asked_packer:g} are asked for, and the gap is at most {widest.gap:.1f} ({widest.side}): they don't go in",
            "leave 'packer' out: each fixing is then packed as its gap is", widest.asked_packer, _filling(widest.gap or 0.0), PACKING,
        )


def _held(window: Window) -> Iterator[Finding]:
    site = window.site
    if site is not None and site.wall is not None:
        yield from _unheld(window, site)
        held = holds(window)
        yield from wall_findings(window, window.mark, {side: hold.landing for side, hold in held.items() if hold.landing is not None})
        yield from _in_lintel(window, site, held.get("head"))
        for side, hold in held.items():
            if hold.how == "screw" and hold.needed is not None and hold.length is None:
                yield Finding(
                    "screw-too-short", window.mark, side, f"{hold.needed:g} of screw is needed ({hold.sum_words()}), more than any comes in",
                    "use brackets there, or pack the wall out", hold.needed, (window.system.frame_fixings.screw_lengths or anchors().lengths)[-1], PRACTICE,
                )


def _in_lintel(window: Window, site: Site, hold: Hold | None) -> Iterator[Finding]:
    """Whether the screws of a head, all of one length, stay in the lintel where the gap under it is narrowest."""
    if site.wall is None or hold is None or hold.how != "screw" or hold.length is None or hold.needed is None:
        return
    surveyed = site.fitted is not None and hold.gap is not None and site.fit.reveal.kind != "check"
    gaps = [gap.mm for gap in site.fitted.gaps if gap.side == "head"] if site.fitted and surveyed else []
    crossed = hold.through + sum(each.mm for each in hold.between) + (max(0.0, min(gaps)) if gaps else hold.packer)
    yield from through_lintel(Stand(window, window.mark, site.wall, site.fixings), hold.length, hold.length - crossed, hold.needed)


def _unheld(window: Window, site: Site) -> Iterator[Finding]:
    for key, side in ALL_SIDES:
        if key not in site.fixings.sides:
            yield Finding(
                "side-unfixed", window.mark, side, "no fixings are asked for on this side; foam or sealant alone never holds a frame",
                "fix it, with brackets where it can't be drilled", rule=f"NHBC Standards 6.7.11: all four sides wherever practical, two on each jamb and on the sill; {GUIDE}",
            )
