"""The life of a finding: open, remedied, re-tested."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.judgement.review_types import Life
from records.judgement.todo.progress import progress
from records.model.reading import NotNeeded, NotTaken, Quantity, Remedy, Slot, Tick
from records.model.record import Record
from records.terms import Stage, Step, Verdict, WorkKind
from tests.judgement.jobs import (
    START,
    at,
    circuit,
    findings,
    flat,
    line,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
)

RUN = at(Quantity.R1_R2, "C2")
LE = at(Quantity.IR_LE, "C2")
RCD = at(Quantity.RCD_TIME, "C2", Stage.LIVE)
KEY = "circuit/C2/-/dead/ir-le"


def done(
    record: Record,
    finding: str,
    minutes: float,
    what: str = "box dried",
    id: str = "X1",
    *,
    to_decide: bool = False,
    kind: WorkKind | None = None,
    about: tuple[Slot, ...] = (),
) -> Record:
    when = START + timedelta(minutes=minutes)
    remedy = Remedy(
        id=id, finding=finding, done=what, at=when, to_decide=to_decide, kind=kind, about=about
    )
    return record.model_copy(update={"remedies": (*record.remedies, remedy)})


def test_an_open_finding_has_no_remedy():
    assert own(spoilt((LE, 0.4)), LE).remedies == ()


def test_a_remedy_without_a_re_test_leaves_the_finding_open_and_says_so():
    record = done(spoilt((LE, 0.4)), KEY, 900)
    found = own(record, LE)

    assert found.verdict is Verdict.OUTSIDE
    assert found.remedies == record.remedies
    assert "it was not read again since: it stays open until it is." in found.why
    assert KEY in findings(record)


def all_back(record: Record) -> Record:
    """Return the record with the answer that what came off for the re-tests is put back."""
    return spoilt(read(990, at(Quantity.PUT_BACK), Tick(good=True), 990), record=record)


def test_a_good_re_test_closes_it_and_the_first_reading_stays():
    record = done(spoilt((LE, 0.4)), KEY, 900)
    again = [
        read(900 + n, slot, value, 910 + n)
        for n, (slot, value) in enumerate(
            ((RUN, 0.34), (at(Quantity.IR_LN, "C2"), 500.0), (LE, 480.0))
        )
    ]
    record = spoilt(*again, record=record)
    found = own(record, LE)

    assert findings(all_back(record)) == {}
    assert found.verdict is Verdict.WITHIN
    assert [each.id for each in found.attempts][1:] == ["R902"]
    assert "Read again after what was done (box dried); 1 reading before it kept." in found.why


def test_a_bad_re_test_keeps_it_open():
    record = done(spoilt((LE, 0.4)), KEY, 900)
    record = spoilt(read(900, LE, 0.6, 910), record=record)

    assert own(record, LE).verdict is Verdict.OUTSIDE
    assert KEY in findings(record)


def test_work_after_a_good_reading_asks_for_another():
    """The reading is from before the work and says nothing about it."""
    record = done(sound_job(), KEY, 900, "box opened again")

    assert own(record, LE).verdict is Verdict.NOT_TAKEN


def test_a_repair_asks_for_the_earlier_tests_it_may_have_influenced():
    """BS 7671, Regulation 643.1 (from memory)."""
    record = done(spoilt((LE, 0.4)), KEY, 900)
    record = spoilt(read(900, LE, 480.0, 910), record=record)

    assert findings(all_back(record)) == {"circuit/C2/X1/dead/earlier tests again": "not taken"}
    found = line(record, "/earlier tests again")
    assert set(found.about) == {RUN, at(Quantity.IR_LN, "C2")}
    assert "R1+R2 and insulation L-N" in found.why


def test_a_new_rcd_asks_for_the_dead_tests_and_the_loop():
    record = done(spoilt((RCD, 342.0)), "circuit/C2/-/live/rcd-time", 900, "RCBO changed")
    record = spoilt(read(900, RCD, 24.0, 910), record=record)

    found = line(record, "/earlier tests again")

    assert {slot.quantity for slot in found.about} == {
        Quantity.R1_R2,
        Quantity.IR_LN,
        Quantity.IR_LE,
        Quantity.IR_NE,
        Quantity.ZS,
    }


def test_a_reason_settles_what_a_repair_asks_for():
    record = done(spoilt((LE, 0.4)), KEY, 900)
    record = spoilt(read(900, LE, 480.0, 910), record=record)
    key = line(record, "/earlier tests again").key
    record = done(record, key, 950, "only the lid was opened", "X2")

    found = line(record, "/earlier tests again")

    assert found.verdict is Verdict.NOT_NEEDED
    assert "Settled with a reason: only the lid was opened." in found.why
    assert findings(all_back(record)) == {}


def test_reading_again_after_an_unlikely_one_asks_for_nothing_more():
    """No work was needed: the reading had been written in the wrong row."""
    record = done(spoilt((RUN, 0.9)), "circuit/C2/-/dead/R1+R2", 900, "wrong row")
    record = spoilt(read(900, RUN, 0.34, 910), record=record)

    assert findings(all_back(record)) == {}


def test_a_design_finding_that_was_only_talked_about_stays():
    record = circuit(sound_job(), "C2", load=40.0)
    key = "circuit/C2/-/design/Ib"
    assert key in findings(record)
    record = done(record, key, 900, "asked the designer")

    found = line(record, key)

    assert found.verdict is Verdict.OUTSIDE
    assert "but the record still shows it" in found.why
    assert found.remedies


def test_a_design_finding_that_was_mended_shows_what_was_done():
    record = done(sound_job(), "circuit/C2/-/design/Ib", 900, "load shared out")
    found = line(record, "circuit/C2/-/design/Ib")

    assert found.verdict is Verdict.WITHIN
    assert found.remedies


def test_the_remedy_of_a_pattern_that_is_gone_goes_to_what_was_read_again():
    record = spoilt(
        *((at(each, "C2"), 20.0) for each in (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE))
    )
    key = "circuit/C2/-/dead/all pairs low"
    assert key in findings(record)
    record = done(record, key, 900)
    again = [
        read(900 + n, at(each, "C2"), 400.0, 910 + n)
        for n, each in enumerate((Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE))
    ]
    record = spoilt(*again, record=record)

    assert findings(all_back(record)) == {}
    assert own(record, LE).remedies == record.remedies


def test_a_remedy_of_something_that_is_gone_altogether_is_kept():
    record = done(sound_job(), "circuit/C9/-/design/Iz", 900, "circuit left out")

    assert reviewed(record).settled == record.remedies


def test_a_longer_run_is_judged_anew():
    record = circuit(sound_job(), "C2", runs=(flat(2.5, 40.0),))

    assert own(record, RUN).verdict is Verdict.UNLIKELY


# How far a finding has come.


def test_the_life_of_a_finding_from_open_to_found_right():
    record = spoilt((LE, 0.4))
    steps = [own(record, LE).life]
    record = done(record, KEY, 900)
    steps.append(own(record, LE).life)
    steps.append(own(spoilt(read(900, LE, 0.6, 910), record=record), LE).life)
    steps.append(own(spoilt(read(900, LE, 480.0, 910), record=record), LE).life)

    assert steps == [Life.OPEN, Life.REMEDIED, Life.STILL, Life.RETESTED]
    assert own(sound_job(), LE).life is None


def test_what_is_passed_to_the_certifier_stays_a_finding_with_its_note():
    record = done(spoilt((LE, 0.4)), KEY, 900, "wall closed, damp store", to_decide=True)
    found = own(record, LE)

    assert found.life is Life.DECIDE
    assert found.verdict is Verdict.OUTSIDE
    assert KEY in findings(record)
    assert found.why.endswith("Passed to the certifier to decide: wall closed, damp store.")
    assert not [key for key in findings(record) if key.endswith("earlier tests again")]


def test_a_finding_of_the_design_can_be_passed_on_and_stays_as_well():
    key = "circuit/C2/-/design/Ib"
    record = done(circuit(sound_job(), "C2", load=40.0), key, 900, "as ordered", to_decide=True)

    assert line(record, key).life is Life.DECIDE
    assert line(record, key).verdict is Verdict.OUTSIDE


def test_a_finding_of_the_design_that_was_mended_is_told_as_such():
    record = circuit(sound_job(), "C2", load=40.0)
    key = "circuit/C2/-/design/Ib"

    assert line(record, key).life is Life.OPEN
    assert line(done(record, key, 900), key).life is Life.REMEDIED
    assert line(done(sound_job(), key, 900), key).life is Life.RETESTED


def test_passing_on_proves_nothing_and_a_later_reading_opens_it_again():
    record = done(sound_job(), KEY, 900, "nothing to see", to_decide=True)
    assert own(record, LE).verdict is Verdict.WITHIN

    record = done(spoilt((LE, 0.4)), KEY, 900, "damp", to_decide=True)
    record = spoilt(read(900, LE, 0.3, 910), record=record)
    assert own(record, LE).life is Life.OPEN


def test_a_reading_that_could_not_be_taken_can_be_passed_on():
    record = done(spoilt((LE, NotTaken(reason="locked"))), KEY, 900, "no key", to_decide=True)

    assert own(record, LE).verdict is Verdict.NOT_TAKEN
    assert own(record, LE).life is Life.DECIDE


def test_a_pattern_that_asks_for_readings_is_not_settled_by_passing_it_on():
    record = spoilt(read(900, LE, 480.0, 910), record=done(spoilt((LE, 0.4)), KEY, 900))
    key = line(record, "/earlier tests again").key
    record = done(record, key, 950, "no time left", "X2", to_decide=True)

    assert line(record, "/earlier tests again").verdict is Verdict.NOT_TAKEN
    assert line(record, "/earlier tests again").life is Life.DECIDE


def test_progress_counts_what_was_passed_on_apart():
    record = done(spoilt((LE, 0.4)), KEY, 900, "damp", to_decide=True)
    dead = tuple(each for each in record.readings if each.slot.stage is not Stage.LIVE)
    record = record.model_copy(update={"readings": dead})
    steps = progress(record, reviewed(record))

    assert steps[Step.REVIEW].needs == ("1 passed to the certifier to decide.",)
    assert steps[Step.REVIEW].open == 1
    assert any("1 of them with a note to decide" in each for each in steps[Step.HAND_OVER].needs)


# Each reading keeps how it stood.


def test_each_of_several_readings_keeps_its_own_verdict():
    record = done(spoilt((LE, 0.4)), KEY, 900)
    record = spoilt(read(900, LE, 60.0, 910), read(901, LE, 480.0, 920), record=record)
    found = own(record, LE)

    assert [each.verdict for each in found.stood] == [
        Verdict.OUTSIDE,
        Verdict.UNLIKELY,
        Verdict.WITHIN,
    ]
    assert found.stood[0].why.startswith("Read 0.40 MΩ")


def test_a_single_reading_has_no_history():
    assert own(sound_job(), LE).stood == ()


def test_an_earlier_reading_is_held_against_what_had_been_read_by_then():
    """The line of the ring was read before its neutral: nothing contradicted it then."""
    r1 = at(Quantity.R1, "C1")
    value = own(sound_job(), r1).attempts[0].taken.value + 0.052
    found = own(spoilt((r1, value), read(900, r1, value, 900)), r1)

    assert [each.verdict for each in found.stood] == [Verdict.WITHIN, Verdict.UNLIKELY]


def test_the_last_of_several_stands_as_the_line_does_by_itself():
    record = spoilt(read(900, LE, 0.2, 910))
    found = own(record, LE)

    assert found.stood[-1].verdict is found.verdict is Verdict.OUTSIDE


def test_what_was_found_keeps_its_verdict_and_its_cause_after_the_re_test():
    ((reading, how),) = own(spoilt((LE, 0.4), read(900, LE, 480.0, 910)), LE).found

    assert reading.taken.value == 0.4
    assert how.verdict is Verdict.OUTSIDE
    assert any("screw or nail" in each for each in how.causes)


def test_a_wrong_first_reading_has_to_be_read_again():
    record = done(spoilt((LE, 0.4)), KEY, 900, kind=WorkKind.MISREAD)

    assert own(record, LE).verdict is Verdict.OUTSIDE
    assert "It is said to be wrong (box dried): read it again." in own(record, LE).why


@pytest.mark.parametrize("answer", [NotTaken(reason="no time"), NotNeeded(reason="not asked for")])
def test_saying_that_it_is_not_needed_puts_a_bad_reading_not_right(answer):
    record = spoilt((LE, 0.4), read(900, LE, answer, 910))
    found = own(record, LE)

    assert found.verdict is Verdict.OUTSIDE
    assert "That puts nothing right." in found.why
    assert own(done(record, KEY, 905), LE).verdict is not Verdict.OUTSIDE
