"""The sheets of what is open: findings, what was put right, what is missing, what isn't needed."""

from __future__ import annotations

from records.document.template.front import listing
from records.document.template.pieces import (
    TEXT_WIDTH,
    Column,
    cell,
    para,
    row,
    table,
    tag,
    tag_row,
)

WIDE = TEXT_WIDTH["portrait"]
_NAME = 31.0
_COLUMNS = (Column("", _NAME), Column("", WIDE - _NAME))


def _fact(name: str, *paragraphs: str, known: str = "") -> str:
    """Return a row of a finding, kept on one page with the next; only if `known` has something."""
    line = row(cell(name, width=_NAME, style="CellHead"), cell(*paragraphs, width=WIDE - _NAME))
    if not known:
        return line
    before, after = (tag_row(each, _COLUMNS) for each in (f"{{%tr if {known} %}}", "{%tr endif %}"))
    return before + line + after


def _decision() -> str:
    return row(
        cell("The certifier decides", width=_NAME, style="CellHead"),
        cell("", width=WIDE - _NAME, to_fill_in=True),
        height=9,
    )


def _each(loop: str) -> tuple[str, ...]:
    """Return paragraphs that print each line of a list."""
    return (
        tag("{%p for line in " + loop + " %}"),
        para("{{ line }}", style="CellKept"),
        tag("{%p endfor %}"),
    )


def findings() -> str:
    """Return the sheet of findings, worst first, and of what was put right."""
    return "".join(
        (
            para("What somebody must deal with, worst first", style="Heading1"),
            tag("{%p if not findings %}"),
            para(
                "No reading or design figure stands outside, near to or at odds with what it "
                "should be. That is no statement on what was not taken: see the next sheet."
            ),
            tag("{%p endif %}"),
            tag("{%p for f in findings %}"),
            para("{{ f.number }}   {{ f.verdict }}   {{ f.title }}", style="Heading2"),
            table(
                (_NAME, WIDE - _NAME),
                _fact("Readings", *_each("f.readings")),
                _fact("Expected", para("{{ f.expected }}", style="CellKept"), known="f.expected"),
                _fact("Limit", para("{{ f.limit }}", style="CellKept"), known="f.limit"),
                _fact("Why", para("{{ f.why }}", style="CellKept")),
                _fact("Likely causes", *_each("f.causes"), known="f.causes"),
                _fact(
                    "Next check", para("{{ f.next_check }}", style="CellKept"), known="f.next_check"
                ),
                _fact("What was done", *_each("f.remedies")),
                _decision(),
            ),
            tag("{%p endfor %}"),
            tag("{%p if put_right %}"),
            para("What was put right", style="Heading1"),
            listing(
                (
                    Column("What, where", 44),
                    Column("What was done", 54),
                    Column("Readings, first to last", 46),
                    Column("Now", WIDE - 144),
                ),
                "one in put_right",
                "{{ one.title }}",
                "{{ one.done }}",
                "{{ one.readings }}",
                "{{ one.now }}",
            ),
            tag("{%p endif %}"),
        )
    )


def gaps() -> str:
    """Return the sheet of what is missing, what is not needed and why."""
    return "".join(
        (
            para("What is still missing", style="Heading1"),
            para("A blank is never a pass."),
            listing(
                (
                    Column("Step of the work", 30),
                    Column("State", 26),
                    Column("Entered", 20),
                    Column("Open", 13),
                    Column("Still needs", WIDE - 89),
                ),
                "step in steps",
                "{{ step.name }}",
                "{{ step.state }}",
                "{{ step.taken }}",
                "{{ step.open }}",
                "{{ step.needs }}",
            ),
            tag("{%p if missing %}"),
            para("Not taken, or not known", style="Heading2"),
            listing(
                (Column("Where", 42), Column("Stage", 24), Column("What", WIDE - 66)),
                "one in missing",
                "{{ one.where }}",
                "{{ one.stage }}",
                "{{ one.what }}",
            ),
            tag("{%p endif %}"),
            tag("{%p if notes %}"),
            para("Not worked out, and why", style="Heading2"),
            tag("{%p for note in notes %}"),
            para("{{ note }}", style="Fine"),
            tag("{%p endfor %}"),
            tag("{%p endif %}"),
            para("What was not needed, and why", style="Heading1"),
            tag("{%p if not not_needed %}"),
            para("Nothing was set aside as not needed."),
            tag("{%p else %}"),
            listing(
                (Column("Where", 42), Column("What", 58), Column("Why", WIDE - 100)),
                "one in not_needed",
                "{{ one.where }}",
                "{{ one.what }}",
                "{{ one.why }}",
            ),
            tag("{%p endif %}"),
        )
    )
