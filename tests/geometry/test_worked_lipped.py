"""One window of lipped-70 worked out by hand.

lipped-70, mm from each datum: frame sash 52, rebate 44, sight 60; mullion and transom sash 28, rebate 20, sight 36, joint 14;
sash rebate 54, sight 72; edge clearance 4; weld allowance 2.5 at each end.
"""

from tests.jobs import window_of


def test_two_lights_and_a_fanlight_of_the_lipped_system():
    w = window_of("""
        frame: {width: 1200, height: 1050}
        mullions: [600]
        lights:
          - {light: side-hung, hinge: left}
          - transoms: [400]
            lights: [{light: top-hung}, {light: fixed}]
    """, "lipped-70")
    sashes = {s.tag: (s.outer.width.value, s.outer.height.value) for s in w.sashes}
    assert sashes == {"S1": (600 - 28 - 52, 1050 - 2 * 52), "S2": (1200 - 52 - 600 - 28, 400 - 28 - 52)}
    cut = {p.tag: (p.width.value, p.height.value) for p in w.panes}
    assert cut["G1"] == (520 - 2 * 54 - 2 * 4, 946 - 2 * 54 - 2 * 4)
    assert cut["G2"] == (520 - 116, 320 - 116)
    assert cut["G3"] == (1200 - 44 - (600 + 20) - 2 * 4, 1050 - 44 - (400 + 20) - 2 * 4)
    sight = {p.tag: (p.sight.width.value, p.sight.height.value) for p in w.panes}
    assert sight["G1"] == (520 - 2 * 72, 946 - 2 * 72)
    assert sight["G3"] == (1200 - 60 - (600 + 36), 1050 - 60 - (400 + 36))
    lengths = {m.tag: m.length.value for m in (*w.members, *w.bars, *w.sashes[0].members)}
    assert lengths["M1"] == 1050 - 2 * 44 + 2 * 14
    assert lengths["T1"] == 1200 - 44 - 600 - 20 + 2 * 14
    assert lengths["head"] == 1200 + 2 * 2.5
    assert lengths["S1 top rail"] == 520 + 2 * 2.5
