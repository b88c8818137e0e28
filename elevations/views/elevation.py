"""The elevation from outside: frame, bars, sashes, glass, opening symbols, fixings, words and dimensions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, Symbol, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import wrap
from elevations.geometry.fit_fixing import holds, kind_of_side
from elevations.geometry.window import Light, Window, whole_mm
from elevations.plane import SAME_MM, Box, Corner, Outline, Point
from elevations.views.chains_round import LETTER_OFF, MARK_OFF, Chains, chains_round
from elevations.views.cuts import Cuts
from elevations.views.light_note import light_note
from elevations.views.opening_symbol import symbol_lines
from elevations.views.sash_seen import sash_lines
from elevations.views.shaped import head_notes
from elevations.views.visible import bar_face, in_tracks, light_edge

GLASS_TONE, BAR_TONE = "#edf3f6", "#ffffff"
TITLE_HEIGHT, NOTE_HEIGHT = 3.5, 2.5
LEFTWARDS = 180.0
NARROWEST_TITLE = 56.0
"""Words under a narrow window may be as wide as this, mm on paper."""


def elevation(window: Window, scale: float, *, apex_at_hinge: bool = True, cuts: Cuts | None = None) -> View:
    """The window from outside, mm from the frame's bottom left corner; annotation sized for 1:`scale`.

    Layer GLASS holds the cut outline of each pane and nothing else. `cuts`: where to mark sections A-A and B-B.
    """
    chains = chains_round(window, scale, cuts)
    groups = window_groups(window, scale, apex_at_hinge=apex_at_hinge)
    groups.append(_fixings(window))
    outer = _dimensions(window, chains)
    if cuts:
        outer.append(cut_marks(window, cuts, scale))
    notes = head_notes(window, scale, [item for group in outer for item in group.items])
    if notes:
        outer.append(Group("head-notes", notes, "radii and slopes", (("mark", window.mark),)))
    inner = window.frame.outline.bounds.joined(bounds_of_all((item for group in outer for item in group.items), scale))
    groups += outer
    title = _title(window, scale, chains, inner)
    groups.append(title)
    return View("elevation", "Elevation from outside", tuple(groups), inner.joined(bounds_of_all(title.items, scale)))


def window_groups(window: Window, scale: float, *, apex_at_hinge: bool = True) -> list[Group]:
    """What is seen of the window itself, and the words inside its lights; neither fixings nor dimensions."""
    groups = [_light(window, light, scale, apex_at_hinge=apex_at_hinge) for light in window.lights]
    return [*groups, *_frame(window), *_bars(window)]


def closed(outline: Outline, layer: Layer, *, weight: float | None = None, line: str | None = None) -> Stroke:
    """A closed line round an outline."""
    return Stroke(outline.corners, layer, closed=True, weight=weight, line=line)


def _open(points: Iterable[Sequence[float]], layer: Layer, *, weight: float | None = None, line: str | None = None) -> Stroke:
    return Stroke(tuple(Corner(p[0], p[1]) for p in points), layer, weight=weight, line=line)


def _frame(window: Window) -> list[Group]:
    """One group a frame member: its outer edge, and the mitre at the edge's start."""
    mitres: dict[tuple[float, float], Point] = {}
    for light in window.lights:
        edge, sides = light_edge(window, light), light.region.sides
        for i, corner in enumerate(light.region.outline.corners):
            if sides[i - 1].profile == sides[i].profile == "frame":
                mitres[_key(corner)] = edge.corners[i].point
    groups = []
    for (a, b), side in zip(window.frame.outline.edges(), window.frame.sides, strict=True):
        items: list[Entity] = [Stroke((a, Corner(b.x, b.y)), Layer.FRAME)]
        if _key(a) in mitres:
            items.append(_open((a, mitres[_key(a)]), Layer.FRAME, weight=FINE))
        member = next(m for m in window.members if m.tag == side.tag)
        title = f"{side.tag}, frame, cut length {member.length.value:g}"
        groups.append(Group(_id(side.tag), tuple(items), title, _data(window, side.tag)))
    return groups


def _key(corner: Corner) -> tuple[float, float]:
    return round(corner.x, 3), round(corner.y, 3)


def _bars(window: Window) -> list[Group]:
    groups = []
    for bar in window.bars:
        face = bar_face(window, bar)
        title = f"{bar.profile} {bar.tag}, centre line {bar.centre.value:g}, cut length {bar.length.value:g}"
        groups.append(Group(_id(bar.tag), (closed(face, Layer.BARS, weight=THIN),), title, _data(window, bar.tag)))
    return groups


