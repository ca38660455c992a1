"""One way to write a value down, so that a digest over it says whether it was altered."""

from __future__ import annotations

import hashlib
import json
from typing import Any

NOTHING_BEFORE = bytes(32)
"""What stands for the previous digest under the first change."""


def canonical(value: Any) -> str:
    """Return `value` as JSON with sorted keys and no blanks; equal values give equal text.

    Raises:
        ValueError: If it holds NaN or infinity, or is nested too deep.
        TypeError: If it holds something that JSON doesn't have.
    """
    try:
        return json.dumps(
            value, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":")
        )
    except RecursionError:
        raise ValueError("nested too deep") from None


def digest(before: bytes, body: str) -> bytes:
    """Return the SHA-256 over the previous digest and the canonical text of a change."""
    return hashlib.sha256(before + body.encode()).digest()


def fingerprint(last: bytes) -> str:
    """Return the first 64 bits of a digest in groups that can be read out: `3F2A-91BC-07DE-55AA`.

    64 bits tell any two states of a job apart by accident; against forgery the whole digest
    counts.
    """
    text = last[:8].hex().upper()
    return "-".join(text[at : at + 4] for at in range(0, 16, 4))
