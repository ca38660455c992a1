"""The list of what to buy as a file: for a spreadsheet, or as a page to print."""

from __future__ import annotations

from html import escape
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from records.errors import BadText
from records.options.confirm import BEFORE_BUYING

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.buy import BuyList

PAGES = (".html", ".htm")
HEAD = ("Sort", "What", "Quantity", "Unit", "For", "Note")
_LOOK = (
    "body{font:11pt sans-serif;max-width:180mm;margin:10mm auto}h1{font-size:15pt}"
    "h2{font-size:12pt;margin:5mm 0 1mm}table{border-collapse:collapse;width:100%}"
    "td{border-top:1px solid #999;padding:1mm 2mm;vertical-align:top}"
    "td:first-child{width:6mm}td:nth-child(2){white-space:nowrap;text-align:right}small{color:#444}"
)


def as_file(path: Path, record: Record, bought: BuyList) -> bytes:
    """Return the list as the ending of a file's name asks for.

    Args:
        path: Its name: `.csv` for a spreadsheet, `.html` for a page to print.
        record: The job.
        bought: Its list.
    Raises:
        BadText: If the ending is another.
    """
    ending = path.suffix.casefold()
    if ending in PAGES:
        return as_page(record, bought).encode()
    if ending == ".csv":
        return as_csv(bought).encode()
    raise BadText(f"“{path.name}”: end it in .csv for a spreadsheet, or .html for a page.")


def as_csv(bought: BuyList) -> str:
    """Return the list for a spreadsheet; no cell is taken for a formula."""
    from records.store.table_text import to_text

    rows = [
        (
            each.sort.value,
            each.what,
            str(each.quantity),
            each.unit or "pieces",
            ", ".join(each.uses),
            each.note,
        )
        for each in bought.items
    ]
    rows += [("not listed", each, "", "", "", "") for each in bought.missing]
    return to_text(HEAD, rows)


def as_page(record: Record, bought: BuyList) -> str:
    """Return the list as a page that any browser shows and prints, with boxes to tick."""
    name = record.job.reference or record.job.place or "the outbuilding"
    parts = [
        f"<h1>To buy for {escape(name)}</h1>",
        f"<p>Cable with {bought.allowance:g} % over what is entered. {BEFORE_BUYING}</p>",
    ]
    for sort, same in groupby(bought.items, lambda each: each.sort):
        rows = [
            f"<tr><td>☐</td><td>{each.quantity} {each.unit or '×'}</td><td>{escape(each.what)} "
            f"<small>{escape(', '.join(each.uses))}. {escape(each.note)}</small></td></tr>"
            for each in same
        ]
        parts.append(f"<h2>{escape(sort.value)}</h2><table>{''.join(rows)}</table>")
    if bought.missing:
        lines = "".join(f"<li>{escape(each)}</li>" for each in bought.missing)
        parts.append(f"<h2>Not on the list until it is entered</h2><ul>{lines}</ul>")
    body = "\n".join(parts)
    head = f'<meta charset="utf-8"><title>{escape(name)}: to buy</title><style>{_LOOK}</style>'
    return f'<!DOCTYPE html>\n<html lang="en-GB"><head>{head}</head><body>{body}</body></html>\n'