def _light(window: Window, light: Light, scale: float, *, apex_at_hinge: bool) -> Group:
    """All that is seen of one light, and the words about it."""
    items: list[Entity] = [Fill(pane.sight.outline, Layer.HATCH, GLASS_TONE) for pane in light.panes]
    edge = light_edge(window, light)
    symbol = symbol_lines(light, apex_at_hinge=apex_at_hinge)
    for sash in light.sashes:
        items += sash_lines(window, light, sash)
    if (window.reversed and light.sashes) or in_tracks(light):
        items.append(closed(edge, Layer.FRAME, weight=THIN))
        items += [closed(sash.stile.face, Layer.SASH, weight=THIN) for sash in light.sashes if sash.stile]
    elif not light.sashes and not _same(edge, light.panes[0].sight.outline):
        items.append(closed(edge, Layer.BEAD, weight=THIN))
    for pane in light.panes:
        items.append(closed(pane.sight.outline, Layer.SASH if light.sashes else Layer.BEAD, weight=THIN))
        items.append(closed(pane.cut.outline, Layer.GLASS, line="dashed"))
    bars = [bar for pane in light.panes for bar in pane.bars]
    items += [Fill(bar.face, Layer.HATCH, BAR_TONE) for bar in bars if bar.kind == "on-face"]
    items += [closed(bar.face, Layer.GLAZING_BAR, weight=FINE) for bar in bars]
    items += [line.stroke for line in symbol]
    items += light_note(light, [*(line.points for line in symbol), *(_ring(bar.face) for bar in bars)], scale)
    size = ", ".join(f"{pane.tag} {whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}" for pane in light.panes)
    data = (("mark", window.mark), ("light", str(light.number)), ("tag", " ".join(pane.tag for pane in light.panes)))
    return Group(f"light-{light.number}", tuple(items), f"light {light.number}: {light.words}, glass {size}", data)


def _ring(outline: Outline) -> list[Point]:
    """The corners of an outline, the first again at the end."""
    points = [corner.point for corner in outline.corners]
    return [*points, points[0]]


def _fixings(window: Window) -> Group:
    signs = fixing_signs(window)
    return Group("fixings", tuple(signs), f"{len(signs)} fixing points", (("mark", window.mark),))


def fixing_signs(window: Window) -> list[Symbol]:
    """One sign for each fixing, by whether a screw or a bracket holds there: in the middle of the frame between edge and rebate."""
    inset, held = window.system.profiles["frame"].rebate / 2, holds(window)
    signs = []
    for point in window.fixings:
        (x, y), way = point.at, point.inward
        at = Point(x + way.x * inset, y + way.y * inset)
        if held[kind_of_side(point.side)].how == "bracket":
            signs.append(Symbol("bracket", at, Layer.FIXING, 90.0 if abs(way.x) > abs(way.y) else 0.0, point.tag))
        else:
            signs.append(Symbol("fixing", at, Layer.FIXING, tag=point.tag))
    return signs


def cut_marks(window: Window, cuts: Cuts, scale: float) -> Group:
    """The ends of both cutting lines: A-A looks to the left, B-B down; the letter stands behind the arrow."""
    box, off = window.frame.outline.bounds, MARK_OFF * scale
    items: list[Entity] = []
    for y in (box.top + off, box.bottom - off):
        items += cut_mark("A", Point(cuts.upright_x, y), 180.0, scale)
    for x in (box.left - off, box.right + off):
        items += cut_mark("B", Point(x, cuts.level_y), 270.0, scale)
    return Group("cuts", tuple(items), "where sections A-A and B-B are cut")


def cut_mark(letter: str, at: Point, angle: float, scale: float) -> list[Entity]:
    """One end of a cutting line whose arrow points that way, 180 to the left or 270 down; its letter stands behind it."""
    behind = LETTER_OFF * scale
    place = Point(at.x + behind, at.y) if angle == LEFTWARDS else Point(at.x, at.y + behind)
    label = Label(letter, place, TITLE_HEIGHT, align="centre", level="middle", bold=True)
    return [Symbol("cut-arrow", at, Layer.CENTRE, angle), label]


def _dimensions(window: Window, chains: Chains) -> list[Group]:
    named = (("dimensions-bars", "bar centre lines", chains.bars), ("dimensions-overall", "overall size", chains.overall),
             ("dimensions-fixings", "fixing positions", chains.fixings))
    return [Group(name, dims, title, (("mark", window.mark),)) for name, title, dims in named if dims]


def _title(window: Window, scale: float, chains: Chains, inner: Box) -> Group:
    """Under the drawing: what it is, its scale, its shape, and which sides' fixings need no chain of their own."""
    top, left = inner.bottom - 3.5 * scale, window.frame.outline.bounds.left
    items = [Label("Elevation from outside", Point(left, top), TITLE_HEIGHT, level="top", bold=True)]
    shape = window.shape.words(window.width.value, window.height.value)
    note = f"Scale 1:{scale:g}" + (f"; {shape}" if shape else "") + (f"; fixings: {', '.join(chains.same)}" if chains.same else "")
    for row in wrap(note, max((inner.right - left) / scale, NARROWEST_TITLE), NOTE_HEIGHT):
        top -= (6.0 if len(items) == 1 else NOTE_HEIGHT * 1.6) * scale
        items.append(Label(row, Point(left, top), NOTE_HEIGHT, level="top"))
    return Group("elevation-title", tuple(items))


def _same(a: Outline, b: Outline) -> bool:
    return all(abs(p.x - q.x) < SAME_MM and abs(p.y - q.y) < SAME_MM for p, q in zip(a.corners, b.corners, strict=True))


def _data(window: Window, tag: str) -> tuple[tuple[str, str], ...]:
    return (("mark", window.mark), ("tag", tag))


def _id(tag: str) -> str:
    return tag.lower().replace(" ", "-")
