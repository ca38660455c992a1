"""What stands behind the findings: drawings, the pages of certifier and household, annexes."""

from __future__ import annotations

from records.document.template.look import TEXT_WIDTH
from records.document.template.pages import circuit_columns, part
from records.document.template.pieces import Column, Page


def drawings(page: Page) -> None:
    """Part 7: the single-line diagram, and pictures where a reading makes one worth having."""
    part(page, "part_7")
    page.tag("if not circuits")
    page.text("Nothing can be drawn yet.")
    page.tag("else")
    page.text(
        "Single-line diagram; the same in words: parts 2 to 4. Dashed and “open”: readings are "
        "missing. F: a finding.",
        "Picture",
    )
    page.each("image in diagram.images", "{{ image }}", "Picture alone")
    page.tag("endif")
    page.tag("for picture in pictures")
    page.heading("{{ picture.title }}", level=2)
    page.text("{{ picture.image }}", "Picture")
    page.text("{% for line in picture.words %}{{ line }} {% endfor %}", "Cell")
    page.tag("endfor")


def photographs(page: Page) -> None:
    """The photographs that lie beside the record, by name."""
    page.table(
        "Photographs beside the record, taken before the surface was closed",
        (
            Column("Surface", 32, "{{ p.where }}"),
            Column("Picture", 36, "{{ p.picture }}"),
            Column("File", 36, "{{ p.file }}"),
            Column("What it shows", 34, "{{ p.note }}"),
            Column("Known by", TEXT_WIDTH - 138, "{{ p.known }}"),
        ),
        "p in photos",
        otherwise="",
    )


def certifier(page: Page) -> None:
    """Part 8: the certifier's own readings, cautions, edition."""
    part(page, "part_8")
    page.text(
        "The readings are the installer’s. Beside each is room for your own. Questions passed on "
        "to you stand on page 1 and in part 5, each with room for your decision. "
        "{{ schedule.rules }}",
        "Lead kept",
    )
    pairs = (("R1+R2 Ω", "r1_r2"), ("L-E MΩ", "ir"), ("Zs Ω", "zs"), ("RCD ms", "rcd"))
    page.table(
        "Your own readings",
        (
            *circuit_columns("s", 37),
            *(
                column
                for head, name in pairs
                for column in (
                    Column(head, 19, f"{{{{ s.{name} }}}}"),
                    Column("yours", 14, f"{{{{ s.own_{name} }}}}"),
                )
            ),
        ),
        "s in samples",
        otherwise="",
    )
    page.table(
        "Your own readings at origin and board",
        (
            Column("Where", 25, "{{ s.where }}"),
            Column("What", 60, "{{ s.what }}"),
            Column("Installer’s", 45, "{{ s.value }}"),
            Column("yours", TEXT_WIDTH - 130, "{{ s.own }}"),
        ),
        "s in supply_samples",
        otherwise="",
    )
    page.table(
        "Meters that the readings were taken with",
        (
            Column("", 10, "{{ i.number }}"),
            Column("Kind", 42, "{{ i.kind }}"),
            Column("Serial", 28, "{{ i.serial }}"),
            Column("Calibrated", 24, "{{ i.calibrated }}"),
            Column("Due", 24, "{{ i.due }}"),
            Column("Uncertainty", 26, "{{ i.uncertainty }}"),
            Column("Leads", TEXT_WIDTH - 154, "{{ i.leads }}"),
        ),
        "i in instruments",
    )
    page.heading("This document", level=2)
    page.text(
        "Written {{ schedule.made }} with {{ schedule.made_with }}; fingerprint "
        "{{ schedule.fingerprint }}. {{ schedule.fingerprint_meaning }}",
        "Cell",
    )
    page.heading("Cautions", level=2)
    page.each("line in cautions", "{{ line }}", "Cell")


def household(page: Page) -> None:
    """Part 9: one page without jargon."""
    part(page, "part_9", new_page=True)
    page.tag("if not chart")
    page.text("No circuit is entered yet. Not for use before the certificate.")
    page.tag("else")
    page.table(
        "What is on the board",
        (
            Column("", 12, "{{ c.number }}"),
            Column("What it feeds", 76, "{{ c.name }}"),
            Column("Switch", 42, "{{ c.device }}"),
            Column("Where", TEXT_WIDTH - 130, "{{ c.where }}"),
        ),
        "c in chart",
    )
    page.heading("How to switch off, and when to call somebody", level=2)
    page.each("line in isolating", "{{ line }}")
    page.heading("Where cables run: look here before you drill or dig", level=2)
    page.each("line in cables", "{{ line }}", "Cell")
    page.tag("endif")


def annexes(page: Page) -> None:
    """Annex A, annex B, sources, words."""
    part(page, "annex_a", new_page=True)
    page.tag("if log")
    page.text("{{ log_legend }} Marks as in part 3.", "Cell kept")
    page.tag("endif")
    page.table(
        "Every reading, in the order of the work",
        (
            Column("What", 74, "{{ r.what }}"),
            Column("Expected", 20, "{{ r.expected }}"),
            Column("Limit", 24, "{{ r.limit }}"),
            Column("Before covering", 27, "{{ r.before }}"),
            Column("Now", TEXT_WIDTH - 145, "{{ r.now }}"),
        ),
        "r in group.lines",
        group=("group in log", "{{ group.name }}", "{{ group.taken }}"),
        extra=("r.remark", "{{ r.remark }}"),
        otherwise="No reading is taken yet.",
    )
    part(page, "annex_b")
    page.table(
        "Workings: formula → with the figures in it → what was taken for granted",
        (
            Column("", 10, "{{ w.number }}"),
            Column("What", 46, "{{ w.figure }}"),
            Column("Working", 82, "{{ w.formula }}"),
            Column("Result", 22, "{{ w.result }}"),
            Column("Sources", TEXT_WIDTH - 160, "{{ w.sources }}"),
        ),
        "w in group.lines",
        group=("group in workings", "{{ group.name }}"),
        otherwise="No working is printed: nothing is in doubt, or none was asked for.",
    )
    page.columns(2, 6.0)
    part(page, "sources")
    page.tag("if not sources")
    page.text("None yet: nothing is held against a published figure.")
    page.tag("endif")
    page.tag("if sources")
    page.text("“copy”: read in a secondary copy, not in the standard itself.", "Cell kept")
    page.tag("endif")
    page.each("line in sources", "{{ line }}", "Cell")
    part(page, "words")
    page.tag("if not glossary")
    page.text("Explained as soon as a circuit is entered.", "Cell")
    page.tag("endif")
    page.each("word in glossary", "{{ word.term }}: {{ word.meaning }}.", "Cell")
