"""Random valid windows as plain data, for Hypothesis."""

import itertools

from hypothesis import strategies as st

LEAST_LIGHT_MM = 270   # a sash between two bars needs 182 + 20, between frame sides 238 + 20, in either built-in system

OUT = ["fixed", "dummy", "side-left", "side-right", "top-hung", "bottom-hung"]
IN = [*OUT, "turn-left", "turn-right"]


def _light(kind, swing):
    if kind == "fixed":
        return {"light": "fixed"}
    if kind == "dummy":
        return {"light": "fixed", "sash": "dummy"}
    name, _, hinge = kind.partition("-")
    light = {"light": {"side": "side-hung", "turn": "tilt-and-turn"}.get(name, kind), "swing": swing}
    if name in {"side", "turn"}:
        light["hinge"] = hinge
    return light


@st.composite
def entries(draw, left, top, right, bottom, swing, depth=0):
    """One entry of a division that spans a box measured from the frame's left and top, mm."""
    ways = []
    if depth < 3:
        ways += [key for key, span in (("mullions", right - left), ("transoms", bottom - top)) if span >= 2 * LEAST_LIGHT_MM]
    if not ways or draw(st.booleans()):
        return _light(draw(st.sampled_from(OUT if swing == "out" else IN)), swing)
    key = draw(st.sampled_from(ways))
    low, high = (left, right) if key == "mullions" else (top, bottom)
    count = draw(st.integers(2, min(4, int((high - low) // LEAST_LIGHT_MM))))
    slack = high - low - count * LEAST_LIGHT_MM
    cuts = sorted(draw(st.lists(st.integers(0, int(slack)), min_size=count - 1, max_size=count - 1)))
    bars = [low + (i + 1) * LEAST_LIGHT_MM + cut for i, cut in enumerate(cuts)]
    edges = [low, *bars, high]
    lights = []
    for a, b in itertools.pairwise(edges):
        box = (a, top, b, bottom) if key == "mullions" else (left, a, right, b)
        lights.append(draw(entries(*box, swing, depth + 1)))
    return {key: bars, "lights": lights}


@st.composite
def windows(draw, systems=("flush-70", "lipped-70")):
    """One window's block; every length a whole mm, every light large enough to be made."""
    width, height = draw(st.integers(300, 4000)), draw(st.integers(300, 2600))
    swing = draw(st.sampled_from(["out", "in"]))
    entry = draw(entries(0, 0, width, height, swing))
    body = entry if "lights" in entry else {"lights": [entry]}
    return {"mark": "W1", "system": draw(st.sampled_from(systems)), "frame": {"width": width, "height": height}, **body}


def job(*blocks):
    """A job around window blocks."""
    return {"glass": {"clear": {"make_up": "4/20/4"}}, "windows": list(blocks)}


def mirrored(entry, width):
    """The same entry seen in a mirror: left is right."""
    made = dict(entry)
    if "hinge" in made:
        made["hinge"] = {"left": "right", "right": "left"}[made["hinge"]]
    if "lights" in made:
        made["lights"] = [mirrored(light, width) for light in made["lights"]]
        if "mullions" in made:
            made["lights"].reverse()
            if not isinstance(made["mullions"], str):
                made["mullions"] = [width - m for m in reversed(made["mullions"])]
    return made
