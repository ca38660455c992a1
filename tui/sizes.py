"""The sizes of window that screens are laid out for, and what is said below the least of them."""

from __future__ import annotations

HORIZONTAL = [(0, "-tiny"), (48, "-narrow"), (70, "-normal"), (110, "-wide")]
VERTICAL = [(0, "-flat"), (14, "-low"), (24, "-tall")]
TOO_SMALL = "This window is too small for Farboard: make it at least 48 columns by 14 lines."
