"""Of several things that one reading shows, the gravest is told first and its advice is the one."""

from __future__ import annotations

import itertools

import pytest

from records.expected.results import What
from records.judgement.advice import Act, do
from records.judgement.concern import Concern
from records.judgement.harm import Harm, harm_of, is_of_fabric
from records.judgement.one_reading import _with
from records.judgement.review_types import Judged
from records.judgement.slips import below_nothing
from records.model.noticed import Noticed
from records.model.reading import Figure, Quantity
from records.terms import Stage, Symptom, Verdict
from tests.judgement.jobs import SOUND, at, circuit, flat, line

RUN = at(Quantity.R1_R2, "C2")
GRAVE = Concern(
    "grave", Verdict.OUTSIDE, "G.", ("g",), do(Act.LEAVE_OFF, "Leave it off."), weight=60
)
LESS = Concern("less", Verdict.OUTSIDE, "L.", ("l",), do(Act.LOOK, "Look at it."), weight=20)
DOUBT = Concern("doubt", Verdict.UNLIKELY, "D.", ("d",), do(Act.AGAIN, "Read it again."), weight=90)
NEAR = Concern("near", Verdict.NEAR, "N.", ("n",), do(Act.ASK, "Ask."), weight=99)
SILENT = Concern("silent", Verdict.OUTSIDE, "S.", weight=80)


def told(*found: Concern) -> Judged:
    return _with(Judged("k", Verdict.NOT_TAKEN, RUN.place, "t", "", RUN), "Head.", list(found), "")


@pytest.mark.parametrize("found", tuple(itertools.permutations((GRAVE, LESS, DOUBT, NEAR))))
def test_verdict_before_weight_decides_what_comes_first(found: tuple[Concern, ...]) -> None:
    made = told(*found)

    assert (made.verdict, made.weight) == (Verdict.OUTSIDE, 60)
    assert made.patterns == ("grave", "less", "doubt", "near")
    assert made.causes == ("g", "l", "d", "n")
    assert made.why == "Head. G. L. D. N."
    assert made.next_check == "Leave it off."


def test_what_says_nothing_to_do_leaves_that_to_the_next() -> None:
    made = told(LESS, SILENT)

    assert made.patterns == ("silent", "less")
    assert made.next_check == "Look at it."


def test_without_a_concern_it_is_within() -> None:
    assert told().verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("quantity", "below"),
    [
        (Quantity.R1_R2, False),  # a nulled ohmmeter shows a little below nothing
        (Quantity.EARTHING, False),
        (Quantity.ZDB, True),
        (Quantity.ZS, True),
        (Quantity.IR_LE, True),
        (Quantity.RCD_TIME, True),
        (Quantity.FAULT_LN, True),
    ],
)
def test_only_an_ohmmeter_shows_less_than_nothing(quantity: Quantity, below: bool) -> None:
    where = at(quantity, "C2")

    assert below_nothing(Figure(value=-0.01), where) is below
    assert not below_nothing(Figure(value=0.0), where)


DANGER = (
    # No earth, or one that was not shown; line where it doesn't belong; something that burns.
    "open loop-open earth-missing no-fault-current armour-open ring-point-cpc two-lines "
    "supply-reversed neutral-lifted pen-suspected loop-unsteady drop-high tt-too-low"
).split()
WORDY = ("island joined", "all loops open", "ring open", "earth not shown back")
OUT_OF_TURN = (
    "taken with the earth off",
    "taken before the board was right",
    "taken while locked off",
    "taken after a live failure",
    "not shown put back",
)
BOOKS = (
    "calibration",
    "identical insulation",
    "worked out backwards",
    "made by arithmetic",
    "even steps",
    "only fives and noughts",
    "too fast",
    "readings swapped",
    "taken without an answer",
)


@pytest.mark.parametrize(
    ("pattern", "harm"),
    [
        *((each, Harm.DANGER) for each in (*DANGER, *WORDY, *OUT_OF_TURN)),
        *((each, Harm.RECORD) for each in BOOKS),
        ("insulation-fallen", Harm.FABRIC),
        ("continuity-changed", Harm.FABRIC),
        ("rcd-too-quick", Harm.FUNCTION),
        ("symptom: tingle", Harm.DANGER),
        ("symptom: hot", Harm.DANGER),
        ("symptom: rain", Harm.PROTECTION),
        ("limit", Harm.PROTECTION),
    ],
)
def test_what_can_hurt_stands_before_what_is_only_badly_written_down(
    pattern: str, harm: Harm
) -> None:
    """No standard puts findings in order: common practice, shock and fire first."""
    key = "circuit/C2/-/live/Zs"

    assert harm_of(Verdict.UNLIKELY, key, (pattern,), (Quantity.ZS,)) is harm


@pytest.mark.parametrize(
    ("quantity", "harm"),
    [
        (Quantity.POLARITY, Harm.DANGER),
        (Quantity.SWITCHED, Harm.DANGER),
        (Quantity.EARTH_BACK, Harm.DANGER),
        (Quantity.IR_FOIL, Harm.DANGER),
        (Quantity.IR_LN, Harm.FABRIC),
        (Quantity.IR_GROUP, Harm.FABRIC),
        (Quantity.RING_CABLES, Harm.FABRIC),
        (Quantity.VOLTAGE, Harm.FUNCTION),
        (Quantity.SURGE, Harm.FUNCTION),
        (Quantity.RCD_TIME, Harm.PROTECTION),
        (Quantity.ZS, Harm.PROTECTION),
    ],
)
def test_a_reading_can_lead_to_what_it_shows(quantity: Quantity, harm: Harm) -> None:
    where = at(quantity, "C2", Stage.LIVE)

    assert harm_of(Verdict.OUTSIDE, f"x/{where.quantity}", ("limit",), (quantity,)) is harm


@pytest.mark.parametrize(
    ("name", "fabric"),
    [
        ("zone L1", True),
        ("timber L1-1", True),
        ("screws L1", True),
        ("ground B1", True),
        ("surface W1 name", True),
        ("distance", False),
        ("Zs", False),
        ("30 mA protection", False),
    ],
)
def test_what_boards_would_hide_belongs_to_the_step_before_covering(
    name: str, fabric: bool
) -> None:
    assert is_of_fabric(f"circuit/C1/-/design/{name}") is fabric


def test_a_light_that_dims_is_said_at_the_voltage_drop_of_the_design() -> None:
    """90 m of 2.5 mm² loses far more than the 5 % that BS 7671, 525 and Appendix 4 allow."""
    long = circuit(SOUND, "C2", runs=(flat(2.5, 90.0),))
    seen = Noticed(id="N1", kind=Symptom.FLICKER, circuit="C2", note="")
    record = long.model_copy(update={"noticed": (seen,)})
    drop = line(record, f"circuit/C2/-/design/{What.VOLT_DROP.value}")

    assert drop.verdict is Verdict.OUTSIDE
    assert f"Noticed in use: {Symptom.FLICKER.value}." in drop.why
    assert "Noticed" not in line(record, "circuit/C2/-/design/Zs").why
