"""The feed to the outbuilding and the sub-board in it."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import MOST_IN_LIST, Amperes, Id, Metres, Piece, SquareMillimetres, Text
from records.model.wiring import Device, Rcd, Run
from records.terms import ArmourEarthed, EarthingLaid, FeedLoad, OutbuildingEarth


class Feed(Piece):
    """The distribution circuit from the house to the sub-board."""

    device: Device = Device.blank()
    rcd: Rcd = Rcd.blank()
    load: Amperes | None = Field(
        None,
        title="Ib of the feed",
        description=(
            "Design current after diversity, as you calculated it. Empty: calculated from the "
            "circuits. The feed carries at least its largest circuit."
        ),
    )
    loading: FeedLoad | None = Field(
        None,
        title="Feed loaded with",
        description=(
            "If Ib is empty. What runs together: the circuits marked so, the honest way for a "
            "workshop. Household diversity is for a whole dwelling. All circuits added up is on "
            "the safe side."
        ),
    )
    runs: tuple[Run, ...] = Field((), max_length=MOST_IN_LIST)
    armour_earthed: ArmourEarthed | None = Field(
        None,
        title="Armour earthed",
        description=(
            "At which end the armour of the feed is joined to an earth. With an electrode of the "
            "outbuilding's own: at the house only."
        ),
    )


class Bond(Piece):
    """A main bonding conductor in the outbuilding."""

    id: Id
    what: Text = Field("", title="What is bonded", description="Water pipe, oil line, steel frame.")
    csa: SquareMillimetres | None = Field(None, title="Size")
    length: Metres | None = Field(None, title="Length")

    @property
    def name(self) -> str:
        """How it is called: by what is bonded, or by its id while that isn't known."""
        return self.what or self.id


class Board(Piece):
    """The sub-board and the earthing at the outbuilding."""

    place: Text = Field("", title="Where the board is")
    main_switch: Amperes | None = Field(
        None, title="Main switch", description="Rating of the double-pole main switch."
    )
    rcd: Rcd = Rcd.blank()
    surge_protection: bool | None = Field(
        None,
        title="Surge protection fitted",
        description="It must come out for insulation tests, and go back.",
    )
    earth: OutbuildingEarth | None = Field(
        None,
        title="Earth of the outbuilding",
        description=(
            "Decide with the certifier before the cable is bought; never a mixture of both."
        ),
    )
    earthing_csa: SquareMillimetres | None = Field(
        None,
        title="Earthing conductor",
        description="From the electrode or the incoming armour gland to the earth bar.",
    )
    earthing_laid: EarthingLaid | None = Field(
        None,
        title="How it lies",
        description=(
            "In the ground it needs 16 mm² of copper if sheathed, 25 mm² if bare (Table 54.1)."
        ),
    )
    electrode: Text = Field(
        "", title="Electrode", description="Kind and number: two 1.2 m rods, joined."
    )
    metal_in_ground: bool | None = Field(
        None,
        title="Extraneous metal parts",
        description=(
            "Pipes, steel in the ground: extraneous-conductive-parts. Main bonding joins them to "
            "earth."
        ),
    )
    bonds: tuple[Bond, ...] = Field((), max_length=MOST_IN_LIST)
