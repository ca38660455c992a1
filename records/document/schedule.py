"""Writes the schedule of a record for the certifying electrician."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from records.disk import read_ordinary
from records.document.context import context
from records.document.fill_process import filled_apart
from records.document.filling import filled
from records.document.package import TEMPLATE
from records.document.saving import checked_place, save
from records.document.workings import WorkingsOf
from records.errors import BadTemplate, CannotWrite
from records.expected.plan import expected
from records.judgement.design_changed_since import Then, judged_again, with_changes_said
from records.judgement.review import review
from records.judgement.todo.progress import progress
from records.model.record import Record

_LARGEST = 20 * 1024**2


def write_schedule(
    record: Record,
    out: Path,
    *,
    fingerprint: str,
    made: datetime,
    template: Path | None = None,
    then: Sequence[Then] = (),
    workings: WorkingsOf = WorkingsOf.FINDINGS,
    why_cable: bool = False,
) -> None:
    """Write the schedule of a record as a word-processor document.

    The same arguments give the same bytes. The file appears whole or not at all.

    Args:
        record: The job.
        out: Where to; ends in .docx. A file of that name is replaced.
        fingerprint: Of the record as it stands, in readable groups.
        made: When this is written; without a zone it is taken as UTC.
        template: Somebody's own template; None for the one that comes with Farboard.
        then: The designs that readings were entered under (`records.store.design_history.designs`).
        workings: Of which figures the workings are printed.
        why_cable: Whether it says why the cables of the feed were chosen.
    Raises:
        CannotWrite: If the document can't be put there.
        BadTemplate: If the template can't be read or filled.
    """
    place = checked_place(out)
    if template is not None and template.exists() and place.exists() and place.samefile(template):
        raise CannotWrite(
            f"“{out}” is the template itself: give the schedule another name, to keep it."
        )
    own = None if template is None else read_template(template)
    document = schedule_bytes(
        record,
        fingerprint=fingerprint,
        made=made,
        template=own,
        then=then,
        workings=workings,
        why_cable=why_cable,
    )
    save(document, place)


def schedule_bytes(
    record: Record,
    *,
    fingerprint: str,
    made: datetime,
    template: bytes | None = None,
    then: Sequence[Then] = (),
    workings: WorkingsOf = WorkingsOf.FINDINGS,
    why_cable: bool = False,
) -> bytes:
    """Return the schedule of a record as a word-processor document; for the arguments see above.

    Raises:
        BadTemplate: If the template can't be filled.
    """
    made = made if made.tzinfo else made.replace(tzinfo=UTC)
    follows = expected(record)
    verdicts = with_changes_said(review(record, follows), judged_again(then, record, follows))
    values = context(
        record,
        follows,
        verdicts,
        progress(record, verdicts),
        fingerprint=fingerprint,
        made=made,
        workings=workings,
        why_cable=why_cable,
    )
    values["schedule"]["workings"] = workings.value
    values["schedule"]["why_cable"] = "yes" if why_cable else ""
    if template is None or template == own_template():
        return filled(own_template(), values, made, own=True)
    return filled_apart(template, values, made)


def own_template() -> bytes:
    """Return the template that comes with Farboard, for a person to edit a copy of."""
    return TEMPLATE.read_bytes()


def read_template(template: Path) -> bytes:
    """Return somebody's own template.

    Raises:
        BadTemplate: If it can't be read.
    """
    try:
        return read_ordinary(template, _LARGEST)
    except FileNotFoundError:
        raise BadTemplate(f"There is no template “{template}”.") from None
    except IsADirectoryError:
        raise BadTemplate(f"“{template}” is a folder: give the template’s own name.") from None
    except OSError as error:
        raise BadTemplate(
            f"The template “{template}” can’t be read: {error.strerror or error}."
        ) from error
