"""Cables in the ground: what protects and marks them. No depth is demanded that no text gives."""

from __future__ import annotations

from collections.abc import Iterator

from records.evidence import Source
from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.legs import Run, run_of
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Buried, GroundCover
from records.terms import Basis, CableKind, Verdict

USUAL = 0.45
"""m: fitters bury at 450 to 600 mm in gardens (common practice; no regulation gives a figure)."""
UNDER_PAVING = 0.4
"""m under a concrete path (common practice, a guide)."""

_GROUND = cite.bs7671("Regulation 522.8.10", Basis.READ)

_SUN = Source(
    "BS 6004, flat cable",
    "not for sunlight or for laying in the ground",
    Basis.READ,
    "an encyclopaedia of the trade",
)
_USUAL = Source(
    "Whitfield, Electricians' Guide, and fitters' figures",
    "burial",
    Basis.READ,
    "a reprint and trade forums: practice, no requirement",
)


def ground_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each stretch in the ground."""
    for each in facts.record.fabric.buried:
        run = run_of(facts.record, each)
        if run is None:
            continue
        if each.cover is GroundCover.WALL:
            yield from _on_a_wall(facts, run, each)
            continue
        base = line(
            facts,
            run.place,
            f"ground {each.id}",
            f"{run.name}: {each.length:g} m in the ground ({each.id})",
        )._replace(
            source=_GROUND,
            weight=30,
        )
        armoured = run.run.cable is not None and run.run.cable.is_armoured and run.earthed
        yield _judged(base, each, armoured=armoured)


def _on_a_wall(facts: Facts, run: Run, buried: Buried) -> Iterator[Judged]:
    if run.run.cable is not CableKind.FLAT:
        return
    base = line(
        facts, run.place, f"ground {buried.id}", f"{run.name}: outside on a wall ({buried.id})"
    )
    yield base._replace(
        verdict=Verdict.NEAR,
        source=_SUN,
        weight=25,
        why="Flat twin-and-earth isn't made for daylight, nor for knocks.",
        next_check=do(
            Act.CHANGE, "Armoured cable, or conduit over it; else ask the certifier."
        ).text(),
    )


def _judged(base: Judged, buried: Buried, *, armoured: bool) -> Judged:
    if not armoured and buried.cover is not GroundCover.DUCT:
        return base._replace(
            verdict=Verdict.OUTSIDE,
            why="Neither in earthed armour nor in a duct: a spade goes through it.",
            next_check=plan(
                "Armoured cable with its armour earthed, or a duct that protects as well."
            ),
        )
    if buried.tape is False:
        return base._replace(
            verdict=Verdict.OUTSIDE,
            why="Nothing marks it: covers or warning tape are asked for.",
            next_check=do(
                Act.DRIVE, "Lay warning tape 150 to 300 mm above it, before the trench closes."
            ).text(),
        )
    if buried.deep is None or buried.cover is None or buried.tape is None:
        lacks = [
            name
            for name, value in (
                ("its depth", buried.deep),
                ("what covers it", buried.cover),
                ("whether tape marks it", buried.tape),
            )
            if value is None
        ]
        return base._replace(
            why=f"Not entered: {', '.join(lacks)}.",
            next_check=do(Act.ENTER, "Measure and enter it before the trench closes.").text(),
        )
    usual = UNDER_PAVING if buried.cover is GroundCover.PAVING else USUAL
    if buried.deep < usual - SLACK:
        return base._replace(
            verdict=Verdict.NEAR,
            why=f"{buried.deep:g} m deep. It has to be out of reach of a spade; {usual:g} m or "
            "more is usual (common practice).",
            source=_USUAL,
            next_check=(
                do(Act.ASK, "Agree with the certifier what protects it.")
                + do(Act.DRIVE, "Else lay it deeper before the trench closes.")
            ).text(),
        )
    return base._replace(verdict=Verdict.WITHIN, why=f"{buried.deep:g} m deep, marked.")
