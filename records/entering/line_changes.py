"""The changes to a record that the values of a line of shorthand make."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from records.entering.field import Field, Several
from records.model.circuit import Circuit
from records.model.wiring import Device, Rcd, Run
from records.store.edits import put
from records.tables.reference_temperatures import GROUND
from records.terms import CableKind, Cpc, Method

Ops = list[dict[str, Any]]


def run_of(values: Mapping[str, object]) -> Run:
    """Return a new run with the values of a line."""
    return Run().model_copy(update=_run_values(values))


def _run_values(values: Mapping[str, object]) -> dict[str, Any]:
    from records.shorthand.vocabulary import RUN_SLOTS

    return {name: value for name, value in values.items() if name in RUN_SLOTS}


def has_run(values: Mapping[str, object]) -> bool:
    """Whether a line says anything of a cable."""
    return bool(_run_values(values))


def run_ops(pointer: str, run: Run, values: Mapping[str, object], implied: object) -> Ops:
    """Return the changes that put a line's values into a run; what is implied fills gaps only."""
    plain, ops = Run(), list[dict[str, Any]]()
    skip = implied if isinstance(implied, frozenset) else frozenset()
    for name, value in _run_values(values).items():
        now = getattr(run, name)
        if now == value or (name in skip and now != getattr(plain, name)):
            continue
        ops += put(f"{pointer}/{name}", value)
    ambient, _ = ambient_brought(run, values)
    return ops if ambient is None else ops + put(f"{pointer}/ambient", ambient)


def ambient_brought(run: Run, values: Mapping[str, object]) -> tuple[float | None, str]:
    """Return the ambient temperature that another method brings with it [°C], and words; or None.

    Only a usual one gives way: what somebody measured stays. Else a cable that left the ground
    would be rated for the cool of it.

    Args:
        run: As it is.
        values: What is entered for it, by field.
    """
    method, plain = values.get("method"), Run()
    if method is None or method is run.method or "ambient" in values:
        return None, ""
    if method is Method.D and run.ambient == plain.ambient:
        return GROUND, f" {GROUND:g} °C is entered for the ground."
    if method is not Method.D and run.method is Method.D and run.ambient == GROUND:
        return plain.ambient, f" {plain.ambient:g} °C is entered for the air."
    return None, ""


def own_values(values: Mapping[str, object], named: bool) -> dict[str, object]:
    """Return what a line says of a circuit or feed itself, by field.

    Args:
        values: By slot.
        named: Whether it has a name already, which a word such as `heater` doesn't replace.
    """
    from records.shorthand.vocabulary import CIRCUIT_SLOTS, FIELD_SLOTS

    fields = {name: slot for name, slot in FIELD_SLOTS.items() if slot in values}
    found = {name: values[slot] for name, slot in fields.items()}
    found |= {name: values[name] for name in values if name in CIRCUIT_SLOTS - {"called"}}
    if "called" in values and "name" not in found and not named:
        found["name"] = values["called"]
    return found


def own_ops(pointer: str, values: Mapping[str, object], *, named: bool = True) -> Ops:
    """Return the changes that put into a circuit or feed what a line says of it but its cable."""
    return [
        op
        for name, value in own_values(values, named).items()
        for op in put(f"{pointer}/{name}", value)
    ]


def circuit_of(id: str, values: Mapping[str, object]) -> Circuit:
    """Return a new circuit with all that a line says."""
    update: dict[str, Any] = {}
    parts: dict[str, dict[str, Any]] = {"device": {}, "rcd": {}}
    for name, value in own_values(values, False).items():
        owner, _, field = name.rpartition("/")
        (parts[owner] if owner else update)[field] = value
    update["device"] = Device().model_copy(update=parts["device"])
    update["rcd"] = Rcd().model_copy(update=parts["rcd"])
    if has_run(values):
        update["runs"] = (run_of(values),)
    return Circuit(id=id).model_copy(update=update)


def several_ops(field: Field, entry: Several, run: Run | None) -> Ops:
    """Return the changes that an entry of shorthand makes from a field of a device or a run."""
    if run is not None:
        return run_ops(field.pointer.rpartition("/")[0], run, entry.values, entry.implied)
    owner = field.pointer
    for part in ("/device/", "/rcd/"):
        owner = owner.partition(part)[0]
    if owner == field.pointer:
        owner = owner.rpartition("/")[0]
    return own_ops(owner, entry.values)


def implied_ops(field: Field, value: object, run: Run | None) -> tuple[Ops, str]:
    """Return what a cable or a method brings with it where nothing is entered yet, and words."""
    pointer, _, name = field.pointer.rpartition("/")
    if run is None:
        return [], ""
    if name == "cable" and value is CableKind.FLAT and run.cpc is None:
        ops = put(f"{pointer}/cpc", Cpc.CORE)
        return ops + (put(f"{pointer}/cores", 2) if run.cores != 2 else []), ""
    ambient, said = ambient_brought(run, {name: value})
    return ([] if ambient is None else put(f"{pointer}/ambient", ambient)), said


def run_at(record: object, pointer: str) -> Run | None:
    """Return the run that a pointer leads into; None if it leads elsewhere."""
    parts = pointer.split("/")[1:]
    if "runs" not in parts or parts[-2:-1] == ["runs"]:
        return None
    piece: Any = record
    for part in parts[: parts.index("runs") + 2]:
        piece = piece[int(part)] if part.isdigit() else getattr(piece, part)
    return piece if isinstance(piece, Run) else None
