"""The sizes of window that screens are laid out for, and what is said below the least of them."""

from __future__ import annotations

HORIZONTAL = [(0, "-tiny"), (48, "-narrow"), (70, "-normal"), (110, "-wide")]
VERTICAL = [(0, "-flat"), (14, "-low"), (24, "-tall")]
TOO_SMALL = "This window is too small for Farboard: make it at least 48 columns by 14 lines."


def size_classes(width: int, height: int) -> tuple[str, ...]:
    """Return the classes that a screen of this many columns and lines carries.

    Textual gives them once the screen was laid out and painted, and then goes through all rules
    again; a screen that is shown with them is spared that.
    """
    return tuple(
        max((least, name) for least, name in breakpoints if least <= room)[1]
        for room, breakpoints in ((width, HORIZONTAL), (height, VERTICAL))
    )
