"""Whether a reading may be taken now: the one question that every way to the record asks.

A pure function of the record, of how its readings stood, of the person and the moment. It looks at
no clock and no screen.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from functools import cached_property

from records.interlock.answers import competent, live_answer, unread
from records.interlock.comes_off import (
    EARTHS,
    PUT_BACK,
    Owed,
    calculated,
    earth_owed,
    earths_owed,
    last_ones,
    put_back_owed,
    put_back_shown,
)
from records.interlock.dead_tests import (
    WRONG,
    DeadTests,
    Verdicts,
    board_words,
    circuit_words,
    dead_tests,
)
from records.interlock.live_failures import LiveFailure, failure_words, live_failures
from records.model.reading import (
    Figure,
    LiveException,
    LiveGate,
    NotNeeded,
    NotTaken,
    Quantity,
    Reading,
    Slot,
    Tick,
    place_of,
    slot_of,
)
from records.model.record import Record
from records.model.slots import slots, title
from records.terms import Part, Stage, Verdict

Entry = Figure | Tick | NotTaken | NotNeeded

_POLARITY = slot_of(Quantity.POLARITY, place_of(Part.BOARD), Stage.LIVE)
_ZDB = slot_of(Quantity.ZDB, place_of(Part.BOARD), Stage.LIVE)
_WITH_A_LOAD = (Quantity.LOAD_CURRENT, Quantity.VOLTAGE_LOADED)
_VOLTS = (Quantity.POLARITY, Quantity.VOLTAGE, Quantity.VOLTAGE_LE, Quantity.VOLTAGE_NE)


class Lock(StrEnum):
    """Why a reading may not be taken; the value is a code."""

    EARTH = "earth off"
    FAILURE = "live failure"
    ANSWER = "question not answered"
    BOARD = "feed, board or earths not satisfactory"
    PUT_BACK = "not put back"
    POLARITY = "polarity first"
    CIRCUIT = "circuit locked off"
    LOAD = "load too early"
    CAUTION = "caution not read"
    NO_REASON = "nothing replaces it"


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a reading may not be taken, and what to do first."""

    lock: Lock
    words: str
    """What to do first, then why."""
    first: Slot | None = None
    """What has to be taken or answered first, if that is one thing."""
    caution: str = ""
    """The key of the caution that has to be read."""


