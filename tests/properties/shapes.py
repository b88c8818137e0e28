"""Random shaped windows as plain data, for Hypothesis: most can be made; some are refused, which the tests allow for."""

from hypothesis import strategies as st

from tests.properties.specs import entries

MIRRORED_KEYS = {"left": "right", "right": "left"}
REFUSED = {"shape-cannot-open", "no-room", "too-close", "bar-in-corner", "bar-outside", "jamb-too-short"}
"""What a shape may be refused for, whatever its sizes."""


@st.composite
def heads(draw, width, height):
    """A head for a frame of that size, jambs of at least 250."""
    low = st.integers(250, height - 60)
    kind = draw(st.sampled_from(["raked", "arched", "pointed", "gable", "gable2"]))
    if kind == "raked":
        other = draw(low)
        return {"raked": draw(st.sampled_from([{"left": other, "right": height}, {"left": height, "right": other}]))}
    if kind == "arched":
        return {"arched": {"rise": draw(st.integers(20, min(width // 2, height - 250)))}}
    if kind == "pointed" and height - 250 > width // 2 + 2:
        return {"pointed": {"rise": draw(st.integers(width // 2 + 1, height - 250))}}
    apex = draw(st.integers(80, width - 80))
    if kind == "gable2":
        return {"gable": {"apex": apex, "left": draw(low), "right": draw(low)}}
    return {"gable": {"apex": apex, "eaves": draw(low)}}


@st.composite
def shaped_windows(draw):
    """One window's block with a head, or round."""
    system = draw(st.sampled_from(["flush-70", "lipped-70"]))
    if draw(st.integers(0, 5)) == 0:
        diameter = draw(st.integers(400, 2400))
        entry = draw(entries(0, 0, diameter, diameter, "out", depth=draw(st.integers(1, 3))))
        body = entry if "lights" in entry else {"lights": [entry]}
        return {"mark": "W1", "system": system, "circular": {"diameter": diameter}, **body}
    width, height = draw(st.integers(500, 3000)), draw(st.integers(700, 2600))
    entry = draw(entries(0, 0, width, height, "out", depth=draw(st.integers(1, 3))))
    body = entry if "lights" in entry else {"lights": [entry]}
    return {"mark": "W1", "system": system, "frame": {"width": width, "height": height}, "head": draw(heads(width, height)), **body}


def mirrored_head(block):
    """The block with its head seen in a mirror."""
    head = block.get("head")
    if head is None:
        return block
    ((key, sizes),) = head.items()
    turned = {MIRRORED_KEYS.get(name, name): value for name, value in sizes.items()}
    if "apex" in turned:
        turned["apex"] = block["frame"]["width"] - turned["apex"]
    return {**block, "head": {key: turned}}
