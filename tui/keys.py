"""The keys, as the help tells them: said once, and held against the keys that act."""

from __future__ import annotations

Keys = tuple[tuple[str, str], ...]
"""Names of keys and what they do; several names in one line do related things, in their order."""

LEAVING: Keys = (
    ("F1 or ?", "this help (? where you are not typing)"),
    ("Ctrl+P", "all commands, to be found by a word"),
    ("Ctrl+Q or F10", "leave; all that was accepted is on disk"),
)
EVERY_STEP: Keys = (
    ("F2", "the working of the figures, with its sources"),
    ("Ctrl+G", "pictures: the device's curve, the loop, the ring"),
    ("F3 F4", "the step before, the step after (Ctrl+PageUp Ctrl+PageDown as well)"),
    ("F6", "the list of steps"),
    ("Ctrl+Z Ctrl+Y", "take the last change back; make it again"),
)
WALKING: Keys = (
    ("Enter", "accept what is typed, go on; open a list or a page"),
    ("↑ ↓ Tab", "move between fields, accepting what is typed"),
    ("PageUp PageDown", "the same by half a page"),
)
FORM: Keys = (
    *WALKING,
    ("Esc", "put the accepted value back; close a list; go up"),
    ("F5", "what it would do: checks before and after what is typed, before Enter"),
    ("F7 F8", "copy, remove (where there is a list)"),
    ("Ctrl+N", "put a point in before this one"),
    ("Ctrl+↑ Ctrl+↓", "move a point up or down in the order of the cable"),
)
BENCH: Keys = (
    ("Enter", "take the reading that is typed; go on from a caution, or from one taken"),
    ("↑ ↓ Tab", "pass readings by; what is typed stays in its field"),
    ("← →", "go across the grid, while nothing is typed"),
    ("PageUp PageDown", "the tests, or the circuit, before and after"),
    ("Esc", "clear what is typed; cancel a second test of a reading"),
    ("Ctrl+O", "the order of the readings: by test, by circuit"),
    ("F9", "all readings of the stage in a grid; once more: one by one"),
    ("c", "could not be taken, and why"),
    ("x", "not needed, and why"),
    ("a", "test again; the first reading stays"),
    ("p", "who takes them, with which instrument"),
    ("l", "entered later, from notes of another time; once more: taken now"),
    ("t", "method, note, or what was done about a finding"),
    ("w", "why: all about this reading and its verdict"),
)
LETTERS = (
    "Letters act in an empty field. A pasted column fills the next fields, if you say so. What is "
    "typed and not accepted stays in its field until you come back."
)
VOLTAGE: Keys = (("v", "insulation at 250 V, and back at 500 V"),)
SURFACES: Keys = (
    ("s Ctrl+S", "surfaces: where cables and boxes are, safe to cover, cut-out sheet"),
)
EXCEPTION: Keys = (
    ("e", "exception: who certifies lets a circuit that is locked off be tested, and why"),
)
BENCH_LISTS: Keys = (
    ("o", "other readings, which nobody has to take"),
    ("m", "what is still to test, by where you stand"),
)
REVIEW: Keys = (
    ("↑ ↓", "move in the list"),
    ("Enter", "the full text; for the design, what would put it right"),
    ("Shift+↑ Shift+↓", "scroll the text in place"),
    ("r", "record what was done about it"),
    ("d", "pass it to the certifier to decide, with a note; it stays a finding"),
    ("a", "test again, from here; the first reading stays"),
    ("g", "go to the bench, or to the step of the design"),
    ("l", "entered later, from notes of another time; once more: taken now"),
    ("f", "other verdicts: problems, within, all, findings"),
    ("Esc", "cancel a second test"),
)
HAND_OVER: Keys = (
    ("Enter", "write the document"),
    ("↑ ↓ PageUp PageDown", "scroll"),
)
