"""What work asks for: each kind names the tests that it can have touched, in whatever part.

Ground: BS 7671:2018, Regulation 643.1 (from memory). The rows are common practice.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.model.outbuilding import Bond
from records.model.reading import Quantity, Remedy, Slot
from records.model.record import Record
from records.terms import Cpc, Part, Stage, Verdict, WorkKind
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    START,
    at,
    line,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    zs,
)

Q = Quantity
LIVE, DEAD, EARLY = Stage.LIVE, Stage.DEAD, Stage.BEFORE_COVERING
INSULATION = {Q.IR_LN, Q.IR_LE, Q.IR_NE}
ENDS = {Q.R1, Q.RN, Q.R2}
CROSSED = {Q.CROSS_LN, Q.CROSS_LE}
ARMOURED = SOUND.model_copy(
    update={
        "feed": SOUND.feed.model_copy(
            update={"runs": (SOUND.feed.runs[0].model_copy(update={"cpc": Cpc.CORE_AND_ARMOUR}),)}
        ),
        "board": SOUND.board.model_copy(
            update={
                "rcd": SOUND.circuits[0].rcd.model_copy(update={"residual": 100.0}),
                "bonds": (
                    Bond(id="B1", what="pipe", csa=10.0, length=3.0),
                    Bond(id="B2", what="frame", csa=10.0, length=3.0),
                ),
            }
        ),
    }
)


def worked(
    record: Record,
    finding: str,
    kind: WorkKind | None,
    minutes: float = 900,
    about: tuple[Slot, ...] = (),
) -> Record:
    remedy = Remedy(
        id=f"X{len(record.remedies) + 1}",
        finding=finding,
        done="made good",
        kind=kind,
        at=START + timedelta(minutes=minutes),
        about=about,
    )
    return record.model_copy(update={"remedies": (*record.remedies, remedy)})


def asked(record: Record) -> dict[str, set[Q]]:
    """Return what is to be repeated by part or circuit."""
    found: dict[str, set[Q]] = {}
    for each in reviewed(record).findings:
        if each.key.endswith("/earlier tests again"):
            for slot in each.about:
                found.setdefault(slot.place.circuit or slot.place.part.value, set()).add(
                    slot.quantity
                )
    return found


RING = "circuit/C1/-/dead/r1"
RADIAL = "circuit/C2/-/dead/ir-le"
LAMPS = "circuit/C3/-/live/function"
FEED = "feed/-/-/dead/ir-le"
BOARD = "board/-/-/live/Zdb"
ORIGIN = "origin/-/-/live/Ze"


@pytest.mark.parametrize(
    ("finding", "kind", "wanted"),
    [
        (RADIAL, WorkKind.DEVICE, {"C2": {Q.POLARITY, Q.ZS, Q.RCD_TIME, Q.RCD_BUTTON}}),
        (RADIAL, WorkKind.JOINT, {"C2": {Q.R1_R2, *INSULATION - {Q.IR_LE}, Q.POLARITY, Q.ZS}}),
        (RADIAL, WorkKind.CABLE, {"C2": {Q.R1_R2, *INSULATION - {Q.IR_LE}, Q.POLARITY, Q.ZS}}),
        (LAMPS, WorkKind.POINT, {"C3": {Q.R1_R2, *INSULATION, Q.POLARITY, Q.ZS}}),
        (RADIAL, WorkKind.EARTH, {"C2": {Q.R1_R2, Q.ZS}}),
        (RADIAL, WorkKind.MISREAD, {}),
        (RADIAL, WorkKind.OTHER, {"C2": {Q.R1_R2, Q.IR_LN}}),
        (RING, WorkKind.DEVICE, {"C1": {Q.POLARITY, Q.ZS, Q.RCD_TIME, Q.RCD_BUTTON}}),
        (RING, WorkKind.JOINT, {"C1": {*ENDS - {Q.R1}, *CROSSED, *INSULATION, Q.POLARITY, Q.ZS}}),
        (RING, WorkKind.CABLE, {"C1": {*ENDS - {Q.R1}, *CROSSED, *INSULATION, Q.POLARITY, Q.ZS}}),
        (RING, WorkKind.POINT, {"C1": {*ENDS - {Q.R1}, *CROSSED, *INSULATION, Q.POLARITY, Q.ZS}}),
        (RING, WorkKind.EARTH, {"C1": {Q.R2, Q.CROSS_LE, Q.ZS}}),
        (FEED, WorkKind.DEVICE, {"board": {Q.POLARITY, Q.ZDB}}),
        (
            FEED,
            WorkKind.JOINT,
            {
                "feed": {Q.R1_R2, Q.R1_R2_ARMOUR, Q.GLAND, *INSULATION - {Q.IR_LE}},
                "board": {Q.EARTHING, Q.POLARITY, Q.ZDB},
            },
        ),
        (
            FEED,
            WorkKind.CABLE,
            {
                "feed": {Q.R1_R2, Q.R1_R2_ARMOUR, Q.GLAND, *INSULATION - {Q.IR_LE}},
                "board": {Q.EARTHING, Q.POLARITY, Q.ZDB, Q.FAULT_LN, Q.FAULT_LE},
            },
        ),
        (
            FEED,
            WorkKind.POINT,
            {
                "feed": {Q.R1_R2, Q.R1_R2_ARMOUR, Q.GLAND, *INSULATION - {Q.IR_LE}},
                "board": {Q.EARTHING, Q.POLARITY, Q.ZDB, Q.FAULT_LN, Q.FAULT_LE},
            },
        ),
        (
            FEED,
            WorkKind.EARTH,
            {"feed": {Q.R1_R2, Q.R1_R2_ARMOUR, Q.GLAND}, "board": {Q.EARTHING, Q.ZDB}},
        ),
        (
            BOARD,
            WorkKind.DEVICE,
            {
                "board": {Q.POLARITY, Q.RCD_TIME, Q.RCD_BUTTON},
                "C1": {Q.ZS},
                "C2": {Q.ZS},
                "C3": {Q.ZS},
                "C4": {Q.ZS},
            },
        ),
        (
            BOARD,
            WorkKind.JOINT,
            {
                "feed": {Q.R1_R2, Q.R1_R2_ARMOUR, Q.GLAND, *INSULATION},
                "board": {Q.EARTHING, Q.POLARITY},
            },
        ),
        (
            BOARD,
            WorkKind.EARTH,
            {"feed": {Q.R1_R2, Q.R1_R2_ARMOUR, Q.GLAND}, "board": {Q.EARTHING, Q.BONDING}},
        ),
        (ORIGIN, WorkKind.EARTH, {"origin": {Q.EARTH_BACK}, "board": {Q.EARTHING, Q.ZDB}}),
        (ORIGIN, WorkKind.DEVICE, {"board": {Q.POLARITY, Q.ZDB}}),
    ],
)
def test_each_kind_of_work_names_what_it_can_have_touched_and_nothing_else(finding, kind, wanted):
    """BS 7671, Regulation 643.1 (from memory); the rows are common practice."""
    extra = (
        read(800, at(Q.R1_R2_ARMOUR, part=Part.FEED), 0.1, 800),
        read(801, at(Q.GLAND, part=Part.FEED), 0.02, 801),
    )
    record = spoilt(*extra, record=sound_job(ARMOURED))

    assert asked(worked(record, finding, kind)) == wanted


def test_what_was_repeated_after_the_work_is_asked_for_no_more():
    record = worked(sound_job(), RADIAL, WorkKind.DEVICE)
    good = {each.slot: each.taken for each in sound_job().readings}
    due = line(record, "/earlier tests again").about
    for number, slot in enumerate(due):
        record = spoilt(read(900 + number, slot, good[slot], 901 + number), record=record)
        assert slot not in {s for q in [asked(record)] for s in q.get("C2", set())}

    assert not asked(record)


@pytest.mark.parametrize(("minutes", "again"), [(899, True), (900, True), (901, False)])
def test_a_test_counts_only_if_it_came_after_the_work(minutes, again):
    record = worked(sound_job(), RADIAL, WorkKind.EARTH)
    record = spoilt(
        read(900, zs("C2"), own(record, zs("C2")).attempts[0].taken, minutes), record=record
    )

    assert (Q.ZS in asked(record).get("C2", set())) is again


def test_at_a_point_of_a_ring_only_that_point_is_crossed_again():
    record = worked(sound_job(), "circuit/C1/P3/dead/cross-ln", WorkKind.POINT)
    crossed = [
        slot for slot in line(record, "/earlier tests again").about if slot.quantity in CROSSED
    ]

    assert {slot.place.point for slot in crossed} == {"P3"}


def test_at_one_bond_only_that_bond_is_read_again():
    record = worked(sound_job(ARMOURED), "board/-/B2/dead/bonding", WorkKind.EARTH)
    assert asked(record) == {}
    bonds = [
        slot
        for each in reviewed(record).findings
        for slot in each.about
        if slot.quantity is Q.BONDING
    ]

    assert bonds == []  # its own reading asks for itself, and B1 was not touched


def test_the_electrode_is_read_again_when_its_earth_was_touched():
    record = worked(sound_job(ISLAND), BOARD, WorkKind.EARTH)

    assert Q.ELECTRODE in asked(record)["board"]


def test_work_at_first_fix_asks_for_what_was_read_at_first_fix():
    only = tuple(each for each in sound_job().readings if each.slot.stage is EARLY)
    record = sound_job().model_copy(update={"readings": only})
    record = worked(record, "circuit/C2/-/before-covering/ir-le", WorkKind.CABLE)

    found = line(record, "/earlier tests again").about
    assert {slot.stage for slot in found} == {EARLY}
    assert {slot.quantity for slot in found} == {Q.R1_R2, Q.IR_LN, Q.IR_NE}


def test_what_was_never_taken_is_missing_and_not_to_be_repeated():
    record = sound_job().model_copy(update={"readings": ()})

    assert not asked(worked(record, RADIAL, WorkKind.CABLE))


def test_two_works_on_one_circuit_ask_for_each_test_once():
    record = worked(worked(sound_job(), RADIAL, WorkKind.CABLE), RADIAL, WorkKind.DEVICE, 950)
    slots = [
        slot
        for each in reviewed(record).findings
        if each.key.endswith("tests again")
        for slot in each.about
    ]

    assert len(slots) == len(set(slots))


def test_cable_work_about_several_circuits_was_done_on_those():
    """A finding across circuits stands at the board; the feed was not touched by it."""
    key = "board/-/-/dead/readings swapped"
    about = (at(Q.R1_R2, "C2"), at(Q.R1_R2, "C3"))
    record = worked(sound_job(), key, WorkKind.CABLE, about=about)

    assert set(asked(record)) == {"C2", "C3"}
    other = worked(sound_job(), key, WorkKind.OTHER, about=about)
    assert set(asked(other)) == {"C2", "C3"}


def test_nothing_is_asked_about_a_circuit_that_is_gone_or_a_key_that_names_nothing():
    for key in ("circuit/C9/-/dead/R1+R2", "nonsense", ""):
        assert not asked(worked(sound_job(), key, WorkKind.CABLE))


def test_passing_on_is_no_work():
    remedy = Remedy(
        id="X1",
        finding=RADIAL,
        done="decide",
        kind=WorkKind.CABLE,
        to_decide=True,
        at=START + timedelta(minutes=900),
    )

    assert not asked(sound_job().model_copy(update={"remedies": (remedy,)}))


def test_a_kind_of_work_is_said_with_what_was_done():
    found = line(worked(sound_job(), FEED, WorkKind.JOINT), "/earlier tests again")

    assert "gland or joint remade: made good" in found.why
    assert "Feed: R1+R2" in found.why
    assert "Board: " in found.why
    assert "643.1" in str(found.source)
    assert found.verdict is Verdict.NOT_TAKEN


def test_each_kind_has_words_and_a_code_that_stays():
    """What is stored never changes; what is shown may."""
    assert [each.code for each in WorkKind] == [
        "device",
        "joint",
        "cable",
        "point",
        "earth",
        "other",
        "misread",
    ]
    assert len({each.words for each in WorkKind}) == len(WorkKind)


@pytest.mark.parametrize(
    ("minutes", "told"), [(898, False), (899, True), (909, True), (910, False)]
)
def test_work_on_one_thing_explains_what_else_it_touched(minutes, told):
    """A gland that was remade: the feed's R1+R2 was bad by it, and is good since."""
    run = at(Q.R1_R2, part=Part.FEED)
    good = sound_job().taken(run)[0].taken
    record = spoilt(read(899, run, 3.0, 899), read(900, run, good, 910))
    record = worked(record, "feed/-/-/dead/ir-ln", WorkKind.JOINT, minutes)
    asked = [each.key for each in reviewed(record).findings if each.key.endswith("what was done")]

    assert (not asked) is told
