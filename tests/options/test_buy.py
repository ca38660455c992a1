"""The list of what to buy: metres, devices, glands, boxes, and what can't be listed yet."""

from __future__ import annotations

from html import escape
from math import ceil
from pathlib import Path

import pytest

from records.demo import demo_record
from records.entering.buy_file import as_csv, as_file, as_page
from records.errors import BadText
from records.model.buying import Buying
from records.model.circuit import Point
from records.model.fabric import Box, Fixture, Spot
from records.model.outbuilding import Bond
from records.model.wiring import Rcd, Run
from records.options.buy import Sort, buy_list
from records.store.table_text import from_bytes
from records.terms import CableKind, Cpc, Method, OutbuildingEarth
from tests.judgement.jobs import SOUND, circuit


def items(record, sort, allowance=0.0):
    found = buy_list(record, allowance).items
    return {each.what: each.quantity for each in found if each.sort is sort}


@pytest.mark.parametrize("allowance", [0.0, 10.0, 25.0])
def test_every_metre_entered_is_on_the_list_with_the_allowance(allowance):
    """Sum by hand: 50 + 18 + 9 m of 2.5 mm², 25 m of 1.5 mm², 30 m of armoured and tape."""
    found = items(SOUND, Sort.CABLE, allowance)
    by_hand = {
        "2.5 mm² twin-and-earth": 77,
        "1.5 mm² twin-and-earth": 25,
        "3-core 10 mm² armoured (XLPE)": 30,
        "cable marker tape": 30,
    }

    assert found == {
        name: ceil(metres * (100 + allowance) / 100) for name, metres in by_hand.items()
    }


def test_a_separate_cpc_and_both_poles_of_single_cores_are_bought():
    run = Run(cable=CableKind.SINGLES, csa=10.0, cpc=Cpc.SEPARATE, cpc_csa=6.0, length=12.0)
    record = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": (run,)})})
    found = items(record, Sort.CABLE)

    assert found["10 mm² single core, line and neutral colours"] == 24
    assert found["6 mm² single core, green-and-yellow"] == 12


@pytest.mark.parametrize(
    ("cores", "csa", "size"),
    [
        (2, 6.0, "size 20S"),
        (3, 6.0, "size 20,"),
        (2, 10.0, "size 20,"),
        (3, 10.0, "size 20,"),
        (3, 16.0, "size 25"),
        (2, 35.0, "size 32"),
        (3, 35.0, "gland kit for"),
    ],
)
def test_an_armoured_run_has_a_gland_at_each_end_by_its_size(cores, csa, size):
    """Over the sheath: 15.9, 16.6, 18.0, 19.5, 21.6, 27.7 mm (HD 604 and makers' sheets, read);
    20S closes up to 15.9, 20 up to 20.9, 25 up to 26.2 mm (makers' tables, from memory)."""
    run = SOUND.feed.runs[0].model_copy(update={"cores": cores, "csa": csa})
    record = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": (run,)})})
    (item,) = (each for each in buy_list(record).items if each.sort is Sort.GLAND)

    assert item.quantity == 2
    assert size in item.what
    assert "maker's table" in item.note


def test_a_buried_run_has_marker_tape_and_a_duct_only_if_it_lies_in_one():
    run = SOUND.feed.runs[0].model_copy(update={"duct": True})
    record = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": (run,)})})
    clipped = run.model_copy(update={"method": Method.C})
    above = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": (clipped,)})})

    assert items(record, Sort.CABLE)["cable duct"] == 30
    assert items(record, Sort.CABLE)["cable marker tape"] == 30
    assert "cable duct" not in items(SOUND, Sort.CABLE)
    assert "cable marker tape" not in items(above, Sort.CABLE)


def test_the_board_has_ways_for_its_circuits_and_what_else_is_in_it():
    """Four circuits, a main switch of two modules; an RCD and surge protection of two each."""
    more = SOUND.board.model_copy(update={"surge_protection": True, "rcd": Rcd(residual=100.0)})

    assert items(SOUND, Sort.DEVICE)["board for at least 6 modules"] == 1
    assert (
        items(SOUND.model_copy(update={"board": more}), Sort.DEVICE)[
            "board for at least 10 modules"
        ]
        == 1
    )


def test_the_allowance_of_the_record_counts_unless_another_is_said():
    record = SOUND.model_copy(update={"buying": Buying(allowance=50.0)})

    assert buy_list(record).allowance == 50.0
    assert buy_list(record, 0.0).allowance == 0.0
    assert buy_list(SOUND).allowance == 10.0


EVIL = ("=cmd()", "+1+1", "-2", "@SUM(A1)", "<script>alert(1)</script>")


