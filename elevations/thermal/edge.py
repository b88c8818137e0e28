"""Extra heat through the edge of a sealed unit, where spacer, glass and frame meet: ψg by EN ISO 10077-1."""

from __future__ import annotations

from collections.abc import Mapping

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError, Step
from elevations.spec.model import Glass

SOURCE = "EN ISO 10077-1 annex E (from memory)"

METAL_SPACERS = frozenset({"metal", "aluminium", "steel"})
IMPROVED_SPACERS = frozenset({"warm-edge", "warm edge", "thermally improved"})
"""A spacer counts as thermally improved where Σ(d·λ) of its walls is at most 0.007 W/K (from memory)."""

FRAME_KINDS: Mapping[str, str] = {"pvc-u": "wood or plastic", "timber": "wood or plastic", "aluminium": "metal with a thermal break"}
"""Aluminium without a thermal break has other values, and is not made into windows of heated rooms today."""

PSI_W_MK: Mapping[tuple[str, str, str], float] = {
    ("wood or plastic", "metal", "uncoated"): 0.06,
    ("wood or plastic", "metal", "coated"): 0.08,
    ("metal with a thermal break", "metal", "uncoated"): 0.08,
    ("metal with a thermal break", "metal", "coated"): 0.11,
    ("wood or plastic", "improved", "uncoated"): 0.05,
    ("wood or plastic", "improved", "coated"): 0.06,
    ("metal with a thermal break", "improved", "uncoated"): 0.06,
    ("metal with a thermal break", "improved", "coated"): 0.08,
}
"""ψg by frame, spacer and glass, W/mK: EN ISO 10077-1 annex E (from memory, no cell was seen)."""


def spacer_kind(text: str) -> str | None:
    """'metal' or 'improved' by the spec's word for the spacer; None where that word doesn't tell."""
    word = " ".join(text.lower().split())
    if word in METAL_SPACERS:
        return "metal"
    return "improved" if word in IMPROVED_SPACERS else None


def edge_psi(glass: Glass, material: str, declared_w_mk: float | None = None) -> Calculation | CannotTell:
    """ψg of a make-up in a frame of a material, W/mK; 0 for a single pane, which has no spacer (from memory)."""
    if declared_w_mk is not None:
        if declared_w_mk < 0:
            raise ImpossibleInputError(f"a declared ψ of {declared_w_mk:g}: it is not negative")
        return Calculation(declared_w_mk, "W/mK", (Step("ψg", declared_w_mk, "W/mK", "declared"),))
    if len(glass.layers) == 1:
        return Calculation(0.0, "W/mK", (Step("ψg", 0.0, "W/mK", f"single pane, {SOURCE}"),))
    spacer, frame = spacer_kind(glass.spacer), FRAME_KINDS.get(material)
    needs = []
    if spacer is None:
        known = ", ".join(sorted(METAL_SPACERS | IMPROVED_SPACERS))
        given = f"which kind the spacer '{glass.spacer}' is" if glass.spacer else f"the spacer of {glass.make_up}"
        needs.append(f"{given} (known words: {known}), or a declared ψ (psi)")
    if frame is None:
        needs.append(f"a declared ψ (psi) for frames of {material}")
    if spacer is None or frame is None:
        return CannotTell(tuple(needs))
    coating = "coated" if glass.coatings else "uncoated"
    value = PSI_W_MK[frame, spacer, coating]
    return Calculation(value, "W/mK", (Step("ψg", value, "W/mK", f"{frame}, {spacer} spacer, {coating}: {SOURCE}"),))
