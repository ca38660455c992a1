"""The sheet that says what was built."""

from __future__ import annotations

from records.document.template.front import listing, pairs
from records.document.template.pieces import TEXT_WIDTH, Column, para, tag

WIDE = TEXT_WIDTH["landscape"]

_RUN = (
    Column("Where it goes", 58),
    Column("Cable", 46),
    Column("Line and neutral", 26),
    Column("What serves as cpc", 44),
    Column("Length", 17),
    Column("Method", 16),
)


def _runs(loop: str, first: str) -> str:
    """Return a table of runs, each named by `first`, the expression for its own name."""
    rest = WIDE - 18 - sum(each.width for each in _RUN)
    return listing(
        (Column("Run", 18), *_RUN, Column("Surroundings", rest)),
        loop,
        first,
        "{{ run.where }}",
        "{{ run.cable }}",
        "{{ run.conductors }}",
        "{{ run.cpc }}",
        "{{ run.length }}",
        "{{ run.method }}",
        "{{ run.surroundings }}",
    )


def built() -> str:
    """Return the sheet."""
    return "".join(
        (
            para("What was built", style="Heading1"),
            para("Origin: the supply at the house board", style="Heading2"),
            pairs(
                ("Earthing of the supply", "{{ origin.earthing }}"),
                ("Nominal voltage U0", "{{ origin.u0 }}"),
                ("Ze that the design takes", "{{ origin.ze }}"),
                ("Fault current that the design takes", "{{ origin.fault_current }}"),
                ("Supplier’s fuse", "{{ origin.cutout }}"),
                ("Supply neutral", "{{ origin.neutral }}"),
                ("Note", "{{ origin.note }}"),
                width=WIDE,
                name=58,
            ),
            para("Feed: from the house to the sub-board", style="Heading2"),
            pairs(
                ("Protective device", "{{ feed.device }}"),
                ("RCD", "{{ feed.rcd }}"),
                ("Design current Ib", "{{ feed.load }}"),
                width=WIDE,
                name=58,
            ),
            para("", style="Gap"),
            _runs("run in feed.runs", "{{ run.number }}"),
            para("Sub-board and earthing", style="Heading2"),
            pairs(
                ("Where it is", "{{ board.place }}"),
                ("Main switch", "{{ board.main_switch }}"),
                ("RCD", "{{ board.rcd }}"),
                ("Surge protection", "{{ board.surge_protection }}"),
                ("Earth of the outbuilding", "{{ board.earth }}"),
                ("Earthing conductor", "{{ board.earthing }}"),
                ("Electrode", "{{ board.electrode }}"),
                ("Metal in contact with ground", "{{ board.metal_in_ground }}"),
                width=WIDE,
                name=58,
            ),
            tag("{%p if board.bonds %}"),
            para("Main bonding", style="Heading2"),
            listing(
                (Column("No", 18), Column("What is bonded", 150), Column("Conductor", WIDE - 168)),
                "bond in board.bonds",
                "{{ bond.number }}",
                "{{ bond.what }}",
                "{{ bond.conductor }}",
            ),
            tag("{%p endif %}"),
            para("Circuits", style="Heading2"),
            tag("{%p if not circuits %}"),
            para("No circuit is entered."),
            tag("{%p else %}"),
            listing(
                (
                    Column("Circuit", 18),
                    Column("What it feeds", 56),
                    Column("Laid out as", 37),
                    Column("Protective device", 46),
                    Column("RCD", 38),
                    Column("Load", 20),
                    Column("Special", WIDE - 215),
                ),
                "circuit in circuits",
                "{{ circuit.number }}",
                "{{ circuit.name }}",
                "{{ circuit.form }}",
                "{{ circuit.device }}",
                "{{ circuit.rcd }}",
                "{{ circuit.load }}",
                "{{ circuit.special }}",
            ),
            para("Their runs", style="Heading2"),
            _runs("run in circuit_runs", "{{ run.number }}"),
            para("Their points", style="Heading2"),
            listing(
                (
                    Column("Circuit", 18),
                    Column("Points, with the distance from the board", WIDE - 18),
                ),
                "circuit in circuits",
                "{{ circuit.number }}",
                "{{ circuit.points }}",
            ),
            tag("{%p endif %}"),
        )
    )
