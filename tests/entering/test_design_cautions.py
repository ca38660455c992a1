"""What must be told where the design is entered: with the choice that asks for it, and not before.

Grounds: BS 7671 (PME outdoors, TT, bonding) and HSE HSG47 (services), from memory.
"""

from __future__ import annotations

import pytest

from records.entering import design_cautions as cautions
from records.entering.asked import EDITION, job_asked, origin_asked
from records.entering.remark import Asked, Remark
from records.model.circuit import Circuit
from records.model.job import Duty, Job, Person
from records.model.outbuilding import Board
from records.model.record import Record
from records.model.supply import Ground, Origin
from records.terms import Earthing, OutbuildingEarth

OWN, EXPORTED = OutbuildingEarth.OWN_ELECTRODE, OutbuildingEarth.CARRIED_OVER


def job(
    earthing: Earthing | None = None,
    earth: OutbuildingEarth | None = None,
    *,
    metal: bool | None = None,
    outdoors: bool = False,
) -> Record:
    return Record(
        origin=Origin(earthing=earthing),
        board=Board(earth=earth, metal_in_ground=metal),
        circuits=(Circuit(id="C1", outdoors=outdoors),),
    )


def texts(found: object) -> list[str]:
    return [each.text for each in found if isinstance(each, Remark)]  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("earthing", "told"),
    [
        (None, []),
        (Earthing.TN_S, []),
        (Earthing.TN_C_S, [cautions.PME]),
        (Earthing.TT, [cautions.TT]),
    ],
)
def test_pme_and_tt_come_with_their_dangers_right_under_the_choice(
    earthing: Earthing | None, told: list[str]
) -> None:
    asked: list[Asked] = list(origin_asked(Origin(earthing=earthing)))

    assert texts(asked) == told
    if told:
        assert asked[0] == ("earthing",)
        assert asked[1] == Remark(told[0], urgent=True)


def test_a_typical_figure_is_no_reading_and_is_said_under_that_figure() -> None:
    asked = list(origin_asked(Origin(fault_current_ground=Ground.TYPICAL)))
    at = asked.index(Remark(cautions.TYPICAL, urgent=True))

    assert asked[at - 1] == ("fault_current", "fault_current_ground")
    assert texts(asked) == [cautions.TYPICAL]
    both = Origin(fault_current_ground=Ground.TYPICAL, ze_ground=Ground.TYPICAL)
    assert texts(origin_asked(both)) == [cautions.TYPICAL] * 2
    assert texts(origin_asked(Origin(ze_ground=Ground.MEASURED))) == []


@pytest.mark.parametrize(
    ("record", "told"),
    [
        (job(Earthing.TN_C_S, EXPORTED), []),
        (job(Earthing.TN_C_S, EXPORTED, metal=True), [cautions.PME_OUTDOORS]),
        (job(Earthing.TN_C_S, EXPORTED, metal=False), []),
        (job(Earthing.TN_C_S, None, outdoors=True), [cautions.PME_OUTDOORS]),
        (job(Earthing.TN_S, EXPORTED, metal=True, outdoors=True), []),
        (job(None, EXPORTED, metal=True), []),
    ],
)
def test_pme_that_reaches_the_ground_or_the_open_is_for_the_certifier(
    record: Record, told: list[str]
) -> None:
    assert texts(cautions.of_earth(record)) == told


def test_an_electrode_keeps_the_two_earths_apart_and_is_driven_where_nothing_lies() -> None:
    for earthing in (None, *Earthing):
        island, services = cautions.of_earth(job(earthing, OWN, metal=True, outdoors=True))

        assert island == Remark(cautions.ISLAND, urgent=True)
        assert services.urgent
        assert "asbestos" in services.text


def test_a_circuit_outdoors_on_pme_says_so_on_its_own_page() -> None:
    for earthing in (None, *Earthing):
        for outdoors in (False, True):
            record = job(earthing, outdoors=outdoors)
            found = texts(cautions.of_circuit(record, record.circuits[0]))

            wanted = earthing is Earthing.TN_C_S and outdoors
            assert found == ([cautions.PME_OUTDOORS] if wanted else [])


def test_bonding_is_told_where_there_is_metal_in_the_ground() -> None:
    assert texts(cautions.of_bonds(job(metal=True))) == [cautions.BONDS]
    assert texts(cautions.of_bonds(job(metal=None))) == []


def test_the_feed_always_says_whose_the_house_board_is_and_what_lies_in_the_ground() -> None:
    house, services = cautions.of_feed()

    assert house.urgent
    assert "certifier's" in house.text
    assert "plans, locator" in services.text


@pytest.mark.parametrize(
    ("people", "urgent"),
    [
        ((), True),
        ((Person(id="P1", name="Ash Reed", duty=Duty.INSTALLS),), True),
        ((Person(id="P1", name="", duty=Duty.CERTIFIES),), True),
        ((Person(id="P1", name="Ash Reed", duty=Duty.CERTIFIES),), False),
    ],
)
def test_notifying_first_is_urgent_until_somebody_is_named_who_certifies(
    people: tuple[Person, ...], urgent: bool
) -> None:
    record = Record(job=Job(people=people))
    found = [each for each in job_asked(record) if isinstance(each, Remark)]

    assert Remark(cautions.NOTIFY, urgent=urgent) in found


def test_another_edition_than_ours_is_a_caution() -> None:
    def edition(text: str) -> list[Remark]:
        found = job_asked(Record(job=Job(edition=text)))
        return [each for each in found if isinstance(each, Remark) and each.text == EDITION]

    assert edition(Job().edition) == [Remark(EDITION)]
    assert edition("BS 7671:2008") == [Remark(EDITION, urgent=True)]


@pytest.mark.parametrize(("volts", "told"), [(230.0, 0), (240.0, 1), (400.0, 1), (0.3, 1)])
def test_a_voltage_that_no_public_supply_has_is_spoken_of_under_its_field(
    volts: float, told: int
) -> None:
    asked: list[Asked] = list(origin_asked(Origin(u0=volts)))

    assert len(texts(asked)) == told
    if told:
        assert isinstance(asked[asked.index(("u0",)) + 1], Remark)
