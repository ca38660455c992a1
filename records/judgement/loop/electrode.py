"""An earth electrode: against its RCD, and against what an electrode can be."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import NotWorkedOut, What
from records.judgement import cite
from records.judgement.advice import NONE, Act, do
from records.judgement.compare import SLACK
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, Facts
from records.judgement.loop.loop_facts import where_lifted
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.wording import amount
from records.model.reading import Figure, Reading, Slot
from records.tables.disconnection import stable_electrode, touch_voltage
from records.terms import Sign, Verdict
from records.units import Unit

_IMPOSSIBLE_RA = 5.0
"""Ω under which one short rod is not believed: common practice."""
_RISEN = 1.5
"""How many times more than before is a rise worth a look: common practice."""


def _most_ra(facts: Facts, _slot: Slot) -> Bound:
    found = facts.design(BOARD, What.RA_LIMIT)
    if isinstance(found, NotWorkedOut):
        return found
    source = found.sources[0] if found.sources else cite.TT_RCD
    most = found.value
    return Limit(Sense.MOST, most, Unit.OHM, source, digits=0, note="RA × IΔn ≤ 50 V")


_LEADS = do(Act.LOOK, "Look at leads, spikes and clamp, and read it again.")
_OFF = do(
    Act.LEAVE_OFF, "Leave the outbuilding off: it is not energised before this is satisfactory."
)
_DEEPER = do(Act.DRIVE, "Drive the rod deeper or add another.")


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is not Verdict.OUTSIDE:
            yield each
            continue
        first = ("a lead or the clamp is off",) if figure.sign is Sign.OVER else ()
        says = each.says
        if figure.sign is Sign.EQUAL:
            residual = touch_voltage().value / limit.value
            says += (
                f" {figure.value:.0f} Ω × {1000 * residual:.0f} mA leaves "
                f"{figure.value * residual:.0f} V on metalwork."
            )
        yield each._replace(
            says=says,
            weight=40,
            causes=(*first, "dry or stony soil", "a rod too short", "a loose clamp"),
            next_check=_OFF
            + (_LEADS if first else NONE)
            + _DEEPER
            + do(Act.ASK, "Or ask the designer for an RCD of less IΔn."),
        )


def _electrode(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    stable = stable_electrode()
    if figure.value > stable.value and figure.sign is not Sign.UNDER:
        yield Concern(
            "ra-unstable",
            Verdict.UNLIKELY,
            f"Above {stable.value:.0f} Ω an electrode may not stay as it is through the year.",
            ("dry or stony soil", "a rod too short", "a loose clamp"),
            _DEEPER + do(Act.AGAIN, "Read it again in a dry spell."),
            stable.source,
            15,
        )
    under = SLACK if figure.sign is Sign.UNDER else 0.0
    if figure.value < _IMPOSSIBLE_RA + under and figure.sign is not Sign.OVER:
        yield Concern(
            "ra-too-good",
            Verdict.UNLIKELY,
            f"Under {_IMPOSSIBLE_RA:.0f} Ω is hardly ever one rod alone.",
            ("still joined to bonding or to the supply's earth", "spikes too near the electrode"),
            where_lifted(reading)
            + do(Act.EARTH_OFF, "Take everything off the electrode, move the spikes, read again."),
            cite.COMMON,
            20,
        )
    earlier = [
        each.taken.value
        for each in facts.attempts(reading.slot)[:-1]
        if isinstance(each.taken, Figure) and each.taken.sign is Sign.EQUAL and each.taken.value > 0
    ]
    shown = figure.sign is not Sign.UNDER
    if shown and earlier and figure.value > _RISEN * min(earlier):
        yield Concern(
            "ra-risen",
            Verdict.UNLIKELY,
            f"It was {amount(min(earlier), Unit.OHM, 1)} before.",
            ("dry or frozen soil", "a corroded or loose clamp", "a damaged lead"),
            where_lifted(reading)
            + do(Act.LOOK, "Look at the clamp and note the weather.")
            + _DEEPER,
            cite.COMMON,
            10,
        )


ELECTRODE = Rule(_most_ra, _electrode, _beside)