@dataclass(frozen=True)
class Interlock:
    """What may be taken in a record by one person at one moment."""

    record: Record
    verdicts: Verdicts
    """How each figure and answer stood, by the id of its reading."""
    person: str | None
    """Id of who takes it."""
    now: datetime

    def refusal(self, slot: Slot, taken: Entry | None, cautions: Sequence[str]) -> Refusal | None:
        """Return why something may not be entered now; None if it may.

        Args:
            slot: Where.
            taken: What is to be entered; None for any true reading.
            cautions: Keys of the cautions that stand before this reading, in order.
        """
        reason = isinstance(taken, NotTaken | NotNeeded)
        if reason and self._must_be_answered(slot):
            words = (
                "Nothing else will do. Leave all off, look at each, then answer y."
                if slot == PUT_BACK
                else "Nothing replaces the earth. Leave all off, put it back, then answer y."
            )
            return Refusal(Lock.NO_REASON, words, slot)
        if slot in EARTHS and not reason:
            return None  # whoever sees that it is off, or on, says so at once
        if self.earth is not None and slot not in EARTHS[self.earth.slot]:
            return Refusal(Lock.EARTH, self._earth_words(self.earth, slot), self.earth.slot)
        found = self._live(slot, reason=reason) if slot.stage is Stage.LIVE else None
        if found is None and not reason:
            found = self._caution(slot, cautions)
        return found

    def may_go_live(self, circuit: str) -> bool:
        """Return whether a circuit may go live: its dead tests are right, or an exception holds."""
        return not self.dead.circuits.get(circuit) or self.exception(circuit) is not None

    def exception(self, circuit: str) -> LiveException | None:
        """Return the exception that holds for a circuit, made with the answer that holds.

        It holds for the dead tests that it was made in spite of: what is open there since, because
        the design changed or another circuit has this id now, nobody decided about.
        """
        answer = self.answer
        found = answer.exceptions if answer is not None else ()
        able = {each.id for each in competent(self.record)}
        now = {each.words for each in self.dead.circuits.get(circuit, ())}
        return next(
            (
                each
                for each in reversed(found)
                if each.circuit == circuit and each.by in able and now <= {*each.despite}
            ),
            None,
        )

    @cached_property
    def earth(self) -> Owed | None:
        """What is owed after Ze."""
        return earth_owed(self.record)

    @cached_property
    def put_back(self) -> Owed | None:
        """What the dead tests took off and nobody has said is back."""
        return put_back_owed(self.record)

    @cached_property
    def dead(self) -> DeadTests:
        """How far the dead tests let the job go live."""
        return dead_tests(self.record, self.verdicts)

    @cached_property
    def failures(self) -> tuple[LiveFailure, ...]:
        """What failed live."""
        return live_failures(self.record, self.verdicts)

    @cached_property
    def answer(self) -> LiveGate | None:
        """The answer to the question before the live tests that holds for this person now."""
        return live_answer(self.record, self.person, self.now)

    def unread(self, slot: Slot, cautions: Sequence[str]) -> tuple[str, ...]:
        """Return which cautions this person has still to read before a reading."""
        if slot == PUT_BACK or slot in EARTHS:
            return ()  # nothing stands between a person and these
        return unread(self.record, slot, cautions, self.person, self.now)

    @property
    def stops_live(self) -> Refusal | None:
        """What keeps everything from going live, whatever is answered; None: nothing does."""
        if self.earth is not None:
            return Refusal(Lock.EARTH, self.earth.question, self.earth.slot)
        return self._not_ready

    @property
    def _not_ready(self) -> Refusal | None:
        if self.dead.board:
            words = "; ".join(board_words(self.record, self.dead.board)[:2])
            return Refusal(
                Lock.BOARD,
                "Nothing goes live yet: feed, board and earths must be satisfactory first. "
                f"{words}.",
                self.dead.board[0].slot,
            )
        if not put_back_shown(self.record):
            words = f"Nothing goes live yet. {self._put_back_words}"
            return Refusal(Lock.PUT_BACK, words, PUT_BACK)
        return None

    @property
    def locked(self) -> Refusal | None:
        """What keeps this person from every live reading now; None: some may be taken.

        An earth that is off is asked for by itself: Ze may be read again before it is back.
        """
        stop = self._not_ready
        if stop is None and self.answer is None:
            return Refusal(
                Lock.ANSWER,
                "Nothing is taken live before the question on safety is answered. It holds for "
                "one person and four hours.",
            )
        return stop

    def _must_be_answered(self, slot: Slot) -> bool:
        owed = (each.slot for each in earths_owed(self.record))
        return slot == PUT_BACK or slot in owed

    def _earth_words(self, earth: Owed, slot: Slot) -> str:
        if slot.stage is earth.slot.stage:
            return earth.question
        there = "live tests" if earth.slot.stage is Stage.LIVE else "dead tests"
        return f"{earth.question} Go to the {there} and say so there."

    def _caution(self, slot: Slot, cautions: Sequence[str]) -> Refusal | None:
        left = self.unread(slot, cautions)
        if not left:
            return None
        return Refusal(Lock.CAUTION, "Read the caution first.", caution=left[0])

    def _live(self, slot: Slot, *, reason: bool) -> Refusal | None:
        locked = self.locked
        if reason:  # a reason why there is no reading makes nothing live
            return locked if locked is not None and locked.lock is Lock.ANSWER else None
        return locked or self._failure(slot) or self._in_order(slot)

    @property
    def _put_back_words(self) -> str:
        what = self.put_back.what if self.put_back is not None else ()
        off = f" Off or in since: {', '.join(what[:4])}." if what else ""
        return f"Answer this first, at the dead tests: is everything put back?{off}"

    def _failure(self, slot: Slot) -> Refusal | None:
        stops = [each for each in self.failures if each.stops(slot)]
        # Its own retest is what puts a failure right, unless what feeds it failed as well.
        if any(each.slot == slot for each in self.failures):
            stops = [each for each in stops if _upstream(each.slot, slot)]
        if not stops:
            return None
        first = stops[0]
        words = failure_words(self.record, first)
        return Refusal(
            Lock.FAILURE,
            "Switch off and lock off. Nothing else is taken live before this is satisfactory. "
            f"{words}.",
            first.slot,
        )

    def _in_order(self, slot: Slot) -> Refusal | None:
        part, quantity = slot.place.part, slot.quantity
        if part is Part.ORIGIN and quantity not in _WITH_A_LOAD:
            return None
        if part in (Part.BOARD, Part.FEED) and quantity in _VOLTS:
            return None
        locked = self._locked_off(slot) if part is Part.CIRCUIT else None
        if locked is not None:
            return locked
        if not self._right(_POLARITY):
            return Refusal(
                Lock.POLARITY,
                "Take the polarity of the supply first, at the sub-board, its main switch off.",
                _POLARITY,
            )
        if part is Part.CIRCUIT:
            return self._circuit(slot)
        if quantity in _WITH_A_LOAD and not any(
            self.may_go_live(each.id)
            and all(self._right(test) for test in self._live_tests(each.id))
            for each in self.record.circuits
        ):
            return Refusal(
                Lock.LOAD,
                "Test one circuit live first, its Zs and its RCD: a load goes on after that.",
            )
        return None

    def _locked_off(self, slot: Slot) -> Refusal | None:
        id = slot.place.circuit or ""
        if self.may_go_live(id):
            return None
        words = circuit_words(self.record, id, self.dead.circuits[id])
        return Refusal(
            Lock.CIRCUIT,
            f"Leave it locked off: its dead tests come first. {words}.",
            self.dead.circuits[id][0].slot,
        )

    def _circuit(self, slot: Slot) -> Refusal | None:
        id = slot.place.circuit or ""
        counted = any(calculated(each) for each in self._real(_ZDB))
        if counted or not self._right(_ZDB, doubt=True):
            words = "Take Zdb at the sub-board first: it shows that there is an earth."
            words += " A calculated one doesn't." if counted else ""
            if self._unjudged(_ZDB):
                words = "Zdb can't be judged yet. Enter what its verdict says is missing."
            return Refusal(Lock.POLARITY, words, _ZDB)
        tests = self._live_tests(id)
        loaded = slot.quantity is Quantity.RCD_LOADED
        if (loaded and not all(self._right(each) for each in tests)) or (
            slot.quantity is Quantity.FUNCTION
            and any(self._outside(each) or not self.record.taken(each) for each in tests)
        ):
            where = title(self.record, place_of(Part.CIRCUIT, id))
            return Refusal(Lock.LOAD, f"Zs and the RCD of {where} must be satisfactory first.")
        return None

    def _live_tests(self, circuit: str) -> tuple[Slot, ...]:
        """Return the live tests that come before a load: Zs, and the time of an RCD of its own."""
        place = place_of(Part.CIRCUIT, circuit)
        zs, timed = (slot_of(each, place, Stage.LIVE) for each in (Quantity.ZS, Quantity.RCD_TIME))
        return (zs, timed) if timed in slots(self.record, Stage.LIVE) else (zs,)

    def _unjudged(self, slot: Slot) -> bool:
        """Return whether a figure was read that nothing can be held against."""
        return Verdict.NOT_TAKEN in self._stood(slot)

    def _outside(self, slot: Slot) -> bool:
        return Verdict.OUTSIDE in self._stood(slot)

    def _right(self, slot: Slot, *, doubt: bool = False) -> bool:
        """Return whether a test was taken and is right; with `doubt`, a doubtful one will do."""
        good = {each for each in Verdict if each not in (*WRONG, Verdict.NOT_TAKEN)}
        good |= {Verdict.UNLIKELY} if doubt else set()
        stood = self._stood(slot)
        return bool(stood) and all(each in good for each in stood)

    def _stood(self, slot: Slot) -> list[Verdict | None]:
        return [self.verdicts.get(each.id) for each in self._real(slot)]

    def _real(self, slot: Slot) -> tuple[Reading, ...]:
        taken = self.record.taken(slot)
        real = [each for each in taken if isinstance(each.taken, Figure | Tick)]
        return last_ones(real) if real else ()


def _upstream(first: Slot, then: Slot) -> bool:
    """Return whether one part feeds another: the origin the board, the board a circuit."""
    order = list(Part)
    return order.index(first.place.part) < order.index(then.place.part)


def is_settled(record: Record, slot: Slot) -> bool:
    """Return whether the question of this slot settles all that came off; True of other slots."""
    if slot in EARTHS:
        return all(each.slot != slot for each in earths_owed(record))
    return slot != PUT_BACK or put_back_owed(record) is None
