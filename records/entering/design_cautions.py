"""What a person must be told where the design is entered, in our own words, and when.

Grounds: BS 7671 Parts 4 and 5, the Electricity Safety, Quality and Continuity Regulations 2002, HSE
HSG47: all from memory, to be confirmed by a competent person.
"""

from __future__ import annotations

from collections.abc import Iterator

from records.entering.remark import Remark
from records.model.circuit import Circuit
from records.model.job import Duty
from records.model.record import Record
from records.model.supply import NOMINAL, Ground, Origin
from records.notices import SERVICES
from records.terms import Earthing, OutbuildingEarth

FOLLOW = "Follow local rules and a competent person."

PME = (
    "PME: if the supply's neutral breaks, all that is earthed to it can rise to a dangerous "
    "voltage. Outdoors, and where metal in the outbuilding touches the ground, that needs the "
    f"certifier's decision first. {FOLLOW}"
)
TT = (
    "TT: the loop goes through the ground and is far too high for a fuse or circuit-breaker. "
    f"Every circuit needs an RCD. A low loop here is a sign of a fault. {FOLLOW}"
)
PME_OUTDOORS = (
    "PME with metal in the ground or circuits outdoors: the certifier may ask for a separate "
    "electrode with an RCD. It takes the place of the house's earth. Decide with the certifier "
    f"before the cable is bought. {FOLLOW}"
)
ISLAND = (
    "Own electrode: the house's earth must end before the outbuilding. Armour, pipes and screens "
    "must not join the two. The armour is earthed at the house, so that a spade through it trips "
    "the feed. It ends at the outbuilding: cut back, insulated, labelled. Never the other way "
    f"round. The feed's switch breaks both poles. {FOLLOW}"
)
BONDS = (
    "Extraneous-conductive-parts (pipes, steel in the ground) are bonded where they come in. With "
    "PME not before the certifier has decided: the bond carries the supply's earth to the ground. "
    f"There the conductor is sized by the supply's neutral. {FOLLOW}"
)
NOTIFY = (
    "Ask building control, or a registered third-party certifier, BEFORE work starts. An "
    "electrician called at the end can't sign for wiring they didn't see. This is how it is in "
    f"England; other nations differ. {FOLLOW}"
)
AT_THE_HOUSE = (
    "Landing the feed in the house board is the certifier's: its tails stay live with the main "
    f"switch off. No seal is broken, no service fuse drawn. {FOLLOW}"
)
TYPICAL = (
    "A typical maximum is no reading and no promise: the operator may declare otherwise. All that "
    "follows from it waits for the live tests."
)
INTAKE = "Work at the intake, on the main (cut-out) fuse or its seals is not yours to do."


def of_supply(origin: Origin) -> Iterator[Remark]:
    """Yield what to know of the earthing of the supply that is entered."""
    if origin.earthing is Earthing.TN_C_S:
        yield Remark(PME, urgent=True)
    elif origin.earthing is Earthing.TT:
        yield Remark(TT, urgent=True)


def of_voltage(origin: Origin) -> Iterator[Remark]:
    """Yield what to know of a nominal voltage that is not the public one."""
    if origin.u0 != NOMINAL:
        yield Remark(
            f"A public supply has {NOMINAL:g} V from line to earth, whatever the meter shows. "
            "Every limit of Zs and of the voltage drop follows from this figure.",
            urgent=True,
        )


def of_figure(ground: Ground | None) -> Iterator[Remark]:
    """Yield what to know of a figure of the supply, by how it is known."""
    if ground is Ground.TYPICAL:
        yield Remark(TYPICAL, urgent=True)


def of_feed() -> Iterator[Remark]:
    """Yield what to know before the feed is laid and landed."""
    yield Remark(AT_THE_HOUSE, urgent=True)
    yield Remark(f"{SERVICES} {FOLLOW}")


def of_earth(record: Record) -> Iterator[Remark]:
    """Yield what to know of the earth of the outbuilding, as it is entered."""
    if record.board.earth is OutbuildingEarth.OWN_ELECTRODE:
        yield Remark(ISLAND, urgent=True)
        yield Remark(f"{SERVICES} {FOLLOW}", urgent=True)
    elif _pme_reaches_outside(record):
        yield Remark(PME_OUTDOORS, urgent=True)


def of_bonds(record: Record) -> Iterator[Remark]:
    """Yield what to know before metal is bonded."""
    if record.board.metal_in_ground:
        yield Remark(BONDS)


def of_circuit(record: Record, circuit: Circuit) -> Iterator[Remark]:
    """Yield what to know of a circuit where it is laid."""
    if circuit.outdoors and record.origin.earthing is Earthing.TN_C_S:
        yield Remark(PME_OUTDOORS, urgent=True)


def of_notice(record: Record) -> Remark:
    """Return that the work is notified first; urgent until somebody is named who certifies."""
    named = any(each.duty is Duty.CERTIFIES and each.name for each in record.job.people)
    return Remark(NOTIFY, urgent=not named)


def _pme_reaches_outside(record: Record) -> bool:
    outdoors = any(each.outdoors for each in record.circuits)
    pme = record.origin.earthing is Earthing.TN_C_S
    return pme and (outdoors or record.board.metal_in_ground is True)
