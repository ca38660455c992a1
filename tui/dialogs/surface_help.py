"""The help of the surfaces: how lines are typed, and the keys."""

from __future__ import annotations

HELP = """Each line places one thing, in any order of its parts.

building 5000 x 3000 x 2400, fall 300 to south: four walls and the ceiling.

wall north 4800 x 2400, thick 140, timber, studs 95, centres 600, board 12.5, screws 38, \
insulated, foil: one wall. The same after “this” changes the one in hand. “dwelling” if somebody \
will live in it. Also: back “North wall, inside”, corner “the door frame”, called “Tool wall”. \
outside north 5280 x 2500: its face outside.

S1 450 up 620 along 2g: a point. Up is to the underside of its box. C1 S9 … adds a point. “hidden” \
if a cupboard hides it: it makes no zone.

D1-D8 600 in from west, every 900, from 450, lamp: a row. door 3400 to 4200, 2000 high. \
board, joint.

C1 cable from S1 up 2280 along 2400 down 1950, deep 40, clips 250: a route. The next one \
goes on from there. “up top to S2” goes through the zone at the top, “along top 1500” under a slope.

L2 deep 50, plate: changes leg L2; L2 off removes it. L2 hole 20 at 300, stud 95, face 37: its \
hole.

feed ground 18 m, deep 450, paving, tape: a trench. It may end with: from “1.2 m off the wall”, \
crosses “water pipe”. B1 deep 500 changes it. “this off” removes an empty surface.

photo photos/north.jpg before the boards: a photograph beside the record."""

LETTERS = (
    ("n or Enter", "type lines; Esc ends"),
    ("v", "safe to cover?"),
    ("c", "cut-out sheet, to tick off"),
    ("k", "where no screw belongs"),
    ("Tab", "the next surface; Shift+Tab the one before"),
    ("arrows", "to the nearest thing that way; with Shift the picture moves"),
    ("+ - 0", "nearer, further, whole"),
    ("1 to 9, a", "one circuit, all"),
    ("z", "fill the safe zones"),
    ("o", "as seen from behind"),
    ("d", "measured from the other corner"),
    ("t", "take a drawn length over as that of its run"),
    ("b", "find the bad length of a circuit: where to split it, and then where"),
    ("F8", "take what the cursor is on off the surface"),
    ("l", "take the last leg of cable out"),
    ("Ctrl+Z", "take the last change back"),
)
