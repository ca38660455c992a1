"""What stands on the pages, in the order of the work: parts 1 to 9."""

from __future__ import annotations

from records.document.template.look import TEXT_WIDTH
from records.document.template.pieces import Column, Page

PARTS = (
    ("1  Standing", "part_1"),
    ("2  As built", "part_2"),
    ("3  One line a circuit", "part_3"),
    ("4  Origin, feed and board", "part_4"),
    ("5  Findings", "part_5"),
    ("6  Put right, missing, not needed, limitations", "part_6"),
    ("7  Drawings", "part_7"),
    ("8  For the certifier", "part_8"),
    ("9  For whoever lives with it", "part_9"),
    ("Annex A  Every reading", "annex_a"),
    ("Annex B  Workings", "annex_b"),
    ("Sources", "sources"),
    ("Words", "words"),
)
_TITLES = {name: title for title, name in PARTS}


def part(page: Page, name: str, *, new_page: bool = False) -> None:
    """Add the heading of a part; one without circuits starts no page of its own."""
    if new_page:
        # Not two headings, one of which breaks the page: word processors drop a name that is twice.
        page.tag("if circuits")
        page.text("", "New page")
        page.tag("endif")
    page.heading(_TITLES[name], name)


def circuit_columns(line: str, width: float) -> tuple[Column, Column]:
    """Return the columns of a circuit's number and name, for a table with a row a circuit.

    Args:
        line: What the template calls a row.
        width: Of the name [mm].
    """
    return (
        Column("", 9, f"{{{{ {line}.number }}}}"),
        Column("Circuit", width, f"{{{{ {line}.name }}}}"),
    )


def standing(page: Page) -> None:
    """Part 1: where the job stands, on one page."""
    page.text("{{ schedule.title }}", "Title")
    page.strip("strip")
    page.text("{{ schedule.purpose }}")
    page.tag("if schedule.edition_note")
    page.text("{{ schedule.edition_note }}", "Warning")
    page.tag("endif")
    part(page, "part_1")
    page.facts(
        "",
        (("for fact in facts", ""), ("{{ fact.name }}", "{{ fact.text }}"), ("endfor", "")),
        first=26.0,
    )
    page.heading("Findings, the worst first", level=2)
    page.table(
        "Findings and what they ask of the certifier",
        (
            Column("", 9, "{{ f.number }}"),
            Column("What", 43, "{{ f.verdict }}: {{ f.short }}"),
            Column(
                "Where, reading and limit",
                72,
                (
                    ("{%p for at in f.places %}", "Tag"),
                    ("{{ at.where }}: {{ at.reading }}{{ at.limit }}", "Cell"),
                    ("{%p endfor %}", "Tag"),
                ),
            ),
            Column("Asked of the certifier", TEXT_WIDTH - 124, "{{ f.asked }}"),
        ),
        "f in worst",
        otherwise="{{ schedule.nothing_open }}",
    )
    page.heading("Missing, by name", level=2)
    page.table(
        "What is missing; a blank is no pass",
        (
            Column("Where", 40, "{{ m.where }}"),
            Column("", 8, "{{ m.number }}"),
            Column("What", TEXT_WIDTH - 48, "{{ m.what }}."),
        ),
        "m in missing",
        otherwise="Nothing is missing that this record asks for.",
    )
    page.heading("Live tests: who decided what, and how it was left", level=2)
    page.each("line in live_gate", "{{ line }}")
    page.tag("if circuits")
    page.heading("Contents", level=2)
    page.contents(PARTS)
    page.tag("endif")


def as_built(page: Page) -> None:
    """Part 2: circuits with points, cables and devices."""
    part(page, "part_2")
    page.text(
        "“Not given” means that nobody answered; it is not a “no”. Circuit-breakers are held to "
        "BS EN 60898-1, RCBOs to BS EN 61009-1; a fuse is named by its standard.",
        "Lead kept",
    )
    page.table(
        "Circuits as built",
        (
            Column("", 9, "{{ c.number }}", "Cell kept"),
            Column("Circuit", 32, "{{ c.name }}", "Cell kept"),
            Column(
                "Cable: size, length, method, route",
                84,
                (
                    ("{%p for run in c.cables %}", "Tag"),
                    ("{{ run }}", "Cell kept"),
                    ("{%p endfor %}", "Tag"),
                ),
            ),
            Column(
                "Device, RCD, smallest cpc",
                TEXT_WIDTH - 125,
                (
                    ("{{ c.device }}", "Cell kept"),
                    ("RCD: {{ c.rcd }}", "Cell kept"),
                    ("{%p if c.least_cpc %}", "Tag"),
                    ("{{ c.least_cpc }}", "Cell kept"),
                    ("{%p endif %}", "Tag"),
                ),
            ),
        ),
        "c in circuits",
        extra=("c.points", "{{ c.form }}. Points: {{ c.points }}"),
        otherwise="No circuit is entered.",
    )


