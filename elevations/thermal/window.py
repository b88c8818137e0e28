"""Heat through a whole window: Uw by EN ISO 10077-1, from the areas and lengths of the resolved window.

Uw = (ΣAg·Ug + ΣAf·Uf + Σlg·ψg) / (ΣAg + ΣAf). Areas in m2, lengths in m, U in W/m2K, ψ in W/mK. The formula, the
ψ values and the Uf by material are from memory; a supplier's declared values come first wherever they are given.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError, Step
from elevations.geometry.window import Light, Pane, Window
from elevations.plane import Corner, Outline
from elevations.thermal.edge import edge_psi
from elevations.thermal.make_up import make_up_u

EN_ISO_10077_1 = "EN ISO 10077-1 (from memory)"
BARS_NOT_COUNTED = "glazing bars in the units are not counted: they make Uw worse; ask the unit's maker by how much"

UF_BY_MATERIAL_W_M2K: Mapping[str, float] = {"pvc-u": 2.2}
"""Of PVC-U with two hollow chambers, the worse of the two that are remembered (three: 2.0); EN ISO 10077-1 annex D
(from memory). Timber and aluminium depend on thickness and thermal break: there is no default for them."""


@dataclass(frozen=True, slots=True)
class Declared:
    """What suppliers declare; everything here replaces a value that would be worked out or looked up."""

    u_g_w_m2k: Mapping[str, float] = field(default_factory=dict)
    """By the make-up's name in the job."""
    u_f_w_m2k: Mapping[str, float] = field(default_factory=dict)
    """By member: frame, mullion, transom; with '+sash' for the same member and the sash beside it ('frame+sash')."""
    psi_w_mk: Mapping[str, float] = field(default_factory=dict)
    """By the make-up's name in the job."""


@dataclass(frozen=True, slots=True)
class WindowHeat:
    """Uw of one window, with its areas; `u_w` says what is missing where it can't be told."""

    mark: str
    area_m2: float
    """Of the frame's outer outline."""
    glass_area_m2: float
    u_w: Calculation | CannotTell

    @property
    def glass_share(self) -> float:
        return self.glass_area_m2 / self.area_m2


NOTHING_DECLARED = Declared()


def window_u(window: Window, declared: Declared = NOTHING_DECLARED) -> WindowHeat:
    """Uw of a resolved window by EN ISO 10077-1 (from memory): a result, or every fact that is missing for it.

    Ag is the glass visible between the sight lines, which are the same from both sides here; Af all the rest of the
    frame's outer outline; lg the visible edge of the glass.
    """
    parts = [*_glass_parts(window, declared), *_frame_parts(window, declared)]
    area = window.frame.outline.area / 1e6
    glass_area = sum(pane.sight.outline.area for pane in window.panes) / 1e6
    needs = tuple(dict.fromkeys(need for part in parts for need in part.needs))
    if needs:
        return WindowHeat(window.mark, area, glass_area, CannotTell(needs))
    loss = sum(part.watts_per_k for part in parts)
    steps = [step for part in parts for step in part.steps]
    steps.append(Step("ΣAg + ΣAf", area, "m2", "the frame's outer outline"))
    steps.append(Step("Uw = (ΣAg·Ug + ΣAf·Uf + Σlg·ψg) / (ΣAg + ΣAf)", loss / area, "W/m2K", EN_ISO_10077_1))
    assumed = tuple(dict.fromkeys(word for part in parts for word in part.assumed))
    if any(bar.kind == "in-unit" for pane in window.panes for bar in pane.bars):
        assumed = (*assumed, BARS_NOT_COUNTED)
    return WindowHeat(window.mark, area, glass_area, Calculation(loss / area, "W/m2K", tuple(steps), assumed))


def area_weighted_u(results: Iterable[WindowHeat]) -> Calculation | CannotTell:
    """U of all windows together, each by its area, W/m2K; says which windows lack facts. No windows: can't tell."""
    results = list(results)
    lacking = tuple(f"{r.mark}: {need}" for r in results if isinstance(r.u_w, CannotTell) for need in r.u_w.needs)
    if lacking or not results:
        return CannotTell(lacking or ("at least one window",))
    known = [(r, r.u_w) for r in results if isinstance(r.u_w, Calculation)]
    area = sum(r.area_m2 for r, _ in known)
    value = sum(r.area_m2 * u.value for r, u in known) / area
    steps = [Step(f"Uw {r.mark} over {r.area_m2:.3f} m2", u.value, "W/m2K", EN_ISO_10077_1) for r, u in known]
    assumed = tuple(dict.fromkeys(word for _, u in known for word in u.assumed))
    return Calculation(value, "W/m2K", (*steps, Step("ΣA·Uw / ΣA", value, "W/m2K", "area-weighted")), assumed)


