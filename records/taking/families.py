"""Tests that belong together: taken with one set-up, before the meter is changed over."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from itertools import groupby

from records.model.measurements import MEASUREMENTS, Measurement
from records.model.reading import Quantity
from records.terms import Part, Stage


class Family(StrEnum):
    """A run of tests with one set-up; the value is its heading."""

    EARTHS = "Feed, earthing and bonding"
    RING = "Ring final circuits"
    CONTINUITY = "R1+R2 of the circuits"
    INSULATION = "Insulation resistance"
    POLARITY = "Polarity"
    ELECTRODE = "Earth electrode"
    PUT_BACK = "Put back before it goes live"
    SUPPLY = "The supply at the origin"
    ZE = "Ze: the earth comes off"
    ENERGISE = "The board is made live"
    BOARD_LOOP = "Zdb and fault current at the board"
    LOOP = "Zs at the furthest points"
    RCD = "RCDs"
    LAST = "Reinstate and functional tests"


_BY_QUANTITY = {
    Quantity.EARTHING: Family.EARTHS,
    Quantity.BONDING: Family.EARTHS,
    Quantity.R1: Family.RING,
    Quantity.RN: Family.RING,
    Quantity.R2: Family.RING,
    Quantity.CROSS_LN: Family.RING,
    Quantity.CROSS_LE: Family.RING,
    Quantity.IR_LN: Family.INSULATION,
    Quantity.IR_LE: Family.INSULATION,
    Quantity.IR_NE: Family.INSULATION,
    Quantity.ELECTRODE: Family.ELECTRODE,
    Quantity.ELECTRODE_BACK: Family.ELECTRODE,
    Quantity.ELECTRODE_LOOP: Family.ELECTRODE,
    Quantity.ELECTRODE_LOOP_BACK: Family.ELECTRODE,
    Quantity.ARMOUR_OPEN: Family.ELECTRODE,
    Quantity.ARMOUR_EARTHED: Family.EARTHS,
    Quantity.R1_RN: Family.EARTHS,
    Quantity.PUT_BACK: Family.PUT_BACK,
    Quantity.ZE: Family.ZE,
    Quantity.EARTH_BACK: Family.ZE,
    Quantity.VOLTAGE: Family.ENERGISE,
    Quantity.ZDB: Family.BOARD_LOOP,
    Quantity.ZS: Family.LOOP,
    Quantity.RCD_TIME: Family.RCD,
    Quantity.RCD_BUTTON: Family.RCD,
    Quantity.SURGE: Family.LAST,
    Quantity.FUNCTION: Family.LAST,
    Quantity.R1_R2_CORE: Family.EARTHS,
    Quantity.R1_R2_ARMOUR: Family.EARTHS,
    Quantity.GLAND: Family.EARTHS,
    Quantity.R2_LONG: Family.CONTINUITY,
    Quantity.RN_R2: Family.CONTINUITY,
    Quantity.SWITCHED: Family.CONTINUITY,
    Quantity.IR_GROUP: Family.INSULATION,
    Quantity.VOLTAGE_LE: Family.ENERGISE,
    Quantity.VOLTAGE_NE: Family.ENERGISE,
    Quantity.RCD_IN_LOOP: Family.LOOP,
    Quantity.RCD_HALF: Family.RCD,
    Quantity.RCD_FIVE: Family.RCD,
    Quantity.RCD_RAMP: Family.RCD,
    Quantity.RCD_BEFORE: Family.RCD,
    Quantity.RCD_LOADED: Family.RCD,
    Quantity.AFDD_BUTTON: Family.RCD,
    Quantity.TIPS_JOINED: Family.INSULATION,
    Quantity.TIPS_APART: Family.INSULATION,
    Quantity.RING_CABLES: Family.RING,
    Quantity.LEADS_ZERO: Family.EARTHS,
    Quantity.IR_FOIL: Family.INSULATION,
    Quantity.RCD_ALONE: Family.RCD,
    Quantity.LOAD_CURRENT: Family.LAST,
    Quantity.VOLTAGE_LOADED: Family.LAST,
}


_POLARITY = {
    Part.ORIGIN: Family.SUPPLY,
    Part.BOARD: Family.ENERGISE,
    Part.CIRCUIT: Family.POLARITY,
}


def family(entry: Measurement) -> Family:
    """Return the family of a measurement.

    Raises:
        KeyError: If the catalogue has a quantity that no family has been given to.
    """
    if entry.quantity is Quantity.R1_R2:
        return Family.EARTHS if entry.part is Part.FEED else Family.CONTINUITY
    if entry.quantity is Quantity.POLARITY:
        return _POLARITY[entry.part]
    if entry.quantity in (Quantity.FAULT_LN, Quantity.FAULT_LE):
        return Family.SUPPLY if entry.part is Part.ORIGIN else Family.BOARD_LOOP
    return _BY_QUANTITY[entry.quantity]


def families(stage: Stage) -> Iterator[tuple[Family, tuple[Measurement, ...]]]:
    """Yield the families of a stage in the safe order of the catalogue.

    A family that the catalogue interrupts comes twice: the order is never changed to please a
    heading.
    """
    wanted = (each for each in MEASUREMENTS if stage in each.stages)
    for name, entries in groupby(wanted, family):
        yield name, tuple(entries)
