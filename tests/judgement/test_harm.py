"""The order of findings: by the harm they can do, then by verdict, then by urgency."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.judgement.harm import Harm, harm_of, rank
from records.model.reading import Quantity, Tick
from records.model.wiring import Device, Rcd
from records.store.record_in import Found
from records.terms import DeviceKind, Stage, Verdict, WorkKind
from tests.judgement.jobs import SOUND, at, circuit, findings, over, read, reviewed, spoilt, zs
from tests.judgement.test_calibration import with_meter
from tests.judgement.test_remedies import done
from tui.commands.check_text import lines as check_lines

LE, RUN = at(Quantity.IR_LE, "C2"), at(Quantity.R1_R2, "C2")
LAMP = at(Quantity.FUNCTION, "C3", Stage.LIVE)


def test_a_nail_through_a_cable_comes_before_a_dim_lamp():
    """Common practice. The lamp is outside, the fall only unlikely: harm goes before verdict."""
    found = list(findings(spoilt((LE, 40.0), (LAMP, Tick(good=False)))))

    assert found == [
        "circuit/C2/-/dead/ir-le",
        "circuit/C3/-/live/function",
    ]


def test_shock_goes_before_protection_fabric_function_and_record():
    """The five steps in turn, each from a reading or a design of its own: common practice."""
    record = spoilt(
        (at(Quantity.POLARITY, "C3"), Tick(good=False)),
        (zs("C4"), 3.0),
        (LE, 40.0),
        (LAMP, Tick(good=False)),
    )
    late = with_meter(due=SOUND.job.started).job
    review = reviewed(record.model_copy(update={"job": late}))
    harms = [each.harm for each in review.findings]

    assert harms == sorted(harms)
    assert set(harms) == set(Harm)
    assert review.findings[0].title.startswith("C3 Lights: Polarity")


def test_a_socket_without_additional_protection_is_first_of_all():
    """BS 7671, Regulation 415.1.1: a delayed RCD protects nobody who touches a line."""
    record = circuit(
        spoilt((zs("C4"), 3.0), (RUN, over(99.9)), (LE, 0.02)),
        "C2",
        device=Device(kind=DeviceKind.BREAKER_B, rating=20, breaking=6.0),
        rcd=Rcd(residual=30.0, delayed=True),
    )

    assert next(iter(findings(record))) == "circuit/C2/-/design/30 mA protection"


def test_a_blank_is_a_gap_of_the_record_and_stands_last():
    assert (
        harm_of(Verdict.NOT_TAKEN, "circuit/C1/-/dead/polarity", (), (Quantity.POLARITY,))
        is Harm.RECORD
    )


@pytest.mark.parametrize(
    ("key", "patterns", "quantities", "harm"),
    [
        ("circuit/C1/-/design/voltage drop", (), (), Harm.FUNCTION),
        ("circuit/C1/-/design/Iz", (), (), Harm.PROTECTION),
        ("circuit/C1/-/design/30 mA protection", (), (), Harm.DANGER),
        ("circuit/C1/P2/design/distance", (), (), Harm.RECORD),
        ("circuit/C1/-/dead/R1+R2", ("open",), (Quantity.R1_R2,), Harm.DANGER),
        ("circuit/C1/-/dead/R1+R2", ("r1r2-high",), (Quantity.R1_R2,), Harm.PROTECTION),
        (
            "circuit/C1/-/dead/R1+R2",
            ("r1r2-high", "continuity-changed"),
            (Quantity.R1_R2,),
            Harm.FABRIC,
        ),
        ("circuit/C1/-/dead/ir-le", ("limit",), (Quantity.IR_LE,), Harm.FABRIC),
        ("board/-/-/live/x", (), (Quantity.VOLTAGE, Quantity.ZDB), Harm.PROTECTION),
        ("board/-/-/live/x", (), (), Harm.PROTECTION),
    ],
)
def test_what_a_finding_can_lead_to(key, patterns, quantities, harm):
    assert harm_of(Verdict.OUTSIDE, key, patterns, quantities) is harm


def test_verdict_then_urgency_decide_where_the_harm_is_the_same():
    worst = rank(Harm.PROTECTION, Verdict.OUTSIDE, 5)

    assert worst < rank(Harm.PROTECTION, Verdict.OUTSIDE, 4)
    assert worst < rank(Harm.PROTECTION, Verdict.UNLIKELY, 99)
    assert rank(Harm.DANGER, Verdict.NEAR, 0) < worst
    order = [rank(Harm.FABRIC, each, 0) for each in Verdict]
    assert order == sorted(order)


def test_check_prints_the_worst_group_first_and_the_worst_line_of_it_first():
    record = spoilt(
        (LE, 40.0), (LAMP, Tick(good=False)), (at(Quantity.POLARITY, "C2"), Tick(good=False))
    )
    shown = check_lines(Path("x.json"), Found(record, ""), reviewed(record), everything=False)
    text = "\n".join(each for each, _ in shown)

    assert text.index("Polarity") < text.index("Insulation") < text.index("Functional test")


def test_each_step_has_words_of_its_own():
    assert len({each.words for each in Harm}) == len(Harm)


def test_check_prints_what_was_found_what_was_done_and_the_re_test():
    """What was found stays found: BS 7671, Regulation 643.1 (from memory), common practice."""
    key = "circuit/C2/-/dead/ir-le"
    record = spoilt((LE, 0.4), read(900, LE, 480.0, 910))
    record = done(record, key, 905, "cut back", kind=WorkKind.MISREAD)
    shown = check_lines(Path("x.json"), Found(record, ""), reviewed(record), everything=False)
    text = " ".join(" ".join(each for each, _ in shown).split())

    assert "Found, and put right since" in text
    assert "Found: 0.40 MΩ ✗ outside" in text
    assert "likely: a screw or nail" in text
    assert "first reading was wrong: cut back" in text
    assert "Since: 480 MΩ" in text
