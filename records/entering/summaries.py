"""A run, a device or a bond in a few words, with what of it is not entered yet."""

from __future__ import annotations

from records.model.outbuilding import Bond
from records.model.wiring import Device, Rcd, Run
from records.terms import CableKind


def run_summary(run: Run) -> str:
    """Return a run in a few words: length, cable, sizes, method."""
    cable = {
        CableKind.FLAT: "flat",
        CableKind.SINGLES: "singles",
        CableKind.FLEX: "flex",
        CableKind.SWA_XLPE: "armoured XLPE",
        CableKind.SWA_PVC: "armoured PVC",
        None: "",
    }[run.cable]
    size = f"{run.csa:g}" if run.csa is not None else ""
    size += f"/{run.cpc_csa:g}" if size and run.cpc_csa is not None else ""
    parts = (
        f"{run.length:g} m" if run.length is not None else "length?",
        cable or "cable?",
        f"{size} mm²" if size else "size?",
        f"method {run.method.value}" if run.method is not None else "",
    )
    return ", ".join(filter(None, parts))


def device_summary(device: Device, rcd: Rcd) -> str:
    """Return a device in a few words, such as `RCBO type B 20 A, 30 mA`."""
    kind = device.kind.value if device.kind is not None else "device?"
    rating = f" {device.rating:g} A" if device.rating is not None else ""
    residual = f", {rcd.residual:g} mA" if rcd.residual is not None else ""
    return f"{kind}{rating}{residual}"


def bond_summary(bond: Bond) -> str:
    """Return a bonding conductor in a few words, such as `10 mm², 4 m`."""
    size = f"{bond.csa:g} mm²" if bond.csa is not None else "size?"
    length = f"{bond.length:g} m" if bond.length is not None else "length?"
    return f"{size}, {length}"
