"""What charging a vehicle asks for: BS 7671, Section 722 (from memory)."""

from __future__ import annotations

from typing import Any

import pytest

from records.model.record import Record
from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, Earthing, LoadKind, OutbuildingEarth, RcdType, Use
from tests.judgement.jobs import SOUND, reviewed

CURRENT, NEUTRAL = "circuit/C4/-/design/direct current", "circuit/C4/-/design/open neutral"
PERSON = "circuit/C4/-/design/30 mA protection"


def charging(earthing: Earthing = Earthing.TN_S, **more: Any) -> Record:
    """Return the sound job with its last circuit charging a vehicle."""
    rcd = Rcd(residual=30.0, type=more.pop("type", RcdType.A))
    values = {"kind": LoadKind.VEHICLE, "use": Use.FIXED, "rcd": rcd, "outdoors": True, **more}
    circuits = (*SOUND.circuits[:3], SOUND.circuits[3].model_copy(update=values))
    origin = SOUND.origin.model_copy(update={"earthing": earthing})
    return SOUND.model_copy(update={"circuits": circuits, "origin": origin})


def verdicts(record: Record) -> dict[str, str]:
    return {each.key: each.verdict.value for each in reviewed(record).lines}


@pytest.mark.parametrize(
    ("kind", "direct", "of_type"),
    [
        (RcdType.AC, None, "outside"),
        (RcdType.A, "near limit", "within"),
        (RcdType.F, "near limit", "within"),
        (RcdType.B, None, "within"),
    ],
)
def test_direct_current_of_a_vehicle_can_blind_an_rcd(
    kind: RcdType, direct: str | None, of_type: str
) -> None:
    found = verdicts(charging(type=kind))

    assert found.get(CURRENT) == direct
    assert found["circuit/C4/-/design/RCD type"] == of_type


def test_pme_goes_to_no_vehicle_outdoors_without_the_certifier() -> None:
    pme = Earthing.TN_C_S
    assert verdicts(charging(pme)).get(NEUTRAL) == "near limit"
    assert verdicts(charging(pme, outdoors=None)).get(NEUTRAL) == "near limit"
    assert NEUTRAL not in verdicts(charging(pme, outdoors=False))
    assert NEUTRAL not in verdicts(charging(Earthing.TN_S))
    board = SOUND.board.model_copy(update={"earth": OutbuildingEarth.OWN_ELECTRODE})
    assert NEUTRAL not in verdicts(charging(pme).model_copy(update={"board": board}))


def test_a_charging_point_has_an_rcd_even_indoors_and_in_sight() -> None:
    bare = charging(outdoors=False, hidden=False)
    device = Device(kind=DeviceKind.BREAKER_B, rating=16.0, breaking=6.0)
    circuit = bare.circuits[3].model_copy(update={"rcd": Rcd(), "device": device})
    none = bare.model_copy(update={"circuits": (*bare.circuits[:3], circuit)})

    assert verdicts(none)[PERSON] == "outside"
    heater = circuit.model_copy(update={"kind": LoadKind.SPACE_HEATING})
    other = none.model_copy(update={"circuits": (*bare.circuits[:3], heater)})
    assert verdicts(other)[PERSON] == "not needed"


def test_no_other_load_is_asked_about_a_vehicle() -> None:
    found = verdicts(charging(Earthing.TN_C_S, kind=LoadKind.MACHINE))

    assert not {CURRENT, NEUTRAL} & set(found)
