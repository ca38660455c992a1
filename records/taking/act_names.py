"""How the acts of the bench are asked for: by keys in the wizard, by words line by line."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ActNames:
    """What to press or type for each act, as it stands in a sentence."""

    again: str
    """Tests a reading again: `Press a`."""
    go_on: str
    """Goes on from a reading that was taken: `Enter`."""
    could_not: str
    """Says that a reading can't be taken: `c`."""
    skip: str
    """Passes a reading by: `↓`."""
    back: str
    """Goes to the reading before: `↑`."""
    read: str
    """Says that a caution was read: `press Enter`."""
    ask: str
    """Asks the question before the live tests: `Enter`."""
    usual: str
    """Goes back to 500 V: `press v again`."""
    now: str
    """Ends entering readings from notes: `l`."""
    person: str
    """Chooses who takes the readings: `p, or the step Job`."""
    meter: str
    """Chooses the instrument: `p, or the step Job`."""
    leave_again: str
    """Leaves a retest without a reading: `Esc`."""


KEYS = ActNames(
    again="Press a",
    go_on="Enter",
    could_not="c if it can't be taken",
    skip="↓",
    back="↑",
    read="press Enter",
    ask="Enter",
    usual="press v again",
    now="l",
    person="p, or the step Job",
    meter="p, or the step Job",
    leave_again="Esc leaves it",
)
"""The keys of the wizard."""

REVIEW = ActNames(
    again="Press a",
    go_on="Esc",
    could_not="Esc leaves it",
    skip="↓",
    back="↑",
    read="press Enter",
    ask="g, then Enter",
    usual="press g, then v",
    now="l",
    person="p on the bench, or the step Job",
    meter="p on the bench, or the step Job",
    leave_again="Esc leaves it",
)
"""The keys of the review, where one reading is tested again."""

LINES = ActNames(
    again="Type again",
    go_on="Enter",
    could_not="cant: and why, if it can't be taken",
    skip="skip",
    back="back",
    read="type ok",
    ask="Enter",
    usual="type usual",
    now="taken: now",
    person="by:",
    meter="meter:",
    leave_again="skip leaves it",
)
"""The words of the line bench."""
