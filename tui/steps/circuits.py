"""Step 5: the final circuits of the sub-board."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from records import terms
from records.entering.asked_wiring import circuit_load_asked, fuse_asked
from records.entering.line_changes import circuit_of
from records.entering.line_field import circuit_ops, scope_field, trial_of
from records.entering.list_entries import check_circuit_goes, new_circuit
from records.entering.model_fields import fields_of
from records.entering.summaries import device_summary
from records.errors import BadRecord
from records.model.circuit import Circuit
from records.model.reading import Place, place_of
from records.model.record import Record
from records.store.edits import append
from tui.steps.form_step import FormStep
from tui.steps.noticed import noticed_rows
from tui.steps.one_line import into_circuit, take_line
from tui.steps.options import circuit_option_rows
from tui.steps.page import Doing, Page, Trail
from tui.steps.points import points_page
from tui.steps.wiring import device_rows, rcd_rows, run_page, run_rows

if TYPE_CHECKING:
    from records.shorthand.line import Line

CIRCUIT_LINE = (
    "In any order, with the name in quotes: “bench” sockets ring B32 rcbo 30ma 2.5/1.5 68m "
    "clipped. Ctrl+Z takes it back."
)
NEW_LINE = CIRCUIT_LINE


class CircuitsStep(FormStep):
    """Says what each circuit is made of."""

    step = terms.Step.CIRCUITS
    STEP_TITLE = "Circuits"
    HELP = (
        "The final circuits: what each feeds, how it is laid out, its device, its cable and its "
        "points.\n\n"
        "A ring is entered as one run with its whole length, all the way round. A circuit to a "
        "fixed appliance through a fused connection unit has the fuse of that unit as well.\n\n"
        "Points are where readings are taken: every socket of a ring, the furthest point of a "
        "radial. Their distances along the cable let the expected readings follow the ring. Their "
        "rooms let what is missing be listed room by room. A load at its point is taken there for "
        "voltage drop. Without, all of it is taken at the furthest point, the worst case.\n\n"
        "F7 copies the design of a circuit to a new one; readings are never copied. A circuit "
        "with readings can't be removed."
    )

    def page(self, trail: Trail) -> Page | None:
        """Return the list, a circuit, one of its runs, or its points."""
        record = self.session.record
        if not trail:
            return self._list(record)
        at = next((at for at, each in enumerate(record.circuits) if each.id == trail[0]), None)
        if at is None:
            return None
        circuit, pointer = record.circuits[at], f"/circuits/{at}"
        place = place_of(terms.Part.CIRCUIT, circuit.id)
        name = f"{circuit.id} {circuit.name}".strip()
        if trail[1:2] == ("run",):
            return run_page(self, circuit, pointer, trail, name, place)
        if trail[1:2] == ("points",):
            return points_page(self, circuit, pointer, trail, name, place)
        return self._circuit(record, circuit, pointer, place, name)

    def _list(self, record: Record) -> Page:
        page = Page("Circuits")
        for at, circuit in enumerate(record.circuits):
            page.link(
                circuit.id,
                f"{circuit.id} {circuit.name}".strip(),
                device_summary(circuit.device, circuit.rcd),
                self.opening((circuit.id,)),
                copy=self._copying(circuit),
                take_out=self._taking(at, circuit),
            )
        from records.shorthand.line import Scope

        line = scope_field("/circuits", NEW_LINE, Scope.CIRCUIT)
        line = replace(line, label="Next in one line")
        page.line(
            line,
            lambda text: take_line(self, line.key, text, Scope.CIRCUIT, self._add_line),
            trial_of(
                Scope.CIRCUIT,
                lambda read: append("/circuits", circuit_of(new_circuit(record).id, read.values)),
            ),
        )
        page.act("+", "+ add a circuit", self._add, "One line for each way of the sub-board.")
        return page

    def _circuit(
        self, record: Record, circuit: Circuit, pointer: str, place: Place, name: str
    ) -> Page:
        page = Page(f"Circuits › {name}", place)
        from records.shorthand.line import Scope

        line = scope_field(pointer, CIRCUIT_LINE, Scope.CIRCUIT)
        page.line(
            line,
            lambda text: take_line(
                self,
                line.key,
                text,
                Scope.CIRCUIT,
                lambda read: into_circuit(self, circuit, pointer, read),
            ),
            trial_of(Scope.CIRCUIT, lambda read: circuit_ops(circuit, pointer, read)),
        )
        page.fields(fields_of(circuit, pointer, ("name", "use", "form")))
        device_rows(page, circuit.device, pointer)
        page.ask(circuit, pointer, fuse_asked(circuit))
        rcd_rows(page, circuit.rcd, pointer, circuit.device)
        page.heading("Load and surroundings")
        page.ask(circuit, pointer, circuit_load_asked(record, circuit))
        run_rows(self, page, circuit, pointer, (circuit.id,))
        circuit_option_rows(self, page, circuit.id)
        page.heading("Points")
        count = len(circuit.points)
        page.link(
            "points",
            "Points",
            f"{count} so far" if count else "none yet",
            self.opening((circuit.id, "points", "all")),
            hint="Where readings are taken: each socket, the furthest point. Enter opens the list.",
        )
        noticed_rows(self, page, record, circuit.id)
        at = int(pointer.rpartition("/")[2])
        page.copies[""] = self._copying(circuit)
        page.removals[""] = self._taking(at, circuit)
        page.act("up", "‹ back to the circuits", self.action_up, "Esc does the same.")
        page.act(
            "copy",
            "copy this design to a new circuit",
            page.copies[""],
            "F7 does the same; readings are never copied.",
        )
        page.act("out", "remove this circuit", page.removals[""], "F8; Ctrl+Z brings it back.")
        return page

    def _add(self) -> None:
        self._append(None, "is added: say what it feeds.")

    def _add_line(self, line: Line) -> str:
        """Add the circuit that a line describes; what is left of it waits on the circuit's page."""
        from records.shorthand.slot_words import echo_of

        at, id = len(self.session.record.circuits), new_circuit(self.session.record).id
        self.session.change(append("/circuits", circuit_of(id, line.values)))
        self.tell(f"{id} is added: {echo_of(line.values)} Ctrl+Z takes it back.", "good")
        if line.unknown:
            self.open((id,))
        return f"/circuits/{at}/="

    def _copying(self, circuit: Circuit) -> Doing:
        said = f"has the design of {circuit.id}: name it, and correct its lengths."
        return lambda: self._append(circuit, said)

    def _taking(self, at: int, circuit: Circuit) -> Doing:
        return lambda: self._out(at, circuit)

    def _append(self, like: Circuit | None, said: str) -> None:
        try:
            circuit = new_circuit(self.session.record, like)
        except BadRecord as error:
            self.tell(str(error), "bad")
            return
        if self.alter(append("/circuits", circuit), f"{circuit.id} {said}"):
            self.open((circuit.id,))

    def _out(self, at: int, circuit: Circuit) -> None:
        try:
            check_circuit_goes(self.session.record, circuit)
        except BadRecord as error:
            self.tell(str(error), "bad")
            return
        self.take_out(f"/circuits/{at}", f"Circuit {circuit.id}")
