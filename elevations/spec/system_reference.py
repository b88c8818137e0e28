"""The words of a profile system's file, as its readers ask for them: what each takes and means, its default, an example.

Which keys there are, their limits and most of their meaning come from the readers themselves; what a reader has no hint
for is said here, and a test holds that nothing is left unsaid.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from elevations.catalogue.blocks import Asked
from elevations.catalogue.load import BUILT_IN, builtin_names
from elevations.catalogue.reading import read_system
from elevations.catalogue.system import MEMBERS
from elevations.spec.reference import Word, written
from elevations.yaml_source import read_document

PROBE = """\
members: {frame: {}, mullion: {}, transom: {}, sash: {}}
glazing: {}
sections: {frame: {body: [{}], glazed: [{}], hung: [{}]}}
hardware: [{at: {}}]
reinforcement: {screws: {clear_of: {}}}
drainage: {clear_of: {}}
glazing_bar: {on-face: {}}
pivot: {}
pair: {}
sliding: {}
frame_fixings: {keep_clear: {}, bracket: {}}
sill_weeps: {}
joining: {coupler: {}, bay_posts: [{}]}
extensions: [{}]
sills: [{}]
"""
"""A file that has every block, so that every reader asks: what is wrong with it does not matter here."""
ALIKE = {
    "members.transom": "members.mullion", "sections.mullion": "sections.frame", "sections.transom": "sections.frame", "sections.sash": "sections.frame",
    "sections.frame.glazed": "sections.frame.body", "sections.frame.hung": "sections.frame.body", "pair.section": "sections.frame.body",
    "sliding.section": "sections.frame.body", "pressure_holes": "drainage", "glazing_bar.in-unit": "glazing_bar.on-face",
}  # fmt: skip
"""Blocks whose keys are those of another."""
NEEDED = frozenset({"members", *(f"members.{name}" for name in MEMBERS), "glazing", "glazing.thickness"})
"""Besides what its reader says can't be left out."""
LONGEST_EXAMPLE = 90
BLOCK, LIST = "block", "list, each block"
SAYS: dict[str, tuple[str, str]] = {
    "system": ("", "Its name, as jobs give it and cutting lists print it; left out, the file's name."),
    "title": ("", "What it is called on sheets."),
    "demonstration": ("", "true for invented figures: every sheet then says that nothing may be made from it."),
    "material": ("", "What its profiles are made of: it decides clearances, strength and heat."),
    "swing": ("", "Which way its lights swing; one that swings the other way is built from profiles turned inside out."),
    "sash_face": ("", "flush: the sash closes level with the frame. lipped: it laps over the frame's face."),
    "bar_length": ("", "Length of a stock bar, mm; left out, 6000."),
    "weld_allowance": ("", "What is added to a cut length at each welded end, mm; left out, none."),
    "members": (BLOCK, "The figures of frame, mullion, transom and sash, mm from a datum towards the glass: the outer edge, of a bar the centre line."),
    "members.frame": (BLOCK, "Of the frame, from its outer edge."), "members.mullion": (BLOCK, "Of a mullion, from its centre line."),
    "members.transom": (BLOCK, "Of a transom, from its centre line."), "members.sash": (BLOCK, "Of a sash, from its outer edge."),
    "bead": ("", "mm to the visible edge of the glazing bead where it meets the profile."),
    "joint": ("", "mm that a bar runs past the rebate of what it meets, each end; left out, none."),
    "stock": ("", "Name of the bars that it is cut from, where other members are cut from them too."),
    "glazing": (BLOCK, "How glass is held."),
    "glazing.thickness": ("number, or list of numbers", "Thicknesses of the units that fit, mm."),
    "glazing.bead_side": ("", "Which face the beads of glass held by the frame itself are on, with profiles built as drawn."),
    "glazing.sash_bead_side": ("", "Which face the beads of a sash are on, with profiles built as drawn."),
    "extensions": (LIST, "Frame extensions, by their width; a job's `add_ons` are held against them."),
    "sills": (LIST, "Sills, by their projection; a job's `sill` is held against them."),
    "kg_per_m": ("", "kg for each metre."),
    "sections": (BLOCK, "Section outlines; without them sections show plain boxes. A section may be another member's name, or {from: FILE.dxf, layers: …}."),
    "sections.frame": (BLOCK, "The frame cut across, mm: u from the datum towards the glass, v from the outer face towards the room."),
    "sections.frame.body": (LIST, "What is always there."),
    "sections.frame.glazed": (LIST, "What is added where it holds glass itself: bead and gaskets."),
    "sections.frame.hung": (LIST, "What is added where a sash closes against it."),
    "sections.frame.body.part": ("", "What the shape is; a chamber is a hole in the profile."),
    "sections.frame.body.points": ("list of [u, v] or [u, v, bulge]", "Its outline, mm; it closes by itself, a bulge bends the edge that leaves its point."),
    "sections.mullion": (BLOCK, "A mullion cut across; its body spans both sides of the centre line, the other parts belong to the side of positive u."),
    "sections.transom": (BLOCK, "A transom cut across."), "sections.sash": (BLOCK, "A sash cut across; it has no `hung`."),
    "extensions.width": ("", "Its face width, mm."), "sills.projection": ("", "Its projection, mm."),
    "glazing_bar.on-face.width": ("", "Its width as seen from outside, mm."), "joining.coupler.width": ("", "mm between the two frames."),
    "joining.bay_posts.face": ("", "mm along each facet's outer face, from its frame to where both faces would meet."),
    "u_f": ("number, or block", "Declared Uf in W/m2K: one for all, or by member: {frame: 1.3, frame+sash: 1.4, mullion: 1.5}."),
    "modulus": ("", "Declared modulus of elasticity of its material, N/mm2; left out, the usual one."),
    "hardware": (LIST, "Hardware in the order of preference: of each kind a sash gets the first item that fits."),
    "hardware.item": ("", "The name that it is ordered by."), "hardware.kind": ("", "stay, hinge, handle, lock …: a sash gets one item of each kind."),
    "hardware.title": ("", "What it is called."), "hardware.for": ("list of ways to open", "The ways to open that it serves."),
    "hardware.sash_width": ("[least, greatest]", "Widths of the sashes that it serves, mm."),
    "hardware.sash_height": ("[least, greatest]", "Heights of the sashes that it serves, mm."),
    "hardware.quantity": ("", "How many a sash gets; left out, one."),
    "hardware.only": ("", "Taken only where the job asks for it: for a restrictor, or for an escape window."),
    "hardware.at": (BLOCK, "Where it sits, for the machining list."),
    "hardware.at.on": ("", "Edges of the sash: the hinge edge, the one across, the two beside, where a pivot's axis meets them, the bottom, where the handle is."),
    "hardware.at.piece": ("", "Which pieces are machined for it."),
    "hardware.at.called": ("", "What the list says; left out, the item's kind."),
    "hardware.at.from_end": ("", "mm from each end of the edge to the middle of the first; beside the hinge, from the hinge edge only; of a handle, the least from each end of its stile."),
    "hardware.at.spacing": ("", "mm from one to the next, at most; left out, none between."),
    "reinforcement": (BLOCK, "The steel in its profiles; coloured ones always have it."),
    "reinforcement.white_from": ("", "A white profile has its steel from this finished length on (the cut length less its weld), mm; left out, always."),
    "reinforcement.screws": (BLOCK, "Where the steel is screwed to its profile."),
    "reinforcement.screws.clear_of": (BLOCK, "Least distances from what is machined there, mm."),
    "drainage": (BLOCK, "Slots at the bottom of rebates."), "pressure_holes": (BLOCK, "Holes at the top of rebates; keys as of `drainage`."),
    "drainage.slot": ("", "Its size, in words."), "drainage.spacing": ("", "mm from one to the next, at most; left out, only those at the ends."),
    "drainage.rebates": ("list: glazed, hung", "Which rebates: those that hold glass, those that a sash closes against."),
    "drainage.clear_of": (BLOCK, "Least distances of a slot's middle from a fixing, hardware, a bar's centre line, a corner, mm."),
    "glazing_bar": (BLOCK, "Glazing bars that it offers."),
    "glazing_bar.on-face": (BLOCK, "A bar stuck on each face of the glass."), "glazing_bar.in-unit": (BLOCK, "A bar between the panes."),
    "openings": ("list of ways to open", "The ways to open that it is made for; left out, all for which it gives what they need."),
    "pivot": (BLOCK, "For pivoting lights."), "pair": (BLOCK, "For two side-hung sashes with a floating stile between them."),
    "sliding": (BLOCK, "For sliding sashes."), "pair.section": (LIST, "Outline of the stile, u from the meeting line."),
    "sliding.section": (LIST, "What is between the sashes, outlined."),
    "frame_fixings": (BLOCK, "Its own figures for where frames are fixed; a job's go before them."),
    "frame_fixings.corner": ("", "mm from each outer corner to the first fixing."), "frame_fixings.spacing": ("", "mm from one fixing to the next, at most."),
    "frame_fixings.clear_of_bars": ("", "mm from the centre line of a mullion or transom, at least."),
    "frame_fixings.hinges_from_end": ("", "mm from each end of the hinge edge to a hinge's middle, where the hardware says no places."),
    "frame_fixings.keep_clear": (BLOCK, "Least distances of a fixing from other things, mm; without one no such clash can be told."),
    "frame_fixings.keep_clear.hinge": ("", "mm from the middle of a hinge."), "frame_fixings.keep_clear.keep": ("", "mm from the middle of a keep."),
    "frame_fixings.keep_clear.hardware": ("", "mm from the middle of a stay and all other hardware on the frame."),
    "frame_fixings.keep_clear.vent": ("", "mm from the end of a vent in the head."), "frame_fixings.keep_clear.corner": ("", "mm from a reinforced corner."),
    "frame_fixings.keeps": ("list of lengths", "Keeps besides the one at the handle, mm from the top of the sash's lock stile."),
    "frame_fixings.screw_lengths": ("list of lengths", "Screws in stock, mm."),
    "frame_fixings.bracket": (BLOCK, "Its own bracket; what is left out is as usual."),
    "frame_fixings.bracket.nearest": ("", "mm from the frame's inner face to the first hole that takes a screw into the wall."),
    "frame_fixings.bracket.reach": ("", "mm from the frame's inner face to the last such hole."),
    "frame_fixings.bracket.leg": ("", "mm of it that lie on the frame."), "frame_fixings.bracket.past": ("", "mm from its screw to its end."),
    "frame_fixings.bracket.thickness": ("", "Its thickness, mm."),
    "sill_weeps": (BLOCK, "Where its sills are slotted."), "sill_weeps.from_end": ("", "mm from each end of the sill; left out, 150."),
    "sill_weeps.spacing": ("", "mm from one to the next, at most; left out, 600."),
    "joining": (BLOCK, "What joins its frames to each other."), "joining.coupler": (BLOCK, "Between frames in one plane."),
    "joining.bay_posts": (LIST, "Between facets of a bay."),
    "joining.bay_posts.angle": ("number, or [first, last]", "Angle between the facets that it is for, seen from the room, degrees."),
}  # fmt: skip
"""By path, or by the last key alone: what it takes where its reader does not say, and what it means."""


