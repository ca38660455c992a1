"""A record out as JSON, and in again."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from tui.commands.opening import RECORD, at_option
from tui.commands.output import say, send, write_text

_DASH = Path("-")


@click.command("export")
@click.argument("file", type=RECORD)
@click.option("-o", "--out", type=RECORD, default=_DASH, help="A file; without it: the screen.")
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
@at_option
def export_record(file: Path, out: Path, force: bool, at: int | None) -> None:
    """Print a record as JSON, for other programs and for keeping.

    Equal records give equal text, so it can be kept in version control.
    """
    from records.store.exchange import to_json
    from records.store.record_in import record_in

    text = to_json(record_in(file, at).record)
    if out == _DASH:
        # Bytes: JSON is UTF-8 (RFC 8259, section 8.1), whatever the terminal speaks.
        send(text)
    else:
        write_text(out, text, force=force)
        say(f"Written to {_shown(out)}")


@click.command("import")
@click.argument("json", type=RECORD)
@click.option("-o", "--out", type=RECORD, required=True, help="The record file to make.")
@click.option("--by", default="", help="Who brings it in, for the history.")
def import_record(json: Path, out: Path, by: str) -> None:
    """Make a record file from JSON; - reads what is piped in."""
    from records.store.exchange import LARGEST, from_json
    from records.store.file import RecordFile
    from records.store.record_in import json_record
    from tui.commands.trouble import Trouble

    if json == _DASH:
        try:
            record = from_json(sys.stdin.buffer.read(4 * LARGEST).decode("utf-8-sig"))
        except UnicodeDecodeError:
            raise Trouble("What comes in is not text in UTF-8, which JSON has to be.") from None
    else:
        record = json_record(json)
    with RecordFile.create(out, record, by=by) as made:
        say(f"The record is in {_shown(out)}, fingerprint {made.fingerprint}")


@click.command()
@click.option("-o", "--out", type=RECORD, default=_DASH, help="A file; without it: the screen.")
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
@click.option("--check", "of_check", is_flag=True, help="Of what check --json writes.")
def schema(out: Path, force: bool, of_check: bool) -> None:
    """Print the JSON Schema of what export writes and import reads."""
    if of_check:
        from tui.commands.check_schema import schema as text_of_schema
    else:
        from records.store.exchange import schema as text_of_schema

    if out == _DASH:
        send(text_of_schema())
    else:
        write_text(out, text_of_schema(), force=force)
        say(f"Written to {_shown(out)}")


def _shown(path: Path) -> str:
    from records.store.showing import file_name

    return file_name(path)
