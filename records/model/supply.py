"""What the feed starts from: the supply and the house board."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import Amperes, KiloAmperes, Ohms, Piece, SquareMillimetres, Text, Volts
from records.terms import Earthing, Word

NOMINAL = 230.0
"""V from line to earth of a public supply in Great Britain.

Electricity Safety, Quality and Continuity Regulations 2002, regulation 27."""


class Ground(Word):
    """How a supply figure is known."""

    MEASURED = "measured", "measured at the origin"
    DECLARED = "declared", "declared by the network operator"
    TYPICAL = "typical", "typical maximum, not yet confirmed"


class Origin(Piece):
    """The supply at the board that the feed starts from."""

    earthing: Earthing | None = Field(
        None,
        title="Earthing of the supply",
        description=(
            "Ask the network operator or the certifier if it is not marked at the intake."
        ),
    )
    u0: Volts = Field(NOMINAL, title="U0", description="Nominal voltage to earth.")
    ze: Ohms | None = Field(
        None,
        title="Ze",
        description=(
            "External earth fault loop impedance: the design value, before you measure it."
        ),
    )
    ze_ground: Ground | None = Field(None, title="Ze is")
    fault_current: KiloAmperes | None = Field(
        None,
        title="Fault current at origin",
        description="Highest prospective fault current at the origin: the design value.",
    )
    fault_current_ground: Ground | None = Field(None, title="Fault current is")
    neutral_csa: SquareMillimetres | None = Field(
        None,
        title="Supply neutral",
        description=(
            "Cross-section of the supplier's neutral, copper or its equal: with TN-C-S it sets the "
            "size of main bonding. Empty: 35 mm² at most, usual for 100 A."
        ),
    )
    cutout: Amperes | None = Field(
        None,
        title="Main (cut-out) fuse",
        description="Rating of the fuse in the intake, if it is known.",
    )
    note: Text = Field(
        "",
        title="Note",
        description=("Anything the certifier should know about the house board and its bonding."),
    )
