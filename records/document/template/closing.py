"""The last sheets: workings, sources, cautions, limits of the record, the certifier's own notes."""

from __future__ import annotations

from records.document.template import built, open_points
from records.document.template.pieces import (
    Column,
    cell,
    heading_row,
    para,
    row,
    run,
    table,
    tag,
    tag_row,
)

_WORKING = (
    Column("No", 13),
    Column("Figure", 58),
    Column("Formula, then the values in it", 128),
    Column("Result", 40),
    Column("Sources", built.WIDE - 239),
)
_SAMPLE = (
    Column("Where", 40),
    Column("What", 40),
    Column("Reading", 28),
    Column("Instrument", 28),
    Column("Does it agree with the record?", open_points.WIDE - 136),
)
_SAMPLE_ROWS = 7


def workings() -> str:
    """Return the appendix: each expectation with its formula, values, result and sources."""
    texts = (
        "{{ w.number }}",
        "{{ w.figure }}",
        "{{ w.formula }}{{ w.note }}",
        para(run("{{ w.result }}", bold=True), style="CellSmall"),
        "{{ w.sources }}",
    )
    cells = (
        cell(text, width=column.width, style="CellSmall")
        for column, text in zip(_WORKING, texts, strict=True)
    )
    return "".join(
        (
            para("How each figure was worked out", style="Heading1"),
            tag("{%p if not workings %}"),
            para("Nothing could be worked out yet."),
            tag("{%p else %}"),
            table(
                (each.width for each in _WORKING),
                heading_row(_WORKING),
                tag_row("{%tr for group in workings %}", _WORKING),
                row(
                    cell(
                        "{{ group.name }}", width=built.WIDE, span=len(_WORKING), style="CellGroup"
                    )
                ),
                tag_row("{%tr for w in group.lines %}", _WORKING),
                row(*cells),
                tag_row("{%tr endfor %}", _WORKING),
                tag_row("{%tr endfor %}", _WORKING),
            ),
            tag("{%p endif %}"),
        )
    )


def closing() -> str:
    """Return the sources, the cautions, the limits of the record, room for the certifier's own."""
    blank = tuple(cell("", width=each.width, to_fill_in=True) for each in _SAMPLE)
    return "".join(
        (
            para("Where the limits and figures come from", style="Heading1"),
            para("{{ schedule.rules }}"),
            tag("{%p for line in sources %}"),
            para("{{ line }}", style="Fine"),
            tag("{%p endfor %}"),
            para("Before anything is opened, touched or tested", style="Heading1", new_page=True),
            tag("{%p for line in cautions %}"),
            para("{{ line }}"),
            tag("{%p endfor %}"),
            para("What this record can’t say", style="Heading1"),
            tag("{%p for line in limitations %}"),
            para("{{ line }}"),
            tag("{%p endfor %}"),
            para("The certifier’s own sample", style="Heading1"),
            para(
                "Left free on purpose. The certifier chooses what to test again; nothing here is "
                "filled in beforehand, and nobody’s name stands in for them."
            ),
            table(
                (each.width for each in _SAMPLE),
                heading_row(_SAMPLE),
                *(row(*blank, height=8) for _ in range(_SAMPLE_ROWS)),
            ),
        )
    )