def one_line(page: Page) -> None:
    """Part 3: the last standing readings, a line a circuit, and what was calculated."""
    part(page, "part_3")
    page.tag("if lines")
    page.text("{{ marks }}", "Cell kept")
    page.text(
        "²⁾ second reading: the first is in Annex A. ᵇ read before covering only. “–” not a test "
        "of this circuit. The limit of Zs is that of a cold reading.",
        "Cell kept",
    )
    circuit = circuit_columns("c", 31)
    ohms = (("r1 Ω", "r1"), ("rn Ω", "rn"), ("r2 Ω", "r2"), ("R1+R2 Ω", "r1_r2"))
    megohms = (("L-N MΩ", "ir_ln"), ("L-E MΩ", "ir_le"), ("N-E MΩ", "ir_ne"))
    page.table(
        "Dead tests: last standing readings",
        (
            *circuit,
            *(
                Column(head, 21 if name == "r1_r2" else 14, f"{{{{ c.{name} }}}}", "Ohms")
                for head, name in ohms
            ),
            *(Column(head, 19, f"{{{{ c.{name} }}}}", "Megohms") for head, name in megohms),
            Column("Polarity", TEXT_WIDTH - 160, "{{ c.polarity }}"),
        ),
        "c in lines",
        keep="lines",
    )
    page.each("note in rings", "{{ note }}", "Cell")
    page.table(
        "Live tests: last standing readings",
        (
            *circuit,
            Column("Zs Ω", 24, "{{ c.zs }}", "Ohms"),
            Column("limit Ω", 15, "{{ c.zs_most }}", "Ohms"),
            Column("RCD ms", 26, "{{ c.rcd }}", "Whole"),
            Column("limit ms", 15, "{{ c.rcd_most }}", "Whole"),
            Column("Test button", 27, "{{ c.button }}"),
            Column("Functional test", TEXT_WIDTH - 147, "{{ c.function }}"),
        ),
        "c in lines",
        keep="lines",
    )
    page.table(
        "Other tests of single circuits",
        (
            Column("", 9, "{{ t.number }}"),
            Column("Test", 60, "{{ t.what }}"),
            Column("Reading", TEXT_WIDTH - 69, "{{ t.value }}"),
        ),
        "t in other_tests",
        otherwise="",
    )
    page.table(
        "Calculated from the design; “read”: from the readings",
        (
            Column("", 9, "{{ c.number }}"),
            Column("Ib / In / Iz A", 29, "{{ c.ib }} / {{ c.rating }} / {{ c.iz }}"),
            Column("ΔU V / limit", 28, "{{ c.drop }} / {{ c.drop_most }}"),
            Column("Zs Ω hot / limit", 27, "{{ c.zs }} / {{ c.zs_most }}"),
            Column("Zs Ω read", 16, "{{ c.zs_read }}"),
            Column("Ipf kA / breaks", 33, "{{ c.fault }} / {{ c.breaks }}"),
            Column("Off by", 14, "{{ c.time }}"),
            Column("by RCD", 15, "{{ c.time_rcd }}"),
            Column("limit", TEXT_WIDTH - 171, "{{ c.required }}"),
        ),
        "c in calculated",
        keep="calculated",
    )
    page.tag("else")
    page.text("No circuit is entered: there is nothing to list.", "Warning")
    page.tag("endif")


