"""No table holds a figure that none of its readers can be brought to read."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from itertools import product
from typing import Any

import pytest

from records.errors import FarboardError
from records.tables import (
    cable_sizes,
    conductors,
    demand,
    devices,
    disconnection,
    drop,
    edition,
    glands,
    protective,
    ratings,
    testing,
)
from records.tables.table import Table, names, table
from records.terms import CableKind, DeviceKind, Earthing, Method, RcdStandard
from tests.tables.test_cells import forget

SIZES = (
    0.5,
    0.75,
    1.0,
    1.5,
    2.5,
    4.0,
    6.0,
    10.0,
    16.0,
    25.0,
    35.0,
    50.0,
    70.0,
    95.0,
    120.0,
    150.0,
    185.0,
    240.0,
    300.0,
)
YES_NO = (False, True)
VOLTAGES = (60.0, 150.0, 230.0, 300.0, 450.0, 600.0)
ONE_READS = (
    conductors.reactance,
    conductors.armour_loop_reactance,
    conductors.armour_ac_factor,
    devices.c_min,
    devices.c_max,
    disconnection.touch_voltage,
    disconnection.stable_electrode,
    ratings.ring_least_rating,
    ratings.ring_least_size,
    demand.typical_fault_current,
    demand.ring_load_at_end,
    demand.cooker_socket,
    testing.cold_limit_share,
    edition.limits_from,
    edition.current_text,
    edition.current_since,
    edition.withdrawn_on,
)
UNCERTAIN = (
    "insulation",
    "loop impedance",
    "low resistance",
    "earth electrode",
    "RCD time, of the limit",
)


def readers() -> Iterator[Any]:
    """Yield a call of each reader for all that a record can ask it."""
    yield from ONE_READS
    yield from _cables()
    yield from _devices()
    yield from _laying()
    for metal in ("copper", "steel"):
        yield partial(conductors.alpha, metal)
    for u0, one in product(VOLTAGES, YES_NO):
        yield partial(disconnection.final_circuit_time, u0, tt=one)
        yield partial(disconnection.other_circuit_time, tt=one)
        yield partial(testing.insulation_minimum, u0, extra_low=one)
        yield partial(testing.insulation_test_voltage, u0, extra_low=one)
        yield partial(disconnection.final_circuit_reach, sockets=one)
        yield partial(protective.least_separate, protected=one)
        yield partial(protective.least_buried_earthing, against_corrosion=one)
        yield partial(drop.drop_limit, lighting=one)
    for delayed, standard, residual in product(YES_NO, (None, *RcdStandard), (30.0, 100.0)):
        yield partial(
            disconnection.rcd_times,
            delayed=delayed,
            residual_ma=residual,
            standard=standard,
            delay=0.1,
        )
    for residual in (10.0, 30.0, 100.0, 300.0, 500.0):
        yield partial(disconnection.rcd_max_ra, residual)
    for earthing in Earthing:
        yield partial(demand.typical_ze, earthing)
    for side in ("above", "below"):
        yield partial(demand.supply_tolerance, side)
    for load in table("diversity").under():
        yield partial(demand.diversity, load)
    for gland in table("gland_outer").under():
        yield partial(glands.outer_seal, gland)
    for what in UNCERTAIN:
        yield partial(testing.worst_uncertainty, what)


def _cables() -> Iterator[Any]:
    yield partial(
        conductors.operating_temperature, "separate conductor", "not bunched with the cable"
    )
    yield protective.k_separate
    for cable in CableKind:
        yield partial(protective.k_live, cable)
        yield partial(protective.k_core, cable)
        yield partial(protective.k_armour, cable)
        for part in ("conductor", "armour"):
            yield partial(conductors.operating_temperature, part, cable.code)
        for across in (8.0, 12.0, 18.0, 30.0):
            yield partial(cable_sizes.clip_spacing, cable, across)
            yield partial(cable_sizes.least_bend, cable, 16.0 if across < 20 else 35.0, across)
        for size in SIZES:
            yield partial(drop.volt_drop, cable, size)
            yield partial(cable_sizes.overall, cable, 2, size)
            yield partial(cable_sizes.overall, cable, 3, size)
            for cores in (2, 3, 4):
                yield partial(glands.overall_diameter, cores, size)
                yield partial(conductors.armour_resistance, cable, cores, size)
                yield partial(conductors.armour_area, cable, cores, size)
            for method, as_70 in product(Method, YES_NO):
                yield partial(ratings.tabulated_rating, cable, method, size, as_70_degrees=as_70)
    for size in SIZES:
        yield partial(conductors.copper, size, flexible=True)
        yield partial(conductors.copper, size)
        yield partial(conductors.flat_cpc, size)
        yield partial(protective.least_bond_pme, size)
        yield partial(protective.least_bond, size)
        yield partial(protective.least_by_line, size)


def _devices() -> Iterator[Any]:
    for kind in DeviceKind:
        yield partial(devices.breaking_capacity, kind)
        yield partial(devices.highest_breaking, kind)
        yield partial(devices.breaker_band, kind)
        for in_ground in YES_NO:
            yield partial(ratings.device_factor, kind, in_ground=in_ground)
        for rating in (*devices.ratings(kind), 160.0, 200.0):
            yield partial(devices.breaker_thermal, kind, rating)
            yield partial(devices.fuse_curve, kind, rating)
            for time in (0.4, 5.0):
                yield partial(devices.max_zs, kind, rating, time, 230.0)
                yield partial(devices.max_zs, kind, rating, time, 240.0)
        for rating, fault in product((16.0, 40.0), (3000.0, 6000.0)):
            if kind.curve is not None:
                yield partial(protective.least_behind_class_3, kind.curve, rating, fault)


def _laying() -> Iterator[Any]:
    for celsius, ambient, in_ground in product((60.0, 70.0, 90.0), range(5, 75), YES_NO):
        yield partial(ratings.ambient_factor, celsius, float(ambient), in_ground=in_ground)
    for count, method, duct, gap in product(
        range(1, 21), Method, YES_NO, (0.0, 0.125, 0.25, 0.5, 1.0)
    ):
        yield partial(ratings.grouping_factor, count, method, in_duct=duct, gap_m=gap)
    for length in range(0, 600, 10):
        yield partial(ratings.insulation_factor, float(length))
    for step, duct in product(range(1, 35), YES_NO):
        yield partial(ratings.soil_factor, step / 10, in_duct=duct)
        yield partial(ratings.depth_factor, step / 20, in_duct=duct)


def test_every_figure_of_every_table_is_read_by_a_reader(monkeypatch):
    read: set[tuple[str, tuple[str, ...]]] = set()
    printed, source = Table.printed, Table.source

    def spy(page, *row):
        read.add((page.name, row))
        return printed(page, *row)

    def spy_source(page, *row):  # a factor of 1 for one circuit is cited, not printed
        read.add((page.name, row))
        return source(page, *row)

    monkeypatch.setattr(Table, "printed", spy)
    monkeypatch.setattr(Table, "source", spy_source)
    forget()
    for call in readers():
        with suppress(FarboardError):
            call()
    forget()

    unread = {(name, row) for name in names() for row in table(name).cells} - read
    assert unread == set()


@pytest.mark.parametrize("gap", [0.1, 0.124])
def test_a_gap_between_two_rows_counts_as_the_closer_one(gap):
    """BS 7671, Table 4C2, laid direct: 2 circuits touching 0.75 (from memory)."""
    assert ratings.grouping_factor(2, Method.D, gap_m=gap).value == 0.75
    assert ratings.grouping_factor(2, Method.D, gap_m=0.125).value == 0.85
    assert ratings.grouping_factor(2, Method.D, gap_m=3.0).value == 0.9
