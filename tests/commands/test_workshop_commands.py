"""workshop, cut, labels and verify as they are typed: files, exit codes, words."""

from __future__ import annotations

import csv
import io
import json

import ezdxf
import openpyxl
import pypdf
import pytest

from elevations import pipeline
from tests.commands.typed import JOB, names, run

CSV_FILES = [f"QL-07-{name}.csv" for name in ("bars", "cutting", "fixings", "glass", "glass-order", "hardware", "machining", "sundries", "windows")]


def draw(folder):
    list(pipeline.draw(pipeline.read("job.yaml"), pipeline.Order((), ("dxf",), folder / "drawings"), 1))
    return folder / "drawings" / "W1.dxf"


def test_the_pack_is_one_pdf_one_workbook_and_a_csv_a_list(folder):
    done = run("workshop", "job.yaml")
    assert done.exit_code == 0
    assert names(folder / "workshop") == sorted([*CSV_FILES, "QL-07-workshop.pdf", "QL-07-workshop.xlsx"])
    assert sorted(done.stdout.split()) == sorted(f"workshop/{name}" for name in names(folder / "workshop"))


def test_the_pdf_and_the_workbook_and_the_csv_agree(folder):
    run("workshop", "job.yaml")
    reader = pypdf.PdfReader(folder / "workshop/QL-07-workshop.pdf")
    text = "\n".join(page.extract_text() for page in reader.pages)
    rows = list(csv.DictReader(io.StringIO((folder / "workshop/QL-07-glass-order.csv").read_text("utf-8"))))
    sheet = openpyxl.load_workbook(folder / "workshop/QL-07-workshop.xlsx")["Glass order"]
    column = next(cells for cells in sheet.iter_cols() if cells[0].value == "width mm")
    widths = [cell.value for cell in column][1:4]
    assert [int(row["width_mm"]) for row in rows] == widths == [526, 420, 798]
    assert all(row["width_mm"] in text for row in rows)
    assert [round(float(page.mediabox.width)) for page in reader.pages][:2] == [1191, 842]   # A3 and A4 landscape, points


@pytest.mark.parametrize(("parts", "titles"), [
    ("drawings", ["Window W1, Kitchen", "Window W2"]),
    ("glass", ["Glass of window W1, Kitchen", "Glass of window W2"]),
    ("glass,drawings", ["Window W1, Kitchen", "Glass of window W1, Kitchen", "Window W2", "Glass of window W2"]),
])
def test_the_pdf_has_the_pages_that_are_asked_for(folder, parts, titles):
    run("workshop", "job.yaml", "--format", "pdf", "--pages", parts)
    reader = pypdf.PdfReader(folder / "workshop/QL-07-workshop.pdf")
    assert [entry.title for entry in reader.outline] == titles
    if "glass" in parts:
        assert f"Page {len(titles)} of {len(titles)}" in reader.pages[-1].extract_text()


def test_the_pack_is_replaced_where_it_is_ours_and_kept_where_it_is_not(folder):
    assert run("workshop", "job.yaml").exit_code == 0
    before = {name: (folder / "workshop" / name).read_bytes() for name in names(folder / "workshop")}
    assert run("workshop", "job.yaml").exit_code == 0
    assert {name: (folder / "workshop" / name).read_bytes() for name in names(folder / "workshop")} == before
    (folder / "workshop/QL-07-cutting.csv").write_text("my,own\n", "utf-8")
    done = run("workshop", "job.yaml")
    assert done.exit_code == 2
    assert "QL-07-cutting.csv is there already" in done.stderr
    assert (folder / "workshop/QL-07-cutting.csv").read_text("utf-8") == "my,own\n"
    assert run("workshop", "job.yaml", "--force").exit_code == 0


def test_a_job_without_a_reference_names_its_files_by_its_own_name(folder):
    (folder / "cottage.yaml").write_text(JOB.replace("reference: QL-07, ", ""), "utf-8")
    run("workshop", "cottage.yaml", "--format", "csv", "--out", "o")
    assert names(folder / "o")[0] == "cottage-bars.csv"


def test_a_hostile_reference_stays_in_its_folder(folder):
    (folder / "bad.yaml").write_text(JOB.replace("reference: QL-07", "reference: '../../=x'"), "utf-8")
    assert run("workshop", "bad.yaml", "--format", "csv", "--out", "o").exit_code == 0
    assert all(name.startswith("-..-") or name[0] != "." for name in names(folder / "o"))
    assert names(folder) == ["bad.yaml", "job.yaml", "o"]


