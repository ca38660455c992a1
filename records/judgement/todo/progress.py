"""The order of the work: how each step stands, and what must be right before the next."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from records.judgement.advice.not_taken import stands_in
from records.judgement.harm import is_of_fabric
from records.judgement.review_types import Judged, Life, Review
from records.judgement.todo.inputs import inputs
from records.judgement.todo.standing import Standing, State, standing
from records.judgement.todo.walking import NO_ROOM, left, stop_words
from records.model.reading import NotTaken, Reading, Slot
from records.model.record import Record
from records.model.slots import measured_by, slots, title
from records.terms import STEP_OF_STAGE, Part, Stage, Step, Verdict

__all__ = ["Standing", "State", "open_in", "progress", "step_of"]

_DESIGN = (Step.JOB, Step.ORIGIN, Step.FEED, Step.BOARD, Step.CIRCUITS)
_STEP_OF_PART = {
    Part.ORIGIN: Step.ORIGIN,
    Part.FEED: Step.FEED,
    Part.BOARD: Step.BOARD,
    Part.CIRCUIT: Step.CIRCUITS,
}


def progress(record: Record, review: Review) -> Mapping[Step, Standing]:
    """Return how each of the ten steps stands.

    Args:
        record: The job.
        review: Its review.
    """
    found: dict[Step, list[Judged]] = {step: [] for step in Step}
    for line in review.findings:
        found[step_of(line)].append(line)
    standings = {step: _design(record, step, found[step]) for step in _DESIGN}
    for stage, step in STEP_OF_STAGE.items():
        standings[step] = _stage(record, stage, found[step])
    standings[Step.REVIEW] = _review(record, review)
    standings[Step.HAND_OVER] = _hand_over(record, review, standings)
    return {step: standings[step] for step in Step}


def step_of(line: Judged) -> Step:
    """Return the step of the walk that a line of the review belongs to."""
    if line.slot is not None:
        return STEP_OF_STAGE[line.slot.stage]
    if line.about:
        return max((STEP_OF_STAGE[slot.stage] for slot in line.about), key=list(Step).index)
    if is_of_fabric(line.key):
        return Step.BEFORE_COVERING
    return _STEP_OF_PART[line.place.part]


def open_in(review: Review, step: Step) -> tuple[Judged, ...]:
    """Return the findings that a step's count of what is open is made of, the worst first."""
    return tuple(each for each in review.findings if each.is_trouble and step_of(each) is step)


def _design(record: Record, step: Step, found: Iterable[Judged]) -> Standing:
    wanted = inputs(record, step)
    needs = tuple(each.need for each in wanted if not each.there)
    trouble = sum(line.is_trouble for line in found)
    return standing(len(wanted) - len(needs), len(wanted), trouble, needs)


def _stage(record: Record, stage: Stage, found: Iterable[Judged]) -> Standing:
    wanted = {slot: record.taken(slot) for slot in slots(record, stage)}
    taken = sum(map(_answered, wanted.values()))
    needs = [*_missing(record, stage), *_not_takeable(record, wanted)]
    if stage is Stage.LIVE and not _gate_open(record):
        needs.insert(0, "Answer the question on safe isolation before the live tests.")
    if not record.circuits:
        needs.insert(0, "Enter the circuits first: they decide which readings are needed.")
    begun = sum(map(bool, wanted.values()))
    trouble = sum(line.is_trouble for line in found)
    made = standing(begun, len(wanted), trouble, tuple(needs))
    return Standing(made.state, taken, made.wanted, made.open, made.needs)


def _gate_open(record: Record) -> bool:
    return any(each.isolation_understood for each in record.live_gate)


def _answered(attempts: tuple[Reading, ...]) -> bool:
    return bool(attempts) and not isinstance(attempts[-1].taken, NotTaken)


def _missing(record: Record, stage: Stage) -> tuple[str, ...]:
    """Return the readings still to test, in walking order: one sentence a circuit and place."""
    return tuple(
        f"{'' if stop.name == NO_ROOM else f'{stop.heading} · '}{words} still to test."
        for stop in left(record, stage)
        for words in stop_words(record, stop)
    )


def _not_takeable(record: Record, wanted: Mapping[Slot, tuple[Reading, ...]]) -> tuple[str, ...]:
    return tuple(
        f"{title(record, slot.place)}: {measured_by(slot).symbol} could not be taken. "
        f"{stands_in(slot, taken)}"
        for slot, attempts in wanted.items()
        if attempts and isinstance(taken := attempts[-1].taken, NotTaken)
    )


def _review(record: Record, review: Review) -> Standing:
    trouble = [line for line in review.findings if line.is_trouble]
    dealt = sum(bool(line.remedies) for line in trouble)
    left = [line for line in trouble if line.life is not Life.DECIDE]
    counts = {
        verdict: sum(line.verdict is verdict for line in left)
        for verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NEAR)
    }
    needs = tuple(
        f"{count} finding{'s' if count > 1 else ''} {verdict.value} to deal with."
        for verdict, count in counts.items()
        if count
    )
    passed = _passed(review)
    if passed:
        needs = (*needs, f"{passed} passed to the certifier to decide.")
    if not record.readings and not trouble:
        return Standing(State.EMPTY, 0, 0, 0, ("There is nothing to review yet.",))
    state = State.FINDINGS if trouble else State.COMPLETE
    return Standing(state, dealt, len(trouble), len(trouble), needs)


def _hand_over(record: Record, review: Review, standings: Mapping[Step, Standing]) -> Standing:
    steps = [step for step in standings if step is not Step.REVIEW]
    lacking = [step for step in steps if standings[step].needs]
    needs = [
        f"{step.value}: {len(standings[step].needs)} thing{'s' * (len(standings[step].needs) > 1)} "
        "missing."
        for step in lacking
    ]
    trouble = sum(line.is_trouble for line in review.findings)
    if trouble:
        passed = _passed(review)
        noted = f", {passed} of them with a note to decide" if passed else ""
        needs.append(
            f"{trouble} finding{'s' * (trouble > 1)} open{noted}: they go to the certifier as "
            "they are."
        )
    done = len(steps) - len(lacking)
    if not record.readings:
        return Standing(State.EMPTY, done, len(steps), trouble, tuple(needs))
    state = State.FINDINGS if trouble else State.BEGUN if needs else State.COMPLETE
    return Standing(state, done, len(steps), trouble, tuple(needs))


def _passed(review: Review) -> int:
    return sum(line.life is Life.DECIDE for line in review.findings)
