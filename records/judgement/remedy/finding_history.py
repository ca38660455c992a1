"""The life of a finding: open, remedied, re-tested; the first reading stays."""

from __future__ import annotations

from collections.abc import Sequence

from records.judgement.facts import Facts
from records.judgement.review_types import Judged, Life, key_of
from records.model.reading import Reading, Remedy
from records.terms import Verdict, WorkKind


def with_remedies(
    facts: Facts, lines: Sequence[Judged]
) -> tuple[tuple[Judged, ...], tuple[Remedy, ...]]:
    """Attach what was done to the lines it was done about.

    A remedy of a finding whose line is gone goes to the readings that the finding was about; if
    those aren't known, to the readings of the same place that were repeated after it; if there are
    none, it is settled.

    What was passed to the certifier changes no verdict: it only stands beside the finding.

    Returns:
        The lines, each with how far its finding has come, and the settled remedies.
    """
    keys = {line.key for line in lines}
    by_key: dict[str, list[Remedy]] = {}
    settled = []
    for remedy in sorted(facts.record.remedies, key=lambda each: (each.at, each.id)):
        if remedy.finding in keys:
            by_key.setdefault(remedy.finding, []).append(remedy)
            continue
        about = [key for slot in remedy.about if (key := key_of(slot)) in keys]
        repeated = about or [line.key for line in lines if _repeats(line, remedy)]
        for key in repeated:
            by_key.setdefault(key, []).append(remedy)
        if not repeated:
            settled.append(remedy)
    done = tuple(_attach(line, tuple(by_key.get(line.key, ()))) for line in lines)
    return done, tuple(settled)


def _repeats(line: Judged, remedy: Remedy) -> bool:
    place = "/".join(remedy.finding.split("/")[:2])
    if not line.key.startswith(f"{place}/") or line.slot is None:
        return False
    times = [each.at for each in line.attempts]
    return any(at <= remedy.at for at in times) and any(at > remedy.at for at in times)


def _attach(line: Judged, remedies: tuple[Remedy, ...]) -> Judged:
    done = [each for each in remedies if not each.to_decide]
    told = line._replace(remedies=remedies) if remedies else line
    if done:
        told = _reading(told, done[-1]) if line.slot is not None else _other(told, done[-1])
    life = _life(told, done)
    if life is Life.DECIDE:
        note = remedies[-1].done.rstrip(".")
        told = told._replace(why=f"{told.why} Passed to the certifier to decide: {note}.")
    return told if told.life is life else told._replace(life=life)


def _life(line: Judged, done: Sequence[Remedy]) -> Life | None:
    """Return how far a finding has come, from the verdict as it stands now."""
    if not line.is_finding:
        return Life.RETESTED if line.remedies and line.verdict is Verdict.WITHIN else None
    if not line.remedies:
        return Life.OPEN
    last = line.remedies[-1]
    if last.to_decide:
        return Life.OPEN if _since(line, last) else Life.DECIDE
    return Life.STILL if _since(line, done[-1]) else Life.REMEDIED


def _since(line: Judged, remedy: Remedy) -> list[Reading]:
    return [each for each in line.attempts if each.at > remedy.at]


def _reading(line: Judged, last: Remedy) -> Judged:
    if last.kind is WorkKind.MISREAD:
        # No work was done, so nothing has to be shown but the reading itself.
        words = f"The first reading was wrong ({last.done.rstrip('.')}); it is kept."
        if line.verdict.is_finding and not _since(line, last):
            words = f"It is said to be wrong ({last.done.rstrip('.')}): read it again."
        return line._replace(why=f"{line.why} {words}")
    if _since(line, last):
        return line._replace(why=f"{line.why} {_history(line.attempts, last)}")
    why = (
        f"{line.why} Something was done about it ({last.done.rstrip('.')}), "
        "but it was not read again since: it stays open until it is."
    )
    # A good reading from before the work says nothing about the work.
    verdict = Verdict.NOT_TAKEN if line.verdict is Verdict.WITHIN else line.verdict
    return line._replace(why=why, verdict=verdict, part_of="")


def _history(attempts: Sequence[Reading], last: Remedy) -> str:
    before = sum(each.at <= last.at for each in attempts)
    first = f"{before} reading{'s' if before != 1 else ''} before it"
    return f"Read again after what was done ({last.done.rstrip('.')}); {first} kept."


def _other(line: Judged, last: Remedy) -> Judged:
    if not line.verdict.is_finding:
        return line
    if line.verdict is Verdict.NOT_TAKEN and line.about:
        # A pattern that asks for readings: a reason why they aren't needed settles it.
        why = f"{line.why} Settled with a reason: {last.done.rstrip('.')}."
        return line._replace(why=why, verdict=Verdict.NOT_NEEDED)
    why = (
        f"{line.why} Something was done about it ({last.done.rstrip('.')}), "
        "but the record still shows it."
    )
    return line._replace(why=why)
