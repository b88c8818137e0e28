"""Job texts that the tests of this folder share."""

GOOD = """\
job: {reference: QL-07, site: Quillback Lock Cottage, surveyed: 2026-10-14}
glass:
  clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}}
  safe: {make_up: 4/20/4, toughened: [outer, inner]}
defaults: {system: flush-70, glass: clear, fixings: {corner: 160, spacing: 500}}
windows:
  - mark: W1
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights:
      - {light: side-hung, hinge: left}
      - {light: fixed}
"""
"""Windows begin on line 6."""

HEAD = GOOD[: GOOD.index("  - mark")]


def one(window: str) -> str:
    """A job with one window: its keys, from line 8 on, below the mark on line 7."""
    body = "".join(f"    {line}\n" for line in window.splitlines())
    return f"{HEAD}  - mark: W1\n{body}"


def of_lights(lights: str, bars: str = "") -> str:
    """A job with one window of 1200 x 1050: its `lights` value is on line 10, its bars on line 9."""
    return one(f"frame: {{width: 1200, height: 1050}}\n{bars or 'location: Landing'}\nlights: {lights}")
