"""The customer's page and PDF: whole, silent, and holding what a customer needs."""

import itertools
import re
import shutil
from html.parser import HTMLParser

import pytest

from tests.customer.packs import DEMO, packed, run


class Tags(HTMLParser):
    VOID = frozenset({"meta", "input", "br"})

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.tags, self.open, self.unclosed = [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        self.unclosed += [] if self.open and self.open[-1] == tag else [tag]
        self.open.pop()


@pytest.fixture(scope="module")
def tags(page_file):
    return Tags(page_file.read_text("utf-8"))


def test_every_element_is_closed_where_it_was_opened(tags):
    assert (tags.open, tags.unclosed) == ([], [])


def test_every_id_is_given_once_and_every_reference_is_to_one_that_is_there(tags):
    ids = [a["id"] for _, a in tags.tags if "id" in a]
    assert len(ids) == len(set(ids)) > 100
    wanted = [i for _, a in tags.tags for i in a.get("aria-labelledby", "").split()]
    wanted += [a["for"] for _, a in tags.tags if "for" in a] + [a["href"][1:] for _, a in tags.tags if "href" in a]
    assert set(wanted) <= set(ids)


def test_nothing_is_run_or_fetched(page_file, tags):
    text = page_file.read_text("utf-8")
    assert {t for t, _ in tags.tags} & {"script", "link", "img", "iframe", "object", "embed", "base", "image", "use"} == set()
    assert not re.search(r"@import|url\(|javascript:|\bon\w+=", text)
    # the only address is the name of SVG's namespace, which nothing fetches
    assert set(re.findall(r"https?://[^\"' >]*", text)) <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink", "http://www.w3.org/2001/xml-events"}
    assert all(a["href"].startswith("#") for t, a in tags.tags if t == "a")
    assert "default-src 'none'" in text


def test_headings_step_down_one_level_at_a_time_and_the_landmarks_are_there(tags):
    levels = [int(t[1]) for t, _ in tags.tags if re.fullmatch(r"h[1-6]", t)]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))
    assert {"header", "nav", "main", "footer"} <= {t for t, _ in tags.tags}


def test_the_page_holds_what_a_customer_needs(page_file):
    text = page_file.read_text("utf-8")
    for words in ("Quillback Lock Cottage", "QL-07", "Revision", "2026-10-21", "Design number", "ask for a sample", "Signature",
                  "What each choice means", "licensed professional", "local rules", "not for manufacture", "100 mm"):
        assert words in text
    assert len(set(re.findall(r"<code>([0-9a-f]{4}-[0-9a-f]{4})</code>", text))) == 9   # eight windows and the job


def test_the_same_job_gives_the_same_bytes(page_file, tmp_path):
    assert packed(tmp_path, DEMO).read_bytes() == page_file.read_bytes()


def test_hostile_text_stays_text(hostile_file):
    text = hostile_file.read_text("utf-8")
    found = Tags(text)
    assert (found.open, found.unclosed) == ([], [])
    assert not {t for t, _ in found.tags} & {"script", "img"}
    assert not [name for _, a in found.tags for name in a if name.startswith("on")]
    assert "212121" not in text
    assert "&lt;script&gt;" in text


def test_the_state_of_approval_is_said(tmp_path):
    shutil.copy(DEMO, tmp_path / "job.yaml")
    assert run("approve", str(tmp_path / "job.yaml"), "--window", "W2", "--by", "A. Towpath", "--on", "2026-10-20").exit_code == 0
    text = packed(tmp_path, tmp_path / "job.yaml").read_text("utf-8")
    assert text.count("approved 2026-10-20 by A. Towpath") == 1
    assert text.count(": not approved.") == 7


def test_one_window_alone_can_be_packed(tmp_path):
    text = packed(tmp_path, DEMO, "--window", "W2").read_text("utf-8")
    assert text.count("<article") == 1


def test_what_is_not_ours_is_not_replaced(tmp_path):
    file = tmp_path / "quillback-lock-cottage-pack.html"
    file.write_text("theirs", "utf-8")
    done = run("pack", str(DEMO), "--out", str(tmp_path), "--format", "html")
    assert done.exit_code == 2
    assert "not written by this program" in done.stderr
    assert file.read_text("utf-8") == "theirs"
    assert run("pack", str(DEMO), "--out", str(tmp_path), "--format", "html", "--force").exit_code == 0
    assert run("pack", str(DEMO), "--out", str(tmp_path), "--format", "html").exit_code == 0


@pytest.mark.parametrize(("arguments", "words", "code"), [
    (["--format", "docx"], "there is no format 'docx'", 2), (["--format", ""], "there are html, pdf", 2),
    (["--window", "W99"], "no window 'W99'", 2),
])
def test_a_mistyped_command_is_told(tmp_path, arguments, words, code):
    done = run("pack", str(DEMO), "--out", str(tmp_path), *arguments)
    assert done.exit_code == code
    assert words in done.stderr


def test_a_damaged_approvals_file_stops_the_pack(tmp_path):
    shutil.copy(DEMO, tmp_path / "job.yaml")
    (tmp_path / "job.approvals.yaml").write_text("approvals: 3", "utf-8")
    done = run("pack", str(tmp_path / "job.yaml"), "--out", str(tmp_path / "out"))
    assert done.exit_code == 1
    assert "no list called 'approvals'" in done.stderr
    assert not (tmp_path / "out").exists()


def test_the_pdf_says_the_same_on_a4(tmp_path):
    reader = pytest.importorskip("pypdf").PdfReader
    done = run("pack", str(DEMO), "--out", str(tmp_path), "--format", "pdf")
    assert done.exit_code == 0
    pages = reader(done.stdout.strip()).pages
    # ISO 216: A4 is 210 x 297 mm; a point is 1/72 inch
    assert {(round(float(p.mediabox.width) * 25.4 / 72), round(float(p.mediabox.height) * 25.4 / 72)) for p in pages} == {(297, 210)}
    texts = [page.extract_text() for page in pages]
    assert "All windows" in texts[0]
    for text, name in zip(texts[1:9], ("Bathroom", "Kitchen", "Landing", "Sitting room", "Bedroom 1", "Bedroom 2", "Study", "Boot room"), strict=True):
        assert name in text
        assert re.search(r"Design number [0-9a-f]{4}-[0-9a-f]{4}", text)
        assert "Signature" in text
    assert "What each choice means" in " ".join(texts[9:])
