"""What a sheet says in words: glass, finish, fixings, findings, notes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.drawing.explode import size_text
from elevations.errors import shared_findings
from elevations.geometry.fit_fixing import holds, kind_of_side
from elevations.geometry.window import Light, Window, whole_mm
from elevations.schedules.glazing_bars import pattern_words
from elevations.spec.model import Glass

CONFIRM = "Sizes in mm, to be confirmed on site before manufacture."
DEMONSTRATION = "Demonstration profile data: not for manufacture"
CAUTIONS = (
    "This sheet is no certificate: on safety glass in critical locations, escape, guarding against falls, ventilation, wind "
    "load and thermal rating local codes and a licensed practice decide."
)


def glass_words(name: str, glass: Glass) -> str:
    """'clear: 4/20/4, 28 thick, argon, low-E on face 3, warm-edge spacer; outer pane obscure'."""
    said = [glass.make_up, f"{glass.thickness:g} thick"]
    if glass.gas:
        said.append(glass.gas)
    if glass.coatings:
        said.append(f"low-E on {face_words(glass)}")
    if glass.spacer:
        said.append(f"{glass.spacer} spacer")
    special = [f"{pane} pane obscure" for pane in (glass.obscure,) if pane]
    for word, panes in (("toughened", glass.toughened), ("laminated", glass.laminated)):
        if panes:
            special.append(f"{' and '.join(panes)} pane {word}")
    return "; ".join([f"{name}: {', '.join(said)}", *special])


def face_words(glass: Glass) -> str:
    """'face 3', 'faces 2 and 5'."""
    faces = [str(coating.face) for coating in glass.coatings]
    return f"face{'s' if len(faces) > 1 else ''} {' and '.join(faces)}"


def glasses(window: Window) -> list[str]:
    """Each make-up that the window uses, with the panes it is for where there are several."""
    used: dict[str, tuple[Glass, list[str]]] = {}
    for pane in window.panes:
        used.setdefault(pane.glass, (pane.make_up, []))[1].append(pane.tag)
    words = shaped_words(window)
    for name, (glass, tags) in used.items():
        where = "" if len(used) == 1 else f" ({', '.join(tags)})" if len(tags) <= 8 else f" ({len(tags)} panes)"
        words.append(glass_words(name, glass) + where)
    return [*words, *glazing_bar_words(window)]


def glazing_bar_words(window: Window) -> list[str]:
    """'Glazing bars in G1, G2 on both faces, 24 wide; 6 small panes, each 195 × 268.7 visible'."""
    alike: dict[str, list[str]] = {}
    for pane in window.panes:
        if pane.bars:
            alike.setdefault(pattern_words(pane), []).append(pane.tag)
    return [f"Glazing bars in {', '.join(tags)} {words}" for words, tags in alike.items()]


def shaped_words(window: Window) -> list[str]:
    """Which panes are no rectangles, and what their sizes then are."""
    tags = [pane.tag for pane in window.panes if pane.shaped]
    if not tags:
        return []
    which = ", ".join(tags) if len(tags) <= 8 else f"{len(tags)} panes"
    return [f"{which} shaped: sizes are those of the rectangle round {'it' if len(tags) == 1 else 'them'}; cut to template"]


def build_words(window: Window) -> list[str]:
    """Frame size, system and finish."""
    system = window.system
    shape = window.shape.words(window.width.value, window.height.value)
    lines = [
        f"Frame {window.width.value:g} × {window.height.value:g}, {system.depth:g} deep, {system.material}",
        *([shape] if shape else []),
        f"{system.name}: {system.title}",
    ]
    if window.finish.outside or window.finish.inside:
        ends = [f"{code} {where}" for code, where in ((window.finish.outside, "outside"), (window.finish.inside, "inside")) if code]
        lines.append(f"Finish {', '.join(ends)}")
    if window.floor_to_opening is not None:
        lines.append(f"Finished floor to the bottom of the opening {window.floor_to_opening:g}")
    if window.reversed:
        lines.append("Profiles built inside out, for lights that swing the other way than the system's own")
    return lines


def lights_rows(window: Window) -> list[tuple[str, str, str, str]]:
    """Number, opening, sash size and glass of each light; a second row for the second sash of a light, named by its place."""
    rows = []
    for light in window.lights:
        for number, pane in enumerate(light.panes):
            sash = light.sashes[number].outer.outline.bounds if light.sashes else None
            size = size_text(sash) if sash else "–"
            glass = f"{pane.tag} {whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}"
            first = number == 0
            rows.append((str(light.number) if first else "", light_words(light) if first else sash_place(light, number), size, glass))
    return rows


def sash_place(light: Light, number: int) -> str:
    """Where one sash of several stands beside the first, seen from outside: 'bottom sash', 'right sash'; empty of a light without."""
    if not light.sashes:
        return ""
    own, first = (light.sashes[i].outer.outline.bounds for i in (number, 0))
    aside, up = own.left + own.right - first.left - first.right, own.top + own.bottom - first.top - first.bottom
    if abs(aside) > abs(up):
        return "right sash" if aside > 0 else "left sash"
    return "top sash" if up > 0 else "bottom sash"


def lights_alike(window: Window) -> list[tuple[str, str, str]]:
    """One row for lights of one way of opening and the same sizes: '1–3, 7: fixed', sash, glass; a second row for second sashes."""
    groups: dict[tuple[str, tuple[tuple[str, str], ...]], list[int]] = {}
    rows = lights_rows(window)
    for light in window.lights:
        own, rows = rows[: len(light.panes)], rows[len(light.panes) :]
        sizes = tuple((sash, glass.partition(" ")[2]) for _, _, sash, glass in own)
        groups.setdefault((light_words(light), sizes), []).append(light.number)
    return [
        (f"{_runs(numbers)}: {opening}" if first else "", sash, glass)
        for (opening, sizes), numbers in groups.items() for first, (sash, glass) in zip((True, *[False] * (len(sizes) - 1)), sizes, strict=True)
    ]


def _runs(numbers: Sequence[int]) -> str:
    """'1–3, 7'."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][1] == number - 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(str(low) if low == high else f"{low}–{high}" if high > low + 1 else f"{low}, {high}" for low, high in runs)


