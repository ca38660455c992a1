"""Readings that would not have been taken at the bench: before it was safe, by their own times.

From a sheet or an import they are kept as they are, and each is pointed to.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from records.interlock.answers import competent, holds
from records.interlock.comes_off import EARTHS, ZE, calculated, taken_with_earth_off
from records.interlock.dead_tests import WRONG, DeadTestsOf, OpenTest, board_words, circuit_words
from records.interlock.live_failures import failure_words, live_failures, stopping
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, ORIGIN, Facts
from records.judgement.wording import listed
from records.model.reading import (
    Figure,
    LiveException,
    LiveGate,
    Place,
    Quantity,
    Reading,
    Slot,
    Tick,
    place_of,
    slot_of,
)
from records.terms import Part, Stage, Verdict

_AGAIN = do(Act.LEAVE_OFF, "Switch off and lock off.") + do(
    Act.AGAIN, "Put right what was open, then take them again: the first readings stay on record."
)
_POLARITY = slot_of(Quantity.POLARITY, BOARD, Stage.LIVE)
_WITH_A_LOAD = (Quantity.LOAD_CURRENT, Quantity.VOLTAGE_LOADED, Quantity.RCD_LOADED)
_VOLTS = (Quantity.POLARITY, Quantity.VOLTAGE, Quantity.VOLTAGE_LE, Quantity.VOLTAGE_NE)


def out_of_order(facts: Facts, verdicts: Mapping[str, Verdict]) -> Iterator[Pattern]:
    """Find readings that count and were taken before they could be taken safely.

    Args:
        facts: The record.
        verdicts: How each reading stood, by its id.
    """
    looked = _Looked(facts, verdicts)
    for rule in _RULES:
        yield from rule(looked)


@dataclass(frozen=True)
class _Looked:
    facts: Facts
    verdicts: Mapping[str, Verdict]

    @cached_property
    def tests(self) -> DeadTestsOf:
        return DeadTestsOf(self.facts.record, self.verdicts)

    @cached_property
    def counting(self) -> tuple[Reading, ...]:
        """The last reading of each slot, where it is a true one."""
        last = (attempts[-1] for attempts in self.facts.readings.values() if attempts)
        real = (each for each in last if isinstance(each.taken, Figure | Tick))
        return tuple(sorted(real, key=lambda each: (each.at, int(each.id[1:]))))

    @cached_property
    def live(self) -> tuple[Reading, ...]:
        """Those of them that were taken live; nothing is live for what was calculated."""
        return tuple(
            each
            for each in self.counting
            if each.slot.stage is Stage.LIVE
            and each.slot not in EARTHS
            and not (each.slot == ZE and calculated(each))
        )

    @cached_property
    def live_on(self) -> Mapping[str | None, list[Reading]]:
        """The live ones by their circuit."""
        found: dict[str | None, list[Reading]] = {}
        for each in self.live:
            found.setdefault(each.slot.place.circuit, []).append(each)
        return found


def _earth_off(looked: _Looked) -> Iterator[Pattern]:
    found = taken_with_earth_off(looked.facts.record, looked.counting)
    if found:
        yield _taken_early(
            looked,
            "taken with the earth off",
            ORIGIN,
            "Taken while the earth was off",
            found,
            "between a test that takes an earth off and the answer that it is back.",
            15,
        )


def _board_open(looked: _Looked) -> Iterator[Pattern]:
    found, open_ = [], dict[OpenTest, None]()
    for each in looked.live:
        tests = looked.tests.on_board(each.at)
        if tests:
            found.append(each)
            open_ |= dict.fromkeys(tests)
    if found:
        words = "; ".join(board_words(looked.facts.record, open_)[:3])
        yield _taken_early(
            looked,
            "taken before the board was right",
            BOARD,
            "Taken live before feed, board and earths were satisfactory",
            found,
            f"before feed, board and earths were satisfactory: {words}.",
            12,
        )


def _locked_off(looked: _Looked) -> Iterator[Pattern]:
    record = looked.facts.record
    for circuit in record.circuits:
        found, open_ = [], dict[OpenTest, None]()
        for each in looked.live_on.get(circuit.id, ()):
            if _exception(looked.facts, circuit.id, each):
                continue
            tests = looked.tests.on_circuit(circuit.id, each.at)
            if tests:
                found.append(each)
                open_ |= dict.fromkeys(tests)
        if found:
            place = place_of(Part.CIRCUIT, circuit.id)
            words = circuit_words(record, circuit.id, open_)
            yield _taken_early(
                looked,
                "taken while locked off",
                place,
                f"{looked.facts.title(place)}: taken live while it was locked off",
                found,
                f"while {circuit.id} was locked off. {words}.",
                10,
            )


def _excepted_circuits(looked: _Looked) -> Iterator[Pattern]:
    """Live readings of a circuit that somebody competent let be taken in spite of its tests."""
    names = {each.id: each.name for each in looked.facts.record.job.people}
    for circuit in looked.facts.record.circuits:
        place = place_of(Part.CIRCUIT, circuit.id)
        found = looked.live_on.get(circuit.id, [])
        made = [one for each in found if (one := _exception(looked.facts, circuit.id, each))]
        if made:
            despite = "; ".join(made[-1].despite) or "its dead tests"
            concern = Concern(
                "tested live by exception",
                Verdict.NEAR,
                f"Tested live in spite of: {despite}. {names.get(made[-1].by, made[-1].by)} "
                f"let it be taken, because {made[-1].reason.rstrip('.')}. The certifier decides.",
                ("a decision of who certifies",),
                do(
                    Act.LEAVE_OFF,
                    "Switch it off and lock it off until its dead tests are satisfactory.",
                ),
                cite.COMMON,
                20,
            )
            title = f"{looked.facts.title(place)}: tested live by exception"
            yield Pattern(concern, place, title, tuple(each.slot for each in found))


def _after_failure(looked: _Looked) -> Iterator[Pattern]:
    record = looked.facts.record
    slots = (slot for slot in stopping(record) if _ever_wrong(looked, slot))
    for slot in slots:
        found, why = [], ""
        for each in looked.live:
            failed = live_failures(record, looked.verdicts, each.at, (slot,))
            if failed and failed[0].stops(each.slot):
                found.append(each)
                why = failure_words(record, failed[0])
        if found:
            yield _taken_early(
                looked,
                "taken after a live failure",
                slot.place,
                f"Taken live after {slot.quantity.value} had failed",
                found,
                f"although this was not satisfactory: {why}.",
                14,
                mark=slot.quantity.code,
            )


def _ever_wrong(looked: _Looked, slot: Slot) -> bool:
    """Whether any reading of a slot was wrong: without one it stopped nothing at any time."""
    return any(looked.verdicts.get(each.id) in WRONG for each in looked.facts.attempts(slot))


def _before_polarity(looked: _Looked) -> Iterator[Pattern]:
    shown = [
        each
        for each in looked.facts.attempts(_POLARITY)
        if isinstance(each.taken, Tick) and each.taken.good
    ]
    found = [each for each in looked.live if _needs_polarity(each.slot) and not _by(shown, each)]
    if found:
        yield _taken_early(
            looked,
            "taken before polarity",
            BOARD,
            "Taken live before the polarity of the supply",
            found,
            "before the polarity of the supply was shown correct.",
            8,
        )


def _before_zdb(looked: _Looked) -> Iterator[Pattern]:
    shown = _shown(looked, Quantity.ZDB)
    found = [
        each
        for each in looked.live
        if each.slot.place.part is Part.CIRCUIT and not _by(shown, each)
    ]
    if found:
        yield _taken_early(
            looked,
            "taken before Zdb",
            BOARD,
            "Taken live before Zdb",
            found,
            "before Zdb had shown that the sub-board has an earth.",
            7,
        )


def _load_early(looked: _Looked) -> Iterator[Pattern]:
    shown = _shown(looked, Quantity.ZS)
    found = [
        each for each in looked.live if each.slot.quantity in _WITH_A_LOAD and not _by(shown, each)
    ]
    if found:
        yield _taken_early(
            looked,
            "load on too early",
            BOARD,
            "Loads on before any circuit was tested live",
            found,
            "before Zs of any circuit was satisfactory: a load was on.",
            6,
        )


def _shown(looked: _Looked, quantity: Quantity) -> list[Reading]:
    """Return the live readings of a quantity that are not outside."""
    return [
        each
        for attempts in looked.facts.readings.values()
        for each in attempts
        if each.slot.quantity is quantity
        and each.slot.stage is Stage.LIVE
        and isinstance(each.taken, Figure)
        and looked.verdicts.get(each.id) is not Verdict.OUTSIDE
    ]


def _by(shown: Sequence[Reading], reading: Reading) -> bool:
    """Return whether one of the readings had been taken when another was."""
    return any(each.at <= reading.at for each in shown)


def _unanswered(looked: _Looked) -> Iterator[Pattern]:
    record, by_person = looked.facts.record, dict[str | None, list[Reading]]()
    for each in looked.live:
        if not any(_covers(gate, each) for gate in record.live_gate):
            by_person.setdefault(each.by, []).append(each)
    names = {each.id: each.name or each.id for each in record.job.people}
    for by, found in by_person.items():
        who = names.get(by or "", "nobody named")
        count = f"{len(found)} live readings" if len(found) > 1 else "A live reading"
        concern = Concern(
            "taken without an answer",
            Verdict.UNLIKELY,
            f"{count} by {who}, and no answer of theirs to the question on safe isolation from the "
            "four hours before.",
            ("taken by somebody who was not asked", "entered from a sheet or another program"),
            do(
                Act.ASK,
                "Ask who took them, and whether the installation was safe to test live. Who tests "
                "answers the question before the live tests.",
            ),
            cite.COMMON,
            60,
        )
        about = tuple(each.slot for each in found)
        title = f"Live readings without an answer on safe isolation, {who}"
        yield Pattern(concern, BOARD, title, about, mark=by or "nobody")


_RULES: tuple[Callable[[_Looked], Iterator[Pattern]], ...] = (
    _earth_off,
    _board_open,
    _locked_off,
    _excepted_circuits,
    _after_failure,
    _before_polarity,
    _before_zdb,
    _load_early,
    _unanswered,
)


def _taken_early(
    looked: _Looked,
    name: str,
    place: Place,
    title: str,
    found: Sequence[Reading],
    when: str,
    weight: int,
    mark: str = "",
) -> Pattern:
    slots = tuple(each.slot for each in found)
    named = listed([_named(each) for each in slots[:4]])
    more = f" and {len(slots) - 4} more" if len(slots) > 4 else ""
    were = "was" if len(slots) == 1 else "were"
    concern = Concern(
        name,
        Verdict.OUTSIDE,
        f"{named}{more} {were} taken live {when}",
        ("it was made live too early", "times filled in afterwards"),
        _AGAIN,
        cite.RETEST,
        weight,
    )
    return Pattern(concern, place, title, slots, tells=slots, beside=True, mark=mark)


def _named(slot: Slot) -> str:
    where = slot.place.circuit or f"{slot.place.part.value}"
    return f"{where} {slot.quantity.value}"


def _needs_polarity(slot: Slot) -> bool:
    if slot.place.part is Part.CIRCUIT:
        return True
    return slot.place.part in (Part.BOARD, Part.FEED) and slot.quantity not in _VOLTS


def _exception(facts: Facts, circuit: str, reading: Reading) -> LiveException | None:
    """Return the exception that a reading was taken under; None if there was none."""
    able = {each.id for each in competent(facts.record)}
    made = (
        each
        for gate in facts.record.live_gate
        if gate.exceptions and _covers(gate, reading)
        for each in gate.exceptions
        if each.circuit == circuit and each.by in able
    )
    return next(made, None)


def _covers(gate: LiveGate, reading: Reading) -> bool:
    """Return whether an answer held when a reading was taken.

    When it was entered from notes counts for nothing: by then it had been live without an answer.
    """
    return gate.isolation_understood and holds(gate.at, gate.by, reading.by, reading.at)
