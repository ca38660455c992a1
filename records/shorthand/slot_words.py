"""Values of a line in full words, to be read before they count."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from records.terms import CableKind, DeviceKind, Method, Use, Word

_METHODS = {
    Method.A: "in conduit in an insulated wall",
    Method.B: "in conduit or trunking on a wall",
    Method.C: "clipped direct",
    Method.D: "in the ground",
    Method.E: "in free air",
    Method.M100: "above a ceiling, ≤ 100 mm of insulation",
    Method.M101: "above a ceiling, > 100 mm of insulation",
    Method.M102: "insulated stud wall, touching its face",
    Method.M103: "insulated stud wall, not touching",
}
_CABLES = {
    CableKind.FLAT: "twin-and-earth",
    CableKind.SINGLES: "single cores",
    CableKind.FLEX: "flexible cable",
    CableKind.SWA_XLPE: "steel-wire armoured, XLPE 90 °C",
    CableKind.SWA_PVC: "steel-wire armoured, PVC 70 °C",
}
_UNITS = {
    "rating": "In {:g} A",
    "breaking": "breaking capacity {:g} kA",
    "residual": "{:g} mA",
    "fuse": "fuse of the connection unit {:g} A",
    "load": "load {:g} A",
    "power": "load {:g} kW",
    "cores": "{:g} cores",
    "csa": "{:g} mm²",
    "cpc_csa": "cpc {:g} mm²",
    "length": "{:g} m long",
    "depth": "{:g} m deep",
    "ambient": "{:g} °C",
    "grouped": "{:g} circuits grouped",
}


def reading_words(reading: Mapping[str, object]) -> str:
    """Return what one word of a line means."""
    return ", ".join(_said(slot, value) for slot, value in reading.items() if slot != "called")


def echo_of(values: Mapping[str, object]) -> str:
    """Return all values of a line in full, as sentences."""
    sentences = (_circuit(values), _device(values), _cable(values))
    return " ".join(f"{each[0].upper()}{each[1:]}." for each in sentences if each)


def _said(slot: str, value: object) -> str:
    if slot in _UNITS:
        return _UNITS[slot].format(cast(float, value))
    if slot == "method":
        return f"method {cast(Method, value).value} ({_METHODS[cast(Method, value)]})"
    if slot == "cable":
        return _CABLES[cast(CableKind, value)]
    if slot == "family":
        if isinstance(value, DeviceKind):
            return value.value
        return "RCBO" if value == "rcbo" else "circuit-breaker"
    flags = {
        "duct": ("in a duct", "laid direct"),
        "delayed": ("delayed", "not delayed"),
        "outdoors": ("outdoors", "not outdoors"),
        "rcd": ("RCD apart", ""),
    }
    if slot in flags:
        return flags[slot][0 if value else 1]
    if slot in ("name", "where"):
        return f"“{value}”"
    starts = {"curve": "type ", "rcd_type": "RCD type ", "cpc": "cpc: "}
    said = value.value if isinstance(value, Word) else str(value)
    return f"{starts.get(slot, '')}{said}"


def _list(values: Mapping[str, object], *slots: str) -> str:
    return ", ".join(_said(each, values[each]) for each in slots if each in values)


def _circuit(values: Mapping[str, object]) -> str:
    use = values.get("use")
    named = {Use.FIXED: "fixed appliance"}.get(cast(Use, use), "") if use else ""
    name = values.get("name") or values.get("called")
    first = f"“{name}”" if name else ""
    said = named or (_said("use", use) if use else "")
    more = _list(values, "form", "kind", "fuse", "load", "power", "outdoors")
    return ", ".join(filter(None, (first, said, more)))


def _device(values: Mapping[str, object]) -> str:
    device = values.get("device")
    words = device.value if isinstance(device, DeviceKind) else ""
    if not words:
        words = _list(values, "family", "curve")
    if "rating" in values:
        words = f"{words} {values['rating']:g} A" if words else _said("rating", values["rating"])
    if "residual" in values:
        apart = "an RCD of " if values.get("rcd") else ""
        words = ", ".join(filter(None, (words, f"{apart}{values['residual']:g} mA")))
    return ", ".join(filter(None, (words, _list(values, "rcd_type", "delayed", "breaking"))))


def _cable(values: Mapping[str, object]) -> str:
    words = _list(values, "cores", "cable") if values.get("cable") is not CableKind.FLAT else ""
    if values.get("cable") is CableKind.FLAT:
        words = _CABLES[CableKind.FLAT]
        if values.get("cores") != 2:
            words = f"{words}, {_said('cores', values.get('cores'))}"
    if "csa" in values:
        words = f"{words} {values['csa']:g} mm²".strip()
        if "cpc_csa" in values:
            words = f"{words} with {values['cpc_csa']:g} mm² cpc"
    cpc = "" if values.get("cable") is CableKind.FLAT else _list(values, "cpc")
    where = _list(values, "where", "length", "method", "duct", "depth", "ambient", "grouped")
    return ", ".join(filter(None, (words, cpc, where)))
