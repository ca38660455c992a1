"""Readings and what was done about the bad ones. A re-test is another reading."""

from __future__ import annotations

import re
from datetime import datetime
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import AfterValidator, Field, ValidationInfo

from records.model.kinds import (
    MOST_ENTRIES,
    MOST_IN_LIST,
    Celsius,
    Id,
    Moment,
    Ohms,
    Piece,
    Text,
    Volts,
)
from records.older_words import current_key
from records.terms import Part, Sign, Stage, Word, WorkKind


class Quantity(Word):
    """What is measured or checked; `measurements.MEASUREMENTS` says all about each."""

    R1_R2 = "R1+R2"
    R1 = "r1"
    RN = "rn"
    R2 = "r2"
    CROSS_LN = "cross-ln", "cross-connected L-N"
    CROSS_LE = "cross-le", "cross-connected L-cpc"
    IR_LN = "ir-ln", "insulation L-N"
    IR_LE = "ir-le", "insulation L-E"
    IR_NE = "ir-ne", "insulation N-E"
    POLARITY = "polarity"
    EARTHING = "earthing", "earthing conductor"
    BONDING = "bonding", "bonding conductor"
    ELECTRODE = "RA"
    ZE = "Ze"
    EARTH_BACK = "earth-back", "earth put back"
    PUT_BACK = "put-back", "put back before it goes live"
    ZDB = "Zdb"
    ZS = "Zs"
    FAULT_LN = "fault-ln", "fault current L-N"
    FAULT_LE = "fault-le", "fault current L-E"
    VOLTAGE = "voltage", "supply voltage"
    RCD_TIME = "rcd-time", "RCD time"
    RCD_BUTTON = "rcd-button", "RCD test button"
    SURGE = "surge-back", "surge protection reconnected"
    FUNCTION = "function", "functional test"
    R1_R2_CORE = "r1r2-core", "R1+R2 by the core"
    R1_R2_ARMOUR = "r1r2-armour", "R1+R2 by the armour"
    GLAND = "gland", "armour gland"
    R2_LONG = "r2-long-lead", "R2 by a long lead"
    RN_R2 = "Rn+R2"
    SWITCHED = "open-at-off", "open at off"
    IR_GROUP = "ir-group", "insulation of the group"
    VOLTAGE_LE = "voltage-le", "voltage L-E"
    VOLTAGE_NE = "voltage-ne", "voltage N-E"
    RCD_IN_LOOP = "rcd-in-loop", "RCD holds in the loop test"
    RCD_HALF = "rcd-half", "RCD holds at 0.5 × IΔn"
    RCD_FIVE = "rcd-five", "RCD time at 5 × IΔn"
    RCD_RAMP = "rcd-ramp", "RCD current"
    RCD_BEFORE = "rcd-before", "upstream RCD stays in"
    RCD_LOADED = "rcd-loaded", "RCD holds with loads on"
    AFDD_BUTTON = "afdd-button", "AFDD test button"
    TIPS_JOINED = "tips-joined", "zero with the tips joined"
    IR_FOIL = "ir-foil", "insulation to foil or lining"
    RCD_ALONE = "rcd-alone", "RCD holds with breakers off"
    LOAD_CURRENT = "load-current", "load current"
    VOLTAGE_LOADED = "voltage-loaded", "voltage under load"
    R1_RN = "r1-rn", "R1+Rn"
    ARMOUR_EARTHED = "armour-earthed", "armour earthed at the house"
    ARMOUR_OPEN = "armour-open", "armour open to the board"
    ELECTRODE_BACK = "electrode-back", "electrode back"
    ELECTRODE_LOOP = "ra-loop", "RA by the loop"
    ELECTRODE_LOOP_BACK = "ra-loop-back", "electrode back after the loop"
    LEADS_ZERO = "leads-zero", "zero of the leads"
    TIPS_APART = "tips-apart", "over range with the tips apart"
    RING_CABLES = "ring-cables", "each cable of the ring alone"


