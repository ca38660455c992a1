"""What was typed in a field and not accepted, while the entries of the record come and go."""

from __future__ import annotations

from collections.abc import MutableMapping
from typing import Any

from jsonpointer import JsonPointerException, resolve_pointer


def closed_up(drafts: MutableMapping[str, str], entries: str, at: int) -> None:
    """Let drafts follow their entries after one was taken out of a list.

    Args:
        drafts: By the pointer of their field.
        entries: Pointer of the list.
        at: Number of the entry that was taken out; its own drafts go.
    """
    for pointer in [each for each in drafts if each.startswith(f"{entries}/")]:
        number, _, rest = pointer.removeprefix(f"{entries}/").partition("/")
        if number.isdigit() and int(number) >= at:
            text = drafts.pop(pointer)
            if int(number) > at:
                drafts[f"{entries}/{int(number) - 1}/{rest}"] = text


def without_orphans(drafts: MutableMapping[str, str], doc: Any) -> None:
    """Drop the drafts whose field is no longer in the record.

    Args:
        drafts: By the pointer of their field; other keys are left alone.
        doc: The record as JSON.
    """
    for pointer in [each for each in drafts if each.startswith("/")]:
        try:
            resolve_pointer(doc, pointer)
        except JsonPointerException:
            del drafts[pointer]
