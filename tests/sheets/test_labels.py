"""Labels: each thing once, its size never cut, its code read back by a reader that did not make it."""

from __future__ import annotations

import pypdfium2
import pytest
import zxingcpp

from elevations import pipeline
from elevations.drawing.entities import Fill, Label, Stroke
from elevations.drawing.extent import bounds_of_all, text_boxes
from elevations.export.pdf import write_pdf
from elevations.plane import Box
from elevations.sheets.labelled import code_text, things
from elevations.sheets.labels import PAPERS, Grid, label_sheets, words_left_off
from elevations.spec.load import parse_job
from elevations.spec.model import JobInfo
from tests.commands.typed import JOB


def job(text=JOB):
    loaded = parse_job(text, "job.yaml")
    return loaded.job.job, list(pipeline.windows(loaded))


def sheets(grid=None, text=JOB, **ways):
    info, windows = job(text)
    return list(label_sheets(list(things(windows)), info, grid or Grid(), **ways))


def codes(made):
    """What a code reader sees on the printed pages, 300 dots an inch."""
    found = []
    for page in pypdfium2.PdfDocument(write_pdf(made)):
        image = page.render(scale=300 / 72).to_pil()
        found += [code.text for code in zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)]
    return found


def said(sheet):
    return [item.text for group in sheet.groups for item in group.items if isinstance(item, Label)]


def test_frames_sashes_and_units_get_a_label_each():
    _, windows = job()
    assert [(t.kind, t.mark, t.tag, t.size) for t in things(windows)] == [
        ("frame", "W1", "frame", "1200 × 1050"),
        ("sash", "W1", "S1", "542 × 964"),      # spec format, 'The arithmetic, on two lights'
        ("unit", "W1", "G1", "420 × 842"),
        ("unit", "W1", "G2", "526 × 948"),
        ("frame", "W2", "frame", "900 × 1350"),
        ("unit", "W2", "G1", "798 × 1248"),
    ]
    assert [t.tag for t in things(windows, ("sash",))] == ["S1"]


def test_every_code_is_read_back_and_holds_job_mark_tag_and_revision():
    wanted = ["QL-07/W1/frame/B", "QL-07/W1/S1/B", "QL-07/W1/G1/B", "QL-07/W1/G2/B", "QL-07/W2/frame/B", "QL-07/W2/G1/B"]
    assert sorted(codes(sheets())) == sorted(wanted)


@pytest.mark.parametrize("grid", [Grid(columns=3, rows=10), Grid(columns=1, rows=4), Grid("A5", 2, 8, 5, 5, 0), Grid("letter", 2, 7)])
def test_codes_are_read_on_every_grid(grid):
    assert len(codes(sheets(grid))) == 6


def test_long_marks_and_other_letters_are_read_back():
    text = JOB.replace("mark: W1", "mark: 'W1/ö 窓 " + "x" * 25 + "'").replace("QL-07", "Auftrag ÄÖÜ 4711 / 2026")
    info, windows = job(text)
    wanted = [code_text(thing, info) for thing in things(windows)]
    assert sorted(codes(sheets(Grid(columns=2, rows=7), text))) == sorted(wanted)
    assert wanted[0].count("/") == 3


def test_a_code_names_no_person_and_no_place():
    info = JobInfo(reference="QL-07", site="Quillback Lock Cottage", client="Quillback Lock Trust", drawn_by="I. Sedgewater", revision="B")
    _, windows = job()
    assert {code_text(thing, info) for thing in things(windows)} <= {f"QL-07/{m}/{t}/B" for m in ("W1", "W2") for t in ("frame", "S1", "G1", "G2")}


def test_a_size_is_never_cut_short():
    for grid in (Grid(), Grid(columns=3, rows=10), Grid("A4", 4, 13, 4, 4, 0)):
        texts = [text for sheet in sheets(grid) for text in said(sheet)]
        assert {"1200 × 1050", "542 × 964", "420 × 842", "526 × 948", "900 × 1350", "798 × 1248"} <= set(texts)


def test_everything_lies_inside_its_label_and_words_keep_clear_of_each_other():
    for grid in (Grid(), Grid(columns=3, rows=8), Grid("A4", 4, 13, 4, 4, 0)):
        (sheet,) = sheets(grid, borders=True)
        for group, box in zip(sheet.groups, grid.boxes(), strict=False):
            inside = bounds_of_all(group.items, 1.0)
            assert Box(*box).grown(0.3).joined(inside) == Box(*box).grown(0.3)
            texts = [b for _, b in text_boxes(group.items, 1.0)]
            for i, a in enumerate(texts):
                for b in texts[i + 1 :]:
                    assert min(min(a.right, b.right) - max(a.left, b.left), min(a.top, b.top) - max(a.bottom, b.bottom)) < 1.6


def test_labels_of_a_page_do_not_overlap_and_stay_on_the_paper():
    grid = Grid(columns=3, rows=9)
    boxes = list(grid.boxes())
    width, height = PAPERS["A4"]
    assert len(boxes) == 27
    assert min(b.left for b in boxes) == pytest.approx(8)
    assert max(b.right for b in boxes) == pytest.approx(width - 8)
    assert max(b.top for b in boxes) == pytest.approx(height - 12)
    assert not any(a.overlaps(b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])


def test_skipped_places_stay_free_on_the_first_page_only():
    made = sheets(Grid(columns=1, rows=4), skip=2)
    assert [len([g for g in sheet.groups if g.id.startswith("label-")]) for sheet in made] == [2, 4]


