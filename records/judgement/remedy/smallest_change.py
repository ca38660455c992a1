"""What would make it comply: the smallest change of one thing that mends a failing design check.

Nothing is guessed: each change is put into the record, everything worked out again, and the check
judged again. A change is an answer only if every other check stays as good as it was: none that
held stops holding, none that fails gets worse, and no device is ever larger than its cable carries.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import cached_property, partial

from records.expected.plan import expected
from records.expected.results import What, Worked
from records.judgement.compare import SLACK
from records.judgement.design.all_checks import design_lines
from records.judgement.design.line import design_key
from records.judgement.facts import Facts
from records.judgement.remedy import design_changes
from records.judgement.remedy.design_changes import Change, Owner
from records.judgement.review_types import Judged, Sense
from records.model.record import Record
from records.reuse import Reuse
from records.terms import Form, Part, Use, Verdict

_STEP = 0.5
"""Lengths are given in steps of half a metre, cut down."""
_LOOP = (What.ZS, What.TIME)


@dataclass(frozen=True, slots=True)
class Mend:
    """One change that mends a failing check, worked out."""

    change: str
    """What to change: `C4: 4 mm² instead of 2.5 mm²`."""
    result: str
    """How the check stands then."""
    record: Record
    """The design with the change in it."""

    def __str__(self) -> str:
        return f"{self.change}: {self.result}" if self.result else f"{self.change}."


def mends(record: Record, judged: Judged) -> tuple[Mend, ...]:
    """Return what would mend a failing design check of a job; see `Mends.of`."""
    return Mends(record).of(judged)


class Mends:
    """What would mend the failing design checks of one job.

    Each design that is tried has the checks worked out again that the change reaches; for that the
    findings of a job are best asked about together.
    """

    def __init__(self, record: Record) -> None:
        """Take a job."""
        self._record = record
        self._checks = _Checks()

    def of(self, judged: Judged) -> tuple[Mend, ...]:
        """Return for a failing design check the smallest changes of one thing that mend it.

        In the order of money and sense. One of each kind: another device, an RCD, a thicker
        circuit, a shorter one, a thicker feed; none if the check holds, if it is about a reading,
        if it rests on an assumption, or if no single change is enough.

        Args:
            judged: A line of the job's review.
        """
        if judged.slot is not None or judged.verdict not in (Verdict.OUTSIDE, Verdict.NEAR):
            return ()
        if isinstance(judged.expected, Worked) and judged.expected.assumed:
            return ()  # the current itself comes first: nothing is bought for an assumption
        record, before = self._record, {each.key: each for each in self._before}
        trial = _Trial(judged.key, judged.verdict, before, self._checks)
        found: list[tuple[Cost, Mend]] = []
        for cost, search in _searches(record, judged):
            mend = search(trial)
            if mend is not None:
                own = mend.record.circuits != record.circuits
                dear = own and cost is Cost.THICKER and _unwieldy(mend, judged.place.circuit)
                found.append((Cost.UNWIELDY if dear else cost, mend))
        return tuple(mend for _, mend in sorted(found, key=lambda each: each[0]))

    @cached_property
    def _before(self) -> Sequence[Judged]:
        return self._checks.of(self._record)


class _Checks:
    """The design checks of one design after another, each like the one before but for a change."""

    def __init__(self) -> None:
        self._figures, self._verdicts = Reuse(), Reuse()

    def of(self, record: Record) -> Sequence[Judged]:
        """Return the design checks of a record."""
        facts = Facts.of(record, expected(record, self._figures), reuse=self._verdicts)
        return self._verdicts.once("checks", partial(design_lines, facts))


@dataclass(frozen=True, slots=True)
class _Trial:
    """The check to mend, and how every check stands before a change."""

    key: str
    verdict: Verdict
    before: Mapping[str, Judged]
    checks: _Checks

    def of(self, change: Change, *, by_rcd: bool = False) -> Mend | None:
        """Return the mend, if the change is one.

        Args:
            change: What is tried.
            by_rcd: Whether it will do if an RCD alone disconnects, which the certifier decides.
        """
        lines = self.checks.of(change.record)
        own = next((each for each in lines if each.key == self.key), None)
        if own is None or any(
            worse(self.before.get(each.key), each) for each in lines if each is not own
        ):
            return None
        if change.larger_device and not _carries(lines, own):
            return None
        enough = (Verdict.WITHIN, Verdict.NOT_NEEDED)
        if own.verdict in enough or (
            by_rcd and own.verdict is Verdict.NEAR and self.verdict is Verdict.OUTSIDE
        ):
            return Mend(change.words, _stands(own), change.record)
        return None

    def first(self, tried: Iterable[Change], *, by_rcd: bool = False) -> Mend | None:
        """Return the first change that is a mend."""
        found = (self.of(each, by_rcd=by_rcd) for each in tried)
        return next((each for each in found if each is not None), None)

    def longest(self, owner: Owner) -> Mend | None:
        """Return the longest length that would do, of the run that is the longest now."""
        lengths = [run.length or 0.0 for run in owner.runs]
        if not lengths:
            return None
        at = lengths.index(max(lengths))
        low, high = 0, int(lengths[at] / _STEP)
        best: Mend | None = None
        while high - low > 1:
            middle = (low + high) // 2
            found = self.of(design_changes.shorter(owner, at, middle * _STEP))
            if found is None:
                high = middle
            else:
                low, best = middle, found
        return best


def _stands(line: Judged) -> str:
    """Return how a check stands: the figure and its limit, without the notes on both."""
    figure, limit = line.expected, line.limit
    if line.verdict is Verdict.WITHIN and isinstance(figure, Worked) and limit is not None:
        return f"{figure.symbol} {figure}, {limit}."
    return line.why


_FAILS = (Verdict.OUTSIDE, Verdict.UNLIKELY)


def worse(before: Judged | None, after: Judged) -> bool:
    """Return whether a check is worse than it was: it fails again or by more, or isn't shown now.

    Args:
        before: How it was; None if there was no such check.
        after: How it would be.
    """
    if before is None:
        return after.verdict in _FAILS
    if after.verdict in _FAILS:
        return before.verdict not in _FAILS or _excess(after) > _excess(before) + SLACK
    shown = before.verdict in (Verdict.WITHIN, Verdict.NOT_NEEDED, Verdict.NEAR)
    return shown and after.verdict is Verdict.NOT_TAKEN


def _excess(line: Judged) -> float:
    """Return by how much a failing check misses its limit, in its unit; 0 without a figure."""
    figure, limit = line.expected, line.limit
    if not isinstance(figure, Worked) or limit is None:
        return 0.0
    if limit.sense is Sense.LEAST:
        return limit.value - figure.value
    return (figure.value if figure.high is None else figure.high) - limit.value


def _carries(lines: Iterable[Judged], own: Judged) -> bool:
    """Whether the cable is shown to carry what its device lets through: In ≤ Iz."""
    key = design_key(own.place, What.IZ.value)
    return any(each.key == key and each.verdict is Verdict.WITHIN for each in lines)


Search = Callable[[_Trial], Mend | None]


class Cost(IntEnum):
    """What a change costs, in money and in sense: common practice."""

    DEVICE = 1
    """Another device in the same place."""
    RCD = 2
    THICKER = 3
    """A thicker cable of a size that its points take."""
    SHORTER = 4
    """A shorter way for the same cable: where there is one."""
    FEED = 5
    """A thicker or a shorter feed."""
    UNWIELDY = 6
    """A cable that is too thick for what it ends in."""


def _searches(record: Record, judged: Judged) -> Iterator[tuple[Cost, Search]]:
    """Yield what could mend a check, with what it costs; the change nearest to it first."""
    place = judged.place
    feed = Owner(record, None)
    own = Owner(record, place.circuit) if place.part is Part.CIRCUIT else feed
    match judged.what:
        case What.IB:
            yield Cost.DEVICE, _of(design_changes.larger_devices, own)
            yield Cost.THICKER, _of(design_changes.thicker_and_larger_device, own)
        case What.IZ:
            yield Cost.DEVICE, _of(design_changes.other_devices, own)
            yield Cost.THICKER, _of(design_changes.thicker, own)
        case What.VOLT_DROP | What.ZS | What.TIME:
            if judged.what in _LOOP:
                yield Cost.DEVICE, _of(design_changes.other_devices, own)
                # Behind an RCD the loop stays as it is; what changes is who disconnects it.
                time = design_key(place, What.TIME.value)
                yield (
                    Cost.RCD,
                    lambda trial: replace(trial, key=time).first(
                        design_changes.with_rcd(own), by_rcd=True
                    ),
                )
            yield Cost.THICKER, _of(design_changes.thicker, own)
            yield Cost.SHORTER, partial(_Trial.longest, owner=own)
            if own is not feed:
                yield Cost.FEED, _of(design_changes.thicker, feed)
                yield Cost.FEED, partial(_Trial.longest, owner=feed)
        case What.BREAKING:
            yield Cost.DEVICE, _of(design_changes.stronger, own)
        case What.CPC_SIZE:
            yield Cost.DEVICE, _of(design_changes.other_devices, own)
            yield Cost.RCD, _by_rcd(own)
            yield Cost.THICKER, _of(design_changes.larger_cpc, own)
            yield Cost.THICKER, _of(design_changes.thicker, own)
        case _:
            for each in _by_name(record, judged, own):
                yield Cost.DEVICE, each


def _unwieldy(mend: Mend, circuit: str | None) -> bool:
    """Whether a change makes a circuit's cable too thick for its points."""
    if circuit is None:
        return False
    changed = mend.record.circuit(circuit)
    kind = changed.use, changed.form is Form.RING
    most = next((size for each, size in _POINTS_TAKE.items() if each == kind), _OTHERS_TAKE)
    return any((run.csa or 0.0) > most for run in changed.runs)


