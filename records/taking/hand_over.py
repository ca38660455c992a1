"""What is handed over: what is complete, what is missing, and where the document goes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from records.days import moment_words
from records.document.saving import checked_place
from records.document.words import unmarked
from records.errors import BadText
from records.judgement.todo.progress import Standing, State
from records.judgement.wording import said
from records.model.reading import NotNeeded, NotTaken
from records.model.record import Record
from records.model.slots import measured_by, title
from records.taking.how_left import left_words
from records.taking.lower_voltage import set_aside
from records.taking.sentences import ended
from records.terms import Step
from records.text import checked_text


@dataclass(frozen=True, slots=True)
class StepState:
    """How one step stands at hand-over."""

    step: Step
    standing: Standing

    @property
    def is_complete(self) -> bool:
        """Whether nothing of it is missing or open."""
        return self.standing.state is State.COMPLETE

    @property
    def words(self) -> str:
        """The state with its counts: `begun · 3 of 12 taken · 1 open`."""
        parts = [self.standing.state.value]
        if self.standing.wanted:
            parts.append(f"{self.standing.taken} of {self.standing.wanted}")
        if self.standing.open:
            parts.append(f"{self.standing.open} open")
        return " · ".join(parts)


def states(progress: Mapping[Step, Standing]) -> tuple[StepState, ...]:
    """Return the steps before the hand-over itself, in the order of the work."""
    return tuple(
        StepState(step, progress[step])
        for step in Step
        if step in progress and step is not Step.HAND_OVER
    )


def limitations(record: Record) -> tuple[str, ...]:
    """Return, in sentences, what a reader has to know that no verdict says."""
    return tuple(_limitations(record))


def suggested(record_path: Path) -> Path:
    """Return where the document goes if nobody says otherwise: beside the record, same name."""
    return record_path.with_suffix(".docx")


def target(text: str, record_path: Path) -> Path:
    """Return the file that a typed name means; a bare name lies beside the record.

    Raises:
        BadText: If nothing is typed, or it can't be a name.
        CannotWrite: If no document can be written there; the message says what would do.
    """
    name = checked_text(text, 400)
    if not name:
        raise BadText(f"Type a file name, such as {suggested(record_path).name}.")
    try:
        path = Path(name).expanduser()
    except RuntimeError:
        raise BadText(f"“{name}”: there is no such person here; type the full path.") from None
    if not path.is_absolute():
        path = record_path.parent / path
    if path.is_dir():
        raise BadText(f"{path} is a folder: add a name, such as {path / 'schedule.docx'}.")
    if path.suffix.lower() not in _SUFFIXES:
        path = path.with_name(f"{path.name}.docx")  # 7.2 is the end of a job's name, not a kind
    checked_place(path)
    return path


_SUFFIXES = {".docx", ".doc", ".odt", ".rtf", ".txt", ".pdf", ".json", ".farboard", ".xlsx", ".csv"}
"""What people mean as a kind of file: all but the first are refused, with the right one named."""


def _limitations(record: Record) -> Iterator[str]:
    last = {each.slot: each for each in record.readings}
    for slot, reading in last.items():
        if isinstance(reading.taken, NotTaken | NotNeeded):
            yield (
                f"{title(record, slot.place)}, {measured_by(slot).title}, {slot.stage.value}: "
                f"{ended(said(reading.taken, measured_by(slot)))}"
            )
    for slot, why in set_aside(record):
        yield f"{title(record, slot.place)}, {measured_by(slot).title}, {slot.stage.value}: {why}."
    if left := left_words(record):
        yield left
    noted = sum(each.from_notes is not None for each in record.readings)
    if noted:
        yield f"{_readings(noted)} entered later, from notes; both times are in the schedule."
    unnamed = sum(each.by is None for each in record.readings)
    if unnamed:
        yield f"{_readings(unnamed)} entered without the name of a person."
    names = {each.id: each.name or each.id for each in record.job.people}
    for gate in record.live_gate:
        if gate.despite:
            yield (
                f"Live tests were begun on {moment_words(gate.at)} although the dead tests had "
                f"open findings: {'; '.join(map(unmarked, gate.despite))}."
            )
    made = {each for gate in record.live_gate for each in gate.exceptions}
    for each in sorted(made, key=lambda each: each.circuit):
        yield (
            f"{each.circuit} was tested live in spite of {'; '.join(each.despite)}: decided by "
            f"{names.get(each.by, each.by)}, because {each.reason.rstrip('.')}."
        )


def _readings(count: int) -> str:
    return "One reading was" if count == 1 else f"{count} readings were"