def supply(page: Page) -> None:
    """Part 4: origin, feed, board, earthing, and what was read there."""
    part(page, "part_4")
    page.facts(
        "Origin, feed, board and earthing, as built",
        (
            (
                "Supply",
                "{{ origin.earthing }}, U0 {{ origin.u0 }}; design Ze {{ origin.ze }}; fault "
                "current {{ origin.fault_current }}; main (cut-out) fuse {{ origin.cutout }}; "
                "supply neutral {{ origin.neutral }}; note: {{ origin.note }}",
            ),
            ("Feed", "{{ feed.device }}; RCD: {{ feed.rcd }}; Ib {{ feed.load }}"),
            ("for run in feed.runs", ""),
            (
                "{{ run.number }}",
                "{{ run.where }}: {{ run.cable }}, {{ run.conductors }}, {{ run.length }}; cpc: "
                "{{ run.cpc }}; method {{ run.method }}; {{ run.surroundings }}",
            ),
            ("endfor", ""),
            (
                "Sub-board",
                "{{ board.place }}; main switch {{ board.main_switch }}; RCD: {{ board.rcd }}; "
                "surge protection: {{ board.surge_protection }}",
            ),
            (
                "Earthing",
                "{{ board.earth }}; earthing conductor {{ board.earthing }}; electrode: "
                "{{ board.electrode }}",
            ),
            (
                "Bonding",
                "extraneous-conductive-parts: {{ board.metal_in_ground }}; main bonds: "
                "{{ board.bonds }}",
            ),
        ),
        first=22.0,
    )
    page.table(
        "Readings at origin, feed and board: last standing",
        (
            Column("Where", 12, "{{ r.where }}"),
            Column("What", 73, "{{ r.what }}"),
            Column("Stage", 24, "{{ r.stage }}"),
            Column("Reading", 34, "{{ r.verdict }} {{ r.value }}"),
            Column("Limit", TEXT_WIDTH - 143, "{{ r.limit }}"),
        ),
        "r in supply_readings",
        otherwise="No reading is taken yet.",
    )
    page.table(
        "Why this cable: each run of the feed beside the sizes next to it",
        (
            Column("", 8, "{{ o.mark }}"),
            Column("Cable", 30, "{{ o.cable }}"),
            Column("cpc", 26, "{{ o.cpc }}"),
            Column("Iz A", 16, "{{ o.iz }}"),
            Column("drop %", 16, "{{ o.drop }}"),
            Column("Zs Ω", 14, "{{ o.zs }}"),
            Column("off s", 12, "{{ o.off }}"),
            Column("cpc size", 17, "{{ o.cpc_size }}"),
            Column("bond", 12, "{{ o.bond }}"),
            Column("Decides", TEXT_WIDTH - 151, "{{ o.decides }}"),
        ),
        "o in run.lines",
        group=("run in choice", "{{ run.name }}", "{{ run.notes }}"),
        otherwise="",
    )


def findings(page: Page) -> None:
    """Part 5: each finding in full, with room for what the certifier decides."""
    part(page, "part_5")
    page.tag("if findings")
    page.text("Where nothing is said of work done, none was done yet.", "Cell kept")
    page.tag("else")
    page.text("{{ schedule.nothing_open }} See page 1 for what is missing.")
    page.tag("endif")
    page.tag("for f in findings")
    page.heading("{{ f.number }}  {{ f.title }} ({{ f.where }})", level=2)
    page.facts(
        "",
        (
            ("for row in f.rows", ""),
            (
                "{{ row.name }}",
                "{% for line in row.lines %}{{ line }}{% if not loop.last %}{{ '\\n' }}{% endif %}"
                "{% endfor %}",
            ),
            ("endfor", ""),
            ("Your decision", "{{ f.place }}"),
        ),
        first=26.0,
        room=9.0,
    )
    page.tag("endfor")


def closing(page: Page) -> None:
    """Part 6: put right, missing entries, not needed, limitations."""
    part(page, "part_6")
    page.table(
        "Put right: what was found first, what was done, and the retest",
        (
            Column("What, where", 38, "{{ p.title }}"),
            Column("Found first and since", 68, "{{ p.readings }}"),
            Column("What was done", 54, "{{ p.done }}"),
            Column("Now", TEXT_WIDTH - 160, "{{ p.now }}"),
        ),
        "p in put_right",
        otherwise="No finding was put right: none is recorded as work done and tested again.",
    )
    page.table(
        "Entries still missing; readings are listed on page 1",
        (Column("Step", 26, "{{ s.step }}"), Column("Needs", TEXT_WIDTH - 26, "{{ s.needs }}")),
        "s in inputs_missing",
        otherwise="",
    )
    page.table(
        "Not needed, and why",
        (
            Column("Where", 40, "{{ n.where }}"),
            Column("What", 58, "{{ n.what }}"),
            Column("Why", TEXT_WIDTH - 98, "{{ n.why }}"),
        ),
        "n in not_needed",
        otherwise="Nothing was set aside as not needed.",
    )
    page.tag("if notes")
    page.heading("Not calculated, and figures from memory", level=2)
    page.each("note in notes", "{{ note }}", "Cell")
    page.tag("endif")
    page.heading("Limitations", level=2)
    page.each("line in limitations", "{{ line }}", "Cell")
