"""What is said at many doors in the same words: what this is not, who comes first, what is hidden.

HSE HSG47 for buried services; the rest is common practice. All from memory.
"""

from __future__ import annotations

NOT_A_CERTIFICATE = "An installer's test record, not a certificate."
CERTIFIER_FIRST = "Local rules and the certifier come first."
NEVER_CERTIFIES = "Farboard records and checks; it never certifies."
SERVICES = (
    "Know what is in the wall and the ground before you drill, dig or drive a rod: plans, "
    "locator. Old sheds can hold asbestos: leave it, have it looked at."
)
