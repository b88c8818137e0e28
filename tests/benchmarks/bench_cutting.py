"""Cutting plans measured: python tests/benchmarks/bench_cutting.py [seconds]. Prints a table; nothing is asserted.

'rolls' is the well-known instance with 73 bars; the others are random from fixed seeds. 'windows' gives each window a
frame of its own (two lengths twice each) and half of them a sash; 'mixed' draws four lengths a window from wide ranges;
'to 0.1' has sizes in tenths of a mm; 'thirds' is made of triples that fill a bar exactly, the hardest kind known.
"""

import random
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from elevations.cutting.plan import DEFAULT_TIME_LIMIT_S, plan
from elevations.cutting.stock import Stock

ROLLS = Counter({
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
})


def windows(count, seed):
    draw, pieces = random.Random(seed), Counter()
    while pieces.total() < count:
        width, height = draw.randrange(500, 2400), draw.randrange(500, 1800)
        pieces.update({width + 6: 2})
        pieces.update({height + 6: 2})
        if draw.random() < 0.5:
            pieces.update({width // 2 - 52: 2})
            pieces.update({height - 80: 2})
    return pieces


def mixed(count, seed, step=1.0):
    draw = random.Random(seed)
    return Counter(round(draw.randrange(int(300 / step), int(2600 / step)) * step, 1) for _ in range(count))


def thirds(bars, seed, length=6000):
    draw, pieces = random.Random(seed), Counter()
    for _ in range(bars):
        first = draw.randrange(int(length * 0.38), int(length * 0.49))
        second = draw.randrange(int(length * 0.252), (length - first) // 2)
        pieces.update([first, second, length - first - second])
    return pieces


def stepped(count, seed):
    """Windows in sizes of 50 mm, as housing orders them: few lengths, many of each."""
    draw = random.Random(seed)
    return Counter(draw.randrange(8, 50) * 50 + 6 for _ in range(count))


CASES = [
    ("rolls", ROLLS, Stock(5600)),
    ("rolls, kerf 4", ROLLS, Stock(5600, kerf_mm=4)),
    *((f"windows {n} #{s}", windows(n, s), Stock(6000, kerf_mm=4, end_trim_mm=10)) for n in (200, 600, 1000) for s in (1, 2)),
    *((f"mixed {n} #{s}", mixed(n, s), Stock(6000, kerf_mm=4)) for n in (200, 1000) for s in (1, 2)),
    *((f"mixed 1000 to 0.1 #{s}", mixed(1000, s, 0.1), Stock(6000, kerf_mm=3.5, end_trim_mm=10)) for s in (1, 2)),
    *((f"stepped 1000 #{s}", stepped(1000, s), Stock(6000, kerf_mm=4)) for s in (1, 2)),
    ("with off-cuts", windows(1000, 3), Stock(6000, kerf_mm=4, off_cuts={1250: 6, 900: 9, 2400: 3}, least_usable_off_cut_mm=600)),
    ("thirds of 60 bars", thirds(60, 1), Stock(6000)),
    ("thirds of 330 bars", thirds(330, 2), Stock(6000)),
    ("mixed 5000", mixed(5000, 9), Stock(6000, kerf_mm=4)),
]


def main():
    limit = float(sys.argv[1]) if len(sys.argv) > 1 else DEFAULT_TIME_LIMIT_S
    plan({1000: 1}, Stock())
    print(f"time limit {limit:g} s\n{'case':24} {'pieces':>6} {'sizes':>5} {'first-fit':>9} {'bound':>6} {'bars':>5}  proven  waste %   s")
    for name, pieces, stock in CASES:
        started = time.perf_counter()
        made = plan(pieces, stock, limit)
        took = time.perf_counter() - started
        print(
            f"{name:24} {pieces.total():6} {len(pieces):5} {made.first_fit_bars:9} {made.fewest_possible:6} {made.new_bars:5}  "
            f"{'yes' if made.proven else 'no':6}  {made.waste_percent:7.2f}  {took:5.2f}{'  (time limit)' if made.hit_time_limit else ''}",
            flush=True,
        )


if __name__ == "__main__":
    main()