def test_a_grid_too_fine_is_refused_with_its_sizes():
    with pytest.raises(ValueError, match=r"9 x 7 labels on A4 would be 18.9 x 36.4 mm; a label needs at least 45 x 20 mm"):
        sheets(Grid(columns=9))


def test_demonstration_data_is_said_on_the_page():
    assert any("not for manufacture" in text for text in said(sheets(demonstration=True)[0]))
    assert not any("not for manufacture" in text for text in said(sheets()[0]))


HEAVY = JOB.replace("QL-07, site: Quillback Lock Cottage", "QL-21, site: 'Quillback Lock Cottage, engine shed beside the upper lock'").replace(
    "safe: {make_up: 6/16/6,", "safe: {make_up: 6/16/6, low_e: {face: 2, emissivity: 0.03}, obscure: inner,"
).replace("{width: 900, height: 1350}", "{width: 1500, height: 1400}")


def label_of(tag, **ways):
    """The words of one label, top down."""
    for sheet in sheets(text=HEAVY, **ways):
        for group in sheet.groups:
            if group.id == f"label-{tag}":
                return [item for item in group.items if isinstance(item, Label)]
    raise AssertionError(tag)


def test_a_unit_says_what_it_is_made_of_which_pane_is_what_and_which_way_it_faces():
    words = " ".join(label.text for label in label_of("W2-G1"))
    for part in ("6/16/6, 28 thick", "toughened outer and inner, marked", "obscure inner", "obscure pane to the room"):
        assert part in words
    assert "safe" not in words


def test_a_unit_that_one_person_should_not_lift_says_so_in_bold_first():
    """1.398 x 1.298 m of 12 mm glass at 2.5 kg: 54.4 kg; two people 33 kg, UK guideline figures from memory."""
    labels = label_of("W2-G1")
    assert "54.4 kg" in " ".join(label.text for label in labels)
    assert " ".join(label.text for label in labels[2:4] if label.bold) == "To lift: more than two people, or lifting gear"
    assert not any("lift" in label.text for label in label_of("W1-G1"))


def test_the_site_is_whole_or_ends_in_an_ellipsis():
    site = "Quillback Lock Cottage, engine shed beside the upper lock"
    for grid in (Grid(), Grid(columns=3, rows=9), Grid(columns=3, rows=12), Grid("A4", 4, 13, 4, 4, 0)):
        for sheet in sheets(grid, HEAVY, demonstration=True):
            for group in sheet.groups:
                words = " ".join(item.text for item in group.items if isinstance(item, Label))
                assert site in words or words.endswith("…") or group.id == "demonstration"


def test_a_shaped_unit_points_to_its_template():
    text = JOB.replace("frame: {width: 900, height: 1350}", "frame: {width: 900, height: 1350}\n    head: {arched: {rise: 200}}")
    assert any("template W2-G1" in words for sheet in sheets(text=text) for words in said(sheet))


def test_the_picture_tones_the_thing_where_it_sits_in_the_window():
    """G1 of W1 is the left pane: 104 to 524 of 1200 mm (spec format, 'The arithmetic, on two lights')."""
    info, windows = job()
    thing = next(t for t in things(windows) if (t.mark, t.tag) == ("W1", "G1"))
    (sheet,) = label_sheets([thing], info, Grid())
    fills = [i for g in sheet.groups for i in g.items if isinstance(i, Fill) and i.tone != "#000000"]
    frame = max((i for g in sheet.groups for i in g.items if isinstance(i, Stroke)), key=lambda s: bounds_of_all([s], 1.0).width)
    toned, whole = fills[0].outline.bounds, bounds_of_all([frame], 1.0)
    assert (toned.left - whole.left) / whole.width == pytest.approx((43 + 56 + 5) / 1200, abs=0.002)
    assert toned.width / whole.width == pytest.approx(420 / 1200, abs=0.002)


def test_labels_that_would_cut_safety_words_are_told_apart_from_those_that_cut_the_site():
    info, windows = job(HEAVY)
    labelled = list(things(windows))
    assert words_left_off(labelled, info, Grid(), demonstration=True)[0] == []
    needful, _ = words_left_off(labelled, info, Grid(columns=4, rows=12, gap=2), demonstration=True)
    assert "W2-G1" in [f"{thing.mark}-{thing.tag}" for thing in needful]
    assert all(thing.caution or thing.kind == "unit" for thing in needful)


def test_a_heavy_glazed_sash_says_who_lifts_it():
    """Its pane alone: 1.3 x 1.3 m and more of 12 mm glass at 2.5 kg is over 50.7 kg; two people 33 kg, UK guideline from memory."""
    _, windows = job("""\
glass: {heavy: {make_up: 6/16/6}}
windows: [{mark: W1, frame: {width: 1600, height: 1600}, lights: [{light: top-hung}]}]
""")
    (sash,) = things(windows, ["sash"])
    pane = windows[0].panes[0]
    mass = float(sash.caution.removeprefix("To lift glazed, ").partition(" kg")[0])
    assert mass > pane.mass_kg > 1.3 * 1.3 * 12 * 2.5
    assert sash.caution.endswith(": more than two people, or lifting gear")
    (light,) = things(windows_light(), ["sash"])
    assert light.caution == ""


def windows_light():
    return job("glass: {clear: {make_up: 4/20/4}}\nwindows: [{mark: W1, frame: {width: 600, height: 600}, lights: [{light: top-hung}]}]\n")[1]