class Place(Piece):
    """Where a reading is taken: a part, and on a circuit which one and at which point."""

    part: Part
    circuit: Id | None = Field(None, description='Id of the circuit, for part "circuit" only.')
    point: Id | None = Field(
        None, description="Id of a point on the circuit, or of a bond at the board."
    )

    # Much used as a key. The hash stands in a slot, where a copy with a change doesn't take it.
    __slots__ = ("_known_hash",)
    if TYPE_CHECKING:
        _known_hash: int

    def __hash__(self) -> int:
        try:
            return self._known_hash
        except AttributeError:
            found = hash((self.part, self.circuit, self.point))
            object.__setattr__(self, "_known_hash", found)
            return found

    def __eq__(self, other: object) -> bool:
        if self is other or type(other) is not Place:
            return self is other
        return (self.part, self.circuit, self.point) == (other.part, other.circuit, other.point)

    @property
    def whole(self) -> Place:
        """The part or circuit that a point is on; the place itself if it is no point."""
        return place_of(self.part, self.circuit)

    def at_point(self, point: str) -> Place:
        """Return a point of this part or circuit."""
        return place_of(self.part, self.circuit, point)


class Slot(Piece):
    """A place in the record for a reading: what, where, and at which stage of the work."""

    quantity: Quantity
    place: Place
    stage: Stage

    # Much used as a key. The hash stands in a slot, where a copy with a change doesn't take it.
    __slots__ = ("_known_hash",)
    if TYPE_CHECKING:
        _known_hash: int

    def __hash__(self) -> int:
        try:
            return self._known_hash
        except AttributeError:
            found = hash((self.quantity, self.place, self.stage))
            object.__setattr__(self, "_known_hash", found)
            return found

    def __eq__(self, other: object) -> bool:
        if self is other or type(other) is not Slot:
            return self is other
        return (self.quantity, self.stage) == (other.quantity, other.stage) and (
            self.place == other.place
        )


def _of_a_plain_figure(leads: float, info: ValidationInfo) -> float:
    # Asked only where something was taken off: a record may have 20,000 readings to look at.
    if info.data.get("sign") is not Sign.EQUAL:
        raise ValueError("Nothing can be taken off a figure out of the meter's range.")
    return leads


def place_of(part: Part, circuit: str | None = None, point: str | None = None) -> Place:
    """Return the one place of this name, made and checked once for all records.

    Places are looked up by the thousand in a review: the same object is found without a comparison.

    Raises:
        pydantic.ValidationError: If an id is no id.
    """
    return _place(part, circuit, point)


@lru_cache(maxsize=4096)
def _place(part: Part, circuit: str | None, point: str | None) -> Place:
    return Place(part=part, circuit=circuit, point=point)


@lru_cache(maxsize=16384)
def slot_of(quantity: Quantity, place: Place, stage: Stage, /) -> Slot:
    """Return the one slot of this name, made once for all records, as `place_of` does."""
    return Slot(quantity=quantity, place=place, stage=stage)


def _the_one(slot: Slot) -> Slot:
    place = place_of(slot.place.part, slot.place.circuit, slot.place.point)
    return slot_of(slot.quantity, place, slot.stage)


OneSlot = Annotated[Slot, AfterValidator(_the_one)]
"""A slot of a record: the same object as `slot_of` gives."""


class Figure(Piece):
    """What the meter showed, less the resistance of its leads where that was taken off."""

    kind: Literal["figure"] = "figure"
    value: Annotated[float, Field(strict=True, ge=-10, le=1e9)] = Field(
        description="In the unit of the measurement. A meter's zero may be slightly negative."
    )
    sign: Sign = Sign.EQUAL
    typed: Text = Field("", description="As it was typed: what the meter showed.")
    leads: Annotated[Ohms, AfterValidator(_of_a_plain_figure)] | None = Field(
        None,
        description=(
            "Resistance of the test leads that was taken off: the meter showed `value` and this. "
            "None: nothing was taken off. Like the rest of a reading it stays, whatever is said of "
            "the meter later."
        ),
    )


class Tick(Piece):
    """The answer to a check that has no figure."""

    kind: Literal["tick"] = "tick"
    good: bool = Field(description="Whether it was found correct.")


class StandIn(Piece):
    """A test that was done and recorded elsewhere, by a named competent person."""

    by: Id = Field(description="The person; of this job, and named in it.")
    where: Annotated[Text, Field(min_length=3)] = Field(
        description="Which record has it, so that it can be found."
    )


class NotTaken(Piece):
    """The reading could not be taken, for a reason that others can weigh."""

    kind: Literal["not taken"] = "not taken"
    reason: Annotated[Text, Field(min_length=3)]
    stands_in: StandIn | None = Field(
        None,
        description=(
            "The test that stands in for it, if somebody competent did and recorded it elsewhere."
        ),
    )


class NotNeeded(Piece):
    """The reading is not needed on this job, for a reason that others can weigh."""

    kind: Literal["not needed"] = "not needed"
    reason: Annotated[Text, Field(min_length=3)]


