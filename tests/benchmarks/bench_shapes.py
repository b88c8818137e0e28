"""What a shaped head costs: a segmental three-light against the same window with a flat head, taken in turn in one run.

`python tests/benchmarks/bench_shapes.py [windows]`. Not a test: times wander, their ratio hardly. At most 1.5 is wanted.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from bench import ratio  # noqa: E402

from elevations import pipeline  # noqa: E402
from elevations.schedules import SCHEDULES  # noqa: E402
from elevations.spec.load import LoadedJob, parse_job  # noqa: E402

HEADS = {"flat": "", "segmental": "\n    head: {arched: {rise: 200}}"}
WINDOW = """\
  - mark: W{number}
    frame: {{width: 1800, height: 1300}}{head}
    mullions: equal-glass
    lights: [{{light: side-hung, hinge: left}}, {{light: fixed}}, {{light: side-hung, hinge: right}}]
"""


def job(kind: str, count: int) -> LoadedJob:
    text = "glass:\n  clear: {make_up: 4/20/4}\nwindows:\n" + "".join(WINDOW.format(number=i, head=HEADS[kind]) for i in range(count))
    return parse_job(text, "job.yaml")


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    jobs = {kind: job(kind, count) for kind in HEADS}
    with tempfile.TemporaryDirectory() as name:
        def drawn(kind: str) -> None:
            list(pipeline.draw(jobs[kind], pipeline.Order((), ("dxf", "svg"), Path(name) / kind), workers=1))

        def glass(kind: str) -> None:
            pipeline.rows(jobs[kind], SCHEDULES["glass"])

        for what, work in (("draw dxf and svg", drawn), ("schedule glass", glass)):
            mine, flat, times = ratio(lambda work=work: work("segmental"), lambda work=work: work("flat"), 7)
            print(f"{what}: segmental {mine / count * 1e3:.2f} ms a window, flat {flat / count * 1e3:.2f} ms: {times:.2f} x (at most 1.5)")


if __name__ == "__main__":
    main()