@pytest.mark.parametrize("name", EVIL)
def test_no_name_becomes_a_formula_or_markup(name):
    """A spreadsheet takes a cell that begins with = + - @ for a formula (OWASP: CSV injection)."""
    bond = Bond(id="B1", what=name, csa=10.0, length=4.0)
    board = SOUND.board.model_copy(
        update={"bonds": (bond,), "earth": OutbuildingEarth.OWN_ELECTRODE, "electrode": name}
    )
    fixture = Fixture(
        id="F1", name=name, spot=Spot(surface="S1", along=100.0, up=450.0, box=Box.JOINT)
    )
    fabric = SOUND.fabric.model_copy(update={"fixtures": (fixture,)})
    record = SOUND.model_copy(update={"board": board, "fabric": fabric})
    bought = buy_list(record)
    rows = from_bytes(as_csv(bought).encode()).rows

    assert any(name in cell for each in rows for cell in each.cells)
    for line in as_csv(bought).removeprefix("\ufeff").splitlines():
        for cell in line.strip('"').split('","'):
            assert not cell.startswith(("=", "+", "-", "@")), cell
    assert "<script" not in as_page(record, bought)


def test_the_page_has_each_line_and_what_is_not_listed_and_no_prices():
    bare = circuit(SOUND, "C2", runs=())
    page = as_page(bare, buy_list(bare))

    for item in buy_list(bare).items:
        assert escape(item.what) in page
    assert "C2: no run of cable is entered yet." in page
    assert "£" not in page


@pytest.mark.parametrize(
    ("job", "name"),
    [
        ({"reference": "LOOM-1", "place": "orchard"}, "LOOM-1"),
        ({"reference": "", "place": "orchard"}, "orchard"),
        ({"reference": "", "place": ""}, "the outbuilding"),
    ],
)
def test_the_page_says_what_it_is_for(job, name):
    record = SOUND.model_copy(update={"job": SOUND.job.model_copy(update=job)})

    assert f"<h1>To buy for {name}</h1>" in as_page(record, buy_list(record))


def test_the_sheet_has_its_head_and_a_full_row_for_what_is_not_listed_too():
    bare = circuit(SOUND, "C2", runs=())
    bought = buy_list(bare)
    rows = [each.cells for each in from_bytes(as_csv(bought).encode()).rows]

    assert {len(each) for each in rows} == {6}
    assert (
        as_csv(bought)
        .removeprefix("\ufeff")
        .startswith(
            ('"Sort","What","Quantity","Unit","For","Note"', "Sort,What,Quantity,Unit,For,Note")
        )
    )
    assert [each[1] for each in rows if each[0] == "not listed"] == list(bought.missing)
    page = as_page(bare, bought)
    for sort in {each.sort for each in bought.items}:
        assert f"<h2>{escape(sort.value)}</h2><table>" in page


@pytest.mark.parametrize("name", ["list.txt", "list", "list.docx"])
def test_another_ending_is_refused_with_what_would_be_right(name):
    with pytest.raises(BadText, match="end it in"):
        as_file(Path(name), SOUND, buy_list(SOUND))


def test_equal_devices_are_one_line_with_what_they_are_for():
    found = buy_list(demo_record()).items
    six = next(each for each in found if "RCBO type B, 6 A" in each.what)

    assert (six.quantity, six.uses) == (2, ("C3", "C4"))


def test_boxes_come_by_kind_from_the_places_that_there_are():
    spot = Spot(surface="S1", along=100.0, up=450.0, box=Box.TWO_GANG)
    points = (Point(id="P1", spot=spot), Point(id="P2", spot=spot), Point(id="P3"))

    assert items(circuit(SOUND, "C2", points=points), Sort.BOX) == {"two-gang box": 2}
    assert items(SOUND, Sort.BOX) == {}


def test_bonds_and_the_electrode_are_listed():
    board = SOUND.board.model_copy(
        update={
            "bonds": (Bond(id="B1", what="pipe", csa=10.0, length=4.0),),
            "earth": OutbuildingEarth.OWN_ELECTRODE,
            "electrode": "two rods, joined",
        }
    )
    record = SOUND.model_copy(update={"board": board})

    assert items(record, Sort.CABLE)["10 mm² single core, green-and-yellow"] == 4
    assert items(record, Sort.EARTH) == {
        "bonding clamp with its label": 1,
        "electrode: two rods, joined": 1,
    }


def test_what_is_not_entered_is_named_and_not_guessed():
    bare = circuit(SOUND, "C2", runs=(Run(cable=CableKind.FLAT, csa=2.5, cpc=Cpc.CORE),))
    found = buy_list(bare, 0.0)

    assert any("C2: the length" in each for each in found.missing)
    assert items(bare, Sort.CABLE)["2.5 mm² twin-and-earth"] == 59
    assert buy_list(SOUND).missing == ()
