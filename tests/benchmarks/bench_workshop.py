"""How long a pack takes, as a ratio to bare reportlab writing the same pages: `python tests/benchmarks/bench_workshop.py [WINDOWS]`.

Not a test. Ours is everything from the job's text to the file: reading, sizes, drawing, lists, bars, PDF; how the bars are
cut is planned beforehand, and how long that takes is told apart, for it is a search and no page. The bare one writes pages of
the same sizes with as many paths of as many points, fills, and lines of the same text in the same fonts, all known beforehand.
"""

from __future__ import annotations

import io
import re
import statistics
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

NUMBER = re.compile(r"-?[0-9.]+")
WINDOW = """\
  - mark: W{number}
    location: Lock house {number}
    frame: {{width: {width}, height: 1213}}
    mullions: [600, 1200]
    lights:
      - {{light: side-hung, hinge: left}}
      - transoms: [350]
        lights:
          - {{light: top-hung}}
          - {{light: fixed}}
      - {{light: side-hung, hinge: right}}
"""


def job(count: int) -> str:
    """The kitchen window of the demonstration job, its width a little different each time."""
    head = "job: {reference: BENCH, site: Quillback Lock Cottage}\nglass:\n  clear: {make_up: 4/20/4, gas: argon}\nworkshop: {saw: {kerf: 4}}\nwindows:\n"
    return head + "".join(WINDOW.format(number=i, width=1790 + i % 60) for i in range(count))


def planned(text: str) -> tuple[float, object]:
    """Seconds to plan the bars of a job, and the plan."""
    from elevations import pipeline
    from elevations.cutting.job import bar_sets
    from elevations.schedules.cutting import CUTTING
    from elevations.sheets.workshop import stock_of
    from elevations.spec.load import parse_job

    loaded = parse_job(text, "job.yaml")
    rows = pipeline.rows(loaded, CUTTING)
    start = time.perf_counter()
    made = bar_sets(rows, lambda group: stock_of(loaded.job, group), 5.0)
    return time.perf_counter() - start, made


def ours(text: str, bars: object) -> bytes:
    """The drawings of every window; with the whole pack where its bars are given."""
    from unittest.mock import patch

    from elevations import pipeline
    from elevations.export.pdf import write_pdf
    from elevations.sheets.factory import factory_sheet
    from elevations.sheets.workshop import packed, sheets
    from elevations.spec.load import parse_job

    loaded = parse_job(text, "job.yaml")
    if bars is None:
        return write_pdf(factory_sheet(window, loaded.job, "paper") for window in pipeline.windows(loaded))
    with patch("elevations.sheets.workshop.bar_sets", lambda *_: bars):
        return write_pdf(sheets(packed(loaded.job, list(pipeline.windows(loaded)), 5.0)))


def parts(data: bytes) -> list[tuple[tuple[float, float], list[tuple[str, object]]]]:
    """Size and contents of each page of a PDF: strokes and fills with their points, and lines of text."""
    import pypdf

    pages = []
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        found: list[tuple[str, object]] = []
        points: list[tuple[str, list[float]]] = []
        said = iter(page.extract_text().splitlines())
        for line in page.get_contents().get_data().decode("latin-1").splitlines():
            if line.startswith("BT"):
                found.append(("text", next(said, "text")))
                continue
            numbers: list[float] = []
            for token in line.split():
                if token in {"m", "l", "c"}:
                    points.append((token, numbers))
                elif token in {"S", "f*"}:
                    found.append((token, points))
                    points = []
                elif NUMBER.fullmatch(token):
                    numbers.append(float(token))
                    continue
                numbers = []
        pages.append(((float(page.mediabox.width), float(page.mediabox.height)), found))
    return pages


def bare(pages: list[tuple[tuple[float, float], list[tuple[str, object]]]]) -> bytes:
    """The same with reportlab's own canvas, path and text calls."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    from elevations.export.pdf import FONTS, REGULAR

    registerFont(TTFont("Bare", str(FONTS / f"{REGULAR}.ttf")))
    out = io.BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    for size, found in pages:
        canvas.setPageSize(size)
        canvas.setFont("Bare", 9)
        for number, (kind, content) in enumerate(found):
            if kind == "text":
                canvas.drawString(number % 500, number % 700, str(content))
                continue
            canvas.setLineWidth(0.5)
            path = canvas.beginPath()
            for operator, numbers in content:   # type: ignore[attr-defined]
                {"m": path.moveTo, "l": path.lineTo, "c": path.curveTo}[operator](*numbers)
            canvas.drawPath(path, stroke=kind == "S", fill=kind != "S")
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def measured(text: str, bars: object = None, rounds: int = 3) -> str:
    """Seconds of both and the median of their ratios, taken in turn after a warm-up."""
    data = ours(text, bars)
    pages = parts(data)
    bare(pages)
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        ours(text, bars)
        middle = time.perf_counter()
        other = bare(pages)
        times.append((middle - start, time.perf_counter() - middle))
    mine, theirs = (statistics.median(pair[i] for pair in times) for i in (0, 1))
    ratio = statistics.median(a / b for a, b in times)
    return f"{len(pages)} pages, {len(data) // 1024} kB: {mine:.2f} s; bare reportlab {theirs:.2f} s, {len(other) // 1024} kB: {ratio:.2f} x (at most 2)"


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    print(f"drawings of {count} windows    {measured(job(count))}")
    took, bars = planned(job(count))
    print(f"whole pack of {count} windows  {measured(job(count), bars)}; planning its bars {took:.2f} s")


if __name__ == "__main__":
    main()
