"""Outlines from DXF files that ezdxf wrote: read back equal, in any unit and direction; or refused in words."""

import math
from itertools import pairwise

import ezdxf
import pytest

from elevations.catalogue.load import find_system
from elevations.catalogue.system import BARS, MEMBERS, PartKind
from elevations.errors import SpecError

CLOSE_MM = 1e-6
FIGURES = """\
system: drawn
material: pvc-u
depth: 70
swing: out
sash_face: {face}
members:
  frame:   {{sight: {frame.sight}, rebate: {frame.rebate}, sash: {frame.sash}}}
  mullion: {{sight: {mullion.sight}, rebate: {mullion.rebate}, sash: {mullion.sash}}}
  transom: {{sight: {mullion.sight}, rebate: {mullion.rebate}, sash: {mullion.sash}}}
  sash:    {{sight: {sash.sight}, rebate: {sash.rebate}}}
glazing: {{edge_clearance: 5, thickness: 28}}
sections:
"""
LAYER_OF = {PartKind.PROFILE: "profile", PartKind.CHAMBER: "chamber", PartKind.STEEL: "reinforcement"}


def text_for(system, sections):
    return FIGURES.format(face=system.sash_face, **system.profiles) + sections


def layered(member, section):
    """(layer key, outline) of every part of a section."""
    pairs = [(LAYER_OF.get(part.kind, "closing_gasket"), part.outline) for part in section.body]
    pairs += [("bead" if part.kind is PartKind.BEAD else "glazing_gasket", part.outline) for part in section.glazed]
    pairs += [("closing_gasket", part.outline) for part in section.hung]
    return [(f"{member}-{key}", outline) for key, outline in pairs]


def as_polyline(msp, layer, corners):
    msp.add_lwpolyline(corners, format="xyb", close=True, dxfattribs={"layer": layer})


def as_pieces(msp, layer, corners):
    """Lines and arcs, every other one the wrong way round, in a scrambled order."""
    pairs = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    for i, (a, b) in sorted(enumerate(pairs), key=lambda item: item[0] * 7 % 5):
        if a[2]:
            arc = ezdxf.math.bulge_to_arc(a[:2], b[:2], a[2])
            centre, first, last, radius = arc
            msp.add_arc(centre, radius, math.degrees(first), math.degrees(last), dxfattribs={"layer": layer})
        else:
            ends = (a[:2], b[:2]) if i % 2 else (b[:2], a[:2])
            msp.add_line(*ends, dxfattribs={"layer": layer})


def as_old_polyline(msp, layer, corners):
    msp.add_polyline2d(corners, format="xyb", close=True, dxfattribs={"layer": layer})


def write(folder, system, draw=as_polyline, units=4, place=tuple):
    doc = ezdxf.new("R2010")
    doc.header["$INSUNITS"] = units
    for name in MEMBERS:
        for layer, outline in layered(name, system.profiles[name].section):
            draw(doc.modelspace(), layer, [place(c) for c in outline.corners])
    doc.saveas(folder / "profiles.dxf")


def from_drawing(more=""):
    keys = ("profile", "chamber", "reinforcement", "bead", "glazing_gasket", "closing_gasket")
    lines = []
    for name in MEMBERS:
        used = [k for k in keys if not (name == "sash" and k == "closing_gasket")]
        layers = ", ".join(f"{key}: {name}-{key}" for key in used)
        lines.append(f"  {name}: {{from: profiles.dxf, layers: {{{layers}}}{more}}}\n")
    return "".join(lines)


def read(folder, text):
    (folder / "drawn.yaml").write_text(text, "utf-8")
    return find_system("drawn.yaml", str(folder))


def start_anywhere(outline):
    """Corners from the lowest of the leftmost on: a loop has no first corner."""
    corners = outline.corners
    first = min(range(len(corners)), key=lambda i: (round(corners[i].x, 4), round(corners[i].y, 4)))
    return [*corners[first:], *corners[:first]]


def assert_same(found, expected, tolerance=CLOSE_MM):
    for name in MEMBERS:
        for key in ("body", "glazed", "hung"):
            ours = getattr(found.profiles[name].section, key)
            theirs = getattr(expected.profiles[name].section, key)
            assert sorted(p.kind for p in ours) == sorted(p.kind for p in theirs)
            left = list(theirs)
            for part in ours:
                match = next(
                    p for p in left if p.kind == part.kind and same(p.outline, part.outline, tolerance)
                )
                left.remove(match)


