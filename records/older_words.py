"""The words that stood in record files of forms 1 and 2, where a code stands now.

Never to be changed: a file of that time is read by it. New terms begin with a code.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

_OLDER: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "OutbuildingEarth": {
            "carried over by the feed": "exported",
            "own earth electrode": "electrode",
        },
        "DeviceKind": {
            "circuit-breaker type B": "breaker-b",
            "circuit-breaker type C": "breaker-c",
            "circuit-breaker type D": "breaker-d",
            "RCBO type B": "rcbo-b",
            "RCBO type C": "rcbo-c",
            "RCBO type D": "rcbo-d",
            "BS 88-2 fuse": "bs-88-2",
            "BS 88-3 fuse": "bs-88-3",
            "BS 88-2.2 fuse, before 2010": "bs-88-2.2",
            "BS 1361 fuse, before 2010": "bs-1361",
            "BS 3036 fuse": "bs-3036",
            "BS 1362 fuse": "bs-1362",
        },
        "CableKind": {
            "flat twin-and-earth, 70 °C": "flat",
            "single cores in conduit or trunking, 70 °C": "singles",
            "flexible cable, 60 °C": "flex",
            "steel-wire armoured, XLPE 90 °C": "swa-xlpe",
            "steel-wire armoured, PVC 70 °C": "swa-pvc",
            "flexible cable, 70 °C": "flex",
        },
        "Cpc": {
            "a core of the cable": "core",
            "a separate conductor": "separate",
            "the armour alone": "armour",
            "a core and the armour together": "core-and-armour",
            "nothing: the earth is not carried over": "none",
        },
        "Use": {
            "fixed appliance": "fixed",
        },
        "Form": {
            "radial to a fused connection unit": "fcu",
        },
        "FeedLoad": {
            "all circuits added up": "added-up",
            "after household diversity": "diversity",
            "In of its device": "rated",
        },
        "Stage": {
            "before covering": "before-covering",
            "dead tests": "dead",
            "live tests": "live",
        },
        "Duty": {
            "wires, tests and records": "installs",
            "inspects, tests and certifies": "certifies",
            "orders the work": "client",
        },
        "InstrumentKind": {
            "multifunction tester": "multifunction",
            "low-resistance ohmmeter": "low-ohm",
            "insulation tester": "insulation",
            "loop tester": "loop",
            "RCD tester": "rcd",
            "earth electrode tester": "electrode",
        },
        "Ground": {
            "measured at the origin": "measured",
            "declared by the network operator": "declared",
            "typical maximum, not yet confirmed": "typical",
        },
        "Quantity": {
            "cross-connected L-N": "cross-ln",
            "cross-connected L-cpc": "cross-le",
            "insulation L-N": "ir-ln",
            "insulation L-E": "ir-le",
            "insulation N-E": "ir-ne",
            "earthing conductor": "earthing",
            "bonding conductor": "bonding",
            "earth put back": "earth-back",
            "fault current L-N": "fault-ln",
            "fault current L-E": "fault-le",
            "supply voltage": "voltage",
            "RCD time": "rcd-time",
            "RCD test button": "rcd-button",
            "surge protection back in": "surge-back",
            "operates as meant": "function",
            "R1+R2 by the core": "r1r2-core",
            "R1+R2 by the armour": "r1r2-armour",
            "armour gland": "gland",
            "R2 by a long lead": "r2-long-lead",
            "open at off": "open-at-off",
            "insulation of the group": "ir-group",
            "voltage L-E": "voltage-le",
            "voltage N-E": "voltage-ne",
            "RCD holds in the loop test": "rcd-in-loop",
            "RCD holds at 0.5 × IΔn": "rcd-half",
            "RCD time at 5 × IΔn": "rcd-five",
            "RCD current": "rcd-ramp",
            "RCD before it holds": "rcd-before",
            "RCD holds with loads on": "rcd-loaded",
            "AFDD test button": "afdd-button",
            "nought with the tips joined": "tips-joined",
            "insulation to foil or lining": "ir-foil",
            "RCD holds with breakers off": "rcd-alone",
            "load current": "load-current",
            "voltage under load": "voltage-loaded",
        },
    }
)


def codes_of(term: str) -> Mapping[str, str]:
    """Return the code by the older word, for one kind of term by the name of its class."""
    return _OLDER.get(term, {})


def current_key(key: str) -> str:
    """Return the name of a finding or a reading as it is now, from one of an older record.

    A key is part, circuit, point, stage and what is read there; only the last two had words.
    """
    parts = key.split("/")
    if len(parts) == _PARTS:
        parts[3] = codes_of("Stage").get(parts[3], parts[3])
        parts[4] = codes_of("Quantity").get(parts[4], parts[4])
    return "/".join(parts)


_PARTS = 5
