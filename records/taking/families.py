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
    RING = "Ring circuits"
    CONTINUITY = "R1+R2 of the circuits"
    INSULATION = "Insulation"
    POLARITY = "Polarity"
    ELECTRODE = "Earth electrode"
    SUPPLY = "The supply at the origin"
    ENERGISE = "The board is made live"
    BOARD_LOOP = "Loop and fault current at the board"
    LOOP = "Loop at the far points"
    RCD = "RCDs"
    LAST = "Put back and try"


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
    Quantity.ZE: Family.SUPPLY,
    Quantity.EARTH_BACK: Family.SUPPLY,
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
    Quantity.IR_FOIL: Family.INSULATION,
    Quantity.RCD_ALONE: Family.RCD,
    Quantity.LOAD_CURRENT: Family.LAST,
    Quantity.VOLTAGE_LOADED: Family.LAST,
}


def family(entry: Measurement) -> Family:
    """Return the family of a measurement.

    Raises:
        KeyError: If the catalogue has a quantity that no family has been given to.
    """
    if entry.quantity is Quantity.R1_R2:
        return Family.EARTHS if entry.part is Part.FEED else Family.CONTINUITY
    if entry.quantity is Quantity.POLARITY:
        return Family.ENERGISE if entry.part is Part.BOARD else Family.POLARITY
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
