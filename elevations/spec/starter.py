"""The job that `elevations new` writes: complete, commented, and drawn as it is."""

from __future__ import annotations

STARTER = """\
# yaml-language-server: $schema=elevations.schema.json
# $schema: elevations.schema.json
#
# The two lines above tell editors where the schema is: write it beside this file with
#   elevations schema --out elevations.schema.json
# Then   elevations check FILE   tells what is wrong with a job, and   elevations draw FILE   draws it.
#
# All lengths are millimetres, unless a unit is given: 1200, "1.2 m", "47 1/4 in".
# Everything is seen from outside: left is left from outside.

job:
  reference: QL-01              # your number for the job
  site: Quillback Lock Cottage  # an invented place: put in yours
  client: Quillback Lock Trust
  surveyed: 2026-10-14          # year-month-day
  issued: 2026-10-21
  revision: A

glass:                          # the make-ups this job uses, outer pane first: pane/cavity/pane
  clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}, spacer: warm-edge}
  safe:  {make_up: 4/20/4, toughened: [outer, inner], gas: argon, low_e: {face: 3, emissivity: 0.03}, spacer: warm-edge}

defaults:                       # for every window; any window may say otherwise
  system: flush-70              # demonstration data: put in your supplier's figures before making anything
  finish: {outside: RAL 7038, inside: RAL 9016}
  glass: clear
  fixings: {corner: 150, spacing: 600, clear_of_bars: 150}

windows:
  - mark: W1
    location: Kitchen
    frame: {width: 1800, height: 1200}    # overall frame size, sill not included; where the hole was measured, instead:
    # opening: {width: [1811, 1808, 1810], height: [1213, 1211, 1214], diagonals: [2178, 2176]}
    room: {use: kitchen}                  # what the checks ask of it hangs on its use
    floor_to_opening: 900                 # finished floor to the bottom of the opening
    mullions: [600, 1200]                 # centre lines, from the frame's left outer edge
    lights:                               # one more than the mullions, left to right
      - {light: side-hung, hinge: left}
      - transoms: [350]                   # this part is divided again, from the frame's top outer edge down
        lights:                           # ways to open: fixed, side-hung, top-hung, tilt-and-turn … (elevations words light)
          - {light: top-hung}             # the fanlight
          - {light: fixed}
      - {light: side-hung, hinge: right}

  - mark: W2
    location: Landing
    frame: {width: 900, height: 1350}
    lights:
      - {light: fixed, glass: safe}       # low or near a door: ask what your local code wants of the glass
"""
