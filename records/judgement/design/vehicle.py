"""Design checks of a circuit that charges a vehicle: its RCD, and the earth it stands on."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.design.line import line
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.circuit import Circuit
from records.model.reading import Place
from records.terms import Earthing, LoadKind, OutbuildingEarth, RcdType, Verdict


def vehicle_lines(facts: Facts) -> Iterator[Judged]:
    """Return what a circuit for vehicle charging needs beside all others.

    Source: BS 7671, Section 722 (from memory).
    """
    for circuit, place in facts.circuits():
        if circuit.kind is LoadKind.VEHICLE:
            yield from _direct_current(facts, circuit, place)
            yield from _open_neutral(facts, circuit, place)


def _direct_current(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A vehicle can leak direct current, which blinds an RCD of type A or F."""
    if circuit.rcd.type not in (RcdType.A, RcdType.F):
        return  # type AC is said elsewhere; type B sees it
    yield line(facts, place, "direct current", "direct current of a vehicle")._replace(
        verdict=Verdict.NEAR,
        why=f"Its RCD is of type {circuit.rcd.type.value}: more than 6 mA of direct current from a "
        "vehicle can blind it. It will do only if the charging equipment itself opens at that.",
        next_check=plan(
            "Read in the maker's papers that the equipment opens at 6 mA d.c. Else a type B RCD."
        ),
        source=cite.VEHICLE_RCD,
        weight=40,
    )


def _open_neutral(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """With PME a vehicle outdoors is metal that somebody touches while standing on the ground."""
    record = facts.record
    exported = record.board.earth is OutbuildingEarth.CARRIED_OVER
    if record.origin.earthing is not Earthing.TN_C_S or not exported or circuit.outdoors is False:
        return
    yield line(facts, place, "open neutral", "earth of the charging point")._replace(
        verdict=Verdict.NEAR,
        why="The earth of a TN-C-S supply goes to a vehicle. If the supply's neutral breaks, the "
        "vehicle becomes live to whoever stands on the ground beside it.",
        next_check=do(
            Act.ASK,
            "Ask the certifier before it is bought. It needs equipment that opens on a broken "
            "neutral, or an earth electrode for the charging point.",
        ).text(),
        source=cite.VEHICLE_PEN,
        weight=60,
    )
