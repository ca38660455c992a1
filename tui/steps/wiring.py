"""The pages' common parts: a protective device, an RCD, and runs of cable one after another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.entering.asked_wiring import device_asked, fitting, is_rcbo, rcd_asked, run_asked
from records.entering.line_changes import run_ops
from records.entering.line_field import scope_field, trial_of
from records.entering.model_fields import fields_of
from records.entering.remark import Remark
from records.entering.summaries import run_summary
from records.model.circuit import Circuit
from records.model.outbuilding import Feed
from records.model.wiring import Device, Rcd, Run
from records.store.edits import append
from tui.steps.one_line import into_run, take_line
from tui.steps.page import Doing, Page, Trail

if TYPE_CHECKING:
    from records.model.reading import Place
    from tui.steps.form_step import FormStep

RUN_LINE = (
    "Such as 3c 10 swa 46m buried 500 cpc armour, or 2.5/1.5 68m clipped. Ctrl+Z takes it back."
)


def device_rows(page: Page, device: Device, pointer: str) -> None:
    """Add the protective device."""
    page.heading("Protective device")
    page.ask(device, f"{pointer}/device", device_asked(device))


def rcd_rows(
    page: Page, rcd: Rcd, pointer: str, device: Device | None = None, *, aged: bool = False
) -> None:
    """Add the RCD; see `rcd_asked`."""
    page.heading("RCD part of the RCBO" if is_rcbo(device) else "RCD, if there is one here")
    page.ask(rcd, f"{pointer}/rcd", rcd_asked(rcd, device, aged=aged))


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
    for each in run_asked(run):
        if isinstance(each, Remark):
            page.remark(each)
        else:
            page.fields(fitting(run, fields_of(run, here, each)))
    page.copies[""] = _copying(step, run, pointer, f"Run {at + 1}")
    page.removals[""] = step.taking_out(here, f"Run {at + 1}")
    page.act(f"{here}/up", f"‹ back to {name}", step.action_up, "Esc does the same.")
    page.act(f"{here}/copy", "copy this run to a new one at the end", page.copies[""], "F7")
    page.act(f"{here}/out", "remove this run", page.removals[""], "F8; Ctrl+Z brings it back.")
    return page


def _copying(step: FormStep, run: Run, pointer: str, name: str) -> Doing:
    def copy() -> None:
        step.alter(append(f"{pointer}/runs", run), f"{name} is copied to a new run.")

    return copy
