"""Step 1: the job, the people and their part in it, the instruments."""

from __future__ import annotations

from collections.abc import Sequence

from records import terms
from records.judgement.design.edition_note import edition_note
from records.model.job import Duty, Instrument, Job, Person
from records.model.record import Record, next_id
from records.store.edits import append
from tui.fields import fields_of
from tui.steps.cautions import NOTIFY
from tui.steps.form_step import FormStep
from tui.steps.page import Doing, Page, Trail

_PERSON = ("name", "duty")
_INSTRUMENT = ("kind", "serial", "calibrated", "due", "uncertainty", "leads", "nulled")

MOST_LEADS = 1.0
"""Ω that test leads have at most: 0.05 to 0.3 Ω is common practice, with a fuse in them more."""
EDITION = (
    "Every limit in Farboard is that of BS 7671:2018+A2:2022, from secondary copies and memory, "
    "whatever is entered here. The certifier confirms them."
)


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
            return self._entry(record.job.people, trail[1], "people", "Person", _PERSON)
        return self._entry(
            record.job.instruments, trail[1], "instruments", "Instrument", _INSTRUMENT
        )

    def _first(self, record: Record) -> Page:
        job, page = record.job, Page("Job")
        page.fields(fields_of(job, "/job", ("reference", "place", "description", "edition")))
        page.note(EDITION, "plain" if job.edition == Job().edition else "warn")
        page.fields(fields_of(job, "/job", ("started",)))
        page.fields(fields_of(job, "/job", ("ambient",)))
        note = edition_note(record)
        if note:  # after all that is there from the start: a figure typed on lands where it was
            page.note(note, "plain" if job.edition_settled else "warn")
            page.fields(fields_of(job, "/job", ("edition_settled",)))
        page.note(NOTIFY, "warn" if not _certified(job) else "plain")
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
        fields: tuple[str, ...],
    ) -> Page | None:
        at = next((at for at, each in enumerate(entries) if each.id == id), None)
        if at is None:
            return None
        page = Page(f"Job › {word.lower()} {id}")
        entry = entries[at]
        page.fields(fields_of(entry, f"/job/{name}/{at}", fields))
        if isinstance(entry, Instrument):
            _on_leads(page, entry)
        page.removals[""] = self._taking(name, id, f"{word} {id}")
        page.act("up", "‹ back to Job", self.action_up, "Esc does the same.")
        page.act("out", f"remove this {word.lower()}", page.removals[""], "F8")
        return page

    def _add_person(self) -> None:
        people = self.session.record.job.people
        taken = {each.duty for each in people}
        duty = next((d for d in (Duty.INSTALLS, Duty.CERTIFIES) if d not in taken), None)
        entry = Person(id=next_id("P", people), duty=duty)
        if self.alter(append("/job/people", entry), f"Person {entry.id} is added: give the name."):
            self.open(("person", entry.id))

    def _add_instrument(self) -> None:
        entry = Instrument(id=next_id("M", self.session.record.job.instruments))
        said = f"Instrument {entry.id} is added: say what it is."
        if self.alter(append("/job/instruments", entry), said):
            self.open(("instrument", entry.id))

    def _taking(self, name: str, id: str, called: str) -> Doing:
        return lambda: self._out(name, id, called)

    def _out(self, name: str, id: str, called: str) -> None:
        from records.model.certifier import all_counted

        record = self.session.record
        using = [
            *(each.id for each in all_counted(record).readings if id in (each.by, each.instrument)),
            *(each.id for each in record.remedies if each.by == id),
            *("the answer before the live tests" for each in record.live_gate if each.by == id),
        ]
        if using:
            more = f" and {len(using) - 1} more" if len(using) > 1 else ""
            self.tell(
                f"{called} stands in {using[0]}{more}: who took a reading, and with what, stays.",
                "bad",
            )
            return
        entries = record.job.people if name == "people" else record.job.instruments
        at = [each.id for each in entries].index(id)
        self.take_out(f"/job/{name}/{at}", called)


def _certified(job: Job) -> bool:
    """Return whether somebody is named who will certify."""
    return any(each.duty is Duty.CERTIFIES and each.name for each in job.people)


def _on_leads(page: Page, meter: Instrument) -> None:
    """Say what becomes of the leads of a meter that doesn't null them."""
    if meter.nulled is not False:
        return
    if meter.leads is None:
        page.note(
            "Join the tips and enter the lead resistance: till then it stays in each low reading.",
            "warn",
        )
    elif meter.leads > MOST_LEADS:
        page.note(
            f"{meter.leads:g} Ω is more than sound leads have: look at fuse and tips, and at "
            "the figure.",
            "warn",
        )
    elif meter.leads:
        page.note(
            f"{meter.leads:g} Ω is taken off each low-resistance reading from now on; those "
            "on record stay as they are."
        )