def system_words() -> Iterator[Word]:
    """Every key of a system's file, a block before its keys; of blocks alike the first has them."""
    asked = _asked()
    examples = [read_document((BUILT_IN / f"{name}.yaml").read_text("utf-8"), name).data for name in builtin_names()]
    for path, found in sorted(asked.items(), key=lambda item: _order(item[0], list(asked))):
        name = ".".join(path)
        if any(name.startswith(f"{block}.") for block in ALIKE):
            continue
        takes, says = SAYS.get(name) or SAYS.get(path[-1]) or ("", "")
        same = f" Keys as of `{ALIKE[name]}`." if name in ALIKE and "Keys as" not in says and "keys as" not in says else ""
        told = next((_example(data, path) for data in examples if _example(data, path)), "")
        yield Word(path, takes or found.takes.replace("one of: , ", "one of: "), found.needed or name in NEEDED, found.default, says + same or _sentence(found.hint), told)


def _asked() -> dict[tuple[str, ...], Asked]:
    """What the readers ask of every key."""
    asked = dict(read_system(PROBE, "probe", BUILT_IN).asked)
    for name in builtin_names():
        for path, found in read_system((BUILT_IN / f"{name}.yaml").read_text("utf-8"), name, BUILT_IN, built_in=True).asked.items():
            if path not in asked or (found.takes and not asked[path].takes):
                asked[path] = found
    return asked


def _order(path: tuple[str, ...], known: list[tuple[str, ...]]) -> list[int]:
    """So that a key stands below its block, each block's keys in the order in which they are asked for."""
    return [known.index(path[: depth + 1]) for depth in range(len(path))]


def _sentence(hint: str) -> str:
    return f"{hint}." if hint else ""


def _example(data: Any, path: tuple[str, ...]) -> str:
    """How a demonstration system gives it; empty where it does not, or at length."""
    for step in path:
        data = data[0] if isinstance(data, list) and data and isinstance(data[0], dict) else data
        data = data.get(step) if isinstance(data, dict) else None
    text = "" if data is None else f"{path[-1]}: {written(data)}"
    return text if len(text) <= LONGEST_EXAMPLE else ""
