"""The pages' common parts: a protective device, an RCD, and runs of cable one after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from records import terms
from records.model.circuit import Circuit
from records.model.outbuilding import Feed
from records.model.wiring import Device, Rcd, Run
from records.store.edits import append
from records.terms import CableKind, Cpc, Method
from tui.fields import fields_of
from tui.steps.line_changes import run_ops
from tui.steps.one_line import into_run, scope_field, take_line, trial_of
from tui.steps.page import Doing, Page, Trail
from tui.widgets.rows import Field

if TYPE_CHECKING:
    from records.model.reading import Place
    from tui.steps.form_step import FormStep

_BURIED = (Method.D,)
RUN_LINE = (
    "Such as 3c 10 swa 46m buried 500 cpc armour, or 2.5/1.5 68m clipped. Ctrl+Z takes it back."
)
_ARMOURED_CPC = (Cpc.ARMOUR, Cpc.CORE, Cpc.CORE_AND_ARMOUR, Cpc.NONE, None)
"""What can serve as cpc in armoured cable; none for an earth that is not exported."""


def device_rows(page: Page, device: Device, pointer: str) -> None:
    """Add the protective device."""
    page.heading("Protective device")
    page.fields(fields_of(device, f"{pointer}/device", ("kind", "rating")))
    if device.kind is not None and device.rating is not None:
        from records.tables.made import no_such_rating

        _doubt(page, no_such_rating(device.kind, device.rating))
    page.fields(fields_of(device, f"{pointer}/device", ("breaking",)))


def rcd_rows(
    page: Page, rcd: Rcd, pointer: str, device: Device | None = None, *, aged: bool = False
) -> None:
    """Add the RCD; of its fields only those that mean something yet.

    Args:
        page: To add to.
        rcd: As entered.
        pointer: Where its owner stands in the record.
        device: That it may be a part of.
        aged: Whether it may be older than the work, so that its standard matters.
    """
    built_in = device is not None and device.kind is not None and device.kind.is_rcbo
    page.heading("RCD part of the RCBO" if built_in else "RCD, if there is one here")
    there = built_in or rcd.residual is not None
    names = ["residual"]
    names += ["type"] if there or rcd.type is not None else []
    names += ["delayed"] if there or rcd.delayed else []
    older = rcd.standard in (terms.RcdStandard.BS_4293, terms.RcdStandard.BS_7288)
    names += ["standard"] if (rcd.residual is not None and aged) or older else []
    names += ["delay"] if (older and rcd.delayed) or rcd.delay is not None else []
    page.fields(fields_of(rcd, f"{pointer}/rcd", names))
    if built_in and rcd.residual is None:
        page.note("An RCBO has an RCD part: enter its IΔn from the label.", "warn")


def run_rows(step: FormStep, page: Page, owner: Feed | Circuit, pointer: str, trail: Trail) -> None:
    """Add the list of runs, in the order in which the current meets them."""
    page.heading("Runs of cable, in order from the supply")
    for at, run in enumerate(owner.runs):
        here = f"{pointer}/runs/{at}"
        page.link(
            here,
            f"{at + 1} {run.where}".strip(),
            run_summary(run),
            step.opening((*trail, "run", str(at))),
            copy=_copying(step, run, pointer, f"Run {at + 1}"),
            take_out=step.taking_out(here, f"Run {at + 1}"),
        )

    def add() -> None:
        if step.alter(append(f"{pointer}/runs", Run()), "A run is added: say what it is."):
            step.open((*trail, "run", str(len(owner.runs))))

    page.act(
        f"{pointer}/runs/+",
        "+ add a run",
        add,
        "One length of one cable in one set of surroundings; where either changes, a new run.",
    )


def run_page(
    step: FormStep,
    owner: Feed | Circuit,
    pointer: str,
    trail: Trail,
    name: str,
    place: Place,
) -> Page | None:
    """Return the page of one run; None if there is no such run."""
    at = int(trail[-1])
    if at >= len(owner.runs):
        return None
    run, here = owner.runs[at], f"{pointer}/runs/{at}"
    page = Page(f"{name} › run {at + 1} of {len(owner.runs)}", place)
    from records.shorthand.line import Scope

    line = scope_field(here, RUN_LINE, Scope.RUN)
    page.line(
        line,
        lambda text: take_line(
            step, line.key, text, Scope.RUN, lambda read: into_run(step, run, here, read)
        ),
        trial_of(Scope.RUN, lambda read: run_ops(here, run, read.values, read.implied)),
    )
    from records.tables.made import no_such_conductor, no_such_size

    for each in run_fields(run):
        page.fields(_fitting(run, fields_of(run, here, (each,))))
        if each == "csa" and run.csa is not None and run.cable is not None:
            _doubt(page, no_such_size(run.cable, run.csa))
        if each == "cpc_csa" and run.cpc_csa is not None:
            _doubt(page, no_such_conductor(run.cpc_csa))
    page.copies[""] = _copying(step, run, pointer, f"Run {at + 1}")
    page.removals[""] = step.taking_out(here, f"Run {at + 1}")
    page.act(f"{here}/up", f"‹ back to {name}", step.action_up, "Esc does the same.")
    page.act(f"{here}/copy", "copy this run to a new one at the end", page.copies[""], "F7")
    page.act(f"{here}/out", "remove this run", page.removals[""], "F8; Ctrl+Z brings it back.")
    return page


def _doubt(page: Page, no_such: str) -> None:
    """Say under a field that nothing of that size or rating is sold; it is kept all the same."""
    if no_such:
        page.note(f"{no_such} Nothing that depends on it is calculated.", "warn")


def _fitting(run: Run, fields: tuple[Field, ...]) -> tuple[Field, ...]:
    """Return fields without the answers that the cable rules out; what is entered stays."""
    if run.cable is None or not run.cable.is_armoured:
        return fields
    fit = (*_ARMOURED_CPC, run.cpc)
    return tuple(
        replace(each, options=tuple(option for option in each.options if option.value in fit))
        if each.key.endswith("/cpc")
        else each
        for each in fields
    )


def run_fields(run: Run) -> Sequence[str]:
    """Return the fields of a run that mean something for its cable and method, or hold a value."""
    plain = Run()
    names = ["where", "cable", "cores", "csa", "cpc"]
    if run.cable is CableKind.FLAT and run.cores == plain.cores and run.cpc is Cpc.CORE:
        names = ["where", "cable", "csa"]  # the cable says both
    sized = run.cpc in (Cpc.CORE, Cpc.SEPARATE, Cpc.CORE_AND_ARMOUR)
    names += ["cpc_csa"] if sized or run.cpc_csa is not None else []
    apart = run.cpc is Cpc.SEPARATE
    names += ["protected"] if apart or run.protected is not None else []
    names += ["length", "method", "ambient", "grouped"]
    buried = run.method in _BURIED
    names += ["insulated"] if not buried or run.insulated != plain.insulated else []
    names += ["depth"] if buried or run.depth is not None else []
    names += ["soil"] if buried or run.soil != plain.soil else []
    names += ["duct"] if buried or run.duct else []
    names += ["gap"] if (buried and run.grouped > 1) or run.gap else []
    hot = run.cable is CableKind.SWA_XLPE
    names += ["hot_terminals"] if hot or run.hot_terminals else []
    return names


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


def _copying(step: FormStep, run: Run, pointer: str, name: str) -> Doing:
    def copy() -> None:
        step.alter(append(f"{pointer}/runs", run), f"{name} is copied to a new run.")

    return copy
