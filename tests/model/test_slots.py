"""Which readings a job needs follows from its design, and from nothing else."""

from __future__ import annotations

import pytest

from records.demo import demo_record
from records.model.circuit import Circuit, Point
from records.model.outbuilding import Board, Bond, Feed
from records.model.reading import Place, Quantity, Slot
from records.model.record import Record
from records.model.slots import measured_by, slots, title
from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, Form, OutbuildingEarth, Part, Stage, Use

C1 = Place(part=Part.CIRCUIT, circuit="C1")


def _quantities(record: Record, place: Place = C1, stage: Stage | None = None) -> list[Quantity]:
    return [each.quantity for each in slots(record, stage) if each.place == place]


def _one(**design) -> Record:
    return Record(circuits=(Circuit(id="C1", **design),))


def test_a_ring_needs_its_ends_and_no_r1_plus_r2():
    found = _quantities(_one(form=Form.RING))

    assert {Quantity.R1, Quantity.RN, Quantity.R2} <= set(found)
    assert Quantity.R1_R2 not in found


@pytest.mark.parametrize("form", [Form.RADIAL, Form.FCU])
def test_a_radial_needs_r1_plus_r2_and_no_ends(form):
    found = _quantities(_one(form=form))

    assert Quantity.R1_R2 in found
    assert not {Quantity.R1, Quantity.RN, Quantity.R2, Quantity.CROSS_LN} & set(found)


def test_a_ring_is_read_crossed_at_each_of_its_points_in_the_order_given():
    points = (Point(id="P2", at=9.0), Point(id="P1", at=3.0))
    record = _one(form=Form.RING, points=points)
    crossed = [each.place.point for each in slots(record) if each.quantity is Quantity.CROSS_LE]

    assert crossed == ["P2", "P1"]


def test_a_circuit_whose_arrangement_is_not_yet_known_still_asks_for_continuity():
    """Else it could go live without any (BS 7671, 643.2, from memory)."""
    found = _quantities(_one())

    assert Quantity.R1 not in found
    assert Quantity.R1_R2 in found
    assert Quantity.IR_LN in found


@pytest.mark.parametrize(
    ("design", "needed"),
    [
        ({"device": Device(kind=DeviceKind.RCBO_B)}, True),
        ({"device": Device(kind=DeviceKind.BREAKER_B), "rcd": Rcd(residual=30.0)}, True),
        ({"device": Device(kind=DeviceKind.BREAKER_B)}, False),
        ({"device": Device(kind=DeviceKind.BS_3036)}, False),
        ({}, False),
    ],
)
def test_an_rcd_is_timed_and_its_button_pressed_where_there_is_one(design, needed):
    found = _quantities(_one(form=Form.RADIAL, **design))

    assert (Quantity.RCD_TIME in found) is needed
    assert (Quantity.RCD_BUTTON in found) is needed


def test_rcds_of_the_feed_and_the_board_are_timed_as_well():
    record = Record(
        feed=Feed(rcd=Rcd(residual=100.0, delayed=True)), board=Board(rcd=Rcd(residual=30.0))
    )
    timed = {each.place.part for each in slots(record) if each.quantity is Quantity.RCD_TIME}

    assert timed == {Part.FEED, Part.BOARD}


def test_an_outbuilding_with_its_own_electrode_needs_ra_and_no_cpc_along_the_feed():
    own = Record(board=Board(earth=OutbuildingEarth.OWN_ELECTRODE))
    carried = Record(board=Board(earth=OutbuildingEarth.CARRIED_OVER))
    feed, board = Place(part=Part.FEED), Place(part=Part.BOARD)

    assert Quantity.ELECTRODE in _quantities(own, board)
    assert Quantity.R1_R2 not in _quantities(own, feed)
    assert Quantity.ELECTRODE not in _quantities(carried, board)
    assert Quantity.R1_R2 in _quantities(carried, feed)


def test_each_bond_is_read_on_its_own():
    record = Record(board=Board(bonds=(Bond(id="B1"), Bond(id="B2"))))
    read = [each.place.point for each in slots(record) if each.quantity is Quantity.BONDING]

    assert read == ["B1", "B2"]


def test_surge_protection_is_asked_back_only_where_it_is_fitted():
    board = Place(part=Part.BOARD)

    assert Quantity.SURGE in _quantities(Record(board=Board(surge_protection=True)), board)
    assert Quantity.SURGE not in _quantities(Record(board=Board(surge_protection=False)), board)
    assert Quantity.SURGE not in _quantities(Record(), board)


@pytest.mark.parametrize(
    ("use", "needed"), [(Use.LIGHTING, True), (Use.FIXED, True), (Use.SOCKETS, False)]
)
def test_what_is_switched_is_tried_out(use, needed):
    assert (Quantity.FUNCTION in _quantities(_one(use=use))) is needed


def test_each_stage_has_its_own_slots_and_all_of_them_are_the_whole():
    demo = demo_record()
    by_stage = [each for stage in Stage for each in slots(demo, stage)]

    assert tuple(by_stage) == slots(demo)
    assert len(set(by_stage)) == len(by_stage)
    assert all(each.stage is Stage.DEAD for each in slots(demo, Stage.DEAD))


def test_nothing_live_is_read_before_covering():
    early = {each.quantity for each in slots(demo_record(), Stage.BEFORE_COVERING)}

    assert early == {
        Quantity.R1_R2,
        Quantity.R1,
        Quantity.RN,
        Quantity.R2,
        Quantity.IR_LN,
        Quantity.IR_LE,
        Quantity.IR_NE,
    }


def test_readings_change_nothing_about_what_is_needed():
    """But for Ze that is known, and was read all the same: its earth has to be shown back."""
    demo = demo_record()
    blank = demo.model_copy(update={"readings": ()})
    back = {each for each in slots(demo) if each.quantity is Quantity.EARTH_BACK}

    assert set(slots(blank)) | back == set(slots(demo))


def test_every_slot_is_in_the_catalogue_and_belongs_to_the_record():
    demo = demo_record()
    for each in slots(demo):
        assert each.stage in measured_by(each).stages
        assert title(demo, each.place)


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(part=Part.ORIGIN), "Origin"),
        (Place(part=Part.BOARD), "Board"),
        (Place(part=Part.BOARD, point="B1"), "Board, Steel rail under the looms, set into the gr"),
        (Place(part=Part.CIRCUIT, circuit="C2"), "C2 Bench sockets"),
        (Place(part=Part.CIRCUIT, circuit="C1", point="P5"), "C1 Socket ring round the shed, S5"),
    ],
)
def test_a_place_is_called_as_people_call_it(place, words):
    assert title(demo_record(), place).startswith(words)


def test_a_point_without_a_name_is_called_by_its_id():
    record = _one(form=Form.RING, points=(Point(id="P1"),))
    slot = Slot(
        quantity=Quantity.CROSS_LN,
        place=Place(part=Part.CIRCUIT, circuit="C1", point="P1"),
        stage=Stage.DEAD,
    )

    assert title(record, slot.place) == "C1, P1"
