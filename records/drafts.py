"""What was typed in a field and not accepted, while the entries of the record come and go."""

from __future__ import annotations

from collections.abc import Callable, Mapping, MutableMapping
from typing import TYPE_CHECKING, Any

from jsonpointer import JsonPointerException, resolve_pointer

if TYPE_CHECKING:
    from records.model.reading import Slot
    from records.model.record import Record


def draft_key(slot: Slot) -> str:
    """Return the name under which a half-typed value of a slot is kept."""
    place = slot.place
    return f"reading: {slot.stage}/{place.part}/{place.circuit}/{place.point}/{slot.quantity}"


def draft_words(drafts: Mapping[str, str], record: Record) -> str:
    """Return drafts with where each of them belongs: `“0.3x” (Origin, Ze)`."""
    return ", ".join(f"“{text}” ({where(key, record)})" for key, text in drafts.items())


def where(key: str, record: Record) -> str:
    """Return in words where a draft belongs.

    Args:
        key: The pointer of its field, or the name of a reading or a question.
        record: The record that it was typed for.
    """
    from records.model.slots import offered, slot_words, slots
    from records.store.pointer_words import spot
    from records.terms import Stage

    if key.startswith("/"):
        return str(spot(key.split("/")[1:], record.model_dump(mode="json")))
    known = dict.fromkeys((*slots(record), *(s for each in Stage for s in offered(record, each))))
    for slot in (*known, *(each.slot for each in record.readings)):
        if key == draft_key(slot):
            return slot_words(record, slot)
    return key.replace(": ", ", ")  # a question: its title and what it asks


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


def opened_up(drafts: MutableMapping[str, str], entries: str, at: int) -> None:
    """Let drafts follow their entries after one was put into a list.

    Args:
        drafts: By the pointer of their field.
        entries: Pointer of the list.
        at: Number of the entry that was put in.
    """
    _renumbered(drafts, entries, lambda number: number + 1 if number >= at else number)


def swapped(drafts: MutableMapping[str, str], entries: str, one: int, other: int) -> None:
    """Let drafts follow two entries of a list that changed places.

    Args:
        drafts: By the pointer of their field.
        entries: Pointer of the list.
        one: Number of an entry.
        other: Number of the entry that it changed places with.
    """
    turned = {one: other, other: one}
    _renumbered(drafts, entries, lambda number: turned.get(number, number))


def _renumbered(
    drafts: MutableMapping[str, str], entries: str, becomes: Callable[[int], int]
) -> None:
    there: dict[str, str] = {}
    for pointer in [each for each in drafts if each.startswith(f"{entries}/")]:
        number, _, rest = pointer.removeprefix(f"{entries}/").partition("/")
        if number.isdigit():
            there[f"{entries}/{becomes(int(number))}/{rest}"] = drafts.pop(pointer)
    drafts.update(there)


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
