"""Rows for what was noticed in use, of a circuit or of the whole outbuilding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.entering.asked import NOTICED
from records.entering.model_fields import fields_of
from records.model.noticed import Noticed
from records.model.record import next_id
from records.store.edits import append
from tui.steps.page import Page

if TYPE_CHECKING:
    from records.model.record import Record
    from tui.steps.form_step import FormStep


def noticed_rows(step: FormStep, page: Page, record: Record, circuit: str | None) -> None:
    """Add what was noticed, and a row to add more.

    Args:
        step: The step that shows the page.
        page: Gets the rows.
        record: The job.
        circuit: Id of the circuit that the page is about; None: the whole outbuilding.
    """
    page.heading("Noticed in use")
    for at, each in enumerate(record.noticed):
        if each.circuit != circuit:
            continue
        here = f"/noticed/{at}"
        fields = fields_of(each, here, NOTICED)
        page.fields(fields)
        for field in fields:
            page.removals[field.key] = step.taking_out(here, "What was noticed")

    def add() -> None:
        found = Noticed(id=next_id("N", record.noticed), circuit=circuit)
        if step.alter(append("/noticed", found), "Say what was noticed."):
            step.form.show(step.form.rows, at=f"/noticed/{len(record.noticed)}/kind")

    page.act(
        "/noticed/+",
        "+ note something noticed",
        add,
        "It trips in rain, a socket gets hot, lights flicker: it joins the findings it belongs to.",
    )
