"""The sheets of figures: what must be expected, and what the meters showed."""

from __future__ import annotations

from records.document.template.built import WIDE
from records.document.template.front import listing
from records.document.template.pieces import (
    Column,
    cell,
    heading_row,
    para,
    row,
    table,
    tag,
    tag_row,
)


def expectations() -> str:
    """Return the sheet of design figures: three tables, one row for each part."""
    return "".join(
        (
            para("What must be expected", style="Heading1"),
            para(
                "From the design, conductors at operating temperature; “read” is the same from "
                "the readings so far. How each was worked out stands in the appendix. {{ marks }}",
                style="Lead",
            ),
            para("Load, cable and voltage drop", style="Heading2"),
            listing(
                (
                    Column("Where", 62),
                    Column("Ib", 26),
                    Column("In", 24),
                    Column("Iz", 28),
                    Column("Voltage drop to the far point", 40),
                    Column("At most", 30),
                    Column("cpc", 29),
                    Column("cpc at least", WIDE - 239),
                ),
                "line in loads",
                "{{ line.where }}",
                "{{ line.ib }}",
                "{{ line.rating }}",
                "{{ line.iz }}",
                "{{ line.drop }}",
                "{{ line.drop_limit }}",
                "{{ line.cpc }}",
                "{{ line.cpc_least }}",
            ),
            para("Earth fault loop", style="Heading2"),
            listing(
                (
                    Column("Where", 62),
                    Column("Zs, hot", 34),
                    Column("Zs from what was read", 36),
                    Column("Table maximum, hot", 34),
                    Column("Cold: 0.8 × table", 34),
                    Column("Cold: worked out exactly", 36),
                    Column("Electrode RA", WIDE - 236),
                ),
                "line in loops",
                "{{ line.where }}",
                "{{ line.zs }}",
                "{{ line.zs_read }}",
                "{{ line.zs_limit }}",
                "{{ line.zs_cold }}",
                "{{ line.zs_exact }}",
                "{{ line.ra_limit }}",
            ),
            para("Fault current and disconnection", style="Heading2"),
            listing(
                (
                    Column("Where", 52),
                    Column("Highest fault current", 34),
                    Column("Breaking capacity", 26),
                    Column("Lowest fault current", 36),
                    Column("Must be off within", 28),
                    Column("Overcurrent device", 48),
                    Column("RCD", WIDE - 224),
                ),
                "line in faults",
                "{{ line.where }}",
                "{{ line.fault_highest }}",
                "{{ line.breaking }}",
                "{{ line.fault_lowest }}",
                "{{ line.time_required }}",
                "{{ line.time }}",
                "{{ line.time_rcd }}",
            ),
        )
    )


_READINGS = (
    Column("Where", 29),
    Column("What", 40),
    Column("Stage", 23),
    Column("Expected", 28),
    Column("Limit", 33),
    Column("Measured", 32),
    Column("Verdict", 24),
    Column("Instrument, by, when", 33),
    Column("Certifier’s own reading", WIDE - 242, to_fill_in=True),
)


def readings() -> str:
    """Return the sheet of readings: one row each, a heading for each part."""
    texts = (
        ("{{ r.where }}",),
        ("{{ r.what }}",),
        ("{{ r.stage }}",),
        ("{{ r.expected }}",),
        ("{{ r.limit }}",),
        (
            para("{{ r.measured }}", style="CellStrong"),
            tag("{%p if r.detail %}"),
            para("{{ r.detail }}", style="CellSmall"),
            tag("{%p endif %}"),
        ),
        (
            tag("{%p if r.alarm %}"),
            para("{{ r.verdict }}", style="CellAlarm"),
            tag("{%p else %}"),
            para("{{ r.verdict }}", style="Cell"),
            tag("{%p endif %}"),
            tag("{%p if r.see %}"),
            para("{{ r.see }}", style="CellSmall"),
            tag("{%p endif %}"),
        ),
        (
            tag("{%p for line in r.how %}"),
            para("{{ line }}", style="CellSmall"),
            tag("{%p endfor %}"),
        ),
        ("",),
    )
    cells = (
        cell(*text, width=column.width, to_fill_in=column.to_fill_in)
        for column, text in zip(_READINGS, texts, strict=True)
    )
    group = row(cell("{{ group.name }}", width=WIDE, span=len(_READINGS), style="CellGroup"))
    remark = row(
        cell(
            "{{ r.where }}, {{ r.what }}: {{ r.remark }}",
            width=WIDE, span=len(_READINGS), style="CellSmall",
        )
    )  # fmt: skip
    return "".join(
        (
            para("What the meters showed", style="Heading1", new_page=True),
            para(
                "One row for each reading, part by part in the order of the work. An earlier "
                "reading stays where a later one took its place. [n] is the source at the end, Wn "
                "the working in the appendix, Fn the finding, Nn the note on what could not be "
                "worked out. The last column is the certifier’s."
            ),
            tag("{%p for line in live_gate %}"),
            para("{{ line }}"),
            tag("{%p endfor %}"),
            table(
                (each.width for each in _READINGS),
                heading_row(_READINGS),
                tag_row("{%tr for group in readings %}", _READINGS),
                group,
                tag_row("{%tr for r in group.lines %}", _READINGS),
                row(*cells),
                tag_row("{%tr if r.remark %}", _READINGS),
                remark,
                tag_row("{%tr endif %}", _READINGS),
                tag_row("{%tr endfor %}", _READINGS),
                tag_row("{%tr endfor %}", _READINGS),
            ),
        )
    )
