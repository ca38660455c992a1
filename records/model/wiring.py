"""Devices and runs of cable: what feeds and circuits are made of."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import (
    Amperes,
    Count,
    Depth,
    Distance,
    KiloAmperes,
    Metres,
    MilliAmperes,
    Millimetres,
    Milliseconds,
    Piece,
    SoilResistivity,
    SquareMillimetres,
    Surroundings,
    Text,
)
from records.tables.reference_temperatures import AIR
from records.terms import CableKind, Cpc, DeviceKind, Method, RcdStandard, RcdType


class Device(Piece):
    """An overcurrent protective device."""

    kind: DeviceKind | None = Field(None, title="Protective device")
    rating: Amperes | None = Field(None, title="In", description="Rated current, from the label.")
    breaking: KiloAmperes | None = Field(
        None,
        title="Breaking capacity",
        description="From the label: a number in a box such as 6000 means 6 kA.",
    )


class Rcd(Piece):
    """A residual current device, or the RCD part of an RCBO."""

    residual: MilliAmperes | None = Field(
        None, title="RCD IΔn", description="Rated residual current; empty if there is no RCD here."
    )
    type: RcdType | None = Field(
        None,
        title="RCD type",
        description=(
            "AC, A, F or B, from the symbol on the device; not the curve of a circuit-breaker."
        ),
    )
    delayed: bool = Field(
        False,
        title="RCD delayed (S)",
        description="Whether it is a time-delayed, selective device.",
    )
    standard: RcdStandard | None = Field(
        None,
        title="RCD made to",
        description=(
            "From the label. One to BS 4293 or BS 7288 must open within 200 ms at IΔn, others "
            "within 300 ms. Empty: BS EN 61008-1 or BS EN 61009-1."
        ),
    )
    delay: Milliseconds | None = Field(
        None,
        title="Delay on the label",
        description="Of a delayed RCD to BS 4293: the time set or printed on it.",
    )


class Run(Piece):
    """One length of one cable in one set of surroundings."""

    where: Text = Field(
        "", title="Where it goes", description="A few words: through the loft, in the trench."
    )
    cable: CableKind | None = Field(None, title="Cable")
    cores: Count = Field(
        2,
        title="Cores",
        description=(
            "Insulated cores; the bare cpc of flat twin-and-earth is not one of them: 2 there."
        ),
    )
    csa: SquareMillimetres | None = Field(
        None, title="Line conductor", description="Cross-section of line and neutral."
    )
    cpc: Cpc | None = Field(None, title="What serves as cpc")
    cpc_csa: SquareMillimetres | None = Field(
        None,
        title="cpc size",
        description=(
            "Cross-section of the cpc core or separate conductor; empty: as the cable is made."
        ),
    )
    length: Metres | None = Field(
        None,
        title="Length",
        description="As clipped, with drops and bends; a ring: all the way round.",
    )
    method: Method | None = Field(
        None,
        title="Installation method",
        description=(
            "Reference method of BS 7671 Appendix 4. C clipped direct, D in the ground, 100–103 "
            "flat cable with thermal insulation."
        ),
    )
    ambient: Surroundings = Field(
        AIR,
        title="Ambient temperature",
        description=(
            "For the rating: hottest air round the cable; for a buried run, the ground (20 °C "
            "usual)."
        ),
    )
    grouped: Count = Field(
        1,
        title="Grouped circuits",
        description="How many loaded circuits lie together, this one included.",
    )
    insulated: Millimetres = Field(
        0.0,
        title="In thermal insulation",
        description=(
            "Length wholly surrounded by thermal insulation, more than the method itself has round "
            "it."
        ),
    )
    depth: Depth | None = Field(
        None,
        title="Depth",
        description=("Of a buried run, to its middle; empty: 0.7 m, which the ratings hold for."),
    )
    soil: SoilResistivity = Field(
        2.5,
        title="Soil resistivity",
        description="For a buried run; 2.5 K·m/W is what the tables take.",
    )
    duct: bool = Field(
        False,
        title="In a duct",
        description=("A buried run in a duct (D1), one cable in each duct; no: laid direct (D2)."),
    )
    gap: Distance = Field(
        0.0,
        title="Gap to the next cable",
        description="Of grouped buried cables or ducts, from one to the next; 0: touching.",
    )
    hot_terminals: bool = Field(
        False,
        title="Terminals marked for 90 °C",
        description=(
            "At both ends of 90 °C cable. Most are made for 70 °C: then it is rated as 70 °C cable."
        ),
    )
    protected: bool | None = Field(
        None,
        title="cpc protected from damage",
        description=(
            "Of a separate cpc: in conduit or trunking, or otherwise protected against mechanical "
            "damage."
        ),
    )
