"""The customer's sheet of joined windows: the whole from both sides, how its parts stand to each other, what rests on it."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Fill, Group, Label, Placed, Sheet, Stroke, View
from elevations.drawing.layers import THIN, Layer
from elevations.drawing.lettering import wrap
from elevations.geometry.joined import Joined
from elevations.plane import Box, Point
from elevations.sheets import customer_words as words
from elevations.sheets.customer import LEADING, Page, fitting_scale, header, texts, titled, wall
from elevations.sheets.customer_seen import seen_set
from elevations.sheets.factory import PAPERS
from elevations.spec.model import Job
from elevations.views import customer_tones as tones
from elevations.views.customer_joined import customer_joined_view, laid_flat

SIDES = ("outside", "inside")
MOST_LISTED = 5
"""Windows that get a line each."""


def customer_set_sheet(joined: Joined, job: Job, agreed: Sequence[str] = ()) -> Sheet:
    """One set's sheet on the job's paper. `agreed`: how the approval of its windows stands."""
    page = Page(*PAPERS[job.drawing.sheet])
    k, inner = page.k, page.inner
    top, high = inner.top - 21 * k, 142 * k
    half = (inner.width - 8 * k) / 2
    panels = [Box(left, top - high, left + half, top) for left in (inner.left, inner.left + half + 8 * k)]
    seen = seen_set(joined)
    scale = fitting_scale([(seen.bounds.width, seen.bounds.height)], half - 12 * k, high - 24 * k)
    under = " · ".join(part for part in (", ".join(window.mark for window in joined.windows), job.job.site) if part)
    placed: list[Placed] = []
    for panel, side in zip(panels, SIDES, strict=True):
        placed += _panel(page, panel, joined, side, scale)
    foot = Box(inner.left, inner.bottom, inner.right, top - high - 7 * k)
    count = 3 if joined.bay else 2
    wide = (foot.width - 8 * k * (count - 1)) / count
    boxes = [Box(foot.left + n * (wide + 8 * k), foot.bottom, foot.left + n * (wide + 8 * k) + wide, foot.top) for n in range(count)]
    groups = [header(page, seen.name, under, job.job, "Your windows together")]
    if joined.bay:
        plan, group = _plan(page, boxes[0], joined)
        placed.append(plan)
        groups.append(group)
    groups += [_parts(page, boxes[-2], joined), _said(page, boxes[-1], joined, agreed)]
    said = f"{seen.name}: {words.set_words(joined)}. {words.set_size_words(joined)}. {words.load_words(joined)}"
    return Sheet(f"{joined.mark} for the customer", said, page.width, page.height, tuple(placed), tuple(groups), scale)


def _panel(page: Page, panel: Box, joined: Joined, side: str, scale: float) -> list[Placed]:
    k, frame = page.k, seen_set(joined).frame
    view = customer_joined_view(joined, scale, side=side)
    at = Point(panel.centre.x - frame.width / 2 / scale, panel.centre.y - frame.height / 2 / scale + 4 * k)
    note = f"Scale 1:{scale:g}" + (f", {words.LAID_FLAT}" if joined.bay and laid_flat(joined) else "")
    items = (
        Label(f"From {side}", Point(panel.left + 5 * k, panel.bottom + 4.5 * k), page.text(3.5), bold=True),
        Label(note, Point(panel.right - 5 * k, panel.bottom + 4.5 * k), page.text(2.5), align="right"),
    )
    label = Placed(View(f"{side}-words", "", (Group("words", items),), panel), 1.0, Point(0.0, 0.0))
    return [wall(panel, side, f"{side}-wall"), Placed(view, scale, at), label]


def _plan(page: Page, box: Box, joined: Joined) -> tuple[Placed, Group]:
    """From above, the outside at the bottom: frames as bars, each with its mark."""
    plan = joined.plan
    assert plan is not None
    k = page.k
    room = Box(box.left, box.bottom + 6 * k, box.right, box.top - 9 * k)
    corners = [corner.point for outline in (*plan.frames, *plan.joints) for corner in outline.corners]
    whole = Box(min(p.x for p in corners), min(p.y for p in corners), max(p.x for p in corners), max(p.y for p in corners))
    scale = max(whole.width / (room.width - 24 * k), whole.height / (room.height - 14 * k))   # a sketch: it says of no scale
    tone = tones.finished(joined.windows[0].finish.outside).tone
    items: list[Entity] = []
    for outline in (*plan.frames, *plan.joints):
        items += [Fill(outline, Layer.FRAME, tone), Stroke(outline.corners, Layer.FRAME, closed=True, weight=THIN)]
    text = page.text(2.5)
    for facet, outline, turn in zip(joined.facets, plan.frames, plan.turns, strict=True):
        middle, out = outline.bounds.centre, 1.0 if turn > 0 else -1.0 if turn < 0 else 0.0
        at = Point(middle.x + out * 5.0 * scale, outline.bounds.bottom - 3.0 * scale if not out else middle.y - 2.5 * scale)
        items.append(Label(facet.window.mark, at, text, align="left" if out > 0 else "right" if out < 0 else "centre", level="top", bold=True))
    at = Point(room.centre.x - whole.centre.x / scale, room.centre.y - whole.centre.y / scale)
    view = View("plan", "From above", (Group("plan", tuple(items), "from above"),), whole)
    note = Label("From above; the outside is at the bottom", Point(box.left, box.bottom), text)
    return Placed(view, scale, at), Group("plan-words", (*titled(page, "How they stand", box), note), "how they stand")


def _parts(page: Page, box: Box, joined: Joined) -> Group:
    """Each window by name and size: its own page says the rest."""
    k, text = page.k, page.text(2.5)
    items = titled(page, "The windows in it", box)
    top = box.top - 9 * k
    lines = wrap(f"{words.set_words(joined)}.", box.width, text)
    items += texts(lines, box.left, top, text)
    top -= (len(lines) + 0.4) * text * LEADING
    each = [f"{window.mark} · {words.name_of(window)}: {words.size_words(window)}" for window in joined.windows]
    if len(each) > MOST_LISTED:
        each = ["; ".join(f"{window.mark} {window.width.value:g} × {window.height.value:g} mm" for window in joined.windows)]
    for said in each:
        lines = wrap(said, box.width, text)
        items += texts(lines, box.left, top, text)
        top -= (len(lines) + 0.4) * text * LEADING
    lines = wrap("How each opens, its glass and its colours are on a page of its own, which is also where you approve it.", box.width, text)
    items += texts(lines, box.left, top, text)
    top -= (len(lines) + 0.4) * text * LEADING
    sizes = ["Overall size, end to end", *wrap(words.set_size_words(joined), box.width, text)]
    items += texts(sizes[:1], box.left, top, text, bold=True)
    items += texts(sizes[1:], box.left, top - text * LEADING, text)
    return Group("parts", tuple(items), "the windows in it")


def _said(page: Page, box: Box, joined: Joined, agreed: Sequence[str]) -> Group:
    """What rests on it, how approvals stand, the cautions."""
    k, text = page.k, page.text(2.5)
    items = titled(page, "Please note", box)
    top = box.top - 9 * k
    said = [(words.load_words(joined), True), *((line_, False) for line_ in agreed), (words.CONFIRM, False), (words.CAUTIONS[0], False)]
    said += [(words.DEMONSTRATION, False)] if joined.system.demonstration else []
    for words_, bold in said:
        lines = wrap(words_, box.width, text, bold=bold)
        items += texts(lines, box.left, top, text, bold=bold)
        top -= (len(lines) + 0.4) * text * LEADING
    return Group("notes", tuple(items), "please note")
