"""Records for the tests of the calculation: invented jobs, in plain words."""

from __future__ import annotations

import json
from typing import Any

from records.model.record import Record

FLAT = "flat twin-and-earth, 70 °C"
XLPE = "steel-wire armoured, XLPE 90 °C"
PVC = "steel-wire armoured, PVC 70 °C"
CORE, ARMOUR = "a core of the cable", "the armour alone"
BOTH, NONE = "a core and the armour together", "nothing: the earth is not carried over"

Json = dict[str, Any]


def run(cable: str = FLAT, csa: float = 2.5, length: float = 20.0, **more: Any) -> Json:
    """Return a run of cable."""
    start = {"cable": cable, "csa": csa, "length": length, "cpc": CORE, "method": "C"}
    return {**start, "cores": 2 if cable == FLAT else 3, **more}


def device(kind: str = "circuit-breaker type B", rating: float = 32.0, **more: Any) -> Json:
    """Return an overcurrent device."""
    return {"kind": kind, "rating": rating, "breaking": 6.0, **more}


def circuit(id: str = "C1", **more: Any) -> Json:
    """Return a radial socket circuit."""
    start = {"id": id, "use": "sockets", "form": "radial", "device": device(), "runs": [run()]}
    return {**start, **more}


def ring(id: str = "C1", length: float = 40.0, **more: Any) -> Json:
    """Return a ring of 2.5 mm² flat cable with points at a quarter and half way round."""
    points = [{"id": "P1", "at": length / 4}, {"id": "P2", "at": length / 2}]
    start = {"form": "ring", "runs": [run(length=length)], "points": points}
    return circuit(id, **{**start, **more})


def reading(id: str, quantity: str, part: str, value: float, **more: Any) -> Json:
    """Return a figure read at a part of the installation."""
    place = {"part": part, "circuit": more.pop("circuit", None), "point": more.pop("point", None)}
    stage = more.pop("stage", "dead tests")
    return {
        "id": id,
        "slot": {"quantity": quantity, "place": place, "stage": stage},
        "taken": {"kind": "figure", "value": value, "sign": more.pop("sign", "=")},
        "at": "2026-03-20T10:00:00Z",
        **more,
    }


def job(**parts: Any) -> Record:
    """Return a whole record; parts given replace those of a plain TN-C-S job."""
    whole = {
        "job": {"ambient": 20.0},
        "origin": {"earthing": "TN-C-S", "ze": 0.3, "fault_current": 1.2},
        "feed": {
            "device": device("BS 88-3 fuse", 32.0, breaking=16.0),
            "load": 25.0,
            "runs": [run(XLPE, 6.0, 30.0, method="D", ambient=20.0)],
        },
        "board": {"earth": "carried over by the feed"},
        "circuits": [circuit()],
        **parts,
    }
    return Record.model_validate_json(json.dumps(whole))