def test_text_of_the_csv_that_looks_like_a_formula_is_not_one(folder):
    (folder / "bad.yaml").write_text(JOB.replace("location: Kitchen", "location: '=1+1'"), "utf-8")
    run("workshop", "bad.yaml", "--format", "csv", "--out", "o")
    assert "'=1+1" in (folder / "o/QL-07-windows.csv").read_text("utf-8")


def test_nothing_is_written_for_a_job_with_problems(folder):
    (folder / "bad.yaml").write_text(JOB.replace("1350", "13500"), "utf-8")
    done = run("workshop", "bad.yaml")
    assert done.exit_code == 1
    assert "13500" in done.stderr
    assert names(folder) == ["bad.yaml", "job.yaml"]


@pytest.mark.parametrize(("arguments", "words"), [
    (("workshop", "job.yaml", "--format", "doc"), "there is no format 'doc'; there are pdf, xlsx, csv"),
    (("workshop", "job.yaml", "--pages", "walls"), "there is no part 'walls'; there are drawings, glass, lists"),
    (("workshop", "job.yaml", "--window", "W9"), "no window 'W9'"),
    (("labels", "job.yaml", "--grid", "two"), "'two' is not two numbers; for example 2x7"),
    (("labels", "job.yaml", "--grid", "0x7"), "1 to 20 labels across"),
    (("labels", "job.yaml", "--grid", "9x7"), "a label needs at least 45 x 20 mm"),
    (("labels", "job.yaml", "--margin", "100x8"), "a label needs at least"),
    (("labels", "job.yaml", "--kind", "door"), "there is no kind 'door'; there are frame, sash, unit"),
    (("labels", "job.yaml", "--skip", "14"), "a page has 14 labels"),
    (("labels", "job.yaml", "--window", "W2", "--kind", "sash"), "there is nothing to label"),
    (("cut", "job.yaml", "--json", "--csv"), "exclude each other"),
    (("cut", "job.yaml", "--window", "W9"), "no window 'W9'"),
])
def test_what_cannot_be_carried_out_ends_with_2_and_its_words(folder, arguments, words):
    done = run(*arguments)
    assert done.exit_code == 2
    assert words in done.stderr
    assert names(folder) == ["job.yaml"]


def test_cut_says_each_bar_and_how_good_the_plan_is(folder):
    done = run("cut", "job.yaml")
    assert done.exit_code == 0
    assert "flush-70 mullion and transom, RAL 7038 outside, RAL 9016 inside\n  ends 90/90; 1 new bar; first-fit decreasing takes 1; no plan takes fewer\n" in done.stdout
    assert "  1  bar 6000: 982 W1-M1; rest 4999, keep\n" in done.stdout   # 6000 - 15 - 982 - 4: the far end is not trimmed
    assert "All profiles: " in done.stdout


def test_cut_answers_in_json_and_csv_with_the_same_bars(folder):
    data = json.loads(run("cut", "job.yaml", "--json").stdout)
    rows = list(csv.DictReader(io.StringIO(run("cut", "job.yaml", "--csv").stdout)))
    assert sum(len(profile["bars"]) for profile in data) == len(rows)
    for profile in data:
        for bar in profile["bars"]:
            pieces = sum(piece["length_mm"] for piece in bar["pieces"])
            assert pieces + bar["kerf_mm"] + bar["trims_mm"] + bar["rest_mm"] == pytest.approx(bar["stock_mm"])
    assert all(profile["new_bars"] <= profile["first_fit_bars"] for profile in data)


def test_cut_draws_every_bar(folder):
    done = run("cut", "job.yaml", "--pdf", "bars.pdf")
    assert done.stderr.endswith("bars.pdf\n")
    text = "".join(page.extract_text() for page in pypdf.PdfReader(folder / "bars.pdf").pages)
    assert "W1-M1" in text


GIVEN = "saw: {kerf: 4, end_trim: 15, keep_from: 600}, "
ASSUMED = "saw cut 6 mm, end trim 15 mm each end; saw cut and end trim assumed"


