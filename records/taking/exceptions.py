"""What a competent person decides: a circuit tested live all the same, a test done elsewhere."""

from __future__ import annotations

from records.errors import BadText
from records.interlock.answers import competent
from records.interlock.may_take import Interlock
from records.model.job import Person
from records.model.reading import LiveException, NotTaken, Slot, StandIn, place_of
from records.model.record import Record
from records.model.slots import title
from records.taking.typed_reading import could_not
from records.terms import Part, Stage
from records.text import checked_text


def exception(found: Interlock, circuit: str, who: str, reason: str) -> LiveException:
    """Return the decision that a circuit is tested live in spite of its dead tests.

    Args:
        found: What may be taken.
        circuit: Its id.
        who: The competent person, by id or name.
        reason: Why.
    Raises:
        BadText: If the circuit needs none, nobody who certifies is called so, or the reason says
            nothing.
    """
    tests = found.dead.circuits.get(circuit)
    if not tests:
        name = title(found.record, place_of(Part.CIRCUIT, circuit))
        raise BadText(f"{name} needs no exception: its dead tests are satisfactory.")
    person = competent_person(found.record, who)
    return LiveException(
        circuit=circuit,
        by=person.id,
        reason=could_not(reason).reason,
        despite=tuple(dict.fromkeys(each.words for each in tests)),
    )


def competent_person(record: Record, who: str) -> Person:
    """Return who certifies in a job, by id or name.

    Raises:
        BadText: If nobody who certifies is called so.
    """
    able = competent(record)
    word = checked_text(who).casefold()
    for each in able:
        if word in (each.id.casefold(), each.name.casefold()):
            return each
    if not able:
        raise BadText("Enter who certifies first, with a name, in the step Job: they decide this.")
    names = " or ".join(f"{each.id} {each.name}" for each in able)
    raise BadText(f"Only who certifies decides this: type {names}.")


def tested_elsewhere(record: Record, slot: Slot, text: str) -> NotTaken:
    """Return that a test was done and recorded elsewhere: `P3, their test sheet of 3 March`.

    Raises:
        BadText: If the test can't be stood in for, nobody who certifies is named first, or it isn't
            said where it is recorded.
    """
    if slot.stage is not Stage.DEAD or slot.place.part is Part.CIRCUIT:
        raise BadText(
            "Only dead tests of feed, board and earths can be stood in for by a test elsewhere."
        )
    who, _, where = text.partition(",")
    person = competent_person(record, who)
    record_of = could_not(where).reason
    return NotTaken(
        reason=f"tested by {person.name}",
        stands_in=StandIn(by=person.id, where=record_of),
    )
