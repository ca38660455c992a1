"""Says where the text of a document differs from what its record gives."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from tui.commands.lines import wrapped
from tui.commands.output import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from records.document.comparison import Comparison, Difference
    from records.document.making import Making

_MOST = 40
_LONGEST = 300


def text_told(
    file: Path, number: int, document: Path, making: Making | None, template: Path | None
) -> bool | None:
    """Make a document again, compare it, and say how they differ.

    Args:
        file: The record file.
        number: The change after which the document was made.
        document: The document.
        making: What it says of its own making.
        template: The template that somebody named.
    Returns:
        Whether the text is what the record gives; None if that can't be said.
    Raises:
        FarboardError: If one of them can't be read, or the template can't be filled.
    """
    from io import BytesIO

    from records.document.comparison import compared
    from records.document.foreign import foreign
    from records.document.making import template_digest, version
    from records.document.paragraphs import pages
    from records.document.schedule import own_template, read_template, schedule_bytes
    from records.store.design_history import designs
    from records.store.file import RecordFile
    from records.store.showing import file_name

    if making is None:
        _say(
            f"✗ {file_name(document)} doesn't say when and with which template it was made: an "
            "older Farboard made it, or that was removed. Its text can't be compared. Write the "
            "schedule again from the record."
        )
        return None
    ours = own_template()
    used = ours if template is None else read_template(template)
    if template_digest(used) != making.template:
        _say(_other_template(making, template))
        return None
    with RecordFile.open(file, at=number) as then:
        again = schedule_bytes(
            then.record,
            fingerprint=then.fingerprint,
            made=making.made,
            template=None if used == ours else used,
            then=designs(then.history()),
            workings=making.workings,
            why_cable=making.why_cable,
        )
    with foreign(document) as stream:
        found = compared(pages(stream), pages(BytesIO(again)))
    _tell(found)
    if not found.same and making.version != version():
        _say(
            f"Farboard {making.version} made the document, this is {version()}: a difference in "
            "wording alone can come from that."
        )
    return found.same


def _other_template(making: Making, template: Path | None) -> str:
    from records.store.showing import file_name, shown

    digest = shown(making.template[:16])
    if template is None:
        return (
            "✗ The document was made with another template than the one that comes with this "
            f"Farboard; its SHA-256 begins {digest}. Name it: --template MINE.docx. Without it "
            "the text can't be compared."
        )
    return (
        f"✗ {file_name(template)} is not the template that the document was made with: the "
        f"SHA-256 of that one begins {digest}. Without it the text can't be compared."
    )


def _tell(found: Comparison) -> None:
    if found.same:
        _say("✓ The text is what the record gives, figure by figure.")
    else:
        count = len(found.differences)
        places = "1 place" if count == 1 else f"{count} places"
        _say(f"✗ The text differs from the record in {places}:")
        for each in found.differences[:_MOST]:
            _say(each.place or "before the first heading", "  ")
            _say(f"document: {_words(each.says)}", "    ")
            _say(f"record:   {_words(each.record)}", "    ")
        _more(found.differences)
    if found.added:
        _say("Written in the certifier's places, which the record doesn't know:")
        for each in found.added[:_MOST]:
            _say(f"{each.place}: {_words(each.says)}", "  ")
        _more(found.added)
    if found.redrawn:
        _say(
            "! The drawings are not as Farboard draws them. A word processor that saves a document "
            "draws them in its own way; else somebody changed them. Look at them beside a new "
            "schedule."
        )
    _say(
        "Compared is all text on the pages. What a picture shows, and what lies on top of a text, "
        "is not."
    )


def _more(found: Sequence[Difference]) -> None:
    if len(found) > _MOST:
        _say(f"… and {len(found) - _MOST} more", "  ")


def _words(text: str | None) -> str:
    from records.store.showing import shown

    return "nothing" if text is None else f"“{shown(text, _LONGEST)}”"


def _say(text: str, indent: str = "") -> None:
    say("\n".join(wrapped(text, first=indent, indent=indent)))