def same(a, b, tolerance):
    one, two = start_anywhere(a), start_anywhere(b)
    return len(one) == len(two) and all(
        abs(p - q) < tolerance for c, d in zip(one, two, strict=True) for p, q in zip(c, d, strict=True)
    )


@pytest.mark.parametrize("name", ["flush-70", "lipped-70"])   # those with parts of every kind
@pytest.mark.parametrize("draw", [as_polyline, as_old_polyline, as_pieces])
def test_a_system_written_to_dxf_reads_back_equal(tmp_path, name, draw):
    system = find_system(name)
    write(tmp_path, system, draw)
    sections = from_drawing()
    if name == "lipped-70":   # its sash carries a closing gasket of its own
        sections = sections.replace("sash-glazing_gasket}", "sash-glazing_gasket, closing_gasket: sash-closing_gasket}")
    assert_same(read(tmp_path, text_for(system, sections)), system)


# $INSUNITS values from the DXF reference; 25.4 mm to the inch is exact (international yard and pound, 1959)
@pytest.mark.parametrize(("units", "mm"), [(0, 1), (1, 25.4), (4, 1), (5, 10), (6, 1000)])
def test_the_drawing_s_unit_is_respected(tmp_path, units, mm):
    system = find_system("flush-70")
    write(tmp_path, system, units=units, place=lambda c: (c.x / mm, c.y / mm, c.bulge))
    assert_same(read(tmp_path, text_for(system, from_drawing())), system)


DIRECTIONS = [
    ("right", "below", lambda c: (c.x, c.y, c.bulge)),
    ("left", "below", lambda c: (-c.x, c.y, -c.bulge)),
    ("right", "above", lambda c: (c.x, -c.y, -c.bulge)),
    ("left", "above", lambda c: (-c.x, -c.y, c.bulge)),
    ("above", "right", lambda c: (-c.y, c.x, c.bulge)),
    ("below", "right", lambda c: (-c.y, -c.x, -c.bulge)),
    ("above", "left", lambda c: (c.y, c.x, -c.bulge)),
]


@pytest.mark.parametrize(("glass", "outside", "turn"), DIRECTIONS)
def test_a_turned_or_mirrored_drawing_far_from_its_origin_reads_the_same(tmp_path, glass, outside, turn):
    system = find_system("flush-70")

    def place(corner):
        x, y, bulge = turn(corner)
        return x + 5000, y - 1200, bulge

    write(tmp_path, system, place=place)
    more = f", origin: [5000, -1200], glass: {glass}, outside: {outside}"
    assert_same(read(tmp_path, text_for(system, from_drawing(more))), system)


def test_parts_on_the_far_side_of_a_bar_are_left_out(tmp_path):
    system = find_system("flush-70")
    write(tmp_path, system)
    doc = ezdxf.readfile(tmp_path / "profiles.dxf")
    for name in BARS:
        for layer, outline in layered(name, system.profiles[name].section):
            if "bead" in layer or "gasket" in layer:
                as_polyline(doc.modelspace(), layer, [tuple(c) for c in outline.mirrored(0).corners])
    doc.saveas(tmp_path / "profiles.dxf")
    assert_same(read(tmp_path, text_for(system, from_drawing())), system)


def test_circles_and_blocks_are_read(tmp_path):
    system = find_system("flush-70")
    doc = ezdxf.new("R2010")
    doc.header["$INSUNITS"] = 4
    block = doc.blocks.new("F")
    as_polyline(block, "P", [(0, 0, 0), (66, 0, 0), (66, 70, 0), (0, 70, 0)])
    block.add_circle((20, 30), 6, dxfattribs={"layer": "H"})
    block.add_circle((-50, 30), 6, dxfattribs={"layer": "H", "extrusion": (0, 0, -1)})   # seen from behind: x = 50
    doc.modelspace().add_blockref("F", (100, 200))
    doc.saveas(tmp_path / "profiles.dxf")
    sections = "  frame: {from: profiles.dxf, origin: [100, 200], layers: {profile: p, chamber: H}}\n"
    _, *holes = read(tmp_path, text_for(system, sections)).profiles["frame"].section.body
    assert [hole.outline.area for hole in holes] == pytest.approx([36 * math.pi] * 2)
    assert sorted(hole.outline.bounds.left for hole in holes) == pytest.approx([14, 44])