def test_a_saw_that_nobody_gave_is_assumed_and_said_wherever_bars_are(folder):
    (folder / "bare.yaml").write_text(JOB.replace(GIVEN, ""), "utf-8")
    done = run("cut", "bare.yaml", "--pdf", "bars.pdf")
    assert done.stdout.startswith(f"{ASSUMED}: give your own (workshop: saw) before you cut\n")
    assert f"note: bars are planned with {ASSUMED}" in done.stderr
    assert "bar 6000: 982 W1-M1; rest 4982" in done.stdout   # 6000 - 15 - 982 - 6 - 15
    assert ASSUMED[1:] in " ".join(pypdf.PdfReader(folder / "bars.pdf").pages[0].extract_text().split())
    assert ASSUMED in run("workshop", "bare.yaml", "--out", "bare").stderr
    sheets = " ".join(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(folder / "bare" / "QL-07-workshop.pdf").pages)
    assert ASSUMED[1:] in sheets
    assert all(ASSUMED in row["saw"] for row in csv.DictReader(io.StringIO(run("cut", "bare.yaml", "--csv").stdout)))
    assert {(p["saw_cut_mm"], p["end_trim_mm"], *p["assumed"]) for p in json.loads(run("cut", "bare.yaml", "--json").stdout)} == {(6, 15, "saw cut", "end trim")}


def test_a_saw_that_was_given_is_printed_without_a_warning(folder):
    done = run("cut", "job.yaml")
    assert done.stdout.startswith("saw cut 4 mm, end trim 15 mm each end\n")
    assert "saw cut" not in done.stderr


def test_a_saw_cut_of_nothing_is_said_to_leave_pieces_short(folder):
    (folder / "none.yaml").write_text(JOB.replace("kerf: 4", "kerf: 0"), "utf-8")
    assert "no saw cut is counted: the last piece of a full bar comes out short" in run("cut", "none.yaml").stderr


def test_off_cuts_that_nothing_is_cut_from_are_told(folder):
    (folder / "more.yaml").write_text(JOB.replace("workshop: {", "workshop: {off_cuts: [{system: flush-70, profile: frane, length: 2000}], "), "utf-8")
    assert "nothing in this job is cut from the off-cut flush-70 frane, 2000 mm" in run("cut", "more.yaml").stderr


def test_the_schedule_of_sundries_counts_what_the_pack_counts(folder):
    """By hand: 2 x (1200 + 1050 + 900 + 1350) round both, 10 wide: x 6 deep 0.54 l, x 40 deep 3.6 l."""
    asked = list(csv.DictReader(io.StringIO(run("schedule", "sundries", "job.yaml", "--csv").stdout)))
    assert {row["what"]: float(row["quantity"]) for row in asked if row["unit"] == "litre"} == {"sealant": 0.54, "foam": 3.6}
    assert "sealant: 2 cartridges of 310 ml" in run("schedule", "sundries", "job.yaml").stdout
    run("workshop", "job.yaml", "--format", "csv", "--out", "o")
    assert list(csv.DictReader(io.StringIO((folder / "o" / "QL-07-sundries.csv").read_text("utf-8-sig")))) == asked


def test_labels_are_written_and_counted(folder):
    done = run("labels", "job.yaml", "--grid", "3x8", "--borders")
    assert (done.exit_code, done.stdout) == (0, "labels.pdf\n")
    assert "6 labels of 62.7 x 31.5 mm" in done.stderr
    assert round(float(pypdf.PdfReader(folder / "labels.pdf").pages[0].mediabox.width)) == 595


def test_codes_too_fine_to_print_are_told(folder):
    (folder / "long.yaml").write_text(JOB.replace("reference: QL-07", f"reference: {'R' * 150}"), "utf-8")
    small = ("--kind", "frame,sash", "--grid", "4x13", "--gap", "0", "--margin", "4x4")
    assert "may not print sharply" in run("labels", "long.yaml", *small).stderr
    assert "may not print sharply" not in run("labels", "job.yaml", *small).stderr


def test_labels_too_small_for_safety_words_are_refused_and_nothing_is_written(folder):
    done = run("labels", "job.yaml", "--grid", "4x13", "--gap", "0", "--margin", "4x4")
    assert done.exit_code == 2
    assert "W2-G1" in done.stderr
    assert "use fewer labels a page" in done.stderr
    assert not (folder / "labels.pdf").exists()


