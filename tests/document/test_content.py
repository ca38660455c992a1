"""What a certifier finds in a schedule, read back from the finished document."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
from docx.document import Document as Doc
from docx.table import Table

from records.demo import demo_record
from records.document.as_built import origin
from records.document.filling import filled
from records.document.front import state
from records.document.household import hidden as hidden_cables
from records.document.package import TEMPLATE
from records.document.people import live_gate
from records.document.schedule import schedule_bytes
from records.document.words import Clock
from records.judgement.review_types import Review
from records.judgement.todo.standing import Standing, State
from records.model.reading import LiveGate, Quantity
from records.model.record import Record
from records.model.supply import Origin
from records.terms import Step
from tests.document import job
from tests.document.reading_back import margins, opened, table, text, words

LOG = "Every reading"
LACKS = "2 readings missing, 3 entries missing, 3 findings open"


@pytest.fixture(scope="module")
def schedule() -> Doc:
    return opened(filled(TEMPLATE.read_bytes(), job.filled_context(), job.MADE, own=True))


def _made(record: Record) -> Doc:
    return opened(filled(TEMPLATE.read_bytes(), job.filled_context(record), job.MADE, own=True))


def _log(schedule: Doc, what: str) -> list[list[str]]:
    return [each for each in table(schedule, LOG) if each[0] == what]


def test_each_page_says_what_is_missing_what_it_is_and_from_which_record(schedule: Doc):
    for margin in margins(schedule):
        assert margin.startswith(f"INCOMPLETE: {LACKS} · SHED-7")
        assert "not a certificate" in margin
        assert job.FINGERPRINT in margin
        assert "limits of BS 7671:2018+A2:2022" in margin
        assert "prove dead" in margin


def test_each_head_counts_its_pages_by_fields(schedule: Doc):
    for section in schedule.sections:
        found = re.findall(r"<w:instrText[^>]*> (\w+) <", section.header._element.xml)
        assert found == ["PAGE", "NUMPAGES"]


def test_the_edition_of_the_limits_is_named(schedule: Doc):
    assert "The limits are those of BS 7671:2018+A2:2022, whatever edition" in text(schedule)


def test_front_names_people_with_their_part_and_instruments(schedule: Doc):
    printed = text(schedule)
    assert (
        "The installer (wires, tests and records); "
        "The certifying electrician (inspects, tests and certifies)"
    ) in printed
    assert table(schedule, "Meters that the readings were taken with")[1] == [
        "M1",
        "multifunction tester",
        "1234",
        "3 Nov 2025",
        "3 Nov 2026",
        "not given: the most that EN 61557 allows",
        "0.05 Ω, nulled",
    ]


def test_page_one_lists_findings_with_reading_limit_and_what_is_asked(schedule: Doc):
    lines = table(schedule, "Findings and what they ask")[1:]

    assert [each[0] for each in lines] == ["F1", "F2", "F3"]
    assert lines[0][1] == "✗ outside: Zs"
    assert lines[0][2] == "C1 Sockets [/] [ring]: 1.52 Ω, limit at most 1.37 Ω"
    assert lines[0][3].startswith("Don’t sign for it as it is.")
    assert lines[1][3] == "Don’t rely on it. Take it yourself."


def test_page_one_names_each_gap_by_circuit(schedule: Doc):
    missing = {each[0]: each[1:] for each in table(schedule, "What is missing")[1:]}

    assert missing["C1 Sockets [/] [ring]"] == [
        "1",
        "Dead: Ring final circuit: cross-connected L-N: S2 bench.",
    ]
    assert missing["Origin"] == [
        "1",
        "Live: Ze: external earth fault loop impedance, could not be taken: intake locked.",
    ]


def test_what_was_built_is_there_with_units_and_blanks_are_named(schedule: Doc):
    facts = dict(table(schedule, "Origin, feed, board and earthing"))
    assert "design Ze 0.35 Ω, typical maximum, not yet confirmed" in facts["Supply"]
    assert "main (cut-out) fuse not given" in facts["Supply"]
    assert facts["Feed 1"].startswith(
        "Trench under the lawn: steel-wire armoured, XLPE 90 °C, 10 mm², 3 cores, 38.5 m; "
        "cpc: a core and the armour together (as made); method D"
    )
    assert "Water pipe 10 mm², 4 m" in facts["Bonding"]
    (number, circuit, cable, device), (points,) = table(schedule, "Circuits as built")[1:3]
    assert number == "C1"
    assert circuit == "Sockets [/] [ring]"
    assert points.startswith("sockets, ring, load not given")
    assert "concealed less than 50 mm deep: yes" in points
    assert points.endswith(". Points: by the door (4 m); bench (12.5 m, spur of 2 m)")
    assert cable.startswith("2.5 mm², 41 m, flat twin-and-earth, 70 °C, cpc: a core of the cable")
    assert device == "RCBO type B, 32 A, breaks 6 kA\nRCD: 30 mA in the RCBO, type A"


def test_an_rcd_nobody_was_asked_about_is_not_given_rather_than_none(schedule: Doc):
    facts = dict(table(schedule, "Origin, feed, board and earthing"))

    assert "RCD: not given" in facts["Feed"]
    assert "RCD: not given" in facts["Sub-board"]
    assert "RCD none" not in text(schedule)
    assert "RCD: none" not in text(schedule)


def test_one_line_a_circuit_has_the_last_readings_with_their_marks(schedule: Doc):
    dead, live = (table(schedule, f"{each} tests: last standing")[1] for each in ("Dead", "Live"))

    assert dead == [
        "C1",
        "Sockets [/] [ring]",
        "–",
        "–",
        "–",
        "–",
        "–",
        "> 999 ²⁾",
        "–",
        "correct",
    ]
    assert live[2:4] == ["1.52 F1 F2", "1.37"]


def test_a_figure_that_follows_from_a_failed_reading_carries_its_marks(schedule: Doc):
    ring = next(each for each in table(schedule, "Calculated from the design") if each[0] == "C1")

    assert ring[4] == "1.52 F1 F2"


def test_a_reading_stands_in_one_row_with_expectation_limit_and_verdict(schedule: Doc):
    (row,) = _log(schedule, "Zs")

    assert re.fullmatch(r"0\.91 Ω W\d+", row[1])
    assert re.fullmatch(r"≤ 1\.37 Ω \[\d+\]", row[2])
    assert row[4] == "1.52 Ω ✗ F1 F2"
    assert "; Zs: no-trip" in text(schedule)
    (group,) = (each for each in table(schedule, LOG) if each[0].startswith("C1 Sockets"))
    assert group == [
        "C1 Sockets [/] [ring]\nDead 14 Mar 10:00 to 15:30, by TI, with M1; live 15 Mar 10:00, by "
        "TI, with M1, from notes, entered 16 Mar 2026 20:00."
    ]


def test_a_first_bad_reading_stays_beside_its_retest(schedule: Doc):
    lines = table(schedule, LOG)
    (first,) = (each for each in lines if each[0] == "Insulation L-E" and "0.40" in each[4])
    second = lines[lines.index(first) + 1]

    assert first[4] == "0.40 MΩ ✗"
    assert second[0].strip() == "retest 15:00; typed “>999M”; driver out"
    assert second[4] == "> 999 MΩ ✓"
    assert "Unless noted: insulation tested at 500 V d.c." in text(schedule)


def test_a_blank_is_never_a_pass(schedule: Doc):
    (row,) = _log(schedule, "Cross-connected L-cpc, S2 bench")

    assert row[3:] == ["", "· not taken"]


def test_over_range_not_taken_and_not_needed_keep_their_reasons(schedule: Doc):
    lines = table(schedule, LOG)
    (ze,) = _log(schedule, "Ze")
    assert ze[4].startswith("could not be taken ·")
    assert lines[lines.index(ze) + 1] == ["intake locked"]
    assert table(schedule, "Not needed, and why")[1] == [
        "Board",
        "Surge protection: its flag shows good",
        "fitted in the house board",
    ]


def test_a_reading_that_the_design_no_longer_asks_for_stays_on_paper():
    """A reading never goes; that nobody judges it any more is said instead of a verdict."""
    ring = job.record()
    old = ring.readings[-1].model_copy(
        update={"id": "R9", "slot": job.ZS.model_copy(update={"quantity": Quantity.R1_R2})}
    )
    document = _made(ring.model_copy(update={"readings": (*ring.readings, old)}))
    (row,) = (each for each in _log(document, "R1+R2") if "1.52" in each[4])

    assert row[4] == "1.52 Ω no longer asked for"


def test_findings_stand_worst_first_each_with_room_for_the_certifier(schedule: Doc):
    said = [words(each._p) for each in schedule.paragraphs]
    found = [each for each in said if re.match(r"F\d  ", each)]

    assert len(found) == 3
    assert found[0] == (
        "F1  ✗ outside: Zs at the furthest point (earth fault loop impedance) "
        "(C1 Sockets [/] [ring])"
    )
    assert found[2].startswith("F3  ! near limit")
    first = next(
        lines
        for each in schedule.tables
        if (lines := dict(_pairs(each))).get("Likely cause", "").startswith("a loose cpc")
    )
    assert first["Why"].startswith("1.52 Ω is over the 1.37 Ω of the table.")
    assert first["Likely cause"] == "a loose cpc; a longer run than entered"
    assert first["Do next"] == "Take R1+R2 again at the far point."
    assert "What was done" not in first
    assert "Where nothing is said of work done, none was done yet." in said
    assert first["Your decision"].strip() == ""


def _pairs(each: Table) -> list[tuple[str, str]]:
    rows = [[words(cell) for cell in row._tr.tc_lst] for row in each.rows]
    return [(row[0], row[1]) for row in rows if len(row) > 1]


def test_what_was_put_right_shows_the_remedy_and_all_readings(schedule: Doc):
    (row,) = table(schedule, "Put right")[1:]

    assert row[2] == "14 Mar 2026 14:00, The installer: Lamp driver taken out"
    assert row[1].startswith("found 0.40 MΩ (M1")
    assert ": ✗ outside" in row[1]
    assert "; > 999 MΩ (M1" in row[1]
    assert row[3] == "✓ within"


def test_design_figures_carry_marks_and_say_what_was_not_calculated(schedule: Doc):
    feed, ring = table(schedule, "Calculated from the design")[1:]

    assert feed[2] == "3.9 F3 / –"
    assert ring[1].endswith(" / – N1")
    assert "N1  no rating for this method in the table (Circuits, C1)." in text(schedule)


def test_each_working_of_what_is_in_doubt_shows_formula_values_result_and_sources(schedule: Doc):
    lines = [each for each in table(schedule, "Workings") if len(each) > 1]
    (line,) = (each for each in lines if "0.5 + 0.41" in each[2])

    assert line[2].startswith("Zs = Zdb + (R1+R2) → 0.5 + 0.41")
    assert line[1].endswith("F1 F2")
    assert line[3] == "0.91 Ω"
    assert f"{line[4]}  IET Guidance Note 3, loop impedance (from memory)" in text(schedule)


def test_each_reference_to_a_source_is_in_the_list_in_the_order_of_use(schedule: Doc):
    printed = text(schedule)
    listed = re.findall(r"^\[(\d+)\]  ", printed, re.MULTILINE)

    assert set(re.findall(r"\[(\d+)\]", printed)) == set(listed)
    assert listed == [str(at) for at in range(1, len(listed) + 1)]


def test_counts_of_verdicts_stand_on_the_front(schedule: Doc):
    strip = [
        [words(each._p) for each in cell.paragraphs] for cell in schedule.tables[0].rows[0].cells
    ]

    assert strip == [
        ["INCOMPLETE", LACKS],
        ["1", "✗ outside"],
        ["1", "? unlikely"],
        ["1", "! near limit"],
        ["2", "✓ within"],
        ["1", "put right"],
    ]


def test_going_on_in_spite_of_a_dead_test_is_on_page_one(schedule: Doc):
    printed = text(schedule)
    said = "Went on in spite of: Ring final circuit: cross-connected L-N at S2 not taken."

    assert said in printed
    assert printed.index(said) < printed.index("2  As built\n“Not given”")


def test_one_answer_given_in_several_sessions_is_printed_once_with_each_time() -> None:
    gates = [
        LiveGate(
            at=datetime(2026, 11, day, 9, 30, tzinfo=UTC),
            isolation_understood=True,
            despite=(open_,),
        )
        for day, open_ in ((17, "· C1 not taken."), (18, "· C1 not taken."), (19, "✗ C2 wet."))
    ]
    record = Record().model_copy(update={"live_gate": tuple(gates)})
    lines = live_gate(record, Clock(record, job.MADE))

    assert len(lines) == 2
    assert [day in lines[0] for day in ("17 Nov 2026", "18 Nov 2026", "19 Nov 2026")] == [
        True,
        True,
        False,
    ]
    assert lines[1].endswith("Went on in spite of: C2 wet.")


def test_the_supply_neutral_is_printed_as_it_sets_the_size_of_bonding() -> None:
    assert origin(Record(origin=Origin(neutral_csa=25.0)))["neutral"] == "25 mm²"


def test_the_usual_cautions_are_there(schedule: Doc):
    """Common practice of the trade: safe isolation, live work, 500 V, PME, open cpc, RCD tests."""
    printed = text(schedule)

    for each in (
        "prove dead at the place of work",
        "Live testing is live work",
        "500 V on the conductors",
        "PME (TN-C-S) outdoors",
        "open protective conductor",
        "An RCD test takes the supply away",
        "Local rules and the certifier’s word come before",
    ):
        assert each in printed


def test_no_name_is_filled_in_for_a_signature(schedule: Doc):
    assert not re.search(r"sign(ed|ature)\s*:", text(schedule), re.IGNORECASE)


def test_no_row_splits_and_heading_rows_repeat(schedule: Doc):
    heads = 0
    for each in schedule.tables:
        for row in each._tbl.tr_lst:
            assert row.trPr is not None
            assert "w:cantSplit" in row.trPr.xml
        heads += "w:tblHeader" in each._tbl.tr_lst[0].trPr.xml
    assert heads >= 12


def test_a_record_that_lacks_an_entry_is_not_called_complete() -> None:
    """Readings alone make no record: who, where and with what are entries."""
    record = Record()
    review_ = Review(())
    ready = Standing(State.COMPLETE, 1, 1, 0, ())
    lacking = Standing(State.BEGUN, 0, 1, 0, ("Give the job a reference.",))
    whole = record.model_copy(update={"circuits": demo_record().circuits})

    assert state(whole, review_, {Step.JOB: ready}) == "Nothing missing, no finding open"
    assert state(whole, review_, {Step.JOB: lacking}) == (
        "INCOMPLETE: 1 entry missing, no finding open"
    )


def test_before_anything_is_tested_nothing_is_called_right() -> None:
    printed = text(opened(schedule_bytes(Record(), fingerprint="", made=job.MADE)))

    assert "No finding so far" in printed
    assert "Nothing open:" not in printed


@pytest.mark.parametrize(
    ("hidden", "said"), [(True, "Less than 50 mm"), (None, "How deep was not given"), (False, "")]
)
def test_whoever_drills_is_warned_also_where_nobody_said_how_deep(
    hidden: bool | None, said: str
) -> None:
    demo = demo_record()
    first = demo.circuits[0].model_copy(update={"hidden": hidden})
    line = hidden_cables(demo.model_copy(update={"circuits": (first, *demo.circuits[1:])}))[1]

    assert line.startswith("C1 ")
    assert ("don’t drill there" in line) is bool(said)
    assert said in line
