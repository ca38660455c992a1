"""What is said in the record has an effect: ends of the armour, mixtures, points, symptoms."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from records.document.as_built import feed as feed_lines
from records.judgement.harm import Harm
from records.model.circuit import Point
from records.model.job import Instrument
from records.model.noticed import Noticed
from records.model.reading import Quantity, Remedy
from records.model.record import Record
from records.store.exchange import from_json
from records.terms import ArmourEarthed, Cpc, Earthing, Part, Stage, Symptom, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    START,
    at,
    circuit,
    flat,
    over,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    zs,
)

LIVE = Stage.LIVE


def armoured(job: Record, end: ArmourEarthed | None, **run) -> Record:
    runs = tuple(each.model_copy(update=run) for each in job.feed.runs)
    feed = job.feed.model_copy(update={"armour_earthed": end, "runs": runs})
    return job.model_copy(update={"feed": feed})


def ends(record: Record) -> list[Verdict]:
    return [each.verdict for each in reviewed(record).lines if each.key.endswith("armour earthed")]


@pytest.mark.parametrize(
    ("job", "end", "verdicts"),
    [
        (SOUND, None, []),
        (SOUND, ArmourEarthed.HOUSE, []),
        (SOUND, ArmourEarthed.BOTH, []),
        (SOUND, ArmourEarthed.OUTBUILDING, [Verdict.NEAR]),
        (SOUND, ArmourEarthed.NEITHER, [Verdict.OUTSIDE]),
        (ISLAND, ArmourEarthed.HOUSE, []),
        (ISLAND, ArmourEarthed.BOTH, [Verdict.OUTSIDE]),
        (ISLAND, ArmourEarthed.OUTBUILDING, [Verdict.OUTSIDE]),
        (ISLAND, ArmourEarthed.NEITHER, [Verdict.OUTSIDE]),
    ],
)
def test_where_the_armour_is_earthed(job, end, verdicts):
    """An island's armour is earthed at the house only (BS 7671, 411.5 and 542.1, from memory); an
    armour that is earthed nowhere is live after a spade (411.3.1.1)."""
    assert ends(armoured(job, end)) == verdicts


@pytest.mark.parametrize(("end", "odd"), [(ArmourEarthed.BOTH, 0), (ArmourEarthed.HOUSE, 1)])
def test_an_armour_that_is_the_cpc_is_earthed_at_both_ends(end, odd):
    assert len(ends(armoured(SOUND, end, cpc=Cpc.ARMOUR))) == odd


def test_an_armour_that_no_cable_has_is_a_contradiction():
    feed = SOUND.feed.model_copy(
        update={"runs": (flat(10.0, 20.0),), "armour_earthed": ArmourEarthed.HOUSE}
    )

    assert ends(SOUND.model_copy(update={"feed": feed})) == [Verdict.OUTSIDE]


def test_the_end_of_the_armour_stands_in_the_schedule():
    (line,) = feed_lines(armoured(SOUND, ArmourEarthed.HOUSE))["runs"]

    assert "armour earthed at the house" in line["cpc"]


@pytest.mark.parametrize(("electrode", "found"), [("", False), (" ", False), ("one rod", True)])
def test_an_electrode_beside_an_exported_earth_is_called_a_mixture(electrode, found):
    board = SOUND.board.model_copy(update={"electrode": electrode})
    origin = SOUND.origin.model_copy(update={"earthing": Earthing.TN_C_S})
    lines = reviewed(SOUND.model_copy(update={"board": board, "origin": origin})).lines
    mixed = [each for each in lines if each.key.endswith("electrode beside exported earth")]

    assert bool(mixed) is found
    if found:
        assert mixed[0].verdict is Verdict.NEAR
        assert "a mixture of both" in mixed[0].why
        assert "current of the supply's neutral" in mixed[0].why
        assert "certifier decides" in mixed[0].next_check


def with_point(**said) -> Record:
    return circuit(SOUND, "C2", points=(Point(id="P1", name="Desk", at=18.0, **said),))


def about_point(record: Record) -> list[str]:
    return [each.why for each in reviewed(record).lines if "/P1/design/" in each.key]


@pytest.mark.parametrize(("fuse", "found"), [(3.0, 0), (13.0, 0), (16.0, 1), (25.0, 2)])
def test_the_fuse_of_a_spur_is_one_that_there_is_and_smaller_than_the_device(fuse, found):
    """BS 1362: 1 to 13 A; C2 has 20 A."""
    assert len(about_point(with_point(fuse=fuse))) == found


@pytest.mark.parametrize(("ends", "found"), [(None, 0), (False, 0), (True, 1)])
def test_a_cpc_that_ends_at_a_box_is_outside(ends, found):
    """BS 7671, Regulation 411.3.1.1: a cpc is run to and terminated at each point (memory)."""
    assert len(about_point(with_point(cpc_ends=ends))) == found


# The same point, read twice.


def second(value: float, record: Record | None = None, **how) -> Record:
    slot = zs("C2")
    record = sound_job() if record is None else record
    meters = (*record.job.instruments, Instrument(id="M2", serial="22", uncertainty=8.0))
    record = record.model_copy(
        update={"job": record.job.model_copy(update={"instruments": meters})}
    )
    return spoilt((slot, 0.70), read(900, slot, value, 900, **how), record=record)


@pytest.mark.parametrize(("value", "found"), [(0.71, False), (0.79, False), (0.84, True)])
def test_two_meters_agree_within_what_both_may_be_off(value, found):
    """√(Ua² + Ub²) and two digits (common practice): 8 % of 0.70 and of the other."""
    line = own(second(value, instrument="M2"), zs("C2"))

    assert ("meters disagree" in line.patterns) is found
    if found:
        assert "By meter 1 it is 0.70 Ω, by meter 22 0.84 Ω" in line.why
        assert "one after the other" in line.next_check


def test_one_meter_used_twice_is_no_second_opinion():
    assert "meters disagree" not in own(second(0.84, instrument="M1"), zs("C2")).patterns


@pytest.mark.parametrize(("value", "found"), [(0.66, False), (0.64, True)])
def test_a_front_whose_contacts_add_is_worn(value, found):
    """Good contacts add 0.05 Ω at most: common practice."""
    line = own(second(value, method="behind the front"), zs("C2"))

    assert ("worn front" in line.patterns) is found
    if found:
        assert f"At its front it is 0.70 Ω, behind it {value:.2f} Ω" in line.why


@pytest.mark.parametrize(("minutes", "found"), [(100, True), (890, False), (901, True)])
def test_what_was_done_between_two_readings_explains_them(minutes, found):
    """The first is read some two hours after the start, the second at minute 900."""
    when = START + timedelta(minutes=minutes)
    remedy = Remedy(id="X1", finding="circuit/C2/-/live/Zs", done="tightened", at=when)
    record = second(0.9, instrument="M2").model_copy(update={"remedies": (remedy,)})
    first = record.taken(zs("C2"))[0]

    assert START + timedelta(minutes=100) < first.at < START + timedelta(minutes=890)
    assert ("meters disagree" in own(record, zs("C2")).patterns) is found


# Symptoms.


def noticed(kind: Symptom | None, name: str | None = "C2", record=None, note="") -> Record:
    record = sound_job() if record is None else record
    return record.model_copy(
        update={"noticed": (Noticed(id="N1", kind=kind, circuit=name, note=note),)}
    )


@pytest.mark.parametrize(
    ("kind", "slot", "value"),
    [
        (Symptom.RAIN, at(Quantity.IR_LE, "C2"), 4.0),
        (Symptom.HOT, at(Quantity.R1_R2, "C2"), 0.7),
        (Symptom.FLICKER, zs("C2"), 1.9),
        (Symptom.TINGLE, at(Quantity.R1_R2, "C2"), over(99.9)),
        (Symptom.SWITCHED_ON, at(Quantity.IR_NE, "C2"), 0.05),
    ],
)
def test_a_symptom_joins_the_findings_it_belongs_to(kind, slot, value):
    record = noticed(kind, record=spoilt((slot, value)), note="by the door")
    line = own(record, slot)

    assert line.why.endswith(f"Noticed in use: {kind.value} (by the door).")
    assert not [each for each in reviewed(record).lines if "/in use/" in each.key]


@pytest.mark.parametrize("kind", Symptom)
def test_a_symptom_that_no_finding_explains_is_one_itself(kind):
    found = [each for each in reviewed(noticed(kind)).findings if "/in use/" in each.key]

    assert len(found) == 1
    assert found[0].verdict is Verdict.UNLIKELY
    assert "No reading shows why yet." in found[0].why
    assert found[0].key == f"circuit/C2/N1/in use/{kind.code}"
    assert found[0].causes
    assert found[0].next_check
    danger = kind in (Symptom.HOT, Symptom.TINGLE)
    assert (found[0].harm is Harm.DANGER) is danger
    assert ("lock it off" in found[0].next_check) is danger


def test_a_symptom_of_one_circuit_says_nothing_of_another():
    wet = spoilt((at(Quantity.IR_LE, "C3"), 4.0))

    assert "Noticed" not in own(noticed(Symptom.RAIN, "C2", wet), at(Quantity.IR_LE, "C3")).why
    assert "Noticed" in own(noticed(Symptom.RAIN, None, wet), at(Quantity.IR_LE, "C3")).why


def test_a_symptom_of_a_circuit_joins_what_feeds_it_too():
    slot = at(Quantity.IR_LE, part=Part.FEED)
    record = noticed(Symptom.RAIN, "C2", spoilt((slot, 4.0)))

    assert "Noticed in use: trips in rain or damp" in own(record, slot).why


def test_one_that_says_nothing_yet_and_an_older_record_have_none():
    assert len(reviewed(noticed(None)).lines) == len(reviewed(sound_job()).lines)
    old = Path("fixtures/format-2.json")
    assert from_json(old.read_text(encoding="utf-8")).noticed == ()
