"""How long the commands take, as ratios to bare libraries in the same run: `python tests/benchmarks/bench.py`.

Not a test: times on a shared machine wander, ratios taken side by side hardly. Each pair is measured in turn, several
times over, and the median of the ratios is shown.

- draw: factory sheets as DXF and SVG, against bare ezdxf and bare svgwrite (debug off) writing the same number and
  kinds of entities, which are counted from the files that were drawn;
- schedule: the glass of 1,000 windows, against loading the same YAML with PyYAML's CSafeLoader;
- start: whole processes of `--help` and of `check` with one window, in seconds;
- memory: the peak of a process that draws, at growing numbers of windows.
"""

from __future__ import annotations

import contextlib
import gc
import io
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

def job(count: int) -> str:
    """The windows of the demonstration job over and over, each with a mark and, by a few mm, a width of its own."""
    text = (ROOT / "specs/quillback-lock-cottage.yaml").read_text("utf-8")
    head, _, windows = re.sub(r" *#.*", "", text).partition("windows:\n")
    blocks = [block for block in re.split(r"(?=^  - mark: )", windows, flags=re.MULTILINE) if block.strip()]
    made = []
    for number in range(count):
        block = re.sub(r"mark: .*", f"mark: B{number}", blocks[number % len(blocks)]).strip("\n")
        wide = re.search(r"frame: \{width: ([0-9]+)", block).group(1)
        made.append(block.replace(f"width: {wide}", f"width: {int(wide) + number % 57}"))
    return head + "windows:\n" + "\n".join(made) + "\n"


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def ratio(ours: Callable[[], object], theirs: Callable[[], object], rounds: int) -> tuple[float, float, float]:
    """Median seconds of ours and theirs, and the median of their ratios, taken in turn after a warm-up of both."""
    ours()
    theirs()
    pairs = [(seconds(ours), seconds(theirs)) for _ in range(rounds)]
    return (
        statistics.median(a for a, _ in pairs), statistics.median(b for _, b in pairs), statistics.median(a / b for a, b in pairs),
    )


def bench_schedule() -> tuple[str, str]:
    import yaml

    from elevations.cli import cli

    usual = gc.get_threshold()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "job.yaml"
        file.write_text(job(1000), "utf-8")

        def ours() -> None:
            with contextlib.redirect_stdout(io.TextIOWrapper(io.BytesIO())):
                cli(["schedule", "glass", str(file)], standalone_mode=False)

        def theirs() -> None:
            gc.set_threshold(*usual)   # the command looks for cycles more seldom; bare PyYAML is measured as it comes
            yaml.load(file.read_text("utf-8"), Loader=yaml.CSafeLoader)

        mine, bare, times = ratio(ours, theirs, 9)
    return "schedule glass, 1,000 windows", f"{mine:.2f} s, CSafeLoader {bare:.2f} s: {times:.2f} x (at most 3)"


def bench_draw(count: int, formats: tuple[str, ...]) -> tuple[str, str]:
    from elevations import pipeline
    from elevations.spec.load import parse_job

    loaded = parse_job(job(count), "job.yaml")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        order = pipeline.Order((), formats, folder)
        list(pipeline.draw(loaded, order, workers=1))
        bare = [(_bare_dxf(folder / "B1.dxf"), "dxf"), (_bare_svg(folder / "B1.svg"), "svg")]

        def theirs() -> None:
            for number in range(count):
                for write, kind in bare:
                    if kind in formats:
                        (folder / f"bare{number}.{kind}").write_bytes(write())

        mine, other, times = ratio(lambda: list(pipeline.draw(loaded, order, workers=1)), theirs, 5)
    return (
        f"draw {'+'.join(formats)}, {count} windows",
        f"{mine / count * 1e3:.0f} ms a window, bare libraries {other / count * 1e3:.0f} ms: {times:.2f} x (at most 1.5)",
    )


