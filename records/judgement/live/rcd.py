"""Operating times of RCDs."""

from __future__ import annotations

from collections.abc import Iterator

from records.errors import NotTabulated
from records.expected.residual import operating_times
from records.expected.results import NotWorkedOut
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import CHANGE_RCD, RIGHT_NOW
from records.judgement.compare import SLACK
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit, beyond
from records.model.reading import Figure, Reading, Slot
from records.model.wiring import Rcd
from records.tables.disconnection import RcdTimes, rcd_times
from records.terms import Part, RcdStandard, Sign, Verdict
from records.units import Unit

_LABEL = do(Act.LOOK, "Read its label for the S in a box, covers on.")
_LOAD_SIDE = (
    do(Act.READ_LIVE, "Switch off and unplug the loads; retest, line probe on load side.")
    + RIGHT_NOW
)


def rcd_of(facts: Facts, slot: Slot) -> Rcd:
    """Return the RCD that a slot is about."""
    circuit = facts.circuit_of(slot)
    if circuit is not None:
        return circuit.rcd
    record = facts.record
    return record.feed.rcd if slot.place.part is Part.FEED else record.board.rcd


def _rcd_limit(facts: Facts, slot: Slot) -> Bound:
    rcd = rcd_of(facts, slot)
    try:
        times = operating_times(rcd)[0]
    except NotTabulated as error:
        return NotWorkedOut("RCD time", str(error))
    made = f", {rcd.standard.value}" if rcd.standard in OLDER else ""
    if rcd.delayed:
        return _time_limit(rcd, times, f"delayed{made or ', type S'}, at 1 × IΔn")
    return _time_limit(rcd, times, f"at 1 × IΔn a.c.{made}")


def _time_limit(rcd: Rcd, times: RcdTimes, note: str) -> Limit:
    """Return when an RCD has to open [ms]; a delayed one has to wait, too."""
    longest, source = times.longest * 1000, times.source
    if rcd.delayed:
        shortest = times.shortest * 1000
        return Limit(
            Sense.BAND, shortest, Unit.MILLISECOND, source, upper=longest, digits=0, note=note
        )
    return Limit(Sense.MOST, longest, Unit.MILLISECOND, source, digits=0, note=note)


def _rcd_beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    general = limit.sense is Sense.MOST
    for each in beside_limit(facts, reading, figure, limit):
        if _is_under(figure, limit):
            yield Concern(
                "rcd-too-quick",
                Verdict.OUTSIDE,
                f"A delayed RCD waits at least {limit.value:.0f} ms; this one doesn't, "
                "so it can trip together with the one after it.",
                ("it isn't a delayed one", "the meter was set to a general one"),
                _LABEL + do(Act.AGAIN, "Then repeat."),
                limit.source,
                20,
            )
        elif each.verdict is Verdict.OUTSIDE:
            yield each._replace(
                causes=(
                    "the line probe was on the supply side",
                    "the RCD is bypassed or faulty",
                    *(("a delayed RCD taken for a general one",) if general else ()),
                    "a loop too high for the test",
                ),
                next_check=_LOAD_SIDE + CHANGE_RCD,
                source=cite.RCD_TEST,
                weight=30,
            )
        else:
            again = do(Act.AGAIN, "Repeat three times and note them all.")
            yield each._replace(next_check=again)
    if general and reading.slot.place.part is Part.FEED:
        yield from _older_perhaps(facts, reading, figure, limit)


def _older_perhaps(
    facts: Facts, reading: Reading, figure: Figure, limit: Limit
) -> Iterator[Concern]:
    """A time that only today's standards allow; at the house end the RCD may be older."""
    older = rcd_times(delayed=False, standard=RcdStandard.BS_4293)[0].longest * 1000
    known = rcd_of(facts, reading.slot).standard is not None
    if known or not older + SLACK < figure.value <= limit.value + SLACK:
        return
    yield Concern(
        "rcd-standard",
        Verdict.NEAR,
        f"Over {older:.0f} ms is too slow for an RCD to BS 4293 or BS 7288. For one to "
        "BS EN 61008-1 it is in time. Which it is made to isn't entered.",
        ("an older RCD at the house end",),
        do(Act.LOOK, "Read the standard off its label, covers on, and enter it (Feed).")
        + do(Act.ASK, "No label: the certifier decides."),
        limit.source,
        20,
    )


