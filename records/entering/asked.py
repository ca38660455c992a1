"""What a page of the design asks for, in order: the fields that mean something there, or hold a
value, and what to read between them."""

from __future__ import annotations

from collections.abc import Iterator

from records.entering import design_cautions as cautions
from records.entering.remark import Asked, Remark
from records.judgement.design.edition_note import edition_note
from records.model.job import Instrument, Job
from records.model.outbuilding import Feed
from records.model.record import Record
from records.model.supply import Origin
from records.terms import Earthing, OutbuildingEarth

PERSON = ("name", "duty")
INSTRUMENT = ("kind", "serial", "calibrated", "due", "uncertainty", "leads", "nulled")
BUYING = ("room", "allowance", "print_why", "why")
BOND = ("what", "csa", "length")
NOTICED = ("kind", "note")
MOST_LEADS = 1.0
"""Ω that test leads have at most: 0.05 to 0.3 Ω is common practice, with a fuse in them more."""
EDITION = (
    "Every limit in Farboard is that of BS 7671:2018+A2:2022, from secondary copies and memory, "
    "whatever is entered here. The certifier confirms them."
)


def job_asked(record: Record) -> Iterator[Asked]:
    """Yield what is asked of the job."""
    job = record.job
    yield ("reference", "place", "description", "edition")
    yield Remark(EDITION, urgent=job.edition != Job().edition)
    yield ("started", "ambient")
    note = edition_note(record)
    if note:  # after all that is there from the start: a figure typed on lands where it was
        yield Remark(note, urgent=not job.edition_settled)
        yield ("edition_settled",)
    yield cautions.of_notice(record)


def instrument_asked(meter: Instrument) -> Iterator[Asked]:
    """Yield what is asked of an instrument, and what becomes of its leads."""
    yield INSTRUMENT
    if meter.nulled is not False:
        return
    if meter.leads is None:
        yield Remark(
            "Join the tips and enter the lead resistance: till then it stays in each low reading.",
            urgent=True,
        )
    elif meter.leads > MOST_LEADS:
        yield Remark(
            f"{meter.leads:g} Ω is more than sound leads have: look at fuse and tips, and at "
            "the figure.",
            urgent=True,
        )
    elif meter.leads:
        yield Remark(
            f"{meter.leads:g} Ω is taken off each low-resistance reading from now on; those "
            "on record stay as they are."
        )


def origin_asked(origin: Origin) -> Iterator[Asked]:
    """Yield what is asked of the supply."""
    yield ("earthing",)
    yield from cautions.of_supply(origin)
    yield ("u0",)
    yield from cautions.of_voltage(origin)
    yield ("ze", "ze_ground")
    yield from cautions.of_figure(origin.ze_ground)
    yield ("fault_current", "fault_current_ground")
    yield from cautions.of_figure(origin.fault_current_ground)
    tncs = origin.earthing is Earthing.TN_C_S
    neutral = ("neutral_csa",) if tncs or origin.neutral_csa is not None else ()
    yield ("cutout", *neutral, "note")


def armour_asked(feed: Feed) -> Iterator[Asked]:
    """Yield what is asked of the armour of the feed, if it has one."""
    armoured = any(run.cable is not None and run.cable.is_armoured for run in feed.runs)
    if armoured or feed.armour_earthed is not None:
        yield ("armour_earthed",)


def earth_asked(record: Record) -> Iterator[Asked]:
    """Yield what is asked of the earth of the outbuilding."""
    board = record.board
    own = board.earth is OutbuildingEarth.OWN_ELECTRODE
    names = ["earth", "earthing_csa"]
    names += ["earthing_laid"] if own or board.earthing_laid is not None else []
    names += ["electrode"] if own else []
    names += ["metal_in_ground"]
    # Beside an exported earth too: then it is a mixture, and that has to be said.
    names += ["electrode"] if not own and (board.earth or board.electrode) else []
    yield tuple(names)