def _bare_dxf(drawn: Path) -> Callable[[], bytes]:
    """A function that writes with bare ezdxf as many entities of each kind as one of ours holds."""
    import ezdxf

    source = ezdxf.readfile(drawn)
    entities = list(source.modelspace())
    counts = Counter(e.dxftype() for e in entities)
    corners = [len(e) for e in entities if e.dxftype() == "LWPOLYLINE"]
    texts = [e.dxf.text for e in entities if e.dxftype() == "TEXT"]
    loops = [[len(getattr(p, "vertices", ())) or 4 for p in e.paths] for e in entities if e.dxftype() == "HATCH"]
    layers = [layer.dxf.name for layer in source.layers]
    left = set(counts) - {"LINE", "LWPOLYLINE", "TEXT", "HATCH", "DIMENSION", "INSERT"}
    assert not left, f"count {left} too"

    def write() -> bytes:
        doc = ezdxf.new("R2010", setup=False)
        for name in layers:
            if name not in doc.layers:
                doc.layers.add(name)
        space, sign = doc.modelspace(), doc.blocks.new("SIGN")
        sign.add_circle((0, 0), 2)
        for i in range(counts["LINE"]):
            space.add_line((i, 0), (i, 9), {"layer": "0"})
        for size in corners:
            space.add_lwpolyline([(k, k % 2, 0.0) for k in range(size)], format="xyb", close=True, dxfattribs={"layer": "0"})
        for text in texts:
            space.add_text(text, height=25, dxfattribs={"layer": "0"}).set_placement((1, 2))
        for sizes in loops:
            hatch = space.add_hatch(7, {"layer": "0"})
            for size in sizes:
                hatch.paths.add_polyline_path([(k, k % 2) for k in range(size)], is_closed=True)
        for i in range(counts["DIMENSION"]):
            space.add_linear_dim((0, 50), (0, 0), (100 + i, 0), override={"dimtxt": 25}).render()
        for i in range(counts["INSERT"]):
            space.add_blockref("SIGN", (i, i), {"layer": "0"})
        out = io.StringIO()
        doc.write(out)
        return out.getvalue().encode()

    return write


def _bare_svg(drawn: Path) -> Callable[[], bytes]:
    """A function that writes with bare svgwrite as many elements of each kind, with paths and texts as long as ours."""
    import xml.etree.ElementTree as ET

    import svgwrite

    elements = [(e.tag.rpartition("}")[2], dict(e.attrib), e.text or "") for e in ET.parse(drawn).getroot().iter()][1:]
    makers = {"path", "text", "line", "polyline", "polygon", "circle", "rect", "use"}
    counts = Counter(tag for tag, _, _ in elements)
    parts = [(tag, attributes, text) for tag, attributes, text in elements if tag in makers]

    def write() -> bytes:
        drawing = svgwrite.Drawing(debug=False)
        groups = [drawing.add(drawing.g()) for _ in range(max(counts["g"], 1))]
        for number, (tag, attributes, text) in enumerate(parts):
            group = groups[number % len(groups)]
            if tag == "path":
                group.add(drawing.path(d=attributes["d"], stroke_width=0.25))
            elif tag == "text":
                group.add(drawing.text(text, insert=(attributes.get("x", 0), attributes.get("y", 0)), font_size=2.5))
            elif tag in {"polyline", "polygon"}:
                points = [tuple(float(n) for n in pair.split(",")) for pair in attributes["points"].split()]
                group.add(getattr(drawing, tag)(points))
            elif tag == "line":
                group.add(drawing.line((attributes["x1"], attributes["y1"]), (attributes["x2"], attributes["y2"])))
            elif tag == "circle":
                group.add(drawing.circle((0, 0), attributes["r"]))
            elif tag == "rect":
                group.add(drawing.rect((0, 0), (attributes["width"], attributes["height"])))
            else:
                group.add(drawing.use("#sign"))
        return drawing.tostring().encode()

    return write


def bench_start() -> list[tuple[str, str]]:
    """The best of nine whole processes: what else the machine does only ever adds."""
    def best(*arguments: str) -> float:
        command = [sys.executable, "-m", "elevations.cli", *arguments]
        return min(seconds(lambda: subprocess.run(command, cwd=ROOT, capture_output=True, check=True)) for _ in range(9))

    return [
        ("--help", f"{best('--help'):.3f} s (under 0.1)"),
        ("check, one window", f"{best('check', 'specs/one-light.yaml'):.3f} s (under 0.4)"),
    ]


def bench_memory() -> tuple[str, str]:
    """Peak of the drawing process itself, one worker. From /proc: getrusage counts what the parent had before it, too."""
    code = (
        "import re, sys; from elevations.cli import cli\n"
        "try: cli(['draw', sys.argv[1], '--out', sys.argv[2], '--format', 'svg', '--jobs', '1'])\n"
        "except SystemExit as end: assert not end.code\n"
        "print(re.search(r'VmHWM:\\s+([0-9]+)', open('/proc/self/status').read()).group(1))"
    )
    peaks = []
    with tempfile.TemporaryDirectory() as folder:
        for count in (50, 200, 800):
            file = Path(folder) / "job.yaml"
            file.write_text(job(count), "utf-8")
            command = [sys.executable, "-c", code, str(file), str(Path(folder) / "out")]
            done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
            peaks.append(f"{count}: {int(done.stdout.splitlines()[-1]) / 1024:.0f} MB")
    return "draw svg, peak memory by windows", ", ".join(peaks)


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    rows = [*bench_start(), bench_schedule(), bench_draw(count, ("dxf", "svg")), bench_memory()]
    width = max(len(name) for name, _ in rows)
    for name, result in rows:
        print(f"{name:{width}}  {result}")


if __name__ == "__main__":
    main()