OLDER = (RcdStandard.BS_4293, RcdStandard.BS_7288)
"""Standards whose RCDs must open within 200 ms at IΔn."""


def _rcd(_facts: Facts, _reading: Reading, figure: Figure) -> Iterator[Concern]:
    if figure.sign is not Sign.OVER and figure.value < 1:
        yield Concern(
            "rcd-no-time",
            Verdict.UNLIKELY,
            "No RCD opens in no time at all.",
            (
                *(("typed in seconds",) if figure.value > 0 else ()),
                "the circuit was already off",
                "the display was read before the test",
            ),
            do(Act.AGAIN, "See that the circuit is switched on, and repeat."),
            cite.COMMON,
            10,
        )


def _five(facts: Facts, slot: Slot) -> Bound:
    rcd = rcd_of(facts, slot)
    try:
        times = operating_times(rcd)[-1]
    except NotTabulated as error:
        return NotWorkedOut("RCD time", str(error))
    if times.multiple <= 1:
        return NotWorkedOut("RCD time", "nothing is tabulated for it at 5 × IΔn")
    at = "5 × IΔn" if times.multiple <= _FIVE else "0.25 A, or 5 × IΔn"
    note = f"at {at} a.c.; asked for by earlier editions, not by this one"
    return _time_limit(rcd, times, note)


def _five_beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is Verdict.OUTSIDE and _is_under(figure, limit):
            yield each._replace(
                pattern="rcd-quick-at-five",
                verdict=Verdict.UNLIKELY,
                weight=15,
                says=beyond(figure, limit, "a delayed RCD waits"),
                causes=("it isn't a delayed one", "the meter was set to another test"),
                next_check=_LABEL + do(Act.LOOK, "The time at 1 × IΔn decides."),
            )
        elif each.verdict is Verdict.OUTSIDE:
            # The edition asks for 1 × only: it says something of the device, not of the work.
            yield each._replace(
                pattern="rcd-slow-at-five",
                verdict=Verdict.UNLIKELY,
                weight=15,
                says=beyond(figure, limit, "earlier editions allow"),
                causes=(
                    "the device is worn",
                    "the loop is too high for the test current",
                    "one that its maker proves at 0.25 A, not at 5 × IΔn",
                ),
                next_check=do(Act.AGAIN, "Repeat it.")
                + do(Act.ASK, "Then the certifier decides on the time at 1 × IΔn."),
            )
        else:
            yield each


_FIVE = 5.0


def _is_under(figure: Figure, limit: Limit) -> bool:
    """Whether a figure is shown to lie under the lower end of a band."""
    if limit.sense is not Sense.BAND or figure.sign is Sign.OVER:
        return False
    return figure.value < limit.value or (
        figure.sign is Sign.UNDER and figure.value <= limit.value + SLACK
    )


def _ramp_band(facts: Facts, slot: Slot) -> Bound:
    residual = rcd_of(facts, slot).residual
    if residual is None:
        return NotWorkedOut("RCD current", "IΔn of the RCD is not entered yet")
    return Limit(
        Sense.BAND,
        0.5 * residual,
        Unit.MILLIAMPERE,
        cite.RCD_CURRENT,
        upper=residual,
        digits=0,
        note="half to all of IΔn",
    )


def _ramp(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    low = _is_under(figure, limit)
    off = ("the circuit was already off",) if low and figure.value < _NO_CURRENT else ()
    for each in beside_limit(facts, reading, figure, limit):
        if low:
            yield each._replace(
                pattern="rcd-too-keen",
                verdict=Verdict.UNLIKELY,
                weight=15,
                says=beyond(figure, limit, "an RCD opens at on its own"),
                causes=(
                    *off,
                    "loads or filters leak already",
                    "a joint of neutral and earth",
                    "damp",
                ),
                next_check=do(
                    Act.AGAIN, "Switch the loads off, then the circuits one by one, and repeat."
                ),
            )
        else:
            yield each._replace(
                pattern="rcd-too-dull",
                weight=30,
                causes=("the line probe was on the supply side", "the RCD is faulty"),
                next_check=_LOAD_SIDE + CHANGE_RCD,
            )


_NO_CURRENT = 1.0
"""mA that no ramp ends at: it starts higher."""


RCD_FIVE = Rule(_five, _rcd, _five_beside)
RCD_RAMP = Rule(_ramp_band, beside=_ramp)
RCD_TIME = Rule(_rcd_limit, _rcd, _rcd_beside)