class Reading(Piece):
    """One value taken once, by one person, with one instrument, at one stage."""

    id: Id
    slot: OneSlot
    taken: Annotated[Figure | Tick | NotTaken | NotNeeded, Field(discriminator="kind")]
    at: Moment = Field(description="When it was taken.")
    from_notes: Moment | None = Field(
        None,
        description=(
            "When it was entered, if that was later, from notes; None: entered as it was taken."
        ),
    )
    by: Id | None = Field(None, description="The person.")
    instrument: Id | None = None
    temperature: Celsius | None = Field(
        None, description="Of the surroundings, where it differs from the job's."
    )
    test_voltage: Volts | None = Field(None, description="D.c. test voltage of an insulation test.")
    method: Text = Field(
        "",
        description=("What matters of how it was done: no-trip, L and N joined, drivers left in."),
    )
    note: Text = ""

    @property
    def joined(self) -> bool:
        """Whether L and N were joined for an insulation reading to earth, as its method says."""
        return (
            self.slot.quantity is Quantity.IR_LE
            and isinstance(self.taken, Figure)
            and _JOINED.search(self.method) is not None
        )


_JOINED = re.compile(r"(?<!not )(?<!n't )\bjoined\b", re.IGNORECASE)


def when_taken(reading: Reading) -> tuple[datetime, int]:
    """Return what readings are put in order by: when they were taken, then as they were entered.

    So it makes no difference in which order notes are entered.
    """
    return reading.at, int(reading.id[1:])


class Remedy(Piece):
    """What was done about a finding; the re-test is a later reading in the same slot."""

    id: Id
    finding: Annotated[Text, AfterValidator(current_key)] = Field(
        description="Key of the finding, as the review gives it."
    )
    done: Annotated[Text, Field(min_length=3)] = Field(
        description="What was done; or what the certifier has to know to decide."
    )
    at: Moment = Field(description="When it was done.")
    by: Id | None = None
    to_decide: bool = Field(
        False,
        description=(
            "Nothing was done: the finding was passed to the certifier, who decides. It stays one."
        ),
    )
    kind: WorkKind | None = Field(
        None, description="What kind of work it was; None where nobody was asked."
    )
    entered: Moment | None = Field(
        None, description="When it was put on record, if that was later; None: as it was done."
    )
    about: tuple[OneSlot, ...] = Field(
        (),
        max_length=MOST_ENTRIES,
        description=(
            "The readings that the finding was about: it may be gone once they are read again."
        ),
    )


class LiveException(Piece):
    """A circuit that is tested live although its dead tests are not right."""

    circuit: Id
    by: Id = Field(description="The competent person who decides so.")
    reason: Annotated[Text, Field(min_length=3)]
    despite: tuple[Text, ...] = Field(
        (), max_length=MOST_ENTRIES, description="What was open in its dead tests then."
    )


class LiveGate(Piece):
    """The answer to the question that stands before the live tests."""

    at: Moment
    by: Id | None = None
    isolation_understood: bool = Field(
        description="Safe isolation done and proved, a competent person at hand."
    )
    despite: tuple[Text, ...] = Field(
        (),
        max_length=MOST_ENTRIES,
        description=(
            "Findings of the dead tests that were open when the person went on all the same. An "
            "answer circuit by circuit has none: see `locked_off`."
        ),
    )
    may_go_live: tuple[Id, ...] | None = Field(
        None,
        max_length=MOST_IN_LIST,
        description=(
            "Circuits whose dead tests were right; None: the answer is from before this was asked."
        ),
    )
    locked_off: tuple[Text, ...] = Field(
        (),
        max_length=MOST_IN_LIST,
        description="Circuits that stay locked off, each with the reason.",
    )
    exceptions: tuple[LiveException, ...] = Field((), max_length=MOST_IN_LIST)


class CautionRead(Piece):
    """A caution that somebody read to its end before a reading."""

    key: Text = Field(description="Which caution.")
    before: OneSlot = Field(description="The reading that it was read before.")
    at: Moment
    by: Id | None = Field(None, description="The person.")


class Left(Piece):
    """How the installation was left after live work."""

    at: Moment
    by: Id | None = Field(None, description="Who says so.")
    off: bool = Field(
        description=(
            "Off and locked off, with earths back, links out and covers on; else it was left live."
        )
    )
    words: Text = Field("", description="Who has the key; or why it was left live, and for whom.")
