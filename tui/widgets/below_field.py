"""What stands under the field of a reading: always as high, whatever there is to say."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from tui.widgets.cut import cut_lines

_VERDICT = 3
"""Lines for how a reading stands, at least: what to do about it comes first there."""


def below_field(
    words: Sequence[Content],
    around: Sequence[Content],
    keys: Sequence[Content],
    width: int,
    height: int,
    *,
    typing: bool,
) -> list[Content]:
    """Return the lines under a field: words on the reading, who takes it with what, the keys.

    Words come first, and end in a sign if they go on. They take the place of the circumstances;
    while something is typed that of the keys too, since letters are then part of it.

    Args:
        words: The verdict, or what to do; none while nothing is typed.
        around: By whom and with what, under what circumstances.
        keys: What letters do in an empty field; they stand at the bottom.
        width: Cells in a line.
        height: Lines that there are.
        typing: Whether something is typed.
    """
    needed = len(words or around)
    if height < (needed if typing else min(needed, _VERDICT)) + len(keys):
        keys = ()
    room = height - len(keys)
    if words and len(words) + len(around) > room:
        around = ()
    lines = cut_lines([*words, *around], width, room)
    return [*lines, *[Content("")] * (room - len(lines)), *keys]
