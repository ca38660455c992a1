"""What a certifier finds in a schedule, read back from the finished document."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
from docx.document import Document as Doc

from records.document.built import origin
from records.document.filling import filled
from records.document.package import TEMPLATE
from records.document.people import live_gate
from records.document.words import Clock
from records.model.reading import LiveGate, Quantity
from records.model.record import Record
from records.model.supply import Origin
from records.terms import Verdict
from tests.document import job
from tests.document.reading_back import margins, opened, rows, text

READINGS = "Where|What|Stage|Expected|Limit|Measured|Verdict"


@pytest.fixture(scope="module")
def schedule() -> Doc:
    return opened(filled(TEMPLATE.read_bytes(), job.filled_context(), job.MADE))


def _readings(schedule: Doc, what: str) -> list[list[str]]:
    return [each for each in rows(schedule, READINGS) if len(each) > 6 and each[1] == what]


def test_each_page_says_that_it_is_no_certificate_and_carries_the_fingerprint(schedule: Doc):
    for margin in margins(schedule):
        assert "not a certificate" in margin
        assert job.FINGERPRINT in margin
        assert "SHED-7" in margin
        assert "prove dead" in margin


def test_each_foot_counts_its_pages_by_fields(schedule: Doc):
    for section in schedule.sections:
        fields = re.findall(r'w:instr="\s*(\w+)\s*"', section.footer._element.xml)
        assert fields == ["PAGE", "NUMPAGES"]


def test_the_edition_of_the_limits_is_named(schedule: Doc):
    words = text(schedule)

    assert "The limits are those of BS 7671:2018+A2:2022, whatever edition" in words


def test_front_names_people_with_their_part_and_instruments(schedule: Doc):
    assert rows(schedule, "Name|Part in the job")[1:] == [
        ["The installer", "wires, tests and records"],
        ["The certifying electrician", "inspects, tests and certifies"],
    ]
    assert rows(schedule, "No|Kind|Serial number")[1] == [
        "M1", "multifunction tester", "1234", "3 Nov 2025", "3 Nov 2026",
        "not given: the most that EN 61557 allows", "0.05 Ω, nulled",
    ]  # fmt: skip


def test_what_was_built_is_there_with_units_and_blanks_are_named(schedule: Doc):
    assert ["Ze that the design takes", "0.35 Ω, typical maximum, not yet confirmed"] in rows(
        schedule, "Earthing of the supply"
    )
    assert ["Supplier’s fuse", "not given"] in rows(schedule, "Earthing of the supply")
    feed = rows(schedule, "Run|Where it goes")[1]
    assert feed[:6] == [
        "Feed 1", "Trench under the lawn", "steel-wire armoured, XLPE 90 °C", "10 mm², 3 cores",
        "a core and the armour together (as made)", "38.5 m",
    ]  # fmt: skip
    assert rows(schedule, "Circuit|What it feeds")[1] == [
        "C1", "Sockets [/] [ring]", "sockets, ring", "RCBO type B, 32 A, breaks 6 kA",
        "30 mA in the RCBO, type A", "not given", "outdoors: no; hidden under 50 mm: yes",
    ]  # fmt: skip
    assert rows(schedule, "Circuit|Points, with the distance from the board")[1] == [
        "C1",
        "by the door (4 m); bench (12.5 m, spur of 2 m)",
    ]


def test_a_reading_stands_in_one_row_with_expectation_limit_and_verdict(schedule: Doc):
    (row,) = _readings(schedule, "Zs at the furthest point (earth fault loop impedance)")

    assert row[:3] == ["C1", "Zs at the furthest point (earth fault loop impedance)", "live"]
    assert row[3].startswith("0.91 Ω  W")
    assert row[4].startswith("at most 1.37 Ω [")
    assert row[5] == "1.52 Ω\nno-trip"
    assert row[6] == "✗ outside\nsee F1, F2"
    assert row[7] == "M1 · The installer\n15 Mar 2026 10:00\nfrom notes, entered 16 Mar 2026 20:00"


def test_the_last_column_is_left_to_the_certifier_in_each_row(schedule: Doc):
    lines = [each for each in rows(schedule, READINGS)[1:] if len(each) > 1]

    assert len(lines) > 30
    assert {each[8] for each in lines} == {""}


def test_a_first_bad_reading_stays_beside_its_re_test(schedule: Doc):
    (first,) = _readings(schedule, "Insulation resistance L and earth (first reading)")
    (second,) = _readings(schedule, "Insulation resistance L and earth (re-test)")

    assert first[5:7] == ["0.40 MΩ\nat 500 V d.c.", "✗ outside, then re-tested"]
    assert second[5] == "> 999 MΩ\ntyped “>999M”; at 500 V d.c.; driver out"
    assert second[6] == "✓ within"


def test_a_blank_is_never_a_pass(schedule: Doc):
    (row,) = _readings(schedule, "Ring final circuit: cross-connected L-cpc")[1:]

    assert row[0] == "C1 · S2 bench"
    assert row[5:8] == ["–", "· not taken", "–"]


def test_over_range_not_taken_and_not_needed_keep_their_reasons(schedule: Doc):
    assert (
        _readings(schedule, "Ze: external earth fault loop impedance")[0][5]
        == "could not be taken: intake locked"
    )
    assert rows(schedule, "Where|What|Why")[1] == [
        "Board", "Surge protection: its flag shows good (live)", "fitted in the house board",
    ]  # fmt: skip
    missing = rows(schedule, "Where|Stage|What")
    assert [
        "Origin",
        "live",
        "Ze: external earth fault loop impedance (live): could not be taken: intake locked",
    ] in (missing)
    assert [
        "C1 Sockets [/] [ring]",
        "dead",
        "Ring final circuit: cross-connected L-N: S2 bench",
    ] in missing


def test_a_long_remark_gets_a_row_of_its_own_below_its_reading():
    job_record = job.record()
    *early, last = job_record.readings
    remark = "no-trip range, twice, at the socket farthest along the bench, lid of the box off"
    long = last.model_copy(update={"method": remark})
    words = job.filled_context(job_record.model_copy(update={"readings": (*early, long)}))
    lines = rows(opened(filled(TEMPLATE.read_bytes(), words, job.MADE)), READINGS)
    at = next(
        i
        for i, each in enumerate(lines)
        if each[1:2] == ["Zs at the furthest point (earth fault loop impedance)"]
    )

    assert lines[at][5] == "1.52 Ω"
    assert lines[at + 1] == [f"C1, Zs at the furthest point (earth fault loop impedance): {remark}"]


def test_a_reading_that_the_design_no_longer_asks_for_stays_on_paper():
    """A reading never goes; that nobody judges it any more is said instead of a verdict."""
    ring = job.record()
    old = ring.readings[-1].model_copy(
        update={"id": "R9", "slot": job.ZS.model_copy(update={"quantity": Quantity.R1_R2})}
    )
    words = job.filled_context(ring.model_copy(update={"readings": (*ring.readings, old)}))
    document = opened(filled(TEMPLATE.read_bytes(), words, job.MADE))
    (row,) = _readings(document, "R1+R2 at the furthest point")

    assert row[5].startswith("1.52 Ω")
    assert row[6] == "not judged: no longer asked for"


def test_findings_stand_worst_first_each_with_room_for_the_certifier(schedule: Doc):
    titles = [
        each
        for each in text(schedule).splitlines()
        if re.match(r"F\d   ", each)
    ]  # fmt: skip

    assert titles == [
        "F1   ✗ outside   C1, loop at the far point",
        "F2   ? unlikely   C1, the loops add up",
        "F3   ! near limit   Feed, voltage drop",
    ]
    first = dict(rows(schedule, "Readings"))
    assert first["Why"] == "1.52 Ω is over the 1.37 Ω of the table."
    assert first["Likely causes"] == "a loose cpc\na longer run than entered"
    assert first["Next check"] == "Take R1+R2 again at the far point."
    assert first["What was done"] == "nothing recorded yet"
    assert first["The certifier decides"] == ""


def test_what_was_put_right_shows_the_remedy_and_all_readings(schedule: Doc):
    (row,) = rows(schedule, "What, where|What was done")[1:]

    assert row[1] == "14 Mar 2026 14:00, The installer: Lamp driver taken out"
    assert row[2].startswith("found 0.40 MΩ (M1")
    assert ": ✗ outside" in row[2]
    assert "; > 999 MΩ (M1" in row[2]
    assert row[3] == "✓ within"


def test_design_figures_carry_marks_and_say_what_was_not_worked_out(schedule: Doc):
    feed, ring = rows(schedule, "Where|Ib|In|Iz")[1:]

    assert feed[4] == "! 3.9 % (F3)"
    assert ring[3] == "– (N1)"
    assert "N1  no rating for this method in the table (Circuits, C1)." in text(schedule)


def test_each_working_shows_formula_values_result_and_sources(schedule: Doc):
    lines = rows(schedule, "No|Figure")
    (line,) = (each for each in lines if len(each) > 1 and each[1] == "Zs, by design")

    assert line[2] == (
        "Zs = Zdb + (R1+R2) → 0.55 + 0.47 · Added as magnitudes: errs towards refusing."
    )
    assert line[3] == "1.02 Ω (1.00 Ω to 1.04 Ω)"
    number = line[4]
    assert f"{number}  IET Guidance Note 3, loop impedance (from memory)" in text(schedule)


def test_each_reference_to_a_source_is_in_the_list(schedule: Doc):
    words = text(schedule)
    listed = set(re.findall(r"^\[(\d+)\]  ", words, re.MULTILINE))

    assert set(re.findall(r"\[(\d+)\]", words)) == listed == {"1", "2", "3"}


def test_counts_of_verdicts_stand_on_the_front(schedule: Doc):
    counts = {each[0]: each[1] for each in rows(schedule, "Verdict|How many")[1:]}

    assert counts == {
        "✗ outside": "1", "? unlikely": "1", "! near limit": "1", "· not taken": "2",
        "✓ within": "2", "– not needed": "1",
    }  # fmt: skip
    assert len(counts) == len(Verdict)


def test_going_on_in_spite_of_a_dead_test_is_on_paper(schedule: Doc):
    assert "Went on in spite of: Ring final circuit: cross-connected L-N at S2 not taken." in text(
        schedule
    )


def test_one_answer_given_in_several_sessions_is_printed_once_with_each_time() -> None:
    gates = [
        LiveGate(
            at=datetime(2026, 11, day, 9, 30, tzinfo=UTC), isolation_understood=True,
            despite=(open_,),
        )
        for day, open_ in ((17, "· C1 not taken."), (18, "· C1 not taken."), (19, "✗ C2 wet."))
    ]  # fmt: skip
    record = Record().model_copy(update={"live_gate": tuple(gates)})
    lines = live_gate(record, Clock(record, job.MADE))

    assert len(lines) == 2
    assert [day in lines[0] for day in ("17 Nov 2026", "18 Nov 2026", "19 Nov 2026")] == [
        True, True, False,
    ]  # fmt: skip
    assert lines[1].endswith("Went on in spite of: C2 wet.")


def test_the_supply_neutral_is_printed_as_it_sets_the_size_of_bonding() -> None:
    record = Record(origin=Origin(neutral_csa=25.0))

    assert origin(record)["neutral"] == "25 mm²"


def test_the_usual_cautions_are_there(schedule: Doc):
    """Common practice of the trade: safe isolation, live work, 500 V, PME, open cpc, RCD tests."""
    words = text(schedule)

    for each in (
        "prove dead at the place of work", "Live testing is live work", "500 V on the conductors",
        "PME (TN-C-S) outdoors", "open protective conductor", "An RCD test takes the supply away",
        "Local rules and the certifier’s word come before",
    ):  # fmt: skip
        assert each in words


def test_no_name_is_filled_in_for_a_signature(schedule: Doc):
    assert not re.search(r"sign(ed|ature)\s*:", text(schedule), re.IGNORECASE)
    blank = rows(schedule, "Where|What|Reading|Instrument")
    assert len(blank) == 8
    assert {cell for line in blank[1:] for cell in line} == {""}


def test_each_heading_row_repeats_and_no_row_splits(schedule: Doc):
    for table in schedule.tables:
        for row in table._tbl.tr_lst:
            assert row.trPr is not None
            assert "w:cantSplit" in row.trPr.xml
    head = rows_xml(schedule, "Certifier’s own reading")
    assert "w:tblHeader" in head


def rows_xml(schedule: Doc, word: str) -> str:
    for table in schedule.tables:
        first = table._tbl.tr_lst[0]
        if word in "".join(first.itertext()):
            return str(first.xml)
    raise AssertionError(word)
