"""Whom a typed name means: whole, an id, or a part of it that is only one person's."""

from __future__ import annotations

from records.errors import BadText
from records.model.job import person_words
from records.model.record import Record
from records.store.showing import shown


def person_named(record: Record, text: str) -> str | None:
    """Return the id of the person of the job whom a text means; None for no text.

    Args:
        record: The job.
        text: An id, a name, both, or part of a name: `P2`, `Ann Brook`, `Ann`.
    Raises:
        BadText: If nobody is called so, or more than one; the message says who there is.
    """
    word = " ".join(text.split()).casefold()
    people = record.job.people
    if not word:
        return None
    exact = [
        each
        for each in people
        if word in (each.id.casefold(), each.name.casefold(), person_words(each).casefold())
    ]
    parts = set(word.split())
    found = exact or [each for each in people if parts <= set(each.name.casefold().split())]
    if len(found) == 1:
        return found[0].id
    if found:
        whom = " or ".join(f"{each.id} for {each.name}" for each in found)
        raise BadText(f"“{shown(text)}” could be more than one person: type {whom}.")
    known = "; ".join(map(person_words, people))
    raise BadText(
        f"“{shown(text)}” is nobody in this job. It has: {known or 'nobody yet'}. "
        "People are entered in the step Job."
    )
