"""A changed design judges its readings again, and says what changed."""

from __future__ import annotations

from records.expected.plan import expected
from records.judgement.design_changed_since import Then, judged_again, with_changes_said
from records.judgement.differences import differences
from records.model.circuit import Point
from records.model.job import Duty, Person
from records.model.outbuilding import Bond
from records.model.record import Record
from records.model.wiring import Device
from records.terms import DeviceKind, Verdict
from tests.judgement.jobs import SOUND, circuit, flat, own, reviewed, sound_job, zs

RUN = "circuit/C2/-/dead/R1+R2"
ZS = "circuit/C2/-/live/Zs"


def said(then: Record, now: Record, ids: frozenset[str] | None = None):
    every = frozenset(each.id for each in now.readings)
    return judged_again([Then(then, every if ids is None else ids)], now, expected(now))


def test_a_longer_run_says_what_it_was_and_how_the_readings_stood():
    now = circuit(sound_job(), "C2", runs=(flat(2.5, 40.0),))
    found = said(sound_job(), now)

    assert own(now, own_slot(RUN)).verdict is Verdict.UNLIKELY
    assert found[RUN].startswith(
        "Judged again, for the design changed since it was read: "
        "Circuit C2, run 1, Length: 18 m → 40 m. Before: within, expected 0.34 Ω"
    )
    assert ZS in found


def own_slot(key: str):
    return next(each.slot for each in reviewed(sound_job()).lines if each.key == key)


def test_what_another_circuit_had_changed_is_not_touched():
    found = said(sound_job(), circuit(sound_job(), "C2", runs=(flat(2.5, 40.0),)))

    assert not [key for key in found if key.startswith(("circuit/C3", "circuit/C1"))]


def test_another_device_moves_the_limit_and_that_is_said_though_it_is_still_within():
    """RCBO 20 A: 2.19 Ω, 16 A: 2.73 Ω; cold 0.8 of it (BS 7671, Table 41.3, read)."""
    device = Device(kind=DeviceKind.RCBO_B, rating=16.0, breaking=6.0)
    now = circuit(sound_job(), "C2", device=device)
    found = said(sound_job(), now)

    assert own(now, zs("C2")).verdict is Verdict.WITHIN
    assert "In: 20 A → 16 A" in found[ZS]
    assert "limit at most 1.75 Ω" in found[ZS]


def test_a_design_finding_that_went_with_an_input_is_told():
    then = circuit(sound_job(), "C2", load=40.0)
    found = said(then, sound_job())

    assert "Ib: 40 A → not said" in found["circuit/C2/-/design/Ib"]
    assert "changed since then:" in found["circuit/C2/-/design/Ib"]
    assert found["circuit/C2/-/design/Ib"].endswith("Before: outside, limit at most 20 A.")


def test_a_reading_entered_after_the_change_was_judged_with_it():
    now = circuit(sound_job(), "C2", runs=(flat(2.5, 40.0),))

    assert not [key for key in said(sound_job(), now, frozenset()) if "/design/" not in key]


def test_names_and_people_judge_nothing_anew():
    job = sound_job().job.model_copy(
        update={"place": "Elsewhere", "people": (Person(id="A9", duty=Duty.DESIGNS),)}
    )
    assert said(sound_job(), sound_job().model_copy(update={"job": job})) == {}


def test_a_circuit_that_came_later_is_no_trouble():
    record = sound_job()
    before = record.model_copy(update={"circuits": record.circuits[:1]})
    found = said(before, record)

    assert not [key for key in found if key.startswith("circuit/C2")]


def test_a_warmer_day_changes_what_was_expected():
    job = sound_job().job.model_copy(update={"ambient": 35.0})
    found = said(sound_job(), sound_job().model_copy(update={"job": job}))

    assert "Temperature at the tests: 15 °C → 35 °C" in found[RUN]


def test_the_lines_of_a_review_carry_it():
    now = circuit(sound_job(), "C2", runs=(flat(2.5, 40.0),))
    lines = with_changes_said(reviewed(now), said(sound_job(), now)).lines

    assert {each.key for each in lines if each.judged_again} == set(said(sound_job(), now))


def test_the_differences_of_two_designs_name_circuit_run_and_field():
    now = circuit(
        sound_job(),
        "C2",
        runs=(flat(2.5, 18.0), flat(1.5, 3.0)),
        outdoors=True,
        points=(Point(id="P1", at=18.0, name="Back"),),
    )
    found = [str(each) for each in differences(sound_job(), now)]

    assert "Circuit C2, run 2: not there → added" in found
    assert any(each.startswith("Circuit C2, ") and "no → yes" in each for each in found)
    assert any(each.startswith("Circuit C2, point Back, ") and "→ Back" in each for each in found)
    assert list(differences(sound_job(), sound_job())) == []
    assert {each.circuit for each in differences(sound_job(), now)} == {"C2"}


def test_points_and_bonds_are_called_by_their_names_where_they_have_one():
    board = SOUND.board.model_copy(update={"bonds": (Bond(id="B1", what="water pipe", csa=6.0),)})
    then = circuit(SOUND, "C2", points=(Point(id="P1", name="Desk", at=18.0),))
    then = then.model_copy(update={"board": board})
    now = circuit(then, "C2", points=(Point(id="P1", name="Desk", at=12.0),))
    bonds = (Bond(id="B1", what="water pipe", csa=10.0),)
    now = now.model_copy(update={"board": board.model_copy(update={"bonds": bonds})})

    found = [str(each) for each in differences(then, now)]
    assert any("point Desk" in each for each in found)
    assert any("bond water pipe" in each for each in found)
    assert not any("P1" in each or "B1" in each for each in found)
