"""The job: its name, the people and their part in it, the instruments."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import MOST_IN_LIST, Celsius, Day, Id, Ohms, Percent, Piece, Text
from records.terms import Word


class Duty(Word):
    """What somebody does in the job."""

    INSTALLS = "installs", "wires, tests and records"
    CERTIFIES = "certifies", "inspects, tests and certifies"
    DESIGNS = "designs"
    ORDERS = "client"


class Person(Piece):
    """Somebody with a part in the job."""

    id: Id
    name: Text = Field("", title="Name", description="As the schedule should print it.")
    duty: Duty | None = Field(
        None,
        title="Part in the job",
        description=(
            "One of the people must be the one who certifies, agreed before the work starts."
        ),
    )


class InstrumentKind(Word):
    """What an instrument can do (the parts of BS EN 61557)."""

    MULTIFUNCTION = "multifunction", "multifunction tester"
    LOW_OHM = "low-ohm", "low-resistance ohmmeter"
    INSULATION = "insulation", "insulation tester"
    LOOP = "loop", "loop tester"
    RCD = "rcd", "RCD tester"
    ELECTRODE = "electrode", "earth electrode tester"


class Instrument(Piece):
    """A meter that readings are taken with."""

    id: Id
    kind: InstrumentKind | None = Field(None, title="Kind")
    serial: Text = Field(
        "",
        title="Serial number",
        description="From the label; the schedule says which meter gave which reading.",
    )
    calibrated: Day | None = Field(
        None, title="Calibrated on", description="Day of the last calibration or check."
    )
    due: Day | None = Field(
        None, title="Calibration due", description="Day on which the next one is due, as 20/3/27."
    )
    uncertainty: Percent | None = Field(
        None,
        title="Operating uncertainty",
        description=(
            "From the meter's sheet, in % of the reading; left empty, the most that EN 61557 "
            "allows."
        ),
    )
    leads: Ohms | None = Field(
        None,
        title="Lead resistance",
        description="What the meter shows with the tips joined, before the leads are nulled.",
    )
    nulled: bool | None = Field(
        None,
        title="Leads nulled",
        description=(
            "Whether the meter takes them off. If not, they are taken off each low-resistance "
            "reading here, and that is shown."
        ),
    )

    @property
    def name(self) -> str:
        """How it is called: by its serial number, or by its id while that isn't known."""
        return f"meter {self.serial}" if self.serial else self.id


class Job(Piece):
    """What the record is about."""

    reference: Text = Field(
        "",
        title="Reference",
        description="Your own word or number for the job; it is on every page.",
    )
    place: Text = Field("", title="Place", description="Which outbuilding, where.")
    description: Text = Field(
        "", title="Description of the work", description="One line: building, use, what gets wired."
    )
    edition: Text = Field(
        "BS 7671:2018+A2:2022",
        title="BS 7671 edition",
        description=(
            "The limits in Farboard are those of A2:2022; agree the edition with the certifier."
        ),
    )
    edition_settled: Text = Field(
        "",
        title="Certifier on the edition",
        description=(
            "For a job begun after A2:2022 was withdrawn (15 October 2026): what the certifier "
            "decided, with name and day."
        ),
    )
    started: Day | None = Field(None, title="Started on", description="The day the work began.")
    ambient: Celsius | None = Field(
        None,
        title="Temperature at the tests",
        description=(
            "Of the place where the cables lie; a cold cable reads lower. Empty: taken as 20 °C."
        ),
    )
    people: tuple[Person, ...] = Field((), max_length=MOST_IN_LIST)
    instruments: tuple[Instrument, ...] = Field((), max_length=MOST_IN_LIST)


def person_words(person: Person) -> str:
    """Return how a person is called where one is chosen by typing."""
    return f"{person.id} {person.name}".strip()