def light_words(light: Light) -> str:
    """How a light opens, and that it is a fanlight."""
    return f"fanlight, {light.words}" if light.fanlight else light.words



def fixings_words(window: Window) -> list[str]:
    """Count and places of the fixings, a line for each pair of like sides; along a slope or an arc, on its outer edge."""
    lines = []
    straight = {side.tag for side in window.frame.sides if side.at is not None}
    for pair in (("left jamb", "right jamb"), ("head", "sill")):
        given = {side: said for side in pair if side in straight and (said := _along(window, side))}
        if len(given) == 2 and given[pair[0]] == given[pair[1]]:
            name = "jambs" if pair[0].endswith("jamb") else "head and sill"
            lines.append(f"{name}, {given[pair[0]].replace(',', ' each,', 1)}")
            continue
        lines += [f"{side}, {said}" for side, said in given.items()]
    lines += [f"{m.tag}, {said}" for m in window.members if m.tag not in straight and (said := _along(window, m.tag, "along its outer edge "))]
    return lines or ["none asked for"]


def _along(window: Window, side: str, how: str = "") -> str:
    """'3, from the top: 150, 510, 870; brackets, not drilled'; empty for a side without fixings."""
    points = [point for point in window.fixings if point.side == side]
    if not points:
        return ""
    hold = holds(window)[kind_of_side(side)]
    brackets = "; brackets, not drilled" if hold.how == "bracket" else "; not drilled before it is settled what holds there" if hold.fails else ""
    places = ", ".join(f"{round(point.along.value, 1):g}" for point in points)
    return f"{len(points)}, {how}from the {points[0].measured_from}: {places}{brackets}"


def findings_words(window: Window) -> Iterator[str]:
    """Each finding once: the parts that share it, what it is, and where its limit comes from."""
    for finding, subjects in shared_findings(window.findings):
        rule = f" ({finding.rule})" if finding.rule else ""
        yield f"{', '.join(subjects)}: {finding.message}{rule}"