def test_labels_replace_nothing_that_is_not_ours(folder):
    (folder / "labels.pdf").write_bytes(b"%PDF mine")
    assert run("labels", "job.yaml").exit_code == 2
    assert (folder / "labels.pdf").read_bytes() == b"%PDF mine"


def test_csv_files_say_that_they_are_utf_8(folder):
    """A byte order mark, by which spreadsheets know it (from memory); a reader that knows the mark finds the first column."""
    run("workshop", "job.yaml", "--format", "csv")
    data = (folder / "workshop/QL-07-glass.csv").read_bytes()
    assert data.startswith(b"\xef\xbb\xbftag,")
    assert next(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))["tag"] == "W1-G1"


def test_verify_ends_with_0_for_a_drawing_as_it_was_written(folder):
    file = draw(folder)
    done = run("verify", str(file), "job.yaml")
    assert done.exit_code == 0
    assert "2 panes, " in done.stdout
    assert done.stdout.endswith(" fixings and the members of W1, 2 sections, 19 dimensions and the words are as job.yaml says\n")


def test_verify_ends_with_1_and_says_what_differs(folder):
    file = draw(folder)
    document = ezdxf.readfile(file)
    next(e for e in document.modelspace() if e.dxf.layer == "GLASS").translate(5, 0, 0)
    document.saveas(folder / "changed.dxf")
    done = run("verify", "changed.dxf", "job.yaml")
    assert done.exit_code == 1
    assert done.stdout.startswith("W1: pane G1 has its size, 420 × 842, but stands 5 to the right")
    assert done.stdout.endswith("changed.dxf: 1 difference from job.yaml\n")
    data = json.loads(run("verify", "changed.dxf", "job.yaml", "--json").stdout)
    assert [(d["kind"], d["subject"]) for d in data["differences"]] == [("pane", "G1")]


def test_verify_asks_for_the_window_where_nothing_says_which(folder):
    file = draw(folder)
    document = ezdxf.readfile(file)
    for text in list(document.modelspace().query("TEXT")):
        document.modelspace().delete_entity(text)
    document.saveas(folder / "other.dxf")
    done = run("verify", "other.dxf", "job.yaml")
    assert done.exit_code == 2
    assert "does not say which window it shows; name it with --window: W1, W2" in done.stderr
    asked = run("verify", "other.dxf", "job.yaml", "--window", "W1")
    assert asked.exit_code == 0
    assert "its words were not compared" in asked.stderr


def test_verify_holds_the_words_against_what_the_job_says_today(folder):
    file = draw(folder)
    (folder / "job.yaml").write_text(JOB.replace("revision: B", "revision: C").replace("hinge: left", "hinge: right"), "utf-8")
    done = run("verify", str(file), "job.yaml")
    assert done.exit_code == 1
    assert "W1: title block, Revision: the drawing says 'B', the job 'C'\n" in done.stdout
    assert "W1: the opening sign of light 1 is not drawn as the job has it: side-hung, hinges right, opens out\n" in done.stdout
    assert "W1: tables and notes: the drawing says 'left, opens out', the job 'right, opens out'\n" in done.stdout


def test_verify_names_the_windows_of_a_joined_set(folder):
    joined = "joined: [{mark: ROW, way: side-by-side, windows: [W1, W3]}]\n"
    third = "  - mark: W3\n    frame: {width: 900, height: 1050}\n    lights: [{light: fixed}]\n"
    (folder / "row.yaml").write_text(JOB + third + joined, "utf-8")
    (folder / "ROW.dxf").write_bytes(draw(folder).read_bytes().replace(b"Window W1", b"Coupled 1"))
    done = run("verify", "ROW.dxf", "row.yaml")
    assert done.exit_code == 2
    assert "shows the joined windows ROW; measure the drawings of its windows: W1, W3" in done.stderr


@pytest.mark.parametrize("name", ["none.dxf", "job.yaml"])
def test_verify_refuses_what_is_no_drawing_in_words(folder, name):
    done = run("verify", name, "job.yaml")
    assert done.exit_code == 1
    assert "error" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("name", ["workshop", "cut", "labels", "verify"])
def test_each_command_explains_itself(folder, name):
    done = run(name, "--help")
    assert done.exit_code == 0
    assert "JOB" in done.stdout
