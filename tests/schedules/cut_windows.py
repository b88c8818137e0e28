"""A window whose cutting is worked out by hand, and windows in systems with other figures."""

from dataclasses import replace

from elevations.geometry.drainage import drained
from elevations.later import Later

TWO_LIGHTS = """
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights:
      - {light: side-hung, hinge: left}
      - {transoms: [350], lights: [{light: top-hung}, {light: fixed}]}
"""


def with_system(window, **changed):
    other = replace(window, system=replace(window.system, **changed))
    return replace(other, drained=Later(drained, other))
