"""Continuity of a run of cable: line and cpc, end to end."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import What, Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import RIGHT_NOW, SPLIT, STAYS_OFF, TIPS
from records.judgement.cable_path import parallel_path_fits, weak_places
from records.judgement.compare import SLACK
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit, off_expectation, said_off
from records.judgement.wording import amount, number
from records.model.reading import Figure, Quantity, Reading, Slot, slot_of
from records.tables.rounding import cut_down
from records.terms import Form, Part, Sign, Stage, Use, Verdict
from records.units import Unit

LEAST = 0.05
"""Ω that any two low-resistance readings may differ by: common practice."""
SHARE = 0.2
"""A run is seldom clipped within this share of the length on paper: common practice."""
_OPEN = 9.0
"""Ω that the lowest range of an ohmmeter reaches, about: more is an open path. Common practice."""
_NOUGHT = 0.03
"""Ω below zero that a nulled meter may show."""


def _most_r1_r2(facts: Facts, slot: Slot) -> Bound:
    """Return what R1+R2 may read cold so that the loop keeps the tabulated maximum when warm.

    The table holds at operating temperature: a conductor that is read cold rises by a fifth or
    more until then. By how much follows from the design, not from the reading, or the limit would
    move with what it has to judge.
    """
    if facts.feed_is_tt if slot.place == FEED else facts.tt:
        return None  # the loop there is the electrode's, and its RCD's
    limit = facts.design(slot.place, What.ZS_LIMIT)
    if slot.place == FEED:
        upstream = facts.record.origin.ze
    else:
        upstream = facts.plain_at(BOARD, Quantity.ZDB)
        if upstream is None:
            upstream = facts.meter_value(slot_of(Quantity.ZDB, BOARD, Stage.LIVE))
    if not isinstance(limit, Worked) or upstream is None:
        return None
    expected, warm = facts.meter_value(slot), facts.design(slot.place, What.R1_R2)
    if not expected or not isinstance(warm, Worked):
        return None  # to keep the loop's limit is no proof that the run is sound
    most = (limit.value - upstream) / max(warm.value / expected, 1.0)
    if most < expected:
        return None  # the design itself has no room for it, and says so
    return Limit(
        Sense.MOST,
        cut_down(most),
        Unit.OHM,
        limit.sources[0] if limit.sources else cite.LOOP_METHOD,
        note=f"so that Zs keeps {number(round(limit.value, 2), 2)} Ω at the furthest point, warm",
    )


def _too_much(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if is_open(figure):
            continue  # that says it all
        says = f"{each.says} With it Zs at the furthest point would be too high for the device."
        yield each._replace(
            says=says,
            causes=if_high(facts, reading, figure),
            next_check=SPLIT,
            weight=20,
        )


HIGH = (
    "a loose terminal or a bad joint",
    "damaged strands, or a thinner conductor than entered",
    "the run is longer than entered",
    "the leads were not nulled",
)


def causes_if_high(figure: Figure) -> tuple[str, ...]:
    """Return the causes of a figure that is too high; leads that were taken off are none."""
    return HIGH if figure.leads is None else HIGH[:-1]


_PARALLEL = "the cpc has a parallel path through metalwork"
LOW = (
    "read at a nearer point, or on another circuit",
    _PARALLEL,
    "the run is shorter than entered",
)
OPEN_LEAD = "an open test lead"


def if_high(facts: Facts, reading: Reading, figure: Figure) -> tuple[str, ...]:
    """Return the causes of a path that reads too high, the joints that were entered by name."""
    where = weak_places(facts, reading.slot.place, "")
    first = f"a bad contact: {where}" if where else HIGH[0]
    return (first, *causes_if_high(figure)[1:])


def if_low(facts: Facts, reading: Reading, figure: Figure) -> tuple[str, ...]:
    """Return the causes of a path that reads too low, tried against its own line conductor."""
    if parallel_path_fits(facts, reading, figure.value):
        return LOW
    return tuple(each for each in LOW if each != _PARALLEL)


def _run(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from below_nought(figure)
    if figure.sign is Sign.OVER:
        yield low_range(figure) or _no_path(facts, reading.slot)
        return
    yield from changed_since_covering(facts, reading, figure)
    off = off_expectation(facts, reading, figure, LEAST, SHARE)
    if off is None:
        return
    difference, _ = off
    if difference > 0:
        yield Concern(
            "r1r2-high",
            Verdict.UNLIKELY,
            f"{said_off(*off)}.",
            if_high(facts, reading, figure),
            SPLIT,
            cite.CONTINUITY,
            10,
        )
    elif figure.value > -_NOUGHT:
        at_board = ("read at the board itself, or with both leads on one conductor",)
        yield Concern(
            "r1r2-low",
            Verdict.UNLIKELY,
            f"{said_off(*off)}: low is not good in itself.",
            (*(at_board if figure.value < _NOUGHT else ()), *if_low(facts, reading, figure)),
            do(Act.AGAIN, "Name the furthest point and read again there."),
            cite.CONTINUITY,
            10,
        )


def _switch(facts: Facts, slot: Slot) -> str:
    """Return the switch that can stand in the line of a path."""
    circuit = facts.circuit_of(slot)
    if circuit is None:
        return "a switch or an isolator of the feed left open"
    if circuit.use is Use.SOCKETS and circuit.form is not Form.FCU:
        return "the socket's own switch left off"
    return "a switch left open"


def _no_path(facts: Facts, slot: Slot) -> Concern:
    where = weak_places(facts, slot.place, "a box")
    causes = (
        f"a terminal missed or a conductor snapped at {where}",
        _switch(facts, slot),
        "the link at the board is missing",
        OPEN_LEAD,
    )
    if slot.place == FEED:
        causes = (causes[0], "the link at the house is missing", causes[1], OPEN_LEAD)
    found = open_circuit("No path through line and cpc", causes)
    other = facts.plain_at(slot.place, Quantity.RN_R2)
    if slot.place.part is not Part.CIRCUIT or other is None:
        return found
    return found._replace(
        pattern="neutral-cpc-crossed",
        says=f"{found.says} Rn+R2 is closed ({amount(other, Unit.OHM)}).",
        causes=(
            "neutral and cpc are crossed here: it works, and trips the RCD under load",
            "the line is broken or not landed",
        ),
        next_check=STAYS_OFF
        + do(Act.OPEN, "Open this point; see if neutral and cpc are crossed.")
        + do(Act.LIFT, "Then insulation N-E with this neutral out of its bar."),
    )


def changed_since_covering(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Return the concern about a continuity reading that is not what it was before covering."""
    slot = reading.slot
    early = slot_of(slot.quantity, slot.place, Stage.BEFORE_COVERING)
    before = facts.plain(early)
    if slot.stage is Stage.BEFORE_COVERING or before is None or figure.sign is not Sign.EQUAL:
        return
    gap = figure.value - before
    if abs(gap) > max(LEAST, SHARE * before) + SLACK:
        yield Concern(
            "continuity-changed",
            Verdict.UNLIKELY,
            f"Before covering it was {amount(before, Unit.OHM)}.",
            (
                "a terminal that was made since",
                "damage since covering",
                "read at another point, or with other leads",
            ),
            do(Act.AGAIN, "Read again at the same point.")
            + RIGHT_NOW
            + do(Act.OPEN, "Open what was made since."),
            cite.COMMON,
            5,
        )


