"""The first sheet: what this is, the job, the people, the instruments, how it stands."""

from __future__ import annotations

from records.document.template.pieces import (
    TEXT_WIDTH,
    Column,
    cell,
    heading_row,
    para,
    row,
    table,
    tag,
    tag_row,
)

WIDE = TEXT_WIDTH["portrait"]
_NAME = 44.0


def pairs(*lines: tuple[str, str], width: float = WIDE, name: float = _NAME) -> str:
    """Return a table of two columns: what it is, and what it is here."""
    return table(
        (name, width - name),
        *(
            row(
                cell(what, width=name, style="CellHead"),
                cell(text, width=width - name),
            )
            for what, text in lines
        ),
    )


def listing(columns: tuple[Column, ...], loop: str, *texts: str) -> str:
    """Return a table with one row for each turn of a loop.

    Args:
        columns: The columns.
        loop: Such as `person in people`.
        texts: What stands in each column; an empty one is left free for a pen.
    """
    cells = (
        cell(text, width=column.width, to_fill_in=column.to_fill_in)
        for column, text in zip(columns, texts, strict=True)
    )
    return table(
        (each.width for each in columns),
        heading_row(columns),
        tag_row("{%tr for " + loop + " %}", columns),
        row(*cells),
        tag_row("{%tr endfor %}", columns),
    )


def front() -> str:
    """Return the first sheet."""
    return "".join(
        (
            para("Wiring of an outbuilding", style="Title"),
            para("What was built, what the meters showed, and what is open", style="Subtitle"),
            table(
                (WIDE,),
                row(
                    cell(
                        para("{{ schedule.standing }}", style="BoxedStrong"),
                        para("{{ schedule.purpose }}", style="Boxed"),
                        para("{{ schedule.rules }}", style="Boxed"),
                        tag("{%p if schedule.edition_note %}"),
                        para("{{ schedule.edition_note }}", style="BoxedStrong"),
                        tag("{%p endif %}"),
                        width=WIDE,
                    )
                ),
                ruled=False,
            ),
            para("The job", style="Heading2"),
            pairs(
                ("Reference", "{{ job.reference }}"),
                ("Place", "{{ job.place }}"),
                ("What is built", "{{ job.description }}"),
                ("Limits come from", "{{ job.edition }}"),
                ("Edition entered for the job", "{{ job.edition_entered }}"),
                ("Started on", "{{ job.started }}"),
                ("Temperature at the tests", "{{ job.ambient }}"),
                ("This schedule written", "{{ schedule.made }}"),
                ("Fingerprint of the record", "{{ schedule.fingerprint }}"),
            ),
            para("{{ schedule.fingerprint_meaning }} {{ schedule.times }}", style="Fine"),
            para("The people, and their part in it", style="Heading2"),
            listing(
                (Column("Name", 100), Column("Part in the job", WIDE - 100)),
                "person in people",
                "{{ person.name }}",
                "{{ person.part }}",
            ),
            para("The instruments", style="Heading2"),
            listing(
                (
                    Column("No", 11),
                    Column("Kind", 40),
                    Column("Serial number", 36),
                    Column("Calibrated", 21),
                    Column("Due", 21),
                    Column("Operating uncertainty", 22),
                    Column("Leads", WIDE - 151),
                ),
                "meter in instruments",
                "{{ meter.number }}",
                "{{ meter.kind }}",
                "{{ meter.serial }}",
                "{{ meter.calibrated }}",
                "{{ meter.due }}",
                "{{ meter.uncertainty }}",
                "{{ meter.leads }}",
            ),
            para("How readings, design figures and comparisons stand", style="Heading2"),
            listing(
                (
                    Column("Verdict", 34),
                    Column("How many", 18),
                    Column("What that means", WIDE - 52),
                ),
                "line in standing",
                "{{ line.verdict }}",
                "{{ line.number }}",
                "{{ line.meaning }}",
            ),
            tag("{%p if worst %}"),
            para("What to look at first", style="Heading2"),
            tag("{%p for line in worst %}"),
            para("{{ line }}"),
            tag("{%p endfor %}"),
            tag("{%p endif %}"),
        )
    )
