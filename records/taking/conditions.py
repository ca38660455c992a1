"""What is settled beside the values: who, with what, when, how, and what was done."""

from __future__ import annotations

from records.days import moment_words
from records.errors import BadText
from records.interlock.may_take import Lock
from records.judgement.review_types import Judged
from records.model.reading import Slot
from records.model.slots import measured_by, title
from records.session import Session
from records.taking.act_names import ActNames
from records.taking.card import named
from records.taking.desk import Desk
from records.taking.exceptions import exception
from records.taking.finding_text import tests_after
from records.taking.instruments import fits, instrument_named, words
from records.taking.notes_time import begin_notes, end_notes
from records.taking.outcome import Outcome
from records.taking.person_named import person_named
from records.taking.position import Position
from records.taking.queue import others
from records.taking.stage_settings import is_insulation
from records.taking.typed_reading import could_not
from records.taking.typed_work import Done, read_done
from records.text import NOTE_LENGTH, checked_text


class Conditions:
    """Changes what goes with the readings at one stage; each act says what holds now."""

    def __init__(self, session: Session, desk: Desk, position: Position, names: ActNames) -> None:
        self._session, self._desk, self._position, self._names = session, desk, position, names

    def person(self, name: str) -> Outcome:
        """Say who takes the readings, by id or name.

        Raises:
            BadText: If nobody of the job is called so, or more than one.
        """
        person = person_named(self._session.record, checked_text(name))
        if person is None:
            raise BadText("Say who: a name or an id, such as P1.")
        self._desk.settings.person = person
        who = named(self._session.record, person)
        return Outcome(f"Readings are taken by {who} from here on.")

    def meter(self, name: str) -> Outcome:
        """Choose an instrument, by id or serial number.

        Raises:
            BadText: If the job has none called so.
        """
        found = instrument_named(self._session.record, name)
        settings = self._desk.settings
        settings.instruments = [found.id, *(x for x in settings.instruments if x != found.id)]
        return Outcome(f"Readings are taken with {words(found)} where it fits.")

    @property
    def people(self) -> tuple[tuple[str, str], ...]:
        """Who can take the readings, by id."""
        people = self._session.record.job.people
        return tuple((each.id, f"{each.id} {each.name}".strip()) for each in people)

    @property
    def person_now(self) -> str | None:
        """Id of who takes the readings."""
        return self._desk.settings.by(self._session.record, self._session.person)

    @property
    def meters(self) -> tuple[tuple[str, str], ...]:
        """The instruments of the job, by id, and which of them don't do for the reading in hand."""
        entry = self._position.entry
        return tuple(
            (each.id, words(each) + ("" if fit else " (not for the reading in hand)"))
            for each in self._session.record.job.instruments
            for fit in (entry is None or fits(each, entry.measurement),)
        )

    @property
    def meter_now(self) -> str | None:
        """Id of the instrument that was chosen last."""
        return next(iter(self._desk.settings.instruments), None)

    @property
    def lacking(self) -> str:
        """What can't be chosen, as none is entered; empty if there is a choice of both."""
        lacking = "people" if not self.people else "instruments" if not self.meters else ""
        if not lacking:
            return ""
        return f"No {lacking} are entered: the step Job has them. Readings can be taken."

    def notes_of(self, text: str) -> Outcome:
        """Enter readings from notes of a time from here on.

        Raises:
            BadQuantity: If it is no time, or is still to come.
        """
        return begin_notes(self._session, text, self._desk.now(), self._names)

    def taken(self, text: str) -> Outcome:
        """Enter readings from notes of a time; `now` ends that."""
        return self.taken_now() if text.casefold() == "now" else self.notes_of(text)

    def taken_now(self) -> Outcome:
        """Take readings now again, not from notes."""
        return end_notes(self._session)

    def lower(self, why: str) -> Outcome:
        """Test the insulation of the circuit in hand at 250 V, with L and N joined.

        Raises:
            BadText: If it is no insulation test, or the reason says nothing.
        """
        entry = self._position.entry
        self.check_insulation()
        assert entry is not None
        self._desk.settings.lower_here(entry.slot, could_not(why).reason)
        self._position.go_to(self._desk.instead(entry.slot))
        return Outcome(
            f"250 V d.c., L and N joined, to earth, for {entry.place}: read insulation L-E. "
            f"For 500 V {self._names.usual}."
        )

    def usual(self) -> Outcome:
        """Test insulation at 500 V again."""
        entry = self._position.entry
        if entry is not None:
            self._desk.settings.lower_here(entry.slot, "")
        return Outcome("Insulation is tested at 500 V d.c.")

    @property
    def is_lower(self) -> bool:
        """Whether the circuit in hand is tested at 250 V."""
        entry = self._position.entry
        return entry is not None and bool(self._desk.settings.at_lower(entry.slot))

    def check_insulation(self) -> None:
        """Refuse to change the test voltage of what has none.

        Raises:
            BadText: If the reading in hand is no insulation test.
        """
        entry = self._position.entry
        if entry is None or not is_insulation(entry.measurement):
            raise BadText("Only insulation tests have a test voltage.")

    def note(self, text: str) -> Outcome:
        """Put a note beside the next reading."""
        self._desk.settings.note = checked_text(text, NOTE_LENGTH)
        return Outcome("The next reading gets this note.")

    def method(self, text: str) -> Outcome:
        """Say how the next reading is measured."""
        self._desk.settings.method = checked_text(text, NOTE_LENGTH)
        return Outcome("The next reading says that it was measured so.")

    @property
    def finding(self) -> Judged | None:
        """What has to be put right at the reading in hand."""
        entry = self._position.entry
        return entry.judged if entry is not None and entry.is_bad else None

    def check_done(self, text: str, kind: str = "") -> Done:
        """Return what was done about the finding in hand, as it would go on record.

        Args:
            text: What was done; with the kind and the day before it if `kind` is empty.
            kind: The kind of work, then after a comma when it was done; may be empty.
        Raises:
            FarboardError: If there is no finding, or the text or the time can't be right.
        """
        bad = self.finding
        if bad is None:
            raise BadText("There is no finding here: this is for what was done about one.")
        return read_done(
            checked_text(text, NOTE_LENGTH), kind, lambda typed: self._desk.work(bad, typed)
        )

    def done(self, text: str, kind: str = "") -> Outcome:
        """Record what was done about the finding in hand; see `check_done`."""
        bad, found = self.finding, self.check_done(text, kind)
        assert bad is not None
        made = self._desk.remedy(bad, found.said, found.work)
        self._position.rebuild()
        again = tests_after(self._session.record, self._session.review, made)
        then = f"Then repeat {again}." if again else ""
        kept = f"Kept as {found.work.kind.words}, {moment_words(made.at)}."
        now = f"Now test again: {self._names.again[:1].lower()}{self._names.again[1:]}."
        lines = (f"{kept} {now}", then, "" if found.named else KINDS)
        return Outcome(" ".join(filter(None, (kept, now, then))), "good", lines=lines)

    def exception(self, who: str, reason: str) -> Outcome:
        """Record that who certifies lets the circuit in hand be tested live all the same.

        Raises:
            FarboardError: If nothing is locked off here, or it may not be excepted.
        """
        self._desk.except_circuit(self.locked_circuit(), who, reason)
        self._position.rebuild()
        return Outcome("Kept. The schedule prints who decided it, and why.", "good")

    def check_exception(self, who: str, reason: str) -> None:
        """Refuse a decision that would not be taken, before it is put on record."""
        exception(self._desk.interlock, self.locked_circuit(), who, reason)

    def locked_circuit(self) -> str:
        """Return the circuit in hand, which is locked off.

        Raises:
            BadText: If it is not: then there is nothing to except.
        """
        entry = self._position.entry if self._position.is_due else None
        stop = self._desk.refusal(entry.slot) if entry is not None else None
        if entry is None or stop is None or stop.lock is not Lock.CIRCUIT:
            raise BadText("Nothing is locked off here: an exception is for a circuit that is.")
        return entry.slot.place.circuit or ""

    def turn_order(self) -> Outcome:
        """Change between the two orders of work, and stay at the reading in hand."""
        settings = self._desk.settings
        settings.order = settings.order.other
        self._position.rebuild()
        return Outcome(f"Readings are offered {settings.order.value}.")

    def turn_grid(self) -> None:
        """Change between one by one and the grid."""
        self._desk.settings.grid = not self._desk.settings.grid

    @property
    def others(self) -> tuple[Slot, ...]:
        """The readings that nobody has to take, and that are not in the queue yet."""
        return others(self._session.record, self._desk.stage, self._position.queue)

    def ask_for(self, slot: Slot) -> Outcome:
        """Put a reading that nobody has to take into the queue, and go there."""
        self._desk.settings.more.append(slot)
        self._position.rebuild()
        self._position.go_to(slot)
        return Outcome("It is in the list; without a reading nothing is missing.")

    @property
    def other_lines(self) -> tuple[str, ...]:
        """A line for each reading that nobody has to take."""
        names = tuple(f"{self.other_name(each)}." for each in self.others)
        return names or ("Every test that has a place here is in the list already.",)

    def other_name(self, slot: Slot) -> str:
        """Return how a reading is called that nobody has to take."""
        return f"{title(self._session.record, slot.place)}: {measured_by(slot).title}"

    def ask_by_words(self, text: str) -> Outcome:
        """Ask for the first reading that nobody has to take and that has all these words.

        Raises:
            BadText: If there is none.
        """
        wanted = set(checked_text(text).casefold().split())
        for slot in self.others:
            name = f"{self.other_name(slot)} {slot.quantity.value}".casefold().replace(":", " ")
            if wanted <= set(name.split()):
                return self.ask_for(slot)
        raise BadText("No other test has all these words. others lists them.")


KINDS = (
    "With its kind, only what it can have touched has to be repeated. done: joint, 14:30: what was "
    "done. Kinds: device, joint, cable, point, earth, other, misread."
)