def is_open(figure: Figure) -> bool:
    """Whether an ohmmeter ran out of its highest range, not only out of a low one."""
    return figure.sign is Sign.OVER and figure.value >= _OPEN


def low_range(figure: Figure) -> Concern | None:
    """Return the concern about an ohmmeter that was over a low range; None if it is open."""
    if is_open(figure):
        return None
    return Concern(
        "no-proof",
        Verdict.OUTSIDE,
        "The meter was over range on a low range. That is not yet an open conductor.",
        (),
        do(Act.AGAIN, "Read again on a higher range."),
        cite.CONTINUITY,
        30,
    )


def open_circuit(what: str, causes: tuple[str, ...]) -> Concern:
    """Return the concern about a conductor that is open from end to end.

    Args:
        what: What is open, in words.
        causes: Those that this path can have: no switch in a ring end to end, nor in a cpc.
    """
    return Concern(
        "open",
        Verdict.OUTSIDE,
        f"{what}: the meter showed over range.",
        causes,
        STAYS_OFF + TIPS + SPLIT,
        cite.CONTINUITY,
        30,
    )


def below_nought(figure: Figure) -> Iterator[Concern]:
    """Return the concern about a low-resistance reading that is clearly negative."""
    if figure.value < -_NOUGHT:
        causes: tuple[str, ...] = (
            "nulled with longer leads, or with a poor contact",
            "the leads were changed after they were nulled",
        )
        check = do(Act.AGAIN, "Null the leads again as you use them, and repeat.")
        if figure.leads is not None:
            causes = (
                "the lead resistance entered for the meter is too high",
                "the meter nulls its leads after all",
                "other leads were used",
            )
            check = do(Act.ENTER, "Join the tips, enter what the meter shows (Job), and repeat.")
        yield Concern(
            "below-nought",
            Verdict.UNLIKELY,
            "No conductor has less than no resistance.",
            causes,
            check,
            cite.COMMON,
            10,
        )


R1_R2 = Rule(_most_r1_r2, _run, _too_much)
