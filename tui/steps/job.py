"""Step 1: the job, the people and their part in it, the instruments."""

from __future__ import annotations

from collections.abc import Sequence

from records import terms
from records.entering.asked import PERSON, instrument_asked, job_asked
from records.errors import BadRecord
from records.model.job import Instrument, Person
from records.model.record import Record
from records.store.edits import append
from tui.steps.form_step import FormStep
from tui.steps.page import Doing, Page, Trail


class JobStep(FormStep):
    """Says what the record is about."""

    step = terms.Step.JOB
    STEP_TITLE = "Job"
    HELP = (
        "What the record is about, who has which part in it, and the meters.\n\n"
        "Agree on the person who inspects, tests and certifies before the work starts. Somebody "
        "called at the end can't vouch for what is covered by then. Nobody's name is ever filled "
        "in for them here, and naming somebody signs nothing.\n\n"
        "Enter every meter with its serial number and the day of its calibration. Each reading "
        "says which one gave it. Readings from a meter out of calibration are questioned."
    )

    def page(self, trail: Trail) -> Page | None:
        """Return the first page, or that of a person or an instrument."""
        record = self.session.record
        if not trail:
            return self._first(record)
        if trail[0] == "person":
            return self._entry(record.job.people, trail[1], "people", "Person")
        return self._entry(record.job.instruments, trail[1], "instruments", "Instrument")

    def _first(self, record: Record) -> Page:
        job, page = record.job, Page("Job")
        page.ask(job, "/job", job_asked(record))
        page.heading("People and their part")
        for person in job.people:
            page.link(
                person.id,
                person.name or f"{person.id} (no name)",
                person.duty.value if person.duty is not None else "part in the job?",
                self.opening(("person", person.id)),
                take_out=self._taking("people", person.id, f"Person {person.name or person.id}"),
            )
        page.act("+person", "+ add a person", self._add_person)
        page.heading("Instruments")
        for meter in job.instruments:
            page.link(
                meter.id,
                meter.kind.value if meter.kind is not None else f"{meter.id} (kind?)",
                f"serial {meter.serial}" if meter.serial else "serial number?",
                self.opening(("instrument", meter.id)),
                take_out=self._taking("instruments", meter.id, f"Instrument {meter.name}"),
            )
        page.act("+instrument", "+ add an instrument", self._add_instrument)
        return page

    def _entry(
        self,
        entries: Sequence[Person | Instrument],
        id: str,
        name: str,
        word: str,
    ) -> Page | None:
        at = next((at for at, each in enumerate(entries) if each.id == id), None)
        if at is None:
            return None
        page = Page(f"Job › {word.lower()} {id}")
        entry = entries[at]
        asked = instrument_asked(entry) if isinstance(entry, Instrument) else (PERSON,)
        page.ask(entry, f"/job/{name}/{at}", asked)
        page.removals[""] = self._taking(name, id, f"{word} {id}")
        page.act("up", "‹ back to Job", self.action_up, "Esc does the same.")
        page.act("out", f"remove this {word.lower()}", page.removals[""], "F8")
        return page

    def _add_person(self) -> None:
        from records.entering.list_entries import new_person

        entry = new_person(self.session.record)
        if self.alter(append("/job/people", entry), f"Person {entry.id} is added: give the name."):
            self.open(("person", entry.id))

    def _add_instrument(self) -> None:
        from records.entering.list_entries import new_instrument

        entry = new_instrument(self.session.record)
        said = f"Instrument {entry.id} is added: say what it is."
        if self.alter(append("/job/instruments", entry), said):
            self.open(("instrument", entry.id))

    def _taking(self, name: str, id: str, called: str) -> Doing:
        return lambda: self._out(name, id, called)

    def _out(self, name: str, id: str, called: str) -> None:
        from records.entering.list_entries import check_named_nowhere

        record = self.session.record
        try:
            check_named_nowhere(record, id, called)
        except BadRecord as error:
            self.tell(str(error), "bad")
            return
        entries = record.job.people if name == "people" else record.job.instruments
        at = [each.id for each in entries].index(id)
        self.take_out(f"/job/{name}/{at}", called)
