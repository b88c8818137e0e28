"""A sheet with every entity in it, for the writers' tests: an invented opening of 1200 x 900 with an arched light."""

from elevations.drawing.chains import chain, next_line, overall
from elevations.drawing.entities import Fill, Group, Label, Leader, Placed, Sheet, Stroke, Symbol, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import Layer
from elevations.plane import Corner, Outline, Point, rectangle

SCALE = 10.0
HEIGHT_MM = 900.0
WIDTH_MM = 1200.0


def _outline(outline, layer, **style):
    return Stroke(outline.corners, layer, closed=True, **style)


def sample_view(scale=SCALE):
    frame, inner = rectangle(0, 0, WIDTH_MM, HEIGHT_MM), rectangle(46, 46, WIDTH_MM - 46, HEIGHT_MM - 46)
    pane = rectangle(70, 70, 560, 830)
    arched = Outline((Corner(640, 70), Corner(1130, 70), Corner(1130, 600, 0.5), Corner(640, 600)))
    round_pane = Outline((Corner(1000, 400, 1.0), Corner(800, 400, 1.0)))
    low = chain([0, 12, 24, 36, 300, 617.3, 1200], line_at=-10 * scale, upright=False, scale=scale, thing_at=0)
    high = chain([0, 8, 16, 600, 1190, 1200], line_at=HEIGHT_MM + 10 * scale, upright=False, scale=scale, thing_at=HEIGHT_MM)
    left = chain([0, 150, 162, 450, 750, 900], line_at=-10 * scale, upright=True, scale=scale, thing_at=0)
    right = chain([0, 5, 450.25, 890, 900], line_at=WIDTH_MM + 10 * scale, upright=True, scale=scale, thing_at=WIDTH_MM)
    wholes = (
        *overall([0, WIDTH_MM], line_at=next_line(low, scale), upright=False, scale=scale, thing_at=0),
        *overall([0, HEIGHT_MM], line_at=next_line(left, scale), upright=True, scale=scale, thing_at=0),
        *overall([0, WIDTH_MM], line_at=next_line(high, scale), upright=False, scale=scale, thing_at=HEIGHT_MM),
        *overall([0, HEIGHT_MM], line_at=next_line(right, scale), upright=True, scale=scale, thing_at=WIDTH_MM),
    )
    groups = (
        Group("frame", (
            Fill(frame, Layer.FRAME, "#f2efe8", (inner,)), _outline(frame, Layer.FRAME), _outline(inner, Layer.FRAME),
            Stroke((Corner(0, 0), Corner(46, 46)), Layer.FRAME), Stroke((Corner(600, 46), Corner(600, 854)), Layer.BARS),
        ), "Frame 1200 × 900", (("mark", "W1"),)),
        Group("pane-1", (
            Fill(pane, Layer.HATCH, "#e6f0f4"), _outline(pane, Layer.GLASS),
            Stroke((Corner(70, 70), Corner(560, 450), Corner(70, 830)), Layer.OPENING),
            Stroke((Corner(560, 70), Corner(70, 450), Corner(560, 830)), Layer.OPENING, line="dashed"),
            Label("G1", Point(315, 200), 3.5, align="centre", level="middle", bold=True),
            Label("490 × 760", Point(315, 150), 2.5, align="centre", level="middle"),
        ), "Pane G1", (("mark", "W1"), ("tag", "G1"))),
        Group("pane-2", (
            _outline(arched, Layer.GLASS), Fill(round_pane, Layer.GASKET, "#33383d"),
            Stroke((Corner(640, 300), Corner(1130, 300)), Layer.CENTRE), _outline(round_pane, Layer.BEAD),
        ), "Pane G2", (("tag", "G2"),)),
        Group("fixings", tuple(
            Symbol("fixing", Point(x, y), Layer.FIXING, tag=f"F{i}")
            for i, (x, y) in enumerate([(23, 150), (23, 750), (1177, 150), (1177, 750)], 1)
        )),
        Group("cut", (Symbol("cut-arrow", Point(660, 760), Layer.CENTRE), Symbol("cut-arrow", Point(315, 600), Layer.CENTRE, 90.0))),
        Group("words", (
            Leader((Point(900, 400), Point(950, 520), Point(1000, 520)), "bead 12", 2.5),
            Leader((Point(300, 300), Point(250, 260)), "left", 2.5),
            Label("top right", Point(1130, 250), 2.5, align="right", level="top"),
            Label("reads from the right", Point(620, 100), 2.5, angle=90.0),
            Label("Ø 40 – 2° “sill” ½ é", Point(660, 110), 2.5),
        )),
        Group("dimensions", (*low, *high, *left, *right, *wholes)),
    )
    bounds = bounds_of_all((item for group in groups for item in group.items), scale)
    return View("elevation", "Elevation from outside", groups, bounds)


def sample_sheet(scale=SCALE):
    placed = (Placed(sample_view(scale), scale, Point(60, 60)),)
    frame = _outline(rectangle(10, 10, 287, 200), Layer.SHEET, weight=0.7)
    title = Label("Quillback Lock Cottage – W1", Point(20, 14), 5, bold=True)
    note = Label("Demonstration data", Point(282, 14), 2.5, align="right")
    rule = Stroke((Corner(200, 180), Corner(280, 180)), Layer.SHEET)
    groups = (Group("sheet-frame", (frame, title, note, rule)),)
    return Sheet("W1 elevation", "A window of two lights, drawn to try the writers.", 297, 210, placed, groups, scale)
