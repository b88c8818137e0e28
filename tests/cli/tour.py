"""Put what the commands print into the README's console blocks: `python tests/cli/tour.py`."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = ROOT / "README.md"
BLOCK = re.compile(r"```console\n\$ elevations (.*)\n(?:.*\n)*?```\n")


def printed(arguments: str, out: Path) -> str:
    """What a command of the tour prints, both streams; drawings go to `out` and are named as the README has them."""
    words, named = arguments.split(), ""
    if "--out" in words:
        at = words.index("--out") + 1
        named, words[at] = words[at], str(out)
    done = subprocess.run(
        [sys.executable, "-m", "elevations.cli", *words], cwd=ROOT, capture_output=True, text=True, check=False
    )
    return (done.stderr + done.stdout).replace(str(out), named)


def told_anew(readme: str, out: Path) -> str:
    """The README with every console block as the commands print it now."""
    return BLOCK.sub(lambda m: f"```console\n$ elevations {m.group(1)}\n{printed(m.group(1), out)}```\n", readme)


if __name__ == "__main__":
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        README.write_text(told_anew(README.read_text("utf-8"), Path(folder)), "utf-8")