@dataclass(frozen=True, slots=True)
class _Part:
    """One term of the sum above the line, W/K."""

    watts_per_k: float = 0.0
    steps: tuple[Step, ...] = ()
    needs: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


def _glass_parts(window: Window, declared: Declared) -> Iterator[_Part]:
    for pane in window.panes:
        yield _pane_part(pane, declared.u_g_w_m2k.get(pane.glass))
        yield _edge_part(pane, window.system.material, declared.psi_w_mk.get(pane.glass))


def _pane_part(pane: Pane, declared_w_m2k: float | None) -> _Part:
    u_g = make_up_u(pane.make_up, declared_w_m2k)
    if isinstance(u_g, CannotTell):
        return _Part(needs=u_g.needs)
    area = pane.sight.outline.area / 1e6
    source = f"glass '{pane.glass}' ({pane.make_up.make_up}), {'declared' if declared_w_m2k else 'EN 673 (from memory)'}"
    steps = (Step(f"Ag {pane.tag}", area, "m2", "visible between the sight lines"), Step(f"Ug {pane.tag}", u_g.value, "W/m2K", source))
    return _Part(area * u_g.value, steps, (), u_g.assumed)


def _edge_part(pane: Pane, material: str, declared_w_mk: float | None) -> _Part:
    psi = edge_psi(pane.make_up, material, declared_w_mk)
    if isinstance(psi, CannotTell):
        return _Part(needs=psi.needs)
    outline = pane.sight.outline
    length = sum(outline.length(edge) for edge in range(len(outline.corners))) / 1000
    steps = (Step(f"lg {pane.tag}", length, "m", "visible edge of the glass"), Step(f"ψg {pane.tag}", psi.value, "W/mK", psi.steps[0].source))
    return _Part(length * psi.value, steps)


def _frame_parts(window: Window, declared: Declared) -> Iterator[_Part]:
    areas: dict[str, float] = {}
    for light in window.lights:
        for member, area in frame_areas_m2(light):
            areas[member] = areas.get(member, 0.0) + area
    for member in sorted(areas):
        u_f, source = _frame_u(member, window.system.material, declared.u_f_w_m2k)
        if u_f is None:
            yield _Part(needs=(source,))
            continue
        steps = (Step(f"Af {member}", areas[member], "m2", "rest of the frame's outer outline"), Step(f"Uf {member}", u_f, "W/m2K", source))
        assumed = () if source == "declared" else (f"Uf {u_f:g} for {window.system.material}: nobody declared one",)
        yield _Part(areas[member] * u_f, steps, (), assumed)


def _frame_u(member: str, material: str, declared: Mapping[str, float]) -> tuple[float | None, str]:
    """Uf and where it is from; or None and what is needed."""
    for key in (member, member.removesuffix("+sash"), "frame"):
        if key in declared:
            if declared[key] <= 0:
                raise ImpossibleInputError(f"a declared Uf of {declared[key]:g} for {key}: it is more than 0")
            return declared[key], "declared"
    if material in UF_BY_MATERIAL_W_M2K:
        return UF_BY_MATERIAL_W_M2K[material], f"default for {material}, EN ISO 10077-1 annex D (from memory)"
    return None, f"a declared Uf of the frame profiles ({material}: no default)"


def frame_areas_m2(light: Light) -> Iterator[tuple[str, float]]:
    """What covers a light outside its visible glass, m2, by the member it belongs to, split on the mitre lines.

    Names are 'frame', 'mullion', 'transom', with '+sash' where a sash lies beside it. The areas and the visible
    glass add up to the light's region exactly, arcs included.
    """
    region, ring = light.region, "+sash" if light.sashes else ""
    sight = light.panes[0].sight.outline
    if len(light.panes) > 1:
        yield from _round_two_panes(light)
        return
    count = len(region.sides)
    for i, side in enumerate(region.sides):
        j = (i + 1) % count
        a, b = region.outline.corners[i], region.outline.corners[j]
        c, d = sight.corners[j], sight.corners[i]
        strip = Outline((a, Corner(b.x, b.y), Corner(c.x, c.y, -d.bulge), Corner(d.x, d.y)))
        yield side.profile + ring, strip.area / 1e6


def _round_two_panes(light: Light) -> Iterator[tuple[str, float]]:
    """The same of a light with two sashes: all but the visible glass, shared out by the length of each bounding edge."""
    outline = light.region.outline
    covered = (outline.area - sum(pane.sight.outline.area for pane in light.panes)) / 1e6
    lengths = [outline.length(edge) for edge in range(len(light.region.sides))]
    for side, length in zip(light.region.sides, lengths, strict=True):
        yield f"{side.profile}+sash", covered * length / sum(lengths)
