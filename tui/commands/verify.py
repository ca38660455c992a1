"""Says whether a document belongs to a record and its text is the record's; checks the chain."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from records.days import moment_words
from tui.commands.lines import wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say
from tui.commands.trouble import Trouble

if TYPE_CHECKING:
    from records.document.mark import Marks
    from records.store.document_match import Belonging
    from records.store.file import RecordFile

_MOST = 40
SAME, GONE_ON, CANNOT, OTHER, DIFFERS = 0, 1, 2, 3, 6


@click.command()
@click.argument("document")
@click.argument("file", type=RECORD)
@click.option("--template", type=RECORD, help="The template of DOCUMENT, if it is your own.")
@click.pass_context
def verify(ctx: click.Context, document: str, file: Path, template: Path | None) -> None:
    """Say whether DOCUMENT was made from the record in FILE, and whether its text was changed.

    DOCUMENT is a schedule (.docx), or the fingerprint itself as it stands at the foot of each
    page: 3F2A-91BC-07DE-55AA. A schedule is made again from the record as it stood then, and
    compared paragraph by paragraph. What was written in the certifier's places is listed; it is
    no difference. Exit code 0: the same record, and the same text; 1: the record has gone on since
    (the text is as it was then); 3: not this record; 6: the text differs; 2: one of them can't be
    read or compared, or the chain of the file is not whole.
    """
    from records.document.mark import marks_in
    from records.errors import CannotOpen
    from records.store.document_match import belonging, typed_fingerprint
    from records.store.file import RecordFile
    from records.store.heading import check_is_file

    path = Path(document)
    typed = None if path.suffix else typed_fingerprint(document)
    marks = None if typed is not None else marks_in(path)
    mark = typed or _mark(path, marks)
    check_is_file(file)
    try:
        opened = RecordFile.open(file, read_only=True)
    except CannotOpen as error:
        _say(_damaged(file, mark, str(error)))
        ctx.exit(CANNOT)
    with opened:
        found = belonging(opened, mark)
        code = _told(opened, mark, found)
        if marks is None:
            _say(
                "This says which record a document was made from. To learn whether its text was "
                "left alone since, name the .docx file."
            )
        elif found.number is not None:
            from tui.commands.verify_text import text_told

            same = text_told(opened.path, found.number, path, marks.making, template)
            code = {True: code, False: DIFFERS, None: CANNOT}[same]
        ctx.exit(code)


def _mark(path: Path, marks: Marks | None) -> str:
    """Return the fingerprint of a document.

    Raises:
        Trouble: If there is none, or the document carries several.
    """
    from records.store.showing import file_name, shown

    match marks.all if marks is not None else ():
        case (mark,):
            return mark
        case ():
            raise Trouble(
                f"{file_name(path)} carries no fingerprint, so it can't be said where it is from."
            )
        case several:
            raise Trouble(
                f"{file_name(path)} carries several fingerprints ({shown(', '.join(several))}): "
                "it was put together from several documents, or changed afterwards. Ask for the "
                "one that was made from the record."
            )


def _told(opened: RecordFile, mark: str, found: Belonging) -> int:
    from records.store.document_match import Standing

    whole = f"The chain of the file is complete: {_changes(opened.number)}."
    match found.standing:
        case Standing.SAME:
            _say(f"✓ Same record: the document was made from this record as it is now ({mark}).")
            code = SAME
        case Standing.GONE_ON:
            count = len(found.later)
            _say(
                f"! The record has gone on since: the document was made after change "
                f"{found.number} ({mark}); {_changes(count)} followed."
            )
            if found.alike:
                _say("All of it was taken back: the record says again what it said then.")
            for each in found.later[:_MOST]:
                change = each.change
                _say(f"{change.number}  {moment_words(change.at)} UTC  {change.by}", "  ")
                for words in each.words:
                    _say(words, " " * 6)
            if count > _MOST:
                _say(f"… and {count - _MOST} more: farboard history FILE --last {count - _MOST}")
            code = GONE_ON
        case Standing.OTHER:
            _say(f"✗ Not this record: no state of it ever had the fingerprint {mark}.")
            code = OTHER
    _say(whole)
    _say(
        "Whoever recalculates the digests, or cuts off the last changes, makes a chain that looks "
        "complete. Only a fingerprint printed or noted elsewhere shows it."
    )
    return code


def _damaged(file: Path, mark: str, why: str) -> str:
    from records.errors import CannotOpen
    from records.store.rescue import rescued

    said = f"✗ The chain of the file is damaged. {why}"
    try:
        found = rescued(file)
    except CannotOpen:
        return f"{said} Nothing of it can be read, so nothing can be said of the document."
    readable = f"{_changes(len(found.fingerprints))} before the damage can still be read"
    if mark in found.fingerprints:
        at = found.fingerprints.index(mark) + 1
        return f"{said} {readable}; the document was made after change {at} of them."
    return f"{said} {readable}; the document was not made from any of those states."


def _changes(count: int) -> str:
    return "1 change" if count == 1 else f"{count} changes"


def _say(text: str, indent: str = "") -> None:
    say("\n".join(wrapped(text, first=indent, indent=indent)))