def test_a_drawing_that_changes_is_read_again(tmp_path):
    system = find_system("flush-70")
    write(tmp_path, system)
    first = read(tmp_path, text_for(system, from_drawing()))
    assert find_system("drawn.yaml", str(tmp_path)) is first
    doc = ezdxf.readfile(tmp_path / "profiles.dxf")
    doc.modelspace().add_circle((20, 40), 3, dxfattribs={"layer": "frame-chamber"})
    doc.saveas(tmp_path / "profiles.dxf")
    second = find_system("drawn.yaml", str(tmp_path))
    assert len(second.profiles["frame"].section.body) == len(first.profiles["frame"].section.body) + 1


def lines(doc, *points, layer="P"):
    for a, b in pairwise(points):
        doc.modelspace().add_line(a, b, dxfattribs={"layer": layer})


def gap(doc):
    lines(doc, (0, 0), (66, 0), (66, 70), (0, 70), (0, 0.4))


def spline(doc):
    doc.modelspace().add_spline([(0, 0), (66, 0), (66, 70)], dxfattribs={"layer": "P"})


def nothing(doc):
    doc.layers.add("PP1")
    doc.modelspace().add_text("P", dxfattribs={"layer": "P"})


def far(doc):
    lines(doc, (5000, 0), (5066, 0), (5066, 70), (5000, 0))


def crossed(doc):
    lines(doc, (0, 0), (66, 66), (66, 0), (33, 70), (0, 0))


def odd_unit(doc):
    doc.header["$INSUNITS"] = 7   # kilometres
    gap(doc)


def loose(doc):
    for i in range(1600):
        doc.modelspace().add_line((i, 0), (i, 1), dxfattribs={"layer": "P"})


@pytest.mark.parametrize(
    ("draw", "message"),
    [
        (gap, "a gap of 0.4 mm at (0.00, 0.40)"),
        (spline, "holds splines"),
        (nothing, "layer 'P' has no closed outline"),
        (far, "more than 1000 mm from the origin"),
        (crossed, "crosses itself at"),
        (odd_unit, "$INSUNITS 7"),
        (loose, "1,600 loose lines"),
    ],
)
def test_what_a_drawing_lacks_is_said_in_words(tmp_path, draw, message):
    doc = ezdxf.new("R2010")
    doc.header["$INSUNITS"] = 4
    draw(doc)
    doc.saveas(tmp_path / "profiles.dxf")
    text = text_for(find_system("flush-70"), "  frame: {from: profiles.dxf, layers: {profile: P}}\n")
    with pytest.raises(SpecError) as caught:
        read(tmp_path, text)
    (problem,) = caught.value.problems
    assert message in problem.message
    assert problem.hint
    assert problem.place.line == len(text.splitlines())


@pytest.mark.parametrize(
    ("block", "message"),
    [
        ("{from: nowhere.dxf, layers: {profile: P}}", "is not there"),
        ("{from: drawn.yaml, layers: {profile: P}}", "is not a DXF drawing"),
        ("{from: ., layers: {profile: P}}", "cannot be read"),
        ("{from: nowhere.dxf}", "'profile'"),
        ("{from: nowhere.dxf, layers: {profil: P}}", "'profil' has no meaning"),
        ("{from: nowhere.dxf, layers: {profile: P}, glass: right, outside: left}", "right angles"),
        ("{from: nowhere.dxf, layers: {profile: P}, origin: 12}", "[x, y]"),
        ("{from: nowhere.dxf, layers: {profile: P}, origin: [1, b]}", "'b'"),
    ],
)
def test_a_faulty_reference_to_a_drawing_is_said_in_words(tmp_path, block, message):
    with pytest.raises(SpecError) as caught:
        read(tmp_path, text_for(find_system("flush-70"), f"  frame: {block}\n"))
    (problem,) = caught.value.problems
    assert message in problem.message
    assert problem.place.file == "drawn.yaml"