_POINTS_TAKE = {
    (Use.SOCKETS, True): 4.0,
    (Use.SOCKETS, False): 6.0,
    (Use.LIGHTING, False): 2.5,
}
"""mm² that the terminals of points take: a socket-outlet two of 4 or one of 6 (BS 1363-2, from
memory); a luminaire or a switch 2.5 (common practice)."""
_OTHERS_TAKE = 10.0


def _by_name(record: Record, judged: Judged, own: Owner) -> Iterator[Search]:
    match judged.key.rsplit("/", 1)[-1]:
        case "30 mA protection" | "TT protection":
            yield _of(design_changes.with_rcd, own)
        case "RCD type":
            yield _of(design_changes.rcd_type, own)
        case "ring conductors":
            yield _of(design_changes.thicker, own)
            yield _of(design_changes.other_devices, own)
        case "bond size" if judged.place.point:
            bond = judged.place.point
            yield lambda trial: trial.first(design_changes.thicker_bond(record, bond))
        case "main switch":
            yield lambda trial: trial.first(design_changes.main_switch(record))


def _of(work: Callable[[Owner], Iterator[Change]], owner: Owner) -> Search:
    return lambda trial: trial.first(work(owner))


def _by_rcd(owner: Owner) -> Search:
    return lambda trial: trial.first(design_changes.with_rcd(owner), by_rcd=True)
