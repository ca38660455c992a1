"""The words of the trade's shorthand, each with what it can mean."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from records.terms import CableKind, Cpc, DeviceKind, Form, LoadKind, Method, RcdType, Use

Reading = Mapping[str, object]
"""What a word or figure means: values by slot, such as `{"curve": "B", "rating": 32.0}`."""

BREAKER, RCBO = "breaker", "rcbo"
"""Families whose curve is said apart. The family of a fuse is its `DeviceKind`."""

RUN_SLOTS = frozenset(
    "cable cores csa cpc cpc_csa length method duct depth ambient grouped where".split()
)
"""Slots of a run of cable, named as its fields are."""
DEVICE_SLOTS = frozenset(
    ("family", "curve", "rating", "breaking", "residual", "rcd_type", "delayed", "rcd")
)
"""Slots of a protective device and of the RCD with it."""
CIRCUIT_SLOTS = frozenset(
    ("use", "form", "kind", "name", "called", "fuse", "load", "power", "outdoors")
)
"""Slots of a final circuit that neither its device nor its cable has."""


FIELD_SLOTS = {
    "device/kind": "device",
    "device/rating": "rating",
    "device/breaking": "breaking",
    "rcd/residual": "residual",
    "rcd/type": "rcd_type",
    "rcd/delayed": "delayed",
}
"""Fields of a feed or a circuit whose slots are called otherwise."""


def _one(**values: object) -> tuple[Reading, ...]:
    return (MappingProxyType(values),)


def _any(slot: str, *values: object) -> tuple[Reading, ...]:
    return tuple(MappingProxyType({slot: each}) for each in values)


@cache
def phrases() -> Mapping[str, tuple[Reading, ...]]:
    """Return what each word, or row of words, can mean; in small letters, one space between."""
    table: dict[str, tuple[Reading, ...]] = {}
    for words, readings in (*_devices(), *_cables(), *_methods(), *_circuits()):
        for each in words.split(", "):
            table[each] = readings
    return table


def _devices() -> list[tuple[str, tuple[Reading, ...]]]:
    fuses = {
        DeviceKind.BS_88_2: "88-2",
        DeviceKind.BS_88_3: "88-3",
        DeviceKind.BS_1361: "1361",
        DeviceKind.BS_3036: "3036",
        DeviceKind.BS_1362: "1362",
    }
    numbers = [
        (f"bs {number}, bs{number}, bs-{number}, bs {number.replace('-', ' ')}", _one(family=kind))
        for kind, number in fuses.items()
    ]
    curves = [(f"type {each}, curve {each}", _one(curve=each.upper())) for each in "cd"]
    types = [
        (f"type {each.code.casefold()}, {each.code.casefold()} type", _one(rcd_type=each))
        for each in (RcdType.AC, RcdType.A, RcdType.F)
    ]
    either = (MappingProxyType({"curve": "B"}), MappingProxyType({"rcd_type": RcdType.B}))
    both = [
        (f"{word} {each}, {each} {word}", _one(family=family, curve=each.upper()))
        for word, family in (("rcbo", RCBO), ("mcb", BREAKER), ("breaker", BREAKER))
        for each in "bcd"
    ]
    return [
        *both,
        ("rcbo, rcbos", _one(family=RCBO)),
        ("mcb, mcbs, cb, breaker, circuit breaker, circuit-breaker", _one(family=BREAKER)),
        *numbers,
        ("88-2", _one(family=DeviceKind.BS_88_2)),
        ("88-3", _one(family=DeviceKind.BS_88_3)),
        ("rewirable, rewireable, rewirable fuse", _one(family=DeviceKind.BS_3036)),
        ("bs88, bs 88", _any("family", DeviceKind.BS_88_2, DeviceKind.BS_88_3)),
        ("cutout, cut-out, cut out", _any("family", DeviceKind.BS_1361, DeviceKind.BS_88_3)),
        (
            "fuse, switch fuse, switchfuse, fuse switch",
            _any("family", *(each for each in fuses if each is not DeviceKind.BS_1362)),
        ),
        *curves,
        ("curve b", _one(curve="B")),
        ("type b", either),
        *types,
        *[(f"rcd type {each.code.casefold()}", _one(rcd_type=each)) for each in RcdType],
        ("rcd", _one(rcd=True)),
        ("delayed, time delayed, time-delayed, selective, type s, s type", _one(delayed=True)),
    ]


def _cables() -> list[tuple[str, tuple[Reading, ...]]]:
    return [
        (
            "t&e, t+e, t & e, t + e, t and e, twin, twin & earth, twin + earth, twin and earth, "
            "twin-and-earth, twin&earth, twin+earth, flat, flat twin, flat twin-and-earth, "
            "flat twin and earth",
            _one(cable=CableKind.FLAT),
        ),
        (
            "swa, armoured, armored, steel wire armoured, steel-wire armoured, swa xlpe, "
            "xlpe swa, armoured xlpe, xlpe armoured, xlpe",
            _one(cable=CableKind.SWA_XLPE),
        ),
        ("swa pvc, pvc swa, pvc armoured, armoured pvc", _one(cable=CableKind.SWA_PVC)),
        ("singles, single cores", _one(cable=CableKind.SINGLES)),
        ("flex, flexible, flexible cable", _one(cable=CableKind.FLEX)),
        ("armour cpc, cpc armour, cpc is armour, earth on armour", _one(cpc=Cpc.ARMOUR)),
        ("core cpc, cpc core, cpc is core, earth core", _one(cpc=Cpc.CORE)),
        (
            "core and armour, armour and core, core + armour, core+armour, armour+core, "
            "cpc core and armour, cpc core + armour, cpc core+armour, core+armour cpc, "
            "core and armour cpc, cpc both, both cpc",
            _one(cpc=Cpc.CORE_AND_ARMOUR),
        ),
        ("separate cpc, separate earth", _one(cpc=Cpc.SEPARATE)),
        ("no earth, no cpc, earth not exported", _one(cpc=Cpc.NONE)),
    ]


def _methods() -> list[tuple[str, tuple[Reading, ...]]]:
    insulated = (Method.M100, Method.M101, Method.M102, Method.M103)
    named = [
        (
            f"method {each.code.casefold()}, ref {each.code.casefold()}, "
            f"reference method {each.code.casefold()}",
            _one(method=each),
        )
        for each in Method
    ]
    ducted = (
        MappingProxyType({"method": Method.D, "duct": True}),
        MappingProxyType({"method": Method.B}),
    )
    return [
        *named,
        ("clipped, clipped direct, surface, on the surface", _one(method=Method.C)),
        (
            "buried, in the ground, in ground, underground, trench, in the trench, in a trench",
            _one(method=Method.D),
        ),
        ("buried direct, direct buried, direct in the ground", _one(method=Method.D, duct=False)),
        (
            "buried in duct, buried in a duct, buried duct, underground duct",
            _one(method=Method.D, duct=True),
        ),
        ("duct, ducted, in duct, in a duct", ducted),
        ("conduit, in conduit", _any("method", Method.A, Method.B)),
        ("trunking, in trunking", _one(method=Method.B)),
        ("tray, cable tray, free air, in free air, catenary", _one(method=Method.E)),
        ("insulation, insulated, in insulation", _any("method", *insulated)),
    ]


def _circuits() -> list[tuple[str, tuple[Reading, ...]]]:
    machines = {
        "cooker, oven, hob": LoadKind.COOKING,
        "shower": LoadKind.INSTANT_WATER,
        "immersion, immersion heater": LoadKind.STORED_WATER,
        "panel heater, convector": LoadKind.SPACE_HEATING,
        "storage heater": LoadKind.STORAGE_HEATING,
        "motor": LoadKind.MOTOR,
        "car charger, ev charger, charge point, vehicle charger": LoadKind.VEHICLE,
    }
    fixed = [
        (word, _one(use=Use.FIXED, kind=kind, called=word.capitalize()))
        for words, kind in machines.items()
        for word in words.split(", ")
    ]
    unnamed = [
        (word, _one(use=Use.FIXED, called=word.capitalize()))
        for word in ("heater", "water heater", "pump", "fan", "kiln", "compressor")
    ]
    return [
        ("sockets, socket, skts, socket outlets", _one(use=Use.SOCKETS)),
        ("lights, light, lighting, lamps", _one(use=Use.LIGHTING)),
        *fixed,
        *unnamed,
        ("fixed, fixed appliance", _one(use=Use.FIXED)),
        ("ring, ring final, rfc, ring final circuit", _one(form=Form.RING)),
        ("radial", _one(form=Form.RADIAL)),
        ("fcu, fused spur, connection unit, fused connection unit, spur fcu", _one(form=Form.FCU)),
        ("outdoors, outside, external, outdoor", _one(outdoors=True)),
    ]


SMALL = frozenset(
    "a an and at by cable circuit device for from in is long of on run the to way with core".split()
) | {"-", "–", "+"}
"""Words that say nothing."""

NEAR_DEPTH = frozenset(("buried", "deep", "down", "depth", "direct buried", "buried direct"))
NEAR_GROUP = frozenset(("grouped", "group", "grouping"))
NEAR_LOAD = frozenset(("load", "ib"))
SLOT_BESIDE = {
    **dict.fromkeys(("deep", "down", "depth"), "depth"),
    **dict.fromkeys(NEAR_GROUP, "grouped"),
    **dict.fromkeys(NEAR_LOAD, "load"),
}
"""Words that mean something only beside a figure, and what they make of it."""
